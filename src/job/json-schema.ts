/**
 * The published form of job documents, made from the one schema that also gives the types and the validation.
 *
 * A JSON Schema sees the form alone: which fields there are, which words and numbers they take. What the text of a
 * quantity means, and which readings contradict each other, only the reader knows (`read.ts`).
 */
import { toJSONSchema } from 'zod';
import { jobSchema, VERSION } from './schema.ts';

export type JsonSchema = Readonly<Record<string, unknown>>;

/** JSON Schema, draft 2020-12, of a job document of the present version. Fresh plain data at every call. */
export function jobJsonSchema(): JsonSchema {
  const { $schema, ...form } = toJSONSchema(jobSchema, { target: 'draft-2020-12' });
  return {
    $schema,
    $id: `urn:stopwright:job:${VERSION}`,
    $comment: 'Says the form. What a quantity means and whether readings contradict each other, the program says.',
    ...form,
  };
}
