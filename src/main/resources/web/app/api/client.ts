import { pause } from '../scope.ts';
import { asProblem, Problem, problemOf, unreachable } from './problem.ts';

const BASE = '/api/v1';

export interface Call {
  body?: unknown;
  /** Bytes sent as they are, in place of a body. */
  file?: Blob;
  /** Sent as If-Match: the write is refused when somebody changed the thing meanwhile. */
  etag?: string;
  /** The same key twice does the work once; see {@link newKey}. */
  key?: string;
  signal?: AbortSignal;
}

/** A fresh Idempotency-Key. Make one per press, keep it when the same press is tried again. */
export function newKey(): string {
  const bytes = crypto.getRandomValues(new Uint8Array(16));
  return Array.from(bytes, (byte) => byte.toString(16).padStart(2, '0')).join('');
}

let signedOut: () => void = () => {};

/** Called when an answer says that nobody is signed in. */
export function whenSignedOut(run: () => void): void {
  signedOut = run;
}

async function call(method: string, path: string, options: Call = {}): Promise<Response> {
  const headers: Record<string, string> = { Accept: 'application/json, application/problem+json' };
  if (options.file) headers['Content-Type'] = 'application/octet-stream';
  if (options.body !== undefined) headers['Content-Type'] = 'application/json';
  if (options.etag) headers['If-Match'] = options.etag;
  if (options.key) headers['Idempotency-Key'] = options.key;
  let answer: Response;
  try {
    answer = await fetch(path.startsWith('/') ? BASE + path : path, {
      method,
      headers,
      body: options.file ?? (options.body === undefined ? undefined : JSON.stringify(options.body)),
      signal: options.signal,
      credentials: 'same-origin',
    });
  } catch (reason) {
    if (options.signal?.aborted) throw reason;
    throw unreachable();
  }
  if (answer.ok) return answer;
  const problem = await problemOf(answer);
  if (problem.code === 'not-signed-in') signedOut();
  throw problem;
}

async function bodyOf<T>(answer: Response): Promise<T> {
  const text = await answer.text();
  return (text === '' ? undefined : JSON.parse(text)) as T;
}

/** One answer, with its ETag for a later write. */
export interface Tagged<T> {
  value: T;
  etag: string;
}

export const api = {
  async get<T>(path: string, signal?: AbortSignal): Promise<T> {
    return bodyOf<T>(await call('GET', path, { signal }));
  },

  async text(path: string, signal?: AbortSignal): Promise<string> {
    return (await call('GET', path, { signal })).text();
  },

  async getTagged<T>(path: string, signal?: AbortSignal): Promise<Tagged<T>> {
    const answer = await call('GET', path, { signal });
    return { value: await bodyOf<T>(answer), etag: answer.headers.get('ETag') ?? '' };
  },

  /** The whole list, page after page. */
  async all<T>(path: string, signal?: AbortSignal): Promise<T[]> {
    const rows: T[] = [];
    let next: string | null = path;
    while (next !== null) {
      const answer = await call('GET', next, { signal });
      rows.push(...(await bodyOf<T[]>(answer)));
      next = nextOf(answer.headers.get('Link'));
    }
    return rows;
  },

  async post<T = void>(path: string, body?: unknown, options: Omit<Call, 'body'> = {}): Promise<T> {
    return bodyOf<T>(await call('POST', path, { key: newKey(), ...options, body: body ?? {} }));
  },

  async put<T = void>(path: string, body: unknown, options: Omit<Call, 'body'> = {}): Promise<T> {
    return bodyOf<T>(await call('PUT', path, { ...options, body }));
  },

  async putFile<T>(path: string, file: Blob): Promise<T> {
    return bodyOf<T>(await call('PUT', path, { file }));
  },

  async postFile<T>(path: string, file: Blob, key: string): Promise<T> {
    return bodyOf<T>(await call('POST', path, { file, key }));
  },

  async patch<T = void>(path: string, body: unknown, options: Omit<Call, 'body'> = {}): Promise<T> {
    return bodyOf<T>(await call('PATCH', path, { ...options, body }));
  },

  async del(path: string, options: Omit<Call, 'body'> = {}): Promise<void> {
    await call('DELETE', path, options);
  },

  /**
   * Asks until the answer is there: a 202 says it is still being worked out and how far.
   * Ends with null when the signal is aborted.
   */
  async whenReady<T>(
    path: string,
    signal: AbortSignal,
    onProgress: (progress: number | null) => void = () => {},
  ): Promise<T | null> {
    while (!signal.aborted) {
      const answer = await call('GET', path, { signal });
      if (answer.status !== 202) return bodyOf<T>(answer);
      const waiting = await bodyOf<{ progress?: number } | undefined>(answer);
      onProgress(waiting?.progress ?? null);
      const seconds = Math.max(0.25, Number(answer.headers.get('Retry-After')) || 1);
      await pause(seconds * 1000, signal);
    }
    return null;
  },
};

function nextOf(link: string | null): string | null {
  const found = /<([^>]+)>\s*;\s*rel="?next"?/.exec(link ?? '');
  if (!found?.[1]) return null;
  // The link may be absolute; only its path counts, so that cookies stay on this origin.
  const target = new URL(found[1], location.href);
  const path = target.pathname + target.search;
  return path.startsWith(BASE) ? path.slice(BASE.length) : path;
}

/** True when the failure only means that the page has been left. */
export function isAbort(reason: unknown): boolean {
  return reason instanceof DOMException && reason.name === 'AbortError';
}

export { Problem, asProblem };
