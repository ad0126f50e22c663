/** Notes begun and not sent: a reload, a dead line or a closed page does not lose them. Kept for each person, song and mix. */
import type { Id } from '../api/types.ts';

export interface NoteDraft {
  readonly text: string;
  /** Seconds on its mix; null before writing begins. */
  readonly place: number | null;
  readonly whole: boolean;
  /** The mix it was begun on, and what that is called; empty before writing begins. */
  readonly bounce: Id;
  readonly mix: string;
  /** On behalf of whom; empty for oneself. */
  readonly behalf: Id;
  readonly only: boolean;
  /** Words of an earlier version that may have arrived. */
  readonly was: string | null;
  /** When it was last written on, milliseconds. */
  readonly at: number;
}

export const EMPTY: NoteDraft = { text: '', place: null, whole: false, bounce: '', mix: '', behalf: '', only: false, was: null, at: 0 };

const KEPT = 'mixaccord.note.';

/** Keeps a draft, or nothing any more. */
export function keepDraft(person: Id, song: Id, bounce: Id, draft: NoteDraft | null): void {
  try {
    const key = `${KEPT}${person}.${song}.${bounce}`;
    if (draft === null) localStorage.removeItem(key);
    else localStorage.setItem(key, JSON.stringify({ ...draft, at: Date.now() }));
  } catch {
    // A browser that keeps nothing still lets one write.
  }
}

/** The draft on this mix; else the last one on another mix of the song, which stays on its own. */
export function draftFor(person: Id, song: Id, bounce: Id): NoteDraft | null {
  const found: NoteDraft[] = [];
  try {
    const start = `${KEPT}${person}.${song}.`;
    for (let i = 0; i < localStorage.length; i++) {
      const key = localStorage.key(i)!;
      if (!key.startsWith(start)) continue;
      const kept = JSON.parse(localStorage.getItem(key)!) as Partial<NoteDraft>;
      if (typeof kept.text === 'string' && kept.text !== '') found.push({ ...EMPTY, ...kept, bounce: key.slice(start.length) });
    }
  } catch {
    return null;
  }
  found.sort((a, b) => b.at - a.at);
  return found.find((d) => d.bounce === bounce) ?? found[0] ?? null;
}
