/** What may be asked of a person's arm, hand and foot. */
import { test } from 'node:test';
import { basicForce, humanLimits, momentary, stopControl, type Action } from '../../src/physics/cable/human-force.ts';
import { agrees, within, type Source } from './printed.ts';

test('basic forces of EN 1005-3, table 1', () => {
  const table: Source = {
    source: 'EN 1005-3:2002+A1:2008, table 1, as an open page on ergonomics reproduces it',
    provenance: 'seen',
  };
  const rows: readonly (readonly [Action, string, string])[] = [
    ['hand power grip', '250', '184'],
    ['arm up', '50', '31'],
    ['arm down', '75', '44'],
    ['arm outwards', '55', '31'],
    ['arm inwards', '75', '49'],
    ['arm push with backrest', '275', '186'],
    ['arm push no backrest', '62', '30'],
    ['arm pull with backrest', '225', '169'],
    ['arm pull no backrest', '55', '28'],
    ['whole body push standing', '200', '119'],
    ['whole body pull standing', '145', '96'],
    ['pedal ankle action', '250', '154'],
    ['pedal leg action', '475', '308'],
  ];
  for (const [action, professional, domestic] of rows) {
    agrees(basicForce[action].professional, professional, table, action);
    agrees(basicForce[action].domestic, domestic, table, `${action}, domestic`);
  }
});

test('a stop knob pulled once: capability, and what is recommended', () => {
  const method: Source = {
    source: 'EN 1005-3:2002+A1:2008, three steps; method and 50 % seen, multipliers 0.8, 1 and 1 from memory',
    provenance: 'memory, derived',
  };
  const limits = (action: Action) => humanLimits(action, 'professional', stopControl);
  within(limits('arm pull no backrest').capability, 44, 44e-6, method, 'without backrest');
  within(limits('arm pull no backrest').recommended, 22, 22e-6, method, 'recommended');
  within(limits('arm pull with backrest').capability, 180, 180e-6, method, 'with backrest');
  within(limits('arm pull with backrest').recommended, 90, 90e-6, method, 'recommended');
  within(limits('whole body pull standing').recommended, 58, 58e-6, method, 'standing');
  within(limits('whole body pull standing').avoidBeyond, 0.7 * 116, 1e-9, method, 'beyond 70 % to be avoided');
});

test('momentary strength of one hand', () => {
  const measured: Source = {
    source:
      'B. Das, Y. Wang, Isometric pull-push strengths in workspace: 1. Strength profiles, Int. J. Occup. Safety Ergonomics 10 '
      + '(2004) 43: largest values of the abstract',
    provenance: 'seen',
  };
  agrees(momentary.pull.strongest, '400', measured, 'men pull');
  agrees(momentary.pull.weaker, '222', measured, 'women pull, seated');
  agrees(momentary.push.strongest, '251', measured, 'men push, standing');
  agrees(momentary.push.weaker, '96', measured, 'women push, seated');
});
