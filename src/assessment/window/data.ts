/** The window as plain data with units in its names, ready for JSON and for drawing; no number in it is infinite. */
import { fromSI } from '../../units/quantity.ts';
import type { Edge, SpringWindow, WindowStation } from './kinds.ts';
import type { LineInWindow } from './line.ts';

export interface WindowData {
  readonly on: string;
  readonly index: number | null;
  /** Unit of floor, ceiling and line. */
  readonly unit: 'N m' | 'N';
  readonly isOpen: boolean;
  readonly missing: readonly string[];
  readonly scenes: readonly {
    readonly moved: string | null;
    readonly gap_mm: readonly number[];
    readonly shaftAngle_deg: readonly number[];
    /** Null where no spring can do it: no floor high enough, or no ceiling low enough. */
    readonly floor: readonly (number | null)[];
    /** Null where any spring would do, or none: `isShut` tells which. */
    readonly ceiling: readonly (number | null)[];
    readonly isShut: readonly boolean[];
    readonly floorDecidedBy: readonly string[];
    readonly ceilingDecidedBy: readonly string[];
  }[];
  /** The present spring over the first scene. */
  readonly line: readonly (number | null)[] | null;
  readonly toFloor: number | null;
  readonly toCeiling: number | null;
}

const finite = (value: number | undefined): number | null =>
  value !== undefined && Number.isFinite(value) ? value : null;

export function windowData(window: SpringWindow, line: LineInWindow | null): WindowData {
  const decided = ({ check, friction, supply, coil }: Edge) =>
    [
      check,
      friction === null ? null : `${friction} friction`,
      supply === null ? null : `${supply} supply`,
      coil === null ? null : `${coil} coil`,
    ]
      .filter((part) => part !== null)
      .join(', ');
  const isShut = ({ floor, ceiling }: WindowStation) =>
    floor.value === Infinity || ceiling.value === -Infinity || ceiling.value < floor.value;
  return {
    on: window.question.on,
    index: window.question.index,
    unit: window.acts === 'moment' ? 'N m' : 'N',
    isOpen: window.isOpen,
    missing: window.missing,
    scenes: window.scenes.map(({ moved, stations }) => ({
      moved,
      gap_mm: stations.map(({ gap }) => fromSI(gap, 'mm')),
      shaftAngle_deg: stations.map(({ shaftAngle }) => fromSI(shaftAngle, '°')),
      floor: stations.map(({ floor }) => finite(floor.value)),
      ceiling: stations.map(({ ceiling }) => finite(ceiling.value)),
      isShut: stations.map(isShut),
      floorDecidedBy: stations.map(({ floor }) => decided(floor)),
      ceilingDecidedBy: stations.map(({ ceiling }) => decided(ceiling)),
    })),
    line: line?.values ?? null,
    toFloor: finite(line?.toFloor?.distance),
    toCeiling: finite(line?.toCeiling?.distance),
  };
}
