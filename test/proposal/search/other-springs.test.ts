/** A proposal may change the return spring: from the drawer with its place, or wound into the window of the layout. */
import assert from 'node:assert/strict';
import { readFileSync } from 'node:fs';
import { test } from 'node:test';
import { assess } from '../../../src/assessment/assess.ts';
import type { SolenoidJob } from '../../../src/assessment/rig.ts';
import { apply } from '../../../src/job/change.ts';
import { readDrawer } from '../../../src/job/drawer/read.ts';
import type { Drawer } from '../../../src/job/drawer/schema.ts';
import { readJob, writeJob } from '../../../src/job/read.ts';
import {
  problemOf,
  proposalsOf,
  springChoices,
  type Proposals,
  type SpringStock,
} from '../../../src/proposal/search/search.ts';
import { changed, demo } from '../../job/jobs.ts';
import { finished, narrowed, solenoidJob } from './spaces.ts';

function exampleDrawer(): Drawer {
  const read = readDrawer(readFileSync(new URL('../../../examples/drawer.json', import.meta.url), 'utf8'));
  assert.ok(read.ok, 'the example reads');
  return read.drawer;
}

/** Hardly any room for the bracket, and a return spring that is far too weak to bring the plunger out wherever it is hooked. */
function weak(): SolenoidJob {
  const job = changed(demo('railcar'), {
    'return.springs[0].spring': {
      by: 'rate',
      rate: '0.02 N/mm',
      freeLength: '60 mm',
      initialTension: '0 N',
      limitLength: '140 mm',
    },
  });
  return narrowed(job, { millimetres: 2, degrees: 1, connections: [job.layout.connection.kind] });
}

function proposed(job: SolenoidJob, stock: SpringStock): Proposals {
  const problem = problemOf(job, { others: springChoices(job, stock) });
  assert.ok(problem !== null, 'it can be searched');
  const found = proposalsOf(problem, finished(problem));
  for (const offer of [...found.offers, ...(found.nearest === null ? [] : [found.nearest])]) {
    const read = readJob(writeJob(apply(job, offer.changes)));
    assert.ok(read.ok, offer.name);
    const { findings, verdict } = assess(read.job);
    assert.equal(verdict, offer.verdict, offer.name);
    assert.deepEqual(
      offer.margins.map(({ id, margin, verdict: own }) => ({ id, margin, own })),
      findings.map(({ id, margin, verdict: own }) => ({ id, margin, own })),
      offer.name,
    );
    solenoidJob(read.job);
  }
  return found;
}

const drawer = exampleDrawer();
const returns = ({ offers }: Proposals) =>
  offers.filter(({ margins }) => margins.find(({ id }) => id === 'returns-from-every-gap')?.verdict === 'holds');

test('without other springs a spring that is far too weak stays so', () => {
  const found = proposed(weak(), { drawer: null, isToOrder: false });
  assert.equal(returns(found).length, 0);
});

test('a spring of the drawer takes its place, told with where it lies and where it is hooked', () => {
  const job = weak();
  const found = proposed(job, { drawer, isToOrder: false });
  const [best] = returns(found);
  assert.ok(best !== undefined, 'none returns');
  const words = best.words.find((said) => said.startsWith('Take "'));
  assert.ok(words !== undefined && /from the drawer \(.+\)\. Anchor .+ long with the plunger out/.test(words), words);
  const name = /^Take "(.+?)" from/.exec(words)?.[1];
  assert.ok(
    drawer.springs.some((spring) => spring.name === name),
    name,
  );
  assert.equal(apply(job, best.changes).return.springs[0].name, name);
  assert.equal(best.order, null);
  // Nothing else has to be moved: the spring alone is the nearest answer where it mends everything.
  if (found.nearest !== null) assert.ok(found.nearest.cost <= best.cost, `${found.nearest.cost} against ${best.cost}`);
});

test('a spring to order is wound into the window, and told as a spring-maker must be told', () => {
  const job = weak();
  const found = proposed(job, { drawer: null, isToOrder: true });
  const [best] = returns(found);
  assert.ok(best !== undefined, 'none returns');
  assert.match(best.words.join('; '), /Have a spring wound: extension, EN 10270/);
  const rows = new Map(best.order);
  for (const row of ['Wire', 'Outside diameter', 'Turns', 'Free length', 'Load F1', 'Load F2', 'Rate'])
    assert.ok(rows.has(row), `${row} is missing`);
  const spring = apply(job, best.changes).return.springs[0];
  assert.ok(spring.on === 'lever' && spring.spring.by === 'dimensions');
  assert.ok(rows.get('Wire')!.includes(spring.spring.wire), rows.get('Wire'));
});

test('a drawer of very many springs is thinned to those that could serve, and differ', () => {
  const job = weak();
  const many = {
    ...drawer,
    springs: Array.from({ length: 3000 }, (_, i) => ({
      name: `s${i}`,
      kind: 'extension' as const,
      spring: {
        by: 'rate' as const,
        rate: `${(0.02 + (i % 60) * 0.05).toFixed(2)} N/mm`,
        freeLength: `${40 + Math.floor(i / 60)} mm`,
        initialTension: '2 N',
        limitLength: '120 mm',
      },
    })),
  };
  const { settings, stock } = springChoices(job, { drawer: many, isToOrder: false });
  assert.ok(settings.length >= 4 && settings.length <= 6, `${settings.length} settings`);
  assert.equal(new Set(settings.map(({ words }) => words)).size, settings.length);
  assert.ok(
    stock.drawer!.springs.length <= 400 && stock.drawer!.springs.length > 50,
    `${stock.drawer!.springs.length}`,
  );
});
