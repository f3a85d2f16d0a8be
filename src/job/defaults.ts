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
  'survey.lever.mass': { text: '0.3 kg', source: practice },
  'survey.lever.massRadius': { text: '40 mm', source: practice },
  'survey.runDown': { text: '10 s', source: practice },
  'means.plunger.planeOffset': { text: '0 mm', source: project },
  'means.stickingGap': { text: '0.1 mm', source: project },
  'means.riseInHold': { text: '60 K', source: practice },
  'means.body.hotSpot': { text: '10 K', source: practice },
  'means.endSwitch.recloses': { text: '0.3 mm', source: practice },
  'means.handle.ratio': { text: '1', source: 'a handle straight on the core' },
  'means.core.leastRadius': { text: '200 mm', source: 'installation notes for engine control cables' },
  'means.conduit.stiffness': { text: '100 kN', source: project },
  'means.ageing': { text: '2', source: practice },
  'means.drag': { text: '3 N', source: practice },
  'means.secondStation.crank.pinDiameter': { text: '10 mm', source: practice },
  'means.secondStation.crank.friction': { text: '0.15', source: practice },
  'means.movingMass': { text: '0.2 kg', source: practice },
  'means.efficiency': { text: '0.85', source: practice },
  'means.criticalRatio': { text: '0.3', source: practice },
  'layout.down': { text: '270°', source: 'drawn upright' },
  'layout.tilt': { text: '0°', source: 'drawn upright' },
  'layout.friction.slot': { text: '0.15 ± 0.05', source: practice },
  'layout.friction.pins': { text: '0.15 ± 0.05', source: practice },
  'layout.friction.guide': { text: '0.15 ± 0.05', source: practice },
  /** Wear of pins and slot that the adjuster must still take up. */
  'layout.adjuster.wear': { text: '0.5 mm', source: practice },
  'return.springs[].spring.initialTension': { text: '0 N', source: project },
  'supply.contacts[].ageing': { text: '2', source: practice },
  'supply.insulation': { text: '70 °C', source: 'usual PVC insulation, from memory' },
  'supply.resting.12': { text: '12.6 V', source: practice },
  'supply.resting.24': { text: '25.2 V', source: practice },
  'supply.resting.32': { text: '33.6 V', source: practice },
  'supply.charging.12': { text: '14.4 V', source: practice },
  'supply.charging.24': { text: '28.8 V', source: practice },
  'supply.charging.32': { text: '38.4 V', source: practice },
  'supply.low.12': { text: '10.5 V', source: 'ISO 16750-2, lowest supply of code D, from memory' },
  'supply.low.24': { text: '22 V', source: 'ISO 16750-2, lowest supply of code G, from memory' },
  'supply.low.32': { text: '28 V', source: project },
  'supply.cranking.12': { text: '9.5 V', source: 'ISO 16750-2:2012 4.6.3, level I: 9.5 V for 1 s after 8 V for 15 ms' },
  'supply.cranking.24': { text: '15 V', source: 'ISO 16750-2:2012 4.6.3: 15 V after 8 V for 50 ms' },
  'supply.cranking.32': { text: '20 V', source: project },
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
  'wanted.landingSpeed': { text: '4 m/s', source: project },
  'wanted.releaseTime': { text: '1 s', source: project },
  'wanted.stopTime': { text: '1 s', source: project },
  'wanted.holdDrop': {
    text: '0.03',
    source:
      'ISO 10133 / ISO 13297: 3 % for equipment vital to safety; that a stop circuit belongs there is our reading',
  },
} as const satisfies Record<string, Default>;

export type DefaultPath = keyof typeof defaults;
