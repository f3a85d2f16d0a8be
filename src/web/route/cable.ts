/** The cable whose route is drawn: the hand cable that is the means, or the hand stop beside another means. */
import type { HandCable, Job } from '../../job/schema.ts';

export interface FoundCable {
  readonly path: 'means' | 'handStop';
  readonly cable: HandCable;
}

export function cableOf({ means, handStop }: Job): FoundCable | null {
  if (means.kind === 'hand cable') return { path: 'means', cable: means };
  if (handStop === undefined) return null;
  return { path: 'handStop', cable: handStop };
}
