import assert from 'node:assert/strict';
import test from 'node:test';
import * as fc from 'fast-check';
import type { SavedAnswer, SaveRequest } from '../../src/job/exchange.ts';
import { NotDone, type Trouble } from '../../src/web/keeping/api.ts';
import { Keeper, sendLeftovers, type Keeping } from '../../src/web/keeping/keeper.ts';
import type { Entry } from '../../src/web/keeping/outbox.ts';

type Outcome = 'kept' | 'refused' | 'kept, answer lost' | 'never arrived';

/** A server that keeps what arrives, once for each id, and an outbox; both outlive the tab. */
class World {
  readonly revisions = new Map<string, SaveRequest>();
  readonly box = new Map<string, Entry>();
  readonly said: Keeping['word'][] = [];
  outcomes: Outcome[] = [];
  #ids = 0;

  readonly newId = () => `made-here-${(this.#ids += 1)}`;

  readonly outbox = {
    put: async (entry: Entry, instead: string | null) => {
      if (instead !== null) this.box.delete(instead);
      this.box.set(entry.id, entry);
    },
    drop: async (id: string) => void this.box.delete(id),
  };

  readonly api = {
    save: async (_: string, request: SaveRequest): Promise<SavedAnswer> => {
      const outcome = this.outcomes.shift() ?? 'kept';
      await Promise.resolve();
      if (outcome === 'never arrived') throw new NotDone(trouble('no answer'));
      if (outcome === 'refused') throw new NotDone(trouble('disk-full'));
      const id = request.id!;
      const there = this.revisions.get(id);
      if (there !== undefined) assert.equal(there.text, request.text, 'one id never stands for two texts');
      for (const parent of request.parents)
        assert.ok(parent === 'root' || this.revisions.has(parent), 'a parent is kept before its child');
      this.revisions.set(id, request);
      if (outcome === 'kept, answer lost') throw new NotDone(trouble('no answer'));
      return { kept: true, head: id, branches: [], revision: { id }, job: { id: 'job' } } as unknown as SavedAnswer;
    },
  };

  keeper(): Keeper {
    const { api, outbox, newId } = this;
    return new Keeper({
      job: 'job',
      tab: 'tab',
      tip: 'root',
      api,
      outbox,
      newId,
      patience: 1_000_000,
      told: ({ word }) => this.said.push(word),
      acknowledged: () => undefined,
    });
  }
}

const trouble = (reason: Trouble['reason']): Trouble => ({ reason, what: 'It failed.', safe: 'Safe.', next: 'Try.' });

test('the word is "kept" only after the server has acknowledged', async () => {
  const world = new World();
  const keeper = world.keeper();
  keeper.change('one', 'first');
  assert.deepEqual(world.said, ['keeping']);
  assert.equal(world.box.size, 1);
  await keeper.flush();
  assert.deepEqual(world.said, ['keeping', 'kept']);
  assert.equal(world.box.size, 0);
  keeper.close();
});

test('a failed save is said, and what was changed meanwhile is kept as soon as saving works again', async () => {
  const world = new World();
  const keeper = world.keeper();
  world.outcomes = ['refused', 'refused'];
  keeper.change('one', null);
  await keeper.flush();
  assert.equal(world.said.at(-1), 'NOT kept');
  keeper.change('two', null);
  assert.equal(world.said.at(-1), 'NOT kept');
  await keeper.flush();
  assert.equal(world.said.at(-1), 'NOT kept');
  await keeper.flush();
  assert.equal(world.said.at(-1), 'kept');
  assert.deepEqual(
    [...world.revisions.values()].map(({ text, parents }) => [text, parents]),
    [['two', ['root']]],
  );
  keeper.close();
});

test('whatever fails, and whenever the tab dies, the last text reaches the server, in one line without branches', async () => {
  const outcome = fc.constantFrom<Outcome>('kept', 'refused', 'kept, answer lost', 'never arrived');
  const act = fc.constantFrom('change', 'flush', 'change and flush at once');
  await fc.assert(
    fc.asyncProperty(
      fc.array(act, { minLength: 1, maxLength: 12 }),
      fc.array(outcome, { maxLength: 12 }),
      async (acts, outcomes) => {
        const world = new World();
        world.outcomes = [...outcomes];
        const keeper = world.keeper();
        let last: string | null = null;
        for (const [i, one] of acts.entries()) {
          const flushing = one === 'change' ? null : keeper.flush();
          if (one !== 'flush') keeper.change((last = `text ${i}`), null);
          await flushing;
        }
        await Promise.resolve();
        keeper.close(); // the tab dies here; the next one sends what is left
        world.outcomes = [];
        const left = [...world.box.values()].sort((a, b) => a.at - b.at);
        const { trouble } = await sendLeftovers(left, world);
        assert.equal(trouble, null);
        assert.equal(world.box.size, 0);
        const kept = [...world.revisions.values()];
        if (last !== null) assert.equal(kept.at(-1)?.text, last);
        const parents = kept.flatMap(({ parents }) => parents);
        assert.equal(new Set(parents).size, parents.length, 'no two revisions of one tab share a parent');
      },
    ),
    { seed: 41, numRuns: 2_000 },
  );
});

test('a merge is kept with both parents, and a later change does not take its place', async () => {
  const world = new World();
  world.revisions.set('theirs', { parents: ['root'], text: 'theirs' });
  const keeper = world.keeper();
  keeper.change('merged', 'Two versions made one', 'theirs');
  keeper.change('after', null);
  await keeper.flush();
  const kept = [...world.revisions.values()].slice(1);
  assert.deepEqual(kept[0]?.parents, ['root', 'theirs']);
  assert.deepEqual(
    kept.map(({ text }) => text),
    ['merged', 'after'],
  );
  keeper.close();
});

test('a label goes to the server as one short line', async () => {
  const world = new World();
  const keeper = world.keeper();
  keeper.change('one', `a\nb\u0000${'x'.repeat(500)}`);
  await keeper.flush();
  const label = [...world.revisions.values()][0]?.label ?? '';
  assert.match(label, /^a b x+…$/);
  assert.ok(label.length <= 200);
  keeper.close();
});

test('two tabs in any order of changing, sending and failing: the last words of both stand at a head, none is lost silently', async () => {
  const act = fc.tuple(fc.constantFrom(0, 1), fc.constantFrom('change', 'flush', 'both at once'));
  const outcome = fc.constantFrom<Outcome>('kept', 'kept', 'refused', 'kept, answer lost', 'never arrived');
  await fc.assert(
    fc.asyncProperty(
      fc.array(act, { minLength: 2, maxLength: 14 }),
      fc.array(outcome, { maxLength: 8 }),
      async (acts, outcomes) => {
        const world = new World();
        world.outcomes = [...outcomes];
        const tabs = [world.keeper(), world.keeper()];
        const last: (string | null)[] = [null, null];
        const running: Promise<void>[] = [];
        for (const [i, [which, what]] of acts.entries()) {
          const tab = tabs[which];
          if (what !== 'flush') tab?.change((last[which] = `tab ${which}, text ${i}`), null);
          if (what === 'flush') await tab?.flush();
          if (what === 'both at once' && tab !== undefined) running.push(tab.flush());
        }
        await Promise.all(running);
        world.outcomes = [];
        for (const tab of tabs) {
          await tab.flush();
          tab.close();
          assert.ok(tab.isIdle);
        }
        const parents = new Set([...world.revisions.values()].flatMap((revision) => revision.parents));
        const heads = [...world.revisions].filter(([id]) => !parents.has(id)).map(([, { text }]) => text);
        assert.deepEqual(heads.sort(), last.filter((text) => text !== null).sort());
      },
    ),
    { seed: 1125, numRuns: 10_000 },
  );
});
