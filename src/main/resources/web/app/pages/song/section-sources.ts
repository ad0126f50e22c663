/** Sections that can be taken from elsewhere, and bars and beats out of a MIDI file. Nothing is applied unasked. */
import { html, nothing, type TemplateResult } from 'lit';
import { api, asProblem, isAbort, type Problem } from '../../api/client.ts';
import type { SectionProposal, TempoMap } from '../../api/types.ts';
import { parseClock } from '../../geometry/clock.ts';
import { Living } from '../../living.ts';
import { refused } from '../../signs/signs.ts';
import { clockMillis, count } from '../../words/numbers.ts';

export class SectionSources extends Living {
  declare song: string;
  declare bounce: string;
  /** Whether the song has a tempo map. */
  declare mapped: boolean;
  /** Where play stands, seconds on the bounce. */
  declare position: () => number;
  declare private proposals: readonly SectionProposal[];
  declare private map: TempoMap | null;
  declare private problem: Problem | null;
  declare private busy: boolean;
  declare private said: string;
  static properties = {
    ...Living.properties, song: {}, bounce: {}, mapped: { attribute: false }, position: { attribute: false }, proposals: { state: true }, map: { state: true }, problem: { state: true }, busy: { state: true }, said: { state: true },
  };
  private asked = '';

  constructor() {
    super();
    this.song = '';
    this.bounce = '';
    this.mapped = false;
    this.position = () => 0;
    this.proposals = [];
    this.map = null;
    this.problem = null;
    this.busy = false;
    this.said = '';
  }

  protected open(): void {
    this.asked = '';
  }

  updated(): void {
    const wanted = `${this.bounce} ${this.mapped}`;
    if (this.bounce && this.asked !== wanted) {
      this.asked = wanted;
      void this.ask();
    }
  }

  private async ask(): Promise<void> {
    const { signal } = this.scope;
    const of = this.bounce;
    try {
      const [proposals, map] = await Promise.all([
        api.get<SectionProposal[]>(`/bounces/${of}/section-proposals`, signal),
        this.mapped ? api.get<TempoMap>(`/songs/${this.song}/tempo-map?bounce=${of}`, signal) : null,
      ]);
      if (of !== this.bounce) return;
      this.proposals = proposals;
      this.take(map);
      // Until two mixes have been laid against each other the bars have no place on this one.
      if (map && !map.placed) this.scope.after(3000, () => void this.ask());
    } catch (reason) {
      if (!isAbort(reason)) this.problem = asProblem(reason);
    }
  }

  private take(map: TempoMap | null): void {
    this.map = map;
    this.dispatchEvent(new CustomEvent('bars', { detail: map?.placed ? map.bars : null }));
  }

  render(): TemplateResult {
    return html`${this.proposals.map((p) => html`<p class="offer"><button class="btn" type="button" @click=${() => this.offer(p)}>${take(p)}</button> <span class="quiet">${p.words}</span></p>`)}
      <details class="fold"><summary>Bars from a MIDI file</summary>
        ${this.map ? this.present(this.map) : html`<p class="quiet small">A tempo track as a Standard MIDI File. Then edges go by bar and beat, and “bar 33” in a note is found, also where the tempo changes.</p>`}
        <form class="form midi gap" @submit=${this.send}>
          <label>MIDI file<input type="file" name="file" accept=".mid,.midi,.smf,audio/midi" required></label>
          <label>It begins at<input type="text" inputmode="decimal" name="at" value="0:00.000" autocomplete="off"><span class="help">Where the file’s beginning lies on this mix.</span></label>
          <p class="btns"><button class="btn" type="button" @click=${this.here}>Where it plays</button><button class="btn" type="submit" ?disabled=${this.busy}>Take its bars</button></p></form>
        ${this.said ? html`<p role="status">${this.said}</p>` : nothing}</details>
      ${refused(this.problem)}`;
  }

  private present(map: TempoMap): TemplateResult {
    const words = map.placed
      ? `${count(map.bars.length, 'bar')}, ${count(map.tempos.length, 'tempo')}, ${count(map.meters.length, 'time signature')}. The file begins at ${map.at < 0 ? '\u2212' : ''}${clockMillis(Math.abs(map.at))}.`
      : 'The bars are being laid onto this mix.';
    return html`<p>${words} ${map.remark ?? ''} <button class="link" type="button" ?disabled=${this.busy} @click=${() => void this.drop()}>Take the bars away</button></p>`;
  }

  private offer(proposal: SectionProposal): void {
    this.dispatchEvent(new CustomEvent('taken', { detail: proposal }));
  }

  private here(): void {
    const at = this.querySelector<HTMLInputElement>('input[name="at"]');
    if (at) at.value = clockMillis(this.position());
  }

  private async send(e: SubmitEvent): Promise<void> {
    e.preventDefault();
    const form = e.target as HTMLFormElement;
    const fields = new FormData(form);
    const typed = String(fields.get('at') ?? '').trim();
    const minus = /^[-\u2212]/.test(typed);
    const at = typed === '' ? 0 : parseClock(minus ? typed.slice(1) : typed);
    if (at === null) {
      form.querySelector<HTMLInputElement>('input[name="at"]')!.focus();
      this.said = 'Say the time as minutes and seconds, such as 0:01.250.';
      return;
    }
    await this.work(async () => {
      const map = await api.putFile<TempoMap>(`/songs/${this.song}/tempo-map?bounce=${this.bounce}&at=${minus ? -at : at}`, fields.get('file') as File);
      form.reset();
      this.said = 'Taken.';
      this.mapped = true;
      this.take(map);
    });
  }

  private async drop(): Promise<void> {
    await this.work(async () => {
      await api.del(`/songs/${this.song}/tempo-map`);
      this.said = 'The bars are gone.';
      this.mapped = false;
      this.take(null);
    });
  }

  private async work(run: () => Promise<void>): Promise<void> {
    this.busy = true;
    this.problem = null;
    this.said = '';
    try {
      await run();
      await this.ask();
    } catch (reason) {
      this.problem = asProblem(reason);
    } finally {
      this.busy = false;
    }
  }
}
customElements.define('mix-section-sources', SectionSources);

/** What a press takes. */
function take(proposal: SectionProposal): string {
  const number = proposal.sections.length;
  switch (proposal.source) {
    case 'markers': return number === 1 ? 'Take the marker of this file' : `Take the ${number} markers of this file`;
    case 'tempo-map': return number === 1 ? 'Take the marker of the MIDI file' : `Take the ${number} markers of the MIDI file`;
    default: return `Take these ${count(number, 'section')}`;
  }
}
