/**
 * Every conversion factor of the project, and every spelling that is understood. Exact unless marked.
 *
 * Longer than 300 lines: one reason, that every factor is held against its source in one place.
 *
 * value in base SI = ((number + offset) × multiply) / divide. Multiplying and dividing by whole numbers where a factor
 * such as 0.001 is not a binary fraction keeps 42 mm at exactly the number 0.042.
 *
 * Sources of the definitions:
 * - SI Brochure, 9th edition (2019): prefixes (table 7), degree, minute and second of arc, hour, day (table 8),
 *   t/°C = T/K − 273.15 (2.3.1); standard gravity g_n = 9.80665 m/s² (3rd CGPM 1901, appendix 1).
 * - International yard and pound agreement of 1959, as in NIST SP 811 (2008) appendix B: yard 0.9144 m, hence inch
 *   25.4 mm and foot 304.8 mm; avoirdupois pound 0.45359237 kg; ounce a sixteenth of it.
 * - kgf = kg × g_n, lbf = lb × g_n, psi = lbf/in², horsepower = 550 ft lbf/s, metric horsepower = 75 kgf m/s.
 * - oersted = 1000/(4π) A/m: NIST SP 811 appendix B.
 */
import { dimensions, type Dimension } from './dimension.ts';

export interface Unit {
  readonly symbol: string;
  readonly dimension: Dimension;
  readonly multiply: number;
  readonly divide: number;
  readonly offset: number;
}

/** [symbol, multiply, divide, spellings whose case matters, words of any case (plural s understood), offset] */
type Row = readonly [string, number, number, string?, string?, number?];

const pound = 0.45359237;
const standardGravity = 9.80665;
const poundForce = 4.4482216152605; // 0.45359237 × 9.80665, all its digits
/** An inch is 254/10⁴ m, a foot 3048/10⁴ m: 3/8 in then comes out as the very number 0.009525. */
const per10000 = { inch: 254, foot: 3048, yard: 9144 } as const;

const torqueRows: readonly Row[] = [
  ['N m', 1, 1, 'Nm'],
  ['N mm', 1, 1e3, 'Nmm'],
  ['N cm', 1, 100, 'Ncm'],
  ['mN m', 1, 1e3, 'mNm'],
  ['kgf m', standardGravity, 1, 'kgfm|kg m|kgm|kp m|kpm'],
  ['kgf cm', standardGravity, 100, 'kgfcm|kg cm|kgcm|kp cm|kpcm'],
  ['lbf ft', poundForce * per10000.foot, 1e4, 'lb ft|ft lb|ft lbf|lbs ft|ft lbs'],
  ['lbf in', poundForce * per10000.inch, 1e4, 'lb in|in lb|in lbf|lbs in|in lbs'],
  ['ozf in', poundForce * per10000.inch, 16e4, 'oz in|in oz|in ozf'],
];

const perAngle: readonly (readonly [string, number, readonly string[]])[] = [
  ['rad', 1, ['rad', 'radian']],
  ['°', Math.PI / 180, ['°', 'deg', 'degree']],
];

/** Torque units per radian and per degree, in every spelling of both parts. */
const torsionRateRows: readonly Row[] = torqueRows.flatMap(([symbol, multiply, divide, spellings]) =>
  perAngle.map(([angle, radians, angleSpellings]): Row => {
    const torques = [symbol, ...(spellings?.split('|') ?? [])];
    const pairs = torques.flatMap((torque) => angleSpellings.map((spelling) => `${torque}/${spelling}`));
    return [`${symbol}/${angle}`, multiply, divide * radians, pairs.join('|')];
  }),
);

const pascalRows: readonly Row[] = [
  ['Pa', 1, 1, '', 'pascal'],
  ['kPa', 1e3, 1, 'KPa', 'kilopascal'],
  ['MPa', 1e6, 1, '', 'megapascal'],
];

const rows: Readonly<Record<Dimension, readonly Row[]>> = {
  length: [
    ['mm', 1, 1e3, 'MM', 'millimetre|millimeter'],
    ['cm', 1, 100, 'CM', 'centimetre|centimeter'],
    ['m', 1, 1, '', 'metre|meter'],
    ['μm', 1, 1e6, 'um', 'micron|micrometre|micrometer'],
    ['in', per10000.inch, 1e4, '"', 'in|ins|inch|inches'],
    ['ft', per10000.foot, 1e4, "'", 'ft|foot|feet'],
    ['yd', per10000.yard, 1e4, '', 'yd|yard'],
    ['thou', per10000.inch, 1e7, '', 'thou'],
  ],
  angle: [
    ['°', Math.PI, 180, '', 'deg|degree'],
    ['rad', 1, 1, '', 'rad|radian'],
    ['mrad', 1, 1e3, '', 'milliradian'],
    ['′', Math.PI, 180 * 60, "'", 'arcmin'],
    ['″', Math.PI, 180 * 3600, '"', 'arcsec'],
    ['gon', Math.PI, 200, '', 'gon|grad'],
    ['turn', 2 * Math.PI, 1, '', 'turn|rev|revolution'],
  ],
  force: [
    ['N', 1, 1, '', 'newton'],
    ['mN', 1, 1e3, '', 'millinewton'],
    ['daN', 10, 1, '', 'decanewton'],
    ['kN', 1e3, 1, 'KN', 'kilonewton'],
    // A spring balance is marked in kg, g, lb or oz and reads a force.
    ['kgf', standardGravity, 1, 'kg|kgs|Kg|KG|kp', 'kgf|kilo|kilogram|kilopond'],
    ['gf', standardGravity, 1e3, 'g', 'gf|gram|gramme'],
    ['lbf', poundForce, 1, '', 'lbf|lb|pound'],
    ['ozf', poundForce, 16, '', 'ozf|oz|ounce'],
  ],
  mass: [
    ['kg', 1, 1, 'Kg|KG|kgs', 'kilo|kilogram|kilogramme'],
    ['g', 1, 1e3, '', 'gram|gramme'],
    ['mg', 1, 1e6, '', 'milligram'],
    ['lb', pound, 1, '', 'lb|lbm|pound'],
    ['oz', pound, 16, '', 'oz|ounce'],
  ],
  temperature: [
    ['°C', 1, 1, 'C', 'deg C|degC|degree C|degrees C|celsius|centigrade', 273.15],
    ['°F', 5, 9, 'F', 'deg F|degF|degree F|degrees F|fahrenheit', 459.67],
    ['K', 1, 1, '', 'kelvin', 0],
  ],
  temperatureDifference: [
    ['K', 1, 1, '', 'kelvin'],
    ['°C', 1, 1, 'C', 'deg C|degC|degree C|degrees C|celsius|centigrade'],
    ['°F', 5, 9, 'F', 'deg F|degF|degree F|degrees F|fahrenheit'],
  ],
  voltage: [
    ['V', 1, 1, 'v', 'volt|Vdc|V dc'],
    ['mV', 1, 1e3, '', 'millivolt'],
    ['kV', 1e3, 1, 'KV', 'kilovolt'],
    ['μV', 1, 1e6, 'uV', 'microvolt'],
  ],
  current: [
    ['A', 1, 1, 'a', 'amp|ampere'],
    ['mA', 1, 1e3, '', 'milliamp|milliampere'],
    ['μA', 1, 1e6, 'uA', 'microamp|microampere'],
    ['kA', 1e3, 1, 'KA', 'kiloampere'],
  ],
  resistance: [
    ['Ω', 1, 1, '', 'ohm'],
    ['mΩ', 1, 1e3, 'mohm|mohms|mOhm|m ohm', 'milliohm'],
    ['μΩ', 1, 1e6, 'uohm|uohms|uΩ|uOhm|μohm', 'microohm'],
    ['kΩ', 1e3, 1, 'KΩ', 'kohm|k ohm|kiloohm|kilohm'],
    ['MΩ', 1e6, 1, 'Mohm|Mohms|MOhm|M ohm', 'megohm|megaohm'],
  ],
  power: [
    ['W', 1, 1, 'w', 'watt'],
    ['mW', 1, 1e3, '', 'milliwatt'],
    ['kW', 1e3, 1, 'KW', 'kilowatt'],
    ['hp', 550 * poundForce * per10000.foot, 1e4, '', 'hp|bhp|horsepower'],
    ['PS', 75 * standardGravity, 1, '', 'metric hp'],
  ],
  area: [
    ['mm²', 1, 1e6, 'sq mm|mm sq|MM2', 'sqmm|square millimetre|square millimeter'],
    ['cm²', 1, 1e4, 'sq cm', 'sqcm|square centimetre|square centimeter'],
    ['m²', 1, 1, 'sq m', 'square metre|square meter'],
    ['in²', per10000.inch ** 2, 1e8, '', 'sq in|sqin|square inch|square inches|in2'],
    ['AWG', Number.NaN, 1, '', 'awg'], // no factor: see gauge.ts
  ],
  volume: [
    ['L', 1, 1e3, 'l', 'litre|liter'],
    ['mL', 1, 1e6, 'ml', 'millilitre|milliliter'],
    ['mm³', 1, 1e9, '', 'cubic millimetre|cubic millimeter'],
    ['cm³', 1, 1e6, 'cc|ccm', 'cubic centimetre|cubic centimeter'],
    ['dm³', 1, 1e3],
    ['m³', 1, 1, 'cu m', 'cubic metre|cubic meter'],
    ['in³', per10000.inch ** 3, 1e12, '', 'cu in|cubic inch|cubic inches|in3'],
    ['ft³', per10000.foot ** 3, 1e12, '', 'cu ft|cubic foot|cubic feet|ft3'],
  ],
  ratio: [
    ['', 1, 1],
    ['%', 1, 100, '', 'percent|per cent|pct'],
    ['‰', 1, 1e3, '', 'permille'],
  ],
  springRate: [
    ['N/mm', 1e3, 1],
    ['N/cm', 100, 1],
    ['N/m', 1, 1],
    ['kN/m', 1e3, 1],
    ['kgf/mm', standardGravity * 1e3, 1, 'kg/mm|kp/mm'],
    ['kgf/cm', standardGravity * 100, 1, 'kg/cm|kp/cm'],
    ['gf/mm', standardGravity, 1, 'g/mm'],
    [
      'lbf/in',
      poundForce * 1e4,
      per10000.inch,
      'lb/"|lbf/"',
      'lbf/in|lb/in|lbs/in|lbf/inch|lb/inch|lbs/inch|lbf per inch|pound per inch|pounds per inch|lb per inch|lbs per inch',
    ],
    ['lbf/ft', poundForce * 1e4, per10000.foot, '', 'lbf/ft|lb/ft|lbs/ft'],
  ],
  torsionRate: torsionRateRows,
  acceleration: [
    ['m/s²', 1, 1, 'm/s/s'],
    ['mm/s²', 1, 1e3],
    ['g_n', standardGravity, 1, 'g|G|gn|g0|gₙ'], // a vibration of "0.5 g"
    ['ft/s²', per10000.foot, 1e4],
  ],
  time: [
    ['s', 1, 1, '', 'sec|second'],
    ['ms', 1, 1e3, '', 'msec|millisecond'],
    ['μs', 1, 1e6, 'us', 'microsecond'],
    ['min', 60, 1, '', 'min|minute'],
    ['h', 3600, 1, '', 'hr|hour'],
    ['d', 86400, 1, '', 'day'],
  ],
  pressure: [
    ['bar', 1e5, 1, '', 'bar'],
    ['mbar', 100, 1, '', 'millibar'],
    ...pascalRows,
    ['psi', poundForce * 1e8, per10000.inch ** 2, '', 'psi|lbf/in2|lb/in2|lb/sq in'],
    ['kgf/cm²', standardGravity * 1e4, 1, 'kg/cm2|kp/cm2'],
  ],
  stress: [
    ...pascalRows,
    ['N/mm²', 1e6, 1],
    ['GPa', 1e9, 1, '', 'gigapascal'],
    ['psi', poundForce * 1e8, per10000.inch ** 2, '', 'psi|lbf/in2|lb/in2|lb/sq in'],
    ['ksi', poundForce * 1e11, per10000.inch ** 2, '', 'ksi'],
    ['kgf/mm²', standardGravity * 1e6, 1, 'kg/mm2|kp/mm2'],
  ],
  // Volume flow at the reference state of ISO 8778 for each unit of absolute pressure before the throat (ISO 6358-1).
  sonicConductance: [
    ['L/(s bar)', 1, 1e8, 'l/(s bar)|dm³/(s bar)|L/s/bar|l/s/bar'],
    ['L/(min bar)', 1, 60e8, 'l/(min bar)|dm³/(min bar)|L/min/bar|l/min/bar'],
    ['m³/(s Pa)', 1, 1],
  ],
  torque: torqueRows,
  inductance: [
    ['H', 1, 1, '', 'henry'],
    ['mH', 1, 1e3, '', 'millihenry'],
    ['μH', 1, 1e6, 'uH', 'microhenry'],
  ],
  frequency: [
    ['Hz', 1, 1, 'hz|HZ', 'hertz'],
    ['kHz', 1e3, 1, 'KHz|khz', 'kilohertz'],
    ['rpm', 1, 60, '1/min|/min', 'rpm|r/min|rev/min'],
  ],
  velocity: [
    ['m/s', 1, 1],
    ['mm/s', 1, 1e3],
    ['km/h', 1e3, 3600, '', 'kmh|kph'],
    ['in/s', per10000.inch, 1e4],
    ['ft/s', per10000.foot, 1e4],
    ['mph', 5280 * per10000.foot, 3600e4, '', 'mph'],
  ],
  magneticFluxDensity: [
    ['T', 1, 1, '', 'tesla'],
    ['mT', 1, 1e3, '', 'millitesla'],
    ['μT', 1, 1e6, 'uT', 'microtesla'],
    ['G', 1, 1e4, '', 'gauss'],
    ['kG', 1, 10, '', 'kilogauss'],
  ],
  magneticFieldStrength: [
    ['A/m', 1, 1],
    ['kA/m', 1e3, 1],
    ['A/cm', 100, 1],
    ['Oe', 1e3, 4 * Math.PI, '', 'oersted'],
  ],
};

interface Spellings {
  readonly bySymbol: ReadonlyMap<string, Unit>;
  readonly exact: ReadonlyMap<string, Unit>;
  readonly words: ReadonlyMap<string, Unit>;
}

const spellings = new Map<Dimension, Spellings>(dimensions.map((dimension) => [dimension, spellingsOf(dimension)]));

function spellingsOf(dimension: Dimension): Spellings {
  const bySymbol = new Map<string, Unit>();
  const exact = new Map<string, Unit>();
  const words = new Map<string, Unit>();
  for (const [symbol, multiply, divide, cased = '', uncased = '', offset = 0] of rows[dimension]) {
    const unit: Unit = { symbol, dimension, multiply, divide, offset };
    bySymbol.set(symbol, unit);
    for (const spelling of [symbol, ...cased.split('|').filter(Boolean)]) exact.set(spellingKey(spelling), unit);
    for (const word of uncased.split('|').filter(Boolean)) words.set(spellingKey(word).toLowerCase(), unit);
  }
  return { bySymbol, exact, words };
}

/** One form for "N m", "N·m" and "N-m", for "mm²", "mm^2" and "mm2", for "in" and "in.". */
export function spellingKey(unitText: string): string {
  return unitText
    .replaceAll('²', '2')
    .replaceAll('³', '3')
    .replaceAll('^', '')
    .replace(/ ?([·/]) ?/g, '$1')
    .replace(/[ -]/g, '·')
    .replace(/°·/g, '°')
    .replace(/([A-Za-z])\.$/, '$1');
}

/** The unit that `unitText` (plain characters) spells in this dimension. */
export function unitSpelled(unitText: string, dimension: Dimension): Unit | undefined {
  const known = spellings.get(dimension);
  const key = spellingKey(unitText);
  const exact = known?.exact.get(key);
  if (exact) return exact;
  const word = key.toLowerCase();
  return known?.words.get(word) ?? (/^..+s$/.test(word) ? known?.words.get(word.slice(0, -1)) : undefined);
}

/** The dimension that knows this spelling, the first in the order of the table. */
export function dimensionSpelled(unitText: string): Dimension | undefined {
  return dimensions.find((dimension) => unitSpelled(unitText, dimension));
}

/** The unit with exactly this symbol; without a dimension, the first in the order of the table. */
export function unitWithSymbol(symbol: string, dimension?: Dimension): Unit | undefined {
  if (dimension) return spellings.get(dimension)?.bySymbol.get(symbol);
  for (const each of dimensions) {
    const unit = spellings.get(each)?.bySymbol.get(symbol);
    if (unit) return unit;
  }
  return undefined;
}

/** The symbols of a dimension in the order of a menu. */
export function unitsOf(dimension: Dimension): readonly string[] {
  return [...(spellings.get(dimension)?.bySymbol.keys() ?? [])];
}
