/** A drawing in a panel, where one has been made. */
import { useLayoutEffect, useRef, type RefObject } from 'react';
import type { SvgNode } from '../../sheets/svg.ts';
import { showSheet } from '../drawings/sheet-view.ts';

/** Where a drawing stands: shows it, and nothing where none has been made. */
export function useSheet(tree: SvgNode | null): RefObject<HTMLDivElement | null> {
  const host = useRef<HTMLDivElement>(null);
  useLayoutEffect(() => {
    if (host.current === null) return;
    if (tree === null) host.current.replaceChildren();
    else showSheet(host.current, tree);
  }, [tree]);
  return host;
}

export function SheetBox({ className, tree }: { readonly className: string; readonly tree: SvgNode | null }) {
  const host = useSheet(tree);
  return <div className={className} ref={host} hidden={tree === null} />;
}
