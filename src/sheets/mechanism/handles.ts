/** Places of the drawing that can be dragged, as data: what each is, where it stands, and which reading it changes. */
import { known } from '../amounts.ts';
import { plus, polar, times, type Point } from '../plane.ts';
import type { Staged } from './stage.ts';
import { lengthOnSheet, onAxis, toSheet } from './view.ts';

export interface Handle {
  /** For people: "home pin". */
  readonly name: string;
  /** Path in the job document that it changes; null for the travel control, which changes no reading. */
  readonly moves: string | null;
  /**
   * place: the reading is a point {x, y}. distance: a length from `about`, along the ray of the lever. direction: an
   * angle about `about`. travel: the gap, along the line of pull.
   */
  readonly kind: 'place' | 'distance' | 'direction' | 'travel';
  /** On the sheet, mm. */
  readonly x: number;
  readonly y: number;
  /** Centre of a distance or a direction; for travel the pin at home. On the sheet, mm. */
  readonly about: Point;
  /** Unit vector along which it may go; null where it goes anywhere. */
  readonly line: Point | null;
  /** direction only: what is added to the angle from `about` to the handle to give the reading, rad. */
  readonly add: number;
}

export function handlesOf(staged: Staged): Handle[] {
  const { picture, frame, pull, axis, body, shape } = staged;
  const { connection, now, homePin } = picture;
  const handles: Handle[] = [];
  const push = (
    handle: Pick<Handle, 'name' | 'moves' | 'kind'> & { at: Point; about?: Point; line?: Point | null; add?: number },
  ): void => {
    const { at, about = at, line = null, add = 0, ...rest } = handle;
    handles.push({ ...rest, x: at.x, y: at.y, about, line, add });
  };
  const armAngle = known(now.armAngle);
  if (picture.actuator.kind === 'hand cable') {
    if (axis !== null)
      push({ name: 'end of the conduit', moves: 'means.leverEnd.conduitEnd', kind: 'place', at: axis.mouth });
    return handles;
  }
  if (now.pin !== null && pull !== null && homePin !== null) {
    const home = toSheet(frame, homePin);
    push({ name: 'plunger pin', moves: null, kind: 'travel', at: toSheet(frame, now.pin), about: home, line: pull });
  }
  if (homePin !== null) push({ name: 'home pin', moves: 'layout.homePin', kind: 'place', at: toSheet(frame, homePin) });
  if (homePin !== null && axis !== null && body !== null) {
    push({
      name: 'pull direction',
      moves: 'layout.pullDirection',
      kind: 'direction',
      at: onAxis(axis, body.depth, 0),
      about: toSheet(frame, homePin),
      add: picture.actuator.action === 'pull' ? 0 : Math.PI,
    });
  }
  if (shape !== null && armAngle !== null) {
    const ray = polar(1, armAngle);
    const onArm = (name: string, moves: string, radius: number): void => {
      const at = plus(frame.origin, times(ray, lengthOnSheet(frame, radius)));
      push({ name, moves, kind: 'distance', at, about: frame.origin, line: ray });
    };
    if (connection.kind === 'slotted lever') {
      if (connection.slotFrom !== null)
        onArm('inner end of the slot', 'layout.connection.slotFrom', connection.slotFrom);
      if (connection.slotTo !== null) onArm('outer end of the slot', 'layout.connection.slotTo', connection.slotTo);
    } else if (connection.armRadius !== null) {
      onArm('hole in the arm', 'layout.connection.armRadius', connection.armRadius);
    }
  }
  for (const { name, from, to, index } of picture.springs) {
    if (from !== null) {
      push({
        name: `anchor of ${name}`,
        moves: `return.springs[${index}].anchor`,
        kind: 'place',
        at: toSheet(frame, from),
      });
    }
    if (to !== null && from !== null) {
      const at = toSheet(frame, to);
      const length = Math.hypot(to.x, to.y);
      const ray = length > 0 ? times(to, 1 / length) : null;
      if (ray !== null) {
        push({
          name: `lever end of ${name}`,
          moves: `return.springs[${index}].radius`,
          kind: 'distance',
          at,
          about: frame.origin,
          line: ray,
        });
      }
    }
  }
  return handles;
}
