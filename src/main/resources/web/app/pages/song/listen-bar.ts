/** The listening bar: play, two to four mixes under one brace, how they are matched, the strip and the fader. */
import { html, LitElement, nothing, svg, type TemplateResult } from 'lit';
import { paintStrip } from '../../draw/strip.ts';
import { at, placeWords, type Pulse, type Span } from '../../geometry/form.ts';
import { boxes, columns, dragged, roomFor, timeToX, xToTime, type Columns } from '../../geometry/strip.ts';
import type { CopyWish } from '../../player/copies.ts';
import type { Player } from '../../player/player.ts';
import { mixesOf, type PlayerState } from '../../player/state.ts';
import { Scope } from '../../scope.ts';
import { brace, sign } from '../../signs/signs.ts';
import { clock, signedFigure } from '../../words/numbers.ts';

/** A mix as the bar names it. */
export interface Named {
  id: string;
  words: string;
  quiet: string;
}

/** Mixes to be opened: the leading one, the one it is set against, and up to two more. */
export interface Opening {
  lead: string;
  other: string | null;
  more: readonly string[];
}

const MOST_OPEN = 4;
const STRIP_HEIGHT = 32;

export class ListenBar extends LitElement {
  declare player: Player;
  declare sections: readonly Span[];
  declare marks: ReadonlyMap<string, string>;
  declare pulse: Pulse;
  declare outline: readonly number[] | null;
  /** The mixes that are open, in the order shown: older first. */
  declare open: readonly Named[];
  /** All mixes that can be opened. */
  declare choice: readonly Named[];
  declare figures: boolean;
  /** By how much the leading mix is louder altogether, where that is known. */
  declare gainDb: number | null;
  declare canNote: boolean;
  declare private now: PlayerState | null;
  declare private width: number;
  static properties = {
    player: { attribute: false }, sections: { attribute: false }, marks: { attribute: false },
    pulse: { attribute: false }, outline: { attribute: false }, open: { attribute: false },
    choice: { attribute: false }, figures: { attribute: false }, gainDb: { attribute: false }, canNote: { attribute: false },
    now: { state: true }, width: { state: true },
  };

  private scope = new Scope();
  private shape: Columns | null = null;
  private shapeOf: unknown = null;
  /** The safe-listening line is shown once on each device. */
  private gently = false;
  private painted = '';
  private drag: { start: number; now: number } | null = null;

  constructor() {
    super();
    this.sections = [];
    this.marks = new Map();
    this.pulse = {};
    this.outline = null;
    this.open = [];
    this.choice = [];
    this.figures = false;
    this.gainDb = null;
    this.canNote = false;
    this.now = null;
    this.width = 0;
  }

  protected createRenderRoot(): HTMLElement {
    return this;
  }

  connectedCallback(): void {
    super.connectedCallback();
    this.scope = new Scope();
    this.now = this.player.state;
    this.gently = !heardBefore();
    this.scope.listen(this.player, 'change', () => {
      this.now = this.player.state;
      if (this.gently && this.now.phase === 'playing') rememberHeard();
    });
    this.scope.eachFrame(() => this.frame());
  }

  disconnectedCallback(): void {
    super.disconnectedCallback();
    this.scope.close();
  }

  firstUpdated(): void {
    this.scope.observeSize(this.querySelector('.row')!, (width) => (this.width = Math.round(width)));
  }

  updated(): void {
    // The chart's head sticks right under this bar, whatever its height.
    const bar = this.querySelector('.listen');
    if (bar) document.documentElement.style.setProperty('--under', `${Math.round(bar.getBoundingClientRect().height)}px`);
    this.paint();
  }

  render(): TemplateResult | typeof nothing {
    const { now } = this;
    if (!now) return nothing;
    const busy = now.phase === 'waiting' || now.phase === 'preparing';
    const playing = this.player.playing;
    return html`<section class="listen" aria-label="Listening">
      <div class="row">
        <button class="play" type="button" aria-label=${playing ? 'Pause' : 'Play'} ?disabled=${!now.lead} @click=${() => this.player.toggle()}>
          ${sign(playing ? 'pause' : 'play', busy ? 'busy' : '')}</button>
        ${this.mixes(now)}
        <div class="even">${this.even(now)}</div>
        ${this.canNote ? html`<button class="btn jot" type="button" @click=${() => this.dispatchEvent(new CustomEvent('jot'))}>Note</button>` : nothing}
        <div class="at">
          <p class="clock"><b data-clock>0:00</b> <span class="quiet of">of ${clock(now.seconds)}</span><br><span class="quiet" data-place></span></p>
          <label class="fader"><span class="hide">Volume</span>${sign('up')}
            <input type="range" min="0" max="100" step="1" .value=${String(Math.round(now.volume * 100))}
              aria-valuetext="${Math.round(now.volume * 100)} of 100" @input=${this.turned}></label>
        </div>
      </div>
      ${now.lead ? this.strip(now) : nothing}
    </section>`;
  }

  private mixes(now: PlayerState): TemplateResult {
    const one = (mix: Named) => html`<label>
      <input type="radio" name="sounding" .checked=${now.sounding === mix.id} @change=${() => this.player.crossTo(mix.id)}>
      <b>${mix.words}</b> <span class="quiet">${mix.quiet}</span> <span class="on">${this.player.playing ? 'sounding' : 'chosen'}</span></label>`;
    return html`<fieldset class="pair ${['', 'single', '', 'three', 'four'][this.open.length]}">
      <legend class="hide">Which mix sounds</legend>
      ${this.open.length > 1 ? brace() : nothing}${this.open.map(one)}
    </fieldset>`;
  }

  private even(now: PlayerState): TemplateResult {
    const gently = this.gently ? html`<p class="small quiet">It starts quietly. Turn it up by hand, and give your ears a rest after a while.</p>` : nothing;
    const others = this.choice.length > 2 ? this.otherMixes(now) : nothing;
    if (now.problem) return html`<p class="level" role="alert"><strong>${now.problem}</strong></p>${others}`;
    if (now.phase === 'preparing') {
      return html`<p class="level">${now.delayed ?? 'Getting this mix ready to be heard.'}</p><progress max="1" .value=${now.progress ?? 0} aria-label="How far it is"></progress>`;
    }
    if (!now.lead) return html`<p class="level">Nothing to hear yet.</p>`;
    const copies = this.copies(now);
    if (now.phase === 'waiting') {
      return html`<p class="level"><span class="quiet">Fetching this place.${now.way === 'clock' && now.slow ? ' Comparing and looping are in full quality only, and this line is slow: it takes a while.' : ''}</span></p>${copies}${others}`;
    }
    const locked = html`<span class="quiet">${now.early ? 'Keeps playing while this page is open.' : 'Goes on with the screen locked.'}</span>`;
    if (!now.other) {
      return html`<p class="level">${now.way === 'plain' ? locked : html`<span class="quiet">Looping.</span>`}</p>${gently}${copies}${this.plainly(now)}${others}`;
    }
    if (now.way === 'plain' && !now.loop) {
      return html`<p class="level"><strong>${now.copy === 'light' ? 'One mix, as a light copy.' : 'One mix, as delivered.'}</strong> ${locked}</p>${gently}
        <button class="link" type="button" @click=${() => this.player.cross()}>${now.more.length > 0 ? 'Set them against each other' : 'Set the two against each other'}</button>${copies}${others}`;
    }
    if (now.difference) {
      return html`<p class="level"><strong>Only what differs between ${this.nameOf(now.lead.id)} and ${this.nameOf(now.other.id)}, at half level.</strong> <span class="quiet">Silence means that nothing moved here.</span></p>
        <button class="link" type="button" @click=${() => void this.player.setDifference(null)}>Hear the mixes again</button>`;
    }
    return html`${this.matched(now)}
      <button class="link" type="button" aria-pressed=${!now.equal} @click=${() => this.player.setEqual(!now.equal)}>
        ${now.equal ? 'Play as delivered' : now.more.length > 0 ? 'Play all equal again' : 'Play both equal again'}</button>
      ${this.figures && this.gainDb !== null && now.mapped
        ? html`<button class="link" type="button" @click=${() => void this.player.setDifference(this.gainDb)}>Hear only the difference</button>` : nothing}
      ${copies}${this.plainly(now)}${others}`;
  }

  /** Which of the two copies sounds, and the choice between them. */
  private copies(now: PlayerState): TemplateResult {
    const light = now.copy === 'light' && now.way === 'plain';
    const words = light ? 'Light copy' : 'Full quality';
    if (!now.hasLight) return html`<span class="quiet copy">${words}</span>`;
    const choice = (wish: CopyWish, said: string) => html`<label class="tick">
      <input type="radio" name="copy" .checked=${now.copyWish === wish} @change=${() => this.player.setCopy(wish)}><span>${said}</span></label>`;
    return html`<details class="others copy"><summary>${words}</summary><div class="drop down">
      ${choice('auto', 'As the line allows')}${choice('full', 'Full quality, every sample')}${choice('light', 'Light copy, for slow lines')}
      <p class="small quiet">${light && now.copyWish === 'auto' ? 'This line is slow, so the light copy plays. ' : ''}The light copy leaves out what is hardest to hear. Comparing and looping are always in full quality, and an approval says which of the two was heard.</p></div></details>`;
  }

  private matched(now: PlayerState): TemplateResult {
    const missing = this.player.positionOf(now.sounding) === null && now.mapped
      ? html` <span class="quiet">This passage is not in ${this.nameOf(now.sounding)}.</span>` : nothing;
    const laid = now.laid.map((id) => this.nameOf(id)).join(' and ');
    const rate = now.interpolated
      ? html` <span class="quiet">This device has no clock at the rate of ${this.nameOf(now.lead!.id)}, so everything follows the device’s own.</span>`
      : laid ? html` <span class="quiet">${laid} ${now.laid.length > 1 ? 'run' : 'runs'} at another speed or rate, and ${now.laid.length > 1 ? 'are' : 'is'} heard through a copy laid onto the time of ${this.nameOf(now.lead!.id)}.</span>` : nothing;
    const line = now.slow ? html`<p class="small quiet">Comparing is in full quality only. This line is slow, so it may have to stop now and then.</p>` : nothing;
    if (!now.equal) {
      return html`<p class="level">${now.more.length > 0 ? 'All' : 'Both'} play as delivered. The louder one may seem better only for being louder.${missing}</p>${line}`;
    }
    if (!now.mapped) return html`<p class="level"><span class="quiet">Finding out how they lie against each other.</span></p>`;
    if (!now.levels) return html`<p class="level"><span class="quiet">Finding out how loud each is here. Until then they play as delivered.</span></p>`;
    const gains = mixesOf(now).map((mix, i) => ({ name: this.nameOf(mix.id), db: now.levels!.gainsDb[i] ?? 0 })).filter((gain) => gain.db <= -0.05);
    const turned = gains.length > 1 ? gains.map((gain) => `${gain.name} ${signedFigure(gain.db, 'dB')}`).join(', ') : signedFigure(gains[0]?.db ?? 0, 'dB');
    return html`<p class="level"><strong>${now.levels.words}</strong>
      ${this.figures ? html`<span class="quiet">${turned} ${now.loop ? 'on this loop' : 'over the song'}</span>` : nothing}${missing}${rate}</p>${line}`;
  }

  private plainly(now: PlayerState): TemplateResult | typeof nothing {
    if (now.way === 'plain' && !now.loop) return nothing;
    return html`<button class="link" type="button" @click=${() => this.player.plainly()}>${now.other ? 'Listen to one only' : 'Let go of the loop'}</button>`;
  }

  private otherMixes(now: PlayerState): TemplateResult {
    const open = mixesOf(now).map((mix) => mix.id);
    const pick = (place: number, words: string) => html`<label>${words}
      <select @change=${(e: Event) => this.picked(place, (e.target as HTMLSelectElement).value)}>
        ${place > 1 ? html`<option value="" ?selected=${place === open.length}>no other</option>` : nothing}
        ${this.choice.filter((m) => place < 2 || m.id === open[place] || !open.includes(m.id))
          .map((m) => html`<option value=${m.id} ?selected=${m.id === open[place]}>${m.words}</option>`)}
      </select></label>`;
    const places = Math.min(MOST_OPEN, this.choice.length, open.length + 1);
    return html`<details class="others"><summary>Other mixes</summary><div class="drop">
      ${Array.from({ length: places }, (_, place) => pick(place, ['Hear', 'against', 'and', 'and'][place]!))}</div></details>`;
  }

  /** Puts a mix into a place; whichever stood there trades places with it, or is let go. */
  private picked(place: number, id: string): void {
    const open = mixesOf(this.now!).map((mix) => mix.id);
    const before = open.indexOf(id);
    if (before >= 0) open[before] = open[place] ?? '';
    open[place] = id;
    const [lead, other = null, ...more] = open.filter((mix) => mix !== '');
    this.dispatchEvent(new CustomEvent<Opening>('choose', { detail: { lead: lead!, other, more } }));
  }

  private strip(now: PlayerState): TemplateResult {
    const length = Math.max(now.seconds, 0.001);
    const context = document.createElement('canvas').getContext('2d');
    if (context) context.font = '650 13px "Segoe UI", Roboto, "DejaVu Sans Condensed", sans-serif';
    const text = (name: string) => (context?.measureText(this.marks.get(name) ?? '').width ?? 20);
    const fitting = roomFor(boxes(this.sections, length, this.width), text);
    const here = at(this.sections, this.player.position())?.name;
    return html`<svg class="way-in" height="17" aria-hidden="true">${fitting.map((box) => markOn(box.x, this.marks.get(box.name) ?? '', box.name === here))}</svg>
      <canvas class="strip" role="slider" tabindex="0" aria-label="Place in the song" aria-valuemin="0"
        aria-valuemax=${Math.round(length)} @keydown=${this.jump} @pointerdown=${this.down} @pointermove=${this.move} @pointerup=${this.up} @pointercancel=${() => (this.drag = null)}></canvas>`;
  }

  /** Home and End, as on every slider; the arrows are keys of the page. */
  private jump(e: KeyboardEvent): void {
    if (e.key !== 'Home' && e.key !== 'End') return;
    e.preventDefault();
    this.player.seek(e.key === 'Home' ? 0 : this.now!.seconds);
  }

  private down(e: PointerEvent): void {
    if (e.button !== 0) return;
    const canvas = e.currentTarget as HTMLCanvasElement;
    canvas.setPointerCapture(e.pointerId);
    const x = e.clientX - canvas.getBoundingClientRect().left;
    this.drag = { start: x, now: x };
  }

  private move(e: PointerEvent): void {
    if (!this.drag) return;
    this.drag.now = e.clientX - (e.currentTarget as HTMLElement).getBoundingClientRect().left;
  }

  private up(): void {
    const { drag, now } = this;
    this.drag = null;
    if (!drag || !now) return;
    const stretch = dragged(drag.start, drag.now, now.seconds, this.width);
    if (stretch) this.player.setLoop(stretch, true);
    else this.player.seek(xToTime(drag.start, now.seconds, this.width));
  }

  private turned(e: Event): void {
    this.player.setVolume(Number((e.target as HTMLInputElement).value) / 100);
  }

  private nameOf(id: string): string {
    return this.open.find((m) => m.id === id)?.words ?? 'this mix';
  }

  /** What moves with the music is written straight into the page; nothing is drawn anew for it. */
  private frame(): void {
    const { now } = this;
    if (!now) return;
    const seconds = this.player.position();
    const time = clock(seconds);
    const place = [placeWords(this.sections, seconds, this.pulse), now.loop ? 'looping' : ''].filter(Boolean).join(', ');
    const set = (selector: string, words: string) => {
      const element = this.querySelector(selector);
      if (element && element.textContent !== words) element.textContent = words;
    };
    set('[data-clock]', time);
    set('[data-place]', place);
    const canvas = this.querySelector('canvas.strip');
    const spoken = `${time}${place ? `, ${at(this.sections, seconds)?.name ?? ''}` : ''}`;
    if (canvas && canvas.getAttribute('aria-valuetext') !== spoken) {
      canvas.setAttribute('aria-valuenow', String(Math.round(seconds)));
      canvas.setAttribute('aria-valuetext', spoken);
    }
    this.paint();
  }

  private paint(): void {
    const canvas = this.querySelector<HTMLCanvasElement>('canvas.strip');
    const { now, width } = this;
    if (!canvas || !now || width === 0) return;
    const fresh = this.shapeOf !== this.outline || (this.shape !== null && this.shape.width !== width);
    if (fresh) {
      this.shape = this.outline ? columns(this.outline, width, STRIP_HEIGHT) : null;
      this.shapeOf = this.outline;
    }
    const place = now.lead ? this.player.position() : null;
    const key = [width, now.seconds, now.loop?.from, now.loop?.to, place === null ? '' : timeToX(place, now.seconds, width).toFixed(1),
      this.drag?.start, this.drag?.now, this.sections.length, devicePixelRatio, getComputedStyle(canvas).color].join(' ');
    if (key === this.painted && !fresh) return;
    this.painted = key;
    const x = (s: number) => timeToX(s, now.seconds, width);
    const loop = this.drag && Math.abs(this.drag.now - this.drag.start) >= 5
      ? { from: Math.min(this.drag.start, this.drag.now), to: Math.max(this.drag.start, this.drag.now) }
      : now.loop && { from: x(now.loop.from), to: x(now.loop.to) };
    paintStrip(canvas, {
      width, height: STRIP_HEIGHT, columns: this.shape, boxes: boxes(this.sections, now.seconds, width), loop,
      place: place === null ? null : x(place),
    }, devicePixelRatio || 1);
  }
}

const HEARD = 'mixaccord.heard';

function heardBefore(): boolean {
  try {
    return localStorage.getItem(HEARD) !== null;
  } catch {
    return false;
  }
}

function rememberHeard(): void {
  try {
    localStorage.setItem(HEARD, 'yes');
  } catch {
    // Without storage the line is shown again next time.
  }
}

function markOn(x: number, letters: string, here: boolean): TemplateResult {
  return svg`<text x=${x.toFixed(1)} y="13" class=${here ? 'lit' : ''}>${letters}</text>`;
}
customElements.define('mix-listen', ListenBar);
