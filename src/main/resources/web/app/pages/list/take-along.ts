/** The list as files: a table, a sheet to print, markers for a workstation, and the answer as text. */
import { html, nothing, type TemplateResult } from 'lit';
import { api } from '../../api/client.ts';
import type { Sheet } from '../../state/sheet.ts';
import { bounceName } from '../../state/sheet.ts';
import { Living } from '../../living.ts';
import type { Bounce, Id } from '../../api/types.ts';
import { isSent } from '../../words/mixes.ts';

class TakeAlong extends Living {
  declare sheet: Sheet;
  /** The mix whose places are wanted, once somebody chose. */
  declare private chosen: Id | null;
  declare private answer: string | null;
  declare private copied: boolean;
  static properties = { ...Living.properties, sheet: { attribute: false }, chosen: { state: true }, answer: { state: true }, copied: { state: true } };

  constructor() {
    super();
    this.chosen = null;
    this.answer = null;
    this.copied = false;
  }

  protected open(): void {
    this.answer = null;
  }

  render(): TemplateResult | typeof nothing {
    const { song, mains } = this.sheet;
    if (!song.newest) return nothing;
    const on = this.on();
    const of = on ? `bounce=${encodeURIComponent(on.id)}` : '';
    const file = (ending: string, words: string, help: string) => html`<li><a class="btn plain flush" href="/api/v1/songs/${song.id}/work-sheet.${ending}${of ? `${ending.includes('?') ? '&' : '?'}${of}` : ''}" download>${words}</a> <span class="quiet small">${help}</span></li>`;
    const works = song.may.includes('work-list');
    return html`<details class="fold part" @toggle=${(e: Event) => this.toggled(e, works)}><summary>Take the list along</summary>
      ${mains.length > 1 && on
        ? html`<p><label>With the places as they lie on <select name="on" @change=${(e: Event) => this.choose((e.target as HTMLSelectElement).value, works)}>
            ${[...mains].reverse().map((bounce) => html`<option value=${bounce.id} ?selected=${bounce.id === on.id}>${bounceName(bounce)}</option>`)}</select></label></p>`
        : html`<p class="quiet">With the places as they lie on ${on ? bounceName(on) : 'the newest mix'}.</p>`}
      <ul class="plainlist">
        ${file('pdf', 'Sheet to print', 'PDF, with boxes to tick')}
        ${file('csv', 'Table', 'CSV, times to the millisecond')}
        ${file('mid', 'Markers', 'Standard MIDI File, with the song’s tempo')}
        ${song.may.includes('download') ? file('wav', 'Mix with markers', 'WAV with cue points, the sound untouched') : nothing}
        ${file('wav?sound=none', 'Markers alone', 'silent WAV of the mix’s length with cue points')}
      </ul>
      ${works && this.answer !== null ? html`<div class="form"><label>Your answer to the band<textarea rows="12" readonly .value=${this.answer}></textarea></label>
        <p class="btns"><button class="btn" type="button" @click=${() => void this.copy()}>Copy</button><span role="status">${this.copied ? 'Copied.' : ''}</span></p></div>` : nothing}
      ${this.refusal('answer')}</details>`;
  }

  /** The chosen mix, or the newest that was sent: notes are placed on what people heard. */
  private on(): Bounce | undefined {
    const { mains } = this.sheet;
    const sent = mains.filter((bounce) => isSent(bounce));
    return mains.find((bounce) => bounce.id === this.chosen) ?? sent[sent.length - 1] ?? mains[mains.length - 1];
  }

  private toggled(event: Event, works: boolean): void {
    if (works && (event.target as HTMLDetailsElement).open) this.ask();
  }

  private choose(mix: Id, works: boolean): void {
    this.chosen = mix;
    if (works) this.ask();
  }

  /** The answer to the band, with the places on the mix that was chosen. */
  private ask(): void {
    this.copied = false;
    const { chosen } = this;
    const on = chosen === null ? '' : `?bounce=${encodeURIComponent(chosen)}`;
    void this.run('answer', async () => {
      this.answer = await api.text(`/songs/${this.sheet.song.id}/work-sheet.txt${on}`, this.scope.signal);
    }).then((went) => {
      // Another one was chosen while it came.
      if (went && chosen !== this.chosen) this.ask();
    });
  }

  private async copy(): Promise<void> {
    const box = this.querySelector('textarea')!;
    box.select();
    try {
      await navigator.clipboard.writeText(this.answer ?? '');
      this.copied = true;
    } catch {
      // No leave to write there: it is selected, and can be copied by hand.
    }
  }
}

customElements.define('mix-take-along', TakeAlong);
