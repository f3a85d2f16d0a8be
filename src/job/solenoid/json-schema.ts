/** The published form of solenoid documents, made from the one schema that also gives the types and the validation. */
import { toJSONSchema } from 'zod';
import type { JsonSchema } from '../json-schema.ts';
import { SOLENOID_VERSION, solenoidSchema } from './schema.ts';

/** JSON Schema, draft 2020-12, of a solenoid document of the present version. Fresh plain data at every call. */
export function solenoidJsonSchema(): JsonSchema {
  const { $schema, ...form } = toJSONSchema(solenoidSchema, { target: 'draft-2020-12' });
  return {
    $schema,
    $id: `urn:stopwright:solenoid:${SOLENOID_VERSION}`,
    $comment: 'Says the form. What a quantity means and whether readings contradict each other, the program says.',
    ...form,
  };
}
