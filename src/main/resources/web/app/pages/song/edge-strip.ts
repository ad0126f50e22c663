/** A stretch of the song with its sections, whose edges can be taken hold of: by pointer, or by keys as sliders. */
import { LitElement, nothing, svg, html, type TemplateResult } from 'lit';
import { linesIn, type Bar } from '../../geometry/beats.ts';
import { edgesOf, nearestEdge, type Edge } from '../../geometry/edges.ts';
import type { Span } from '../../geometry/form.ts';
import { boxes, columns, roomFor, type Box } from '../../geometry/strip.ts';
import type { Player } from '../../player/player.ts';
import { Scope } from '../../scope.ts';
import { clockMillis } from '../../words/numbers.ts';

/** What the hand did; times in seconds. */
export interface EdgeMoved { edge: number; at: number; done: boolean }
export interface EdgeStep { edge: number; direction: 1 | -1; step: 'fine' | 'coarse' | 'beat' | 'bar' }

const PRESS = 5;

export class EdgeStrip extends LitElement {
  declare sections: readonly Span[];
  declare marks: ReadonlyMap<string, string>;
  declare outline: readonly number[] | null;
  declare bars: readonly Bar[];
  declare player: Player;
  /** Length of the song, and the stretch of it that is shown. */
  declare length: number;
  declare from: number;
  declare to: number;
  declare chosen: number | null;
  /** Shows one edge from near, with the bars; the others cannot be taken hold of. */
  declare near: boolean;
  declare private width: number;
  static properties = {
    sections: { attribute: false }, marks: { attribute: false }, outline: { attribute: false }, bars: { attribute: false }, player: { attribute: false },
    length: { attribute: false }, from: { attribute: false }, to: { attribute: false }, chosen: { attribute: false }, near: { attribute: false }, width: { state: true },
  };

  private scope = new Scope();
  private hold: { edge: number | null; start: number; now: number } | null = null;

  constructor() {
    super();
    this.sections = [];
    this.marks = new Map();
    this.outline = null;
    this.bars = [];
    this.length = 0;
    this.from = 0;
    this.to = 0;
    this.chosen = null;
    this.near = false;
    this.width = 0;
  }

  protected createRenderRoot(): HTMLElement {
    return this;
  }

  connectedCallback(): void {
    super.connectedCallback();
    this.scope = new Scope();
    this.scope.observeSize(this, (width) => (this.width = Math.round(width)));
    this.scope.eachFrame(() => this.place());
  }

  disconnectedCallback(): void {
    super.disconnectedCallback();
    this.scope.close();
  }

  private get high(): number {
    return this.near ? 104 : 72;
  }

  private x(seconds: number): number {
    return ((seconds - this.from) / Math.max(0.001, this.to - this.from)) * this.width;
  }

  private seconds(x: number): number {
    return Math.min(this.length, Math.max(0, this.from + (x / Math.max(1, this.width)) * (this.to - this.from)));
  }

  render(): TemplateResult {
    const { width, high } = this;
    if (width === 0) return html``;
    const seen = this.sections.filter((s) => s.to > this.from && s.from < this.to)
      .map((s) => ({ name: s.name, from: Math.max(s.from, this.from) - this.from, to: Math.min(s.to, this.to) - this.from }));
    const shown = boxes(seen, this.to - this.from, width);
    const edges = edgesOf(this.sections);
    return html`<svg class="edges" width=${width} height=${high} @pointerdown=${this.down} @pointermove=${this.move} @pointerup=${this.up} @pointercancel=${() => this.let()}>
      ${shown.map((b) => svg`<rect class="box" x=${b.x.toFixed(1)} y="20" width=${Math.max(0, b.width).toFixed(1)} height=${high - 20}></rect>`)}
      ${this.ribbon()}${this.near ? this.lines() : nothing}
      ${this.names(shown)}
      ${this.hold && this.hold.edge === null && Math.abs(this.hold.now - this.hold.start) >= PRESS
        ? svg`<rect class="new" x=${Math.min(this.hold.start, this.hold.now)} y="20" width=${Math.abs(this.hold.now - this.hold.start)} height=${high - 20}></rect>` : nothing}
      ${edges.map((e, i) => this.edge(e, i, edges))}
      <line class="here" y1="20" y2=${high}></line></svg>`;
  }

  private ribbon(): TemplateResult | typeof nothing {
    const { outline, length, width, high } = this;
    if (!outline || length <= 0) return nothing;
    const point = outline.length / length;
    const part = outline.slice(Math.floor(this.from * point), Math.max(1, Math.ceil(this.to * point)));
    const { half } = columns(part, width, high - 24);
    const middle = (high + 20) / 2;
    let upper = '';
    let lower = '';
    half.forEach((h, x) => {
      upper += `L${x} ${(middle - h).toFixed(1)}`;
      lower = `L${x} ${(middle + h).toFixed(1)}${lower}`;
    });
    return svg`<path class="loud" d="M0 ${middle}${upper}${lower}Z"></path>`;
  }

  private lines(): TemplateResult {
    const lines = linesIn(this.bars, this.from, this.to);
    const many = lines.length > this.width / 8;
    return svg`${lines.filter((l) => l.bar !== null || !many).map((l) => svg`<line class=${l.bar === null ? 'beat' : 'bar'} x1=${this.x(l.at)} x2=${this.x(l.at)} y1=${l.bar === null ? this.high - 10 : this.high - 20} y2=${this.high}></line>
      ${l.bar === null || lines.length > this.width / 20 ? nothing : svg`<text class="barno" x=${this.x(l.at) + 8} y=${this.high - 3}>${l.bar}</text>`}`)}`;
  }

  /** Names where there is room from near, marks over the whole song. */
  private names(shown: readonly Box[]): TemplateResult {
    const words = (name: string) => (this.near ? name : this.marks.get(name) ?? '');
    const fitting = roomFor(shown, (name) => words(name).length * 8 + 4);
    return svg`${fitting.map((b) => svg`<text class="name" x=${(b.x + 3).toFixed(1)} y="14">${words(b.name)}</text>`)}`;
  }

  private edge(edge: Edge, index: number, all: readonly Edge[]): TemplateResult | typeof nothing {
    if (edge.at < this.from - 0.001 || edge.at > this.to + 0.001) return nothing;
    const x = Math.min(Math.max(this.x(edge.at), 1), this.width - 1);
    const chosen = index === this.chosen;
    const line = svg`<line class="edge" x1=${x} x2=${x} y1="18" y2=${this.high}></line><rect class="grip" x=${Math.min(Math.max(x - 5, 1), this.width - 11)} y=${this.high - 22} width="10" height="22"></rect>`;
    if (this.near && !chosen) return svg`<line class="edge" x1=${x} x2=${x} y1="18" y2=${this.high}></line>`;
    return svg`<g class=${chosen ? 'hold chosen' : 'hold'} role="slider" tabindex="0" data-edge=${index} aria-orientation="horizontal"
      aria-label=${edgeName(edge, this.sections)} aria-valuemin=${(all[index - 1]?.at ?? 0).toFixed(3)} aria-valuemax=${(all[index + 1]?.at ?? this.length).toFixed(3)}
      aria-valuenow=${edge.at.toFixed(3)} aria-valuetext=${clockMillis(edge.at)}
      @focus=${() => this.tell('choose', index)} @keydown=${(e: KeyboardEvent) => this.key(e, index)}>
      <rect class="reach" x=${x - 12} y="18" width="24" height=${this.high - 18}></rect>${line}</g>`;
  }

  private key(e: KeyboardEvent, edge: number): void {
    if (e.ctrlKey || e.metaKey || e.altKey) return;
    const ways: Record<string, 1 | -1> = { ArrowLeft: -1, ArrowDown: -1, ArrowRight: 1, ArrowUp: 1, PageDown: -1, PageUp: 1 };
    const direction = ways[e.key];
    if (!direction) return;
    e.preventDefault();
    e.stopPropagation();
    const page = e.key.startsWith('Page');
    this.tell('step', { edge, direction, step: page ? (e.shiftKey ? 'bar' : 'beat') : e.shiftKey ? 'coarse' : 'fine' } satisfies EdgeStep);
  }

  private down(e: PointerEvent): void {
    if (e.button !== 0) return;
    const x = this.at(e);
    const reach = ((e.pointerType === 'touch' ? 22 : 10) / Math.max(1, this.width)) * (this.to - this.from);
    const edges = edgesOf(this.sections);
    let edge = nearestEdge(edges, this.seconds(x), reach);
    if (this.near && edge !== this.chosen) edge = null;
    (e.currentTarget as Element).setPointerCapture(e.pointerId);
    this.hold = { edge, start: x, now: x };
    if (edge !== null) {
      e.preventDefault();
      this.tell('choose', edge);
    }
    this.requestUpdate();
  }

  private move(e: PointerEvent): void {
    const { hold } = this;
    if (!hold) return;
    hold.now = this.at(e);
    if (hold.edge !== null && Math.abs(hold.now - hold.start) >= 2) this.tell('move', { edge: hold.edge, at: this.seconds(hold.now), done: false } satisfies EdgeMoved);
    this.requestUpdate();
  }

  private up(): void {
    const { hold } = this;
    this.let();
    if (!hold) return;
    const far = Math.abs(hold.now - hold.start);
    if (hold.edge !== null) {
      if (far >= 2) this.tell('move', { edge: hold.edge, at: this.seconds(hold.now), done: true } satisfies EdgeMoved);
    } else if (far < PRESS) this.tell('place', this.seconds(hold.start));
    else this.tell('draw', { from: this.seconds(Math.min(hold.start, hold.now)), to: this.seconds(Math.max(hold.start, hold.now)) });
  }

  private let(): void {
    this.hold = null;
    this.requestUpdate();
  }

  private at(e: PointerEvent): number {
    return e.clientX - (e.currentTarget as Element).getBoundingClientRect().left;
  }

  private tell(type: string, detail: unknown): void {
    this.dispatchEvent(new CustomEvent(type, { detail }));
  }

  /** What moves with the music is written straight into the picture. */
  private place(): void {
    const line = this.querySelector('line.here');
    if (!line) return;
    const x = this.x(this.player.position()).toFixed(1);
    if (line.getAttribute('x1') === x) return;
    line.setAttribute('x1', x);
    line.setAttribute('x2', x);
  }
}
customElements.define('mix-edges', EdgeStrip);

/** "Start of Chorus 1", "End of Outro". */
export function edgeName(edge: Edge, sections: readonly Span[]): string {
  return edge.begins !== null ? `Start of ${sections[edge.begins]!.name}` : `End of ${sections[edge.ends!]!.name}`;
}
