/**
 * What a person may be asked to pull or push.
 *
 * Basic force F_B: what 85 of 100 adults at work exceed (or 99 of 100 users of every sort, for domestic use) [1]. It is
 * reduced for movement, frequency and duration to the capability F = F_B m_v m_f m_d. Up to 0.5 F is recommended; from there
 * to 0.7 F is not; beyond 0.7 F is to be avoided. [1]
 *
 * The multipliers are from memory. Which row of the table fits a handle and a posture is our reading (`actionAt`).
 * Momentary strength, for what a core must bear when somebody pulls in alarm, is that of [2].
 *
 * Left out: age and training beyond the two groups, gloves, reach, height of the handle.
 *
 * [1] EN 1005-3:2002+A1:2008, table 1 (seen in a public reproduction) and its multipliers (memory)
 * [2] B. Das, Y. Wang, Isometric pull-push strengths in workspace: 1. Strength profiles, Int. J. Occup. Safety Ergonomics 10 (2004) 43
 */

export type Action =
  | 'hand power grip'
  | 'arm up'
  | 'arm down'
  | 'arm outwards'
  | 'arm inwards'
  | 'arm push with backrest'
  | 'arm push no backrest'
  | 'arm pull with backrest'
  | 'arm pull no backrest'
  | 'whole body push standing'
  | 'whole body pull standing'
  | 'pedal ankle action'
  | 'pedal leg action';

export type People = 'professional' | 'domestic';

/** F_B, N: as printed in table 1 [1]. */
export const basicForce: Readonly<Record<Action, Readonly<Record<People, number>>>> = {
  'hand power grip': { professional: 250, domestic: 184 },
  'arm up': { professional: 50, domestic: 31 },
  'arm down': { professional: 75, domestic: 44 },
  'arm outwards': { professional: 55, domestic: 31 },
  'arm inwards': { professional: 75, domestic: 49 },
  'arm push with backrest': { professional: 275, domestic: 186 },
  'arm push no backrest': { professional: 62, domestic: 30 },
  'arm pull with backrest': { professional: 225, domestic: 169 },
  'arm pull no backrest': { professional: 55, domestic: 28 },
  'whole body push standing': { professional: 200, domestic: 119 },
  'whole body pull standing': { professional: 145, domestic: 96 },
  'pedal ankle action': { professional: 250, domestic: 154 },
  'pedal leg action': { professional: 475, domestic: 308 },
};

export interface Use {
  readonly isMoving: boolean;
  /** Times a minute. */
  readonly frequency: number;
  /** One action, s. */
  readonly actionTime: number;
  /** Of such work in a day, h. */
  readonly duration: number;
}

/** A stop control: pulled through once, now and then. */
export const stopControl: Use = { isMoving: true, frequency: 0.2, actionTime: 3, duration: 1 };

/** m_f by frequency up to 0.2, 2, 20 a minute and above, for actions up to 3 s and longer ones: memory [1]. */
const frequencyLimits = [0.2, 2, 20];
const frequencyFactors = { short: [1, 0.8, 0.5, 0.3], long: [0.6, 0.4, 0.2, 0] } as const;

export function movementFactor({ isMoving }: Use): number {
  return isMoving ? 0.8 : 1;
}

/** Zero where the standard has no figure: not to be asked. */
export function frequencyFactor({ frequency, actionTime }: Use): number {
  const row = frequencyLimits.findIndex((limit) => frequency <= limit);
  return frequencyFactors[actionTime <= 3 ? 'short' : 'long'][row < 0 ? 3 : row];
}

export function durationFactor({ duration }: Use): number {
  return duration <= 1 ? 1 : duration <= 2 ? 0.8 : 0.5;
}

export interface HumanLimits {
  /** N */
  readonly capability: number;
  readonly recommended: number;
  readonly avoidBeyond: number;
}

export function humanLimits(action: Action, people: People, use: Use): HumanLimits {
  const capability = basicForce[action][people] * movementFactor(use) * frequencyFactor(use) * durationFactor(use);
  return { capability, recommended: 0.5 * capability, avoidBeyond: 0.7 * capability };
}

export type HandleKind = 'knob' | 'T-handle' | 'lever' | 'pedal';
export type Posture = 'standing' | 'seated';

/** The row of the table that a handle is held against. A knob gives no hold to lean back with: the arm alone, without backrest. */
export function actionAt(handle: HandleKind, posture: Posture, way: 'pull' | 'push'): Action {
  if (handle === 'pedal') return posture === 'seated' ? 'pedal leg action' : 'pedal ankle action';
  if (handle === 'knob') return way === 'pull' ? 'arm pull no backrest' : 'arm push no backrest';
  if (posture === 'standing') return way === 'pull' ? 'whole body pull standing' : 'whole body push standing';
  return way === 'pull' ? 'arm pull with backrest' : 'arm push with backrest';
}

/** Largest one-handed strength found of men, and of women seated, N [2]: what a core must bear, and what can be done once. */
export const momentary = {
  pull: { strongest: 400, weaker: 222 },
  push: { strongest: 251, weaker: 96 },
} as const;
