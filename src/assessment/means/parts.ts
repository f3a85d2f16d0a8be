/** What each means consists of, what must be made for it, and what must be kept up: counted from the job, not from a list. */
import type { AirCylinder, HandCable, Job, Solenoid } from '../../job/schema.ts';
import { formatQuantity, type DisplayUnits } from '../../units/quantity.ts';
import { valueOf } from '../readings.ts';

export interface Goods {
  readonly parts: readonly string[];
  readonly toMake: readonly string[];
  readonly upkeep: readonly string[];
}

export function goodsOf(job: Job, units: DisplayUnits): Goods {
  switch (job.means.kind) {
    case 'solenoid':
      return solenoidGoods(job, job.means, units);
    case 'hand cable':
      return cableGoods(job, job.means, units);
    case 'air cylinder':
      return airGoods(job, job.means, units);
  }
}

const count = (number: number, one: string, more = `${one}s`) => `${number} ${number === 1 ? one : more}`;
/** "8.4 m of conductor", or nothing where the length was not read. */
function run(metres: number, units: DisplayUnits, words: (length: string) => string): string | null {
  if (Number.isNaN(metres)) return null;
  return words(formatQuantity(metres, 'length', units.length === 'in' ? 'ft' : 'm', { significantDigits: 3 }));
}
const whole = (lines: readonly (string | null)[]): string[] => lines.filter((line) => line !== null);

function springsOf(job: Job): string | null {
  const { springs } = job.return;
  return springs.length === 0 ? null : count(springs.length, 'return spring');
}

function joint(job: Job): string {
  const { connection, overTravel } = job.layout;
  const spring = overTravel === 'none' ? '' : ' with an over-travel spring';
  return `${connection.kind === 'plain pin' ? 'clevis and plain pin' : connection.kind}${spring}`;
}

function armWork(job: Job): string {
  const { connection } = job.layout;
  return connection.kind === 'slotted lever' ? 'slot in the arm' : 'hole in the arm';
}

function solenoidGoods(job: Job, means: Solenoid, units: DisplayUnits): Goods {
  const { supply } = job;
  const wire =
    valueOf(supply.out.length, 'length') + (supply.back.by === 'conductor' ? valueOf(supply.back.length, 'length') : 0);
  const stations = supply.stations.length + 1;
  return {
    parts: whole([
      `solenoid, ${supply.nominal} V, ${means.coil.stages}`,
      joint(job),
      springsOf(job),
      run(wire, units, (length) => `${length} of conductor`),
      `${count(supply.contacts.length, 'contact')} on the way`,
      stations > 1 ? `${stations} stations` : null,
      supply.fuse === 'none' || supply.fuse === 'not measured' ? null : 'fuse',
      supply.cutOut === 'none' || supply.cutOut === 'not measured' ? null : 'timer or thermal cut-out',
      supply.suppression === 'none' || supply.suppression === 'not measured' ? null : supply.suppression.kind,
      means.works === 'energise to stop' ? 'a hand stop beside it' : null,
    ]),
    toMake: ['bracket in line with the pull', armWork(job), 'wiring with its way back'],
    upkeep: whole([
      'contacts and earths: volts at the coil once a year',
      means.endSwitch === 'none' ? null : 'end switch: current must fall at home',
      'plunger and joint clean and free',
    ]),
  };
}

function cableGoods(job: Job, means: HandCable, units: DisplayUnits): Goods {
  const bends = means.route.length > 2 ? means.route.length - 2 : job.survey.run.bends;
  const { secondStation } = means;
  return {
    parts: whole([
      run(valueOf(job.survey.run.distance, 'length'), units, (length) => `cable for a run of ${length}`),
      means.handle.kind === 'not measured' ? 'handle' : means.handle.kind,
      means.leverEnd.fitting === 'not measured' ? 'end fitting' : means.leverEnd.fitting,
      `clips for ${count(bends, 'bend')}`,
      typeof secondStation === 'string' ? null : `second station by ${secondStation.by}`,
      springsOf(job),
    ]),
    toMake: whole([
      'anchor for the conduit end at the lever',
      'hole in the arm',
      'place for the handle with its plate',
      typeof secondStation === 'string' ? null : secondMade(secondStation, units),
    ]),
    upkeep: whole([
      'effort at the handle with a spring balance once a year: it rises before the cable fails',
      'both ends free of dirt, away from the exhaust',
      means.conduit.lining === 'PTFE' || means.conduit.lining === 'plastic'
        ? 'no oil into a lined conduit'
        : 'grease for the core',
    ]),
  };
}

/** What the second place of control asks to be made where it joins. */
function secondMade(
  { by, joins, crank }: Exclude<HandCable['secondStation'], string>,
  units: DisplayUnits,
): string | null {
  if (by === 'second cable') return 'second anchor and hole at the lever';
  const place =
    (joins === undefined ? null : run(valueOf(joins, 'length'), units, (length) => `, ${length} from the handle`))
    ?? '';
  if (by === 'tee') return `box for the tee, held on the run${place}`;
  const arms =
    crank === undefined || crank.mainArm === 'not measured' || crank.secondArm === 'not measured'
      ? ''
      : ` with arms of ${crank.mainArm} and ${crank.secondArm}`;
  return `bracket for a bell-crank${arms}${place}`;
}

function airGoods(job: Job, means: AirCylinder, units: DisplayUnits): Goods {
  return {
    parts: whole([
      means.bore === 'not measured' ? 'cylinder' : `cylinder, bore ${means.bore}`,
      joint(job),
      'valve with silencer',
      run(valueOf(means.line.length, 'length'), units, (length) => `${length} of pipe`),
      springsOf(job),
      means.works === 'air to run' ? null : 'a hand stop beside it',
    ]),
    toMake: ['bracket in line with the pull', armWork(job), 'pipe run with a drain at its lowest place'],
    upkeep: [
      'drain the water, above all before frost',
      'leaks: pressure with the supply shut',
      'seals of the cylinder',
    ],
  };
}
