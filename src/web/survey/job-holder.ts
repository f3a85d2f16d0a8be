/** The fields of the survey show and change the job on the desk. */
import { pathSteps } from '../../job/path.ts';
import { useDesk } from '../desk/desk.ts';
import { dropDraft, endOfGesture, holdDraft, propose } from '../desk/proposals.ts';
import type { Holder } from '../fields/holder.ts';
import { defaultOf } from './default-of.ts';
import { askWords, labelOf, optionWords, placeName, rowName } from './labels.ts';

export const jobHolder: Holder = {
  store: useDesk,
  words: {
    labelOf,
    placeName,
    optionWords,
    askWords,
    rowName: (path, index) => rowName(pathSteps(path).findLast((step) => typeof step === 'string') ?? '', index),
  },
  propose,
  endOfGesture: () => void endOfGesture(),
  holdDraft,
  dropDraft,
  defaultOf,
  keepsInNextRow: ({ kind }) => kind === 'choice',
};
