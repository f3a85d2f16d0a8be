/** Until src/job/read.ts exists: takes any JSON object. */
import type { ReadJob } from './document.ts';

export const readJob: ReadJob = (text) => {
  try {
    const value: unknown = JSON.parse(text);
    if (typeof value === 'object' && value !== null && !Array.isArray(value)) return { ok: true };
  } catch {
    // said below
  }
  return { ok: false, problems: [{ path: '', read: text.slice(0, 40), problem: 'a JSON object would be right' }] };
};
