/** Colours of a sheet: what each role is drawn in, light, dark and in print. */
import type { Role } from './drawing.ts';

/**
 * light, dark and print: fixed colours; print is light on white paper. screen: custom properties `--sheet-…` with the light colours behind
 * them, so that a page restyles the same sheet.
 */
export type Colours = 'light' | 'dark' | 'print' | 'screen';

export type Ink = 'ink' | 'quiet' | 'grid' | 'paper' | 'pull' | 'need' | 'return' | 'side' | 'fails' | 'now';

const light = {
  ink: '#1a2430',
  quiet: '#5a6673',
  grid: '#d9dcda',
  paper: '#fbfaf6',
  pull: '#1d5a96',
  need: '#8f4a00',
  return: '#2a6a3c',
  side: '#6b4a8c',
  fails: '#b3261e',
  now: '#0b6b74',
} as const;

const dark = {
  ink: '#e6e9ea',
  quiet: '#9aa6b0',
  grid: '#343c44',
  paper: '#14191e',
  pull: '#7db8ee',
  need: '#efb066',
  return: '#86cf9a',
  side: '#c3a5e6',
  fails: '#ff8f85',
  now: '#63cbd4',
} as const;

/** Each ink but that of the grid reaches a contrast of 4.5 to 1 with its paper (WCAG 2.2, 1.4.3), tested. */
export const inks: Readonly<Record<'light' | 'dark' | 'print', Readonly<Record<Ink, string>>>> = {
  light,
  dark,
  print: { ...light, paper: '#ffffff' },
};

export const inkOf: Readonly<Record<Role, Ink>> = {
  sheet: 'ink',
  mechanism: 'ink',
  quiet: 'quiet',
  pull: 'pull',
  need: 'need',
  return: 'return',
  side: 'side',
  fails: 'fails',
  now: 'now',
  words: 'ink',
  grid: 'grid',
  notice: 'ink',
};
