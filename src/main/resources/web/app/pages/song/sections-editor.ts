/** The form of the song: tapped in while it plays, drawn, nudged, looped at its edges, named with a press, and kept. */
import { html, LitElement, nothing, type TemplateResult } from 'lit';
import { api, asProblem } from '../../api/client.ts';
import type { Problem } from '../../api/problem.ts';
import type { SectionProposal } from '../../api/types.ts';
import { steadyBars, stepFrom, type Bar, type Step } from '../../geometry/beats.ts';
import { parseClock } from '../../geometry/clock.ts';
import { around, cutAt, drawOver, edgesOf, endAt, moveEdge, same, takeAway } from '../../geometry/edges.ts';
import { at, type Pulse, type Span } from '../../geometry/form.ts';
import type { Player } from '../../player/player.ts';
import { Scope } from '../../scope.ts';
import { refused } from '../../signs/signs.ts';
import { draftOf, keepDraft } from '../../state/draft.ts';
import { clock, clockMillis } from '../../words/numbers.ts';
import { inOrder, KINDS, nextName, otherNames, unlike } from '../../words/section-names.ts';
import { rehearsalMarks } from '../../words/sections.ts';
import { COARSE, edgePanel, FINE } from './edge-panel.ts';
import type { EdgeMoved, EdgeStep } from './edge-strip.ts';
import { sectionRow, startPanel, tapPanel, type RowActions } from './section-rows.ts';
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
  /** What was kept when drawing began. */
  private base: readonly Span[] = [];
  /** What the last keeping has replaced, as long as the page still hands it over. */
  private old: readonly Span[] | null = null;
  private began = -1;
  private dragging = false;
  private readonly acts: RowActions = {
    begin: () => this.begin(),
    stop: () => this.stop(),
    cut: () => this.cut(),
    end: () => this.end(),
    show: (edge) => this.show(edge),
    rename: (i, name, input) => this.rename(i, name, input),
    loop: (stretch) => (stretch ? this.hear(stretch.from, stretch.to) : this.player.setLoop(null)),
    drop: (i) => this.drop(i),
  };

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
    // Drawing goes on where a reload or a step back has left it.
    const draft = this.hasUpdated ? null : draftOf(this.song);
    if (draft) [this.rows, this.base, this.drawnOn] = [draft.rows, draft.base, draft.bounce];
    // The page hands the same sections over again whenever it draws itself; only others count.
    if (this.old && !same(this.old, this.sections)) this.old = null;
    if ((changed.has('sections') || changed.has('bounce')) && this.drawnOn === null && !this.old && !same(this.rows, this.sections)) {
      this.rows = this.sections.map(({ name, from, to }) => ({ name, from, to }));
      this.past.length = 0;
      this.edge = null;
    }
  }

  updated(changed: Map<string, unknown>): void {
    if (changed.has('rows') || changed.has('phase')) {
      keepDraft(this.song, this.drawnOn === null ? null : { bounce: this.drawnOn, rows: this.rows, base: this.base });
    }
  }

  /** Whether somebody has kept other sections since drawing began here. */
  private get overtaken(): boolean {
    return this.drawnOn === this.bounce && !this.old && !same(this.base, this.sections);
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
    return html`${this.tapping ? tapPanel(rows, this.began, this.upcoming(), this.letters, this.acts) : startPanel(rows.length > 0, this.acts)}
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
      ${rows.length > 0 ? html`<ol class="sections-edit gap">${rows.map((_, i) => sectionRow(rows, i, marks, {
        pulse: this.given ? { lines: this.given.map((b) => b.beats[0]!) } : this.pulse, chosen: edge, loop: this.player.state.loop,
      }, this.acts))}</ol>` : nothing}
      <datalist id="section-names">${KINDS.map((n) => html`<option value=${n}></option>`)}</datalist>
      ${refused(this.problem)}
      ${this.overtaken ? html`<p class="gap" role="status"><b>Somebody has kept other sections since you began.</b> Keeping yours replaces them; “As they were” shows them.</p>` : nothing}
      <p class="btns gap form-acts"><button class="btn main" type="button" aria-disabled=${this.drawnOn === null || this.phase === 'saving'} @click=${this.save}>Keep these sections</button>
        <button class="btn" type="button" aria-disabled=${this.past.length === 0} @click=${this.undo}>Undo</button>
        ${this.drawnOn !== null ? html`<button class="btn plain" type="button" @click=${this.letGo}>As they were</button>` : nothing}
        ${rows.length > 1 ? html`<button class="btn plain" type="button" @click=${this.number}>Number in song order</button>` : nothing}</p>
      ${this.phase === 'saved' && this.drawnOn === null ? html`<p class="saved" role="status">Kept. They show on every mix of this song.</p>`
        : this.drawnOn !== null ? html`<p class="quiet">Not kept yet.${this.drawnOn === this.bounce ? '' : ' They were drawn on another mix than the one you hear.'}</p>` : nothing}`;
  }

  private set(rows: readonly Span[], edge: number | null = this.edge): void {
    if (!this.dragging) this.past.push(this.rows);
    if (this.drawnOn === null) this.base = this.rows;
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
    return nextName(this.rows.filter((r) => r.from <= place).map((r) => r.name), names);
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

  private drop(i: number): void {
    this.set(takeAway(this.rows, i), null);
    void this.updateComplete.then(() => {
      const left = this.querySelectorAll<HTMLElement>('.sections-edit li > .btn.plain');
      (left[Math.min(i, left.length - 1)] ?? this.querySelector<HTMLElement>('.tap .btn'))?.focus();
    });
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
    if (same(rows, this.base)) this.drawnOn = null;
  }

  private letGo(): void {
    void this.updateComplete.then(() => this.querySelector<HTMLElement>('.form-acts .btn')?.focus());
    this.drawnOn = null;
    this.past.length = 0;
    this.tapping = false;
    this.rows = this.sections.map(({ name, from, to }) => ({ name, from, to }));
    this.edge = null;
    this.problem = null;
  }

  private async save(): Promise<void> {
    const { rows } = this;
    if (this.drawnOn === null || this.phase === 'saving') return;
    this.tapping = false;
    this.phase = 'saving';
    this.problem = null;
    try {
      await api.put(`/songs/${this.song}/sections`, { bounce: this.drawnOn, sections: rows });
      if (rows === this.rows) {
        this.drawnOn = null;
        this.old = this.sections;
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
