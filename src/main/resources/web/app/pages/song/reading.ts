/** How a note was read, in words, each line to be corrected. */
import { html, nothing, type TemplateResult } from 'lit';
import type { AskedChange, AskedKeep, NoteReading } from '../../api/types.ts';
import { sign } from '../../signs/signs.ts';
import { askSign, askWords, partWords } from '../../words/changes.ts';
import { isStretch, whereWords } from '../../words/sections.ts';
import { askFields, askFrom, partField, partFrom, whereField, whereFrom, type AskChoices } from '../asking/ask-fields.ts';

/** Corrections in hand. */
export interface ReadingEdit extends AskChoices {
  readonly editing: string | null;
  open(key: string | null): void;
  /** A corrected line; null takes it away. */
  set(key: string, value: AskedChange | AskedKeep | null): void;
}

/** A line of the reading, told from others by the words it came from. */
export function keyOf(value: AskedChange | AskedKeep): string {
  return isChange(value)
    ? `change ${value.text} ${value.element} ${value.aspect} ${value.direction}` : `keep ${value.text ?? ''} ${value.element}`;
}

/** A correction holds as long as the words it was made on are read the same, be there more of them now. */
export function carryOver(corrected: Map<string, AskedChange | AskedKeep | null>, before: NoteReading | null, now: NoteReading): void {
  const found = [...now.changes, ...now.keeps];
  const keys = new Set(found.map(keyOf));
  for (const [key, value] of [...corrected]) {
    if (keys.has(key)) continue;
    corrected.delete(key);
    const was = [...(before?.changes ?? []), ...(before?.keeps ?? [])].find((item) => keyOf(item) === key);
    const again = was && found.find((item) => !corrected.has(keyOf(item)) && sameWish(was, item));
    if (again) corrected.set(keyOf(again), value);
  }
}

function sameWish(was: AskedChange | AskedKeep, now: AskedChange | AskedKeep): boolean {
  const old = was.text ?? '';
  const words = now.text ?? '';
  return keyOf({ ...was, text: '' }) === keyOf({ ...now, text: '' }) && (words.includes(old) || old.includes(words));
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
  const save = (e: Event) => {
    const asked = askFrom((e.target as HTMLElement).closest('.fields')!, value);
    if (asked) edit.set(key, { ...value, ...asked, question: null });
  };
  return html`<div class="fields form" role="group" aria-label="How this was read">${askFields(value, edit)}${endings(key, edit, save)}</div>`;
}

function keepEditor(key: string, value: AskedKeep, edit: ReadingEdit): TemplateResult {
  const save = (e: Event) => {
    const box = (e.target as HTMLElement).closest('.fields')!;
    const where = whereFrom(box, value.where);
    if (where) edit.set(key, { ...value, element: partFrom(box), where });
  };
  return html`<div class="fields form" role="group" aria-label="What to leave alone"><label>Leave alone${partField(value.element, edit)}</label>
    ${whereField(value.where, edit)}${endings(key, edit, save)}</div>`;
}

function endings(key: string, edit: ReadingEdit, save: (e: Event) => void): TemplateResult {
  return html`<p class="btns"><button class="btn" type="button" @click=${save}>Read it so</button>
    <button class="btn plain" type="button" @click=${() => edit.set(key, null)}>I did not ask for this</button>
    <button class="btn plain" type="button" @click=${() => edit.open(null)}>Leave it</button></p>`;
}
