import { html, nothing, svg, type TemplateResult } from 'lit';
import type { BoardRow } from '../../api/types.ts';
import { roundWords, sign, tally, you } from '../../signs/signs.ts';
import { approvers, type BoardGroups } from '../../state/board.ts';
import { count, listed } from '../../words/numbers.ts';
import { sectionWords } from '../../words/sections.ts';
import { date } from '../../words/time.ts';
import { codeOf, waitingName, waitingSince, waitingWords } from '../../words/waiting.ts';

const NAMED_SECTIONS = 3;
const FORM_WIDTH = 112;
const NOTHING = 'nothing';

export function boardTable(groups: BoardGroups): TemplateResult {
  return html`<table class="rows board">
    <caption class="hide">One row a song, what waits for you first</caption>
    <colgroup><col><col><col><col><col><col></colgroup>
    <thead><tr>
      <th scope="col">Song</th><th scope="col">Waits for</th><th scope="col">Moved since you heard it</th>
      <th scope="col">Approved by</th><th scope="col">Round</th><th scope="col" class="num">Due</th>
    </tr></thead>
    ${group('Waits for you', groups.mine, true)}
    ${group('Waits for somebody else', groups.others, false)}
    ${group('Approved', groups.approved, false)}
  </table>`;
}

function group(title: string, rows: readonly BoardRow[], mine: boolean): TemplateResult | typeof nothing {
  if (rows.length === 0) return nothing;
  return html`<tbody>
    <tr class="grp"><th scope="rowgroup" colspan="6">${title}</th></tr>
    ${rows.map((row) => songRow(row, mine))}
  </tbody>`;
}

function songRow(row: BoardRow, mine: boolean): TemplateResult {
  const by = approvers(row);
  const moved = movedWords(row);
  const round = row.latest ? row.round : 0;
  return html`<tr>
    <th scope="row" class="c-song"><a class="song" href=${hrefOf(row, mine)}>${row.title}</a> <span class="quiet artist">${row.artist ?? row.projectTitle ?? ''}</span></th>
    <td class="c-wait">${waits(row, mine)}</td>
    <td class=${moved === '' || moved === NOTHING ? 'c-moved nil' : 'c-moved'}>${moved === ''
      ? html`<span class="hide">nothing new</span>`
      : html`${formLine(row)}${row.moved === null ? nothing : html`<span class="onphone">Moved: </span>`}${moved}`}</td>
    <td class=${by.length === 0 ? 'c-ok nil' : 'c-ok'}>${by.length === 0
      ? nothing
      : html`<span class="onphone">Approved by </span>${listed(by)}`}</td>
    <td class="c-round">${tally(round, row.includedRounds)}<span class="small">${roundWords(round, row.includedRounds)}</span></td>
    <td class="c-due num">${row.due ? date(row.due) : nothing}</td>
  </tr>`;
}

/** To where the reader's part is done: deciding on its own page, everything else on the song. */
function hrefOf(row: BoardRow, mine: boolean): string {
  const deciding = mine && row.waitingOn !== null && codeOf(row.waitingOn) === 'approve';
  return deciding ? `/songs/${row.song}/approve` : `/songs/${row.song}`;
}

function waits(row: BoardRow, mine: boolean): TemplateResult {
  const mix = row.latest?.label ?? null;
  const waiting = row.waitingOn;
  if (!waiting) {
    return row.approved === true
      ? html`${sign('good')} ${mix ?? 'Mix'} approved`
      : html`<span class="quiet">Nobody</span>`;
  }
  const words = waitingWords(waiting, mix, mine);
  const since = html`<span class="quiet">${waitingSince(waiting)}</span>`;
  if (mine) return html`${you()} ${words} ${since}`;
  const name = waitingName(waiting);
  return html`${name === '' ? '' : `${name}, `}${words} ${since}`;
}

/** Short lists of sections by name, long ones by number. */
function movedWords(row: BoardRow): string {
  if (!row.changedSinceHeard) return '';
  if (row.moved === null) return row.latest?.label ? `${row.latest.label} is new to you` : 'something new';
  const moved = row.moved.filter((section) => section.moved).map((section) => section.name);
  if (moved.length === 0) return NOTHING;
  return moved.length <= NAMED_SECTIONS ? sectionWords(moved) : count(moved.length, 'section');
}

/** The form of the song as one line, with what moved on it; the words beside it say the same. */
function formLine(row: BoardRow): TemplateResult | typeof nothing {
  const form = row.changedSinceHeard && row.moved ? row.moved : [];
  if (!form.some((section) => section.moved)) return nothing;
  const length = form.reduce((end, section) => Math.max(end, section.to), 0);
  const x = (seconds: number) => ((seconds / length) * FORM_WIDTH).toFixed(1);
  return html`<svg class="formline" viewBox="0 0 ${FORM_WIDTH} 12" preserveAspectRatio="none" aria-hidden="true" focusable="false">
    <path class="rest" d="M0 6H${FORM_WIDTH}"/>
    ${form.filter((section) => section.moved).map((section) => svg`<path class="moved" d=${`M${x(section.from)} 0H${x(section.to)}V12H${x(section.from)}Z`}/>`)}</svg>`;
}
