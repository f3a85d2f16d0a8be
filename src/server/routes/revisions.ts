/** /api/jobs/:job/revisions and /api/jobs/:job/restore. */
import { Hono } from 'hono';
import {
  restoreRequest,
  type RevisionAnswer,
  type RevisionsAnswer,
  type SavedAnswer,
  saveRequest,
} from '../../job/exchange.ts';
import type { AppParts } from '../app.ts';
import { readBody } from '../body.ts';
import { requireReadable } from '../document.ts';
import { bodyUnreadable } from '../refusal.ts';
import { getRevision, listRevisions, restoreRevision, type Saved, saveRevision } from '../store/revisions.ts';

const mostAtOnce = 200;

export function revisionRoutes({ store, readJob }: Pick<AppParts, 'store' | 'readJob'>): Hono<{}, {}, '/:job'> {
  return new Hono<{}, {}, '/:job'>()
    .get('/revisions', async (context) => {
      const limit = wholeNumber(context.req.query('limit')) ?? mostAtOnce;
      const before = wholeNumber(context.req.query('before'));
      const list = await listRevisions(store, jobOf(context), Math.min(Math.max(limit, 1), mostAtOnce), before);
      return context.json<RevisionsAnswer>(list);
    })
    .get('/revisions/:revision', async (context) => {
      const revision = await getRevision(store, jobOf(context), context.req.param('revision'));
      return context.json<RevisionAnswer>({ revision });
    })
    .post('/revisions', async (context) => {
      const { parents, ...revision } = await readBody(context, saveRequest);
      requireReadable(readJob, revision.text);
      return context.json(answer(await saveRevision(store, jobOf(context), parents, revision)), 201);
    })
    .post('/restore', async (context) => {
      const { revision, parent, ...details } = await readBody(context, restoreRequest);
      const saved = await restoreRevision(store, jobOf(context), revision, parent, details);
      return context.json(answer(saved), 201);
    });
}

function jobOf(context: { req: { param: (name: string) => string | undefined } }): string {
  return context.req.param('job') ?? '';
}

function answer({ job, revision, branches }: Saved): SavedAnswer {
  return { kept: true, job, revision, head: job.head, branches };
}

function wholeNumber(text: string | undefined): number | undefined {
  if (text === undefined) return undefined;
  const value = Number(text);
  if (!/^\d{1,15}$/.test(text))
    throw bodyUnreadable('This request does not say what is wanted.', [
      { path: '', read: text.slice(0, 80), problem: 'a whole number' },
    ]);
  return value;
}
