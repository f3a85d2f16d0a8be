/** Requests to the server behind the app, and what goes wrong with them in words for people. */
import type {
  ChangeRequest,
  CreateRequest,
  DemosAnswer,
  JobAnswer,
  JobEntryAnswer,
  JobsAnswer,
  Refusal,
  RefusalReason,
  RevisionAnswer,
  RevisionsAnswer,
  SavedAnswer,
  SaveRequest,
  SessionAnswer,
  SessionKeptAnswer,
  TokenAnswer,
} from '../../job/exchange.ts';

const TOKEN_HEADER = 'x-stopwright-token';
/** Browsers refuse to finish requests of a closing page above 64 KiB, all together. */
const MOST_AFTER_CLOSING = 60_000;

export type Trouble = Omit<Refusal, 'reason'> & { readonly reason: RefusalReason | 'no answer' };

/** A request that was not done, with what happened, what is safe and one next act. */
export class NotDone extends Error {
  readonly trouble: Trouble;

  constructor(trouble: Trouble) {
    super(`${trouble.what} ${trouble.safe} ${trouble.next}`);
    this.name = 'NotDone';
    this.trouble = trouble;
  }

  /** Whether the request may have been done all the same, because no answer came back. */
  get isOpen(): boolean {
    return this.trouble.reason === 'no answer';
  }
}

const noAnswer: Trouble = {
  reason: 'no answer',
  what: 'Stopwright does not answer.',
  safe: 'Your work is safe in this browser.',
  next: 'Check that Stopwright is running, and leave this page open.',
};

let start: TokenAnswer | null = null;
let firstBuild: string | null = null;

/** Whether the server has come back with another build of the app than the one on the screen. */
export function isOutdated(): boolean {
  return start !== null && firstBuild !== null && start.build !== firstBuild;
}

async function token(anew: boolean): Promise<string> {
  if (start === null || anew) {
    start = await ask<TokenAnswer>('GET', '/api/token');
    firstBuild ??= start.build;
  }
  return start.token;
}

async function ask<Answer>(method: string, address: string, body?: string, isAgain = false): Promise<Answer> {
  const headers: Record<string, string> = {};
  if (method !== 'GET') {
    headers[TOKEN_HEADER] = await token(isAgain);
    headers['content-type'] = 'application/json';
  }
  const keepalive = body !== undefined && body.length < MOST_AFTER_CLOSING / 2;
  const response = await fetch(address, { method, headers, keepalive, ...(body !== undefined && { body }) }).catch(
    () => {
      throw new NotDone(noAnswer);
    },
  );
  const answer = (await response.json().catch(() => null)) as Answer | Refusal | null;
  if (response.ok && answer !== null) return answer as Answer;
  const refusal = answer !== null && typeof answer === 'object' && 'reason' in answer ? answer : noAnswer;
  if (refusal.reason === 'token' && !isAgain) return ask(method, address, body, true);
  throw new NotDone(refusal);
}

const send = <Answer>(method: string, address: string, body: unknown) =>
  ask<Answer>(method, address, JSON.stringify(body));
const job = (id: string) => `/api/jobs/${encodeURIComponent(id)}`;

export const api = {
  /** Fetched early, so that a closing page need not wait for it. */
  ready: () => token(false),
  jobs: () => ask<JobsAnswer>('GET', '/api/jobs'),
  demos: () => ask<DemosAnswer>('GET', '/api/demos'),
  create: (request: CreateRequest) => send<JobAnswer>('POST', '/api/jobs', request),
  importFile: (text: string) => ask<JobAnswer>('POST', '/api/jobs/import', text),
  open: (id: string) => ask<JobAnswer>('GET', job(id)),
  change: (id: string, request: ChangeRequest) => send<JobEntryAnswer>('PATCH', job(id), request),
  save: (id: string, request: SaveRequest) => send<SavedAnswer>('POST', `${job(id)}/revisions`, request),
  revisions: (id: string, before?: number) =>
    ask<RevisionsAnswer>('GET', `${job(id)}/revisions${before === undefined ? '' : `?before=${before}`}`),
  revision: (id: string, revision: string) =>
    ask<RevisionAnswer>('GET', `${job(id)}/revisions/${encodeURIComponent(revision)}`),
  session: (id: string) => ask<SessionAnswer>('GET', `${job(id)}/session/steps`),
  keepSession: (id: string, value: string) => send<SessionKeptAnswer>('PUT', `${job(id)}/session/steps`, { value }),
  /** The solenoid that is kept with a job. */
  solenoid: (id: string) => ask<SessionAnswer>('GET', `${job(id)}/session/solenoid`),
  keepSolenoid: (id: string, value: string) => send<SessionKeptAnswer>('PUT', `${job(id)}/session/solenoid`, { value }),
  exportAddress: (id: string) => `${job(id)}/export`,
};

export type Api = typeof api;
