/** `stopwright demo`: the demonstration jobs, all invented. */
import { demoJobs } from '../job/demos.ts';
import { WRONG_USAGE } from './exit-codes.ts';
import { plain } from './print.ts';

export function demoCommand(name: string | undefined, { json }: { readonly json?: boolean }): number {
  if (name === undefined) {
    const rows = demoJobs.map((demo) => ({ name: demo.name, title: demo.document.name, about: demo.about }));
    process.stdout.write(
      json === true
        ? `${JSON.stringify(rows, null, 2)}\n`
        : rows.map((row) => `${row.name.padEnd(14)}${row.about}\n`).join(''),
    );
    return 0;
  }
  const demo = demoJobs.find((one) => one.name === name);
  if (demo === undefined) {
    process.stderr.write(
      `There is no demonstration called ${plain(name)}. There are: ${demoJobs.map((one) => one.name).join(', ')}.\n`,
    );
    return WRONG_USAGE;
  }
  process.stdout.write(`${JSON.stringify(demo.document, null, 2)}\n`);
  return 0;
}
