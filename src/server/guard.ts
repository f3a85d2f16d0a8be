/**
 * Who may ask. The server listens on loopback only, but every page in the same browser can send requests there, and a
 * foreign name can be made to point there; so each request is checked:
 *
 * - Host is exactly ours, before anything else is looked at (DNS rebinding).
 * - Sec-Fetch-Site and Origin, where the browser sends them, say same-origin. Pages of other servers on this machine
 *   are "same-site" (a port does not make another site), so same-site is refused too.
 * - What changes something is no GET, has a JSON body type (never sent across origins without a preflight, which we
 *   never allow), and carries the token of this start of the server.
 *
 * The token is fetched with a same-origin GET, not put into index.html: the page is a plain file that may be cached for
 * offline use, and after a restart an open page can ask for the new token without losing what is on the screen. Another origin
 * can neither send that GET past Sec-Fetch-Site nor read its answer. Other people logged in on the same machine can reach
 * loopback too; the token does not keep them out, and nothing here claims so.
 */
import { randomBytes, timingSafeEqual } from 'node:crypto';
import type { IncomingMessage } from 'node:http';
import type { MiddlewareHandler } from 'hono';
import { TOKEN_HEADER } from '../job/exchange.ts';
import { Refused } from './refusal.ts';

const contentPolicy = [
  "default-src 'none'",
  "script-src 'self'",
  "style-src 'self'",
  "img-src 'self'",
  "font-src 'self'",
  "connect-src 'self'",
  "worker-src 'self'",
  "manifest-src 'self'",
  "frame-ancestors 'none'",
  "base-uri 'none'",
  "form-action 'none'",
].join('; ');

/** Headers of every answer, refusals included. */
export const securityHeaders: Readonly<Record<string, string>> = {
  'Content-Security-Policy': contentPolicy,
  'X-Content-Type-Options': 'nosniff',
  'Referrer-Policy': 'no-referrer',
  'Cross-Origin-Opener-Policy': 'same-origin',
  'Cross-Origin-Resource-Policy': 'same-origin',
};

/** Whether the request names this server and nothing else, read from the headers as they came over the wire. */
export function isForUs(request: IncomingMessage, port: number): boolean {
  const hosts = request.rawHeaders.filter(
    (_, index, all) => index % 2 === 1 && all[index - 1]?.toLowerCase() === 'host',
  );
  const [host] = hosts;
  // A target that is not a path ("GET http://elsewhere/") would name a host of its own.
  return (
    hosts.length === 1 && host !== undefined && ourHosts(port).includes(host) && request.url?.startsWith('/') === true
  );
}

function ourHosts(port: number): string[] {
  const names = ['127.0.0.1', 'localhost', '[::1]'];
  return port === 80 ? names.flatMap((name) => [name, `${name}:80`]) : names.map((name) => `${name}:${port}`);
}

export function notForUs(): Refused {
  return new Refused(
    'host',
    'This request was meant for another address.',
    'Nothing was changed.',
    'Open the address that Stopwright printed when it started.',
  );
}

export function makeToken(): string {
  return randomBytes(32).toString('base64url');
}

/** Refuses what did not come from our own page, on every method. */
export const sameOriginOnly: MiddlewareHandler = async (context, next) => {
  const site = context.req.header('sec-fetch-site');
  const origin = context.req.header('origin');
  const isOurSite = site === undefined || site === 'same-origin' || site === 'none';
  const isOurOrigin = origin === undefined || origin === `http://${context.req.header('host')}`;
  if (!isOurSite || !isOurOrigin) {
    throw new Refused(
      'origin',
      'This request came from another page than Stopwright’s own.',
      'Nothing was changed.',
      'Open the address that Stopwright printed when it started.',
    );
  }
  await next();
};

/** Refuses every change without the token of this start and a JSON body type. GET and HEAD change nothing and pass. */
export function changesNeedToken(token: string): MiddlewareHandler {
  return async (context, next) => {
    if (context.req.method !== 'GET' && context.req.method !== 'HEAD') {
      if (!isEqual(context.req.header(TOKEN_HEADER) ?? '', token)) {
        throw new Refused(
          'token',
          'Stopwright was started again since this page was opened, so this was NOT kept.',
          'What is on the screen is still there.',
          'Try again; if it happens again, reload the page.',
        );
      }
      const type = context.req.header('content-type') ?? '';
      if (!/^application\/json(; ?charset=utf-8)?$/i.test(type)) {
        throw new Refused(
          'content-type',
          'Only JSON is taken in here.',
          'Nothing was changed.',
          'Check that this is a job file.',
        );
      }
    }
    await next();
  };
}

function isEqual(given: string, wanted: string): boolean {
  const [a, b] = [Buffer.from(given), Buffer.from(wanted)];
  return a.length === b.length && timingSafeEqual(a, b);
}
