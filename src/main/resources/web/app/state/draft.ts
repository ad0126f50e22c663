/** Sections drawn but not kept yet: a reload or a step back does not lose them. They last as long as the tab. */
import type { Span } from '../geometry/form.ts';

export interface FormDraft {
  /** The mix they were drawn on. */
  readonly bounce: string;
  readonly rows: readonly Span[];
  /** What was kept when drawing began. */
  readonly base: readonly Span[];
}

const key = (song: string) => `mixaccord.form.${song}`;

export function draftOf(song: string): FormDraft | null {
  try {
    const text = sessionStorage.getItem(key(song));
    return text === null ? null : (JSON.parse(text) as FormDraft);
  } catch {
    return null;
  }
}

export function keepDraft(song: string, draft: FormDraft | null): void {
  try {
    if (draft === null) sessionStorage.removeItem(key(song));
    else sessionStorage.setItem(key(song), JSON.stringify(draft));
  } catch {
    // Without storage a draft lasts until the page is left.
  }
}
