/**
 * An example of the program as a library: how long must the link of an installation be, for its plunger to come home with
 * a degree to spare before the lever meets its hard stop?
 *
 *     node --import tsx examples/smallest-link-change.ts
 */
import { assess } from '../src/assessment/assess.ts';
import { apply, change } from '../src/job/change.ts';
import { demoJobs } from '../src/job/demos.ts';
import { readDocument } from '../src/job/read.ts';

const demo = demoJobs.find(({ name }) => name === 'short-stroke')!;
const read = readDocument(demo.document);
if (!read.ok) throw new Error(read.problems.map(({ path, problem }) => `${path}: ${problem}`).join('\n'));

for (let length_mm = 55; length_mm <= 60; length_mm += 0.5) {
  const longer = apply(read.job, [change(read.job, 'layout.connection.length', `${length_mm} mm`)]);
  const finding = assess(longer).findings.find(({ id }) => id === 'comes-home')!;
  console.log(`${length_mm.toFixed(1)} mm  ${finding.verdict.padEnd(6)} ${finding.because}`);
  if (finding.verdict === 'holds') break;
}
