/**
 * The JSON API and the web app's files. Bodies and answers are described in src/job/exchange.ts; every answer that is not a
 * success is a Refusal {reason, what, safe, next, problems?}. Changes need the header `x-stopwright-token` and the type
 * `application/json`. A save is answered after it is on the disk.
 *
 *     GET   /api/health                              HealthAnswer
 *     GET   /api/token                               TokenAnswer     same origin only
 *     GET   /api/store                               StoreAnswer     where the jobs are, and old copies of the store
 *     GET   /api/demos                               DemosAnswer
 *     GET   /api/jobs                                JobsAnswer      deleted ones included, marked
 *     POST  /api/jobs               CreateRequest    JobAnswer 201   from a document, a copy, or a demo
 *     POST  /api/jobs/import?name=  the file itself  JobAnswer 201   a file that does not read: 422 with all problems
 *     GET   /api/jobs/:job                           JobAnswer       with the head's document and the other heads
 *     PATCH /api/jobs/:job          ChangeRequest    JobEntryAnswer  rename, delete, undelete
 *     GET   /api/jobs/:job/revisions?before=&limit=  RevisionsAnswer newest first, at most 200 (or `limit`) at a time
 *     POST  /api/jobs/:job/revisions  SaveRequest    SavedAnswer 201 never rejected because the head has moved on
 *     GET   /api/jobs/:job/revisions/:revision       RevisionAnswer
 *     POST  /api/jobs/:job/restore  RestoreRequest   SavedAnswer 201
 *     GET   /api/jobs/:job/export?revision=          the exact bytes of the document, as a download
 *     GET   /api/jobs/:job/session/:key              SessionAnswer
 *     PUT   /api/jobs/:job/session/:key  SessionRequest  SessionKeptAnswer
 */
import { Hono } from 'hono';
import type { DemosAnswer, HealthAnswer, Refusal, StoreAnswer, TokenAnswer } from '../job/exchange.ts';
import type { Demo } from './demos.ts';
import type { ReadJob } from './document.ts';
import type { AppFiles } from './files.ts';
import { changesNeedToken, sameOriginOnly } from './guard.ts';
import { notFound, Refused, unexpected } from './refusal.ts';
import { jobRoutes } from './routes/jobs.ts';
import { revisionRoutes } from './routes/revisions.ts';
import { sessionRoutes } from './routes/sessions.ts';
import { oldCopies } from './store/migrate.ts';
import type { Store } from './store/open.ts';

export interface AppParts {
  readonly store: Store;
  readonly files: AppFiles;
  readonly demos: readonly Demo[];
  readonly readJob: ReadJob;
  /** Made anew at every start. */
  readonly token: string;
  readonly start: string;
  /** Is told of what should not have happened; people get a sentence instead. */
  readonly report: (error: unknown) => void;
}

export function makeApp(parts: AppParts): Hono {
  const { store, files, demos } = parts;
  const health: HealthAnswer = { program: 'stopwright', build: files.build, start: parts.start };
  const api = new Hono()
    .use(sameOriginOnly, changesNeedToken(parts.token))
    .use(async (context, next) => {
      context.header('Cache-Control', 'no-store');
      await next();
    })
    .get('/health', (context) => context.json(health))
    .get('/token', (context) => context.json<TokenAnswer>({ ...health, token: parts.token }))
    .get('/store', (context) =>
      context.json<StoreAnswer>({ folder: store.folder, version: store.version, oldCopies: oldCopies(store.folder) }),
    )
    .get('/demos', (context) => context.json<DemosAnswer>({ demos: demos.map(({ name, title }) => ({ name, title })) }))
    .route('/jobs', jobRoutes(parts))
    .route('/jobs/:job', revisionRoutes(parts))
    .route('/jobs/:job/session', sessionRoutes(parts))
    .all('*', () => {
      throw notFound('There is nothing at this address.');
    });

  return new Hono()
    .route('/api', api)
    .use('*', changesNeedToken(parts.token))
    .get('*', files.serve)
    .onError((error, context) => {
      if (!(error instanceof Refused)) parts.report(error);
      const refused = error instanceof Refused ? error : unexpected();
      return context.json<Refusal>(refused.refusal, refused.status, { 'Cache-Control': 'no-store' });
    });
}
