/** The published form of drawer documents, made from the one schema that also gives the types and the validation. */
import { toJSONSchema } from 'zod';
import type { JsonSchema } from '../json-schema.ts';
import { DRAWER_VERSION, drawerSchema } from './schema.ts';

/** JSON Schema, draft 2020-12, of a drawer document of the present version. Fresh plain data at every call. */
export function drawerJsonSchema(): JsonSchema {
  const { $schema, ...form } = toJSONSchema(drawerSchema, { target: 'draft-2020-12' });
  return {
    $schema,
    $id: `urn:stopwright:drawer:${DRAWER_VERSION}`,
    $comment: 'Says the form. What a quantity means and whether readings contradict each other, the program says.',
    ...form,
  };
}
