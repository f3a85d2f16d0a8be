/** The changes of a layout in a fitter's words, each an order that can be carried out. */
import type { SolenoidJob } from '../../assessment/rig.ts';
import { valueOf } from '../../assessment/readings.ts';
import type { Change } from '../../job/change.ts';
import type { Connection } from '../../job/schema.ts';
import { display, type DisplayUnits } from '../../units/quantity.ts';

/** @param after the job with the changes; changes of springs and conductors bring their own words */
export function layoutWords(after: SolenoidJob, changes: readonly Change[], units: DisplayUnits): string[] {
  const { layout, survey } = after;
  const length = (text: string) => display(valueOf(text, 'length'), 'length', units, 3);
  const touches = (start: string) => changes.some(({ path }) => path.startsWith(start));
  const isMoved = touches('layout.homePin');
  const isTurned = touches('layout.pullDirection');
  const direction = display(valueOf(layout.pullDirection, 'angle'), 'angle', units);
  const way = (text: string, ways: readonly [string, string]) => {
    const value = valueOf(text, 'length');
    return `${display(Math.abs(value), 'length', units, 3)} ${value < 0 ? ways[0] : ways[1]}`;
  };
  const place = `the home pin ${way(layout.homePin.x, ['left', 'right'])} of and ${way(layout.homePin.y, ['below', 'above'])} the shaft centre`;
  const words: string[] = [];
  if (touches('layout.hubPosition'))
    words.push(`Refit the arm on its hub: position ${layout.hubPosition} of 0 to ${survey.lever.hubPositions - 1}`);
  if (isMoved && isTurned) words.push(`Put the bracket with ${place}, pulling at ${direction}`);
  else if (isMoved) words.push(`Put the bracket with ${place}`);
  else if (isTurned) words.push(`Turn the bracket until it pulls at ${direction}`);
  const joint = changes.filter(({ path }) => path.startsWith('layout.connection'));
  if (joint.length > 0) words.push(jointWords(layout.connection, joint, length));
  return words;
}

function jointWords(connection: Connection, joint: readonly Change[], length: (text: string) => string): string {
  const isWhole = joint.some(({ path }) => path === 'layout.connection');
  const fields = new Set(joint.map(({ path }) => path.slice('layout.connection.'.length)));
  switch (connection.kind) {
    case 'slotted lever': {
      const slot = `a slot from ${length(connection.slotFrom)} to ${length(connection.slotTo)} from the shaft centre`;
      return isWhole ? `Cut ${slot} in the arm, for a pin of ${length(connection.pinDiameter)}` : `Cut ${slot}`;
    }
    case 'plain pin': {
      const hole = `a hole of ${length(connection.holeDiameter)} in the arm, ${length(connection.armRadius)} from the shaft centre`;
      return isWhole || fields.has('armRadius')
        ? `Drill ${hole}, for a pin of ${length(connection.pinDiameter)}`
        : `Open the hole in the arm to ${length(connection.holeDiameter)}`;
    }
    case 'pinned link':
    case 'short chain': {
      const what = connection.kind === 'pinned link' ? 'link' : 'chain';
      const long = `a ${what} of ${length(connection.length)} between pin centres`;
      const hole = `a hole in the arm ${length(connection.armRadius)} from the shaft centre`;
      if (isWhole) return `Join them by ${long}, to ${hole}`;
      if (fields.has('armRadius'))
        return fields.has('length') ? `Take ${long}, to ${hole}` : `Take the ${what} to ${hole}`;
      return `Take ${long}`;
    }
  }
}

/** "pinned link, arm hole 48 mm". */
export function nameOf({ layout }: SolenoidJob, units: DisplayUnits): string {
  const { connection } = layout;
  const length = (text: string) => display(valueOf(text, 'length'), 'length', units, 3);
  const capital = connection.kind.charAt(0).toUpperCase() + connection.kind.slice(1);
  return connection.kind === 'slotted lever'
    ? `${capital}, slot ${length(connection.slotFrom)} to ${length(connection.slotTo)}`
    : `${capital}, arm hole ${length(connection.armRadius)}`;
}
