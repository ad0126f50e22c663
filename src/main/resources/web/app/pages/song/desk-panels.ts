/** The engineer's panels under the chart: checks, figures, sending. */
import { html, nothing, type TemplateResult } from 'lit';
import { api } from '../../api/client.ts';
import type { Bounce, Comparison, Figures, Finding, Measurements } from '../../api/types.ts';
import { refused, sign } from '../../signs/signs.ts';
import { alike, behind, limitWords } from '../../words/checks.ts';
import { capital, clock, clockTenths, count, figure, listed, signedFigure } from '../../words/numbers.ts';
import { isSent, mixWords } from '../../words/mixes.ts';
import { figuresHref, standing, type Context } from './context.ts';

/** What one mix measures, and the other beside it. */
export interface Measured {
  readonly lead: Measurements | null;
  readonly other: Measurements | null;
  readonly comparison: Comparison | null;
}

const BEFORE_AFTER = ['dropped-part', 'something-else-moved', 'keep-broken'];

/** Findings of the leading mix: private ones are the checks before it is sent. */
export function checks(context: Context, findings: readonly Finding[] | null, loop: (from: number, to: number, cross: boolean) => void, passed: ReadonlySet<string>, pass: (keys: readonly string[]) => void): TemplateResult {
  const lead = context.data.lead!;
  const shown = (findings ?? []).filter((f) => !passed.has(findingKey(f)));
  const gone = (findings ?? []).length - shown.length;
  return html`<section id="checks"><h2>${isSent(lead) ? `Checks on ${mixWords(lead)}` : 'Checks before you send'}</h2>
    <p class="private">${sign('shut')}Only engineers see this</p>
    ${findings === null ? html`<p class="quiet gap">${mixWords(lead)} is being looked through.</p>` : nothing}
    ${findings !== null && shown.length === 0 ? html`<p class="gap">Nothing found${gone > 0 ? ' beside what you have put aside' : ''}.</p>` : nothing}
    <ul class="todo gap">${alike(shown).map((all) => html`${all.slice(0, SHOWN).map((f) => check(context, f, loop, pass))}${rest(all.slice(SHOWN), all, (f) => check(context, f, loop, pass), pass)}`)}</ul></section>`;
}

/** Findings of one kind that are shown at once; the server names the worst first. */
const SHOWN = 2;

/** What is left of one kind, behind a fold, so that it hides nothing else. */
function rest(left: readonly Finding[], all: readonly Finding[], one: (f: Finding) => TemplateResult, pass: (keys: readonly string[]) => void): TemplateResult | typeof nothing {
  if (left.length === 0) return nothing;
  return html`<li class="more"><details class="fold"><summary>${capital(count(left.length, 'place'))} more of the same kind</summary><ul class="todo">${left.map(one)}</ul></details>
    <p class="btns"><button class="btn plain" type="button" @click=${() => pass(all.map(findingKey))}>All ${all.length} are meant</button></p></li>`;
}

export function findingKey(f: Finding): string {
  return `${f.code} ${f.from?.toFixed(2) ?? ''} ${f.detail}`;
}

function check(context: Context, f: Finding, loop: (from: number, to: number, cross: boolean) => void, pass: (keys: readonly string[]) => void): TemplateResult {
  const pair = BEFORE_AFTER.includes(f.code) && context.data.other !== null;
  // What goes on past the section it begins in is no matter of that section.
  const section = f.from === null ? undefined : context.spans.find((s) => f.from! >= s.from && f.from! < s.to && (f.to === null || f.to <= s.to + 0.05));
  const where = f.from === null ? '' : f.to !== null && f.to - f.from > 1 ? `${clock(f.from)} to ${clock(f.to)}` : clockTenths(f.from);
  // A moment is played with the seconds around it.
  const from = f.from === null ? 0 : Math.max(0, f.to !== null && f.to - f.from > 2 ? f.from : f.from - 1.5);
  const to = f.to === null || f.from === null ? from + 4 : f.to - f.from > 2 ? f.to : f.to + 1.5;
  return html`<li><h3>${f.detail}</h3>
    <p class="small quiet">${[section?.name, where, limitWords(f), behind(f)].filter(Boolean).join(', ')}</p>
    <p class="btns">${f.from === null ? nothing : html`<button class="btn" type="button" @click=${() => loop(from, to, pair)}>${sign('loop')}${pair ? 'Before and after' : 'Play it'}</button>`}
      <button class="btn plain" type="button" @click=${() => pass([findingKey(f)])}>It is meant</button></p></li>`;
}

interface Row {
  readonly words: string;
  readonly unit: string;
  readonly of: (m: Figures) => number | null;
  readonly digits?: number;
}

const ROWS: readonly Row[] = [
  { words: 'Integrated', unit: 'LUFS', of: (m) => m.integratedLufs },
  { words: 'Range', unit: 'LU', of: (m) => m.loudnessRangeLu },
  { words: 'Loudest 3 s', unit: 'LUFS', of: (m) => m.maxShortTermLufs },
  { words: 'Loudest 0.4 s', unit: 'LUFS', of: (m) => m.maxMomentaryLufs },
  { words: 'True peak', unit: 'dBTP', of: (m) => m.truePeakDbtp },
  { words: 'Sample peak', unit: 'dBFS', of: (m) => m.samplePeakDbfs },
  { words: 'Peak to loudness', unit: 'dB', of: (m) => m.peakToLoudnessDb },
  { words: 'Sides to middle', unit: 'dB', of: (m) => m.sideToMidDb },
  { words: 'Lost in mono', unit: 'dB', of: (m) => m.monoLossDb },
];

/** Two mixes, figure by figure. */
export function figures(context: Context, measured: Measured, section: string, choose: (section: string) => void): TemplateResult {
  const { lead, other } = context.data;
  const pick = (m: Measurements | null): Figures | null =>
    m === null ? null : section === '' ? m.whole : m.sections.find((s) => s.name === section) ?? null;
  const here = pick(measured.lead);
  const there = pick(measured.other);
  const cell = (m: Figures | null, row: Row) => (m === null ? '–' : figure(row.of(m), '', row.digits ?? 1).trim());
  const change = (row: Row) => {
    const a = here && row.of(here);
    const b = there && row.of(there);
    return a == null || b == null ? '–' : signedFigure(a - b, '', row.digits ?? 1).trim();
  };
  return html`<section><h2>Figures</h2>
    <label class="pick">Of <select @change=${(e: Event) => choose((e.target as HTMLSelectElement).value)}>
      <option value="" ?selected=${section === ''}>the whole song</option>
      ${(measured.lead?.sections ?? []).map((s) => html`<option value=${s.name} ?selected=${s.name === section}>${s.name}</option>`)}</select></label>
    <table class="fig gap"><thead><tr><th scope="col"><span class="hide">Figure</span></th>${other ? html`<th scope="col">${mixWords(other)}</th>` : nothing}
      <th scope="col">${lead ? mixWords(lead) : ''}</th>${other ? html`<th scope="col">Moved</th>` : nothing}</tr></thead><tbody>
      ${ROWS.map((row) => html`<tr><th scope="row">${row.words}, ${row.unit}</th>${other ? html`<td>${cell(there, row)}</td>` : nothing}<td>${cell(here, row)}</td>${other ? html`<td>${change(row)}</td>` : nothing}</tr>`)}
      ${section === '' && lead ? fileRows(lead, other) : nothing}</tbody></table>
    ${measured.lead ? loudest(context, measured.lead) : nothing}
    ${section !== '' && here && !here.loudnessRangeStable && here.loudnessRangeLu !== null ? html`<p class="small quiet gap">Under a minute the range says little.</p>` : nothing}
    ${measured.comparison?.floorDb != null ? html`<p class="small quiet gap">Usual rest between these two files: ${figure(measured.comparison.floorDb, 'dB', 0)}.</p>` : nothing}</section>`;
}

/** Where it is loudest: a loop to begin checking from, and the way to all figures. */
function loudest(context: Context, all: Measurements): TemplateResult {
  const spot = all.loudest;
  const section = spot?.section ?? null;
  const from = spot?.from ?? null;
  const to = spot?.to ?? null;
  const loop = (stretch: { from: number; to: number }) => {
    context.player.setLoop(stretch, true);
    if (!context.player.playing) void context.player.play();
  };
  return html`<p class="btns gap">${section === null && from === null ? nothing : html`<span class="quiet">Loudest:</span>`}
    ${section === null ? nothing : html`<button class="btn" type="button" @click=${() => context.loopSection(section)}>${sign('loop', 'lp')}${section}</button>`}
    ${from === null || to === null ? nothing : html`<button class="btn" type="button" @click=${() => loop({ from, to })}>${sign('loop', 'lp')}${clockTenths(from)}, 3 s</button>`}
    <a class="btn plain" href=${figuresHref(context.data)}>All figures</a></p>`;
}

function fileRows(lead: Bounce, other: Bounce | null): TemplateResult {
  const length = (b: Bounce | null) => (b?.file?.seconds == null ? '–' : clockTenths(b.file.seconds));
  const format = (b: Bounce | null) => {
    const f = b?.file;
    if (!f || f.sampleRate === null) return '–';
    return `${f.sampleRate / 1000}k, ${f.bitDepth ?? (f.lossy ? 'lossy' : f.codec ?? '')}`;
  };
  const a = lead.file?.seconds;
  const b = other?.file?.seconds;
  return html`<tr><th scope="row">Length</th>${other ? html`<td>${length(other)}</td>` : nothing}<td>${length(lead)}</td>${other ? html`<td>${a == null || b == null ? '–' : signedFigure(a - b, 's')}</td>` : nothing}</tr>
    <tr><th scope="row">File</th>${other ? html`<td>${format(other)}</td>` : nothing}<td>${format(lead)}</td>${other ? html`<td>${format(lead) === format(other) ? 'same' : 'other'}</td>` : nothing}</tr>`;
}

/** Sending the private pass, with its label and one line. */
export function sendForm(context: Context, sent: () => void): TemplateResult | typeof nothing {
  const { data } = context;
  const lead = data.lead;
  if (!lead || isSent(lead) || lead.kind !== 'main' || !context.may('send')) return nothing;
  const sentMains = data.bounces.filter((b) => b.kind === 'main' && isSent(b));
  const given = lead.proposedLabel ?? null;
  const next = given !== null && !sentMains.some((b) => b.label === given) ? given : `Mix ${sentMains.length + 1}`;
  const done = standing(data.changes).filter((c) => c.state === 'done' && c.doneIn === lead.id).length;
  const others = data.people.filter((p) => p.role !== 'engineer').map((p) => p.name);
  const touched = (lead.defects ?? []).filter((d) => d.affectsSound);
  const submit = (e: SubmitEvent) => {
    e.preventDefault();
    const form = new FormData(e.target as HTMLFormElement);
    const label = String(form.get('label') ?? '').trim();
    const message = String(form.get('message') ?? '').trim();
    context.press('send', async () => {
      await api.post(`/bounces/${lead.id}/sending`, { ...(label ? { label } : {}), ...(message ? { message } : {}) });
      sent();
    });
  };
  return html`<section><h2>Send as ${next}</h2><form class="form gap" @submit=${submit}>
    <label>Label<input type="text" name="label" .value=${next} maxlength="80"></label>
    <label>What was done, in one line<textarea name="message" rows="2"></textarea></label>
    <p class="quiet">${others.length > 0 ? `${listed(others)} can hear it at once.` : 'Nobody else is in this project yet.'} ${done > 0 ? `${capital(done === 1 ? 'one change' : `${done} changes`)} will show as done.` : 'No change is marked as done yet.'}</p>
    ${touched.length > 0 ? html`<p><b>Something is wrong with this file.</b> ${touched.map((d) => d.detail).join(' ')} It can’t be approved like this.</p>` : nothing}
    ${refused(context.refusals.get('send'))}
    <p class="btns"><button class="btn main" type="submit" ?disabled=${context.running === 'send'}>Send ${next}</button></p></form></section>`;
}
