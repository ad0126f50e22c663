import type { WaitingOn } from '../api/types.ts';
import { ago } from './time.ts';

interface Phrase {
  /** After "You". */
  readonly yours: string;
  /** After a name and a comma. */
  readonly theirs: string;
}

const PHRASES: Record<string, Phrase> = {
  'first-mix': { yours: 'make the first mix', theirs: 'for the first mix' },
  'next-mix': { yours: 'make the next mix', theirs: 'for the next mix' },
  'send': { yours: 'send the mix', theirs: 'to send the mix' },
  'listen': { yours: 'listen to %', theirs: 'to hear %' },
  'hear': { yours: 'hear what was done', theirs: 'to hear what was done' },
  'answer': { yours: 'answer a question', theirs: 'to answer a question' },
  'settle': { yours: 'settle two notes against each other', theirs: 'to settle two notes' },
  'send-notes': { yours: 'send the notes', theirs: 'to send the notes' },
  'approve': { yours: 'approve %', theirs: 'to approve %' },
  'files': { yours: 'send the files', theirs: 'for files' },
  'stop': { yours: 'have said stop', theirs: 'who said stop' },
};

/** What a song waits for, said to the one who reads it: a known reason in words, any other as sent. */
export function waitingWords(waiting: WaitingOn, mix: string | null, mine: boolean): string {
  const phrase = PHRASES[waiting.reason];
  if (!phrase) return waiting.reason;
  return (mine ? phrase.yours : phrase.theirs).replace('%', mix ?? 'the mix');
}

export function waitingSince(waiting: WaitingOn): string {
  return waiting.since ? ago(waiting.since) : '';
}

/** The name of whom the song waits for, where the server has said it. */
export function waitingName(waiting: WaitingOn): string {
  return waiting.name ?? '';
}
