/** What both kinds of unnamed listening ask for: two mixes and one place. */
import { html, nothing, type TemplateResult } from 'lit';
import type { Bounce } from '../api/types.ts';
import type { Span } from '../geometry/form.ts';
import type { PlayerState } from '../player/state.ts';
import { mixWords } from '../words/mixes.ts';
import { clock } from '../words/numbers.ts';
import type { ClipDeck } from './deck.ts';

/** Volume, and the line about listening gently. */
export function gently(deck: ClipDeck): TemplateResult {
  return html`<label class="fader clip-fader"><span>Volume</span><input type="range" min="0" max="100" step="1" .value=${String(Math.round(deck.volume * 100))}
      @input=${(e: Event) => deck.turn(Number((e.target as HTMLInputElement).value) / 100)}></label>
    <p class="small quiet">It starts quietly and goes round until you stop it. Turn it up by hand, and give your ears a rest after a while.</p>`;
}

/** A stretch drawn over the strip: seconds on the mix it was drawn on. */
export interface Drawn { readonly from: number; readonly to: number; readonly on: string }

/** What the player goes round in now, if that is long enough to hear and short enough to keep in mind. */
export function drawnIn({ loop, lead }: PlayerState): Drawn | null {
  const seconds = loop ? loop.to - loop.from : 0;
  return loop && lead && seconds >= 1 && seconds <= 60 ? { from: loop.from, to: loop.to, on: lead.id } : null;
}

/** Choices of two mixes and a place, as fields of a form: one, two, section (empty for the drawn one). */
export function placeFields(mixes: readonly Bounce[], spans: readonly Span[], words: readonly [string, string], here: string | null, drawn: Drawn | null): TemplateResult {
  const last = mixes.length - 1;
  const mix = (name: string, label: string, chosen: number) => html`<label>${label}<select name=${name}>
    ${mixes.map((b, i) => html`<option value=${b.id} ?selected=${i === chosen}>${mixWords(b)}</option>`)}</select></label>`;
  return html`<div class="line">${mix('one', words[0], Math.max(0, last - 1))}${mix('two', words[1], last)}
    <label>Where<select name="section">${drawn ? html`<option value="" selected>what goes round now, ${clock(drawn.from)} to ${clock(drawn.to)}</option>` : nothing}
      ${spans.map((s) => html`<option value=${s.name} ?selected=${!drawn && s.name === here}>${s.name}</option>`)}</select></label></div>`;
}

/** The fields as the server wants them. */
export function placeOf(event: SubmitEvent, drawn: Drawn | null): { mixes: [string, string]; section: string } | ({ mixes: [string, string] } & Drawn) {
  const form = new FormData(event.target as HTMLFormElement);
  const of = (name: string) => String(form.get(name) ?? '');
  const mixes: [string, string] = [of('one'), of('two')];
  return drawn && of('section') === '' ? { mixes, ...drawn } : { mixes, section: of('section') };
}
