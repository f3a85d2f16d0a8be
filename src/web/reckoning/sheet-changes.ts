/** Between two drawings of one sheet most parts are the same: only what differs crosses from the worker to the page. */
import type { SvgNode } from '../../sheets/svg.ts';

/** A part that is as it was in the sheet sent before. */
export interface SamePart {
  readonly same: string;
}

export type SheetPart = SvgNode | SamePart;

export interface SentSheet extends Omit<SvgNode, 'children'> {
  readonly children: readonly SheetPart[];
}

export function isSame(part: SheetPart): part is SamePart {
  return 'same' in part;
}

/** Leaves out the named parts that `before` has in the same form. */
export function changesOf(sheet: SvgNode, before: SvgNode | null): SentSheet {
  if (before === null) return sheet;
  const known = new Map(before.children.map((part) => [part.name, part]));
  const children = sheet.children.map((part): SheetPart => {
    const old = part.name === undefined ? undefined : known.get(part.name);
    return part.name !== undefined && old !== undefined && isAlike(part, old) ? { same: part.name } : part;
  });
  return { ...sheet, children };
}

function isAlike(a: SvgNode, b: SvgNode): boolean {
  if (a.tag !== b.tag || a.words !== b.words || a.children.length !== b.children.length) return false;
  const names = Object.keys(a.attributes);
  if (names.length !== Object.keys(b.attributes).length) return false;
  if (names.some((name) => a.attributes[name] !== b.attributes[name])) return false;
  return a.children.every((child, i) => {
    const other = b.children[i];
    return other !== undefined && isAlike(child, other);
  });
}
