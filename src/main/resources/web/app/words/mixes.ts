import type { Bounce, Sent } from '../api/types.ts';

/** Whether others than engineers and the uploader can hear it. */
export function isSent(bounce: Bounce): boolean {
  return Boolean(bounce.sent);
}

/** When it was sent, or null. */
export function sentAt(bounce: Bounce): string | null {
  if (typeof bounce.sent === 'string') return bounce.sent;
  return typeof bounce.sent === 'object' && bounce.sent ? bounce.sent.at : null;
}

/** The line the engineer wrote when sending. */
export function sentMessage(bounce: Bounce): string | null {
  const sent = bounce.sent as Sent | null;
  return (typeof sent === 'object' && sent?.message) || bounce.message || null;
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

/** What a bounce's problem says, whichever way the server words it. */
export function problemWords(bounce: Bounce): string {
  if (!bounce.problem) return '';
  return typeof bounce.problem === 'string' ? bounce.problem : bounce.problem.detail;
}
