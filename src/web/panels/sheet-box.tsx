/** A drawing in a panel, where one has been made. */
import { useLayoutEffect, useRef } from 'react';
import type { SvgNode } from '../../sheets/svg.ts';
import { showSheet } from '../drawings/sheet-view.ts';

export function SheetBox({ className, tree }: { readonly className: string; readonly tree: SvgNode | null }) {
  const host = useRef<HTMLDivElement>(null);
  useLayoutEffect(() => {
    if (host.current === null) return;
    if (tree === null) host.current.replaceChildren();
    else showSheet(host.current, tree);
  }, [tree]);
  return <div className={className} ref={host} hidden={tree === null} />;
}
