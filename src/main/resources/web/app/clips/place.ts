/** What both kinds of unnamed listening ask for: two mixes and one place. */
import { html, type TemplateResult } from 'lit';
import type { Bounce } from '../api/types.ts';
import type { Span } from '../geometry/form.ts';
import { mixWords } from '../words/mixes.ts';
import type { ClipDeck } from './deck.ts';

/** Volume, and the line about listening gently. */
export function gently(deck: ClipDeck): TemplateResult {
  return html`<label class="fader clip-fader"><span>Volume</span><input type="range" min="0" max="100" step="1" .value=${String(Math.round(deck.volume * 100))}
      @input=${(e: Event) => deck.turn(Number((e.target as HTMLInputElement).value) / 100)}></label>
    <p class="small quiet">It starts quietly and goes round until you stop it. Turn it up by hand, and give your ears a rest after a while.</p>`;
}

/** Choices of two mixes and a section, as fields of a form: one, two, section. */
export function placeFields(mixes: readonly Bounce[], spans: readonly Span[], words: readonly [string, string], here: string | null): TemplateResult {
  const last = mixes.length - 1;
  const mix = (name: string, label: string, chosen: number) => html`<label>${label}<select name=${name}>
    ${mixes.map((b, i) => html`<option value=${b.id} ?selected=${i === chosen}>${mixWords(b)}</option>`)}</select></label>`;
  return html`<div class="line">${mix('one', words[0], Math.max(0, last - 1))}${mix('two', words[1], last)}
    <label>Where<select name="section">${spans.map((s) => html`<option value=${s.name} ?selected=${s.name === here}>${s.name}</option>`)}</select></label></div>`;
}

/** The fields as the server wants them. */
export function placeOf(event: SubmitEvent): { mixes: [string, string]; section: string } {
  const form = new FormData(event.target as HTMLFormElement);
  const of = (name: string) => String(form.get(name) ?? '');
  return { mixes: [of('one'), of('two')], section: of('section') };
}
