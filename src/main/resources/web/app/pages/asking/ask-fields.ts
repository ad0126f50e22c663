/** What a change asks for, as fields: part, what, how much, where. */
import { html, nothing, type TemplateResult } from 'lit';
import type { Amount, Where } from '../../api/types.ts';
import { saidAmount } from '../../words/amounts.ts';
import { amountWords, askWords } from '../../words/changes.ts';
import { capital } from '../../words/numbers.ts';
import { isStretch, whereWords } from '../../words/sections.ts';

/** What there is to choose from. */
export interface AskChoices {
  readonly sections: readonly string[];
  readonly elements: readonly string[];
  /** Where a line belongs whose words name no place; none for the whole song. */
  readonly place: Where;
}

/** The fields of a change that say what is asked for. */
export interface AskedFields {
  readonly element: string;
  readonly aspect: string;
  readonly direction: string;
  readonly amount: Amount | null;
  readonly where: Where;
}

/** What can be asked for, in the words of the page. */
const WAYS: readonly (readonly [string, string])[] = [
  ['level', 'up'], ['level', 'down'], ['mute', 'out'], ['mute', 'in'], ['highs', 'up'], ['highs', 'down'], ['lows', 'up'],
  ['lows', 'down'], ['low mids', 'up'], ['low mids', 'down'], ['mids', 'down'], ['harshness', 'down'], ['sibilance', 'down'],
  ['reverb', 'up'], ['reverb', 'down'], ['delay', 'up'], ['delay', 'down'], ['width', 'wider'], ['width', 'narrower'],
  ['pan', 'left'], ['pan', 'right'], ['pan', 'centre'], ['impact', 'up'], ['impact', 'down'], ['compression', 'up'],
  ['compression', 'down'], ['distortion', 'up'], ['distortion', 'down'], ['timing', 'earlier'], ['timing', 'later'],
  ['timing', 'tighter'], ['tuning', 'fix'], ['noise', 'fix'], ['fade', 'longer'], ['fade', 'shorter'], ['length', 'longer'],
  ['length', 'shorter'], ['level', 'match'], ['level', 'set'], ['mids', 'up'], ['harshness', 'up'], ['sibilance', 'up'],
  ['effect', 'in'], ['effect', 'out'], ['delivery', 'add'], ['other', 'any'],
];

/** The fields; {@link askFrom} reads them out of the element around them. */
export function askFields(value: AskedFields, choices: AskChoices): TemplateResult {
  const known = WAYS.some(([a, d]) => a === value.aspect && d === value.direction);
  const ways = known ? WAYS : [[value.aspect, value.direction] as const, ...WAYS];
  return html`<div class="line"><label>Part${partField(value.element, choices)}</label>
      <label>What<select data-way>${ways.map(([a, d]) => html`<option value="${a}|${d}" ?selected=${a === value.aspect && d === value.direction}>${capital(askWords({ aspect: a, direction: d, amount: null }))}</option>`)}</select></label>
      <label>How much<input type="text" data-much .value=${value.amount ? amountWords(value.amount) : ''} placeholder="a touch, 1.5 dB"></label></div>
    ${whereField(value.where, choices)}`;
}

/** What was entered; {@code before} is what the fields began with. */
export function askFrom(box: Element, before: AskedFields): AskedFields {
  const [aspect, way] = box.querySelector<HTMLSelectElement>('[data-way]')!.value.split('|') as [string, string];
  const { direction, amount } = saidAmount(box.querySelector<HTMLInputElement>('[data-much]')!.value, way, before.amount);
  return { element: partFrom(box), aspect, direction, amount, where: whereFrom(box, before.where) };
}

export function partFrom(box: Element): string {
  return box.querySelector<HTMLInputElement>('[data-part]')!.value.trim().toLowerCase() || 'mix';
}

/** The part, with those of the song to choose from. */
export function partField(element: string, choices: AskChoices): TemplateResult {
  return html`<input type="text" data-part list="note-parts" .value=${element === 'mix' ? 'mix' : element}>
    <datalist id="note-parts"><option value="mix">Whole mix</option>${choices.elements.map((e) => html`<option value=${e}></option>`)}</datalist>`;
}

/** The sections it is for. */
export function whereField(where: Where, choices: AskChoices): TemplateResult | typeof nothing {
  if (choices.sections.length === 0) return nothing;
  const named = isStretch(where) ? [] : where;
  return html`<fieldset class="where"><legend>Where${isStretch(where) ? html` <span class="quiet">${whereWords(where)}, unless you choose sections</span>` : nothing}</legend>
    ${choices.sections.map((s) => html`<label class="tick"><input type="checkbox" value=${s} .checked=${named.includes(s)}><span>${s}</span></label>`)}
    <p class="help">None chosen means ${isStretch(choices.place) ? 'the place of the note' : 'the whole song'}.</p></fieldset>`;
}

export function whereFrom(box: Element, before: Where): Where {
  const chosen = [...box.querySelectorAll<HTMLInputElement>('.where input:checked')].map((i) => i.value);
  return chosen.length === 0 && isStretch(before) ? before : chosen;
}
