import type { Id, WaitingOn } from '../api/types.ts';
import { listed } from './numbers.ts';
import { past } from './time.ts';

interface Phrase {
  /** After "You". */
  readonly yours: string;
  /** After a name and a comma. */
  readonly theirs: string;
}

const PHRASES: Record<string, Phrase> = {
  'stop': { yours: 'said stop: lift it when you can', theirs: 'who said stop' },
  'first-mix': { yours: 'send the first mix', theirs: 'for the first mix' },
  'settle': { yours: 'settle notes against each other', theirs: 'to settle notes against each other' },
  'answer': { yours: 'answer a question', theirs: 'to answer a question' },
  'send-notes': { yours: 'send your notes', theirs: 'to send the notes' },
  'send': { yours: 'send what is ready', theirs: 'to send what is ready' },
  'work': { yours: 'make the next mix', theirs: 'for the next mix' },
  'approve': { yours: 'approve %', theirs: 'to approve %' },
  'hear': { yours: 'hear what was done', theirs: 'to hear what was done' },
  'not-yet': { yours: 'take up a “not yet”', theirs: 'to take up a “not yet”' },
  'finish': { yours: 'say when it is finished', theirs: 'to say when it is finished' },
};

/** What a song waits for, said to the one who reads it: a known reason in our words, any other as sent. */
export function waitingWords(waiting: WaitingOn, mix: string | null, mine: boolean): string {
  const phrase = PHRASES[codeOf(waiting)];
  if (phrase) return (mine ? phrase.yours : phrase.theirs).replace('%', mix ?? 'the mix');
  return mine ? waiting.reason.replace(/^to /, '') : waiting.reason;
}

/** For how long already: "4 days"; nothing in the first minute. */
export function waitingSince(waiting: WaitingOn): string {
  return waiting.since ? (past(waiting.since) ?? '') : '';
}

/** The names of those whom the song waits for, where the server has said them. */
export function waitingName(waiting: WaitingOn): string {
  return waiting.names ? listed(waiting.names) : (waiting.name ?? '');
}

/** Whether it is this person's turn. */
export function waitsFor(waiting: WaitingOn | null | undefined, person: Id | null | undefined): boolean {
  if (!waiting || !person) return false;
  return waiting.persons ? waiting.persons.includes(person) : waiting.person === person;
}

export function codeOf(waiting: WaitingOn): string {
  return waiting.code ?? waiting.reason;
}
