/**
 * Notes that were sent but have not arrived yet. They are kept on this device under the person who
 * wrote them, and go out by themselves when the line is back: once each, for the mix they were
 * written on, whatever has come since.
 */
import { api, asProblem, newKey } from '../api/client.ts';
import { Problem } from '../api/problem.ts';
import type { Id, Note, NoteSent } from '../api/types.ts';
import type { Scope } from '../scope.ts';
import { me, refreshMe } from './me.ts';
import { Store } from './store.ts';

/** What is sent: the body of the call. */
export interface NoteBody {
  readonly text: string;
  readonly bounce: Id;
  readonly from?: number;
  readonly to?: number;
  readonly behalfOf?: Id;
  readonly engineerOnly?: true;
  readonly reading?: unknown;
}

export interface Unsent {
  /** The Idempotency-Key; one for each note. */
  readonly key: string;
  readonly person: Id;
  readonly song: Id;
  /** What the mix is called that it was written on. */
  readonly mix: string;
  readonly body: NoteBody;
  /** When it was sent, milliseconds. */
  readonly at: number;
  /** Attempts of which it is not known whether they arrived. */
  readonly tries: number;
  /** Words of an earlier version that may have arrived. */
  readonly was: string | null;
  /** Why it was refused for good; it goes nowhere before somebody has looked at it. */
  readonly problem: string | null;
}

const KEPT = 'mixaccord.unsent.';
const FIRST_PAUSE_MS = 4000;
/** After so many refusals because the first attempt were still at work, it is not. */
const STUCK_TRIES = 5;
const LONGEST_PAUSE_MS = 60_000;
/** The server knows a key for longer than this: until then a repeat is never a second note. */
const SAFE_MS = 13 * 24 * 3_600_000;

/** Those of the person who is signed in, oldest first. */
export const unsent = new Store<readonly Unsent[]>([]);

let wait: (ms: number) => void = () => {};
let pauseMs = FIRST_PAUSE_MS;
/** Where the browser keeps nothing, a note lives as long as the page. */
const held = new Map<string, Unsent>();
const sending = new Map<string, Promise<NoteSent | 'waiting' | Problem>>();

/** Sends what is left over from before, and from then on whatever fails, until the scope ends. */
export function startOutbox(scope: Scope): void {
  let stop = () => {};
  wait = (ms) => {
    stop();
    stop = scope.after(ms, () => void sendAll());
  };
  const now = () => {
    look();
    pauseMs = FIRST_PAUSE_MS;
    wait(0);
  };
  let person = me.value?.id;
  scope.onClose(me.watch((who) => {
    if (who?.id === person) return;
    person = who?.id;
    now();
  }));
  scope.listen(window, 'online', now);
  scope.listen<StorageEvent>(window, 'storage', (e) => e.key?.startsWith(KEPT) && look());
  now();
}

/** A note ready to go. */
export function toSend(person: Id, song: Id, mix: string, body: NoteBody, was: string | null): Unsent {
  return { key: newKey(), person, song, mix, body, at: Date.now(), tries: 0, was, problem: null };
}

/**
 * Keeps a note and sends it: what the server made of it, `waiting` where it goes later, or why it
 * was refused for good, in which case it is kept no longer.
 */
export async function send(note: Unsent): Promise<NoteSent | 'waiting' | Problem> {
  keep(note);
  const outcome = await deliver(note);
  if (outcome instanceof Problem) forget(note);
  if (outcome === 'waiting') wait(pauseMs);
  return outcome;
}

/** Takes a note out: to be written anew, or not to be sent at all. */
export function takeOut(note: Unsent): void {
  forget(note);
}

/** Sends a note that was held back, after somebody has looked at it. */
export function sendAgain(note: Unsent): void {
  forget(note);
  keep({ ...note, key: newKey(), at: Date.now(), tries: 0, was: note.tries > 0 ? note.body.text : null, problem: null });
  wait(0);
}

async function sendAll(): Promise<void> {
  if (kept().every((note) => note.problem !== null)) return;
  try {
    // Somebody else may have signed in on this device since.
    await refreshMe();
  } catch {
    return later();
  }
  for (const note of kept()) {
    if (note.problem !== null) continue;
    if (Date.now() - note.at > SAFE_MS) {
      keep({ ...note, problem: 'This note has waited for two weeks. Send it if it is still meant.' });
      continue;
    }
    const outcome = await deliver(note);
    if (outcome === 'waiting') return later();
    if (outcome instanceof Problem && isKept(note)) keep({ ...note, was: null, problem: outcome.words });
  }
  pauseMs = FIRST_PAUSE_MS;
}

function later(): void {
  wait(pauseMs);
  pauseMs = Math.min(LONGEST_PAUSE_MS, 2 * pauseMs);
}

function deliver(note: Unsent): Promise<NoteSent | 'waiting' | Problem> {
  let going = sending.get(note.key);
  if (!going) {
    going = attempt(note).finally(() => sending.delete(note.key));
    sending.set(note.key, going);
  }
  return going;
}

async function attempt(note: Unsent): Promise<NoteSent | 'waiting' | Problem> {
  if (me.value?.id !== note.person || navigator.onLine === false) return 'waiting';
  try {
    if (note.was !== null) {
      if (await hasArrived(note, note.was)) {
        return new Problem(409, 'arrived', '', 'The first version of this note had arrived after all. Send this one too if it should stand beside it.');
      }
    }
    // A server that went down just after it took the note knows its key no more; its list does.
    if (note.tries > 0 && await hasArrived(note, note.body.text)) {
      forget(note);
      return 'waiting';
    }
    // Taken out while the list was asked for.
    if (!isKept(note)) return 'waiting';
    keep({ ...note, was: null, tries: note.tries + 1 });
    const sent = await api.post<NoteSent>(`/songs/${note.song}/notes`, note.body, { key: note.key });
    forget(note);
    return sent;
  } catch (reason) {
    const problem = asProblem(reason);
    if (problem.status === 409 && problem.retryAfterSeconds !== null && note.tries >= STUCK_TRIES && isKept(note)) {
      forget(note);
      keep({ ...note, key: newKey(), tries: 1 });
    }
    return mayPass(problem) ? 'waiting' : problem;
  }
}

/** Whether trying again can help: no line, a busy server, a session that has ended. */
function mayPass(problem: Problem): boolean {
  return problem.code === 'unreachable' || problem.code === 'not-signed-in' || problem.retryAfterSeconds !== null
    || problem.status >= 500 || [408, 425, 429].includes(problem.status);
}

async function hasArrived(note: Unsent, text: string): Promise<boolean> {
  const there = await api.all<Note>(`/songs/${note.song}/notes?bounce=${note.body.bounce}`);
  const isThere = (from: number | null) => Math.abs((from ?? -1) - (note.body.from ?? -1)) < 0.01;
  return there.some((n) => n.text === text && n.bounce === note.body.bounce && isThere(n.from) && (n.author === note.person || n.writtenBy === note.person));
}

function keep(note: Unsent): void {
  try {
    localStorage.setItem(keyOf(note), JSON.stringify(note));
  } catch {
    held.set(note.key, note);
  }
  look();
}

function isKept(note: Unsent): boolean {
  return kept().some((other) => other.key === note.key);
}

function forget(note: Unsent): void {
  held.delete(note.key);
  try {
    localStorage.removeItem(keyOf(note));
  } catch {
    // Nothing was kept.
  }
  look();
}

function look(): void {
  unsent.set(kept());
}

function kept(): Unsent[] {
  const person = me.value?.id;
  if (!person) return [];
  const found = new Map([...held].filter(([, note]) => note.person === person));
  try {
    for (let i = 0; i < localStorage.length; i++) {
      const name = localStorage.key(i)!;
      if (!name.startsWith(`${KEPT}${person}.`)) continue;
      const note = read(localStorage.getItem(name));
      if (note) found.set(note.key, note);
    }
  } catch {
    // Only what is held.
  }
  return [...found.values()].sort((a, b) => a.at - b.at);
}

function read(text: string | null): Unsent | null {
  try {
    const note = JSON.parse(text ?? '') as Unsent;
    return typeof note.key === 'string' && typeof note.body?.text === 'string' ? note : null;
  } catch {
    return null;
  }
}

function keyOf(note: Unsent): string {
  return `${KEPT}${note.person}.${note.key}`;
}
