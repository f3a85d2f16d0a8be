/**
 * A request that is refused, or work that could not be kept, in plain words: what happened, what is safe, one next act.
 * Thrown anywhere below a route; app.ts turns it into the answer. Never carries a stack or a programmer's word to a person.
 */
import type { Problem, Refusal, RefusalReason } from '../job/exchange.ts';

const statusOf = {
  host: 421,
  origin: 403,
  token: 403,
  'content-type': 415,
  'body-too-large': 413,
  'body-unreadable': 400,
  'document-unreadable': 422,
  'not-found': 404,
  'id-in-use': 409,
  'session-full': 413,
  'disk-full': 507,
  'store-locked': 503,
  'store-read-only': 503,
  'store-gone': 503,
  'store-damaged': 500,
  'store-newer': 503,
  'store-failed': 503,
  unexpected: 500,
} as const satisfies Record<RefusalReason, number>;

export class Refused extends Error {
  readonly refusal: Refusal;

  constructor(reason: RefusalReason, what: string, safe: string, next: string, problems?: readonly Problem[]) {
    super(`${what} ${safe} ${next}`);
    this.name = 'Refused';
    this.refusal = { reason, what, safe, next, ...(problems && { problems }) };
  }

  get status(): (typeof statusOf)[RefusalReason] {
    return statusOf[this.refusal.reason];
  }
}

const nothingChanged = 'Nothing was changed; everything kept before is still kept.';

export function notFound(what: string, next = 'Go back to the list of jobs and open it from there.'): Refused {
  return new Refused('not-found', what, nothingChanged, next);
}

export function idInUse(): Refused {
  return new Refused(
    'id-in-use',
    'Something else was already kept under this id.',
    'What was kept under it stays as it is.',
    'Save again with a new id.',
  );
}

export function bodyUnreadable(what: string, problems?: readonly Problem[]): Refused {
  return new Refused('body-unreadable', what, nothingChanged, 'Reload the page and try again.', problems);
}

export function bodyTooLarge(largestBytes: number): Refused {
  return new Refused(
    'body-too-large',
    `This is larger than the ${Math.floor(largestBytes / 2 ** 20)} MB that one job may have.`,
    nothingChanged,
    'Check that this is the right file.',
  );
}

export function documentUnreadable(problems: readonly Problem[]): Refused {
  const count = problems.length === 1 ? 'one problem' : `${problems.length} problems`;
  return new Refused(
    'document-unreadable',
    `This cannot be read as a job: ${count} found.`,
    'Nothing was taken in, and no job was changed.',
    'Correct the places listed and try again.',
    problems,
  );
}

export function unexpected(): Refused {
  return new Refused(
    'unexpected',
    'Something went wrong inside Stopwright, so this was not done.',
    'Everything kept before is still kept.',
    'Try again; if it happens again, stop Stopwright, start it again and reload the page.',
  );
}
