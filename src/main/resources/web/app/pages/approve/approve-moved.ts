import { html, nothing, type TemplateResult } from 'lit';
import type { Problem } from '../../api/problem.ts';
import type { Bounce, Change, Comparison, SectionChange } from '../../api/types.ts';
import { mark, said, sign, state } from '../../signs/signs.ts';
import { doneSince, loudnessWords, movedList, type Moved } from '../../state/moved.ts';
import { bounceName, type Sheet } from '../../state/sheet.ts';
import { askWords, partWords } from '../../words/changes.ts';
import { capital, count, listed } from '../../words/numbers.ts';
import { rehearsalMarks, sectionWords, whereWords } from '../../words/sections.ts';
import { day } from '../../words/time.ts';

interface Pair {
  readonly here: Bounce;
  readonly there: Bounce | null;
  readonly heardThere: string | null;
}

/** What moved since the last mix this person heard, in words. */
export function movedBlock(
  sheet: Sheet,
  pair: Pair,
  comparison: Comparison | null,
  progress: number | null,
  closed: Problem | null,
): TemplateResult {
  const { here, there } = pair;
  if (!there) {
    return html`<h2 id="moved-title">${bounceName(here)} is the first mix</h2>
      <p class="lead quiet">There is nothing before it to set it beside. Hear it through once.</p>
      ${message(here)}`;
  }
  const done = doneSince(sheet, here, there);
  const heard = pair.heardThere === null ? `since ${bounceName(there)}` : `since you heard ${bounceName(there)}`;
  return html`<h2 id="moved-title">Moved ${heard}</h2>
    <p class="quiet lead">${pair.heardThere === null ? '' : `You heard it ${day(pair.heardThere)}. `}${comparison ? summary(comparison) : ''}</p>
    ${message(here)}
    ${comparison ? ladder(comparison, done, sheet, pair) : waiting(done, sheet, progress, closed)}`;
}

function message(here: Bounce): TemplateResult | typeof nothing {
  return here.message ? html`<div class="lead">${said(here.message)}</div>` : nothing;
}

/** Without a comparison the list still says what was done. */
function waiting(done: readonly Change[], sheet: Sheet, progress: number | null, closed: Problem | null): TemplateResult {
  return html`${closed
      ? html`<p class="quiet lead">${closed.words}</p>`
      : html`<p role="status">Setting the two mixes beside each other.</p>
          <progress max="1" .value=${progress ?? 0} aria-label="Comparing"></progress>`}
    ${done.length === 0
      ? nothing
      : html`<ol class="ladder gap">${done.map((change) => html`<li>${mark('–')}<div><h3>${whereWords(change.where)}</h3><div class="mv asked big">${askedLine(change, sheet)}</div></div></li>`)}</ol>`}`;
}

function summary(comparison: Comparison): string {
  switch (comparison.likeness) {
    case 'identical':
      return 'It is the very same audio.';
    case 'same-audio':
      return 'It is the same audio; only silence at the ends or the way it is stored differs.';
    case 'requantised':
      return 'It is the same mix, stored in another way.';
    case 'level-only':
      return `Only the level differs. ${causes(comparison)}`.trim();
    case 'rework':
      return 'Nearly everything moved: hear it as a new mix.';
    case 'not-comparable':
      return 'The two can’t be set beside each other; hear it as a new mix.';
    case 'sections': {
      const still = comparison.sections.filter((section) => section.difference === 'unchanged').length;
      const moved = comparison.sections.filter((section) => !['unchanged', 'uncertain'].includes(section.difference)).length;
      const rest = still === 0 ? '' : ` ${capital(count(still, 'section is', 'sections are'))} the same as before.`;
      return `${capital(count(moved, 'section'))} moved.${rest} ${causes(comparison)}`.trim();
    }
  }
}

function causes(comparison: Comparison): string {
  return comparison.causes.map((cause) => cause.detail).join(' ');
}

function ladder(comparison: Comparison, done: readonly Change[], sheet: Sheet, pair: Pair): TemplateResult {
  const list = movedList(comparison, done, sheet);
  const marks = rehearsalMarks(comparison.sections.map((section) => section.name));
  const elsewhere = done.filter((change) => !list.moved.some((moved) => moved.asked.includes(change)));
  return html`<ol class="ladder">
    ${list.moved.map((moved) => step(moved, marks, sheet, pair))}
    ${elsewhere.length === 0 ? nothing : html`<li><span></span><div><h3>Marked done, and not seen to move</h3>
      ${elsewhere.map((change) => html`<div class="mv no big">${askedLine(change, sheet)}</div>`)}</div></li>`}
    ${list.unsure.length === 0 ? nothing : html`<li><span></span><p class="quiet">${sectionWords(list.unsure)}: can’t be told</p></li>`}
    ${list.still.length === 0 ? nothing : html`<li><span></span><p class="quiet">${sectionWords(list.still)}: nothing moved</p></li>`}
  </ol>`;
}

function step({ section, asked }: Moved, marks: ReadonlyMap<string, string>, sheet: Sheet, pair: Pair): TemplateResult {
  const hear = `/songs/${sheet.song.id}?mix=${pair.here.id}&with=${pair.there?.id ?? ''}&loop=${encodeURIComponent(section.name)}`;
  return html`<li>${mark(marks.get(section.name) ?? '–')}
    <div><h3>${section.name}</h3>
      ${asked.length > 0
        ? asked.map((change) => html`<div class="mv asked big">${askedLine(change, sheet)}</div>`)
        : html`<div class="mv un big"><span class="stray">${capital(strayWords(section))}</span><span class="small quiet">Nothing on the list asked for it.</span></div>`}
    </div>
    <a class="loop" href=${hear} aria-label="Hear ${section.name} in both mixes">${sign('loop', '')}</a></li>`;
}

function askedLine(change: Change, sheet: Sheet): TemplateResult {
  return html`<span>${partWords(change.element)}: ${askWords(change)}</span>
    <span class="small quiet">Asked by ${sheet.nameOf(change.author)} ${state(change.state)}</span>`;
}

function strayWords(section: SectionChange): string {
  if (section.difference === 'only-here') return 'this section is new';
  if (section.difference === 'only-there') return 'this section is no longer there';
  const loud = loudnessWords(section.loudnessChangeLu);
  return listed(['something moved', ...(loud === '' ? [] : [`it is ${loud}`])]);
}
