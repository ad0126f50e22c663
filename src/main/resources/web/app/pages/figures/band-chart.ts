/** Third octaves of two stretches over each other: as they are, or freed of how loud each is. */
import { html, LitElement, nothing, svg, type TemplateResult } from 'lit';
import type { ShapedBand } from '../../api/types.ts';
import { curve, hair, ruled } from '../../draw/chart.ts';
import { levels, levelTicks, pixel, stepAt, type Scale } from '../../geometry/chart.ts';
import { Scope } from '../../scope.ts';
import { figure, signedFigure } from '../../words/numbers.ts';

const LEFT = 44;
const RIGHT = 12;
const TOP = 10;
const BOTTOM = 250;
const HEIGHT = 274;
const SPAN = 60;

/** A stretch with its bands, as it can be chosen. */
export interface Banded { readonly id: string; readonly group: string; readonly words: string; readonly bands: readonly ShapedBand[] }

class BandChart extends LitElement {
  declare choice: readonly Banded[];
  declare first: string;
  declare second: string;
  declare private shape: boolean;
  declare private width: number;
  declare private index: number;
  static properties = {
    choice: { attribute: false }, first: { attribute: false }, second: { attribute: false },
    shape: { state: true }, width: { state: true }, index: { state: true },
  };

  private scope = new Scope();

  constructor() {
    super();
    this.choice = [];
    this.first = '';
    this.second = '';
    this.shape = false;
    this.width = 0;
    this.index = 17;
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

  private named(id: string): Banded | null {
    return this.choice.find((c) => c.id === id) ?? null;
  }

  private of(banded: Banded | null): (number | null)[] {
    return (banded?.bands ?? []).map((b) => (this.shape ? b.shapeDb : b.levelDb));
  }

  render(): TemplateResult {
    const a = this.named(this.first) ?? this.choice[0] ?? null;
    const b = this.named(this.second);
    const pick = (words: string, chosen: Banded | null, look: string, set: (id: string) => void, none: boolean) => html`<label class="pick">${line(look)}<span>${words}</span>
      <select @change=${(e: Event) => set((e.target as HTMLSelectElement).value)}>
        ${none ? html`<option value="" ?selected=${chosen === null}>nothing</option>` : nothing}
        ${groups(this.choice).map(([group, all]) => html`<optgroup label=${group}>${all.map((c) => html`<option value=${c.id} ?selected=${c.id === chosen?.id}>${full(c)}</option>`)}</optgroup>`)}</select></label>`;
    const way = (shape: boolean, words: string) => html`<label class="tick-line"><input class="dot" type="radio" name="bands-way" .checked=${this.shape === shape} @change=${() => (this.shape = shape)}><span>${words}</span></label>`;
    return html`<div class="picks">${pick('Show', a, 'thick', (id) => (this.first = id), false)}${pick('Over it', b, 'dashes', (id) => (this.second = id), true)}</div>
      <fieldset class="ways"><legend class="hide">How levels are shown</legend>
        ${way(false, 'Levels as they are, dB re full scale')}${way(true, 'Shape only: each freed of its own loudness')}</fieldset>
      ${a ? this.body(a, b) : nothing}`;
  }

  private body(a: Banded, b: Banded | null): TemplateResult {
    const one = this.of(a);
    const two = this.of(b);
    const { index } = this;
    const hz = a.bands[index]?.centreHz ?? 0;
    const unit = 'dB';
    const moved = one[index] == null || two[index] == null ? null : one[index]! - two[index]!;
    const facts: [string, string][] = [['Third octave', hertz(hz)], [full(a), figure(one[index], unit)],
      ...(b ? [[full(b), figure(two[index], unit)], ['First less second', signedFigure(moved, unit)]] as [string, string][] : [])];
    return html`<div class="reading"><dl>${facts.map(([words, value]) => html`<div><dt>${words}</dt><dd>${value}</dd></div>`)}</dl></div>
      <div class="curves" role="slider" tabindex="0" aria-label="Third octaves" aria-valuemin="1" aria-valuemax=${a.bands.length} aria-valuenow=${index + 1}
        aria-valuetext=${facts.map(([words, value], i) => (i === 0 ? value : `${words} ${value}`)).join('; ')}
        @keydown=${this.key} @pointerdown=${this.point} @pointermove=${this.point}>${this.width > 0 ? this.picture(a, one, two) : nothing}</div>
      <p class="small quiet">${this.shape
        ? 'Each level less the ungated loudness of its stretch: a difference in loudness alone is no difference here.'
        : 'Mean square of the channels, re full scale 1. A louder mix lies higher everywhere.'}</p>
      <details class="fold"><summary>As a table</summary><div class="wide-table" tabindex="0" role="region" aria-label="Third octaves as a table"><table class="fig"><thead><tr><th scope="col">Third octave</th>
        <th scope="col">${full(a)}, dB</th>${b ? html`<th scope="col">${full(b)}, dB</th><th scope="col">First less second, dB</th>` : nothing}</tr></thead><tbody>
        ${a.bands.map((band, i) => html`<tr><th scope="row">${hertz(band.centreHz)}</th><td>${figure(one[i], '').trim()}</td>${b ? html`<td>${figure(two[i], '').trim()}</td>
          <td>${one[i] == null || two[i] == null ? '–' : signedFigure(one[i]! - two[i]!, '').trim()}</td>` : nothing}</tr>`)}</tbody></table></div></details>`;
  }

  private picture(a: Banded, one: (number | null)[], two: (number | null)[]): TemplateResult {
    const right = this.width - RIGHT;
    const y: Scale = { ...levels([...one, ...two], 6, SPAN, 0), start: BOTTOM, end: TOP };
    const x = (i: number) => LEFT + ((i + 0.5) / a.bands.length) * (right - LEFT);
    const every = right - LEFT < 700 ? 6 : 3;
    const at = x(this.index);
    const points = (values: (number | null)[], look: string) => values.map((v, i) => {
      if (v === null || v < y.low) return svg``;
      return look === 'thick' ? svg`<circle class="point" cx=${x(i)} cy=${pixel(y, v)} r="3"/>`
        : svg`<path class="point hollow" d="M${x(i) - 3} ${pixel(y, v) - 3}h6v6h-6z"/>`;
    });
    return html`<svg width=${this.width} height=${HEIGHT} aria-hidden="true">
      ${ruled(levelTicks(y, 12), y, LEFT, right, (v) => figure(v, '', 0).trim())}
      ${a.bands.map((band, i) => (i % every === 2 % every ? svg`<text class="tick mid" x=${x(i)} y=${HEIGHT - 6}>${short(band.centreHz)}</text>` : nothing))}
      ${curve(two, x, y, 'dashes')}${points(two, 'dashes')}${curve(one, x, y, 'thick')}${points(one, 'thick')}${hair(at, TOP, BOTTOM)}</svg>`;
  }

  private point(e: PointerEvent): void {
    if (e.type === 'pointermove' && e.pointerType === 'touch' && e.buttons === 0) return;
    const left = (e.currentTarget as HTMLElement).getBoundingClientRect().left;
    this.index = Math.max(0, stepAt(e.clientX - left, LEFT, this.width - RIGHT, this.bands()));
  }

  private bands(): number {
    return (this.named(this.first) ?? this.choice[0])?.bands.length ?? 0;
  }

  private key(e: KeyboardEvent): void {
    const last = this.bands() - 1;
    const steps: Record<string, number> = { ArrowRight: 1, ArrowUp: 1, ArrowLeft: -1, ArrowDown: -1, PageUp: 3, PageDown: -3, Home: -last, End: last };
    const step = steps[e.key];
    if (step === undefined || e.metaKey || e.ctrlKey || e.altKey) return;
    e.preventDefault();
    this.index = Math.min(last, Math.max(0, this.index + step));
  }
}

/** How a line looks, beside what it stands for. */
function line(look: string): TemplateResult {
  return html`<svg class="sample" width="36" height="12" aria-hidden="true"><path class="curve ${look}" d="M1 6H35"/>${look === 'thick'
    ? svg`<circle class="point" cx="18" cy="6" r="3"/>` : svg`<path class="point hollow" d="M15 3h6v6h-6z"/>`}</svg>`;
}

function groups(choice: readonly Banded[]): [string, Banded[]][] {
  const names = [...new Set(choice.map((c) => c.group))];
  return names.map((name) => [name, choice.filter((c) => c.group === name)]);
}

function full(banded: Banded): string {
  return `${banded.group}, ${banded.words}`;
}

function hertz(hz: number): string {
  return hz < 1000 ? `${hz} Hz` : `${hz / 1000} kHz`;
}

function short(hz: number): string {
  return hz < 1000 ? String(hz) : `${hz / 1000}k`;
}

customElements.define('figures-bands', BandChart);
