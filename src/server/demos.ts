/** The demo jobs as files: their exact text, the railcar first because it is the one that opens. */
import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { basename } from 'node:path';
import { fileURLToPath } from 'node:url';
import { documentName } from './document.ts';

export interface Demo {
  readonly name: string;
  readonly title: string;
  readonly text: string;
}

const opensFirst = 'railcar';

export function readDemos(folder: URL = new URL('../job/demos/', import.meta.url)): Demo[] {
  if (!existsSync(fileURLToPath(folder))) return [];
  return readdirSync(folder)
    .filter((file) => file.endsWith('.json'))
    .map((file) => basename(file, '.json'))
    .sort((a, b) => Number(b === opensFirst) - Number(a === opensFirst) || a.localeCompare(b, 'en'))
    .map((name) => {
      const text = readFileSync(new URL(`${name}.json`, folder), 'utf8');
      return { name, title: documentName(text) ?? name, text };
    });
}
