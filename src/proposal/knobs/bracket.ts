/** Where the bracket stands, which way it pulls, and where the arm sits on its hub. */
import { change } from '../../job/change.ts';
import type { Job } from '../../job/schema.ts';
import { degrees, DEGREE, millimetres, MM, moves, set, shift, valueAtPath, type Knob, type Say } from './knob.ts';

/** The bracket moved along the pull and across it, and turned. */
export function bracket(job: Job, say: Say): Knob[] {
  const direction = valueAtPath(job, 'layout.pullDirection', 'angle');
  const x = valueAtPath(job, 'layout.homePin.x', 'length');
  const y = valueAtPath(job, 'layout.homePin.y', 'length');
  if (Number.isNaN(direction + x + y)) return [];
  const moved = (name: string, dx: number, dy: number, words: (distance: string) => string): Knob => ({
    name,
    ladder: millimetres,
    step: 0.1,
    settingAt(amount) {
      const changes = moves([
        set(job, 'layout.homePin.x', 'length', x + dx * amount * MM),
        set(job, 'layout.homePin.y', 'length', y + dy * amount * MM),
      ]);
      return changes === null ? null : { words: words(say('length', amount * MM)), changes };
    },
  });
  const ux = Math.cos(direction);
  const uy = Math.sin(direction);
  return [
    moved('bracket along', ux, uy, (distance) => `Move the bracket ${distance} in the direction of the pull`),
    moved('bracket back', -ux, -uy, (distance) => `Move the bracket ${distance} against the direction of the pull`),
    moved(
      'bracket across',
      -uy,
      ux,
      (distance) => `Move the bracket ${distance} across the pull, ${sideWords(-uy, ux)}`,
    ),
    moved(
      'bracket across back',
      uy,
      -ux,
      (distance) => `Move the bracket ${distance} across the pull, ${sideWords(uy, -ux)}`,
    ),
    ...shift(
      job,
      'layout.pullDirection',
      'angle',
      DEGREE,
      degrees,
      0.5,
      (to, way) =>
        `Turn the bracket until it pulls at ${say('angle', to)}, ${way === 1 ? 'counter-clockwise' : 'clockwise'}`,
    ),
  ];
}

/** Which way a direction points on the drawing. */
function sideWords(dx: number, dy: number): string {
  if (Math.abs(dy) >= Math.abs(dx)) return dy > 0 ? 'upwards on the drawing' : 'downwards on the drawing';
  return dx > 0 ? 'to the right on the drawing' : 'to the left on the drawing';
}

export function hub(job: Job): Knob[] {
  const { hubPositions } = job.survey.lever;
  if (hubPositions < 2) return [];
  return ([1, -1] as const).map((way) => ({
    name: `hub ${way}`,
    ladder: [1, 2, 3].filter((places) => places < hubPositions),
    step: 0,
    settingAt(places) {
      const to = (((job.layout.hubPosition + way * places) % hubPositions) + hubPositions) % hubPositions;
      const turned = `${places === 1 ? 'one place' : `${places} places`} ${way === 1 ? 'counter-clockwise' : 'clockwise'}`;
      return { words: `Refit the arm on its hub ${turned}`, changes: [change(job, 'layout.hubPosition', to)] };
    },
  }));
}
