/** The demonstrations with a solenoid and variants of them, so that every kind of part occurs in at least one. */
import type { Job } from '../../src/job/schema.ts';
import { changed, demo } from '../job/jobs.ts';

export interface Installation {
  readonly name: string;
  readonly job: Job;
}

const plungerSpring = {
  on: 'plunger',
  name: 'Plunger spring',
  kind: 'compression',
  lengthAtHome: '40 mm',
  spring: { by: 'rate', rate: '0.15 N/mm', freeLength: '110 mm', limitLength: '24 mm' },
};

const shaftSpring = {
  on: 'shaft',
  name: 'Torsion spring',
  kind: 'torsion',
  towards: 'run',
  spring: { by: 'rate', rate: '8 N mm/°', freeAngle: '40°', limitAngle: '140°' },
};

const shaftSpringOfWire = {
  ...shaftSpring,
  spring: {
    by: 'dimensions',
    wire: 'EN 10270-1 SH',
    wireDiameter: '2.5 mm',
    outsideDiameter: '25 mm',
    activeTurns: '8',
    freeAngle: '-20°',
  },
};

const shaftSpringByReadings = {
  ...shaftSpring,
  spring: {
    by: 'two readings',
    first: { angle: '62°', moment: '0.2 N m' },
    second: { angle: '97°', moment: '0.45 N m ± 0.02' },
    limitAngle: '140°',
  },
};

const leverSpringByReadings = {
  by: 'two readings',
  first: { length: '62 mm', force: '14 N' },
  second: { length: '90 mm', force: '44 N ± 1' },
  freeLength: '56 mm',
  limitLength: '110 mm',
};

const plungerSpringOfWire = {
  ...plungerSpring,
  spring: {
    by: 'dimensions',
    wire: 'EN 10270-3 1.4310',
    wireDiameter: '1.25 mm',
    outsideDiameter: '26 mm',
    activeTurns: '14',
    freeLength: '110 mm',
    ends: 'closed and ground',
  },
};

/** A coil of one winding read at two currents; its hold is read at the low ones. */
const tablesByCurrent = [
  ['pull-in', '24 A', 320, 175, 108, 80],
  ['pull-in', '16 A', 230, 118, 64, 48],
  ['hold', '9 A', 140, 70, 38, 29],
  ['hold', '6 A', 95, 46, 25, 19],
].map(([stage, current, ...forces]) => ({
  stage,
  drive: { by: 'current', current },
  rows: [0, 3, 15, 40].map((gap, i) => ({ gap: `${gap} mm`, force: `${forces[i]} N` })),
}));

/** Both tables of a coil whose current never changes. */
const oneStage = tablesByCurrent.slice(0, 2);

const railcar = demo('railcar');
const pumpHouse = demo('pump-house');
const shortStroke = demo('short-stroke');

export const installations: readonly Installation[] = [
  { name: 'railcar', job: railcar },
  { name: 'pump house', job: pumpHouse },
  { name: 'short stroke', job: shortStroke },
  { name: 'binding pin', job: demo('binding-pin') },
  {
    name: 'short stroke with a link that is long enough',
    job: changed(shortStroke, { 'layout.connection.length': '57 mm' }),
  },
  {
    name: 'pump house with a short chain',
    job: changed(pumpHouse, {
      'layout.connection': { kind: 'short chain', length: '60 mm', armRadius: '45 mm' },
    }),
  },
  {
    name: 'railcar with an over-travel spring, home past the hard stop',
    job: changed(railcar, {
      'layout.homePin.x': '-13.5 mm',
      'layout.overTravel': { preload: '70 N', rate: '3 N/mm', travel: '8 mm' },
    }),
  },
  {
    name: 'short stroke with an over-travel spring',
    job: changed(shortStroke, { 'layout.overTravel': { preload: '60 N', rate: '3 N/mm', travel: '8 mm' } }),
  },
  {
    name: 'railcar with a single coil and no end switch',
    job: changed(railcar, {
      'means.coil': { stages: 'single coil', resistance: '1.1 Ω', readAt: '20 °C' },
      'means.force': oneStage,
      'means.endSwitch': 'none',
    }),
  },
  {
    name: 'railcar with an economiser',
    job: changed(railcar, {
      'means.coil': {
        stages: 'timed economiser',
        resistance: '1.1 Ω',
        readAt: '20 °C',
        holdShare: '0.4',
        delay: '0.8 s',
      },
      'means.force': tablesByCurrent,
      'means.endSwitch': 'none',
    }),
  },
  { name: 'railcar with a spring on the plunger', job: changed(railcar, { 'return.springs[1]': plungerSpring }) },
  {
    name: 'railcar with a spring of wire on the plunger and none on the lever',
    job: changed(railcar, { 'return.springs[0]': plungerSpringOfWire }),
  },
  {
    name: 'railcar with a torsion spring on the shaft',
    job: changed(railcar, { 'return.springs[1]': shaftSpring }),
  },
  {
    name: 'railcar with a torsion spring of wire alone',
    job: changed(railcar, { 'return.springs[0]': shaftSpringOfWire }),
  },
  {
    name: 'railcar with a lever spring and a torsion spring by two readings',
    job: changed(railcar, {
      'return.springs[0].spring': leverSpringByReadings,
      'return.springs[1]': shaftSpringByReadings,
    }),
  },
  {
    name: 'railcar with earth return',
    job: changed(railcar, { 'supply.back': { by: 'earth', resistance: '8 mΩ' } }),
  },
  { name: 'railcar on soft mounts', job: changed(railcar, { 'surroundings.engineMoves': '2 mm' }) },
  { name: 'short stroke on soft mounts', job: changed(shortStroke, { 'surroundings.engineMoves': '2 mm' }) },
  { name: 'railcar pushed', job: changed(railcar, { 'means.action': 'push' }) },
  {
    name: 'railcar with a plain pin that has room',
    job: changed(railcar, {
      'layout.homePin.y': '43.3 mm',
      'layout.connection': {
        kind: 'plain pin',
        armRadius: '46 mm',
        pinDiameter: '6 mm',
        holeDiameter: '14 mm',
      },
    }),
  },
  {
    name: 'railcar without a first pull, with the lever plane beside the axis',
    job: changed(railcar, { 'survey.effort.firstPull': undefined, 'means.plunger.planeOffset': '4 mm' }),
  },
  {
    name: 'pump house with a compression spring on the lever',
    job: changed(pumpHouse, {
      'return.springs[0]': {
        on: 'lever',
        name: 'Stop spring',
        kind: 'compression',
        anchor: { x: '-70 mm', y: '10 mm' },
        radius: '34 mm',
        angle: '0°',
        spring: { by: 'rate', rate: '0.6 N/mm', freeLength: '110 mm', limitLength: '20 mm' },
      },
    }),
  },
];
