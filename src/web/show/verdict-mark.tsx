/** The mark of a verdict: its own sign on its own hatch, so that colour is never needed to tell them apart. */
import type { Verdict } from '../../assessment/finding.ts';

const hatches: Readonly<Record<Verdict, string>> = {
  holds: '',
  thin: 'M-2 10 10 -2M-2 18 18 -2M-2 26 26 -2M6 26 26 6M14 26 26 14',
  fails:
    'M-2 6 6 -2M-2 12 12 -2M-2 18 18 -2M-2 24 24 -2M0 28 28 0M6 28 28 6M12 28 28 12M18 28 28 18M18 -2 26 6M12 -2 26 12M6 -2 26 18M0 -2 26 24M-2 2 22 26M-2 8 16 26M-2 14 10 26M-2 20 4 26',
  'not known': 'M4 4h.1M12 4h.1M20 4h.1M8 9h.1M16 9h.1M4 14h.1M20 14h.1M8 19h.1M16 19h.1M12 22h.1',
};

const signs: Readonly<Record<Verdict, string>> = {
  holds: 'M6 12.5 10.2 17 18 7.5',
  thin: 'M12 6v7.5M12 17.6v.1',
  fails: 'M7 7 17 17M17 7 7 17',
  'not known': 'M8.6 9.4a3.4 3.4 0 1 1 5 3c-1.2.7-1.6 1.3-1.6 2.3M12 18.1v.1',
};

export function VerdictMark({ verdict, size = 28 }: { readonly verdict: Verdict; readonly size?: number }) {
  return (
    <svg
      className={`mark mark-${verdict.replace(' ', '-')}`}
      viewBox="0 0 24 24"
      width={size}
      height={size}
      aria-hidden="true"
    >
      <rect className="mark-ground" x="1" y="1" width="22" height="22" rx="3" />
      <path className="mark-hatch" d={hatches[verdict]} />
      <circle className="mark-eye" cx="12" cy="12" r="8.6" />
      <path className="mark-sign" d={signs[verdict]} />
      <rect className="mark-edge" x="1" y="1" width="22" height="22" rx="3" />
    </svg>
  );
}
