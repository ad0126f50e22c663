/** What can be made of a line of the list: other fields, several lines, another place, new work. */
import { html, nothing, type TemplateResult } from 'lit';
import { keyed } from 'lit/directives/keyed.js';
import type { Change, Id } from '../../api/types.ts';
import { isOpen, type Line } from '../../state/list.ts';
import { me } from '../../state/me.ts';
import type { Sheet } from '../../state/sheet.ts';
import { askWords, NEW_WORK_WORDS, partWords } from '../../words/changes.ts';
import { isStretch, whereWords } from '../../words/sections.ts';
import { askFields, askFrom, type AskChoices, type AskedFields } from '../asking/ask-fields.ts';
import type { Hand } from './list-rows.ts';

const MOST_PARTS = 12;

/** Where a line stands among those it may change places with. */
export interface Neighbours { readonly before: Id | null; readonly after: Id | null }

/** The engineer arranges everything that is open; everybody else what is theirs, until the list is closed. */
export function lineTools(line: Line, sheet: Sheet, hand: Hand, beside: Neighbours): TemplateResult | typeof nothing {
  const { change } = line;
  const works = sheet.song.may.includes('work-list');
  const mine = change.author === me.value?.id && sheet.song.roundState === 'open';
  if (!isOpen(change) || !(works || mine)) return nothing;
  const press = (words: string, act: () => void, open?: boolean) =>
    html`<button class="btn plain" type="button" aria-expanded=${open ?? nothing} @click=${act}>${words}<span class="hide">: ${change.text}</span></button>`;
  return html`<details class="fold small tools" ?open=${hand.isOpen('edit', change) || hand.isOpen('split', change)}><summary>Arrange<span class="hide">: ${change.text}</span></summary>
    <p class="btns">
      ${press('Edit…', () => hand.open('edit', change), hand.isOpen('edit', change))}
      ${change.state === 'asked' ? press('Split…', () => hand.open('split', change), hand.isOpen('split', change)) : nothing}
      ${works && beside.before ? press('Up', () => hand.swap(beside.before!, change.id)) : nothing}
      ${works && beside.after ? press('Down', () => hand.swap(change.id, beside.after!)) : nothing}
      ${[change, ...line.others].filter((one) => one.joined).map((one) => press(`Take ${sheet.nameOf(one.author)}’s out`, () => hand.part(one)))}
    </p>
    ${works ? newWork(change, hand) : nothing}
    ${hand.isOpen('edit', change) ? editForm(change, sheet, hand) : nothing}
    ${hand.isOpen('split', change) ? splitForm(change, sheet, hand) : nothing}
  </details>`;
}

function newWork(change: Change, hand: Hand): TemplateResult {
  return html`<label class="in-line">This is <select @change=${(e: Event) => hand.patch(change, { newWork: (e.target as HTMLSelectElement).value })}>
    <option value="none" ?selected=${change.newWork === null}>a matter of mixing</option>
    ${Object.entries(NEW_WORK_WORDS).map(([value, words]) => html`<option value=${value} ?selected=${change.newWork === value}>new work: ${words}</option>`)}
  </select></label>`;
}

function choicesOf(sheet: Sheet): AskChoices {
  const elements = [...new Set(['lead vocal', 'backing vocals', 'drums', 'bass', 'guitars', 'keys', ...sheet.changes.map((one) => one.element)])];
  return {
    sections: sheet.sections.map((section) => section.name),
    elements: elements.filter((element) => element !== 'mix'),
    place: [],
  };
}

function editForm(now: Change, sheet: Sheet, hand: Hand): TemplateResult {
  const change = hand.asOpened(now);
  const moved = change.etag !== now.etag;
  const send = (event: SubmitEvent) => {
    event.preventDefault();
    const asked = askFrom(event.target as HTMLFormElement, change);
    if (asked) hand.patch(change, asked);
  };
  return html`${keyed(change.etag, html`<form class="form fields" aria-label="What is asked" @submit=${send}>
    <p class="help">The words stay as they were written.</p>
    ${moved ? html`<p class="stray" role="status">Somebody has changed this line meanwhile. Now it is: ${partWords(now.element)} ${askWords(now)}, ${whereWords(now.where)}.
      <button class="btn plain" type="button" @click=${() => hand.reopen(now)}>Begin with that</button></p>` : nothing}
    ${askFields(change, choicesOf(sheet))}
    <p class="btns"><button class="btn" type="submit">Keep it so</button>
      <button class="btn plain" type="button" @click=${() => hand.open('edit', change)}>Never mind</button></p>
  </form>`)}`;
}

function splitForm(change: Change, sheet: Sheet, hand: Hand): TemplateResult {
  const choices = choicesOf(sheet);
  const parts = hand.parts(change);
  const sections = isStretch(change.where) ? [] : change.where;
  const entered = (form: HTMLFormElement): AskedFields[] | null => {
    const lines = [...form.querySelectorAll('.fields')].map((box, i) => askFrom(box, parts[i]!));
    return lines.every((line) => line !== null) ? lines : null;
  };
  const send = (event: SubmitEvent) => {
    event.preventDefault();
    const lines = entered(event.target as HTMLFormElement);
    if (lines) hand.split(change, lines);
  };
  const more = (event: Event) => {
    const now = entered((event.target as HTMLElement).closest('form')!);
    if (now) hand.setParts([...now, { ...now[now.length - 1]! }]);
  };
  return html`<form class="form" aria-label="Several lines instead of one" @submit=${send}>
    <p class="help">Each line keeps the words as they were written.</p>
    ${parts.map((part, i) => html`<fieldset class="fields"><legend>${i + 1}. ${partWords(part.element)}</legend>${askFields(part, choices)}</fieldset>`)}
    <p class="btns"><button class="btn" type="submit">Make ${parts.length} lines</button>
      ${parts.length < MOST_PARTS ? html`<button class="btn plain" type="button" @click=${more}>One more line</button>` : nothing}
      ${sections.length > 1 && sections.length <= MOST_PARTS
        ? html`<button class="btn plain" type="button" @click=${() => hand.split(change, sections.map((section) => ({ ...fieldsOf(change), where: [section] })))}>One line for each section</button>`
        : nothing}
      <button class="btn plain" type="button" @click=${() => hand.open('split', change)}>Never mind</button></p>
  </form>`;
}

/** The fields of a change alone. */
export function fieldsOf({ element, aspect, direction, amount, where }: Change): AskedFields {
  return { element, aspect, direction, amount, where };
}
