/**
 * What holds the values that fields show and change: the job on the desk, or the solenoid on its bench. A part of the page
 * says it once, and every field below it follows.
 */
import { createContext, useContext } from 'react';
import { useStore, type StoreApi } from 'zustand';
import type { Change } from '../../job/change.ts';
import type { Default } from '../../job/defaults.ts';
import { valueAt } from '../../job/path.ts';
import type { Draft } from '../desk/desk.ts';
import type { Steps } from '../desk/steps.ts';
import type { Form } from '../reckoning/form.ts';

export interface Held {
  readonly document: object | null;
  readonly drafts: Readonly<Record<string, Draft>>;
  readonly steps: Steps;
}

export interface HeldProposal {
  readonly name: string;
  readonly gesture?: string;
  readonly changes: (document: object) => readonly Change[];
  readonly draft?: { readonly path: string; readonly text: string };
}

export interface AskWords {
  readonly question: string;
  readonly fitted: string;
}

/** What fields, rows and choices are called. */
export interface FieldWords {
  readonly labelOf: (path: string) => string;
  /** A field by its name and enough of where it stands. */
  readonly placeName: (path: string) => string;
  readonly rowName: (listPath: string, index: number) => string;
  readonly optionWords: (option: string | number, path: string) => string;
  /** Where a part stands beside words for there being none: the question, and the answer that there is one. */
  readonly askWords: (path: string) => AskWords;
}

export interface Holder {
  readonly store: Pick<StoreApi<Held>, 'getState' | 'getInitialState' | 'subscribe'>;
  readonly words: FieldWords;
  readonly propose: (proposal: HeldProposal) => Promise<void>;
  readonly endOfGesture: () => void;
  readonly holdDraft: (path: string, text: string, problem: string) => void;
  readonly dropDraft: (path: string) => void;
  /** What is taken where an optional field is left out. */
  readonly defaultOf: (path: string, document: unknown) => Default | undefined;
  /** Whether a further row begins with what the row before it has there. */
  readonly keepsInNextRow: (form: Form) => boolean;
}

const HolderContext = createContext<Holder | null>(null);

export const HolderOfFields = HolderContext.Provider;

export function useHolder(): Holder {
  const holder = useContext(HolderContext);
  if (holder === null) throw new RangeError('fields stand inside a holder of their values');
  return holder;
}

export function useHeld<T>(select: (held: Held) => T): T {
  return useStore(useHolder().store, select);
}

export function useValue(path: string): unknown {
  return useHeld(({ document }) => valueAt(document, path));
}
