/** What should be known when the result of a hand cable is read, beside the findings. */
import { turnedBy } from '../../physics/cable/route.ts';
import type { CableContext } from './context.ts';
import { pressAtMouth } from './checks/lever-end.ts';
import { bearsPush } from './force.ts';
import { returnMargin } from './reckon.ts';

/** Sum of bends that common practice keeps below, rad. */
const MANY_BENDS = (270 * Math.PI) / 180;
/** A press that wears the mouth of the conduit, as a share of the pull in the core: common practice, no source. */
const HARD_PRESS = 0.15;

export function remarksOnCable(context: CableContext): string[] {
  const { rig, say, known } = context;
  const { job, cable, course, calibration, lever } = rig;
  const remarks: string[] = [];
  if (course !== null && !course.isDrawn)
    remarks.push('The route is not drawn: its length is taken as level, its bends as spread evenly along it.');
  const turned = course === null ? 0 : turnedBy(course.pieces);
  if (turned > MANY_BENDS)
    remarks.push(
      `The bends add up to ${say.angle(turned)}; common practice keeps below ${say.angle(MANY_BENDS)}, because each adds friction and lost motion.`,
    );
  if (calibration !== null && calibration.agrees) {
    const { friction } = calibration.calibration;
    const said = (value: number) => Number(value.toPrecision(2));
    remarks.push(
      `The two readings at the handle come out at a friction of ${said(friction.value)}, between ${said(friction.low)} and ${said(friction.high)}, whatever the lining.`,
    );
  }
  if (cable.conduit.lining === 'PTFE' || cable.conduit.lining === 'plastic')
    remarks.push('Do not oil a lined conduit: oil swells or gums the liner.');
  const press = pressAtMouth(context);
  const hardest = context.hardest();
  if (press !== null && hardest !== null && press > HARD_PRESS * hardest.atLever)
    remarks.push(`The core presses on the mouth of its conduit with up to ${say.force(press)}, and wears it.`);
  const back = context.worstBack();
  if (known !== null && back !== null && returnMargin(back) < 0 && rig.mayPush === true)
    remarks.push(
      known.isPulled
        ? `The hand can push the lever home, as far as the free core bears it: up to ${say.force(bearsPush(known, back.pose))} at the lever.`
        : 'The hand can pull the lever home; by itself it does not come back.',
    );
  if (rig.slack === 0)
    remarks.push(
      'The core is kept taut by the lever: it loses no travel in its bends, and a hand stop beside it is not free.',
    );
  if (job.return.springs.some(({ on }) => on === 'plunger'))
    remarks.push('A return spring on a plunger has nothing to act on here, and is left out.');
  const states = new Set(job.survey.effort.readings.map(({ engine }) => engine));
  if (lever.efforts !== null && states.size === 1 && states.has('standing'))
    remarks.push(
      'Effort was read with the engine standing only; the governor may ask more when it runs. Read it idling too.',
    );
  return remarks;
}
