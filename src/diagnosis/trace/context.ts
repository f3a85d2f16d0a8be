/** The pulse under examination, as the parts of the finder hand it on. */
export interface Context {
  readonly x: Float64Array;
  readonly y: Float64Array;
  readonly step: number;
  readonly width: number;
  readonly residue: number;
  readonly noise: number;
  readonly least: number;
  readonly breakWidth: number;
  readonly peak: number;
  readonly clipped: number | null;
  /** Step of the converter where no noise stirs it, else 0, A. */
  readonly stairs: number;
  /** Points of switch-on and of switch-off. */
  readonly from: number;
  readonly last: number;
  readonly seconds: (point: number) => number;
}
