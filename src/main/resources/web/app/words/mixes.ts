import type { Bounce } from '../api/types.ts';
import { day } from './time.ts';

/** Whether others than engineers and the uploader can hear it. */
export function isSent(bounce: Bounce): boolean {
  return bounce.sent;
}

/** "sent today at 14:10"; nothing while it is private. */
export function sentWords(bounce: Bounce): string {
  return bounce.sentAt === null ? '' : `sent ${day(bounce.sentAt)}`;
}

/** "Mix 2", "Pass 3" while private, "Rough 1", "Instrumental 2". */
export function mixWords(bounce: Bounce): string {
  if (bounce.label) return bounce.label;
  const kind = bounce.kind === 'main' ? (isSent(bounce) ? 'Mix' : 'Pass') : KIND_WORDS[bounce.kind];
  return `${kind} ${bounce.number}`;
}

export const KIND_WORDS: Record<Bounce['kind'], string> = {
  main: 'Main mix',
  instrumental: 'Instrumental',
  'a-cappella': 'A cappella',
  tv: 'TV mix',
  clean: 'Clean',
  'vocal-up': 'Vocal up',
  'vocal-down': 'Vocal down',
  'loud-copy': 'Loud copy',
  rough: 'Rough',
  reference: 'Reference',
  master: 'Master',
};

/** Kinds that stand beside a main and carry its name. */
export const ALTERNATES: readonly Bounce['kind'][] = ['instrumental', 'a-cappella', 'tv', 'clean', 'vocal-up', 'vocal-down', 'loud-copy'];

/** What an engineer may bring, in the order it is offered. */
export const ALL_KINDS: readonly Bounce['kind'][] = ['main', ...ALTERNATES, 'master', 'rough', 'reference'];

/** What an artist or a manager may bring. */
export const ROUGH_KINDS: readonly Bounce['kind'][] = ['rough', 'reference'];

/** What a bounce's problem says, whichever way the server words it. */
export function problemWords(bounce: Bounce): string {
  if (!bounce.problem) return '';
  return typeof bounce.problem === 'string' ? bounce.problem : bounce.problem.detail;
}
