/**
 * The built web app, read once at the start and served from memory: no request ever reaches the file system, so no
 * path can lead out of the folder, and a build that changes while the server runs is never mixed with the old one.
 */
import { createHash } from 'node:crypto';
import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { join, relative, sep } from 'node:path';
import type { Handler } from 'hono';
import { getMimeType } from 'hono/utils/mime';
import { notFound } from './refusal.ts';

export interface AppFiles {
  /** Hash over the names and contents of all files. */
  readonly build: string;
  readonly serve: Handler;
}

interface AppFile {
  readonly content: Uint8Array<ArrayBuffer>;
  readonly etag: string;
  readonly type: string;
  readonly caching: string;
}

const notBuilt = `<!doctype html><meta charset="utf-8"><title>Stopwright</title>
<h1>The app has not been built yet</h1><p>Your jobs are safe. Stop this, run <code>npm run build</code>, and start it again.</p>`;

export function readAppFiles(folder: string): AppFiles {
  const files = new Map<string, AppFile>();
  const whole = createHash('sha256');
  for (const path of pathsIn(folder)) {
    const content = new Uint8Array(readFileSync(path));
    const name = `/${relative(folder, path).split(sep).join('/')}`;
    const digest = createHash('sha256').update(content).digest('hex');
    whole.update(`${name}\n${digest}\n`);
    files.set(name, {
      content,
      etag: `"${digest.slice(0, 32)}"`,
      type: getMimeType(name) ?? 'application/octet-stream',
      // The build tool puts a hash of the content into the names of the files under assets.
      caching: name.startsWith('/assets/') ? 'public, max-age=31536000, immutable' : 'no-cache',
    });
  }
  return { build: whole.digest('hex').slice(0, 32), serve: serveFrom(files) };
}

function serveFrom(files: ReadonlyMap<string, AppFile>): Handler {
  return (context) => {
    const { path } = context.req;
    // Addresses inside the app, such as /job/…, have no extension; the app itself reads them.
    const file = files.get(path) ?? (path.includes('.') ? undefined : files.get('/index.html'));
    if (file === undefined) {
      if (files.size === 0) return context.html(notBuilt, 503);
      throw notFound('There is nothing at this address.', 'Open the address that Stopwright printed when it started.');
    }
    const headers = { ETag: file.etag, 'Cache-Control': file.caching };
    if (context.req.header('if-none-match') === file.etag) return context.body(null, 304, headers);
    return context.body(file.content, 200, { ...headers, 'Content-Type': file.type });
  };
}

function pathsIn(folder: string): string[] {
  if (!existsSync(folder)) return [];
  return readdirSync(folder, { recursive: true, withFileTypes: true })
    .filter((entry) => entry.isFile())
    .map((entry) => join(entry.parentPath, entry.name))
    .sort();
}
