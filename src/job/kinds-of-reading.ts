/** Readings that several parts of a document ask for, each with the bounds outside which a slip of the pen is certain. */
import { z } from 'zod';
import { defaulted, reading } from './fields.ts';

export const text = (description: string, most = 4000) => z.string().max(most).meta({ description });

/** Angles: two turns either way. */
export const turns = { least: -4 * Math.PI, most: 4 * Math.PI };
export const angle = (description: string) => reading('angle', description, turns);

export const length = (description: string) => reading('length', description, { above: 0, most: 10 });
export const clearance = (description: string) => reading('length', description, { least: 0, most: 1 });
export const place = (description: string) => reading('length', description, { least: -10, most: 10 });

/** A place in the plane of the lever. */
export const point = (description: string) =>
  z
    .strictObject({ x: place('to the right of the shaft centre'), y: place('above the shaft centre') })
    .meta({ description });

export const force = (description: string) => reading('force', description, { least: 0, most: 1e5 });
export const friction = (description: string) => defaulted('ratio', description, { least: 0, most: 1.5 });
export const pressure = (description: string) => reading('pressure', description, { above: 0, most: 5e7 });
export const temperature = (description: string) =>
  reading('temperature', description, { least: 173.15, most: 773.15 });
