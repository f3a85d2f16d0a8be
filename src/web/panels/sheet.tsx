/** A place on the page that a drawing is put into from outside, with whatever lies over it. */
import { useLayoutEffect, useRef, type ReactNode } from 'react';

interface SheetProps<Which extends string> {
  readonly which: Which;
  /** Told where the drawing is to be shown; null when the place goes. */
  readonly showIn: (which: Which, host: Element | null) => void;
  readonly className?: string;
  readonly children?: ReactNode;
}

export function Sheet<Which extends string>({ which, showIn, className = '', children }: SheetProps<Which>) {
  const host = useRef<HTMLDivElement>(null);
  useLayoutEffect(() => {
    showIn(which, host.current);
    return () => showIn(which, null);
  }, [which, showIn]);
  return (
    <div className={`sheet ${className}`.trim()}>
      <div className="sheet-drawing" ref={host} />
      {children}
    </div>
  );
}
