/** The open protocol tus 1.0.0, as far as the page needs it: begin, ask how far, send a piece, end. */
import { Problem, problemOf, unreachable } from '../api/problem.ts';
import type { Id } from '../api/types.ts';
import type { Scope } from '../scope.ts';

const UPLOADS = '/api/v1/uploads';
const VERSION = { 'Tus-Resumable': '1.0.0' };
/** Nothing has moved for so long: the line is dead, whatever the browser believes. */
const DEAD_AFTER_MS = 30_000;
/** Every byte is out; the server may still be putting a large file away. */
const ANSWER_WITHIN_MS = 300_000;

/** How far a file has arrived, and what has become of it once it is whole. */
export interface Place {
  readonly offset: number;
  readonly bounce: Id | null;
  readonly stem: Id | null;
}

/** Announces a file; answers with the address its bytes go to. */
export async function begin(bytes: number, values: Readonly<Record<string, string>>, signal: AbortSignal): Promise<string> {
  const metadata = Object.entries(values).map(([key, value]) => `${key} ${base64(value)}`).join(',');
  const answer = await ask('POST', UPLOADS, { 'Upload-Length': String(bytes), 'Upload-Metadata': metadata }, signal);
  return new URL(answer.headers.get('Location') ?? '', new URL(UPLOADS, location.href)).pathname;
}

export async function whereIs(address: string, signal: AbortSignal): Promise<Place> {
  const answer = await ask('HEAD', address, {}, signal);
  return placeOf((name) => answer.headers.get(name));
}

/** Tells the server to forget a file that is not wanted any more. */
export async function end(address: string, signal: AbortSignal): Promise<void> {
  await ask('DELETE', address, {}, signal);
}

/** What the server compares a piece with; none where the page was loaded over a line that browsers don't call safe. */
async function checksumOf(piece: ArrayBuffer): Promise<string | null> {
  if (!globalThis.isSecureContext) return null;
  const digest = new Uint8Array(await crypto.subtle.digest('SHA-256', piece));
  return `sha256 ${btoa(String.fromCharCode(...digest))}`;
}

/** Sends one piece from its place on; `sent` is told how many of its bytes are out. */
export async function sendPiece(address: string, offset: number, piece: ArrayBuffer, scope: Scope, sent: (bytes: number) => void): Promise<Place> {
  const checksum = await checksumOf(piece);
  const life = scope.child();
  const request = new XMLHttpRequest();
  return new Promise<Place>((resolve, reject) => {
    let moved = performance.now();
    let patience = DEAD_AFTER_MS;
    request.open('PATCH', address);
    for (const [name, value] of Object.entries(VERSION)) request.setRequestHeader(name, value);
    request.setRequestHeader('Upload-Offset', String(offset));
    if (checksum !== null) request.setRequestHeader('Upload-Checksum', checksum);
    request.setRequestHeader('Content-Type', 'application/offset+octet-stream');
    request.setRequestHeader('Accept', 'application/problem+json');
    life.listen<ProgressEvent>(request.upload, 'progress', (event) => {
      moved = performance.now();
      sent(event.loaded);
    });
    life.listen(request.upload, 'load', () => {
      moved = performance.now();
      patience = ANSWER_WITHIN_MS;
    });
    life.listen(request, 'load', () => {
      if (request.status >= 200 && request.status < 300) resolve(placeOf((name) => request.getResponseHeader(name)));
      else void problemOf(answerOf(request)).then(reject);
    });
    life.listen(request, 'error', () => reject(unreachable()));
    life.listen(request, 'abort', () => reject(unreachable()));
    life.every(1000, () => {
      if (performance.now() - moved > patience) request.abort();
    });
    scope.onClose(() => request.abort());
    request.send(piece);
  }).finally(() => life.close());
}

async function ask(method: string, path: string, headers: Readonly<Record<string, string>>, signal: AbortSignal): Promise<Response> {
  let answer: Response;
  try {
    answer = await fetch(path, {
      method, headers: { ...VERSION, Accept: 'application/problem+json', ...headers }, signal, credentials: 'same-origin', cache: 'no-store',
    });
  } catch (reason) {
    if (signal.aborted) throw reason;
    throw unreachable();
  }
  if (answer.ok) return answer;
  throw await problemOf(answer);
}

function answerOf(request: XMLHttpRequest): Response {
  const headers = new Headers();
  for (const name of ['Content-Type', 'Retry-After']) {
    const value = request.getResponseHeader(name);
    if (value !== null) headers.set(name, value);
  }
  return new Response(request.responseText, { status: request.status, headers });
}

function placeOf(header: (name: string) => string | null): Place {
  const offset = header('Upload-Offset');
  if (offset === null || !/^\d+$/.test(offset)) {
    throw new Problem(0, 'no-offset', 'Something between here and the server changes its answers.',
      'Something between here and the server changes its answers, so the file can’t be followed. Try another network.');
  }
  return { offset: Number(offset), bounce: header('Mixaccord-Bounce'), stem: header('Mixaccord-Stem') };
}

function base64(text: string): string {
  return btoa(Array.from(new TextEncoder().encode(text), (byte) => String.fromCharCode(byte)).join(''));
}
