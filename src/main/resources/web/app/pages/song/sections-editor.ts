/** Naming the sections: tap a key at every boundary while it plays, then name and nudge. */
import { html, LitElement, nothing, type TemplateResult } from 'lit';
import { api, asProblem } from '../../api/client.ts';
import type { Problem } from '../../api/problem.ts';
import { parseClock } from '../../geometry/clock.ts';
import type { Span } from '../../geometry/form.ts';
import type { Player } from '../../player/player.ts';
import { Scope } from '../../scope.ts';
import { refused, sign } from '../../signs/signs.ts';
import { clockTenths } from '../../words/numbers.ts';

interface Row {
  name: string;
  from: number;
  to: number;
}

const NUDGE = 0.05;
const USUAL = ['Intro', 'Verse', 'Pre', 'Chorus', 'Bridge', 'Solo', 'Break', 'Outro'];

export class SectionsEditor extends LitElement {
  declare song: string;
  declare bounce: string;
  declare sections: readonly Span[];
  declare player: Player;
  declare private rows: Row[];
  declare private tapping: boolean;
  declare private problem: Problem | null;
  declare private phase: 'idle' | 'saving' | 'saved';
  static properties = {
    song: {}, bounce: {}, sections: { attribute: false }, player: { attribute: false }, rows: { state: true },
    tapping: { state: true }, problem: { state: true }, phase: { state: true },
  };

  private scope = new Scope();
  private touched = false;

  constructor() {
    super();
    this.song = '';
    this.bounce = '';
    this.sections = [];
    this.rows = [];
    this.tapping = false;
    this.problem = null;
    this.phase = 'idle';
  }

  protected createRenderRoot(): HTMLElement {
    return this;
  }

  connectedCallback(): void {
    super.connectedCallback();
    this.scope = new Scope();
    this.scope.listen<KeyboardEvent>(document, 'keydown', (e) => this.key(e), { capture: true });
  }

  disconnectedCallback(): void {
    super.disconnectedCallback();
    this.scope.close();
  }

  willUpdate(changed: Map<string, unknown>): void {
    if ((changed.has('sections') || changed.has('bounce')) && !this.touched) {
      this.rows = this.sections.map(({ name, from, to }) => ({ name, from, to }));
    }
  }

  render(): TemplateResult {
    return html`<p>Play the song and press <kbd>B</kbd> at every boundary, or the button. Then name each; small errors can be nudged.</p>
      <p class="btns gap"><button class="btn" type="button" aria-pressed=${this.tapping} @click=${this.begin}>${this.tapping ? 'Stop tapping' : this.rows.length > 0 ? 'Tap anew from the start' : 'Play and tap'}</button>
        ${this.tapping ? html`<button class="btn go" type="button" @click=${() => this.tap()}>Boundary here</button>` : nothing}
        <button class="btn plain" type="button" @click=${this.add}>Add one by hand</button></p>
      <p class="hide" role="status">${this.tapping ? `${this.rows.length} boundaries` : ''}</p>
      ${this.rows.length > 0 ? html`<ol class="sections-edit gap">${this.rows.map((row, i) => this.row(row, i))}</ol>` : nothing}
      <datalist id="section-names">${USUAL.map((n) => html`<option value=${n}></option>`)}</datalist>
      ${refused(this.problem)}
      <p class="btns gap"><button class="btn main" type="button" ?disabled=${this.rows.length === 0 || this.phase === 'saving'} @click=${this.save}>Keep these sections</button>
        ${this.phase === 'saved' ? html`<span class="saved" role="status">Kept. They show on every mix of this song.</span>` : nothing}</p>`;
  }

  private row(row: Row, i: number): TemplateResult {
    const time = (which: 'from' | 'to', label: string) => html`<span class="nudge">
      <button class="btn plain" type="button" aria-label="${label} of ${row.name} earlier" @click=${() => this.move(i, which, row[which] - NUDGE)}>${'\u2212'}</button>
      <input type="text" inputmode="decimal" aria-label="${label} of ${row.name}" .value=${clockTenths(row[which])} @change=${(e: Event) => this.typed(i, which, e)}>
      <button class="btn plain" type="button" aria-label="${label} of ${row.name} later" @click=${() => this.move(i, which, row[which] + NUDGE)}>+</button></span>`;
    return html`<li>
      <input type="text" aria-label="Name of section ${i + 1}" list="section-names" .value=${row.name} @change=${(e: Event) => this.rename(i, (e.target as HTMLInputElement).value)}>
      ${time('from', 'Start')}${time('to', 'End')}
      <button class="loop" type="button" aria-label="Loop ${row.name}" @click=${() => this.hear(row)}>${sign('loop', '')}</button>
      <button class="btn plain" type="button" aria-label="Take ${row.name} away" @click=${() => this.set(this.rows.filter((_, k) => k !== i))}>Take away</button></li>`;
  }

  private set(rows: Row[]): void {
    this.rows = rows;
    this.touched = true;
    this.phase = 'idle';
    this.problem = null;
  }

  private begin(): void {
    if (this.tapping) {
      this.tapping = false;
      this.player.pause();
      return;
    }
    this.tapping = true;
    this.set([{ name: 'Intro', from: 0, to: this.player.state.seconds }]);
    this.player.plainly(true);
  }

  private key(e: KeyboardEvent): void {
    if (!this.tapping || e.key.toLowerCase() !== 'b' || e.ctrlKey || e.metaKey || e.altKey) return;
    if (e.target instanceof HTMLInputElement || e.target instanceof HTMLTextAreaElement) return;
    e.preventDefault();
    e.stopPropagation();
    this.tap();
  }

  private tap(): void {
    const here = this.player.position();
    const last = this.rows[this.rows.length - 1];
    if (!last || here - last.from < 0.5) return;
    const rows = [...this.rows.slice(0, -1), { ...last, to: here }];
    this.set([...rows, { name: `Section ${rows.length + 1}`, from: here, to: this.player.state.seconds }]);
  }

  private add(): void {
    const from = this.rows[this.rows.length - 1]?.to ?? 0;
    const end = this.player.state.seconds;
    const start = from < end - 0.5 ? from : Math.max(0, this.player.position());
    this.set([...this.rows, { name: `Section ${this.rows.length + 1}`, from: start, to: end }].sort((a, b) => a.from - b.from));
  }

  /** Names that come more than once are numbered. */
  private rename(i: number, text: string): void {
    const name = text.trim();
    if (name === '') return;
    const rows = this.rows.map((r, k) => (k === i ? { ...r, name } : r));
    const same = rows.filter((r) => r.name.replace(/\s+\d+$/, '') === name).length;
    if (same > 1 && !/\d$/.test(name)) {
      let number = 0;
      this.set(rows.map((r) => (r.name.replace(/\s+\d+$/, '') === name ? { ...r, name: `${name} ${++number}` } : r)));
    } else this.set(rows);
  }

  /** Moves one edge; a neighbour that shared it moves along. */
  private move(i: number, which: 'from' | 'to', to: number): void {
    const edge = this.rows[i]![which];
    const at = Math.min(Math.max(to, 0), this.player.state.seconds);
    this.set(this.rows.map((r, k) => {
      if (k === i) return { ...r, [which]: at };
      if (which === 'from' && Math.abs(r.to - edge) < 0.001) return { ...r, to: at };
      if (which === 'to' && Math.abs(r.from - edge) < 0.001) return { ...r, from: at };
      return r;
    }));
  }

  private typed(i: number, which: 'from' | 'to', e: Event): void {
    const input = e.target as HTMLInputElement;
    const seconds = parseClock(input.value);
    if (seconds === null) input.value = clockTenths(this.rows[i]![which]);
    else this.move(i, which, seconds);
  }

  private hear(row: Row): void {
    this.player.setLoop({ from: row.from, to: row.to }, true);
    if (!this.player.playing) void this.player.play();
  }

  private async save(): Promise<void> {
    this.tapping = false;
    this.phase = 'saving';
    this.problem = null;
    try {
      await api.put(`/songs/${this.song}/sections`, { bounce: this.bounce, sections: this.rows });
      this.touched = false;
      this.phase = 'saved';
      this.dispatchEvent(new CustomEvent('kept'));
    } catch (reason) {
      this.phase = 'idle';
      this.problem = asProblem(reason);
    }
  }
}
customElements.define('mix-sections', SectionsEditor);
