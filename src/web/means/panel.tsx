/** "Means": hand cable, solenoid and air cylinder side by side on this survey, and what is recommended. */
import { useEffect } from 'react';
import type { MeansComparison } from '../../assessment/means/comparison.ts';
import type { TogetherState } from '../../assessment/hand-stop/states.ts';
import './means.css';
import { Part } from '../panels/part.tsx';
import { followDesk, useMeans } from './means.ts';
import { MeansTable, Word } from './table.tsx';

export default function MeansPanel() {
  useEffect(followDesk, []);
  const word = useMeans((state) => state.word);
  const trouble = useMeans((state) => state.trouble);
  const comparison = useMeans((state) => state.comparison);
  return (
    <div className="means-panel">
      <div role="status" data-means={word}>
        {word === 'slow' && (
          <p>
            <progress aria-label="Being compared" /> Being compared…
          </p>
        )}
        {word === 'working' && comparison === null && <p className="quiet">One moment…</p>}
        {trouble !== null && <p className="field-error">This could not be compared: {trouble}</p>}
      </div>
      {comparison !== null && <Compared comparison={comparison} />}
    </div>
  );
}

function Compared({ comparison }: { readonly comparison: MeansComparison }) {
  const { asked, columns, recommended, together } = comparison;
  return (
    <>
      <Part heading="Recommended">
        <p className="means-recommended">{recommended.words}</p>
        <ul className="means-reasons">
          {recommended.reasons.map((reason) => (
            <li key={reason}>{reason}</li>
          ))}
        </ul>
        <p className="quiet">The choice is yours: take another where there is a reason that no number shows. {asked}</p>
      </Part>
      <Part heading="The means side by side">
        <MeansTable columns={columns} recommended={recommended.column} />
      </Part>
      {together !== null && <Together states={together} />}
    </>
  );
}

function Together({ states }: { readonly states: readonly TogetherState[] }) {
  return (
    <Part heading="Both on one lever">
      <ul className="means-row">
        {states.map(({ words, verdict, because }) => (
          <li key={words}>
            <h4>{words}</h4>
            <Word verdict={verdict} />
            <p>{because}</p>
          </li>
        ))}
      </ul>
    </Part>
  );
}
