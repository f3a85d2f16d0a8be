/**
 * How a co-energy that is known at a few currents goes on between, below and above them, at one gap:
 *
 *     M(i) = a ψ(i) exp c(ln i),    ψ = i² / (1 + √(1 + q i²))
 *
 * ψ goes as ½ i² and bends over to i/√q: the flux of steel that saturates. a and q meet the least and the greatest current;
 * c, none where it is not needed, meets those between as a cubic spline in ln i, which bends back to level below them and
 * goes on straight above. With one current q is 0. What asks for more than the square, or less than the first power, is left to c.
 */
export interface KneeBasis {
  /** A, rising. */
  readonly read: readonly number[];
  /** Where M is wanted, A. */
  readonly wanted: readonly number[];
  /** c and dc/d(ln i) at each wanted current, by each read one. */
  readonly value: readonly (readonly number[])[];
  readonly slope: readonly (readonly number[])[];
  /** c of a vanishing current. */
  readonly atNone: readonly number[];
}

/** Below the least current that was read c bends back to level over this factor of the current. */
const BENDS_BACK = Math.log(8);

export function kneeBasis(read: readonly number[], wanted: readonly number[]): KneeBasis {
  const x = read.map(Math.log);
  const last = x.length - 1;
  const slopes = splineSlopes(x);
  const value: number[][] = [];
  const slope: number[][] = [];
  for (const i of wanted) {
    const at = Math.log(i);
    const row = x.map(() => 0);
    let rise = x.map(() => 0);
    if (at < x[0]) {
      const share = Math.max(0, 1 - (x[0] - at) / BENDS_BACK);
      row[0] = 1;
      for (let of = 0; of <= last; of++) row[of] += 0.5 * BENDS_BACK * (share * share - 1) * slopes[0][of];
      rise = slopes[0].map((one) => one * share);
    } else if (at >= x[last]) {
      row[last] = 1;
      for (let of = 0; of <= last; of++) row[of] += (at - x[last]) * slopes[last][of];
      rise = [...slopes[last]];
    } else {
      let k = 0;
      while (at >= x[k + 1]) k++;
      const h = x[k + 1] - x[k];
      const t = (at - x[k]) / h;
      const s = 1 - t;
      row[k] = s * s * (1 + 2 * t);
      row[k + 1] = t * t * (3 - 2 * t);
      rise[k] = (-6 * t * s) / h;
      rise[k + 1] = (6 * t * s) / h;
      for (let of = 0; of <= last; of++) {
        row[of] += h * (t * s * s * slopes[k][of] - t * t * s * slopes[k + 1][of]);
        rise[of] += s * (1 - 3 * t) * slopes[k][of] + t * (3 * t - 2) * slopes[k + 1][of];
      }
    }
    value.push(row);
    slope.push(rise);
  }
  const atNone = x.map((_, of) => (of === 0 ? 1 : 0) - 0.5 * BENDS_BACK * slopes[0][of]);
  return { read, wanted, value, slope, atNone };
}

/**
 * Slopes at the nodes of the cubic spline through values at the nodes, by each value. At the first node its bend is that of the
 * parabola that brings it back to level, at the last there is none.
 */
function splineSlopes(x: readonly number[]): number[][] {
  const n = x.length;
  const right = x.map(() => x.map(() => 0));
  if (n === 1) return right;
  // Rows of the tridiagonal system: before, at, after.
  const rows = x.map((_, k): [number, number, number] => {
    const before = k > 0 ? 1 / (x[k] - x[k - 1]) : 0;
    const after = k + 1 < n ? 1 / (x[k + 1] - x[k]) : 0;
    const end = k === 0 ? 1 / BENDS_BACK : 0;
    if (k > 0) right[k][k - 1] = -3 * before * before;
    right[k][k] = 3 * (before * before - after * after);
    if (k + 1 < n) right[k][k + 1] = 3 * after * after;
    return [before, 2 * (before + after) + end / 2, after];
  });
  for (let k = 1; k < n; k++) {
    const share = rows[k][0] / rows[k - 1][1];
    rows[k][1] -= share * rows[k - 1][2];
    for (let of = 0; of < n; of++) right[k][of] -= share * right[k - 1][of];
  }
  for (let k = n - 1; k >= 0; k--)
    for (let of = 0; of < n; of++)
      right[k][of] = (right[k][of] - (k + 1 < n ? rows[k][2] * right[k + 1][of] : 0)) / rows[k][1];
  return right;
}

/** M at one gap, with its slopes by current and by gap, at each wanted current; and whether c was needed. */
export interface KneeLine {
  readonly M: Float64Array;
  readonly byCurrent: Float64Array;
  readonly byGap: Float64Array;
  /** 2 M/i² of a vanishing current. */
  readonly atNone: number;
  readonly isPlain: boolean;
}

/** √(1 + q i²) at the greatest current that was read is at most this: a sharper knee is no steel's, and c does the rest. */
const SHARPEST = 16;
const ROUNDING = 1e-12;

/** @param M at each read current, above zero; @param byGap its slopes by the gap there */
export function kneeLine(basis: KneeBasis, M: readonly number[], byGap: readonly number[]): KneeLine {
  const { read, wanted } = basis;
  const last = read.length - 1;
  const [i1, i2] = [read[0], read[last]];
  let q = 0;
  let qByGap = 0;
  if (last > 0) {
    // With B = √(1 + q i2²), (M2/M1)(i1/i2)² = s and (i1/i2)² = p:  B = (s² - 2 s + p)/(p - s²).
    const p = (i1 / i2) ** 2;
    const wantedShare = (M[last] / M[0]) * p;
    const shareByGap = wantedShare * (byGap[last] / M[last] - byGap[0] / M[0]);
    const least = (1 + Math.sqrt(1 + p * (SHARPEST ** 2 - 1))) / (1 + SHARPEST);
    const s = Math.min(1, Math.max(least, wantedShare));
    const below = p - s * s;
    const above = s * s - 2 * s + p;
    const B = above / below;
    q = (B * B - 1) / (i2 * i2);
    // At the widest gap the share is 1 but for rounding; whether the steel bends from there on, its slope says.
    const bends = wantedShare > least && (wantedShare < 1 - ROUNDING || (wantedShare < 1 + ROUNDING && shareByGap > 0));
    if (bends) qByGap = ((2 * B) / (i2 * i2)) * (((2 * s - 2) * below + 2 * s * above) / (below * below)) * shareByGap;
  }
  const psiLog = (i: number): number => Math.log((i * i) / (1 + Math.sqrt(1 + q * i * i)));
  const psiLogByQ = (i: number): number => {
    const root = Math.sqrt(1 + q * i * i);
    return (-0.5 * i * i) / (root * (1 + root));
  };
  const aLog = Math.log(M[0]) - psiLog(i1);
  const aLogByGap = byGap[0] / M[0] - psiLogByQ(i1) * qByGap;
  const c = read.map((i, n) => (n === 0 ? 0 : Math.log(M[n]) - aLog - psiLog(i)));
  const cByGap = read.map((i, n) => (n === 0 ? 0 : byGap[n] / M[n] - aLogByGap - psiLogByQ(i) * qByGap));
  const isPlain = c.every((value) => Math.abs(value) < 1e-9);
  const line = {
    M: new Float64Array(wanted.length),
    byCurrent: new Float64Array(wanted.length),
    byGap: new Float64Array(wanted.length),
    atNone: Math.exp(aLog + basis.atNone.reduce((sum, share, n) => sum + share * c[n], 0)),
    isPlain,
  };
  wanted.forEach((i, k) => {
    let [extra, extraSlope, extraByGap] = [0, 0, 0];
    for (let n = 1; n <= last; n++) {
      extra += basis.value[k][n] * c[n];
      extraSlope += basis.slope[k][n] * c[n];
      extraByGap += basis.value[k][n] * cByGap[n];
    }
    const root = Math.sqrt(1 + q * i * i);
    const value = Math.exp(aLog + extra) * ((i * i) / (1 + root));
    line.M[k] = value;
    line.byCurrent[k] = (value / i) * (1 + 1 / root + extraSlope);
    line.byGap[k] = value * (aLogByGap - ((0.5 * i * i) / (root * (1 + root))) * qByGap + extraByGap);
  });
  return line;
}
