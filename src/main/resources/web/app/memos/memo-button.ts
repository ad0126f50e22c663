/** Hold to speak a note at the place that is heard; a short press starts, another one stops. */
import { html, nothing, type TemplateResult } from 'lit';
import { newKey } from '../api/client.ts';
import type { Id } from '../api/types.ts';
import { Living } from '../living.ts';
import { clock, count } from '../words/numbers.ts';
import { dropMemo, keepMemo, memosOf, sendMemo, type KeptMemo } from './kept.ts';
import { MOST_SECONDS, NoMicrophone, Recording } from './recorder.ts';

/** A press shorter than this is a tap: recording goes on until the next one. */
const TAP_MS = 400;
const AGAIN_MS = 20_000;

class MemoButton extends Living {
  declare person: Id;
  declare song: Id;
  declare bounce: Id;
  /** Whether the band gathers its notes, and who the engineer is then. */
  declare gathered: boolean;
  declare engineer: string;
  declare position: () => number;
  /** Stops what plays, so that it is not recorded along. */
  declare hush: () => void;
  declare private recording: Recording | null;
  declare private phase: 'idle' | 'asking' | 'recording' | 'keeping' | 'sent';
  declare private words: string;
  declare private only: boolean;
  declare private waiting: readonly KeptMemo[];
  static properties = {
    ...Living.properties, person: {}, song: {}, bounce: {}, gathered: { attribute: false }, engineer: {}, position: { attribute: false }, hush: { attribute: false },
    recording: { state: true }, phase: { state: true }, words: { state: true }, only: { state: true }, waiting: { state: true },
  };

  private pressedAt = 0;
  private place = 0;
  private sending = false;

  constructor() {
    super();
    this.recording = null;
    this.phase = 'idle';
    this.words = '';
    this.only = false;
    this.waiting = [];
  }

  protected open(): void {
    const again = () => void this.sendAll();
    this.scope.listen(window, 'online', again);
    this.scope.onClose(() => this.recording?.drop());
    again();
  }

  render(): TemplateResult {
    const on = this.phase === 'recording';
    const left = this.recording ? Math.max(0, MOST_SECONDS - this.recording.seconds) : MOST_SECONDS;
    return html`<div class="memo">
      <button class="btn ${on ? 'main' : ''}" type="button" aria-pressed=${on} ?disabled=${this.phase === 'asking' || this.phase === 'keeping'}
        @pointerdown=${this.down} @pointerup=${this.up} @pointercancel=${this.up} @keydown=${this.key} @contextmenu=${(e: Event) => e.preventDefault()}>
        ${on ? html`Recording, ${clock(this.recording!.seconds)}` : 'Speak it instead'}</button>
      ${on ? html`<button class="btn plain" type="button" @click=${this.dropIt}>Throw away</button>` : nothing}
      <span class="small quiet" role="status">${on ? `Let go, or press once more, to send it. ${left < 20 ? `${Math.ceil(left)} s left.` : ''}` : this.words || 'Hold it while you speak, two minutes at most.'}</span>
      ${this.gathered ? html`<label class="tick"><input type="checkbox" name="memo-only" .checked=${this.only} @change=${(e: Event) => (this.only = (e.target as HTMLInputElement).checked)}><span>For ${this.engineer || 'the engineer'} only</span></label>` : nothing}
      ${this.waiting.length > 0 ? html`<ul class="plainlist small">${this.waiting.map((memo) => html`<li>${memo.problem ? html`Your voice memo was not taken: ${memo.problem}` : 'A voice memo waits here for the line. It goes out by itself.'}
        <button class="btn plain" type="button" @click=${() => void this.forget(memo)}>Throw away</button></li>`)}</ul>` : nothing}
    </div>`;
  }

  private readonly down = (e: PointerEvent): void => {
    if (e.button !== 0) return;
    (e.target as Element).setPointerCapture(e.pointerId);
    if (this.phase === 'recording') {
      this.pressedAt = 0;
      return;
    }
    this.pressedAt = Date.now();
    void this.begin();
  };

  private readonly up = (): void => {
    if (this.pressedAt > 0 && Date.now() - this.pressedAt < TAP_MS) return;
    if (this.phase === 'asking') this.pressedAt = -1;
    else if (this.phase === 'recording') void this.finish();
  };

  private readonly key = (e: KeyboardEvent): void => {
    if (e.repeat || (e.key !== 'Enter' && e.key !== ' ')) return;
    e.preventDefault();
    this.pressedAt = Date.now();
    if (this.phase === 'recording') void this.finish();
    else void this.begin();
  };

  private async begin(): Promise<void> {
    if (this.phase === 'asking' || this.phase === 'keeping') return;
    this.phase = 'asking';
    this.words = '';
    this.place = this.position();
    this.hush();
    try {
      this.recording = await Recording.begin(this.scope);
    } catch (reason) {
      this.phase = 'idle';
      this.words = reason instanceof NoMicrophone ? reason.message : 'It could not be recorded just now. Write the note instead.';
      return;
    }
    this.phase = 'recording';
    this.tick();
  }

  private tick(): void {
    if (this.phase !== 'recording' || !this.recording) return;
    this.requestUpdate();
    if (this.recording.seconds >= MOST_SECONDS) void this.finish();
    else this.scope.after(250, () => this.tick());
  }

  private readonly dropIt = (): void => {
    this.recording?.drop();
    this.recording = null;
    this.phase = 'idle';
    this.words = 'Thrown away.';
  };

  private async finish(): Promise<void> {
    const recording = this.recording;
    if (!recording || this.phase !== 'recording') return;
    this.phase = 'keeping';
    this.words = 'Keeping it.';
    try {
      const sound = await recording.end();
      await keepMemo({ key: newKey(), person: this.person, song: this.song, bounce: this.bounce, from: this.place, only: this.gathered && this.only, sound, at: Date.now() });
    } catch {
      this.words = 'It could not be recorded just now. Write the note instead.';
      this.phase = 'idle';
      return;
    } finally {
      this.recording = null;
    }
    this.words = 'Sending it.';
    await this.sendAll();
    this.phase = 'sent';
  }

  /** Sends what waits here, one after the other; tries again while anything is left. */
  private async sendAll(): Promise<void> {
    if (this.sending || !this.person) return;
    this.sending = true;
    let arrived = 0;
    for (const memo of await memosOf(this.person, this.song)) {
      if (!memo.problem && (await sendMemo(memo))) arrived++;
    }
    this.waiting = await memosOf(this.person, this.song);
    this.sending = false;
    if (arrived > 0) {
      this.words = `${arrived === 1 ? 'Sent' : `Sent ${count(arrived, 'memo')}`}. It is kept as you spoke it.`;
      this.dispatchEvent(new CustomEvent('noted', { bubbles: true }));
    } else if (this.waiting.length > 0) this.words = '';
    if (this.waiting.some((memo) => !memo.problem)) this.scope.after(AGAIN_MS, () => void this.sendAll());
  }

  private async forget(memo: KeptMemo): Promise<void> {
    await dropMemo(memo.key);
    this.waiting = await memosOf(this.person, this.song);
  }
}

customElements.define('mix-memo', MemoButton);
