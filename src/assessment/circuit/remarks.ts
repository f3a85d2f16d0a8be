/** What should be known when looking at a picture of the circuit. */
import type { Flow } from './load.ts';
import { endsBySwitch } from './volts.ts';
import type { SolenoidJob } from '../rig.ts';

export function remarksOn(job: SolenoidJob, stage: Flow['stage'], { isShort }: Flow): string[] {
  const { supply, means } = job;
  const { suppression } = supply;
  const remarks: string[] = [];
  if (isShort)
    remarks.push(
      'The diode across the coil lies the wrong way round: switched on, it is a dead short, and the coil gets nothing. The volts of the diode itself are left out here.',
    );
  if (typeof suppression === 'object' && suppression.kind !== 'zener') {
    if (suppression.kind === 'diode and resistor' && suppression.polarity === 'anode to plus')
      remarks.push(
        'The diode across the coil lies the wrong way round: its resistor draws current as long as the coil is on. That current is left out here.',
      );
    if (suppression.polarity === 'not measured')
      remarks.push('Which way round the diode lies is not known: its ring, the cathode, belongs to plus.');
  }
  if (suppression === 'none') remarks.push('Nothing is fitted across the coil: the contacts take its arc.');
  if (suppression === 'not measured') remarks.push('What is fitted across the coil is not known.');
  if (supply.fuse === 'none') remarks.push('No fuse is fitted: nothing ends a short circuit.');
  if (supply.fuse === 'not measured') remarks.push('Whether there is a fuse is not known.');
  if (!supply.contacts.some(({ kind }) => kind === 'switch' || kind === 'relay'))
    remarks.push('No switch or relay is listed among the contacts; one is drawn, and its resistance is not counted.');
  if (stage === 'hold' && endsBySwitch(job) && means.endSwitch === 'none')
    remarks.push('There is no end switch: the full current stays on.');
  if (means.coil.stages === 'timed economiser')
    remarks.push(
      'The economiser knows time, not place: it takes the current back whether the plunger came home or not.',
    );
  if (stage === 'off' && supply.backFeed !== undefined)
    remarks.push(`Read at the coil with the switch off, engine turning: ${supply.backFeed}.`);
  const sneak =
    means.works === 'energise to stop'
    && supply.stations.find(({ diode, alsoFeeds }) => diode === 'none' && alsoFeeds.trim() !== '');
  if (sneak)
    remarks.push(`"${sneak.name}" has no diode: what else hangs on its wire gets current from the other stations.`);
  return remarks;
}
