/** Loudness, peaks and correlation over time, read by hand, key or pointer. */
import { html, LitElement, nothing, svg, type TemplateResult } from 'lit';
import type { Series } from '../../api/types.ts';
import { columnsOf, crosses, curve, dot, hair, limit, ruled, timed } from '../../draw/chart.ts';
import { above, levels, levelTicks, pixel, stepAt, timeTicks, type Scale } from '../../geometry/chart.ts';
import { at, neighbour, type Span } from '../../geometry/form.ts';
import { boxes } from '../../geometry/strip.ts';
import { go } from '../../router.ts';
import { Scope } from '../../scope.ts';
import { sign } from '../../signs/signs.ts';
import { loopHref } from '../../state/wish.ts';
import { clock, clockTenths, figure, signedFigure } from '../../words/numbers.ts';

const LEFT = 44;
const RIGHT = 12;
const LOUD = { top: 32, bottom: 232 };
const PEAK = { top: 278, bottom: 388 };
const CORR = { top: 434, bottom: 504 };
const HEIGHT = 528;
const LOUD_SPAN = 36;
const PEAK_LOW = -24;

/** Where this mix can be heard: the song, the mix and the one it is heard against. */
export interface Heard { readonly song: string; readonly mix: string; readonly other: string | null }

class TimeChart extends LitElement {
  declare series: Series;
  declare spans: readonly Span[];
  declare marks: ReadonlyMap<string, string>;
  declare heard: Heard;
  /** Agreed ceiling of true peaks, and the loudness of the whole, where there is one. */
  declare ceiling: number | null;
  declare integrated: number | null;
  declare private width: number;
  declare private index: number;
  static properties = {
    series: { attribute: false }, spans: { attribute: false }, marks: { attribute: false }, heard: { attribute: false },
    ceiling: { attribute: false }, integrated: { attribute: false }, width: { state: true }, index: { state: true },
  };

  private scope = new Scope();

  constructor() {
    super();
    this.spans = [];
    this.marks = new Map();
    this.ceiling = null;
    this.integrated = null;
    this.width = 0;
    this.index = 0;
  }

  protected createRenderRoot(): HTMLElement {
    return this;
  }

  disconnectedCallback(): void {
    super.disconnectedCallback();
    this.scope.close();
  }

  firstUpdated(): void {
    this.scope.observeSize(this.querySelector('.curves')!, (width) => (this.width = Math.floor(width)));
  }

  willUpdate(changed: Map<string, unknown>): void {
    if (changed.has('series')) this.index = Math.max(0, loudestStep(this.series));
  }

  render(): TemplateResult {
    const { series, index } = this;
    const now = series.atSeconds[index] ?? series.from;
    return html`${this.reading(now)}
      <nav class="along" aria-label="Sections along the song: hear one on the song’s page">${this.width > 0 ? this.along() : nothing}</nav>
      <div class="curves" role="slider" tabindex="0" aria-label="Figures over time" aria-orientation="horizontal"
        aria-valuemin=${series.from.toFixed(1)} aria-valuemax=${series.to.toFixed(1)} aria-valuenow=${now.toFixed(1)} aria-valuetext=${this.spoken(now)}
        @keydown=${this.key} @pointerdown=${this.point} @pointermove=${this.point}>
        ${this.width > 0 ? this.picture() : nothing}</div>`;
  }

  private get x(): Scale {
    return { low: this.series.from, high: this.series.to, start: LEFT, end: this.width - RIGHT };
  }

  private get name(): string {
    return at(this.spans, this.series.atSeconds[this.index] ?? 0)?.name ?? '';
  }

  private reading(now: number): TemplateResult {
    const { series, index, heard } = this;
    const one = (words: string, value: string) => html`<div><dt>${words}</dt><dd>${value}</dd></div>`;
    const around = { from: Math.max(0, now - 2), to: now + 2 };
    return html`<div class="reading"><dl>
        ${one('Time', clockTenths(now))}${one('Section', this.name || '–')}
        ${one('Short-term, 3 s', figure(series.shortTermLufs[index], 'LUFS'))}
        ${one('Momentary, 0.4 s', figure(series.momentaryLufs[index], 'LUFS'))}
        ${one('True peak', figure(series.truePeakDbtp[index], 'dBTP'))}
        ${one('Sample peak', figure(series.samplePeakDbfs[index], 'dBFS'))}
        ${one('Correlation', signedFigure(series.correlation[index], '', 2).trim())}</dl>
      <a class="btn" href=${loopHref(heard.song, heard.mix, heard.other, around)}>${sign('loop', 'lp')}Hear it</a></div>`;
  }

  private spoken(now: number): string {
    const { series, index } = this;
    return [`${clockTenths(now)}${this.name ? `, ${this.name}` : ''}`,
      `short-term ${figure(series.shortTermLufs[index], 'LUFS')}`, `momentary ${figure(series.momentaryLufs[index], 'LUFS')}`,
      `true peak ${figure(series.truePeakDbtp[index], 'dBTP')}${this.over().includes(index) ? ', over the ceiling' : ''}`,
      `correlation ${signedFigure(series.correlation[index], '', 2).trim()}`].join('; ');
  }

  private over(): number[] {
    return this.ceiling === null ? [] : above(this.series.truePeakDbtp, this.ceiling);
  }

  /** The sections that lie in the stretch shown, as boxes one can press. */
  private along(): TemplateResult {
    const { series, heard } = this;
    const inner = this.width - LEFT - RIGHT;
    const shown = this.spans.filter((s) => s.to > series.from + 0.05 && s.from < series.to - 0.05)
      .map((s) => ({ ...s, from: Math.max(s.from, series.from) - series.from, to: Math.min(s.to, series.to) - series.from }));
    const all = boxes(shown, series.to - series.from, inner);
    const letters = (name: string) => this.marks.get(name) ?? '';
    const press = (e: MouseEvent, href: string) => {
      if (e.metaKey || e.ctrlKey || e.shiftKey || e.altKey || e.button !== 0) return;
      e.preventDefault();
      go(href);
    };
    return html`<svg width=${this.width} height="28">${all.map((box) => {
      const href = loopHref(heard.song, heard.mix, heard.other, box.name);
      const wide = box.width > box.name.length * 7.6 + 12;
      return svg`<a href=${href} aria-label="Hear ${box.name}" @click=${(e: MouseEvent) => press(e, href)}>
        <rect class="box" x=${LEFT + box.x + 0.5} y="0.5" width=${Math.max(1, box.width - 1)} height="27"/>
        <text class="tick" x=${LEFT + box.x + 6} y="19">${wide ? box.name : box.width > letters(box.name).length * 9 + 8 ? letters(box.name) : ''}</text></a>`;
    })}</svg>`;
  }

  private picture(): TemplateResult {
    const { series, width, index } = this;
    const x = this.x;
    const right = width - RIGHT;
    const loud: Scale = { ...levels(series.momentaryLufs, 6, LOUD_SPAN, 0), start: LOUD.bottom, end: LOUD.top };
    const top = levels(series.truePeakDbtp, 3, 0, 0).high;
    const peak: Scale = { low: PEAK_LOW, high: Math.max(3, top), start: PEAK.bottom, end: PEAK.top };
    const corr: Scale = { low: -1, high: 1, start: CORR.bottom, end: CORR.top };
    const ofStep = (i: number) => pixel(x, series.atSeconds[i]!);
    const step = ((right - LEFT) * series.stepSeconds) / Math.max(series.to - series.from, 1e-6);
    const bare = (v: number) => figure(v, '', 0).trim();
    const read = ofStep(index);
    const title = (y: number, words: string, of = '') => svg`<text class="title" x=${LEFT} y=${y}>${words}<tspan class="of"> ${of}</tspan></text>`;
    const over = this.over();
    const ceiling = this.ceiling === null ? '' : `line: ceiling ${figure(this.ceiling, 'dBTP')}${over.length > 0 ? ', × over it' : ''}`;
    const bars = this.spans.filter((s) => s.from > series.from && s.from < series.to)
      .map((s) => svg`<path class="bar" d="M${pixel(x, s.from)} ${LOUD.top}V${CORR.bottom}"/>`);
    return html`<svg width=${width} height=${HEIGHT} aria-hidden="true">${bars}
      ${title(LOUD.top - 14, 'Loudness, LUFS', this.integrated === null ? '' : `dashes: whole song ${figure(this.integrated, '').trim()}`)}${ruled(levelTicks(loud, 6), loud, LEFT, right, bare)}
      ${this.integrated === null ? nothing : limit(this.integrated, loud, LEFT, right, 'dashes')}
      ${curve(series.momentaryLufs, ofStep, loud, 'thin')}${curve(series.shortTermLufs, ofStep, loud, 'thick')}
      ${title(PEAK.top - 12, 'True peak, dBTP', ceiling)}${ruled(levelTicks({ low: PEAK_LOW, high: peak.high }, 6), peak, LEFT, right, bare)}
      ${columnsOf(series.truePeakDbtp, ofStep, step, peak)}
      ${this.ceiling === null ? nothing : limit(this.ceiling, peak, LEFT, right)}
      ${crosses(over.map(ofStep), PEAK.top + 2)}
      ${title(CORR.top - 12, 'Correlation of left and right')}${ruled([1, 0, -1], corr, LEFT, right, (v) => signedFigure(v, '', 0).trim())}
      ${curve(series.correlation, ofStep, corr, 'thin')}
      ${timed(timeTicks(series.from, series.to, right - LEFT, 64), x, HEIGHT - 6, series.to - series.from < 10 ? clockTenths : clock)}
      ${hair(read, LOUD.top, CORR.bottom)}${dot(read, series.shortTermLufs[index], loud)}${dot(read, series.truePeakDbtp[index], peak)}${dot(read, series.correlation[index], corr)}
    </svg>`;
  }

  private point(e: PointerEvent): void {
    if (e.type === 'pointermove' && e.pointerType === 'touch' && e.buttons === 0) return;
    const left = (e.currentTarget as HTMLElement).getBoundingClientRect().left;
    this.index = Math.max(0, stepAt(e.clientX - left, LEFT, this.width - RIGHT, this.series.atSeconds.length));
  }

  private key(e: KeyboardEvent): void {
    const { series, heard } = this;
    const last = series.atSeconds.length - 1;
    const now = series.atSeconds[this.index]!;
    const to = (index: number) => (this.index = Math.min(last, Math.max(0, index)));
    const toSection = (direction: 1 | -1) => {
      const span = neighbour(this.spans, now, direction);
      if (span) to(series.atSeconds.findIndex((t) => t >= span.from));
    };
    const presses: Record<string, () => unknown> = {
      ArrowRight: () => to(this.index + 1), ArrowLeft: () => to(this.index - 1),
      ArrowDown: () => toSection(1), ArrowUp: () => toSection(-1),
      PageDown: () => to(this.index + 20), PageUp: () => to(this.index - 20),
      Home: () => to(0), End: () => to(last),
      Enter: () => go(loopHref(heard.song, heard.mix, heard.other, { from: Math.max(0, now - 2), to: now + 2 })),
    };
    const press = presses[e.key];
    if (!press || e.metaKey || e.ctrlKey || e.altKey) return;
    e.preventDefault();
    press();
  }
}

function loudestStep(series: Series): number {
  const values = series.shortTermLufs.some((v) => v !== null) ? series.shortTermLufs : series.momentaryLufs;
  return values.reduce<number>((best, v, i) => (v !== null && (best < 0 || v > values[best]!) ? i : best), -1);
}

customElements.define('figures-time', TimeChart);
