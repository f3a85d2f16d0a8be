/** What the exit code of a command means to a script. */
import type { Verdict } from '../assessment/finding.ts';

export const verdictCode: Record<Verdict, number> = { holds: 0, thin: 1, fails: 2, 'not known': 3 };
/** EX_USAGE and EX_DATAERR of sysexits(3). */
export const WRONG_USAGE = 64;
export const UNREADABLE = 65;

export const exitCodes =
  '0 all hold, 1 something is thin, 2 something fails,\n3 nothing fails but something is not known, 64 wrong usage, 65 unreadable job.';
