/** One headed part of a panel; a line stands between two of them. */
import { useId, type ReactNode } from 'react';
import './part.css';

export function Part({ heading, children }: { readonly heading: string; readonly children: ReactNode }) {
  const id = useId();
  return (
    <section className="panel-part" aria-labelledby={id}>
      <h3 id={id}>{heading}</h3>
      {children}
    </section>
  );
}
