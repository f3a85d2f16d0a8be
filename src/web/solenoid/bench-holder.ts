/** The fields of the solenoid's page show and change the solenoid on the bench. */
import type { Form } from '../reckoning/form.ts';
import type { Holder } from '../fields/holder.ts';
import { dropFromBench, endOfBenchGesture, holdOnBench, proposeOnBench, useBench } from './bench.ts';
import { labelOf, optionLabel, placeLabel, rowLabel } from './labels.ts';

export const benchHolder: Holder = {
  store: useBench,
  words: {
    labelOf,
    placeName: placeLabel,
    optionWords: optionLabel,
    askWords: () => ({ question: 'Is there one?', fitted: 'fitted' }),
    rowName: rowLabel,
  },
  propose: proposeOnBench,
  endOfGesture: endOfBenchGesture,
  holdDraft: holdOnBench,
  dropDraft: dropFromBench,
  defaultOf: () => undefined,
  // What is set for a series (volts, temperature of the coil) stays; what is read each time starts empty.
  keepsInNextRow: (form: Form) => form.kind !== 'quantity' || !['length', 'force'].includes(form.rule.dimension),
};
