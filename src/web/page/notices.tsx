/** What a person should know now: other versions of this job, a newer one elsewhere, what was just done. */
import { put, say, useDesk } from '../desk/desk.ts';
import { openJob } from '../desk/come-and-go.ts';

export function Notices() {
  const branches = useDesk((state) => state.branches);
  const newer = useDesk((state) => state.newer);
  const job = useDesk((state) => state.job);
  const notice = useDesk((state) => state.notice);
  const other = branches[0];
  return (
    <div className="notices">
      {newer !== null && job !== null && (
        <p className="notice" role="status">
          <b>Another window has kept a newer version of this job.</b> Nothing on this screen is lost.{' '}
          <button type="button" className="small" onClick={() => void openJob(job.id)}>
            Show the newer one
          </button>
        </p>
      )}
      {other !== undefined && (
        <p className="notice" role="status">
          <b>There are {branches.length + 1} versions of this job side by side.</b> Both are kept: it was changed in two
          places at once.{' '}
          <button type="button" className="small" onClick={() => put({ merging: other.id })}>
            Look at both
          </button>
        </p>
      )}
      {notice !== null && (
        <p className="notice notice-passing" role="status">
          {notice.words}{' '}
          {notice.act !== undefined && (
            <button
              type="button"
              className="small"
              onClick={() => {
                notice.act?.run();
                say(null);
              }}
            >
              {notice.act.words}
            </button>
          )}{' '}
          <button type="button" className="small" aria-label="Close this notice" onClick={() => say(null)}>
            Close
          </button>
        </p>
      )}
    </div>
  );
}
