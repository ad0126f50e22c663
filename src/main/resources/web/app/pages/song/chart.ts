/** The form of the song: sections down, parts across. */
import { html, nothing, type TemplateResult } from 'lit';
import type { Change, Comparison, Finding, Keep, SectionChange } from '../../api/types.ts';
import { bars, type Span } from '../../geometry/form.ts';
import { apart, brace, mark, sign, state } from '../../signs/signs.ts';
import { askSign, askWords, ANSWER_WORDS, partWords, SEEN_WORDS } from '../../words/changes.ts';
import { writingWords } from '../../words/gathering.ts';
import { capital, clock, count, figure, signedFigure } from '../../words/numbers.ts';
import { mixName, nameOf, standing, touches, wholeSong, type Context } from './context.ts';
import { mayBeDoneIn } from '../../state/sheet.ts';

/** What measuring says, for those who may see it. */
export interface Evidence {
  readonly comparison: Comparison | null;
  readonly findings: readonly Finding[];
  /** Changes with their verdicts, by id. */
  readonly judged: ReadonlyMap<string, Change>;
}

export interface ChartActions {
  done(change: Change): void;
  /** Takes an unclear change as the engineer reads it. */
  asRead(change: Change): void;
}

const WHOLE = 'mix';

/** Parts across: those that were asked about, those that have files of their own, then the whole mix. */
function partsOf(context: Context, evidence: Evidence): { element: string; thin: boolean }[] {
  const asked = new Set<string>();
  for (const c of standing(context.data.changes)) asked.add(c.element);
  for (const k of context.data.keeps) asked.add(k.element);
  const known = evidence.comparison?.sections[0]?.elements?.map((e) => e.element) ?? [];
  const order = [...known, ...[...asked].filter((e) => !known.includes(e))].filter((e) => e !== WHOLE);
  const gone = (element: string) => evidence.findings.some((f) => f.code === 'dropped-part' && names(f, element));
  return [...order.map((element) => ({ element, thin: !asked.has(element) && !gone(element) })), { element: WHOLE, thin: false }];
}

/** @param anchored whether rows carry the ids that keys scroll to; only one list of a page may */
export function chart(context: Context, evidence: Evidence, actions: ChartActions, anchored = true): TemplateResult {
  const parts = partsOf(context, evidence);
  const { data } = context;
  const moved = context.may('hear-private');
  const whole = [...standing(data.changes), ...data.keeps].filter((t) => wholeSong(t, data));
  return html`<table class="chart" role="table">
    <caption class="hide">The form of the song: sections down, parts across. A line down a part means that it sounds there.</caption>
    <colgroup><col class="sec">${parts.map((p) => html`<col class=${p.thin ? 'thin' : ''}>`)}${moved ? html`<col class="moved">` : nothing}</colgroup>
    <thead role="rowgroup"><tr role="row"><th scope="col" role="columnheader">Section</th>
      ${parts.map((p) => html`<th scope="col" role="columnheader">${p.thin ? html`<abbr title=${partWords(p.element)}>${short(p.element)}</abbr>` : partWords(p.element)}</th>`)}
      ${moved ? html`<th scope="col" role="columnheader">${data.other ? `What moved since ${mixName(data, data.other.id)}` : 'What moved'}</th>` : nothing}</tr></thead>
    <tbody role="rowgroup">
      ${whole.length > 0 ? wholeRow(context, parts.map((p) => p.element), evidence, actions, moved) : nothing}
      ${context.spans.map((span) => row(context, span, parts.map((p) => p.element), evidence, actions, moved, anchored))}
    </tbody></table>${signsKey(evidence.comparison !== null)}`;
}

/** A part's name in two or three letters, for a column nobody asks about. */
function short(element: string): string {
  const words = element.split(' ');
  return words.length > 1 ? words.map((w) => w.charAt(0).toUpperCase()).join('') : capital(element.slice(0, 3));
}

function wholeRow(context: Context, parts: readonly string[], evidence: Evidence, actions: ChartActions, moved: boolean): TemplateResult {
  const { data } = context;
  return html`<tr role="row"><th scope="row" role="rowheader"><div class="sec-h">${mark('All')}<span><b>Whole song</b></span></div></th>
    ${parts.map((element) => {
      const asks = standing(data.changes).filter((c) => c.element === element && wholeSong(c, data));
      const keeps = data.keeps.filter((k) => k.element === element && wholeSong(k, data));
      return asks.length + keeps.length === 0
        ? html`<td role="cell" class="c nil rest"></td>`
        : html`<td role="cell" class="c rest">${partName(element)}${asksOf(context, asks, evidence, actions)}${keeps.map((k) => keep(context, k))}</td>`;
    })}${moved ? html`<td role="cell" class="mvc nil"></td>` : nothing}</tr>`;
}

function row(context: Context, span: Span, parts: readonly string[], evidence: Evidence, actions: ChartActions, moved: boolean, anchored: boolean): TemplateResult {
  const now = context.here === span.name;
  const number = bars(span, context.pulse);
  const compared = evidence.comparison?.sections.find((s) => s.name === span.name);
  const looped = isLooped(context, span);
  return html`<tr role="row" class=${now ? 'now' : ''} id=${anchored ? rowId(span.name) : nothing} aria-current=${now ? 'true' : nothing}>
    <th scope="row" role="rowheader"><div class="sec-h">
      <button class="rm-press" type="button" @click=${() => context.loopSection(span.name)} aria-pressed=${looped} aria-label="Loop ${span.name}">${mark(context.marks.get(span.name) ?? '')}</button>
      <span><b>${span.name}</b> <span class="small quiet">${number ? `${number} ${number === 1 ? 'bar' : 'bars'}, ` : ''}${clock(span.from)}</span></span>
      <button class="loop" type="button" tabindex="-1" aria-hidden="true" aria-pressed=${looped} @click=${() => context.loopSection(span.name)}>${sign('loop', '')}</button></div></th>
    ${parts.map((element) => cell(context, span, element, compared, evidence, actions))}
    ${moved ? html`<td role="cell" class="mvc">${movedHere(context, span, compared, evidence)}</td>` : nothing}</tr>`;
}

export function rowId(section: string): string {
  return `s-${section.toLowerCase().replace(/[^a-z0-9]+/g, '-')}`;
}

export function isLooped(context: Context, span: Span): boolean {
  const { loop } = context.player.state;
  return loop !== null && Math.abs(loop.from - span.from) < 0.01 && Math.abs(loop.to - span.to) < 0.01;
}

function cell(context: Context, span: Span, element: string, compared: SectionChange | undefined, evidence: Evidence, actions: ChartActions): TemplateResult {
  const { data } = context;
  const asks = standing(data.changes).filter((c) => c.element === element && touches(c, span, data));
  const keeps = data.keeps.filter((k) => k.element === element && touches(k, span, data));
  const known = compared?.elements?.find((e) => e.element === element);
  const lost = dropped(span, element, evidence);
  const classes = ['c', element === WHOLE ? 'whole' : '', known?.present || lost ? '' : 'rest', lost ? 'lost' : '',
    asks.length + keeps.length === 0 && !lost ? 'nil' : ''].join(' ');
  return html`<td role="cell" class=${classes}>${partName(element)}
    ${known && !known.present && !lost && asks.length === 0 ? html`<span class="hide">silent</span>` : nothing}
    ${asksOf(context, asks, evidence, actions, span)}${keeps.map((k) => keep(context, k))}
    ${lost ? html`<p class="what stray"><span>Dropped out</span></p><span class="ev stray">${lost.detail}</span>` : nothing}</td>`;
}

function partName(element: string): TemplateResult {
  return html`<span class="part-name">${partWords(element)}</span>`;
}

/** Asks that stand against each other lie under one brace. */
function asksOf(context: Context, asks: readonly Change[], evidence: Evidence, actions: ChartActions, span?: Span): TemplateResult {
  const against = asks.filter((c) => c.conflictsWith.length > 0);
  const rest = asks.filter((c) => c.conflictsWith.length === 0);
  return html`${against.length > 0
    ? html`<div class="vs">${brace()}<div>${against.map((c) => ask(context, c, evidence, actions, span))}</div></div>` : nothing}
    ${rest.map((c) => ask(context, c, evidence, actions, span))}`;
}

function ask(context: Context, change: Change, evidence: Evidence, actions: ChartActions, span?: Span): TemplateResult {
  const { data, me } = context;
  const first = span && Array.isArray(change.where) ? change.where.find((n) => context.marks.has(n)) : undefined;
  const again = span !== undefined && first !== undefined && first !== span.name;
  const who = [change.author, ...change.mergedWith.map((id) => data.changes.find((c) => c.id === id)?.author ?? null)];
  const verdict = evidence.judged.get(change.id)?.verdicts?.find((v) => v.bounce === (change.doneIn ?? data.lead?.id));
  const refused = context.refusals.get(`done ${change.id}`);
  return html`<div class="ask" data-change=${change.id}>
    ${again
      ? html`<p class="sim">${sign('simile')}<span>as in ${context.marks.get(first!) ?? first}</span></p>`
      : html`<p class="what">${sign(change.state === 'unclear' ? 'ques' : askSign(change))}<span>${change.state === 'unclear' || change.aspect === 'other' ? html`“${apart(change.text)}”` : capital(askWords(change))}</span></p>`}
    <p class="meta">${again ? nothing : html`<span>${[...new Set(who.map((w) => capital(nameOf(data, w, me))))].join(', ')}</span>`} ${stateOf(change)}</p>
    ${verdict ? html`<span class=${['too-far', 'opposite', 'not-seen'].includes(verdict.seen) ? 'ev stray' : 'ev'}>${verdict.measuredDb === null ? nothing : html`<b>${signedFigure(verdict.measuredDb, 'dB')}</b>, `}${SEEN_WORDS[verdict.seen]}</span>` : nothing}
    ${change.conflictsWith.length > 0 ? html`<span class="ev">Against ${change.conflictsWith.map((id) => nameOf(data, data.changes.find((c) => c.id === id)?.author ?? null, me)).join(', ')}; waits for the last word</span>` : nothing}
    ${!again && change.state === 'asked' && change.conflictsWith.length === 0 && context.may('work-list') && mayBeDoneIn([change], data.lead)
      ? html`<button class="btn plain tick" type="button" data-done=${change.id} ?disabled=${context.running === `done ${change.id}`} @click=${() => actions.done(change)}>${sign('done')}Done in ${mixName(data, data.lead!.id)}</button>` : nothing}
    ${!again && change.state === 'unclear' ? unclear(context, change, actions) : nothing}
    ${refused ? html`<span class="ev" role="alert">${refused.words}</span>` : nothing}
  </div>`;
}

/** What was asked back; the engineer may take it as read, and the author is told. */
function unclear(context: Context, change: Change, actions: ChartActions): TemplateResult {
  const asked = context.data.questions.find((q) => q.changes.includes(change.id));
  return html`${asked ? html`<span class="ev">Asked back: ${asked.text}</span>` : nothing}
    ${context.may('work-list') ? html`<button class="btn plain tick" type="button" @click=${() => actions.asRead(change)}>Take it as I read it</button>` : nothing}`;
}

function stateOf(change: Change): TemplateResult {
  if (change.state === 'left') {
    const why = change.answer ? ANSWER_WORDS[change.answer] : change.reason ?? '';
    return state('left', why ? `left: ${why}` : 'left');
  }
  if (change.state === 'done') return state('done', change.answer === 'differently' ? 'done differently' : 'done');
  if (change.follows && change.state === 'asked') return state('followed');
  return state(change.state);
}

function keep(context: Context, kept: Keep): TemplateResult {
  const author = context.data.notes.find((n) => n.id === kept.note)?.author ?? null;
  return html`<div class="ask"><p class="what">${sign('hold')}<span>Leave alone</span></p>
    <p class="meta"><span>${author ? capital(nameOf(context.data, author, context.me)) : ''}</span> ${state('good', 'in force')}</p></div>`;
}

function within(finding: Finding, span: Span): boolean {
  return finding.from !== null && finding.to !== null && finding.from < span.to - 0.05 && finding.to > span.from + 0.05;
}

/** Whether a finding speaks of a part. */
function names(finding: Finding, element: string): boolean {
  return element !== WHOLE && finding.detail.toLowerCase().includes(element);
}

function dropped(span: Span, element: string, evidence: Evidence): Finding | undefined {
  return evidence.findings.find((f) => f.code === 'dropped-part' && within(f, span) && names(f, element));
}

function movedHere(context: Context, span: Span, compared: SectionChange | undefined, evidence: Evidence): TemplateResult {
  if (!context.data.other) return html`<div class="mv no"><span>${context.data.lead?.number === 1 ? 'First mix' : 'Set against no other mix'}</span></div>`;
  if (evidence.comparison?.likeness === 'not-comparable') return html`<div class="mv no"><span>No common music found</span></div>`;
  if (!compared) return html`<div class="mv no"><span>Being compared</span></div>`;
  const strays = evidence.findings.filter((f) => ['something-else-moved', 'dropped-part', 'keep-broken'].includes(f.code) && within(f, span));
  const rest = compared.residualDb === null ? '' : `rest ${figure(compared.residualDb, 'dB', 0)}`;
  const parts = (compared.elements ?? []).filter((e) => e.gainChangeDb !== null && Math.abs(e.gainChangeDb) > Math.max(0.2, e.plusMinusDb ?? 0));
  const figures = html`<span class="quiet">${compared.loudnessChangeLu === null ? nothing : html`<b>${signedFigure(compared.loudnessChangeLu, 'LU')}</b>, `}${rest}</span>`;
  if (strays.length > 0) {
    return html`<div class="mv un"><span class="stray">${strays.map((f) => f.detail).join(' ')}</span>${figures}</div>`;
  }
  switch (compared.difference) {
    case 'unchanged': return html`<div class="mv no"><span>Nothing moved</span><span>${compared.residualDb === null ? '' : `nulls to ${figure(compared.residualDb, 'dB', 0)}`}</span></div>`;
    case 'uncertain': return html`<div class="mv no"><span>Can’t be told for certain</span>${figures}</div>`;
    case 'only-here': return html`<div class="mv asked"><span>Only in this mix</span></div>`;
    case 'only-there': return html`<div class="mv asked"><span>Not in this mix any more</span></div>`;
    default: return html`<div class="mv asked"><span>${parts.length > 0 ? capital(parts.map((e) => e.element).join(', ')) : 'Moved'}</span>${figures}</div>`;
  }
}

function signsKey(sounding: boolean): TemplateResult {
  return html`<ul class="key" aria-label="Signs">
    ${sounding ? html`<li><span class="ln"></span>the part sounds here</li>` : nothing}<li>${sign('asked')}asked</li><li>${sign('done')}done</li><li>${sign('good')}good, or in force</li>
    <li>${sign('followed')}asked again</li><li>${sign('left')}left, with a reason</li><li>${sign('unclear')}unclear</li><li>${sign('simile')}the same change again</li></ul>`;
}

/** What the engineer sees first: how many done, open, unclear, against each other. */
export function summary(context: Context, evidence: Evidence): TemplateResult {
  const changes = standing(context.data.changes);
  const number = (test: (c: Change) => boolean) => changes.filter(test).length;
  const done = number((c) => c.state === 'done');
  const open = number((c) => c.state === 'asked' && c.conflictsWith.length === 0);
  const unclear = number((c) => c.state === 'unclear');
  const pairs = number((c) => c.conflictsWith.length > 0 && c.state === 'asked');
  const strays = evidence.findings.filter((f) => ['something-else-moved', 'dropped-part'].includes(f.code)).length;
  const { comparison } = evidence;
  const line = (name: string, words: string) => html`<li>${sign(name)}${words}</li>`;
  return html`<ul class="sum" aria-label="In short">
    ${done ? line('done', `${count(done, 'change')} done`) : nothing}
    ${open ? line('asked', `${count(open, 'change')} open`) : nothing}
    ${unclear ? line('unclear', `${count(unclear, 'change')} unclear, asked back`) : nothing}
    ${pairs ? line('asked', `${count(pairs, 'change')} against each other, for the last word`) : nothing}
    ${context.data.song.writing > 0 ? line('unclear', writingWords(context.data.song)) : nothing}
    ${strays ? html`<li class="stray"><i class="hatch"></i><a class="stray" href="#checks">${count(strays, 'thing')} moved that nobody asked for</a></li>` : nothing}
    ${comparison && comparison.offsetSeconds !== null && Math.abs(comparison.offsetSeconds) > 0.02 && context.data.other
      ? html`<li class="quiet">The music comes ${Math.abs(comparison.offsetSeconds).toFixed(1)} s ${comparison.offsetSeconds > 0 ? 'earlier' : 'later'} in ${mixName(context.data, context.data.lead!.id)} than in ${mixName(context.data, context.data.other.id)}. All places have moved along.</li>` : nothing}
    ${changes.length === 0 ? html`<li class="quiet">Nobody has asked for anything.</li>` : nothing}
  </ul>`;
}
