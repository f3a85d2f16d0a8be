/** A picture of the circuit as things to draw: symbol, words, whether current flows, and the field that each rests on. */
import type { CircuitBranch, CircuitPart, CircuitPicture } from '../../assessment/circuit/picture.ts';
import type { CircuitLoad } from '../../assessment/circuit/load.ts';
import type { DisplayUnits } from '../../units/display.ts';
import type { SymbolKind } from './symbols.ts';
import { amps, ohms, partDetails, section, stateWords, volts } from './words.ts';

export interface Item {
  /** Of its part in the drawing. */
  readonly id: string;
  readonly kind: SymbolKind;
  readonly name: string;
  readonly details: readonly string[];
  /** Field of the job that it rests on. */
  readonly path: string;
  readonly isLive: boolean;
  readonly isOpen: boolean;
  /** Drawn against the current: a diode with its cathode to plus. */
  readonly isTurned: boolean;
  readonly fails: boolean;
}

/** A branch between the terminals of the solenoid, from plus to minus; a bridge lies beside one of its items. */
export interface LoadBranch {
  readonly items: readonly Item[];
  readonly bridge: { readonly item: Item; readonly over: number } | null;
  readonly isLive: boolean;
}

export interface StationItems {
  readonly id: string;
  readonly name: string;
  readonly path: string;
  readonly items: readonly Item[];
  readonly branch: CircuitBranch;
}

export interface CircuitItems {
  /** Battery, then what it loses inside. */
  readonly source: readonly [Item, Item];
  readonly out: readonly Item[];
  readonly back: readonly Item[];
  readonly load: readonly LoadBranch[];
  readonly stations: readonly StationItems[];
}

const symbolOf: Readonly<Record<Exclude<CircuitPart['kind'], 'source'>, SymbolKind>> = {
  switch: 'switch',
  relay: 'relay',
  fuse: 'fuse',
  connector: 'connector',
  conductor: 'conductor',
  earth: 'earth',
  'earth strap': 'resistor',
  other: 'resistor',
};

export function itemsOf(picture: CircuitPicture, units: DisplayUnits): CircuitItems {
  const { source, out, back, others, load, state, stage } = picture;
  const flows = (current: number | null): boolean => (current === null ? stage !== 'off' : current > 0);
  const make = (id: string, part: CircuitPart): Item => ({
    ...plainItem(id, part.kind === 'source' ? 'resistor' : symbolOf[part.kind], part.name, part.path),
    details: partDetails(part, units),
    isLive: flows(part.amps),
    isOpen: part.isOpen,
  });
  return {
    source: [
      {
        ...plainItem('source', 'battery', 'Source', `supply.${state}`),
        details: [stateWords[state], `${volts(source.fromVolts)} open`],
        isLive: flows(picture.amps),
      },
      { ...make('inside', source), name: 'Inside the source', details: partDetails(source, units) },
    ],
    out: out.map((part, i) => make(`out-${i}`, part)),
    back: back.map((part, i) => make(`back-${i}`, part)),
    load: loadBranches(load, flows),
    stations: others.map((branch, b) => ({
      id: `station-${b}`,
      name: branch.name,
      path: branch.path,
      branch,
      items: [
        ...branch.parts.map((part, i) => ({
          ...make(`station-${b}-${i}`, { ...part, amps: 0 }),
          // The run is called as its station, which is written beside it already.
          name: part.kind === 'conductor' && part.name === branch.name ? 'Conductor' : part.name,
          details: part.isOpen ? ['open'] : part.kind === 'conductor' ? [section(part.section, units)] : [],
        })),
        ...(branch.hasDiode ? [plainItem(`station-${b}-diode`, 'diode', 'Diode', `${branch.path}.diode`)] : []),
      ],
    })),
  };
}

function plainItem(id: string, kind: SymbolKind, name: string, path: string): Item {
  return { id, kind, name, path, details: [], isLive: false, isOpen: false, isTurned: false, fails: false };
}

function loadBranches(load: CircuitLoad, flows: (current: number | null) => boolean): LoadBranch[] {
  const { windings, endSwitch, resistor, economiser } = load;
  const branches = windings.map(({ name, path, resistance, volts: across, amps: current }, i): LoadBranch => {
    const isLive = flows(current);
    const winding: Item = {
      ...plainItem(`winding-${i}`, 'winding', name, path),
      details: [ohms(resistance), volts(across), amps(current)],
      isLive,
    };
    if (resistor !== null) {
      const item: Item = {
        ...plainItem('resistor', 'resistor', 'Resistor', resistor.path),
        details: [
          ohms(resistor.resistance),
          ...(resistor.isBridged ? ['bridged'] : [volts(resistor.volts), amps(resistor.amps)]),
        ],
        isLive: !resistor.isBridged && flows(resistor.amps),
      };
      const bridge = endSwitchItem(load, flows);
      return { items: [winding, item], bridge: bridge === null ? null : { item: bridge, over: 1 }, isLive };
    }
    if (economiser !== null) {
      const delay = economiser.delay === null ? [] : [`after ${Number(economiser.delay.toPrecision(3))} s`];
      const share = economiser.share === null ? '? %' : `${Number((economiser.share * 100).toPrecision(3))} %`;
      const item: Item = {
        ...plainItem('economiser', 'economiser', 'Economiser', economiser.path),
        details: economiser.isReducing ? [share] : ['all volts', ...delay],
        isLive,
      };
      return { items: [item, winding], bridge: null, isLive };
    }
    const before = i === 0 && endSwitch?.isWired === true ? endSwitchItem(load, flows) : null;
    return { items: before === null ? [winding] : [before, winding], bridge: null, isLive };
  });
  const across = suppressionItems(load);
  return across.length === 0
    ? branches
    : [...branches, { items: across, bridge: null, isLive: across.some(({ isLive }) => isLive) }];
}

function endSwitchItem({ endSwitch }: CircuitLoad, flows: (current: number | null) => boolean): Item | null {
  if (endSwitch === null) return null;
  return {
    ...plainItem('end-switch', 'end switch', 'End switch', endSwitch.path),
    details: [endSwitch.isOpen ? 'open' : 'closed'],
    isLive: !endSwitch.isOpen && flows(endSwitch.amps),
    isOpen: endSwitch.isOpen,
  };
}

/** From plus to minus. A diode that lies right points to plus. */
function suppressionItems({ suppression }: CircuitLoad): Item[] {
  const { kind, path, polarity, resistance, voltage, amps: current } = suppression;
  if (kind === 'none' || kind === 'not measured') return [];
  const isWrong = polarity === 'anode to plus';
  const isLive = (current ?? 0) > 0;
  const diode: Item = {
    ...plainItem('diode', 'diode', 'Diode', path),
    details: isWrong
      ? ['wrong way', ...(isLive ? [amps(current)] : [])]
      : polarity === 'not measured'
        ? ['way round', 'not known']
        : [],
    isLive,
    isTurned: !isWrong,
    fails: isWrong,
  };
  if (kind === 'diode') return [diode];
  if (kind === 'diode and resistor')
    return [diode, { ...plainItem('beside-diode', 'resistor', 'Resistor', path), details: [ohms(resistance)] }];
  return [
    diode,
    { ...plainItem('zener', 'breakdown diode', 'Zener', path), details: [voltage === null ? '? V' : volts(voltage)] },
  ];
}
