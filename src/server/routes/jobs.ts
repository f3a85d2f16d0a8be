/** /api/jobs: the list, and each job as a whole. */
import { Hono } from 'hono';
import {
  changeRequest,
  createRequest,
  type JobAnswer,
  type JobEntryAnswer,
  type JobsAnswer,
} from '../../job/exchange.ts';
import type { AppParts } from '../app.ts';
import { readBody, readFileText } from '../body.ts';
import { documentName, requireReadable } from '../document.ts';
import { notFound } from '../refusal.ts';
import { changeJob, createJob, listJobs, openJob } from '../store/jobs.ts';
import { getRevision } from '../store/revisions.ts';

const longestName = 200;

export function jobRoutes({ store, demos, readJob }: Pick<AppParts, 'store' | 'demos' | 'readJob'>): Hono {
  return new Hono()
    .get('/', async (context) => context.json<JobsAnswer>({ jobs: await listJobs(store) }))
    .post('/', async (context) => {
      const { id, name, from, author } = await readBody(context, createRequest);
      const source = await documentOf(from);
      const opened = await createJob(store, { ...source, name: name ?? source.name, id, author });
      return context.json<JobAnswer>(opened, 201);
    })
    .post('/import', async (context) => {
      const text = await readFileText(context);
      requireReadable(readJob, text);
      const name = shortened(context.req.query('name') ?? '') || (documentName(text) ?? 'Imported job');
      return context.json<JobAnswer>(await createJob(store, { name, text, author: '' }), 201);
    })
    .get('/:job', async (context) => context.json<JobAnswer>(await openJob(store, context.req.param('job'))))
    .patch('/:job', async (context) => {
      const change = await readBody(context, changeRequest);
      return context.json<JobEntryAnswer>({ job: await changeJob(store, context.req.param('job'), change) });
    })
    .get('/:job/export', async (context) => {
      const { job } = await openJob(store, context.req.param('job'));
      const revision = await getRevision(store, job.id, context.req.query('revision') ?? job.head);
      return context.body(revision.text, 200, {
        'Content-Type': 'application/json; charset=utf-8',
        // From ids that passed the store, never from a name that somebody typed.
        'Content-Disposition': `attachment; filename="stopwright-${job.id.slice(0, 8)}-${revision.id.slice(0, 8)}.json"`,
      });
    });

  async function documentOf(
    from: (typeof createRequest)['_output']['from'],
  ): Promise<{ name: string; text: string; demo?: string }> {
    if ('text' in from) {
      requireReadable(readJob, from.text);
      return { name: documentName(from.text) ?? 'New job', text: from.text };
    }
    if ('demo' in from) {
      const demo = demos.find(({ name }) => name === from.demo);
      if (demo === undefined)
        throw notFound(`There is no demo job with this name.`, 'Choose one from the list of demos.');
      return { name: demo.title, text: demo.text, demo: demo.name };
    }
    const { job, head } = await openJob(store, from.copyOf);
    const { text } = from.revision === undefined ? head : await getRevision(store, job.id, from.revision);
    return { name: `${shortened(job.name, longestName - 7)} (copy)`, text };
  }
}

function shortened(name: string, longest = longestName): string {
  const oneLine = name.replaceAll(/[\p{Cc}\p{Cs}\u2028\u2029]+/gu, ' ').trim();
  return oneLine.slice(0, longest).replace(/\p{Cs}$/u, '');
}
