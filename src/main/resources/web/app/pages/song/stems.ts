/** The part files that belong to a mix: what is there, taking one away, bringing another. */
import { html, LitElement, nothing, type TemplateResult } from 'lit';
import { api, asProblem, isAbort } from '../../api/client.ts';
import type { Problem } from '../../api/problem.ts';
import { Scope } from '../../scope.ts';
import { refused } from '../../signs/signs.ts';
import { uploads } from '../../uploads/queue.ts';
import { partWords } from '../../words/changes.ts';
import '../bring/upload.ts';

interface Stem {
  id: string;
  element: string;
  state?: string;
  file?: string;
  problem?: { detail: string } | string | null;
  /** Whether it lies where its mix lies, once both are decoded. */
  fit?: { code: string; words: string; fits: string | null } | null;
  remarks?: ReadonlyArray<{ code: string; words: string; stem: string | null }>;
}

const STATE_OF_FILE: Record<string, string> = {
  received: 'on its way', measuring: 'being measured', ready: '', failed: 'can’t be used',
};

const AGAIN_MS = 2000;

export class Stems extends LitElement {
  declare song: string;
  declare songTitle: string;
  declare bounce: string;
  declare elements: readonly string[];
  declare mayRemove: boolean;
  declare private stems: readonly Stem[] | null;
  declare private problem: Problem | null;
  static properties = {
    song: {}, songTitle: {}, bounce: {}, elements: { attribute: false }, mayRemove: { type: Boolean }, stems: { state: true }, problem: { state: true },
  };

  private scope = new Scope();
  private again: (() => void) | null = null;

  constructor() {
    super();
    this.song = '';
    this.songTitle = '';
    this.bounce = '';
    this.elements = [];
    this.mayRemove = false;
    this.stems = null;
    this.problem = null;
  }

  protected createRenderRoot(): HTMLElement {
    return this;
  }

  connectedCallback(): void {
    super.connectedCallback();
    this.scope = new Scope();
    let here = this.arrived();
    this.scope.onClose(uploads.items.watch(() => {
      const now = this.arrived();
      if (now > here) void this.load();
      here = now;
    }));
  }

  disconnectedCallback(): void {
    super.disconnectedCallback();
    this.scope.close();
  }

  updated(changed: Map<string, unknown>): void {
    if (changed.has('bounce') && this.bounce) void this.load();
  }

  /** Asks anew. */
  async load(): Promise<void> {
    const { bounce } = this;
    try {
      const stems = await api.all<Stem>(`/songs/${this.song}/stems?bounce=${bounce}`, this.scope.signal);
      if (bounce !== this.bounce) return;
      this.stems = stems;
      // A part tells nothing when it is measured: what is on its way is looked at again.
      const coming = stems.some((s) => s.state === 'received' || s.state === 'measuring' || (s.state === 'ready' && s.fit === null));
      this.again?.();
      this.again = coming ? this.scope.after(AGAIN_MS, () => void this.load()) : null;
    } catch (reason) {
      if (!isAbort(reason)) this.problem = asProblem(reason);
    }
  }

  private arrived(): number {
    return uploads.mine().filter((one) => one.target.song === this.song && one.target.element !== undefined && one.phase.is === 'arrived').length;
  }

  render(): TemplateResult {
    return html`<p class="quiet">With a file for each part, what moved can be told part by part.</p>
      ${this.stems && this.stems.length > 0 ? html`<ul class="lines gap narrow">${this.stems.map((s) => this.line(s))}</ul>` : nothing}
      ${refused(this.problem)}
      <mix-upload .song=${this.song} .songTitle=${this.songTitle} stems .bounce=${this.bounce} .elements=${this.elements}></mix-upload>`;
  }

  private line(stem: Stem): TemplateResult {
    const state = STATE_OF_FILE[stem.state ?? 'ready'] ?? '';
    const why = typeof stem.problem === 'string' ? stem.problem : stem.problem?.detail ?? '';
    // What has to be looked at is marked with its word, not by the eye alone.
    const failed = stem.state === 'failed';
    const odd = !failed && ((stem.fit && stem.fit.code !== 'same-length') || (stem.remarks?.length ?? 0) > 0);
    return html`<li><span>${partWords(stem.element)} <span class="quiet small">${[stem.file, state].filter(Boolean).join(', ')}${why ? `: ${why}` : ''}</span>
        ${!failed && (stem.fit || odd) ? html`<span class="small says">${odd ? html`<span class="you">Check</span> ` : nothing}${[stem.fit?.words, ...(stem.remarks ?? []).map((r) => r.words)].filter(Boolean).join(' ')}</span>` : nothing}</span>
      ${this.mayRemove ? html`<button class="btn plain" type="button" aria-label="Take ${partWords(stem.element)} away" @click=${() => void this.takeAway(stem)}>Take away</button>` : html`<span></span>`}</li>`;
  }

  private async takeAway(stem: Stem): Promise<void> {
    this.problem = null;
    try {
      await api.del(`/stems/${stem.id}`);
      await this.load();
    } catch (reason) {
      this.problem = asProblem(reason);
    }
  }
}
customElements.define('mix-stems', Stems);
