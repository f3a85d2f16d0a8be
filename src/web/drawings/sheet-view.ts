/**
 * Keeps an SVG on the screen equal to a drawing. Only what differs from the last drawing is touched, so that a lever that
 * swings costs the moving parts and not the sheet.
 */
import type { SvgNode } from '../../sheets/svg.ts';
import { isSame, type SentSheet } from '../reckoning/sheet-changes.ts';

const SVG = 'http://www.w3.org/2000/svg';

const shown = new WeakMap<Element, Omit<SvgNode, 'children'>>();

/** Makes the one child of `host` the drawing. Parts that are sent as "the same" must be there from the call before. */
export function showSheet(host: Element, sheet: SentSheet): void {
  let root = host.firstElementChild;
  if (root === null || !shown.has(root)) {
    root = made({ ...sheet, children: [] });
    host.replaceChildren(root);
  }
  setAttributes(root, shown.get(root)?.attributes ?? {}, sheet.attributes);
  shown.set(root, sheet);
  const there = [...root.children];
  const named = new Map(there.map((element) => [shown.get(element)?.name, element]));
  const next = sheet.children.map((part, i) => {
    if (isSame(part)) return named.get(part.same) ?? made({ tag: 'g', attributes: {}, children: [] });
    const old = part.name === undefined ? there[i] : named.get(part.name);
    return old === undefined ? made(part) : updated(old, part);
  });
  if (next.length !== root.children.length || next.some((element, i) => root.children[i] !== element)) {
    root.replaceChildren(...next);
  }
}

function made(node: SvgNode): Element {
  const element = document.createElementNS(SVG, node.tag);
  setAttributes(element, {}, node.attributes);
  if (node.name !== undefined) element.setAttribute('data-part', node.name);
  if (node.words === undefined) element.append(...node.children.map(made));
  else element.textContent = node.words;
  shown.set(element, node);
  return element;
}

/** The element, made equal to the node; another where it cannot be. */
function updated(element: Element, node: SvgNode): Element {
  const before = shown.get(element);
  if (before === undefined || before.tag !== node.tag || before.name !== node.name) return made(node);
  setAttributes(element, before.attributes, node.attributes);
  if (node.words !== undefined) {
    if (before.words !== node.words) element.textContent = node.words;
  } else {
    const old = [...element.children];
    const next = node.children.map((child, i) => {
      const there = old[i];
      return there === undefined ? made(child) : updated(there, child);
    });
    if (next.length !== old.length || next.some((child, i) => child !== old[i])) element.replaceChildren(...next);
  }
  shown.set(element, node);
  return element;
}

type Attributes = Readonly<Record<string, string>>;

function setAttributes(element: Element, before: Attributes, after: Attributes): void {
  for (const name of Object.keys(before)) if (!(name in after)) element.removeAttribute(name);
  for (const [name, value] of Object.entries(after)) {
    if (before[name] !== value && name !== 'xmlns') element.setAttribute(name, value);
  }
}
