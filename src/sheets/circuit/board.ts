/**
 * Where the parts of a circuit are put down: symbols with their words, wires, nodes with their volts. Laid out from the
 * top left corner downwards, y below zero; `finish` moves all of it onto a sheet of the height that came out.
 */
import { arrowHead, circle, line, part, text, type Drawing, type Element, type Part, type Role } from '../drawing.ts';
import { plus, point, polar, type Box, type Point } from '../plane.ts';
import { fitted, linesOf } from '../text-width.ts';
import { moved } from '../title-block.ts';
import type { Item } from './items.ts';
import { symbol } from './symbols.ts';

/** A place that leads to a field when it is tapped, mm on the sheet. */
export interface CircuitTarget {
  /** The part of the drawing. */
  readonly name: string;
  readonly words: string;
  readonly path: string;
  readonly box: Box;
}

export const LETTERS = 2.5;
export const LINE_STEP = 3.9;

export class Board {
  readonly #parts: Part[] = [];
  readonly #targets: CircuitTarget[] = [];
  readonly #wires: { readonly live: Element[]; readonly still: Element[] } = { live: [], still: [] };

  wire(from: Point, to: Point, isLive: boolean): void {
    (isLive ? this.#wires.live : this.#wires.still).push(line(isLive ? 'heavy' : 'thin', from, to));
  }

  /** An arrow head on the wire, pointing with the current. */
  arrow(at: Point, heading: number): void {
    this.#wires.live.push(arrowHead(at, polar(1, heading), 4.6));
  }

  symbol(item: Item, at: Point, heading: number, reach: number, side: 1 | -1): void {
    const style = item.isLive ? 'heavy' : 'thin';
    const turned = item.isTurned ? heading + Math.PI : heading;
    const elements = symbol(item.kind, { at, heading: turned, reach, side, style, isOpen: item.isOpen });
    this.#parts.push(part(item.id, roleOf(item), elements));
  }

  /** Name in up to two lines, then the details, starting at the given base line; returns how many lines there are. */
  words(item: Item, at: Point, width: number, align: 'start' | 'middle', details = item.details): number {
    const lines = [...nameLines(item.name, width), ...details.map((one) => fitted(one, width, LETTERS))];
    this.#words(`words-${item.id}`, item.fails ? 'fails' : 'words', lines, at, align);
    return lines.length;
  }

  /** Details alone, centred below a symbol. */
  details(item: Item, at: Point, width: number): void {
    const lines = item.details.map((one) => fitted(one, width, LETTERS));
    if (lines.length > 0) this.#words(`details-${item.id}`, item.fails ? 'fails' : 'words', lines, at, 'middle');
  }

  lines(name: string, role: Role, lines: readonly string[], at: Point, bold = false): void {
    if (lines.length > 0) this.#words(name, role, lines, at, 'start', bold);
  }

  #words(
    name: string,
    role: Role,
    lines: readonly string[],
    at: Point,
    align: 'start' | 'middle',
    bold = false,
    height = LETTERS,
  ): void {
    const elements = lines.map((words, i) => text(plus(at, point(0, -i * LINE_STEP)), words, { align, bold, height }));
    this.#parts.push(part(name, role, elements));
  }

  title(lines: readonly string[], at: Point): void {
    this.#parts.push(
      part(
        'title',
        'words',
        lines.map((words, i) => text(plus(at, point(0, -i * 5.2)), words, { height: 3.5, bold: true })),
      ),
    );
  }

  /** A dot on the wire and its volts. */
  node(name: string, at: Point, words: string, textAt: Point, align: 'middle' | 'end', isLive: boolean): void {
    this.#parts.push(
      part(`node-${name}`, isLive ? 'now' : 'words', [
        circle('none', at, 0.75, 'solid'),
        text(textAt, words, { align, height: LETTERS }),
      ]),
    );
  }

  amps(name: string, words: string, at: Point): void {
    this.#parts.push(part(`amps-${name}`, 'now', [text(at, words, { height: LETTERS, bold: true })]));
  }

  /** A letter that stands for the same place elsewhere on the sheet. */
  reference(name: string, letter: string, at: Point): void {
    this.#parts.push(
      part(`reference-${name}`, 'words', [
        circle('thin', plus(at, point(0, 1.25)), 2.1, 'paper'),
        text(at, letter, { align: 'middle', height: LETTERS, bold: true }),
      ]),
    );
  }

  target(item: { readonly id: string; readonly name: string; readonly path: string }, box: Box): void {
    this.#targets.push({ name: item.id, words: item.name, path: item.path, box });
  }

  finish(width: number, bottom: number): Pick<Drawing, 'parts' | 'height'> & { targets: CircuitTarget[] } {
    const height = Math.ceil(-bottom);
    const wires = [part('wires', 'mechanism', this.#wires.still), part('current', 'now', this.#wires.live)];
    const all = [...wires.filter(({ elements }) => elements.length > 0), ...this.#parts];
    const up = point(0, height);
    return {
      height,
      parts: moved({ parts: all }, up, ''),
      targets: this.#targets.map(({ box, ...target }) => ({
        ...target,
        box: { left: box.left, right: box.right, bottom: box.bottom + height, top: box.top + height },
      })),
    };
  }
}

function roleOf({ fails, isLive }: Item): Role {
  return fails ? 'fails' : isLive ? 'now' : 'mechanism';
}

/** At most two lines; what does not fit is cut with "…". */
export function nameLines(name: string, width: number): string[] {
  const [first = '', ...rest] = linesOf(name, width, LETTERS);
  const second = rest.join(' ');
  return [fitted(first, width, LETTERS), ...(second === '' ? [] : [fitted(second, width, LETTERS)])];
}
