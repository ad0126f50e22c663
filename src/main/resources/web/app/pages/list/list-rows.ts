import { html, nothing, type TemplateResult } from 'lit';
import type { Change, Id, Keep, Note, Question, Verdict } from '../../api/types.ts';
import { brace, mark, said, sign, state } from '../../signs/signs.ts';
import { me } from '../../state/me.ts';
import { isAgainst, type Bundle, type Line, type ListGroup, type Order } from '../../state/list.ts';
import { mayMark, type Sheet } from '../../state/sheet.ts';
import { loopHref } from '../../state/wish.ts';
import { ANSWER_WORDS, askSign, askWords, NEW_WORK_WORDS, partWords, SEEN_WORDS, STATE_WORDS, usualWords } from '../../words/changes.ts';
import { memoPlayer } from '../../memos/memo-player.ts';
import { clock, signedFigure } from '../../words/numbers.ts';
import { isStretch, lineWhereWords, sectionsOf, sectionWords, whereWords } from '../../words/sections.ts';
import { day } from '../../words/time.ts';
import type { AskedFields } from '../asking/ask-fields.ts';
import { questionBox, theirActs } from './list-people.ts';
import { lineTools, type Neighbours } from './list-tools.ts';

/** A moment is heard with this much around it, seconds. */
const LEAST_LOOP = 2;

/** The small forms a line can open: why, other fields, several lines. */
export type FormName = 'why' | 'edit' | 'split';

/** What the rows can ask the page to do. */
export interface Hand {
  toggle(change: Change): void;
  /** Opens or closes a small form under a change. */
  open(form: FormName, change: Change): void;
  isOpen(form: FormName, change: Change): boolean;
  /** A change as it was when its form was opened: what is typed there is about that. */
  asOpened(change: Change): Change;
  /** Begins its form again with what is there now. */
  reopen(change: Change): void;
  /** The lines a change is being split into. */
  parts(change: Change): readonly AskedFields[];
  setParts(parts: readonly AskedFields[]): void;
  split(change: Change, parts: readonly AskedFields[]): void;
  part(change: Change): void;
  /** Lets two lines change places. */
  swap(first: Id, second: Id): void;
  patch(change: Change, fields: object): void;
  settle(change: Change): void;
  answer(question: Question, body: object): void;
  withdrawKeep(keep: Keep): void;
  /** What is asked in a voice memo. */
  writeLine(note: Note, text: string): void;
  refusal(id: Id): TemplateResult | typeof nothing;
}

export function groupBlock(
  group: ListGroup,
  sheet: Sheet,
  order: Order,
  marks: ReadonlyMap<string, string>,
  marked: ReadonlySet<Id>,
  hand: Hand,
): TemplateResult {
  const first = group.names[0];
  const title = order === 'part' ? partWords(first ?? '') : first ? sectionWords(group.names) : 'Whole song';
  return html`<section class="sect">
    <h2>${order === 'section' ? mark(first ? (marks.get(first) ?? '–') : 'All') : nothing}<span>${title}</span></h2>
    <div>
      ${group.bundles.map((bundle, i) => bundleRows(bundle, sheet, marked, hand, {
          before: group.bundles[i - 1]?.[0]?.change.id ?? null, after: group.bundles[i + 1]?.[0]?.change.id ?? null,
        }))}
      ${group.keeps.length === 0 ? nothing : html`<ul>${group.keeps.map((keep) => keepRow(keep, sheet, hand))}</ul>`}
    </div>
  </section>`;
}

function bundleRows(bundle: Bundle, sheet: Sheet, marked: ReadonlySet<Id>, hand: Hand, beside: Neighbours): TemplateResult {
  const rows = html`<ul>${bundle.map((line) => lineRow(line, sheet, marked, hand, beside))}</ul>`;
  if (!isAgainst(bundle)) return rows;
  const last = sheet.song.may.includes('settle');
  return html`<div class="against">${brace()}${rows}
    <div class="verdict">
      <p><b>These go against each other.</b> ${last ? 'You have the last word: which one?' : 'Whoever has the last word settles it.'}</p>
      ${last
        ? html`<p class="btns">${bundle.map(({ change }) => html`<button class="btn" type="button" @click=${() => hand.settle(change)}>As ${sheet.nameOf(change.author)} says<span class="hide">: ${change.text}</span></button>`)}</p>`
        : nothing}
      ${bundle.map(({ change }) => hand.refusal(change.id))}
    </div>
  </div>`;
}

function lineRow(line: Line, sheet: Sheet, marked: ReadonlySet<Id>, hand: Hand, beside: Neighbours): TemplateResult {
  const { change, others } = line;
  const what = whatWords(change);
  const apart = otherWishes(line);
  const works = sheet.song.may.includes('work-list');
  return html`<li class="chg">
    ${works && mayMark(change, sheet.mains)
      ? html`<input type="checkbox" aria-label="Tick: ${[change, ...apart].map((one) => `${whatWords(one)}, ${lineWhereWords(one)}`).join('; ')}" .checked=${marked.has(change.id)} @change=${() => hand.toggle(change)}>`
      : html`<span class="box">${sign(change.state)}</span>`}
    <div class="ask-w">
      <p class="what">${sign(change.state === 'unclear' ? 'ques' : askSign(change))}<span>${what}</span></p>
      <p class="small quiet">${lineWhereWords(change)}${change.follows ? ', after hearing' : ''}</p>
      ${apart.map((one) => html`<p class="what">${sign(askSign(one))}<span>${whatWords(one)}</span></p>
        <p class="small quiet">${lineWhereWords(one)}${one.follows ? ', after hearing' : ''}</p>`)}
      ${change.newWork ? html`<p class="small"><b>New work:</b> ${NEW_WORK_WORDS[change.newWork]}</p>` : nothing}
      ${change.usual && change.amount ? html`<p class="small quiet">${usualWords(change.amount, change.usual)}</p>` : nothing}
    </div>
    <div class="words">${[change, ...others].map((one) => html`${said(one.text)}<p class="small quiet">${sheet.nameOf(one.author)}</p>`)}</div>
    <div class="stt">
      ${stateLines(change, sheet)}
      ${change.state === 'unclear' ? questionBox(change, sheet, hand) : nothing}
      ${[change, ...others].map((one) => html`${theirActs(one, sheet, hand)}${hand.refusal(one.id)}`)}
      ${lineTools(line, sheet, hand, beside)}
    </div>
    <div class="go">${[change, ...apart].map((one) => loopLink(one, sheet))}</div>
  </li>`;
}

/** Of what is worked together, the wishes that ask for something else or elsewhere, each once. */
function otherWishes({ change, others }: Line): readonly Change[] {
  const said = new Set<string>();
  return [change, ...others].filter((one) => {
    const words = `${whatWords(one)}\n${lineWhereWords(one)}`;
    return !said.has(words) && said.add(words);
  }).slice(1);
}

/** What is asked; of what is unclear, only that. */
function whatWords(change: Change): string {
  if (change.state !== 'unclear') return `${partWords(change.element)}: ${askWords(change)}`;
  return change.element === 'mix' ? 'Unclear' : `${partWords(change.element)}: unclear`;
}

function stateLines(change: Change, sheet: Sheet): TemplateResult {
  const done = change.state === 'done' && change.doneIn ? ` in ${sheet.labelOf(change.doneIn)}` : '';
  const answer = change.answer && change.answer !== 'as-asked' ? `: ${ANSWER_WORDS[change.answer]}` : '';
  const verdict = change.verdicts?.find((one) => one.bounce === change.doneIn);
  return html`<p>${state(change.state, `${STATE_WORDS[change.state]}${done}${answer}`)}</p>
    ${change.reason ? said(change.reason) : nothing}
    ${verdict ? html`<p class=${verdict.seen === 'as-asked' ? 'small quiet' : 'small stray'}>${verdictWords(verdict)}</p>` : nothing}`;
}


/** What the evidence says, for engineers: "+0.8 dB, as asked". */
function verdictWords(verdict: Verdict): string {
  const measured = verdict.measuredDb === null ? '' : `${signedFigure(verdict.measuredDb, 'dB')}, `;
  return `${measured}${SEEN_WORDS[verdict.seen]}${verdict.detail ? `. ${verdict.detail}` : ''}`;
}

function keepRow(keep: Keep, sheet: Sheet, hand: Hand): TemplateResult {
  const note = sheet.notes.find((one) => one.id === keep.note);
  const author = note ? sheet.nameOf(note.author) : '';
  const mine = note !== undefined && note.author === me.value?.id;
  return html`<li class="chg">
    <span class="box">${sign('good')}</span>
    <div class="ask-w"><p class="what">${sign('hold')}<span>${partWords(keep.element)}: leave alone</span></p><p class="small quiet">${lineWhereWords(keep)}</p></div>
    <div class="words">${said(keep.text)}<p class="small quiet">${author}</p></div>
    <div class="stt"><p>${state('good', 'in force')}</p>
      ${mine || sheet.song.you.lastWord
        ? html`<button class="btn plain flush" type="button" @click=${() => hand.withdrawKeep(keep)}>No longer<span class="hide"> leave ${keep.element} alone</span></button>`
        : nothing}
      ${hand.refusal(keep.id)}</div>
    <div class="go"></div>
  </li>`;
}

/** To the place in the song, looping; a stretch on the mix it was written on, with the newest beside it. */
function loopLink(change: Change, sheet: Sheet): TemplateResult | typeof nothing {
  const { song } = sheet;
  const loop = (href: string, words: string) => html`<a class="loop" href=${href} aria-label="Hear ${words} in a loop">${sign('loop', '')}</a>`;
  if (isStretch(change.where) && !change.afterEnd) {
    const { from, to } = change.where;
    const wide = to - from < LEAST_LOOP ? { from: Math.max(0, from - LEAST_LOOP), to: from + LEAST_LOOP } : { from, to };
    const newest = song.newest && song.newest.bounce !== change.bounce ? song.newest.bounce : null;
    return loop(loopHref(song.id, change.bounce, newest, wide), whereWords(change.where));
  }
  const section = sectionsOf(change.where, sheet.sections)[0];
  if (section) return loop(`/songs/${song.id}?loop=${encodeURIComponent(section)}`, section);
  return html`<a class="loop" href="/songs/${song.id}?play=1" aria-label="Hear the song">${sign('play', 'g fill')}</a>`;
}

/** Under the final barline: what came after the list was closed waits for the next round. */
export function laterBlock(later: readonly Change[], sheet: Sheet, hand: Hand): TemplateResult | typeof nothing {
  if (later.length === 0) return nothing;
  const works = sheet.song.may.includes('work-list');
  return html`<section class="sect later">
    <h2>Came later <span class="quiet">After the list was closed. They wait for round ${sheet.song.round}.</span></h2>
    <ul>
      ${later.map((change) => html`<li class="chg">
        <span class="box">${sign(change.state)}</span>
        <div class="ask-w"><p class="what">${sign(askSign(change))}<span>${partWords(change.element)}: ${askWords(change)}</span></p><p class="small quiet">${lineWhereWords(change)}</p></div>
        <div class="words">${said(change.text)}<p class="small quiet">${sheet.nameOf(change.author)}</p></div>
        <div class="stt">
          ${works ? html`<button class="btn" type="button" @click=${() => hand.patch(change, { round: sheet.song.round - 1 })}>Take in now</button>` : stateLines(change, sheet)}
          ${theirActs(change, sheet, hand)}
          ${hand.refusal(change.id)}
        </div>
        <div class="go">${loopLink(change, sheet)}</div>
      </li>`)}
    </ul>
  </section>`;
}

/** Memos nobody has written down yet; the engineer writes their line. */
export function memoBlock(sheet: Sheet, hand: Hand): TemplateResult | typeof nothing {
  const memos = sheet.notes.filter((note) => note.memo !== null && note.memo.line === null);
  if (memos.length === 0) return nothing;
  const works = sheet.song.may.includes('work-list');
  const send = (event: SubmitEvent, note: Note) => {
    event.preventDefault();
    const text = String(new FormData(event.target as HTMLFormElement).get('text') ?? '').trim();
    if (text !== '') hand.writeLine(note, text);
  };
  return html`<section class="sect remarks">
    <h2><span>To listen to</span></h2>
    <ul>${memos.map((note) => html`<li class="words">${memoPlayer(note)}<p class="small quiet">${sheet.nameOf(note.author)}, ${day(note.at)}${note.from === null ? '' : `, at ${clock(note.from)} of ${sheet.labelOf(note.bounce)}`}</p>
      ${works ? html`<form class="copy" @submit=${(e: SubmitEvent) => send(e, note)}><input type="text" name="text" aria-label="What ${sheet.nameOf(note.author)} asks for, in a line" placeholder="What is asked, in a line" required maxlength="4000" autocomplete="off">
        <button class="btn" type="submit">Write it down</button></form>${hand.refusal(note.id)}` : nothing}</li>`)}</ul>
  </section>`;
}

/** What somebody wrote beside their wishes, and what could not be read: no word is lost. */
export function besideBlock(sheet: Sheet): TemplateResult | typeof nothing {
  const notes = sheet.notes.filter((note) => note.changes.length + note.keeps.length > 0 && note.unread.length > 0);
  if (notes.length === 0) return nothing;
  return html`<section class="sect remarks">
    <h2><span>Also said</span></h2>
    <ul>${notes.map((note) => html`<li class="words">${said(note.unread.join(' … '))}<p class="small quiet">${sheet.nameOf(note.author)}, ${note.saidWhen ?? day(note.at)}, beside what is on the list</p></li>`)}</ul>
  </section>`;
}

/** Notes that ask for nothing are kept as they were written: praise, mostly. */
export function remarkBlock(sheet: Sheet): TemplateResult | typeof nothing {
  const remarks = sheet.notes.filter((note) => note.changes.length === 0 && note.keeps.length === 0 && (note.memo === null || note.memo.line !== null));
  if (remarks.length === 0) return nothing;
  return html`<section class="sect remarks">
    <h2><span>Nothing asked</span></h2>
    <ul>${remarks.map((note) => html`<li class="words">${said(note.memo?.line ?? note.text)}${note.memo ? memoPlayer(note) : nothing}<p class="small quiet">${sheet.nameOf(note.author)}, ${note.saidWhen ?? day(note.at)}</p></li>`)}</ul>
  </section>`;
}
