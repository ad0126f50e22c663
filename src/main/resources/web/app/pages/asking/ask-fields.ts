/** What a change asks for, as fields: part, what, how much, where. */
import { html, type TemplateResult } from 'lit';
import type { Amount, Where } from '../../api/types.ts';
import { saidAmount } from '../../words/amounts.ts';
import { amountWords, askWords } from '../../words/changes.ts';
import { capital } from '../../words/numbers.ts';
import { isStretch, saidPlace, timeWords } from '../../words/sections.ts';

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

/** What was entered; {@code before} is what the fields began with. Nothing where a field can't be read. */
export function askFrom(box: Element, before: AskedFields): AskedFields | null {
  const [aspect, way] = box.querySelector<HTMLSelectElement>('[data-way]')!.value.split('|') as [string, string];
  const { direction, amount } = saidAmount(box.querySelector<HTMLInputElement>('[data-much]')!.value, way, before.amount);
  const where = whereFrom(box, before.where);
  return where && { element: partFrom(box), aspect, direction, amount, where };
}

export function partFrom(box: Element): string {
  return box.querySelector<HTMLInputElement>('[data-part]')!.value.trim().toLowerCase() || 'mix';
}

/** The part, with those of the song to choose from. */
export function partField(element: string, choices: AskChoices): TemplateResult {
  return html`<input type="text" data-part list="note-parts" .value=${element === 'mix' ? 'mix' : element}>
    <datalist id="note-parts"><option value="mix">Whole mix</option>${choices.elements.map((e) => html`<option value=${e}></option>`)}</datalist>`;
}

/** The sections it is for, or a time: one takes the place of the other. */
export function whereField(where: Where, choices: AskChoices): TemplateResult {
  const named = isStretch(where) ? [] : where;
  const ticked = (e: Event) => {
    if ((e.target as HTMLInputElement).checked) timeOf(e).value = '';
  };
  const typed = (e: Event) => {
    const time = timeOf(e);
    time.setCustomValidity('');
    if (time.value.trim() !== '') ticksOf(time.closest('.where')!).forEach((tick) => (tick.checked = false));
  };
  return html`<fieldset class="where"><legend>Where</legend>
    ${choices.sections.map((s) => html`<label class="tick"><input type="checkbox" value=${s} .checked=${named.includes(s)} @change=${ticked}><span>${s}</span></label>`)}
    <label class="in-line">${choices.sections.length > 0 ? 'or at' : 'At'} <input type="text" data-time .value=${isStretch(where) ? timeWords(where) : ''} placeholder="1:05 to 1:20" autocomplete="off" @input=${typed}></label>
    <p class="help">${choices.sections.length > 0 ? 'No section and no time' : 'No time'} means ${isStretch(choices.place) ? 'the place of the note' : 'the whole song'}.</p></fieldset>`;
}

function timeOf(e: Event): HTMLInputElement {
  return (e.target as Element).closest('.where')!.querySelector<HTMLInputElement>('[data-time]')!;
}

function ticksOf(box: Element): HTMLInputElement[] {
  return [...box.querySelectorAll<HTMLInputElement>('[type="checkbox"]')];
}

/** What was entered; nothing where the time can't be read, which is then said at its field. */
export function whereFrom(box: Element, before: Where): Where | null {
  const time = box.querySelector<HTMLInputElement>('[data-time]')!;
  const where = saidPlace(time.value, before);
  if (where === null) {
    time.setCustomValidity('A time like 1:05, or two like 1:05 to 1:20.');
    time.reportValidity();
    return null;
  }
  return isStretch(where) ? where : ticksOf(time.closest('.where')!).filter((tick) => tick.checked).map((tick) => tick.value);
}
