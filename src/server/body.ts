/** Reads request bodies: bounded, as strict UTF-8, as JSON of the expected shape. */
import type { Context } from 'hono';
import type { z } from 'zod';
import { LARGEST_BODY_BYTES, type Problem } from '../job/exchange.ts';
import { bodyTooLarge, bodyUnreadable, documentUnreadable } from './refusal.ts';

/** No request nests deeper or lists more: millions of brackets or fields would keep the JSON reader busy for seconds. */
const deepestBody = 8;
const mostCommas = 100;

/** @throws Refused too large, not UTF-8, not JSON, or not of the shape: then with every problem */
export async function readBody<Schema extends z.ZodType>(context: Context, schema: Schema): Promise<z.output<Schema>> {
  const text = decode(await readBytes(context));
  if (text === undefined) throw bodyUnreadable('This request is not text in UTF-8.');
  if (isSurelyNoRequest(text)) throw bodyUnreadable('This request does not say what is wanted.');
  let body: unknown;
  try {
    body = JSON.parse(text);
  } catch {
    throw bodyUnreadable('This request is not readable JSON.');
  }
  const result = schema.safeParse(body);
  if (!result.success) {
    const problems = result.error.issues.map(({ path, message }) => problemAt(body, path, message));
    throw bodyUnreadable('This request does not say what is wanted.', problems);
  }
  return result.data;
}

/** The body as the exact text of a job file. A byte order mark stays in it. @throws Refused too large, or not UTF-8 */
export async function readFileText(context: Context): Promise<string> {
  const bytes = await readBytes(context);
  const text = decode(bytes);
  if (text === undefined) {
    throw documentUnreadable([
      { path: '', read: `${bytes.length} bytes`, problem: 'not text in UTF-8; a job file is JSON in UTF-8' },
    ]);
  }
  return text;
}

async function readBytes(context: Context): Promise<Uint8Array> {
  const announced = Number(context.req.header('content-length') ?? 0);
  if (announced > LARGEST_BODY_BYTES) throw bodyTooLarge(LARGEST_BODY_BYTES);
  const parts: Uint8Array[] = [];
  let length = 0;
  for await (const part of context.req.raw.body ?? []) {
    length += part.length;
    if (length > LARGEST_BODY_BYTES) throw bodyTooLarge(LARGEST_BODY_BYTES);
    parts.push(part);
  }
  return Buffer.concat(parts);
}

function decode(bytes: Uint8Array): string | undefined {
  try {
    return new TextDecoder('utf-8', { fatal: true, ignoreBOM: true }).decode(bytes);
  } catch {
    return undefined;
  }
}

function problemAt(body: unknown, path: readonly PropertyKey[], problem: string): Problem {
  let value: unknown = body;
  for (const key of path) value = (value as Record<PropertyKey, unknown> | null | undefined)?.[key];
  return { path: path.map(String).join('.'), read: shown(value), problem };
}

function isSurelyNoRequest(text: string): boolean {
  let depth = 0;
  let commas = 0;
  let inString = false;
  for (let at = 0; at < text.length; at += 1) {
    const character = text[at];
    if (inString && character === '\\') at += 1;
    else if (character === '"') inString = !inString;
    else if (!inString && (character === '[' || character === '{')) depth += 1;
    else if (!inString && (character === ']' || character === '}')) depth -= 1;
    else if (!inString && character === ',') commas += 1;
    if (depth > deepestBody || commas > mostCommas) return true;
  }
  return false;
}

// Never the inside of a list or an object: it may be nested deeper than can be printed.
function shown(value: unknown): string {
  if (value === undefined) return 'nothing';
  if (Array.isArray(value)) return 'a list';
  if (typeof value === 'object' && value !== null) return 'an object';
  return JSON.stringify(typeof value === 'string' ? value.slice(0, 60) : value);
}
