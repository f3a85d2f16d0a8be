/** What went wrong, what is safe, and the one next act. */
import type { Trouble } from '../keeping/api.ts';
import { placeName } from '../survey/labels.ts';

const MOST_PROBLEMS = 20;

export function TroubleWords({ trouble }: { readonly trouble: Trouble }) {
  const problems = trouble.problems ?? [];
  return (
    <div className="trouble" role="alert">
      <p>
        <b>{trouble.what}</b> {trouble.safe} {trouble.next}
      </p>
      {problems.length > 0 && (
        <ul>
          {problems.slice(0, MOST_PROBLEMS).map(({ path, read, problem }) => (
            <li key={path + problem}>
              {path !== '' && <b title={path}>{placeName(path)}: </b>}
              {problem} <span className="quiet">(read {read})</span>
            </li>
          ))}
          {problems.length > MOST_PROBLEMS && <li>and {problems.length - MOST_PROBLEMS} more</li>}
        </ul>
      )}
    </div>
  );
}
