import { html, nothing, type TemplateResult } from 'lit';
import { api, isAbort } from '../../api/client.ts';
import { followSong, gathered } from '../../api/events.ts';
import { asProblem, type Problem } from '../../api/problem.ts';
import type { Bounce, Comparison, Hearing, Id } from '../../api/types.ts';
import { Page } from '../../page.ts';
import { go } from '../../router.ts';
import { head, way, whenThere } from '../../signs/frame.ts';
import { none, roundAtWork, roundWords, sign, tally, you } from '../../signs/signs.ts';
import { ready, loading, loadInto, type Load } from '../../state/load.ts';
import { sentMains } from '../../state/moved.ts';
import { bounceName, loadSheet, type Sheet } from '../../state/sheet.ts';
import { clock } from '../../words/numbers.ts';
import { sentWords } from '../../words/mixes.ts';
import { codeOf, waitsFor } from '../../words/waiting.ts';
import { movedBlock } from './approve-moved.ts';
import './approve-decide.ts';
import './approve-record.ts';

interface Pair {
  readonly here: Bounce;
  /** The mix the reader heard last before this one; none when this is the first. */
  readonly there: Bounce | null;
  readonly heardThere: string | null;
}

/** Deciding on a mix: what moved, what is open, the decision, the record. */
class ApprovePage extends Page {
  declare private sheet: Load<Sheet>;
  declare private pair: Pair | null;
  declare private comparison: Comparison | null;
  declare private progress: number | null;
  declare private closed: Problem | null;
  declare private turn: number;
  static properties = {
    ...Page.properties,
    sheet: { state: true },
    pair: { state: true },
    comparison: { state: true },
    progress: { state: true },
    closed: { state: true },
    turn: { state: true },
  };

  constructor() {
    super();
    this.sheet = loading;
    this.pair = null;
    this.comparison = null;
    this.progress = null;
    this.closed = null;
    this.turn = 0;
  }

  private get song(): Id {
    return this.param('song');
  }

  protected open(): void {
    this.titled('Approve');
    void this.ask();
    const again = gathered(this.scope, () => void this.ask());
    followSong(this.song, this.scope, (event) => event.type === 'progress' || again(), again);
  }

  private async ask(): Promise<void> {
    await loadInto(loadSheet(this.song, this.scope.signal), (load) => {
      if (load.phase === 'ready' || this.sheet.phase !== 'ready') this.sheet = load;
    });
    this.turn += 1;
    if (this.sheet.phase !== 'ready') return;
    const sheet = this.sheet.value;
    this.titled(`Approve, ${sheet.song.title}`);
    await this.choose(sheet, this.pair?.here.id ?? new URLSearchParams(location.search).get('mix'));
  }

  private async choose(sheet: Sheet, wanted: Id | null): Promise<void> {
    const mains = sentMains(sheet.mains);
    const here = mains.find((bounce) => bounce.id === wanted) ?? mains[0];
    if (!here) return;
    const known = this.pair;
    try {
      const pair = await this.pairWith(here, mains);
      const same = known?.here.id === here.id && known.there?.id === pair.there?.id;
      this.pair = pair;
      if (!same || this.comparison === null) await this.compare(pair);
    } catch (reason) {
      if (!isAbort(reason)) this.sheet = { phase: 'failed', problem: asProblem(reason) };
    }
  }

  /** Finds the newest earlier mix this person has heard; else the one just before. */
  private async pairWith(here: Bounce, mains: readonly Bounce[]): Promise<Pair> {
    const earlier = mains.filter((bounce) => bounce.number < here.number);
    for (const bounce of earlier) {
      const hearing = await api.get<Hearing>(`/bounces/${bounce.id}/hearing`, this.scope.signal);
      if (hearing.heard) return { here, there: bounce, heardThere: hearing.at };
    }
    return { here, there: earlier[0] ?? null, heardThere: null };
  }

  private async compare({ here, there }: Pair): Promise<void> {
    this.comparison = null;
    this.closed = null;
    this.progress = null;
    if (!there) return;
    const path = `/bounces/${here.id}/comparison?with=${there.id}`;
    try {
      const found = await api.whenReady<Comparison>(path, this.scope.signal, (progress) => (this.progress = progress ?? 0));
      if (found && this.pair?.here.id === here.id) this.comparison = found;
    } catch (reason) {
      if (!isAbort(reason)) this.closed = asProblem(reason);
    }
  }

  private turnTo(sheet: Sheet, mix: Id): void {
    go(`/songs/${this.song}/approve?mix=${mix}`, 'replace');
    this.sheet = ready(sheet);
    void this.choose(sheet, mix);
  }

  render(): TemplateResult {
    return whenThere(this.sheet, (sheet) => this.shown(sheet));
  }

  private shown(sheet: Sheet): TemplateResult {
    const { song } = sheet;
    const mine = waitsFor(song.waitingOn, this.me?.id);
    const round = roundAtWork(song);
    const here = this.pair?.here ?? null;
    const seconds = here?.file?.seconds ?? null;
    return html`
      ${way([{ words: 'All songs', href: '/' }, { words: song.title, href: `/songs/${song.id}` }, { words: 'Approve' }], this.me, song.you.role)}
      ${head({
        title: song.title,
        by: song.artist,
        left: here ? html`<p>${bounceName(here)}${seconds === null ? '' : `, ${clock(seconds)}`}<br>${sentWords(here)}</p>` : '',
        right: html`<p>${tally(round, song.includedRounds)}<strong>Round ${roundWords(round, song.includedRounds)}</strong></p>
          ${mine && here && song.waitingOn && codeOf(song.waitingOn) === 'approve' ? html`<p>${you()} decide on ${bounceName(here)}</p>` : nothing}`,
      })}
      <main id="main" tabindex="-1">
        ${here && this.pair ? this.deciding(sheet, this.pair) : this.nothing(sheet)}
      </main>`;
  }

  private nothing(sheet: Sheet): TemplateResult {
    if (sentMains(sheet.mains).length > 0) return html`<p class="quiet" role="status">One moment.</p>`;
    return none(html`<b>No mix has been sent yet.</b> There is nothing to decide on. The engineer sends the first one.`);
  }

  private deciding(sheet: Sheet, pair: Pair): TemplateResult {
    const mains = sentMains(sheet.mains);
    return html`
      <p class="btns">
        <a class="btn go" href="/songs/${sheet.song.id}?mix=${pair.here.id}${pair.there ? `&with=${pair.there.id}` : ''}">${sign('play', 'g fill')}Listen to ${bounceName(pair.here)}</a>
        ${mains.length > 1
          ? html`<label class="which"><span>Decide on</span>
              <select @change=${(event: Event) => this.turnTo(sheet, (event.target as HTMLSelectElement).value)}>
                ${mains.map((bounce) => html`<option value=${bounce.id} ?selected=${bounce.id === pair.here.id}>${bounceName(bounce)}</option>`)}
              </select></label>`
          : nothing}
        <a class="btn onphone-btn" href="#before-title">Decide</a>
      </p>
      <div class="two part">
        <section aria-labelledby="moved-title">
          ${movedBlock(sheet, pair, this.comparison, this.progress, this.closed)}
        </section>
        <approve-decide .sheet=${sheet} .bounce=${pair.here} .turn=${this.turn} @decided=${() => void this.ask()}></approve-decide>
      </div>
      <approve-record .sheet=${sheet} .turn=${this.turn}></approve-record>`;
  }
}

customElements.define('page-approve', ApprovePage);
