/** Fuse, cut-out, suppressor, command, diode and stations: each is offered where it mends, and does what it says. */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import { assess } from '../../src/assessment/assess.ts';
import { fusesOf } from '../../src/physics/fuse.ts';
import { withRemedies } from '../../src/proposal/remedy.ts';
import { changed, demo } from '../job/jobs.ts';
import { assertRemedies } from './remedies-hold.ts';

const station = (section: string, alsoFeeds: string) => ({
  name: 'Aft deck',
  out: { section, length: '22 m' },
  contacts: [],
  diode: 'none',
  alsoFeeds,
});

/** Seconds that the railcar takes to go back with its diode: a zener is to be some milliseconds quicker. */
const diodeTakes = assess(demo('railcar')).findings.find(({ id }) => id === 'release-time')?.value ?? NaN;

const cases: readonly (readonly [
  title: string,
  places: Readonly<Record<string, unknown>>,
  id: string,
  words: RegExp,
])[] = [
  ['no fuse', { 'supply.fuse': 'none' }, 'fuse', /^Fit a \d+ A (large )?blade fuse$/],
  ['a fuse that opens during the pull', { 'supply.fuse.rating': '5 A' }, 'fuse', /^Fit a \d+ A (large )?blade fuse$/],
  [
    'nothing that ends the current of a stuck coil',
    { 'supply.cutOut': 'none' },
    'held-off-home',
    /^Fit a timer or thermal cut-out that ends the pull-in current after \d+ s$/,
  ],
  [
    'a cut-out that comes too late',
    { 'supply.cutOut.after': '60 s' },
    'held-off-home',
    /^Fit a timer or thermal cut-out/,
  ],
  [
    'a diode that lets go too slowly',
    { wanted: { releaseTime: `${1000 * diodeTakes - 3} ms` } },
    'release-time',
    /^Fit a suppressor of \d+ V across the coil in the place of what is there$/,
  ],
  [
    'a key let go too soon',
    { 'supply.command': { holds: '8 s' } },
    'command-lasts',
    /^Let the command last 1\d(\.\d)? s$/,
  ],
  [
    'a diode the wrong way round',
    { 'supply.suppression.polarity': 'anode to plus' },
    'diode-polarity',
    /^Turn the diode round: its ring to plus$/,
  ],
  [
    'a second station on thin wire',
    { 'supply.stations': [station('1 mm²', '')] },
    'every-station-works',
    /^Run \d+ mm² conductors from "Aft deck"$/,
  ],
  [
    'a second station that also feeds a lamp',
    { 'supply.stations': [station('16 mm²', 'a lamp')] },
    'no-sneak-path',
    /^Put a diode in series with "Aft deck"$/,
  ],
  [
    'a contact that breaks too little',
    { 'supply.contacts[0].breaks': '15 A' },
    'contacts-break',
    /^Fit a "Stop relay" that breaks/,
  ],
];

for (const [title, places, id, words] of cases)
  test(`${title}: the remedy is offered and works`, () => {
    const job = changed(demo('railcar'), places);
    const finding = withRemedies(job, assess(job)).findings.find((one) => one.id === id);
    assert.equal(finding?.verdict, 'fails', finding?.because);
    const offered = finding.remedies.map((remedy) => remedy.words);
    assert.ok(
      offered.some((one) => words.test(one)),
      `offered: ${offered.join(' | ')}`,
    );
    assertRemedies(job);
  });

test('a fuse that guards a stuck coil is the greatest of its series that does', () => {
  const job = changed(demo('railcar'), { 'supply.cutOut': 'none' });
  const finding = withRemedies(job, assess(job)).findings.find(({ id }) => id === 'held-off-home');
  const offered = (finding?.remedies ?? []).flatMap(({ words }) => {
    const fuse = /^Fit a ([\d.]+) A ((?:large )?blade) fuse$/.exec(words);
    return fuse === null ? [] : [{ rating: Number(fuse[1]), series: fuse[2] as 'blade' | 'large blade' }];
  });
  assert.ok(offered.length > 0, finding?.remedies.map(({ words }) => words).join(' | '));
  for (const { rating, series } of offered)
    for (const greater of fusesOf(series).filter((fuse) => fuse.rating > rating)) {
      const other = assess(changed(job, { 'supply.fuse': { type: series, rating: `${greater.rating} A` } }));
      assert.notEqual(other.findings.find(({ id }) => id === 'held-off-home')?.verdict, 'holds', `${greater.rating} A`);
    }
});
