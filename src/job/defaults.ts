/**
 * What is taken where an optional field is left out. A default is not a reading: every result lists the defaults it used,
 * with these sources, on screen and on paper.
 */
export interface Default {
  readonly text: string;
  readonly source: string;
}

const practice = 'common practice, no source';
const project = 'starting value of this program, no source';

export const defaults = {
  'survey.effort.readings[].offSquare': { text: '0°', source: practice },
  'survey.effort.balanceZero': { text: '0 N', source: practice },
  'survey.effort.coldOil': { text: '1.25', source: practice },
  /** Breakaway over running friction of the lever, where the first pull was not read. */
  'survey.effort.firstPull': { text: '1.5', source: practice },
  'means.plunger.planeOffset': { text: '0 mm', source: project },
  'means.stickingGap': { text: '0.1 mm', source: project },
  'means.riseInHold': { text: '60 K', source: practice },
  'means.handlePullAllowed': { text: '100 N', source: practice },
  'layout.down': { text: '270°', source: 'drawn upright' },
  'layout.tilt': { text: '0°', source: 'drawn upright' },
  'layout.friction.slot': { text: '0.15 ± 0.05', source: practice },
  'layout.friction.pins': { text: '0.15 ± 0.05', source: practice },
  'layout.friction.guide': { text: '0.15 ± 0.05', source: practice },
  /** Wear of pins and slot that the adjuster must still take up. */
  'layout.adjuster.wear': { text: '0.5 mm', source: practice },
  'return.springs[].spring.initialTension': { text: '0 N', source: project },
  'wanted.pull': { text: '0.25', source: practice },
  'wanted.hold': { text: '0.25', source: practice },
  'wanted.return': { text: '0.3', source: practice },
  'wanted.returnToStop': { text: '0.5', source: practice },
  'wanted.lockRatio': { text: '1.2', source: practice },
  'wanted.noFuel': { text: '1.5°', source: practice },
  'wanted.hardStop': { text: '1°', source: practice },
  'wanted.run': { text: '0.5°', source: project },
  'wanted.endSwitch': { text: '0.3 mm', source: practice },
  'wanted.sideShare': { text: '0.5', source: practice },
  'wanted.holdDrop': {
    text: '0.03',
    source:
      'ISO 10133 / ISO 13297: 3 % for equipment vital to safety; that a stop circuit belongs there is our reading',
  },
} as const satisfies Record<string, Default>;

export type DefaultPath = keyof typeof defaults;
