/**
 * Keeps an SVG on the screen equal to a drawing. Only what differs from the last drawing is touched, so that a lever that
 * swings costs the moving parts and not the sheet.
 */
import type { SvgNode } from '../../sheets/svg.ts';

const SVG = 'http://www.w3.org/2000/svg';

const shown = new WeakMap<Element, SvgNode>();

/** Makes the children of `host` the drawing, which is one `svg` element. */
export function showSheet(host: Element, sheet: SvgNode): void {
  const old = host.firstElementChild;
  if (old !== null && shown.has(old)) update(old, sheet);
  else host.replaceChildren(made(sheet));
}

function made(node: SvgNode): Element {
  const element = document.createElementNS(SVG, node.tag);
  for (const [name, value] of Object.entries(node.attributes)) if (name !== 'xmlns') element.setAttribute(name, value);
  if (node.name !== undefined) element.setAttribute('data-part', node.name);
  if (node.words === undefined) element.append(...node.children.map(made));
  else element.textContent = node.words;
  shown.set(element, node);
  return element;
}

function update(element: Element, node: SvgNode): void {
  const before = shown.get(element);
  if (before === undefined || before.tag !== node.tag || before.name !== node.name) {
    element.replaceWith(made(node));
    return;
  }
  if (before === node) return;
  for (const name of Object.keys(before.attributes)) if (!(name in node.attributes)) element.removeAttribute(name);
  for (const [name, value] of Object.entries(node.attributes)) {
    if (before.attributes[name] !== value) element.setAttribute(name, value);
  }
  if (node.words !== undefined) {
    if (before.words !== node.words) element.textContent = node.words;
  } else {
    updateChildren(element, before, node);
  }
  shown.set(element, node);
}

function updateChildren(element: Element, before: SvgNode, node: SvgNode): void {
  if (before.words !== undefined) element.textContent = '';
  const children = [...element.children];
  // Parts are found again by name where one came or went, so that the others stay.
  const named = new Map(
    children.flatMap((child) => (shown.get(child)?.name === undefined ? [] : [[shown.get(child)!.name, child]])),
  );
  let isInOrder = children.length === node.children.length;
  const next = node.children.map((child, i) => {
    const there = child.name === undefined ? children[i] : named.get(child.name);
    const fits = there !== undefined && shown.get(there)?.tag === child.tag && shown.get(there)?.name === child.name;
    if (!fits) {
      isInOrder = false;
      return made(child);
    }
    update(there, child);
    if (children[i] !== there) isInOrder = false;
    return there;
  });
  if (!isInOrder) element.replaceChildren(...next);
}
