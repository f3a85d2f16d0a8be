/** `stopwright schema`: the published form of job documents. */
import { jobJsonSchema } from '../job/json-schema.ts';

export function schemaCommand(): number {
  process.stdout.write(`${JSON.stringify(jobJsonSchema(), null, 2)}\n`);
  return 0;
}
