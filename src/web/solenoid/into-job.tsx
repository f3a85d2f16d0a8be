/** Offers the solved curve to the job, as one step that can be undone there. */
import { useState } from 'react';
import { useDesk } from '../desk/desk.ts';
import { propose } from '../desk/proposals.ts';
import { useBench } from './bench.ts';
import { intoJob, tablesOf } from './job-tables.ts';
import { leaveSolenoid } from './place.ts';

export function IntoJob() {
  const curves = useBench((state) => (state.solving.word === 'solved' ? (state.outcome?.forJob ?? null) : null));
  const means = useDesk((state) => state.document?.means ?? null);
  const [taken, setTaken] = useState<readonly string[]>(['pull-in']);
  const [done, setDone] = useState<string | null>(null);
  if (curves === null || curves.length === 0) return null;
  if (means?.kind !== 'solenoid')
    return (
      <p className="quiet solenoid-into">
        The open job works by {means?.kind ?? 'nothing yet'}, which has no force curve.
      </p>
    );
  const chosen = curves.filter(({ stage }) => taken.includes(stage));
  const use = async () => {
    const words = chosen.map((curve) => curve.words).join(' and ');
    await propose({ name: `Curve from the field solve: ${words}`, changes: (job) => intoJob(job, chosen) });
    setDone(words);
  };
  return (
    <section className="solenoid-into" aria-label="Use this curve in the job">
      <h3>Use this curve in the job</h3>
      {curves.map((curve) => {
        const { solved, read } = tablesOf(means, curve.stage);
        return (
          <label key={curve.words} className="option">
            <input
              type="checkbox"
              checked={taken.includes(curve.stage)}
              onChange={({ target }) =>
                setTaken(target.checked ? [...taken, curve.stage] : taken.filter((stage) => stage !== curve.stage))
              }
            />
            <span>
              {curve.words}
              <span className="quiet">
                {' '}
                {solved > 0 ? 'takes the place of the solved table there' : 'a further table'}
                {read > 0
                  && `; ${read === 1 ? 'the table' : `${read} tables`} that ${read === 1 ? 'was' : 'were'} read stay${read === 1 ? 's' : ''}`}
              </span>
            </span>
          </label>
        );
      })}
      <div className="solenoid-into-acts">
        <button type="button" className="strong" disabled={chosen.length === 0} onClick={() => void use()}>
          Use in the job
        </button>
        {done !== null && (
          <span role="status">
            {done}: now in the job, as one step that can be undone there.{' '}
            <button type="button" className="small" onClick={leaveSolenoid}>
              Back to the job
            </button>
          </span>
        )}
      </div>
    </section>
  );
}
