/** A pass beside an earlier mix, in words: whether everything was recalled, and where not. */
import { html, nothing, type PropertyValues, type TemplateResult } from 'lit';
import { api, isAbort } from '../../api/client.ts';
import { Problem } from '../../api/problem.ts';
import type { Id, Recall, RecallPlace } from '../../api/types.ts';
import { Living } from '../../living.ts';
import type { Scope } from '../../scope.ts';
import { sign } from '../../signs/signs.ts';
import { isSent, mixWords } from '../../words/mixes.ts';
import { clock, figure } from '../../words/numbers.ts';
import type { Context } from './context.ts';
import type { SongPage } from './song-page.ts';

type Which = 'before' | 'after';

class RecallPanel extends Living {
  declare context: Context;
  declare page: SongPage;
  declare private beside: Id | null;
  declare private recall: Recall | null;
  declare private words: string;
  static properties = {
    ...Living.properties, context: { attribute: false }, page: { attribute: false },
    beside: { state: true }, recall: { state: true }, words: { state: true },
  };

  private asked = '';
  private asking: Scope | null = null;

  constructor() {
    super();
    this.beside = null;
    this.recall = null;
    this.words = '';
  }

  protected open(): void {
    this.asked = '';
  }

  /** What the leading mix is held against: what was chosen here, else the other mix of the pair. */
  private get other(): Id | null {
    const { lead, other } = this.context.data;
    const ids = this.choice().map((b) => b.id);
    if (this.beside !== null && this.beside !== lead?.id && ids.includes(this.beside)) return this.beside;
    return other && ids.includes(other.id) ? other.id : ids[0] ?? null;
  }

  private choice() {
    const { lead, bounces } = this.context.data;
    return bounces.filter((b) => b.state === 'ready' && b.id !== lead?.id).reverse();
  }

  protected updated(_: PropertyValues): void {
    const { lead } = this.context.data;
    const { other } = this;
    // Sections decide what is said, so it is asked anew when they are drawn anew.
    const key = lead && other ? `${lead.id} ${other} ${this.context.spans.map((s) => `${s.name}${s.from}`).join()}` : '';
    if (key === this.asked) return;
    this.asked = key;
    this.asking?.close();
    this.recall = null;
    this.words = '';
    if (lead && other) void this.ask(lead.id, other);
  }

  private async ask(lead: Id, other: Id): Promise<void> {
    const scope = (this.asking = this.scope.child());
    try {
      const recall = await api.whenReady<Recall>(`/bounces/${lead}/recall?with=${other}`, scope.signal,
        (share) => (this.words = `The two are being set against each other${share ? `, ${figure(share * 100, '%', 0)}` : ''}.`));
      if (!scope.closed) {
        this.recall = recall;
        this.words = '';
      }
    } catch (reason) {
      if (!isAbort(reason) && !scope.closed) this.words = reason instanceof Problem ? reason.words : 'This could not be found out.';
    }
  }

  render(): TemplateResult | typeof nothing {
    const { lead } = this.context.data;
    const choice = this.choice();
    const { other } = this;
    if (!lead || other === null) return nothing;
    return html`<section aria-labelledby="recall-title"><h2 id="recall-title">Is it the same mix?</h2>
      <p class="private">${sign('shut')}Only engineers see this</p>
      <label class="pick gap">${mixWords(lead)} beside <select @change=${(e: Event) => (this.beside = (e.target as HTMLSelectElement).value)}>
        ${choice.map((b) => html`<option value=${b.id} ?selected=${b.id === other}>${mixWords(b)}${isSent(b) ? '' : ', private'}</option>`)}</select></label>
      <p class="gap" role="status">${this.recall ? this.recall.words : html`<span class="quiet">${this.words}</span>`}</p>
      ${this.recall && this.recall.places.length > 0 ? html`<ul class="todo gap">${this.recall.places.map((p) => this.place(p, lead.id, other))}</ul>` : nothing}</section>`;
  }

  private place(place: RecallPlace, lead: Id, other: Id): TemplateResult {
    const from = place.from ?? place.otherFrom;
    const to = place.to ?? place.otherTo;
    const press = (which: Which, words: string) => {
      const on = this.sounding(place, which === 'after' ? lead : other);
      return html`<button class="btn" type="button" aria-pressed=${on} @click=${() => void this.hear(place, lead, other, which)}>${sign(on ? 'pause' : 'play', 'g fill')}${words}</button>`;
    };
    return html`<li><h3>${place.name}</h3><p class="small quiet">${from === null || to === null ? '' : `${clock(from)} to ${clock(to)}: `}${place.words}</p>
      <p class="btns" role="group" aria-label="${place.name}, before and after">${place.otherFrom === null ? nothing : press('before', 'Before')}${place.from === null ? nothing : press('after', 'After')}</p></li>`;
  }

  /** Whether this place sounds in that mix. */
  private sounding(place: RecallPlace, mix: Id): boolean {
    const { player } = this.context;
    const { loop, sounding } = player.state;
    return player.playing && loop !== null && sounding === mix && place.from !== null && Math.abs(loop.from - place.from) < 0.01;
  }

  private async hear(place: RecallPlace, lead: Id, other: Id, which: Which): Promise<void> {
    const { player } = this.context;
    const mix = which === 'after' ? lead : other;
    if (this.sounding(place, mix)) {
      player.pause();
      return;
    }
    if (this.context.data.other?.id !== other) await this.page.songState.choose(lead, other);
    if (place.from !== null && place.to !== null) player.setLoop({ from: place.from, to: place.to }, true);
    else if (place.otherFrom !== null && place.otherTo !== null) await player.loopOther(place.otherFrom, place.otherTo);
    player.crossTo(mix);
    if (!player.playing) await player.play();
  }
}
customElements.define('mix-recall', RecallPanel);
