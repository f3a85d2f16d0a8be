/** The magnet of a job: its co-energy map where it has one, else the pulls that were read, by a stated approximation. */
import type { Solenoid } from '../../job/schema.ts';
import { coEnergySurface, type GridLine } from '../../physics/solenoid/field/co-energy-surface.ts';
import { magnetOfReadings } from '../../physics/solenoid/magnet-of-readings.ts';
import { magnetOfSurface, type Magnet } from '../../physics/solenoid/magnet.ts';
import type { ForceTable } from '../../physics/solenoid/table.ts';
import { valueOf } from '../readings.ts';
import type { Rig } from '../rig.ts';

/** Why there is no motion to show, and which readings would give one. */
export interface NoMotion {
  readonly because: string;
  readonly readings: readonly string[];
}

export type Magnetic =
  | { readonly known: true; readonly magnet: Magnet; readonly turns: Turns }
  | ({ readonly known: false } & NoMotion);

export interface Turns {
  readonly main: number;
  /** Of the hold winding; NaN for a coil with one winding. */
  readonly hold: number;
}

/** Documents do not change: the magnet of a solenoid is worked out once, however often what is around it is altered. */
const magnets = new WeakMap<Solenoid, Magnetic>();

/** The magnet of the job with the turns of its windings; of one known by pulls alone the main winding counts as one turn. */
export function magnetOf(rig: Rig): Magnetic {
  const known = magnets.get(rig.job.means);
  if (known !== undefined) return known;
  const found = reckonedMagnet(rig);
  magnets.set(rig.job.means, found);
  return found;
}

/** Rests on the solenoid alone; the two windings are compared as read, since copper warms alike. */
function reckonedMagnet(rig: Rig): Magnetic {
  const { map, coil, openInductance } = rig.job.means;
  if (map !== undefined) {
    const [main, hold = NaN] = map.turns;
    const surface = coEnergySurface(gridLinesOf(map));
    return { known: true, magnet: magnetOfSurface(surface), turns: { main, hold } };
  }
  const table = rig.pullInTable;
  if (table === null || !table.levels.some(({ from, to }) => to > from))
    return {
      known: false,
      because: 'Times need the pull at two gaps or more at one current.',
      readings: ['means.force'],
    };
  const untaken = [
    ...(Number.isNaN(rig.stroke) ? ['means.plunger.stroke'] : []),
    ...(coil.stages === 'pull-in and hold windings'
      ? (['pullInResistance', 'holdResistance'] as const).flatMap((name) =>
          Number.isNaN(valueOf(coil[name], 'resistance')) ? [`means.coil.${name}`] : [],
        )
      : []),
  ];
  if (untaken.length > 0)
    return { known: false, because: 'A reading that the magnet rests on has not been taken.', readings: untaken };
  const inductance =
    openInductance === undefined ? null : { gap: rig.stroke, value: valueOf(openInductance, 'inductance') };
  if (coil.stages !== 'pull-in and hold windings')
    return { known: true, magnet: magnetOfReadings(table, { inductance }), turns: { main: 1, hold: NaN } };
  const beside = valueOf(coil.pullInResistance, 'resistance') / valueOf(coil.holdResistance, 'resistance');
  const hold = coil.turnsRatio === undefined ? Math.sqrt(HOLD_COPPER / beside) : valueOf(coil.turnsRatio, 'ratio');
  // While the pulls of the pull-in winding were read, the hold winding lay beside it on the same volts.
  const inAmpereTurns = (levels: ForceTable['levels'], turns: number) =>
    levels.map((level) => ({ ...level, current: turns * level.current }));
  const levels = [
    ...inAmpereTurns(table.levels, 1 + hold * beside),
    ...inAmpereTurns(rig.holdTable?.levels ?? [], hold),
  ].sort((a, b) => a.current - b.current);
  return { known: true, magnet: magnetOfReadings({ levels }, { inductance }), turns: { main: 1, hold } };
}

/**
 * Copper of a hold winding over that of its pull-in winding, where their turns were not counted: N²/R of the one over that
 * of the other. Common practice, no source.
 */
const HOLD_COPPER = 0.3;

/** The lines of a job's map as a surface is laid through them. */
export function gridLinesOf({ lines }: Pick<NonNullable<Solenoid['map']>, 'lines'>): GridLine[] {
  return lines.map(({ gap_m, ampereTurns, coEnergy_J, fluxLinkage_Wb, force_N }) => ({
    gap: gap_m,
    ampereTurns,
    points: ampereTurns.map((_, i) => ({
      coEnergy: coEnergy_J[i],
      fluxLinkage: fluxLinkage_Wb[i],
      force: force_N[i],
    })),
  }));
}
