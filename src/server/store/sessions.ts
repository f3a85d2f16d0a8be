/**
 * What the app keeps for itself with a job between visits, such as its undo steps: a few values by key, each written
 * over by the next. No work lives here.
 */
import { LARGEST_SESSION_BYTES, MOST_SESSION_KEYS } from '../../job/exchange.ts';
import { Refused } from '../refusal.ts';
import { findJob, textOf } from './entries.ts';
import type { Store } from './open.ts';

export function getSession(store: Store, jobId: string, key: string): Promise<string | null> {
  return store.read(async (database) => {
    await findJob(database, jobId);
    const row = await database
      .selectFrom('session_value')
      .select('content')
      .where('job_id', '=', jobId)
      .where('key', '=', key)
      .executeTakeFirst();
    return row === undefined ? null : textOf(row.content);
  });
}

/** @throws Refused the value or the number of keys is above its limit; the value there stays */
export function putSession(store: Store, jobId: string, key: string, value: string): Promise<void> {
  return store.write(async (database) => {
    await findJob(database, jobId);
    const content = Buffer.from(value, 'utf8');
    const keys = await database.selectFrom('session_value').select('key').where('job_id', '=', jobId).execute();
    const isNew = keys.every((row) => row.key !== key);
    if (content.length > LARGEST_SESSION_BYTES || (isNew && keys.length >= MOST_SESSION_KEYS)) {
      throw new Refused(
        'session-full',
        'There are more undo steps than can be kept for the next visit.',
        'The job itself and all its revisions are kept.',
        'Go on working: only the oldest steps are given up.',
      );
    }
    await database
      .insertInto('session_value')
      .values({ job_id: jobId, key, content })
      .onConflict((conflict) => conflict.columns(['job_id', 'key']).doUpdateSet({ content }))
      .execute();
  });
}
