/** A hand stop beside another means: its own cable, and what keeps either from holding the lever when the other is stuck. */
import { change, type Change } from '../../job/change.ts';
import type { Job } from '../../job/schema.ts';
import { formatQuantity, type DisplayUnits } from '../../units/quantity.ts';
import { cabled, keepingReadings, type Cabled } from './cable-as-read.ts';
import { cableKnobs, otherSide } from './cable.ts';
import { MM, moves, set, shift, valueAtPath, type Knob, type Say } from './knob.ts';

/** Nothing where no hand cable stands beside the means. */
export function handStopKnobs(job: Job, units: DisplayUnits, say: Say): Knob[] {
  if (job.handStop === undefined) return [];
  const at = cabled(job)!;
  const own = [
    ...cableKnobs(at, units, say),
    ...keepingReadings(at, (kept) => [...moreSlack(kept, say), ...strand(kept)]),
  ];
  return [...own.map(named), ...(isToRun(job) ? givingJoint(job, say) : chainInstead(job, say))];
}

/** Whether the means holds the lever at run: then a chain stuck at home is taut, and something must give instead. */
function isToRun({ means }: Job): boolean {
  return means.kind !== 'hand cable' && (means.works === 'energise to run' || means.works === 'air to run');
}

/** Said of the hand stop, so that nobody changes the means. */
function named(knob: Knob): Knob {
  return {
    ...knob,
    settingAt(amount) {
      const setting = knob.settingAt(amount);
      if (setting === null) return null;
      const words = `Cable of the hand stop: ${setting.words.charAt(0).toLowerCase()}${setting.words.slice(1)}`;
      return { ...setting, words };
    },
  };
}

/** Slack that the lever may take up while the core is stuck. */
function moreSlack({ job, prefix }: Cabled, say: Say): Knob[] {
  return shift(
    job,
    `${prefix}.leverEnd.slack`,
    'length',
    MM,
    [2, 4, 6, 8, 11, 15, 20, 25, 30, 40, 50, 60, 80],
    0.5,
    (to) => `Give the core ${say('length', to)} of slack before it moves the lever`,
  ).slice(0, 1);
}

/** A strand bows out where the lever runs ahead of it; what is pushed is brought to the side where it pulls. */
function strand(at: Cabled): Knob[] {
  const { job, cable, prefix } = at;
  if (cable.core.construction.startsWith('strand')) return [];
  const construction = change(job, `${prefix}.core.construction`, 'strand 7x7, stainless');
  if (cable.towardsStop !== 'pushed') {
    const words = 'Fit a core of strand, which bows out where the lever runs ahead of it';
    return [{ name: 'strand', ladder: [1], step: 0, settingAt: () => ({ words, changes: [construction] }) }];
  }
  return otherSide(at).map((knob) => ({
    ...knob,
    name: 'strand on the other side',
    settingAt(amount) {
      const setting = knob.settingAt(amount);
      return setting === null
        ? null
        : { words: `${setting.words}, and fit one of strand`, changes: [...setting.changes, construction] };
    },
  }));
}

/** Lengths of short chains, mm: from what joins two pins to what a bracket has room for. */
const chains = [15, 20, 25, 30, 40, 50, 60, 80];

/**
 * A short chain in place of a joint that holds the lever to the plunger: it falls slack where the hand stop turns the lever.
 * A link gives way to a chain as long as it is; in place of a slot or a hole the bracket goes back by the length of the chain.
 * Nothing where the mover pushes: a chain does not.
 */
function chainInstead(job: Job, say: Say): Knob[] {
  const { connection } = job.layout;
  const isPushed = job.means.kind !== 'hand cable' && job.means.action === 'push';
  if (connection.kind === 'short chain' || isPushed) return [];
  if (connection.kind === 'pinned link') {
    const { length, armRadius } = connection;
    const changes = [change(job, 'layout.connection', { kind: 'short chain', length, armRadius })];
    const words = 'Join lever and clevis by a short chain in place of the link, as long as that is';
    return [{ name: 'chain instead of link', ladder: [1], step: 0, settingAt: () => ({ words, changes }) }];
  }
  const text = (value: number) => formatQuantity(value, 'length', 'mm', { significantDigits: 4 });
  const at = (field: string) => valueAtPath(job, `layout.${field}`, 'length');
  const radius =
    connection.kind === 'plain pin'
      ? at('connection.armRadius')
      : (at('connection.slotFrom') + at('connection.slotTo')) / 2;
  const direction = valueAtPath(job, 'layout.pullDirection', 'angle');
  const [x, y] = [at('homePin.x'), at('homePin.y')];
  if (Number.isNaN(radius + direction + x + y)) return [];
  const bracket = (length: number): readonly Change[] | null =>
    moves([
      set(job, 'layout.homePin.x', 'length', x + length * Math.cos(direction)),
      set(job, 'layout.homePin.y', 'length', y + length * Math.sin(direction)),
    ]);
  return [
    {
      name: 'chain instead of slot or hole',
      ladder: chains,
      step: 0,
      settingAt(millimetres) {
        const length = millimetres * MM;
        const moved = bracket(length);
        const joint = { kind: 'short chain', length: text(length), armRadius: text(radius) };
        const words = `Join the plunger to a hole in the arm ${say('length', radius)} from the shaft centre by a chain ${say('length', length)} long, and move the bracket that much in the direction of the pull`;
        return moved === null ? null : { words, changes: [change(job, 'layout.connection', joint), ...moved] };
      },
    },
  ];
}

/** An over-travel spring that gives by hand where the means is stuck with the lever at run. */
function givingJoint(job: Job, say: Say): Knob[] {
  const travels = [8, 10, 12, 15, 20, 25, 30, 40];
  if (job.layout.overTravel !== 'none') {
    return shift(
      job,
      'layout.overTravel.travel',
      'length',
      MM,
      travels,
      0.5,
      (to) => `Give the over-travel spring ${say('length', to)} of travel, so that the hand stop can pull against it`,
    ).slice(0, 1);
  }
  return [40, 80].map((preload) => ({
    name: `over-travel that gives ${preload}`,
    ladder: travels,
    step: 0.5,
    settingAt(travel: number) {
      const spring = { preload: `${preload} N`, rate: '3 N/mm', travel: `${travel} mm` };
      return {
        words: `Fit an over-travel spring in the connection that the hand stop can pull against: preload ${say('force', preload)}, ${say('length', travel * MM)} of travel`,
        changes: [change(job, 'layout.overTravel', spring)],
      };
    },
  }));
}
