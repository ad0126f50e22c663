/** The form of the song: tapped in while it plays, drawn, nudged, looped at its edges, named with a press, and kept. */
import { html, LitElement, nothing, type TemplateResult } from 'lit';
import { api, asProblem } from '../../api/client.ts';
import type { Problem } from '../../api/problem.ts';
import type { SectionProposal } from '../../api/types.ts';
import { steadyBars, stepFrom, type Bar, type Step } from '../../geometry/beats.ts';
import { parseClock } from '../../geometry/clock.ts';
import { around, cutAt, drawOver, edgesOf, endAt, moveEdge, takeAway } from '../../geometry/edges.ts';
import { at, bars as barsOf, type Pulse, type Span } from '../../geometry/form.ts';
import type { Player } from '../../player/player.ts';
import { Scope } from '../../scope.ts';
import { mark, refused, sign } from '../../signs/signs.ts';
import { clock, clockMillis } from '../../words/numbers.ts';
import { inOrder, KINDS, nextName, otherNames, unlike } from '../../words/section-names.ts';
import { rehearsalMarks } from '../../words/sections.ts';
import { calling, COARSE, edgePanel, FINE } from './edge-panel.ts';
import type { EdgeMoved, EdgeStep } from './edge-strip.ts';
import './edge-strip.ts';
import './section-sources.ts';

/** Seconds shown in the close-up, and heard on either side of an edge. */
const NEAR_SECONDS = 8;
const HEARD_SECONDS = 1.5;

export class SectionsEditor extends LitElement {
  declare song: string;
  declare bounce: string;
  declare sections: readonly Span[];
  declare player: Player;
  declare outline: readonly number[] | null;
  declare pulse: Pulse;
  /** Whether the song has a tempo map. */
  declare mapped: boolean;
  /** Whether letters act as keys. */
  declare letters: boolean;
  declare private rows: readonly Span[];
  declare private tapping: boolean;
  declare private edge: number | null;
  declare private window: { from: number; to: number };
  declare private given: readonly Bar[] | null;
  declare private problem: Problem | null;
  declare private phase: 'idle' | 'saving' | 'saved';
  declare private said: string;
  static properties = {
    song: {}, bounce: {}, sections: { attribute: false }, player: { attribute: false }, outline: { attribute: false }, pulse: { attribute: false }, mapped: { attribute: false }, letters: { attribute: false },
    rows: { state: true }, tapping: { state: true }, edge: { state: true }, window: { state: true }, given: { state: true }, problem: { state: true }, phase: { state: true }, said: { state: true },
  };

  private scope = new Scope();
  private readonly past: Array<readonly Span[]> = [];
  /** The mix the rows lie on, once they differ from what was kept. */
  private drawnOn: string | null = null;
  private began = -1;
  private dragging = false;

  constructor() {
    super();
    this.song = '';
    this.bounce = '';
    this.sections = [];
    this.outline = null;
    this.pulse = {};
    this.mapped = false;
    this.letters = true;
    this.rows = [];
    this.tapping = false;
    this.edge = null;
    this.window = { from: 0, to: 0 };
    this.given = null;
    this.problem = null;
    this.phase = 'idle';
    this.said = '';
  }

  protected createRenderRoot(): HTMLElement {
    return this;
  }

  connectedCallback(): void {
    super.connectedCallback();
    this.scope = new Scope();
    this.scope.listen<KeyboardEvent>(document, 'keydown', (e) => this.key(e), { capture: true });
    this.scope.listen(this.player, 'change', () => {
      // The end of the song, or a pause from elsewhere, ends the tapping.
      if (this.tapping && !this.player.playing) this.stop();
      this.requestUpdate();
    });
  }

  disconnectedCallback(): void {
    super.disconnectedCallback();
    this.scope.close();
  }

  willUpdate(changed: Map<string, unknown>): void {
    if (changed.has('bounce')) this.given = null;
    // The page hands the same sections over again whenever it draws itself; only others count.
    if ((changed.has('sections') || changed.has('bounce')) && this.drawnOn === null && !same(this.rows, this.sections)) {
      this.rows = this.sections.map(({ name, from, to }) => ({ name, from, to }));
      this.past.length = 0;
      this.edge = null;
    }
  }

  private get length(): number {
    return this.player.state.seconds || (this.rows[this.rows.length - 1]?.to ?? 0);
  }

  private get bars(): readonly Bar[] {
    return this.given ?? steadyBars(this.pulse, this.length);
  }

  render(): TemplateResult {
    const { rows, edge } = this;
    const marks = rehearsalMarks(rows.map((r) => r.name));
    const edges = edgesOf(rows);
    const strip = (near: boolean, from: number, to: number) => html`<mix-edges .near=${near} .sections=${rows} .marks=${marks} .outline=${this.outline} .bars=${this.bars} .player=${this.player}
      .length=${this.length} .from=${from} .to=${to} .chosen=${edge} @choose=${(e: CustomEvent<number>) => this.choose(e.detail)} @move=${(e: CustomEvent<EdgeMoved>) => this.dragged(e.detail)}
      @step=${(e: CustomEvent<EdgeStep>) => this.stepped(e.detail)} @draw=${(e: CustomEvent<{ from: number; to: number }>) => this.draw(e.detail)}
      @place=${(e: CustomEvent<number>) => this.player.seek(e.detail)}></mix-edges>`;
    return html`${this.tapping ? this.tapPanel() : this.startPanel()}
      <p class="hide" role="status">${this.said}</p>
      ${this.tapping ? nothing : html`<mix-section-sources .song=${this.song} .bounce=${this.bounce} .mapped=${this.mapped} .position=${() => this.player.position()}
        @taken=${(e: CustomEvent<SectionProposal>) => this.take(e.detail)} @bars=${(e: CustomEvent<readonly Bar[] | null>) => (this.given = e.detail)}></mix-section-sources>`}
      ${this.length > 0 ? html`<div class="form-strip">${strip(false, 0, this.length)}</div>` : nothing}
      ${edge !== null && edges[edge] && !this.tapping ? edgePanel(edges, edge, rows, this.bars, html`<div class="close-up">${strip(true, this.window.from, this.window.to)}</div>`, {
        step: (direction, step) => this.nudge(edge, direction, step),
        typed: (input) => this.typed(edge, input),
        hear: () => this.hearEdge(edge),
        here: () => this.moveTo(edge, this.player.position()),
        choose: (k) => this.choose(k),
        rename: (i, name) => this.rename(i, name),
      }) : nothing}
      ${rows.length > 0 ? html`<ol class="sections-edit gap">${rows.map((row, i) => this.row(row, i, marks.get(row.name) ?? ''))}</ol>` : nothing}
      <datalist id="section-names">${KINDS.map((n) => html`<option value=${n}></option>`)}</datalist>
      ${refused(this.problem)}
      <p class="btns gap"><button class="btn main" type="button" ?disabled=${this.drawnOn === null || this.phase === 'saving'} @click=${this.save}>Keep these sections</button>
        <button class="btn" type="button" ?disabled=${this.past.length === 0} @click=${this.undo}>Undo</button>
        ${this.drawnOn !== null ? html`<button class="btn plain" type="button" @click=${this.letGo}>As they were</button>` : nothing}
        ${rows.length > 1 ? html`<button class="btn plain" type="button" @click=${this.number}>Number in song order</button>` : nothing}</p>
      ${this.phase === 'saved' && this.drawnOn === null ? html`<p class="saved" role="status">Kept. They show on every mix of this song.</p>`
        : this.drawnOn !== null ? html`<p class="quiet">Not kept yet.${this.drawnOn === this.bounce ? '' : ' They were drawn on another mix than the one you hear.'}</p>` : nothing}`;
  }

  private startPanel(): TemplateResult {
    const some = this.rows.length > 0;
    return html`<div class="tap"><p>${some ? html`The button<span class="keyed">, or <kbd>B</kbd>,</span> begins a section where it plays. Drag an edge, or draw a section over the strip; nothing is kept until you say so.`
      : html`Play the song and press the button<span class="keyed">, or <kbd>B</kbd>,</span> wherever something new begins. The likely name is there already; edges can be nudged afterwards.`}</p>
      <p class="btns gap"><button class=${some ? 'btn' : 'btn main'} type="button" @click=${this.begin}>${some ? 'Tap anew from the start' : 'Play and tap'}</button>
        <button class="btn" type="button" @click=${() => this.cut()}>A section begins here</button>
        ${some ? html`<button class="btn" type="button" @click=${this.end}>It ends here</button>` : nothing}</p></div>`;
  }

  private tapPanel(): TemplateResult {
    const { rows } = this;
    const now = this.began;
    return html`<div class="tap on"><p class="tap-now"><span class="quiet">Since ${clock(rows[now]?.from ?? 0)}</span> <strong>${rows[now]?.name ?? ''}</strong></p>
      <p class="tap-row"><button class="btn go tap-here" type="button" @click=${() => this.cut()}><span>${this.upcoming()} begins here</span> <kbd>B</kbd></button>
        <button class="btn" type="button" @click=${this.stop}>Stop</button></p>
      ${rows[now] ? calling(rows, now, (i, name) => this.rename(i, name), this.letters) : nothing}</div>`;
  }

  private row(row: Span, i: number, letters: string): TemplateResult {
    const { loop } = this.player.state;
    const looped = loop !== null && Math.abs(loop.from - row.from) < 0.01 && Math.abs(loop.to - row.to) < 0.01;
    const count = barsOf(row, this.pulse);
    const edges = edgesOf(this.rows);
    const start = edges.findIndex((e) => e.begins === i);
    const end = edges.findIndex((e) => e.ends === i);
    const to = (edge: number, seconds: number, words: string) => html`<button class="btn plain time" type="button" aria-pressed=${edge === this.edge} aria-label="${words} of ${row.name}: ${clockMillis(seconds)}" @click=${() => this.show(edge)}>${clockMillis(seconds)}</button>`;
    return html`<li class=${this.edge === start ? 'now' : ''}>${mark(letters)}
      <input type="text" aria-label="Name of section ${i + 1}" list="section-names" maxlength="60" .value=${row.name} @change=${(e: Event) => this.rename(i, (e.target as HTMLInputElement).value, e.target as HTMLInputElement)}>
      <span class="span">${to(start, row.from, 'Start')}<span class="quiet" aria-hidden="true">to</span>${to(end, row.to, 'End')}</span>
      <span class="quiet long">${count === null || this.given ? clock(row.to - row.from) : count === 1 ? '1 bar' : `${count} bars`}</span>
      <button class="loop" type="button" aria-label="Loop ${row.name}" aria-pressed=${looped} @click=${() => (looped ? this.player.setLoop(null) : this.hear(row.from, row.to))}>${sign('loop', '')}</button>
      <button class="btn plain" type="button" aria-label="Take ${row.name} away" @click=${() => this.set(takeAway(this.rows, i), null)}>Take away</button></li>`;
  }

  /** Draws the rows anew; the edge that is looked at may change with them. */
  private set(rows: readonly Span[], edge: number | null = this.edge): void {
    if (!this.dragging) this.past.push(this.rows);
    this.rows = rows;
    this.drawnOn ??= this.bounce;
    this.phase = 'idle';
    this.problem = null;
    this.edge = edge !== null && edge < edgesOf(rows).length ? edge : null;
  }

  private begin(): void {
    this.set([{ name: 'Intro', from: 0, to: this.length }], null);
    this.began = 0;
    this.said = 'Intro';
    this.player.plainly(true);
    this.tapping = true;
    void this.updateComplete.then(() => this.querySelector<HTMLElement>('.tap-here')?.focus({ preventScroll: false }));
  }

  private stop(): void {
    if (!this.tapping) return;
    this.tapping = false;
    if (this.player.playing) this.player.pause();
    const first = edgesOf(this.rows).findIndex((e) => e.begins === 1);
    if (first >= 0) this.choose(first);
    void this.updateComplete.then(() => this.querySelector<HTMLElement>('.edge-panel .btns .btn')?.focus());
  }

  private upcoming(): string {
    const names = this.rows.map((r) => r.name);
    const place = this.player.position();
    return nextName(this.rows.filter((r) => r.from < place).map((r) => r.name), names);
  }

  private cut(): void {
    if (this.length === 0) return;
    const cut = cutAt(this.rows, this.player.position(), this.upcoming(), this.length);
    if (!cut) {
      this.said = 'Too near to the edge before.';
      return;
    }
    this.set(cut.sections, null);
    this.began = cut.index;
    this.said = `${cut.sections[cut.index]!.name} begins at ${clock(cut.sections[cut.index]!.from)}`;
    if (!this.tapping) this.choose(edgesOf(cut.sections).findIndex((e) => e.begins === cut.index));
  }

  private end(): void {
    const ended = endAt(this.rows, this.player.position());
    if (!ended) {
      this.said = 'No section plays here.';
      return;
    }
    const place = this.player.position();
    this.set(ended, null);
    this.choose(edgesOf(ended).findIndex((e) => e.ends !== null && Math.abs(e.at - place) < 0.001));
  }

  private draw({ from, to }: { from: number; to: number }): void {
    const names = this.rows.map((r) => r.name);
    const name = nextName(this.rows.filter((r) => r.from < from).map((r) => r.name), names);
    const over = at(this.rows, from);
    const rows = drawOver(this.rows, { name, from, to }, over ? unlike(over.name, [...names, name]) : '');
    this.set(rows, null);
    this.choose(edgesOf(rows).findIndex((e) => e.begins !== null && rows[e.begins]!.name === name));
  }

  private take(proposal: SectionProposal): void {
    this.set(proposal.sections.map(({ name, from, to }) => ({ name, from, to })), null);
    this.said = `${proposal.sections.length} sections taken, not kept yet.`;
  }

  private rename(i: number, text: string, input?: HTMLInputElement): void {
    const others = this.rows.filter((_, k) => k !== i).map((r) => r.name);
    const typed = text.trim();
    const name = typed === '' ? this.rows[i]!.name : others.some((o) => o.toLowerCase() === typed.toLowerCase()) ? unlike(typed, others) : typed;
    if (input) input.value = name;
    if (name === this.rows[i]!.name) return;
    this.set(this.rows.map((r, k) => (k === i ? { ...r, name } : r)));
    this.said = name;
  }

  private number(): void {
    const names = inOrder(this.rows.map((r) => r.name));
    this.set(this.rows.map((r, i) => ({ ...r, name: names[i]! })));
  }

  private choose(edge: number): void {
    const there = edgesOf(this.rows)[edge];
    if (!there) return;
    if (edge !== this.edge || this.window.to === 0) this.window = around(there.at, NEAR_SECONDS, this.length);
    this.edge = edge;
  }

  /** Chooses an edge from the list and brings what can be done with it into sight. */
  private show(edge: number): void {
    this.choose(edge);
    void this.updateComplete.then(() => this.querySelector('.edge-panel')?.scrollIntoView({ block: 'center' }));
  }

  private dragged({ edge, at: to, done }: EdgeMoved): void {
    if (!this.dragging) this.past.push(this.rows);
    this.dragging = true;
    this.set(moveEdge(this.rows, edge, to, this.length), edge);
    if (done) {
      this.dragging = false;
      this.window = around(edgesOf(this.rows)[edge]!.at, NEAR_SECONDS, this.length);
      this.follow();
    }
  }

  private stepped({ edge, direction, step }: EdgeStep): void {
    this.choose(edge);
    this.nudge(edge, direction, step === 'fine' ? FINE : step === 'coarse' ? COARSE : step);
  }

  private nudge(edge: number, direction: 1 | -1, step: Step): void {
    const from = edgesOf(this.rows)[edge]!.at;
    const to = stepFrom(from, direction, step, this.bars);
    if (to === null) this.said = this.bars.length === 0 ? 'The tempo is not known.' : 'No bar there.';
    else this.moveTo(edge, to);
  }

  private moveTo(edge: number, to: number): void {
    const looped = this.loopedRow();
    this.set(moveEdge(this.rows, edge, to, this.length), edge);
    const now = edgesOf(this.rows)[edge]!.at;
    this.said = clockMillis(now);
    const middle = (this.window.from + this.window.to) / 2;
    if (Math.abs(now - middle) > NEAR_SECONDS / 4) this.window = around(now, NEAR_SECONDS, this.length);
    this.follow(looped);
  }

  private loopedRow(): number {
    const { loop } = this.player.state;
    return loop ? this.rows.findIndex((r) => Math.abs(loop.from - r.from) < 0.01 && Math.abs(loop.to - r.to) < 0.01) : -1;
  }

  /** A section that is looped is heard with its new edges. */
  private follow(row = this.loopedRow()): void {
    const looped = this.rows[row];
    if (looped) this.player.setLoop({ from: looped.from, to: looped.to });
  }

  private typed(edge: number, input: HTMLInputElement): void {
    const seconds = parseClock(input.value);
    if (seconds !== null) this.moveTo(edge, seconds);
    input.value = clockMillis(edgesOf(this.rows)[edge]!.at);
  }

  private hearEdge(edge: number): void {
    const { at: place } = edgesOf(this.rows)[edge]!;
    this.hear(Math.max(0, place - HEARD_SECONDS), Math.min(this.length, place + HEARD_SECONDS));
  }

  private hear(from: number, to: number): void {
    this.player.setLoop({ from, to }, true);
    if (!this.player.playing) void this.player.play();
  }

  private key(e: KeyboardEvent): void {
    if (!this.letters || e.ctrlKey || e.metaKey || e.altKey || !this.checkVisibility()) return;
    if (e.target instanceof HTMLTextAreaElement || e.target instanceof HTMLSelectElement || (e.target instanceof HTMLInputElement && !['radio', 'checkbox'].includes(e.target.type))) return;
    const name = this.tapping && /^[1-9]$/.test(e.key) ? otherNames(this.rows.map((r) => r.name), this.began)[Number(e.key) - 1] : undefined;
    if (name) this.rename(this.began, name);
    else if (e.key.toLowerCase() === 'b' && !e.repeat) this.cut();
    else return;
    e.preventDefault();
    e.stopPropagation();
  }

  private undo(): void {
    const rows = this.past.pop();
    if (!rows) return;
    this.rows = rows;
    this.phase = 'idle';
    this.edge = null;
  }

  private letGo(): void {
    this.drawnOn = null;
    this.past.length = 0;
    this.tapping = false;
    this.rows = this.sections.map(({ name, from, to }) => ({ name, from, to }));
    this.edge = null;
    this.problem = null;
  }

  private async save(): Promise<void> {
    const { rows } = this;
    this.tapping = false;
    this.phase = 'saving';
    this.problem = null;
    try {
      await api.put(`/songs/${this.song}/sections`, { bounce: this.drawnOn ?? this.bounce, sections: rows });
      if (rows === this.rows) {
        this.drawnOn = null;
        this.past.length = 0;
        this.phase = 'saved';
      } else this.phase = 'idle';
      this.dispatchEvent(new CustomEvent('kept'));
    } catch (reason) {
      this.phase = 'idle';
      this.problem = asProblem(reason);
    }
  }
}
customElements.define('mix-sections', SectionsEditor);

function same(one: readonly Span[], other: readonly Span[]): boolean {
  return one.length === other.length && one.every((s, i) => s.name === other[i]!.name && s.from === other[i]!.from && s.to === other[i]!.to);
}
