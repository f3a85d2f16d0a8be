/** The demonstration jobs. Everything in them is invented. */
import bindingPin from './demos/binding-pin.json' with { type: 'json' };
import ferry from './demos/ferry.json' with { type: 'json' };
import pumpHouse from './demos/pump-house.json' with { type: 'json' };
import railcar from './demos/railcar.json' with { type: 'json' };
import shortStroke from './demos/short-stroke.json' with { type: 'json' };

export interface Demo {
  /** Name on the command line. */
  readonly name: string;
  readonly about: string;
  readonly document: { readonly name: string };
}

/** In the order in which they are shown; the first is the one that opens. */
export const demoJobs: readonly Demo[] = [
  { name: 'railcar', about: 'Energise to stop, slotted lever, 24 V: everything holds', document: railcar },
  { name: 'pump-house', about: 'Energise to run at the end of 28 m of cable, 12 V', document: pumpHouse },
  { name: 'ferry', about: 'Hand cable with five bends; solenoid and air beside it', document: ferry },
  { name: 'short-stroke', about: 'Bad on purpose: the hard stop keeps the plunger from home', document: shortStroke },
  { name: 'binding-pin', about: 'Bad on purpose: a plain pin that binds', document: bindingPin },
];
