/** On paper: which job and version this is, and the cautions in full. */
import { useDesk } from '../desk/desk.ts';

const cautions = [
  'Isolate fuel and battery before hands go near the lever: it is moved by springs and by a solenoid that can act without warning, and the engine may start.',
  'Keep clear of rotating parts and hot surfaces. Let a coil that was held on cool before it is touched.',
  'A rack that sticks can overspeed an engine. Prove that it moves freely before the engine is run, and have a second way to stop it at hand.',
  'A solenoid is no emergency stop on its own. A hand stop that works without electricity stays fitted, and is tried at every proving.',
  'Where flammable vapour may gather, a competent person decides on everything electrical.',
  "These results support, and never replace, the engine maker's data, local codes, class or transport rules, and the judgement of a licensed or competent person.",
];

export function PrintedCautions() {
  const job = useDesk((state) => state.job);
  const keeping = useDesk((state) => state.keeping.word);
  return (
    <section className="printed-cautions" aria-hidden="true">
      {job !== null && (
        <p>
          {job.name} · version {job.head} · {new Date(job.changedAt).toLocaleString()}
          {keeping !== 'kept' && ' · NOT all changes on this sheet are kept yet'}
        </p>
      )}
      <h2>Cautions</h2>
      <ul>
        {cautions.map((caution) => (
          <li key={caution}>{caution}</li>
        ))}
      </ul>
    </section>
  );
}
