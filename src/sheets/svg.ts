/**
 * A drawing as SVG: a neutral tree of elements, which the screen renders with its own handles, and the same tree as text.
 *
 * Attribute names are those of SVG. Strokes carry their weight and dashes as attributes, never as a style sheet, so that
 * the strictest content policy lets them through. Coordinates are sheet millimetres, y turned down, rounded to 0.001 mm.
 */
import type { Drawing, Element, Fill, LineStyle, Part, Segment } from './drawing.ts';
import { inkOf, inks, type Colours, type Ink } from './inks.ts';
import type { Point } from './plane.ts';
import { CAPITAL_SHARE } from './text-width.ts';

export { inks } from './inks.ts';

export interface SvgNode {
  readonly tag: 'svg' | 'title' | 'desc' | 'g' | 'path' | 'text' | 'rect';
  readonly attributes: Readonly<Record<string, string>>;
  readonly children: readonly SvgNode[];
  /** Words inside; with words there are no children. */
  readonly words?: string;
  /** The part of the drawing that this is. */
  readonly name?: string;
}

const widths: Readonly<Record<LineStyle, string>> = {
  outline: '0.5',
  thin: '0.25',
  hidden: '0.25',
  centre: '0.25',
  ghost: '0.25',
  heavy: '0.7',
  dashed: '0.5',
  chain: '0.5',
  none: '0',
};

/** ISO 128-2: dash 12 d, gap 3 d, long dash 24 d (here 16 d, for small sheets), dot half d, with d the narrow width. */
const dashes: Readonly<Partial<Record<LineStyle, string>>> = {
  hidden: '2 0.75',
  centre: '4 0.75 0.2 0.75',
  ghost: '4 0.75 0.2 0.75 0.2 0.75',
  // Gaps a little wider than 3 d, so that the line reads as broken at arm's length.
  dashed: '3 1.5',
  chain: '5 1.2 0.5 1.2',
};

const FACE = "'Liberation Sans', Arial, Helvetica, 'DejaVu Sans', sans-serif";

export interface SvgOptions {
  readonly colours?: Colours;
  /** Written before every id, where two drawings share a page. */
  readonly idPrefix?: string;
}

/** The drawing as a tree; the root is `svg` with role img, a title and a description. */
export function svgTree(drawing: Drawing, options: SvgOptions = {}): SvgNode {
  const { colours = 'screen', idPrefix = '' } = options;
  const paint = (ink: Ink): string =>
    colours === 'screen' ? `var(--sheet-${ink}, ${inks.light[ink]})` : inks[colours][ink];
  const titleId = `${idPrefix}title`;
  const descriptionId = `${idPrefix}description`;
  const page = new Page(drawing, paint);
  return {
    tag: 'svg',
    attributes: {
      xmlns: 'http://www.w3.org/2000/svg',
      viewBox: `0 0 ${number(drawing.width)} ${number(drawing.height)}`,
      width: `${number(drawing.width)}mm`,
      height: `${number(drawing.height)}mm`,
      role: 'img',
      'aria-labelledby': `${titleId} ${descriptionId}`,
      fill: 'none',
      'stroke-linecap': 'round',
      'stroke-linejoin': 'round',
      'font-family': FACE,
    },
    children: [
      { tag: 'title', attributes: { id: titleId }, children: [], words: drawing.title },
      { tag: 'desc', attributes: { id: descriptionId }, children: [], words: drawing.sentences.join(' ') },
      {
        tag: 'rect',
        attributes: {
          class: 'sheet-paper',
          width: number(drawing.width),
          height: number(drawing.height),
          fill: paint('paper'),
        },
        children: [],
      },
      ...drawing.parts.map((part) => page.part(part)),
    ],
  };
}

/** The drawing as the text of a file. Equal drawings give equal bytes. */
export function svg(drawing: Drawing, options: SvgOptions = {}): string {
  return `${written(svgTree(drawing, { colours: 'light', ...options }), '')}\n`;
}

/** The drawing in sentences: its title, then what it shows. */
export function describe(drawing: Drawing): readonly string[] {
  return [drawing.title, ...drawing.sentences];
}

class Page {
  readonly #drawing: Drawing;
  readonly #paint: (ink: Ink) => string;

  constructor(drawing: Drawing, paint: (ink: Ink) => string) {
    this.#drawing = drawing;
    this.#paint = paint;
  }

  part(part: Part): SvgNode {
    const ink = this.#paint(inkOf[part.role]);
    const children: SvgNode[] = [];
    let look = '';
    let outline = '';
    let attributes: Record<string, string> = {};
    const flush = (): void => {
      if (outline !== '') children.push({ tag: 'path', attributes: { d: outline, ...attributes }, children: [] });
      outline = '';
    };
    for (const element of part.elements) {
      if (element.kind === 'text') {
        flush();
        children.push(this.#text(element, ink));
        continue;
      }
      const next = this.#look(element, ink);
      const nextLook = JSON.stringify(next);
      // Filled shapes stay apart: where two overlap, one path would leave a hole.
      if (nextLook !== look || next['fill'] !== undefined) flush();
      look = nextLook;
      attributes = next;
      outline += this.#outline(element);
    }
    flush();
    return { tag: 'g', attributes: { class: `sheet-${part.role}` }, children, name: part.name };
  }

  #look(element: Exclude<Element, { kind: 'text' }>, ink: string): Record<string, string> {
    const style: LineStyle = element.kind === 'hatch' ? 'thin' : element.style;
    const fill: Fill = 'fill' in element ? element.fill : 'none';
    const look: Record<string, string> = {};
    if (style !== 'none') {
      look['stroke'] = ink;
      look['stroke-width'] = element.kind === 'hatch' ? '0.18' : widths[style];
      const dash = dashes[style];
      if (dash !== undefined) {
        look['stroke-dasharray'] = dash;
        look['stroke-linecap'] = 'butt';
      }
    }
    if (fill === 'paper') look['fill'] = this.#paint('paper');
    if (fill === 'solid') look['fill'] = ink;
    if (fill === 'tint') {
      look['fill'] = ink;
      look['fill-opacity'] = '0.14';
    }
    return look;
  }

  #text(element: Extract<Element, { kind: 'text' }>, ink: string): SvgNode {
    const { at, align, angle, height, bold } = element;
    const x = number(at.x);
    const y = number(this.#drawing.height - at.y);
    const attributes: Record<string, string> = {
      x,
      y,
      'font-size': number(height / CAPITAL_SHARE),
      fill: ink,
      // A rim of paper keeps the words clear of lines behind them.
      stroke: this.#paint('paper'),
      'stroke-width': '0.9',
      'paint-order': 'stroke',
    };
    if (align !== 'start') attributes['text-anchor'] = align;
    if (bold) attributes['font-weight'] = '700';
    if (angle !== 0) attributes['transform'] = `rotate(${number((-angle * 180) / Math.PI)} ${x} ${y})`;
    return { tag: 'text', attributes, children: [], words: element.text };
  }

  #outline(element: Exclude<Element, { kind: 'text' }>): string {
    switch (element.kind) {
      case 'line':
        return `M${this.#at(element.from)}L${this.#at(element.to)}`;
      case 'hatch':
        return element.lines.map(([from, to]) => `M${this.#at(from)}L${this.#at(to)}`).join('');
      case 'polyline':
        return `M${element.points.map((p) => this.#at(p)).join('L')}${element.closed ? 'Z' : ''}`;
      case 'circle': {
        const { centre, radius } = element;
        const r = number(radius);
        const [left, right] = [-radius, radius].map((dx) => this.#at({ x: centre.x + dx, y: centre.y }));
        return `M${left}A${r} ${r} 0 1 1 ${right}A${r} ${r} 0 1 1 ${left}Z`;
      }
      case 'arc':
        return `M${this.#at(onCircle(element, element.from))}${this.#arc(element)}`;
      case 'path':
        return `M${this.#at(element.start)}${element.segments.map((segment) => this.#segment(segment)).join('')}${element.closed ? 'Z' : ''}`;
    }
  }

  #segment(segment: Segment): string {
    return 'centre' in segment
      ? `L${this.#at(onCircle(segment, segment.from))}${this.#arc(segment)}`
      : `L${this.#at(segment.to)}`;
  }

  #arc(arc: { centre: Point; radius: number; from: number; to: number }): string {
    const turn = arc.to - arc.from;
    const large = Math.abs(turn) > Math.PI ? 1 : 0;
    const sweep = turn > 0 ? 0 : 1;
    return `A${number(arc.radius)} ${number(arc.radius)} 0 ${large} ${sweep} ${this.#at(onCircle(arc, arc.to))}`;
  }

  #at({ x, y }: Point): string {
    return `${number(x)} ${number(this.#drawing.height - y)}`;
  }
}

function onCircle({ centre, radius }: { centre: Point; radius: number }, angle: number): Point {
  return { x: centre.x + radius * Math.cos(angle), y: centre.y + radius * Math.sin(angle) };
}

/**
 * Rounded to 0.001, without needless zeros.
 *
 * @throws RangeError the number is not finite: a mistake in the drawing, which must not reach a person
 */
export function number(value: number): string {
  if (!Number.isFinite(value)) throw new RangeError(`a drawing holds ${value} where a number of millimetres belongs`);
  const rounded = Math.round(value * 1000) / 1000;
  return String(rounded === 0 ? 0 : rounded);
}

function written(node: SvgNode, indent: string): string {
  const attributes = [
    ...(node.name === undefined ? [] : [['id', node.name] as const]),
    ...Object.entries(node.attributes),
  ]
    .map(([name, value]) => ` ${name}="${escaped(value)}"`)
    .join('');
  if (node.words !== undefined) return `${indent}<${node.tag}${attributes}>${escaped(node.words)}</${node.tag}>`;
  if (node.children.length === 0) return `${indent}<${node.tag}${attributes}/>`;
  const inside = node.children.map((child) => written(child, `${indent}  `)).join('\n');
  return `${indent}<${node.tag}${attributes}>\n${inside}\n${indent}</${node.tag}>`;
}

const entities: Readonly<Record<string, string>> = {
  '&': '&amp;',
  '<': '&lt;',
  '>': '&gt;',
  '"': '&quot;',
  "'": '&#39;',
};

/** Text made safe inside an element and inside quoted attributes; what XML 1.0 cannot carry becomes U+FFFD. */
export function escaped(text: string): string {
  return text
    .replaceAll(/[^\t\n\r\u{20}-\u{D7FF}\u{E000}-\u{FFFD}\u{10000}-\u{10FFFF}]/gu, '\u{FFFD}')
    .replaceAll(/[&<>"']/g, (letter) => entities[letter] ?? letter);
}
