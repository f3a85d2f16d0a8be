/** What is said of compressed air and of a cylinder, and cannot all be true together. */
import type { Problem } from './opening.ts';
import { quantityIn } from './quantity-text.ts';
import type { Job } from './schema.ts';

export function airContradictions({ survey, means, considered = [] }: Job): Problem[] {
  const problems: Problem[] = [];
  if (typeof survey.air !== 'string') {
    const { low, high } = survey.air;
    const [least, most] = [low, high].map((text) => quantityIn(text, 'pressure')?.value ?? NaN);
    if (most < least)
      problems.push({
        path: 'survey.air.high',
        read: high,
        problem: `the highest pressure cannot lie under the lowest (${low})`,
      });
  }
  const all = [
    { at: 'means', one: means },
    ...considered.map((other, i) => ({ at: `considered[${i}].means`, one: other.means })),
  ];
  for (const { at, one } of all) {
    if (one.kind !== 'air cylinder') continue;
    const [bore, rod] = [one.bore, one.rod].map((text) => quantityIn(text, 'length')?.value ?? NaN);
    if (rod >= bore)
      problems.push({
        path: `${at}.rod`,
        read: one.rod,
        problem: `the rod must be thinner than its cylinder (${one.bore})`,
      });
  }
  return problems;
}
