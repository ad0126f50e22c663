/** Two mixes at one place without their names: offered, heard, picked once, told to the last word. */
import { html, nothing, type PropertyValues, type TemplateResult } from 'lit';
import { api, isAbort } from '../../api/client.ts';
import type { BlindChoice, BlindPick, Change } from '../../api/types.ts';
import { ClipDeck } from '../../clips/deck.ts';
import { drawnIn, gently, placeFields, placeOf } from '../../clips/place.ts';
import { Living } from '../../living.ts';
import { sign } from '../../signs/signs.ts';
import { isSent } from '../../words/mixes.ts';
import { partWords } from '../../words/changes.ts';
import { capital, listed } from '../../words/numbers.ts';
import { nameOf, standing, type Context } from './context.ts';

const CHOICES: readonly (readonly [BlindChoice, string])[] = [
  ['first', 'The first'], ['second', 'The second'], ['no-difference', 'No difference to me'],
];
const PICKED: Record<BlindChoice, string> = { first: 'the first', second: 'the second', 'no-difference': 'no difference' };
/** Older ones stay on the server; here they would only be in the way. */
const OVER_SHOWN = 3;

class BlindPicks extends Living {
  declare context: Context;
  declare private picks: readonly BlindPick[];
  declare private playing: string | null;
  /** Sounds heard on this page, by ear and place in the order. */
  declare private heard: ReadonlySet<string>;
  static properties = {
    ...Living.properties, context: { attribute: false }, picks: { state: true }, playing: { state: true }, heard: { state: true },
  };

  private deck!: ClipDeck;
  private seen: unknown = null;

  constructor() {
    super();
    this.picks = [];
    this.playing = null;
    this.heard = new Set();
  }

  protected open(): void {
    this.seen = null;
    this.deck = new ClipDeck(this.scope, () => this.requestUpdate());
    this.scope.listen(this.context.player, 'change', () => this.context.player.playing && this.quiet());
  }

  protected updated(_: PropertyValues): void {
    // Offers, picks and settlements come as events that renew the questions and changes.
    const { data } = this.context;
    if (this.seen === data.questions || !this.context.may('see-list')) return;
    this.seen = data.questions;
    void this.ask();
  }

  private async ask(): Promise<void> {
    try {
      this.picks = await api.all<BlindPick>(`/songs/${this.context.data.song.id}/blind-picks`, this.scope.signal);
    } catch (reason) {
      // What is shown stays; the next event asks again.
      if (!isAbort(reason)) this.seen = null;
    }
  }

  render(): TemplateResult | typeof nothing {
    const open = this.picks.filter((p) => p.open);
    const over = this.picks.filter((p) => !p.open && (p.picks || p.picked)).slice(0, OVER_SHOWN);
    if (open.length + over.length === 0 && !this.context.may('work-list')) return nothing;
    return html`${open.length + over.length === 0 ? nothing : html`<section class="part"><h2>Two mixes, unnamed</h2>${[...open, ...over].map((p) => this.one(p))}</section>`}
      ${this.context.may('work-list') ? this.offer() : nothing}`;
  }

  private one(pick: BlindPick): TemplateResult {
    const toPick = pick.open && pick.ear && !pick.picked;
    return html`<div class="slip ${toPick ? 'mine' : ''}"><h3>${pick.place}</h3>
      ${toPick ? this.picking(pick, pick.ear!) : nothing}
      ${pick.picked ? html`<p class="gap">You picked <b>${PICKED[pick.picked]}</b>. That stays.</p>` : nothing}
      ${pick.mixes ? html`<p class="small quiet gap">Offered: ${listed(pick.mixes.map((m) => m.label))}, to each person in an order of their own.</p>` : nothing}
      ${pick.picks ? this.told(pick) : nothing}
      ${pick.open && pick.missing ? html`<p class="small quiet gap">Not picked yet: ${listed(pick.missing)}.</p>` : nothing}
      ${pick.open ? nothing : html`<p class="small quiet gap">This is over.</p>`}
      ${this.refusal(`pick ${pick.id}`)}
      ${pick.mayEnd ? html`<p><button class="btn plain flush" type="button" ?disabled=${this.running} @click=${() => this.end(pick)}>End it now</button></p>` : nothing}</div>`;
  }

  private picking(pick: BlindPick, ear: string): TemplateResult {
    const both = this.heard.has(`${ear} 0`) && this.heard.has(`${ear} 1`);
    const one = (index: number, words: string) => {
      const on = this.playing === ear && this.deck.heard === index;
      return html`<button class="btn" type="button" aria-pressed=${on} @click=${() => void this.hear(pick, ear, index)}>
        ${sign(on ? 'pause' : 'play', 'g fill')}${words}${on ? html` <span>${this.deck.waiting ? 'coming' : 'sounding'}</span>` : nothing}</button>`;
    };
    return html`<p class="gap">${pick.offeredBy} asks which you would rather have here. You hear the same place twice, equally loud. Only the last word is told who picked what.</p>
      <div class="turn two" role="group" aria-label="${pick.place}, twice">${one(0, 'Hear the first')}${one(1, 'Hear the second')}</div>
      ${gently(this.deck)}
      <div class="ear gap" role="group" aria-label="Your pick">${CHOICES.map(([choice, words]) => html`<button class="btn ${choice === 'no-difference' ? 'wide' : ''}" type="button"
        ?disabled=${!both || this.running} @click=${() => this.choose(pick, ear, choice)}>${words}</button>`)}</div>
      <p class="small quiet gap">${both ? 'You pick once; it cannot be changed.' : 'Hear both, then pick. You pick once.'}</p>`;
  }

  private told(pick: BlindPick): TemplateResult {
    return html`<p class="private gap">${sign('shut')}Only you, with the last word, see this</p>
      ${pick.picks!.length === 0 ? html`<p>Nobody has picked.</p>` : html`<ul class="moves picked">${pick.picks!.map((p) => html`<li>${p.person === this.context.me ? 'You' : p.name}: <b>${p.mix ? p.mix.label : 'no difference'}</b></li>`)}</ul>`}`;
  }

  private async hear(pick: BlindPick, ear: string, index: number): Promise<void> {
    if (this.playing === ear && this.deck.heard === index) return this.quiet();
    if (this.playing !== ear) this.deck.stop();
    this.context.player.pause();
    this.playing = ear;
    const base = `/blind-ears/${ear}/sounds`;
    await this.run(`pick ${pick.id}`, async () => {
      await this.deck.hear([`${base}/first`, `${base}/second`], index);
      this.heard = new Set([...this.heard, `${ear} ${index}`]);
    });
  }

  private quiet(): void {
    this.deck.stop();
    this.playing = null;
  }

  private choose(pick: BlindPick, ear: string, choice: BlindChoice): void {
    void this.run(`pick ${pick.id}`, async () => {
      await api.post(`/blind-ears/${ear}/pick`, { choice });
      this.quiet();
      await this.ask();
    });
  }

  private end(pick: BlindPick): void {
    void this.run(`pick ${pick.id}`, async () => {
      await api.post(`/blind-picks/${pick.id}/ending`);
      this.quiet();
      await this.ask();
    });
  }

  /** What the engineer offers, with the contradiction it is to settle. */
  private offer(): TemplateResult | typeof nothing {
    const { context } = this;
    const { data } = context;
    const mixes = data.bounces.filter((b) => b.state === 'ready' && isSent(b));
    const drawn = drawnIn(context.player.state);
    if (mixes.length < 2 || (context.spans.length === 0 && !drawn)) return nothing;
    const against = standing(data.changes).filter((c) => c.conflictsWith.length > 0 && (c.state === 'asked' || c.state === 'unclear'));
    const pairs = against.filter((c) => against.find((o) => o.conflictsWith.includes(c.id) || c.conflictsWith.includes(o.id) || o === c) === c);
    const submit = (e: SubmitEvent) => {
      e.preventDefault();
      const change = String(new FormData(e.target as HTMLFormElement).get('change') ?? '');
      void this.run('offer', async () => {
        await api.post(`/songs/${data.song.id}/blind-picks`, { ...placeOf(e, drawn), ...(change ? { change } : {}) });
        await this.ask();
      });
    };
    return html`<details class="fold part"><summary>Let people choose without names</summary>
      <p class="quiet">Everybody who writes hears one place from two sent mixes, unnamed and equally loud, and picks once. The last word is told who picked what, and settles.</p>
      <form class="form gap" @submit=${submit}>${placeFields(mixes, context.spans, ['One mix', 'The other'], context.here, drawn)}
        ${pairs.length === 0 ? nothing : html`<label>To settle<select name="change"><option value="">nothing in particular</option>
          ${pairs.map((c) => html`<option value=${c.id}>${this.pairWords(c)}</option>`)}</select></label>`}
        ${this.refusal('offer')}
        <p class="btns"><button class="btn" type="submit" ?disabled=${this.running}>Offer it</button></p></form></details>`;
  }

  private pairWords(change: Change): string {
    const { data, me } = this.context;
    const others = data.changes.filter((c) => change.conflictsWith.includes(c.id));
    const names = [change, ...others].map((c) => nameOf(data, c.author, me));
    return `${partWords(change.element)}: ${capital(listed([...new Set(names)]))} disagree`;
  }
}
customElements.define('mix-blind', BlindPicks);
