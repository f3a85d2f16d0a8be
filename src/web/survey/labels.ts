/** Fields in the words of the trade. What is not listed is said as its key reads: "stroke" is "Stroke". */
import { pathSteps, type PathStep } from '../../job/path.ts';

const labels: Readonly<Record<string, string>> = {
  noFuelAngle: 'No-fuel angle',
  hubPositions: 'Positions on the hub',
  hubPosition: 'Position on the hub',
  armOffset: 'Arm offset',
  lash: 'Lash',
  massRadius: 'Radius of that mass',
  runDown: 'Run-down after no-fuel',
  effort: 'Effort of the lever',
  readings: 'Readings with the spring balance',
  towards: 'Balance moves the lever towards',
  balanceZero: 'Balance at rest shows',
  engine: 'Engine',
  angle: 'Angle',
  easingBack: 'Easing back',
  offSquare: 'Off square',
  firstPull: 'First pull after standing',
  coldOil: 'Cold oil factor',
  existingReturn: 'Spring that brings it back now',
  run: 'Run',
  bendTotal: 'Bends, all together',
  stations: 'Who must stop it, from where',
  otherUses: 'Who else moves this lever',
  kind: 'Kind',
  works: 'Works by',
  means: 'Means',
  plunger: 'Plunger and guide',
  overhang: 'Overhang of the pin',
  boreClearance: 'Clearance in the bore',
  planeOffset: 'Lever plane beside the axis',
  force: 'Pull tables',
  rows: 'Rows',
  drive: 'Read at',
  coilTemperature: 'Coil temperature',
  stickingForce: 'Sticking at home',
  stickingGap: 'Residual gap',
  stages: 'Stages',
  coil: 'Coil',
  pullInResistance: 'Pull-in winding',
  holdResistance: 'Hold winding',
  readAt: 'Coil temperature at the reading',
  resistor: 'Series resistor',
  resistorRating: 'Rating of the resistor',
  holdShare: 'Share of volts in hold',
  continuousPower: 'Power that it sheds for ever',
  riseInHold: 'Rise in hold',
  dropOut: 'Drop-out volts',
  turnsRatio: 'Turns of hold over pull-in',
  openInductance: 'Inductance, plunger out',
  map: 'Co-energy map',
  body: 'Can and winding',
  thermalClass: 'Thermal class',
  hotSpot: 'Hottest place over the mean',
  standsOn: 'Foot stands on',
  mountingTemperature: 'Temperature under the foot',
  recloses: 'Changes back after',
  endSwitch: 'End switch',
  worksAtGap: 'Works at gap',
  operatingForce: 'Operating force',
  handStop: 'Hand cable beside it',
  considered: 'Other means to hold beside it',
  handle: 'Handle',
  posture: 'Who works it is',
  ratio: 'Travel of the hand over the core',
  allowed: 'Effort that is acceptable',
  route: 'Route from handle to lever',
  z: 'Height',
  core: 'Core',
  construction: 'Construction',
  moves: 'Moves',
  leastRadius: 'Least radius of a bend',
  conduit: 'Conduit',
  lining: 'Core slides on',
  stiffness: 'Stiffness',
  towardsStop: 'To stop, the core is',
  drag: 'Drag with nothing connected',
  free: 'Lever end free',
  connected: 'Lever connected',
  leverEnd: 'Lever end',
  conduitEnd: 'End of the conduit',
  conduitDirection: 'Direction of the conduit end',
  fitting: 'Fitting',
  slack: 'Slack before the lever moves',
  swing: 'Core may stand off by',
  whileEffortWasRead: 'While the effort was read, it was',
  secondStation: 'Second station by cable',
  joins: 'Joins the main run at',
  crank: 'Bell-crank',
  mainArm: 'Arm of the main core',
  secondArm: 'Arm of the second core',
  air: 'Compressed air',
  reservoir: 'Air vessel',
  bore: 'Bore',
  rod: 'Rod',
  rodClearance: 'Clearance of the rod bearing',
  guideLength: 'Length of the guide',
  bears: 'Lever and stop bear',
  movingMass: 'Piston, rod and clevis',
  efficiency: 'Force over pressure times area',
  sealDrag: 'Drag of its seals without air',
  returns: 'Brought back by',
  preload: 'Preload',
  valve: 'Valve',
  exhaust: 'Way out',
  criticalRatio: 'Critical pressure ratio',
  line: 'Pipe from valve to cylinder',
  deadVolume: 'Volume left at the end',
  homePin: 'Home pin',
  x: 'To the right',
  y: 'Up',
  pullDirection: 'Pull direction',
  connection: 'Connection',
  slotFrom: 'Slot from',
  slotTo: 'Slot to',
  overTravel: 'Over-travel spring',
  bracketGive: 'Give of the bracket',
  down: 'Direction of the ground',
  tilt: 'Lean of the lever plane',
  slot: 'Friction in the slot',
  pins: 'Friction of the pins',
  guide: 'Friction in the guide',
  friction: 'Friction',
  return: 'Return spring',
  springs: 'Springs',
  on: 'Acts on',
  by: 'By',
  name: 'Name',
  anchor: 'Anchor',
  spring: 'Spring',
  radius: 'Radius',
  limitLength: 'Length limit',
  activeTurns: 'Turns that give way',
  lengthAtHome: 'Length at home',
  wire: 'Wire',
  nominal: 'Nominal volts',
  resting: 'Volts, at rest',
  charging: 'Volts, charging',
  low: 'Volts, low',
  cranking: 'Volts, cranking',
  internalResistance: 'Internal resistance',
  out: 'Conductor out',
  back: 'Way back',
  insulation: 'Insulation bears',
  contacts: 'Contacts on the way',
  ageing: 'Old over as read',
  rating: 'May carry',
  breaks: 'May break',
  cutOut: 'Cut-out',
  suppression: 'Suppression at the coil',
  polarity: 'How the diode lies',
  command: 'Command to stop',
  holds: 'Stays on for',
  starterInterlock: 'Starter locked out',
  backFeed: 'Back-feed at the coil',
  diode: 'Diode in this station',
  alsoFeeds: 'Same wire also feeds',
  engineMoves: 'Engine moves on its mounts',
  vapour: 'Flammable vapour',
  lockRatio: 'Lock ratio',
  noFuel: 'Past no-fuel',
  hardStop: 'Short of the hard stop',
  sideShare: 'Side force over pull',
  holdDrop: 'Voltage drop in hold',
  wanted: 'Wanted margins',
  notes: 'Notes',
  space: 'What a proposal may change',
  connections: 'Connections that can be made',
  armHoles: 'Holes that the arm has',
  links: 'Links and chains at hand',
  keepOut: 'What is in the way',
  shape: 'Shape',
  centre: 'Centre',
};

/** Where one key means different things in different parts; a cable beside the means has the words of one that is the means. */
const labelsAt: Readonly<Record<string, string>> = {
  'survey.lever': 'Lever',
  'survey.air.low': 'Lowest pressure',
  'survey.air.high': 'Highest pressure',
  'means.readings': 'Readings at the handle',
  'survey.lever.mass': 'Mass of lever and rack',
  'means.secondStation.route': 'Route from the second handle',
  'means.secondStation.crank.friction': 'Friction of the pivot',
  'means.force.rows.force': 'Pull',
  'means.endSwitch.rating': 'Breaks up to',
  'means.body.diameter': 'Diameter of the can',
  'means.body.length': 'Length of the can',
  'means.body.mass': 'Mass without plunger',
  'means.body.wireDiameter': 'Bare wire of the winding',
  'wanted.run': 'Past the run angle',
  'wanted.endSwitch': 'Travel after the end switch',
  'wanted.return': 'Return',
  'return.springs.angle': 'Direction on the lever',
  'return.springs.towards': 'Drives the lever towards',
  'return.springs.spring.first': 'First reading',
  'return.springs.spring.second': 'Second reading',
  'return.springs.spring.first.force': 'Force',
  'return.springs.spring.second.force': 'Force',
  'return.springs.spring.first.angle': 'Shaft angle',
  'return.springs.spring.second.angle': 'Shaft angle',
  'return.springs.spring.freeAngle': 'Shaft angle, legs at rest',
  'return.springs.spring.limitAngle': 'Shaft angle, wound at most',
  'survey.effort.readings.angle': 'Shaft angle',
  'layout.adjuster.range': 'Travel left',
  'layout.adjuster.pitch': 'Travel of one turn',
  'supply.back.resistance': 'Earth path',
  'supply.stations': 'Further places of control',
  'supply.stations.out': 'Conductor from there',
  'supply.stations.contacts': 'Contacts of this station',
  'supply.fuse.rating': 'Rating',
  'supply.cutOut.after': 'Cuts out after',
  'supply.suppression.resistance': 'Resistor beside the diode',
  'supply.suppression.voltage': 'Lets go at',
  'space.bracket': 'Where the home pin may stand',
  'space.bracket.x': 'Left and right',
  'space.bracket.y': 'Down and up',
  'space.direction': 'Which way the plunger may pull',
  'space.keepOut.from': 'One corner',
  'space.keepOut.to': 'The corner across',
};

/** Rows of a list, one of them: "reading 3". */
const rowNames: Readonly<Record<string, string>> = {
  readings: 'Reading',
  force: 'Table',
  rows: 'Row',
  springs: 'Spring',
  contacts: 'Contact',
  stations: 'Station',
  lines: 'Gap',
  connections: 'Connection',
  armHoles: 'Hole',
  links: 'Link',
  keepOut: 'Shape',
  route: 'Corner',
  considered: 'Means',
};

export function rowName(listKey: string, index: number): string {
  return `${rowNames[listKey] ?? 'Row'} ${index + 1}`;
}

const namesOf = (steps: readonly PathStep[]): string[] => steps.filter((step) => typeof step === 'string');

export function labelOf(path: string): string {
  const names = namesOf(pathSteps(path));
  const key = names.at(-1) ?? '';
  const place = names.join('.').replace(/^handStop\./, 'means.');
  return labelsAt[place] ?? labels[key] ?? spaced(key);
}

/** A field by its name and enough of where it stands: "Reading 3, pull". */
export function placeName(path: string): string {
  const steps = pathSteps(path);
  const last = steps.at(-1);
  if (typeof last === 'number') return rowName(String(steps.at(-2) ?? ''), last);
  const label = labelOf(path);
  const parent = steps.at(-2);
  if (typeof parent === 'number') return `${rowName(String(steps.at(-3) ?? ''), parent)}, ${lower(label)}`;
  if (typeof parent !== 'string' || steps.length < 3) return label;
  return `${labelOf(path.slice(0, path.lastIndexOf('.')))}, ${lower(label)}`;
}

const spaced = (key: string): string => {
  const words = key.replaceAll(/([a-z])([A-Z])/g, (_, a: string, b: string) => `${a} ${b.toLowerCase()}`);
  return words.charAt(0).toUpperCase() + words.slice(1);
};

const lower = (label: string): string => label.charAt(0).toLowerCase() + label.slice(1);

/** The words of a choice: "pull-in" is "Pull-in", 24 is "24 V" where it means volts, "F 155" is "F, 155 °C". */
export function optionWords(option: string | number, path: string): string {
  if (typeof option === 'number') return path.endsWith('nominal') ? `${option} V` : String(option);
  const isClass = path.endsWith('thermalClass') && /\d$/.test(option);
  if (isClass) return `${option.replace(' ', ', ')} °C`;
  return option.charAt(0).toUpperCase() + option.slice(1);
}

/** What is asked where a part may be there or not, and what says that it is. */
export function askWords(path: string): { readonly question: string; readonly fitted: string } {
  if (path === 'supply.command') return { question: 'How is it given?', fitted: 'stays on for a time' };
  return { question: 'Is there one?', fitted: 'fitted' };
}

/** The steps of the survey, in the order of the job, and the parts of the document that each holds. */
export const surveySteps = [
  { key: 'survey', title: 'Survey', parts: ['survey'] },
  { key: 'means', title: 'Means', parts: ['means', 'handStop'] },
  { key: 'layout', title: 'Layout', parts: ['layout'] },
  { key: 'return', title: 'Return spring', parts: ['return'] },
  { key: 'supply', title: 'Supply', parts: ['supply'] },
  { key: 'surroundings', title: 'Surroundings', parts: ['surroundings'] },
  { key: 'space', title: 'Room to change', parts: ['space'] },
  { key: 'considered', title: 'Compared with', parts: ['considered'] },
  { key: 'wanted', title: 'Margins, notes', parts: ['name', 'wanted', 'notes'] },
] as const;
