/** The tables of the figures: sections, the curve, what was agreed. */
import { html, nothing, type TemplateResult } from 'lit';
import type { Agreed, Figures, Measurements, Series } from '../../api/types.ts';
import { at, type Span } from '../../geometry/form.ts';
import { mark, sign } from '../../signs/signs.ts';
import { agreedFigure, agreedWords } from '../../words/delivery.ts';
import { clock, clockTenths, figure, signedFigure } from '../../words/numbers.ts';

interface Column {
  readonly words: string;
  readonly unit: string;
  /** What it is called among engineers. */
  readonly short?: string;
  readonly of: (m: Figures) => number | null;
  /** The time it was found at. */
  readonly at?: (m: Figures) => number | null;
  readonly digits?: number;
  readonly signed?: boolean;
}

const COLUMNS: readonly Column[] = [
  { words: 'Ungated', unit: 'LUFS', of: (m) => m.ungatedLufs },
  { words: 'Gated', unit: 'LUFS', of: (m) => m.integratedLufs },
  { words: 'Part of the song', unit: 'LUFS', of: (m) => m.shareLufs },
  { words: 'Loudest 3 s', unit: 'LUFS', of: (m) => m.maxShortTermLufs, at: (m) => m.maxShortTermAt },
  { words: 'Loudest 0.4 s', unit: 'LUFS', of: (m) => m.maxMomentaryLufs },
  { words: 'Range', unit: 'LU', short: 'LRA', of: (m) => m.loudnessRangeLu },
  { words: 'True peak', unit: 'dBTP', of: (m) => m.truePeakDbtp, at: (m) => m.truePeakAt },
  { words: 'Sample peak', unit: 'dBFS', of: (m) => m.samplePeakDbfs },
  { words: 'Peak to loudness', unit: 'dB', short: 'PLR', of: (m) => m.peakToLoudnessDb },
  { words: 'Least peak to 3 s', unit: 'dB', short: 'PSR', of: (m) => m.minPeakToShortTermDb, at: (m) => m.minPeakToShortTermAt },
  { words: 'Correlation', unit: '', of: (m) => m.correlation, digits: 2, signed: true },
  { words: 'Sides to middle', unit: 'dB', of: (m) => m.sideToMidDb },
  { words: 'Lost in mono', unit: 'dB', of: (m) => m.monoLossDb },
];

/** One channel has nothing to set left against right by, and is heard from two loudspeakers. */
const FROM_TWO: Column = { words: 'Gated, from two', unit: 'LUFS', of: (m) => m.dualMonoLufs ?? null };
const PAIR_ONLY: readonly string[] = ['Correlation', 'Sides to middle', 'Lost in mono'];
const MONO_COLUMNS: readonly Column[] = COLUMNS.filter((c) => !PAIR_ONLY.includes(c.words)).flatMap((c) => (c.words === 'Gated' ? [c, FROM_TWO] : [c]));

/** The whole and every section, figure by figure. */
export function sectionTable(all: Measurements, marks: ReadonlyMap<string, string>, hear: (name: string) => string): TemplateResult {
  const cell = (m: Figures, c: Column) => {
    const value = c.of(m);
    const text = value === null ? '–' : (c.signed ? signedFigure : figure)(value, '', c.digits ?? 1).trim();
    const when = c.at?.(m);
    return html`<td><span class="onphone quiet">${c.words}</span><span class="val">${text}<span class="onphone"> ${value === null ? '' : c.unit}</span>${when == null ? nothing : html` <span class="small quiet">at ${clockTenths(when)}</span>`}</span></td>`;
  };
  const mono = all.whole.dualMonoLufs != null;
  const columns = mono ? MONO_COLUMNS : COLUMNS;
  return html`<table class="rows sections-fig"><caption class="hide">Figures of the whole song and of each section</caption>
    <thead><tr><th scope="col">Section</th>${columns.map((c) => html`<th scope="col">${c.words}${c.unit ? html`<br><span class="unit">${c.short ? `${c.short}, ` : ''}${c.unit}</span>` : nothing}</th>`)}</tr></thead>
    <tbody><tr><th scope="row"><b>Whole song</b></th>${columns.map((c) => cell(all.whole, c))}</tr>
    ${all.sections.map((s) => html`<tr><th scope="row"><span class="sec">${mark(marks.get(s.name) ?? '–', true)}<span><b>${s.name}</b><br><span class="small quiet">${clock(s.from)} to ${clock(s.to)}</span></span>
      <a class="loop" href=${hear(s.name)} aria-label="Hear ${s.name}">${sign('loop', '')}</a></span></th>${columns.map((c) => cell(s, c))}</tr>`)}</tbody></table>
    <p class="small quiet gap">Ungated counts every moment alike, so it is the one to set two mixes against each other by. Gated leaves out what is quiet, by BS.1770. Part of the song is what a section gives to the song’s gated loudness; none where it lies under the song’s gate. ${mono ? 'A mono file sounds from two loudspeakers: the second gated figure counts it twice, as it compares with stereo. ' : nothing}Ranges under a minute say little, under 10 s there is none.</p>`;
}

/** Every step of the curve, as the picture has it. */
export function seriesTable(series: Series, spans: readonly Span[]): TemplateResult {
  const cell = (value: number | null | undefined) => html`<td>${figure(value, '').trim()}</td>`;
  return html`<div class="wide-table tall" tabindex="0" role="region" aria-label="The curve as a table"><table class="fig series-table"><thead><tr><th scope="col">Time</th><th scope="col">Section</th>
    <th scope="col">Short-term, LUFS</th><th scope="col">Momentary, LUFS</th><th scope="col">True peak, dBTP</th><th scope="col">Sample peak, dBFS</th><th scope="col">Correlation</th></tr></thead><tbody>
    ${series.atSeconds.map((t, i) => html`<tr><th scope="row">${clockTenths(t)}</th><td>${at(spans, t)?.name ?? '–'}</td>${cell(series.shortTermLufs[i])}${cell(series.momentaryLufs[i])}
      ${cell(series.truePeakDbtp[i])}${cell(series.samplePeakDbfs[i])}<td>${signedFigure(series.correlation[i], '', 2).trim()}</td></tr>`)}</tbody></table></div>`;
}

/** What was agreed, what the mix has, and whether that is met: by a sign and a word. */
export function deliveryList(agreed: readonly Agreed[], project: string): TemplateResult {
  if (agreed.length === 0) {
    return html`<p class="quiet">Nothing was agreed about loudness, peaks or the file. <a href="/projects/${project}">Agree on something</a></p>`;
  }
  const kept = (a: Agreed) => (a.met === null ? html`${sign('ques')}can’t be told` : a.met ? html`${sign('good')}met` : html`${sign('stop')}not met`);
  return html`<table class="fig delivery"><caption class="hide">What was agreed for delivery, and what this mix has</caption>
    <thead><tr><th scope="col">Agreed</th><th scope="col">Limit</th><th scope="col">This mix</th><th scope="col">Kept</th></tr></thead><tbody>
    ${agreed.map((a) => html`<tr><th scope="row">${agreedWords(a.field)}</th><td>${agreedFigure(a.field, a.agreed)}</td>
      <td>${agreedFigure(a.field, a.found)}</td><td><span class="st">${kept(a)}</span></td></tr>`)}</tbody></table>
    <ul class="small quiet gap">${agreed.filter((a) => a.met !== true).map((a) => html`<li>${a.words}</li>`)}</ul>`;
}
