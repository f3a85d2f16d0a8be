/** Remedies on random failing jobs, one half of them: energise to run. */
import { test } from 'node:test';
import { assertRandomRemedies } from './random-failing.ts';

test('every remedy of random failing jobs does what it says', () => assertRandomRemedies('energise to run'));
