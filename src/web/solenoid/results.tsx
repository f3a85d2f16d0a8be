/** What the solve says in words and numbers: contradictions first, then the next reading, then the coil. */
import { useBench } from './bench.ts';
import type { Said } from './outcome.ts';

const headings: Readonly<Record<Said['kind'], string>> = {
  contradiction: 'Does not agree',
  next: 'Next reading',
  caution: 'Note',
};

export function SaidWords() {
  const said = useBench((state) => state.outcome?.said ?? none);
  if (said.length === 0) return null;
  return (
    <ul className="solenoid-said" aria-label="What the readings say">
      {said.map(({ kind, words }) => (
        <li key={words} className={`solenoid-said-${kind}`}>
          <b>{headings[kind]}.</b> {words}
        </li>
      ))}
    </ul>
  );
}

const none: readonly never[] = [];

export function Facts() {
  const facts = useBench((state) => state.outcome?.facts ?? none);
  if (facts.length === 0) return null;
  return (
    <dl className="solenoid-facts" aria-label="Coil and solve in numbers">
      {facts.map(({ name, value, note }) => (
        <div key={name + note}>
          <dt>{name}</dt>
          <dd>{value}</dd>
          {note !== '' && <dd className="quiet">{note}</dd>}
        </div>
      ))}
    </dl>
  );
}
