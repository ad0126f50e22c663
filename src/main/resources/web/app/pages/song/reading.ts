/** How a note was read, in words, each line to be corrected. */
import { html, nothing, type TemplateResult } from 'lit';
import type { Amount, AskedChange, AskedKeep, NoteReading } from '../../api/types.ts';
import { sign } from '../../signs/signs.ts';
import { amountWords, askSign, askWords, partWords } from '../../words/changes.ts';
import { capital } from '../../words/numbers.ts';
import { isStretch, whereWords } from '../../words/sections.ts';

/** Corrections in hand. */
export interface ReadingEdit {
  readonly editing: string | null;
  readonly sections: readonly string[];
  readonly elements: readonly string[];
  /** Where a line belongs whose words name no place; none for the whole song. */
  readonly place: AskedChange['where'];
  open(key: string | null): void;
  /** A corrected line; null takes it away. */
  set(key: string, value: AskedChange | AskedKeep | null): void;
}

/** What can be chosen when a reading is corrected, in the words of the page. */
const WAYS: readonly (readonly [string, string])[] = [
  ['level', 'up'], ['level', 'down'], ['mute', 'out'], ['mute', 'in'], ['highs', 'up'], ['highs', 'down'], ['lows', 'up'],
  ['lows', 'down'], ['low mids', 'up'], ['low mids', 'down'], ['mids', 'down'], ['harshness', 'down'], ['sibilance', 'down'],
  ['reverb', 'up'], ['reverb', 'down'], ['delay', 'up'], ['delay', 'down'], ['width', 'wider'], ['width', 'narrower'],
  ['pan', 'left'], ['pan', 'right'], ['pan', 'centre'], ['impact', 'up'], ['impact', 'down'], ['compression', 'up'],
  ['compression', 'down'], ['distortion', 'up'], ['distortion', 'down'], ['timing', 'earlier'], ['timing', 'later'],
  ['timing', 'tighter'], ['tuning', 'fix'], ['noise', 'fix'], ['fade', 'longer'], ['fade', 'shorter'], ['length', 'longer'],
  ['length', 'shorter'], ['other', 'any'],
];

/** A line of the reading, told from others by the words it came from. */
export function keyOf(value: AskedChange | AskedKeep): string {
  return isChange(value)
    ? `change ${value.text} ${value.element} ${value.aspect} ${value.direction}` : `keep ${value.text ?? ''} ${value.element}`;
}

export function readingList(reading: NoteReading, corrected: ReadonlyMap<string, AskedChange | AskedKeep | null>, edit: ReadingEdit): TemplateResult {
  const one = (value: AskedChange | AskedKeep) => {
    const key = keyOf(value);
    return line(key, corrected.has(key) ? corrected.get(key)! : value, edit);
  };
  const questions = reading.changes.filter((c) => typeof c.question === 'string' && !corrected.has(keyOf(c))).map((c) => c.question as string);
  return html`<ul class="read">
    ${reading.changes.map(one)}${reading.keeps.map(one)}
  </ul>${questions.map((q) => html`<p class="small">It will be asked back: ${q}</p>`)}`;
}

/** Words that name no place mean the place of the note. */
function meant(where: AskedChange['where'], edit: ReadingEdit): AskedChange['where'] {
  return isStretch(where) || where.length > 0 ? where : edit.place;
}

function isChange(value: AskedChange | AskedKeep): value is AskedChange {
  return 'aspect' in value;
}

function line(key: string, value: AskedChange | AskedKeep | null, edit: ReadingEdit): TemplateResult | typeof nothing {
  if (value === null) return nothing;
  if (edit.editing === key) return html`<li class="editing">${isChange(value) ? editor(key, value, edit) : keepEditor(key, value, edit)}</li>`;
  const words = isChange(value)
    ? html`${sign(value.question ? 'ques' : askSign(value))}<span><b>${partWords(value.element)}</b> ${askWords(value)} <span class="quiet small">${whereWords(meant(value.where, edit))}</span></span>`
    : html`${sign('hold')}<span><b>${partWords(value.element)}</b> leave alone <span class="quiet small">${whereWords(meant(value.where, edit))}</span></span>`;
  return html`<li>${words}<button class="btn plain" type="button" aria-label="Change how this was read: ${partWords(value.element)}" @click=${() => edit.open(key)}>Change</button></li>`;
}

function editor(key: string, value: AskedChange, edit: ReadingEdit): TemplateResult {
  const known = WAYS.some(([a, d]) => a === value.aspect && d === value.direction);
  const ways = known ? WAYS : [[value.aspect, value.direction] as const, ...WAYS];
  const save = (e: Event) => {
    const box = (e.target as HTMLElement).closest('.fields')!;
    const [aspect, direction] = box.querySelector<HTMLSelectElement>('[data-way]')!.value.split('|') as [string, string];
    edit.set(key, {
      ...value, aspect, direction, question: null, element: box.querySelector<HTMLInputElement>('[data-part]')!.value.trim().toLowerCase() || 'mix',
      amount: amountOf(box.querySelector<HTMLInputElement>('[data-much]')!.value, value.amount), where: whereOf(box, value.where),
    });
  };
  return html`<div class="fields form" role="group" aria-label="How this was read">
    <div class="line"><label>Part${partField(value.element, edit)}</label>
      <label>What<select data-way>${ways.map(([a, d]) => html`<option value="${a}|${d}" ?selected=${a === value.aspect && d === value.direction}>${capital(askWords({ aspect: a, direction: d, amount: null }))}</option>`)}</select></label>
      <label>How much<input type="text" data-much .value=${value.amount ? amountWords(value.amount) : ''} placeholder="a touch, 1.5 dB"></label></div>
    ${whereField(value.where, edit)}${endings(key, edit, save)}</div>`;
}

function keepEditor(key: string, value: AskedKeep, edit: ReadingEdit): TemplateResult {
  const save = (e: Event) => {
    const box = (e.target as HTMLElement).closest('.fields')!;
    const element = box.querySelector<HTMLInputElement>('[data-part]')!.value.trim().toLowerCase() || 'mix';
    edit.set(key, { ...value, element, where: whereOf(box, value.where) });
  };
  return html`<div class="fields form" role="group" aria-label="What to leave alone"><label>Leave alone${partField(value.element, edit)}</label>
    ${whereField(value.where, edit)}${endings(key, edit, save)}</div>`;
}

function partField(element: string, edit: ReadingEdit): TemplateResult {
  return html`<input type="text" data-part list="note-parts" .value=${element === 'mix' ? 'mix' : element}>
    <datalist id="note-parts"><option value="mix">Whole mix</option>${edit.elements.map((e) => html`<option value=${e}></option>`)}</datalist>`;
}

function whereField(where: AskedChange['where'], edit: ReadingEdit): TemplateResult | typeof nothing {
  if (edit.sections.length === 0) return nothing;
  const named = isStretch(where) ? [] : where;
  return html`<fieldset class="where"><legend>Where${isStretch(where) ? html` <span class="quiet">${whereWords(where)}, unless you choose sections</span>` : nothing}</legend>
    ${edit.sections.map((s) => html`<label class="tick"><input type="checkbox" value=${s} .checked=${named.includes(s)}><span>${s}</span></label>`)}
    <p class="help">None chosen means ${isStretch(edit.place) ? 'the place of the note' : 'the whole song'}.</p></fieldset>`;
}

function endings(key: string, edit: ReadingEdit, save: (e: Event) => void): TemplateResult {
  return html`<p class="btns"><button class="btn" type="button" @click=${save}>Read it so</button>
    <button class="btn plain" type="button" @click=${() => edit.set(key, null)}>I did not ask for this</button>
    <button class="btn plain" type="button" @click=${() => edit.open(null)}>Leave it</button></p>`;
}

function whereOf(box: Element, before: AskedChange['where']): AskedChange['where'] {
  const chosen = [...box.querySelectorAll<HTMLInputElement>('.where input:checked')].map((i) => i.value);
  return chosen.length === 0 && isStretch(before) ? before : chosen;
}

/** "1.5 dB" is a figure, everything else words of degree. */
function amountOf(text: string, before: Amount | null): Amount | null {
  const words = text.trim();
  if (words === '') return null;
  if (before && amountWords(before) === words) return before;
  const found = /^(\d+(?:[.,]\d+)?)\s*(dB|%|ms|s|bars?|Hz)?$/i.exec(words);
  if (!found) return { word: words.toLowerCase() };
  const unit = found[2]?.toLowerCase() ?? 'db';
  const units: Record<string, string> = { db: 'dB', '%': '%', ms: 'ms', s: 's', bar: 'bars', bars: 'bars', hz: 'Hz' };
  return { value: Number(found[1]!.replace(',', '.')), unit: units[unit]! };
}
