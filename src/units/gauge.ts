/**
 * American wire gauge: a number on a geometric scale, so it stands apart from the units that are a factor.
 *
 *     d = 0.127 mm × 92^((36 − n) / 39),   A = π d² / 4        [1]
 *
 * 0, 00, 000, 0000 (1/0 … 4/0) are n = 0, −1, −2, −3. Area is that of a solid wire of the diameter; a stranded
 * conductor sold under the gauge differs by a few per cent.
 *
 * [1] ASTM B258: 36 AWG is 0.0050 in and 0000 is 0.4600 in, 39 equal steps between; sizes 0000 to 56.
 */
const thickestGauge = -3;
const thinnestGauge = 56;
const diameterOfGauge36_m = 0.127e-3;

/** Area of a solid wire of gauge `n`, m². */
export function areaOfGauge(n: number): number {
  const d = diameterOfGauge36_m * 92 ** ((36 - n) / 39);
  return (Math.PI / 4) * d * d;
}

/** Gauge number, not rounded, of a wire of this area (m², above zero). */
export function gaugeOfArea(area_m2: number): number {
  const d = Math.sqrt((4 * area_m2) / Math.PI);
  return 36 - (39 * Math.log(d / diameterOfGauge36_m)) / Math.log(92);
}

/** "18", "0", "000" or "3/0" to the gauge number; null where it is no gauge that exists. */
export function readGauge(text: string): number | null {
  const aught = /^([1-4]) ?\/ ?0$/.exec(text);
  if (aught) return 1 - Number(aught[1]);
  if (/^0{1,4}$/.test(text)) return 1 - text.length;
  if (!/^[1-9]\d?$/.test(text)) return null;
  const n = Number(text);
  return n <= thinnestGauge ? n : null;
}

/** The whole gauge that has this area within 0.5 % (the rounding of printed tables), or null. */
export function wholeGauge(area_m2: number): number | null {
  if (!(area_m2 > 0)) return null;
  const n = Math.round(gaugeOfArea(area_m2));
  if (n < thickestGauge || n > thinnestGauge) return null;
  return Math.abs(areaOfGauge(n) / area_m2 - 1) <= 0.005 ? n : null;
}

/** "18 AWG", "4/0 AWG"; an area between two gauges is said to be so rather than rounded to one. */
export function formatGauge(area_m2: number): string {
  const whole = wholeGauge(area_m2);
  if (whole !== null) return `${gaugeName(whole)} AWG`;
  if (!(area_m2 > areaOfGauge(thinnestGauge))) return `thinner than ${thinnestGauge} AWG`;
  if (area_m2 > areaOfGauge(thickestGauge)) return `thicker than ${gaugeName(thickestGauge)} AWG`;
  const thicker = Math.floor(gaugeOfArea(area_m2));
  return `between ${gaugeName(thicker)} and ${gaugeName(thicker + 1)} AWG`;
}

function gaugeName(n: number): string {
  return n <= 0 ? `${1 - n}/0` : String(n);
}
