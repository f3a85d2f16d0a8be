/** Reads a recorded current in the worker, piece by piece. */
import type { MeasuredTrace } from '../../assessment/time-picture.ts';

export interface MeasureOptions {
  readonly channel?: string;
  readonly ampsPerVolt?: number;
}

export type MeasuredReading =
  | {
      readonly ok: true;
      readonly trace: MeasuredTrace;
      /** How the file was understood. */
      readonly readAs: string;
    }
  | { readonly ok: false; readonly problems: readonly string[]; readonly channels: readonly string[] };

/** The seam to the reading of current traces, which is being built: until it is there, the file is refused with a word. */
export async function readMeasured(
  file: File,
  _options: MeasureOptions,
  tell: (share: number) => void,
): Promise<MeasuredReading> {
  tell(0);
  return { ok: false, problems: [`Recorded currents cannot be read yet, so ${file.name} stays unread.`], channels: [] };
}
