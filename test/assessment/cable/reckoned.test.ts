/** What a hand cable comes out at, by geometry and statics worked out here on their own. */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import { assess } from '../../../src/assessment/assess.ts';
import type { Finding } from '../../../src/assessment/finding.ts';
import { cableStudy } from '../../../src/assessment/cable/study.ts';
import type { Job } from '../../../src/job/schema.ts';
import { changed, demo } from '../../job/jobs.ts';
import { assertConsistent, assertPlain } from '../plain-data.ts';
import { byLining, cables, withCable } from './cables.ts';

const rad = (degrees: number) => (degrees * Math.PI) / 180;
const LBF = 4.4482216152605;

function finding(job: Job, id: string): Finding {
  const assessment = assess(job);
  assertConsistent(assessment);
  const found = assessment.findings.find((one) => one.id === id);
  assert.ok(found !== undefined, id);
  return found;
}

function near(value: number | null | undefined, expected: number, tolerance: number, what: string): void {
  assert.ok(Math.abs((value ?? NaN) - expected) <= tolerance, `${what}: ${value}, worked out here ${expected}`);
}

/** Corners of the ferry's route, mm, and the angles turned at them, by the law of cosines. */
const places = [
  [0, 0, 1700],
  [0, 0, 900],
  [1900, 0, 900],
  [1900, 1100, 900],
  [3000, 1700, 900],
  [3500, 1700, 600],
  [4300, 1700, 600],
];
const radii = [250, 250, 220, 250, 220];
const far = (a: readonly number[], b: readonly number[]) => Math.hypot(...a.map((x, i) => x - b[i]));
const turns = radii.map((_, i) => {
  const [a, b, c] = [far(places[i], places[i + 1]), far(places[i + 1], places[i + 2]), far(places[i], places[i + 2])];
  return Math.PI - Math.acos((a * a + b * b - c * c) / (2 * a * b));
});
const turned = turns.reduce((sum, turn) => sum + turn, 0);
/** Lever of the ferry at a shaft angle in degrees: the point that the core holds, and the conduit's end, mm. */
const held = (angle: number) => [55 * Math.cos(rad(angle - 3)), 55 * Math.sin(rad(angle - 3))];
const freeLength = (angle: number) => far(held(angle), [-37, 127]);
const armAt = (angle: number) => (freeLength(angle - 0.01) - freeLength(angle + 0.01)) / rad(0.02) / 1000;

test('the ferry: length and bends of the route by the law of cosines', () => {
  const { run } = cableStudy(byLining, withCable(byLining).means);
  assert.ok(run !== null && run.isDrawn, 'the route is drawn');
  near(run.turned_deg, (turned * 180) / Math.PI, 1e-6, 'turned');
  run.bends.forEach(({ angle_deg }, i) => near(angle_deg, (turns[i] * 180) / Math.PI, 1e-6, `bend ${i + 1}`));
  const straight = places.slice(1).reduce((sum, place, i) => sum + far(place, places[i]), 0);
  // Each bend of radius r saves two lengths r tan(φ/2) and costs r φ.
  const saved = turns.reduce((sum, turn, i) => sum + radii[i] * (2 * Math.tan(turn / 2) - turn), 0);
  near(run.length_mm, straight - saved, 1e-6, 'length');
  assert.equal(run.rise_mm, -1100);
});

test('the ferry: the handle asks what capstan and lever say, worn and cold, at the hard stop', () => {
  const pull = finding(byLining, 'handle-pull');
  // Readings at 66°, 55 mm: 4.4 lbf pulling, 2.7 lbf easing back; friction of the lever times 1.25 with cold oil.
  const moment = (0.055 * LBF * (4.4 + 2.7)) / 2 + 1.25 * ((0.055 * LBF * (4.4 - 2.7)) / 2);
  const atLever = moment / armAt(66);
  // The conduit end points at the middle of the swing of the core.
  const direction = (angle: number) => Math.atan2(127 - held(angle)[1], -37 - held(angle)[0]);
  const directions = Array.from({ length: 3601 }, (_, i) => direction(30 + i / 100));
  const middle = (Math.min(...directions) + Math.max(...directions)) / 2;
  const off = Math.abs(direction(66) - middle);
  const worn = 0.1 * 2;
  const weightless = atLever * Math.exp(worn * (turned + off)) + 3;
  // A core of 0.03 kg/m that goes up by 1.1 m and rubs along 6 m of conduit adds a newton or two.
  near(pull.value, weightless, 2.5, 'effort at the handle');
  assert.ok((pull.value ?? 0) > weightless, 'the weight makes it more');
  near(pull.limit, 0.7 * 0.8 * 145, 1e-9, 'limit');
  near(pull.margin, (0.7 * 0.8 * 145) / (pull.value ?? NaN) - 1, 1e-12, 'margin');
  assert.match(pull.because, /bend 1, "Under the deck" \(90°\) costs most/);
});

test('the ferry: the readings at its handle give the friction that the closed form gives', () => {
  const job = demo('ferry');
  const { calibrated, friction } = cableStudy(job, withCable(job).means);
  assert.ok(calibrated !== null && friction !== null, 'calibrated');
  const atLever = (0.055 * LBF * 4.4) / armAt(66);
  const expected = Math.log(((7.8 - 0.6) * LBF) / atLever) / turned;
  near(calibrated.friction, expected, 0.004, 'friction');
  assert.equal(friction.from, 'readings at the handle');
  assert.ok(friction.low < calibrated.friction && calibrated.friction < friction.high, 'a band about it');
  near(friction.worn, friction.high * 2, 1e-12, 'worn');
});

test('readings at a handle that gears down are those of the hand', () => {
  const job = demo('ferry');
  const half = changed(job, {
    'means.handle.ratio': '2',
    'means.readings': { free: '0.3 lbf ± 0.05', connected: '3.9 lbf ± 0.15' },
  });
  const [one, two] = [job, half].map((each) => cableStudy(each, withCable(each).means));
  near(two.calibrated?.friction, one.calibrated?.friction ?? NaN, 1e-9, 'friction');
  near(two.friction?.high, one.friction?.high ?? NaN, 1e-9, 'its high end');
  near(two.worst?.handleForce_N, (one.worst?.handleForce_N ?? NaN) / 2, 1e-6, 'effort of the hand');
  near(two.travel?.handle_mm, (one.travel?.handle_mm ?? NaN) * 2, 1e-6, 'travel of the hand');
});

test('travel: core by the distance of two points, stretch and shortening between those of the least and the greatest tension', () => {
  const { travel, worst } = cableStudy(byLining, withCable(byLining).means);
  assert.ok(travel !== null && worst !== null, 'known');
  // No-fuel at 58°, and a degree of lash.
  near(travel.core_mm, freeLength(30) - freeLength(59), 1e-6, 'core');
  near(travel.play_mm, turned * 0.7, 1e-6, 'play');
  const forces = worst.profile.map(({ force_N }) => force_N);
  const [least, most] = [Math.min(...forces), Math.max(...forces)];
  const run = 6185 / 1000;
  const stretch = (force: number) => ((force * run) / (112.69e9 * Math.PI * 0.00125 ** 2)) * 1000;
  assert.ok(travel.stretch_mm > 0.8 * stretch(least) && travel.stretch_mm < stretch(most), `${travel.stretch_mm} mm`);
  const shortening = (force: number) => ((force * run) / 1e5) * 1000;
  assert.ok(travel.shortening_mm > 0.8 * shortening(least) && travel.shortening_mm < shortening(most), 'shortening');
  near(
    travel.handle_mm,
    travel.core_mm + travel.slack_mm + travel.stretch_mm + travel.shortening_mm + travel.play_mm,
    1e-9,
    'sum',
  );
  // Kept taut, it loses nothing in its bends.
  const taut = changed(byLining, { 'means.leverEnd.slack': '0 mm' });
  assert.equal(cableStudy(taut, withCable(taut).means).travel?.play_mm, 0);
});

test('a travel that was read at the handle counts before the one that is reckoned, with what wear and cold add', () => {
  const job = changed(demo('ferry'), { 'means.readings.travel': '44 mm' });
  const { now, worst, travel } = cableStudy(job, withCable(job).means);
  assert.ok(now !== null && worst !== null && travel !== null, 'known');
  const found = finding(job, 'handle-travel');
  // Stretch and shortening grow with the tension: from that of now to that of worn and cold, at most by their whole.
  const grown = (found.value ?? NaN) - 44;
  assert.ok(grown > 0.2 && grown < travel.stretch_mm + travel.shortening_mm, `${grown} mm`);
  near(found.margin, 75 - (found.value ?? NaN), 1e-9, 'margin');
  assert.match(found.because, /^Fuel was off after 44 mm at the handle; worn and cold it takes/);
});

test('the way back: the lever carries the drag at the handle through every bend', () => {
  const back = finding(byLining, 'comes-back-on-cable');
  // At run the readings at 28° and 48° lie at 3.2 and 1.9 lbf, 3.8 and 2.3 lbf: some 3.25 and 1.93 lbf at 30°.
  near(back.at?.shaftAngle_deg, 30, 1e-9, 'at run');
  const me = (3.25 + 1.93) / 2;
  const mf = (3.25 - 1.93) / 2;
  const left = (LBF * 0.055 * (me - 1.25 * mf)) / armAt(30);
  near(back.value, left, 0.15, 'left for the core');
  const needed = 3 * Math.exp(0.2 * turned);
  // The core goes down by 1.1 m, which helps, and rubs along level conduit, which does not.
  near(back.limit, needed, 1, 'needed');
});

test('no bends, no friction, no weight to speak of: the effort is the load', () => {
  const straight = changed(byLining, {
    'means.route': [
      { x: '0 mm', y: '0 mm', z: '0 mm' },
      { x: '100 mm', y: '0 mm', z: '0 mm' },
    ],
    'means.friction': '0',
    'means.drag': '0 N',
    'means.ageing': '1',
  });
  const { worst, swing } = cableStudy(straight, withCable(straight).means);
  assert.ok(worst !== null && swing !== null, 'known');
  assert.equal(worst.handleForce_N, worst.leverForce_N);
  assert.equal(worst.efficiency, 1);
  assert.deepEqual(swing.handleForce_N, swing.leverForce_N);
});

test('a conduit that ends askew is one more bend: the core rubs over its mouth', () => {
  const light = { 'means.core.diameter': '0.1 mm', 'means.drag': '0 N' };
  const [straight, askew] = ['129.4°', '99.4°'].map((direction) => {
    const job = changed(byLining, { ...light, 'means.leverEnd.conduitDirection': direction });
    const { swing, friction } = cableStudy(job, withCable(job).means);
    assert.ok(swing !== null && friction !== null, 'known');
    return { swing, worn: friction.worn };
  });
  const middle = 24;
  const off = (straight.swing.offAxis_deg[middle] - askew.swing.offAxis_deg[middle]) * -1;
  assert.ok(off > 25, `${off}°`);
  const ratio = (askew.swing.handleForce_N[middle] ?? NaN) / (straight.swing.handleForce_N[middle] ?? NaN);
  near(ratio, Math.exp(askew.worn * rad(off)), 1e-4, 'over the mouth');
});

test('a mirrored installation comes out the same', () => {
  for (const { name, job } of cables.slice(0, 5)) {
    const { means, survey } = job;
    const flip = (text: string) => (text.startsWith('-') ? text.slice(1) : `-${text}`);
    // Mirrored in the upright axis: angles a become 180° - a.
    const turn = (text: string) => `${180 - Number.parseFloat(text)}°`;
    const mirrored = changed(job, {
      'survey.lever.runAngle': turn(survey.lever.runAngle),
      'survey.lever.noFuelAngle': turn(survey.lever.noFuelAngle),
      'survey.lever.hardStopAngle': turn(survey.lever.hardStopAngle),
      'survey.lever.runStopAngle': turn(survey.lever.runStopAngle),
      ...Object.fromEntries(
        survey.effort.readings.map(({ angle }, i) => [`survey.effort.readings[${i}].angle`, turn(angle)]),
      ),
      'means.leverEnd.conduitEnd.x': flip(means.leverEnd.conduitEnd.x),
      'means.leverEnd.angle': flip(means.leverEnd.angle),
      ...(means.leverEnd.conduitDirection === undefined
        ? {}
        : { 'means.leverEnd.conduitDirection': turn(means.leverEnd.conduitDirection) }),
      'return.springs': job.return.springs.map((spring) =>
        spring.on === 'lever'
          ? { ...spring, anchor: { ...spring.anchor, x: flip(spring.anchor.x) }, angle: flip(spring.angle) }
          : spring,
      ),
    });
    const before = assess(job).findings;
    for (const { id, margin, value } of assess(mirrored).findings) {
      const known = before.find((one) => one.id === id);
      if (margin === null) assert.equal(known?.margin, null, `${name}: ${id}`);
      else near(margin, known?.margin ?? NaN, 1e-6, `${name}: margin of ${id}`);
      if (value !== null) near(value, known?.value ?? NaN, 1e-4, `${name}: value of ${id}`);
    }
  }
});

test('more friction, more bend, more ageing, a heavier drag: the handle never gets easier, nor the way back surer', () => {
  const margins = (job: Job) =>
    ['handle-pull', 'comes-back-on-cable', 'worn-cable'].map((id) => finding(job, id).margin!);
  const rows: readonly (readonly [string, readonly string[]])[] = [
    ['means.friction', ['0', '0.05', '0.1', '0.2', '0.3']],
    ['means.ageing', ['1', '1.5', '2', '3']],
    ['means.drag', ['0 N', '1 N', '3 N', '8 N']],
    ['survey.effort.coldOil', ['1', '1.25', '2']],
    ['survey.run.bendTotal', ['100°', '200°', '300°']],
  ];
  for (const [path, texts] of rows) {
    const job = path.startsWith('survey.run') ? changed(byLining, { 'means.route': [] }) : byLining;
    const found = texts.map((text) => margins(changed(job, { [path]: text })));
    found.slice(1).forEach((next, i) => {
      assert.ok(next[0] <= found[i][0] + 1e-9, `${path}: handle ${found[i][0]} then ${next[0]}`);
      assert.ok(next[1] <= found[i][1] + 1e-9, `${path}: back ${found[i][1]} then ${next[1]}`);
    });
  }
});

test('the friction at which it fails is where a margin is nought', () => {
  const { friction, limit } = cableStudy(byLining, withCable(byLining).means);
  assert.ok(friction !== null && friction.fails !== null && limit !== null, 'known');
  const at = (mu: number) => {
    const job = changed(byLining, { 'means.friction': `${mu}`, 'means.ageing': '1' });
    return Math.min(finding(job, 'handle-pull').margin!, finding(job, 'comes-back-on-cable').margin!);
  };
  assert.ok(at(friction.fails - 0.002) > 0 && at(friction.fails + 0.002) < 0, 'changes sign there');
});

test('what each bend costs: taken out, the handle asks so much less', () => {
  const light = changed(byLining, { 'means.core.diameter': '0.1 mm', 'means.friction': '0.1' });
  const { worst } = cableStudy(light, withCable(light).means);
  assert.ok(worst !== null && worst.coreForce_N !== null, 'known');
  const carried = worst.coreForce_N - worst.drag_N;
  worst.bendCost_N.forEach((cost, i) =>
    near(cost, carried * (1 - Math.exp(-worst.friction * turns[i])), 0.01, `bend ${i + 1}`),
  );
  // The profile rises from lever to handle, and ends at both.
  assert.equal(worst.profile[0].force_N, worst.leverForce_N);
  assert.equal(worst.profile[worst.profile.length - 1].force_N, worst.coreForce_N);
  worst.profile.slice(1).forEach(({ force_N, fromLever_mm }, i) => {
    assert.ok(force_N >= worst.profile[i].force_N - 1e-3, 'rises');
    assert.ok(fromLever_mm >= worst.profile[i].fromLever_mm - 1e-9, 'goes on');
  });
});

test('a second cable on the lever makes the first handle harder, and the other is judged too', () => {
  const job = cables.find(({ name }) => name === 'second cable')!.job;
  const [alone, both] = [finding(job, 'handle-pull'), finding(job, 'second-station')];
  assert.ok((both.value ?? 0) > (alone.value ?? 0), `${both.value} N over ${alone.value} N`);
  assert.match(both.because, /"Engine-room door" makes \d/);
  const roundabout = changed(job, {
    'means.secondStation.route': withCable(job).means.route.map((corner, i) => ({
      ...corner,
      ...(i === 0 ? { z: '2500 mm' } : {}),
    })),
  });
  assert.ok((finding(roundabout, 'second-station').value ?? 0) > (both.value ?? 0), 'a longer second run is harder');
});

test('every study is plain data, and is reckoned for two hundred bends too', () => {
  for (const { job } of cables) assertPlain(cableStudy(job, job.means));
  const stairs = Array.from({ length: 202 }, (_, i) => ({
    x: `${Math.ceil(i / 2) * 600} mm`,
    y: `${Math.floor(i / 2) * 600} mm`,
    z: '0 mm',
    ...(i === 0 || i === 201 ? {} : { radius: '250 mm' }),
  }));
  const job = changed(byLining, { 'means.route': stairs, 'means.friction': '0.001', 'means.ageing': '1' });
  const study = cableStudy(job, withCable(job).means);
  assertPlain(study);
  assert.equal(study.run?.bends.length, 200);
  near(study.run?.turned_deg, 200 * 90, 1e-6, 'turned');
  assert.ok(study.worst !== null && study.worst.coreForce_N !== null, 'reckoned');
  near(study.worst.coreForce_N, study.worst.leverForce_N * Math.exp(0.001 * 100 * Math.PI) + 3, 0.2, 'effort');
  assertConsistent(assess(job));
});
