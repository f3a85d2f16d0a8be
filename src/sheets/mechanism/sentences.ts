/** The mechanism in sentences, for whoever cannot see the drawing, and the names of readings that it misses. */
import type { MechanismPicture } from '../../assessment/picture.ts';
import type { DisplayUnits } from '../../units/display.ts';
import { amount, range } from '../amounts.ts';
import { keepOutNames } from './keep-out.ts';

export function missingReadings({
  homePin,
  pullDirection,
  stroke,
  shaftAngles,
  connection,
  actuator,
}: MechanismPicture): string[] {
  const needed: (readonly [string, unknown])[] = [
    ['place of the home pin', homePin],
    ['pull direction', pullDirection],
    ['stroke', actuator.kind === 'hand cable' ? 0 : stroke],
    ['run angle', shaftAngles.run],
    ['no-fuel angle', shaftAngles.noFuel],
    ['hard stop angle', shaftAngles.hardStop],
  ];
  if (connection.kind === 'slotted lever')
    needed.push(['inner end of the slot', connection.slotFrom], ['outer end of the slot', connection.slotTo]);
  else needed.push(['radius of the hole in the arm', connection.armRadius]);
  if (connection.kind === 'pinned link' || connection.kind === 'short chain')
    needed.push([`length of the ${connection.kind === 'pinned link' ? 'link' : 'chain'}`, connection.length]);
  if (actuator.kind === 'solenoid')
    needed.push(['diameter of the plunger', actuator.plungerDiameter], ['length of the guide', actuator.guideLength]);
  return needed.filter(([, value]) => value === null).map(([name]) => name);
}

export function sentencesOf(picture: MechanismPicture, units: DisplayUnits, missing: readonly string[]): string[] {
  const { now, armMinusShaft, shaftAngles, forces, connection, actuator, works } = picture;
  const sentences: string[] = [];
  const angle = (value: number): string => amount(value, 'angle', units);
  const force = (value: number): string => amount(value, 'force', units);
  const means =
    actuator.kind === 'solenoid' ? `solenoid that ${actuator.action === 'pull' ? 'pulls' : 'pushes'}` : actuator.kind;
  sentences.push(`${sentenceCase(works)}: ${connection.kind} on a ${means}.`);
  if (now.gap !== null) sentences.push(`The plunger stands ${amount(now.gap, 'length', units)} from home.`);
  if (now.armAngle !== null && armMinusShaft !== null)
    sentences.push(`The shaft stands at ${angle(now.armAngle - armMinusShaft)}.`);
  const surveyed = (
    [
      ['run', shaftAngles.run],
      ['no fuel from', shaftAngles.noFuel],
      ['hard stop', shaftAngles.hardStop],
      ['run stop', shaftAngles.runStop],
    ] as const
  ).flatMap(([name, value]) => (value === null ? [] : [`${name} ${angle(value)}`]));
  if (surveyed.length > 0) sentences.push(`Surveyed: ${surveyed.join(', ')}.`);
  if (now.overTravel > 0) sentences.push(`The over-travel spring gives ${amount(now.overTravel, 'length', units)}.`);
  if (now.slack)
    sentences.push(connection.kind === 'short chain' ? 'The chain is slack.' : 'The connection has lost motion here.');
  if (forces !== null) {
    const { pullLeast, pullGreatest, pullNeeded, side } = forces;
    if (pullLeast !== null) sentences.push(`Pull ${range(pullLeast, pullGreatest ?? pullLeast, 'force', units)}.`);
    if (pullNeeded !== null) sentences.push(`Needed ${force(pullNeeded)}.`);
    if (side !== null) sentences.push(`Side force on the pin ${force(Math.abs(side))}.`);
    if (forces.return !== null)
      sentences.push(
        forces.return > 0
          ? `${force(forces.return)} is left to bring the plunger out.`
          : `Without current it stays: ${force(-forces.return)} short.`,
      );
  }
  for (const spring of picture.springs) {
    if (spring.slack) sentences.push(`${spring.name} is slack.`);
    else if (spring.force !== null) sentences.push(`${spring.name} ${force(spring.force)}.`);
  }
  const names = keepOutNames(picture.keepOut);
  picture.keepOut.forEach((shape, i) => {
    const length = (value: number): string => amount(value, 'length', units);
    const at = ({ x, y }: { readonly x: number; readonly y: number }): string =>
      `${length(Math.abs(x))} ${x < 0 ? 'left' : 'right'}, ${length(Math.abs(y))} ${y < 0 ? 'down' : 'up'}`;
    sentences.push(
      shape.shape === 'circle'
        ? `In the way: ${names[i]}, round, centre ${at(shape.centre)} of the shaft, radius ${length(shape.radius)}.`
        : `In the way: ${names[i]}, from ${at(shape.from)} to ${at(shape.to)} of the shaft.`,
    );
  });
  if (picture.trouble !== null) sentences.push(picture.trouble);
  if (missing.length > 0) sentences.push(`Not measured: ${missing.join(', ')}.`);
  return sentences;
}

const sentenceCase = (words: string): string => words.charAt(0).toUpperCase() + words.slice(1);
