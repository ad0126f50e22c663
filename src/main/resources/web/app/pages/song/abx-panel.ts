/** An engineer's own listening test: A and B are known, X is one of them, the score comes last. */
import { html, nothing, type TemplateResult } from 'lit';
import { api, isAbort } from '../../api/client.ts';
import type { AbxTest } from '../../api/types.ts';
import { ClipDeck } from '../../clips/deck.ts';
import { drawnIn, gently, placeFields, placeOf, type Drawn } from '../../clips/place.ts';
import { Living } from '../../living.ts';
import { sign } from '../../signs/signs.ts';
import type { Context } from './context.ts';

const USUAL_TRIALS = 12;

class AbxPanel extends Living {
  declare context: Context;
  declare private tests: readonly AbxTest[] | null;
  static properties = { ...Living.properties, context: { attribute: false }, tests: { state: true } };

  private deck!: ClipDeck;

  constructor() {
    super();
    this.tests = null;
  }

  protected open(): void {
    this.deck = new ClipDeck(this.scope, () => this.requestUpdate());
    this.scope.listen(this.context.player, 'change', () => this.context.player.playing && this.deck.stop());
  }

  /** Asked for when the fold is opened. */
  private async ask(): Promise<void> {
    try {
      this.tests = await api.all<AbxTest>(`/songs/${this.context.data.song.id}/abx-tests`, this.scope.signal);
    } catch (reason) {
      if (!isAbort(reason)) this.tests = null;
    }
  }

  render(): TemplateResult | typeof nothing {
    const mixes = this.context.data.bounces.filter((b) => b.state === 'ready');
    const drawn = drawnIn(this.context.player.state);
    if (mixes.length < 2 || (this.context.spans.length === 0 && !drawn)) return nothing;
    const running = this.tests?.find((t) => !t.result);
    const last = this.tests?.find((t) => t.result);
    const toggle = (e: Event) => ((e.target as HTMLDetailsElement).open ? void this.ask() : this.deck.stop());
    return html`<details class="fold part" @toggle=${toggle}><summary>Can you hear the difference?</summary>
      <p class="quiet">A and B are two mixes at one place, equally loud; X is one of them, drawn anew each time. How many times is fixed before you begin. Only you see any of it.</p>
      ${running ? this.trial(running) : html`${last ? html`<div class="slip"><h3>${last.a.label} and ${last.b.label}, ${last.place}</h3><p>${last.result!.words}</p></div>` : nothing}
        <form class="form gap" @submit=${(e: SubmitEvent) => this.begin(e, drawn)}>${placeFields(mixes, this.context.spans, ['A', 'B'], this.context.here, drawn)}
          <label>How many times, 5 to 50<input type="number" name="trials" min="5" max="50" step="1" .value=${String(USUAL_TRIALS)} required></label>
          ${this.refusal('abx')}
          <p class="btns"><button class="btn" type="submit" ?disabled=${this.running}>Begin</button></p></form>`}</details>`;
  }

  private trial(test: AbxTest): TemplateResult {
    const trial = test.answered + 1;
    const one = (index: number, words: string) => {
      const on = this.deck.heard === index;
      return html`<button class="btn" type="button" aria-pressed=${on} @click=${() => void this.hear(test, index)}>
        ${sign(on ? 'pause' : 'play', 'g fill')}${words}${on ? html` <span>${this.deck.waiting ? 'coming' : 'sounding'}</span>` : nothing}</button>`;
    };
    const says = (what: 'a' | 'b') => html`<button class="btn" type="button" ?disabled=${this.running} @click=${() => this.answer(test, trial, what)}>X is ${what.toUpperCase()}</button>`;
    return html`<div class="slip"><h3>${test.place}: ${trial} of ${test.trials}</h3>
      <div class="turn two" role="group" aria-label="A, B and X">${one(0, `A, ${test.a.label}`)}${one(1, `B, ${test.b.label}`)}${one(2, 'X')}</div>
      ${gently(this.deck)}
      <div class="ear gap" role="group" aria-label="Which is X">${says('a')}${says('b')}</div>
      ${this.refusal('abx')}
      <p><button class="btn plain flush" type="button" ?disabled=${this.running} @click=${() => this.breakOff(test)}>Break off; nothing is shown then</button></p></div>`;
  }

  private async hear(test: AbxTest, index: number): Promise<void> {
    if (this.deck.heard === index) return this.deck.stop();
    this.context.player.pause();
    const base = `/abx-tests/${test.id}`;
    await this.run('abx', () => this.deck.hear([`${base}/sounds/a`, `${base}/sounds/b`, `${base}/trials/${test.answered + 1}/sound`], index));
  }

  private begin(e: SubmitEvent, drawn: Drawn | null): void {
    e.preventDefault();
    const trials = Number(new FormData(e.target as HTMLFormElement).get('trials'));
    void this.run('abx', async () => {
      await api.post(`/songs/${this.context.data.song.id}/abx-tests`, { ...placeOf(e, drawn), trials });
      await this.ask();
    });
  }

  private answer(test: AbxTest, trial: number, says: 'a' | 'b'): void {
    void this.run('abx', async () => {
      const after = await api.post<AbxTest>(`/abx-tests/${test.id}/trials/${trial}`, { says });
      this.deck.stop();
      this.tests = (this.tests ?? []).map((t) => (t.id === after.id ? after : t));
    });
  }

  private breakOff(test: AbxTest): void {
    void this.run('abx', async () => {
      await api.del(`/abx-tests/${test.id}`);
      this.deck.stop();
      await this.ask();
    });
  }
}
customElements.define('mix-abx', AbxPanel);
