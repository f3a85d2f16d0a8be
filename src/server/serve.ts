/**
 * Starts the server: opens the store, puts the demo jobs there the first time, listens on loopback. Everything that
 * reaches the network is bounded in time: a request that trickles in is cut off.
 */
import { randomUUID } from 'node:crypto';
import { readFileSync, rmSync, writeFileSync } from 'node:fs';
import { createServer, type IncomingMessage, type Server, type ServerResponse } from 'node:http';
import type { AddressInfo } from 'node:net';
import { join } from 'node:path';
import { getRequestListener } from '@hono/node-server';
import { makeApp } from './app.ts';
import type { Demo } from './demos.ts';
import type { ReadJob } from './document.ts';
import { readAppFiles } from './files.ts';
import { isForUs, makeToken, notForUs, securityHeaders } from './guard.ts';
import { notFound, Refused } from './refusal.ts';
import { placeDemos } from './store/jobs.ts';
import { openStore } from './store/open.ts';

export interface ServerOptions {
  /** The folder of the store. */
  readonly folder: string;
  /** The folder of the built web app. */
  readonly webFolder: string;
  /** 0 for any free one. When it is taken, the next free one is used. */
  readonly port: number;
  readonly demos: readonly Demo[];
  readonly readJob: ReadJob;
  readonly report: (error: unknown) => void;
  /** How long a client may take, milliseconds; the defaults are for people, tests use less. */
  readonly patience?: { readonly headers: number; readonly request: number };
}

export interface RunningServer {
  readonly port: number;
  readonly address: string;
  close(): Promise<void>;
}

/** How many ports after a taken one are tried. */
const portsTried = 20;

/** @throws Refused the store cannot be opened, or no port is free */
export async function startServer(options: ServerOptions): Promise<RunningServer> {
  const store = await openStore(options.folder).catch((error: unknown) => {
    throw withAddress(error, options.folder);
  });
  try {
    await placeDemos(store, options.demos);
    const app = makeApp({
      ...options,
      store,
      files: readAppFiles(options.webFolder),
      token: makeToken(),
      start: randomUUID(),
    });
    const answer = getRequestListener(app.fetch, {
      overrideGlobalObjects: false,
      // A target that is no address at all never reaches the app.
      errorHandler: () => asResponse(notFound('There is nothing at this address.')),
    });
    const { servers, port } = await listen(options, (request, response, ourPort) => {
      for (const [name, value] of Object.entries(securityHeaders)) response.setHeader(name, value);
      if (!isForUs(request, ourPort)) return refuseAddress(response);
      if (/^100-continue$/i.test(request.headers.expect ?? '')) response.writeContinue();
      void answer(request, response);
    });
    const address = `http://127.0.0.1:${port}/`;
    noteAddress(options.folder, address);
    return {
      port,
      address,
      async close() {
        await Promise.all(servers.map(stop));
        rmSync(notePath(options.folder), { force: true });
        await store.close();
      },
    };
  } catch (error) {
    await store.close();
    throw error;
  }
}

type Answer = (request: IncomingMessage, response: ServerResponse, port: number) => void;

/** Listens on 127.0.0.1 and, where there is IPv6, on ::1 with the same port, because "localhost" may mean either. */
async function listen(options: ServerOptions, answer: Answer): Promise<{ servers: Server[]; port: number }> {
  for (let tried = 0; tried <= portsTried; tried += 1) {
    const first = await listenOn('127.0.0.1', options.port === 0 ? 0 : options.port + tried, options, answer);
    if (typeof first === 'string') continue;
    const { port } = first.address() as AddressInfo;
    const second = await listenOn('::1', port, options, answer);
    if (second === 'taken') {
      await stop(first);
      continue;
    }
    return { servers: second === 'no such address' ? [first] : [first, second], port };
  }
  throw new Refused(
    'unexpected',
    `The ports ${options.port} to ${options.port + portsTried} are all taken.`,
    'Nothing was changed.',
    'Start Stopwright with --port 0 to use any free one.',
  );
}

function listenOn(
  host: string,
  port: number,
  options: ServerOptions,
  answer: Answer,
): Promise<Server | 'taken' | 'no such address'> {
  const { headers, request } = options.patience ?? { headers: 10_000, request: 60_000 };
  const server = createServer({
    headersTimeout: headers,
    requestTimeout: request,
    connectionsCheckingInterval: Math.min(headers, 1_000),
    keepAliveTimeout: 5_000,
    requireHostHeader: false, // a missing Host is refused like a wrong one, by isForUs
  });
  const handle = (incoming: IncomingMessage, response: ServerResponse) => {
    answer(incoming, response, (server.address() as AddressInfo).port);
  };
  server.on('request', handle);
  server.on('checkExpectation', handle);
  server.on('checkContinue', handle); // never "go on and send it" before the request has been looked at
  server.maxConnections = 200;
  return new Promise((resolve, reject) => {
    server.once('error', (error: NodeJS.ErrnoException) => {
      if (error.code === 'EADDRINUSE' || error.code === 'EACCES') resolve('taken');
      else if (error.code === 'EADDRNOTAVAIL' || error.code === 'EAFNOSUPPORT') resolve('no such address');
      else reject(error);
    });
    server.listen({ host, port, ipv6Only: true }, () => resolve(server));
  });
}

function asResponse({ refusal, status }: Refused): Response {
  return Response.json(refusal, { status });
}

function refuseAddress(response: ServerResponse): void {
  const { status, refusal } = notForUs();
  response.writeHead(status, { 'Content-Type': 'application/json', Connection: 'close' });
  response.end(JSON.stringify(refusal));
}

function stop(server: Server): Promise<void> {
  return new Promise((resolve) => {
    server.close(() => resolve());
    server.closeAllConnections();
  });
}

/**
 * A note of the address beside the store, only so that a second start on the same folder can say where the first one is. It
 * locks nothing: left behind by a kill, it is never looked at, because then the store opens.
 */
function notePath(folder: string): string {
  return join(folder, 'address.txt');
}

function noteAddress(folder: string, address: string): void {
  try {
    writeFileSync(notePath(folder), address);
  } catch {
    // Without the note the sentence about a second start has no address in it; nothing else depends on it.
  }
}

function withAddress(error: unknown, folder: string): unknown {
  if (!(error instanceof Refused) || error.refusal.reason !== 'store-locked') return error;
  try {
    const address = readFileSync(notePath(folder), 'utf8');
    const { reason, what, safe } = error.refusal;
    return new Refused(reason, what, safe, `Open ${address} instead, or start this one with another --data folder.`);
  } catch {
    return error;
  }
}
