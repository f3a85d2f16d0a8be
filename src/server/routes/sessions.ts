/** /api/jobs/:job/session/:key */
import { Hono } from 'hono';
import { type SessionAnswer, type SessionKeptAnswer, sessionRequest } from '../../job/exchange.ts';
import type { AppParts } from '../app.ts';
import { readBody } from '../body.ts';
import { notFound } from '../refusal.ts';
import { getSession, putSession } from '../store/sessions.ts';

export function sessionRoutes({ store }: Pick<AppParts, 'store'>): Hono {
  return new Hono()
    .get('/:key{[a-z][a-z0-9-]{0,31}}', async (context) => {
      const value = await getSession(store, jobOf(context), context.req.param('key'));
      return context.json<SessionAnswer>({ value });
    })
    .put('/:key{[a-z][a-z0-9-]{0,31}}', async (context) => {
      const { value } = await readBody(context, sessionRequest);
      await putSession(store, jobOf(context), context.req.param('key'), value);
      return context.json<SessionKeptAnswer>({ kept: true });
    });
}

function jobOf(context: { req: { param: (name: string) => string | undefined } }): string {
  const job = context.req.param('job');
  if (job === undefined) throw notFound('There is no such job in this store.');
  return job;
}
