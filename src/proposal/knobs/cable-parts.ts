/** What a hand cable is made of: handle, drag, lining, core, swivel, and a spring that helps the lever home. */
import { change } from '../../job/change.ts';
import { defaults } from '../../job/defaults.ts';
import { NOT_MEASURED, quantityIn } from '../../job/quantity-text.ts';
import type { Job } from '../../job/schema.ts';
import { formatQuantity, type DisplayUnits } from '../../units/quantity.ts';
import { cableWithout, keepingReadings, type Cabled } from './cable-as-read.ts';
import { MM, resize, rewritten, set, shares, valueAtPath, type Knob, type Say } from './knob.ts';

/** Cores that are sold, mm: usual sizes, no source. */
const coreSizes = [1.2, 1.5, 1.6, 2, 2.4, 2.5, 3, 3.2, 4, 5];
const ratios = [1.1, 1.25, 1.5, 1.75, 2, 2.5, 3, 4];

export function cableParts(at: Cabled, units: DisplayUnits, say: Say): Knob[] {
  return [
    ...handle(at, units),
    ...keepingReadings(at, geared),
    ...withDefault(
      at,
      'drag',
      at.cable.readings === undefined ? [0.2, 0.4, 0.6, 0.8] : [],
      (to) => `Free seals and ends until the cable moves with ${to} at the handle, nothing connected`,
    ),
    ...withDefault(
      at,
      'ageing',
      [0.1, 0.2, 0.3, 0.4, 0.45],
      (to) => `Renew the cable once its friction is ${to} times what it is now`,
    ),
    ...lining(at),
    ...swivel(at),
    ...keepingReadings(at, (kept) => coreKind(kept, say)),
  ];
}

/** A handle that gears down, where the core moves less than the hand. */
function geared({ job, cable, prefix }: Cabled): Knob[] {
  const path = `${prefix}.handle.ratio`;
  const ratio = cable.handle.ratio === undefined ? 1 : valueAtPath(job, path, 'ratio');
  return [
    {
      name: 'handle ratio',
      ladder: ratios,
      step: 0,
      settingAt: (times) => {
        const to = Number((ratio * times).toPrecision(3));
        return {
          words: `Take a handle whose hand moves ${to} times as far as the core`,
          changes: [change(job, path, `${to}`)],
        };
      },
    },
  ];
}

function handle({ job, cable, prefix }: Cabled, units: DisplayUnits): Knob[] {
  const { kind, allowed } = cable.handle;
  const longer = resize(
    job,
    `${prefix}.handle.travel`,
    'length',
    units,
    shares,
    1,
    (to) => `Take a handle with ${to} of travel`,
  );
  if (kind !== 'knob' || allowed !== undefined) return longer;
  return [
    {
      name: 'T-handle',
      ladder: [1],
      step: 0,
      settingAt: () => ({
        words: 'Fit a T-handle, which a whole hand grips, in place of the knob',
        changes: [change(job, `${prefix}.handle.kind`, 'T-handle')],
      }),
    },
    ...longer,
  ];
}

/** A value that has a default, made smaller by shares of itself. */
function withDefault(
  { job, prefix }: Cabled,
  name: 'drag' | 'ageing',
  ladder: readonly number[],
  words: (to: string) => string,
): Knob[] {
  const path = `${prefix}.${name}`;
  const { from } = change(job, path, undefined);
  const text = typeof from === 'string' ? from : defaults[`means.${name}`].text;
  const dimension = name === 'drag' ? 'force' : 'ratio';
  const value = quantityIn(text, dimension)?.value ?? NaN;
  if (ladder.length === 0 || !(value > 0)) return [];
  return [
    {
      name: path,
      ladder,
      step: 0.05,
      settingAt(share) {
        const least = name === 'ageing' ? 1 : 0;
        const to = value * (1 - share);
        const written = to >= least ? rewritten(text, dimension, to) : null;
        return written === null ? null : { words: words(written), changes: [change(job, path, written)] };
      },
    },
  ];
}

/** A new cable with a slicker lining; what was read at the old one no longer counts. */
function lining(at: Cabled): Knob[] {
  const { conduit, readings, friction } = at.cable;
  if (readings === undefined && friction === undefined && conduit.lining === 'PTFE') return [];
  const slick = ['plastic', 'PTFE'] as const;
  return [
    {
      name: 'new cable',
      ladder: [1, 2],
      step: 0,
      settingAt(which) {
        const to = slick[which - 1];
        if (to === undefined || (to === conduit.lining && readings === undefined && friction === undefined))
          return null;
        const isOnlyLining = readings === undefined && friction === undefined;
        const changes = isOnlyLining
          ? [change(at.job, `${at.prefix}.conduit.lining`, to)]
          : [cableWithout(at, ['readings', 'friction'], { conduit: { ...conduit, lining: to } })];
        return { words: `Fit a new cable with a ${to} liner`, changes };
      },
    },
  ];
}

/** Another thickness; and one wire that may be pushed, in place of a strand that may not. */
function coreKind({ job, cable, prefix }: Cabled, say: Say): Knob[] {
  const { core, towardsStop } = cable;
  const path = (name: string) => `${prefix}.${name}`;
  const diameter = valueAtPath(job, path('core.diameter'), 'length');
  const bore = valueAtPath(job, path('conduit.bore'), 'length');
  const knobs: Knob[] = [];
  if (!Number.isNaN(diameter)) {
    for (const way of [1, -1] as const) {
      const sizes = coreSizes
        .map((size) => size * MM)
        .filter((size) => way * (size - diameter) > 1e-6)
        .sort((a, b) => way * (a - b));
      knobs.push({
        name: `core diameter ${way}`,
        ladder: sizes.map((_, i) => i + 1),
        step: 0,
        settingAt(which) {
          const size = sizes[which - 1];
          const one = size === undefined || size >= bore ? null : set(job, path('core.diameter'), 'length', size);
          return one === null ? null : { words: `Take a core of ${say('length', size)}`, changes: [one] };
        },
      });
    }
  }
  if (towardsStop === 'pushed' && (core.moves !== 'by pulling and pushing' || core.construction !== 'solid wire')) {
    knobs.push({
      name: 'core that may be pushed',
      ladder: [1],
      step: 0,
      settingAt: () => ({
        words: 'Fit a core of solid wire that may be pulled and pushed',
        changes: [
          ...(core.moves === 'by pulling and pushing'
            ? []
            : [change(job, path('core.moves'), 'by pulling and pushing')]),
          ...(core.construction === 'solid wire' ? [] : [change(job, path('core.construction'), 'solid wire')]),
        ],
      }),
    });
  }
  return knobs;
}

function swivel({ job, cable, prefix }: Cabled): Knob[] {
  const { fitting, swing } = cable.leverEnd;
  if (fitting === 'swivel' || fitting === NOT_MEASURED || swing !== undefined) return [];
  return [
    {
      name: 'swivel',
      ladder: [1],
      step: 0,
      settingAt: () => ({
        words: 'Let the conduit end turn with the core: fit a swivel',
        changes: [change(job, `${prefix}.leverEnd.fitting`, 'swivel')],
      }),
    },
  ];
}

/** A torsion spring round the shaft that helps the lever home, wound by 60° at run. */
export function shaftSpring(job: Job, say: Say): Knob[] {
  const run = valueAtPath(job, 'survey.lever.runAngle', 'angle');
  const hardStop = valueAtPath(job, 'survey.lever.hardStopAngle', 'angle');
  const count = job.return.springs.length;
  if (Number.isNaN(run + hardStop) || count >= 8) return [];
  const toStop = hardStop < run ? -1 : 1;
  const wound = Math.PI / 3;
  const degrees = (angle: number) => formatQuantity(angle, 'angle', '°', { significantDigits: 4 });
  return [
    {
      name: 'spring on the shaft',
      ladder: [0.05, 0.1, 0.15, 0.2, 0.3, 0.4, 0.6, 0.8, 1.2],
      step: 0.01,
      settingAt: (moment) => ({
        words: `Fit a torsion spring round the shaft that drives it to run: ${say('torque', moment)} there, wound by 60°`,
        changes: [
          change(job, `return.springs[${count}]`, {
            on: 'shaft',
            name: 'Spring on the shaft',
            kind: 'torsion',
            towards: 'run',
            spring: {
              by: 'rate',
              rate: formatQuantity(moment / wound, 'torsionRate', 'N mm/°', { significantDigits: 4 }),
              freeAngle: degrees(run - toStop * wound),
              limitAngle: degrees(hardStop + (toStop * Math.PI) / 6),
            },
          }),
        ],
      }),
    },
  ];
}
