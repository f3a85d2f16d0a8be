/** What can be done with jobs as a whole. */
import { change, apply } from '../../job/change.ts';
import type { JobEntry } from '../../job/exchange.ts';
import { desk, put } from '../desk/desk.ts';
import { openJob } from '../desk/come-and-go.ts';
import { flush } from '../desk/open-job.ts';
import { propose } from '../desk/proposals.ts';
import { api } from '../keeping/api.ts';
import { newId } from '../keeping/tab.ts';
import { reckoner } from '../reckoning/reckoner.ts';

/** A job in which nothing has been measured yet; the survey opens with it. */
export async function newJob(): Promise<void> {
  const { job } = await api.create({ id: newId(), from: { text: await reckoner.blankText() } });
  await openJob(job.id);
  put({ panel: 'survey' });
}

export async function copyJob(id: string): Promise<void> {
  if (desk().job?.id === id) await flush();
  await api.create({ id: newId(), from: { copyOf: id } });
}

/** The list and the document go by one name. */
export async function renameJob({ id }: JobEntry, name: string): Promise<void> {
  if (desk().job?.id === id) {
    await propose({ name: `Renamed: ${name}`, changes: (document) => [change(document, 'name', name)] });
    await flush();
  } else {
    const { head } = await api.open(id);
    const document: unknown = JSON.parse(head.text);
    const text = `${JSON.stringify(apply(document, [change(document, 'name', name)]), null, 2)}\n`;
    await api.save(id, { id: newId(), parents: [head.id], text, label: `Renamed: ${name}` });
  }
  const { job } = await api.change(id, { name });
  if (desk().job?.id === id) put({ job });
}
