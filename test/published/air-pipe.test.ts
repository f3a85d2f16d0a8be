/**
 * A pipe as one number against the same pipe in twenty cells.
 *
 * Times in ms until a chamber at the end of a pipe, filled through a valve, has come to 60 % of 6 bar above an atmosphere of
 * 101300 Pa, or, emptied through one, has fallen from there to 10 % of it; 293.15 K at one temperature; b of the valve 0.3.
 * SciPy 1.10 `solve_ivp`, LSODA, relative tolerance 1e-6; cells of equal volume, between them conductances of b 0.45 that
 * choke together like the whole pipe.
 */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import { inSeries, pipe, shareOfPipe } from '../../src/physics/air/flow.ts';
import { ATMOSPHERE } from '../../src/physics/air/gas.ts';
import { stroke } from '../../src/physics/air/stroke.ts';
import type { Source } from './printed.ts';

const scipy: Source = { source: 'SciPy solve_ivp, pipe in twenty cells, recipe at the head', provenance: 'seen' };

/** Bore mm, length m, valve L/(s bar), chamber cm³, then times. */
const rows = [
  [4, 5, 1.1, 20, 65.71, 163.84],
  [4, 10, 1.1, 20, 139.83, 338.42],
  [4, 25, 1.1, 20, 446.9, 1057.59],
  [2.5, 5, 1.1, 20, 108.04, 264.05],
  [6, 10, 1.1, 30, 171.52, 468.13],
  [6, 10, 0.3, 30, 561.26, 1580.77],
  [4, 2, 1.1, 80, 74.49, 201.98],
  [8, 30, 2, 30, 518.33, 1365.92],
  [2.5, 30, 1.1, 20, 810.25, 1921.95],
] as const;

test('filling and emptying through a pipe take as long as in twenty cells, or a little longer', () => {
  for (const [bore, length, valve_L_s_bar, chamber, filling, emptying] of rows) {
    const line = pipe(bore * 1e-3, length);
    const valve = { conductance: valve_L_s_bar * 1e-8, criticalRatio: 0.3 };
    const volume = (Math.PI / 4) * (bore * 1e-3) ** 2 * length * shareOfPipe(valve, line);
    const held = {
      gaps: Float64Array.of(0, 0.001),
      home: Float64Array.of(1e6, 1e6),
      out: Float64Array.of(-1e6, -1e6),
      mass: Float64Array.of(1, 1),
      viscous: 0,
    };
    for (const [towards, ms, level, most] of [
      ['home', filling, 0.6, 1.08],
      ['out', emptying, 0.1, 1.26],
    ] as const) {
      const { trace } = stroke({
        cylinder: {
          action: 'push',
          bore: 0.004,
          rod: 0.002,
          stroke: 0.001,
          efficiency: 1,
          drag: 0,
          deadVolume: chamber * 1e-6,
        },
        load: held,
        way: { homeGap: 0, outGap: 0.001 },
        towards,
        supply: 6e5,
        temperature: 293.15,
        inlet: inSeries([valve, line]),
        exhaust: inSeries([line, valve]),
        pipes: { home: volume, out: 0 },
        returnsByAir: false,
        process: 'isothermal',
        duration: (2 * ms) / 1000,
        tracePoints: 2001,
      });
      const passed = trace!.home_Pa.findIndex((p) => (towards === 'home' ? p >= level * 6e5 : p <= level * 6e5));
      const share = (1000 * trace!.time_s[passed]) / ms;
      assert.ok(
        share > 0.96 && share < most,
        `${bore} mm, ${length} m, ${towards}: ${share} of ${ms} ms: ${scipy.source}`,
      );
    }
  }
  assert.ok(ATMOSPHERE - 101300 < 30, 'the same atmosphere');
});
