import { html, nothing, type TemplateResult } from 'lit';
import type { ChangeState } from '../api/types.ts';
import type { Problem } from '../api/problem.ts';
import { STATE_WORDS } from '../words/changes.ts';

/** A sign from the sprite, silent for screen readers: its word always stands beside it. */
export function sign(name: string, classes = 'g'): TemplateResult {
  return html`<svg class=${classes} aria-hidden="true"><use href="#${name}"></use></svg>`;
}

/** The boxed rehearsal mark of a section; the section's name has to stand beside it. */
export function mark(letters: string, small = false): TemplateResult {
  return html`<span class=${small ? 'rm sm' : 'rm'} aria-hidden="true">${letters}</span>`;
}

/** A state as its barline and its word. */
export function state(of: ChangeState, words: string = STATE_WORDS[of]): TemplateResult {
  return html`<span class="st">${sign(of)}${words}</span>`;
}

/** The highlighter: what lies under it is the reader's to do. */
export function you(words = 'You'): TemplateResult {
  return html`<span class="you">${words}</span>`;
}

/** Words of somebody's own: whatever their direction, they turn nothing round that stands beside them. */
export function apart(words: string): TemplateResult {
  return html`<bdi>${words}</bdi>`;
}

/** Somebody's own words. */
export function said(words: string): TemplateResult {
  return html`<p class="said">${apart(words)}</p>`;
}

/** The brace: what it holds belongs together, and one is chosen. */
export function brace(): TemplateResult {
  return html`<svg class="brace" viewBox="0 0 16 60" preserveAspectRatio="none" aria-hidden="true"><path vector-effect="non-scaling-stroke" d="M14 1C4 3 13 27 2 30c11 3 2 27 12 29"/></svg>`;
}

/** Rounds as bars: used ones filled, agreed ones empty, those beyond the agreement slanted. */
export function tally(round: number, agreed: number | null): TemplateResult | typeof nothing {
  const total = Math.max(round, agreed ?? 0);
  if (total === 0 || total > 12) return nothing;
  const bars = Array.from({ length: total }, (_, index) => {
    if (index >= round) return 'free';
    return agreed !== null && index >= agreed ? 'over' : '';
  });
  return html`<span class="tally" aria-hidden="true">${bars.map((kind) => html`<i class=${kind}></i>`)}</span>`;
}

/**
 * The round whose list is worked on. The server names the round that is open for new notes: once
 * the list is closed that is the next one; before the first mix there is none.
 */
export function roundAtWork(song: { round?: number; roundState?: string; newest?: unknown }): number {
  if (!song.newest || song.round === undefined) return 0;
  return song.roundState === 'closed' ? song.round - 1 : song.round;
}

export function roundWords(round: number, agreed: number | null): string {
  if (round === 0) return 'not begun';
  if (agreed === null) return String(round);
  return round > agreed ? `${round}, agreed ${agreed}` : `${round} of ${agreed}`;
}

/** What was refused, said where it was pressed; read out at once. */
export function refused(problem: Problem | null | undefined): TemplateResult | typeof nothing {
  if (!problem) return nothing;
  return html`<p class="refused" role="alert">${sign('stop')}<span>${problem.words}</span></p>`;
}

/** A page that has nothing to show yet, and says what comes next. */
export function none(words: TemplateResult | string, actions: TemplateResult | typeof nothing = nothing): TemplateResult {
  return html`<div class="none"><p>${words}</p>${actions}</div>`;
}
