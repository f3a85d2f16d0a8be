/** Places in a document, as people read them: `survey.effort.readings[2].pull`. */
export type PathStep = string | number;

export function pathText(steps: readonly PropertyKey[]): string {
  let text = '';
  for (const step of steps) {
    if (typeof step === 'number') text += `[${step}]`;
    else text += text === '' ? String(step) : `.${String(step)}`;
  }
  return text;
}

/** The steps of a written path. */
export function pathSteps(text: string): PathStep[] {
  return [...text.matchAll(/([^.[\]]+)|\[(\d+)\]/g)].map((match) =>
    match[2] === undefined ? match[1] : Number(match[2]),
  );
}

/** The value at a path, or undefined where the document has nothing there. */
export function valueAt(document: unknown, path: string): unknown {
  let value: unknown = document;
  for (const step of pathSteps(path)) {
    if (typeof value !== 'object' || value === null || !Object.hasOwn(value, step)) return undefined;
    value = (value as Record<PathStep, unknown>)[step];
  }
  return value;
}
