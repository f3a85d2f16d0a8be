// First words of a worker thread: makes the sources readable as they are, then begins the study.
import { register } from 'tsx/esm/api';
import { fileURLToPath } from 'node:url';

register({ tsconfig: fileURLToPath(new URL('../../tsconfig.json', import.meta.url)) });
await import('./spread.ts');
