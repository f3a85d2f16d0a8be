/** Starts a real server on a folder of its own for one test, and asks it the way the app does. */
import { mkdtempSync, rmSync } from 'node:fs';
import { connect } from 'node:net';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { TestContext } from 'node:test';
import {
  type CreateRequest,
  type JobAnswer,
  type JobsAnswer,
  type Refusal,
  type RevisionsAnswer,
  type SavedAnswer,
  type SaveRequest,
  TOKEN_HEADER,
  type TokenAnswer,
} from '../../src/job/exchange.ts';
import type { ReadJob } from '../../src/server/document.ts';
import { type RunningServer, type ServerOptions, startServer } from '../../src/server/serve.ts';

/** Takes any JSON object, so that these tests do not depend on what a job document must hold. */
export const readAnyObject: ReadJob = (text) => {
  try {
    const value: unknown = JSON.parse(text.replace(/^\uFEFF/, ''));
    if (typeof value === 'object' && value !== null && !Array.isArray(value)) return { ok: true };
  } catch {
    // said below
  }
  return {
    ok: false,
    problems: [
      { path: '', read: text.slice(0, 20), problem: 'a JSON object would be right' },
      { path: 'second', read: 'nothing', problem: 'a second problem' },
    ],
  };
};

export function temporaryFolder(t: TestContext): string {
  const folder = mkdtempSync(join(tmpdir(), 'stopwright-'));
  t.after(() => rmSync(folder, { recursive: true, force: true }));
  return folder;
}

export interface Answer<Body> {
  readonly status: number;
  readonly headers: Headers;
  readonly body: Body;
  readonly text: string;
}

export interface Client {
  readonly port: number;
  readonly token: string;
  readonly ask: <Body = Refusal>(
    method: string,
    path: string,
    body?: unknown,
    headers?: Readonly<Record<string, string>>,
  ) => Promise<Answer<Body>>;
  readonly list: () => Promise<JobsAnswer['jobs']>;
  readonly open: (job: string) => Promise<JobAnswer>;
  readonly create: (request: CreateRequest) => Promise<JobAnswer>;
  readonly save: (job: string, request: SaveRequest) => Promise<SavedAnswer>;
  readonly history: (job: string) => Promise<RevisionsAnswer['revisions']>;
}

export async function clientOf(port: number): Promise<Client> {
  const base = `http://127.0.0.1:${port}`;
  const { token } = (await (await fetch(`${base}/api/token`)).json()) as TokenAnswer;
  const client: Client = {
    port,
    token,
    ask: async <Body>(method: string, path: string, body?: unknown, headers: Readonly<Record<string, string>> = {}) => {
      const isRead = method === 'GET' || method === 'HEAD';
      const own = isRead ? {} : { [TOKEN_HEADER]: token, 'Content-Type': 'application/json' };
      const content = typeof body === 'string' || body instanceof Uint8Array ? body : JSON.stringify(body);
      const response = await fetch(base + path, {
        method,
        headers: { ...own, ...headers },
        ...(body !== undefined && { body: content as string }),
      });
      const text = new TextDecoder('utf-8', { ignoreBOM: true }).decode(await response.arrayBuffer());
      const isJson = response.headers.get('content-type')?.startsWith('application/json') === true && text !== '';
      let parsed: unknown;
      try {
        parsed = isJson ? JSON.parse(text) : undefined;
      } catch {
        parsed = undefined;
      }
      return { status: response.status, headers: response.headers, body: parsed, text } as Answer<Body>;
    },
    list: async () => (await expecting<JobsAnswer>(200, client.ask('GET', '/api/jobs'))).jobs,
    open: (job) => expecting(200, client.ask('GET', `/api/jobs/${job}`)),
    create: (request) => expecting(201, client.ask('POST', '/api/jobs', request)),
    save: (job, request) => expecting(201, client.ask('POST', `/api/jobs/${job}/revisions`, request)),
    history: async (job) =>
      (await expecting<RevisionsAnswer>(200, client.ask('GET', `/api/jobs/${job}/revisions`))).revisions,
  };
  return client;
}

async function expecting<Body>(status: number, asked: Promise<Answer<Body>>): Promise<Body> {
  const answer = await asked;
  if (answer.status !== status) throw new Error(`expected ${status}, got ${answer.status}: ${answer.text}`);
  return answer.body;
}

export async function runningServer(
  t: TestContext,
  options: Partial<ServerOptions> = {},
): Promise<Client & { readonly folder: string; readonly server: RunningServer; readonly reported: unknown[] }> {
  const folder = options.folder ?? temporaryFolder(t);
  const reported: unknown[] = [];
  const server = await startServer({
    folder,
    webFolder: join(folder, 'no-app-here'),
    port: 0,
    demos: [],
    readJob: readAnyObject,
    report: (error) => reported.push(error),
    ...options,
  });
  t.after(() => server.close());
  return { ...(await clientOf(server.port)), folder, server, reported };
}

/** Sends bytes as they are and gives back what comes until the server closes or `patience` milliseconds pass. */
export function sendRaw(
  port: number,
  bytes: string | Uint8Array,
  patience = 5_000,
  host = '127.0.0.1',
): Promise<string> {
  return new Promise((resolve, reject) => {
    const socket = connect({ port, host });
    const parts: Buffer[] = [];
    const finish = () => {
      socket.destroy();
      resolve(Buffer.concat(parts).toString('latin1'));
    };
    socket.setTimeout(patience, finish);
    socket.on('data', (part) => parts.push(part));
    socket.on('close', finish);
    socket.on('error', (error: NodeJS.ErrnoException) => (error.code === 'ECONNRESET' ? finish() : reject(error)));
    socket.write(bytes);
  });
}

export function statusOf(raw: string): number {
  return Number(/^HTTP\/1\.1 (\d{3}) /.exec(raw)?.[1] ?? 0);
}
