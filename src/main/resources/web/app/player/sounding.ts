/**
 * What makes a mix sound: a media element for plain listening, the audio clock where all mixes are
 * scheduled together, frame by frame. All places are seconds on the leading mix's time line.
 */
import { pause, type Scope } from '../scope.ts';
import { ClockListening } from './clock.ts';
import { Copies, makeUp } from './copies.ts';
import { Leveller, type Levels } from './leveller.ts';
import { LOOK_MS, loadTogether, type Together } from './loading.ts';
import { PlainListening, type Showing } from './plain.ts';
import type { AudioSource } from './source.ts';
import { gainOf, mixesOf, NOTHING, type PlayerState } from './state.ts';

/** How long a copy may keep one waiting before the light one is taken: less at the start than on the way. */
const BEGIN_PATIENCE_MS = 1500;
const STALL_PATIENCE_MS = 1000;

/** Tells `change` when its state changes and `place` while it plays. */
export abstract class Sounding extends EventTarget {
  state: PlayerState = NOTHING;
  showing: Showing = { title: '', artist: '', mix: '' };
  protected readonly plain: PlainListening;
  protected readonly leveller: Leveller;
  protected readonly copies = new Copies();
  protected opened = new AbortController();
  protected loading: Promise<Together> | null = null;
  protected together: Together | null = null;
  protected readonly clock: ClockListening;
  protected place = 0;
  protected wanted = false;
  protected gainDb: number | null = null;
  /** Beginnings asked for, and the last one that came about or was given up: only the latest begins. */
  protected turn = 0;
  protected begun = 0;
  protected failedAt = 0;

  constructor(protected readonly source: AudioSource, protected readonly scope: Scope) {
    super();
    this.plain = new PlainListening(scope);
    this.clock = new ClockListening(scope, {
      ended: () => this.stopAt(0),
      dry: (seconds) => {
        // A place somebody has gone to meanwhile is on its way already.
        if (this.turn === this.begun) {
          this.place = seconds;
          void this.play();
        }
      },
      failed: (reason) => this.opened.signal.aborted || this.fail(words(reason)),
      moved: () => this.tell(),
    });
    this.leveller = new Leveller(source, (levels) => this.levelled(levels));
    scope.onClose(() => this.close());
    this.plain.onchange = () => this.plainChanged();
    this.plain.onfail = () => {
      if (this.plain.opened && !this.clock.running) this.plainFailed();
    };
    this.set({ copyWish: this.copies.wish });
  }

  get playing(): boolean {
    return this.wanted;
  }

  /** Goes to a place in seconds; playing goes on from there. */
  abstract seek(seconds: number): void;

  /** Plays from where play stands. To be called from a press, as browsers ask. */
  async play(): Promise<void> {
    const { state } = this;
    if (!state.lead) return;
    this.wanted = true;
    if (state.problem) this.reload();
    const { signal } = this.opened;
    const turn = ++this.turn;
    try {
      const plain = state.way === 'plain' && state.sounding === state.lead.id && !state.loop;
      await (plain ? this.playPlain(signal, turn) : this.playClock(signal, turn));
    } catch (e) {
      // A browser reports an element that is paused while it begins as a failure.
      if (!signal.aborted && this.wanted && turn === this.turn) this.fail(words(e));
    } finally {
      if (turn === this.turn) this.begun = turn;
    }
  }

  pause(): void {
    this.place = this.position();
    this.wanted = false;
    this.plain.pause();
    this.clock.halt();
    this.set({ phase: this.together ? 'ready' : 'loading' });
  }

  /** Seconds on the leading mix's time line that are heard now. */
  position(): number {
    const heard = this.clock.position();
    if (heard !== null) return heard;
    return this.plain.playing ? this.plain.seconds : this.place;
  }

  close(): void {
    this.wanted = false;
    this.opened.abort();
    this.leveller.forget();
    this.clock.close();
    this.plain.close();
  }

  protected reload(): void {
    const [lead, ...others] = mixesOf(this.state);
    this.opened.abort();
    this.opened = new AbortController();
    const { signal } = this.opened;
    this.together = null;
    this.clock.clear();
    this.set({ problem: null });
    const loading = loadTogether(this.source, lead!.id, others.map((m) => m.id), signal, (progress, delayed = null) =>
      this.set({ progress, delayed, phase: progress === null ? this.state.phase : 'preparing' }));
    this.loading = loading;
    loading.then(async (together) => {
      if (signal.aborted) return;
      this.together = together;
      this.set({ seconds: together.lead.seconds, phase: this.wanted ? this.state.phase : 'ready' });
      this.lookAtCopies();
      this.readAhead(together);
      await together.complete;
      if (signal.aborted || !together.mapped) return;
      this.set({ mapped: true, laid: together.beside.filter((b) => b.laid).map((b) => b.segments.bounce) });
      this.askLevels();
      if (this.clock.running) this.restart();
    }).catch((e: unknown) => signal.aborted || this.fail(words(e)));
  }

  /** On a slow line the beginning is fetched before anybody presses. */
  protected readAhead({ lead }: Together): void {
    const { state, plain, source } = this;
    if (state.copy !== 'light' || state.way !== 'plain' || plain.opened || !lead.manifest.light?.ready) return;
    plain.readAhead(source.address(lead.bounce, 'light'));
  }

  protected async playPlain(signal: AbortSignal, turn: number): Promise<void> {
    const together = await this.loading!;
    const overtaken = () => signal.aborted || !this.wanted || turn !== this.turn;
    const there = await this.copies.untilThere(together.lead, signal, overtaken, (m) => this.set({ phase: 'preparing', progress: m.progress, delayed: m.problem }));
    this.lookAtCopies();
    if (there === null || overtaken()) return;
    const late = this.state.copy === 'full' ? this.scope.after(BEGIN_PATIENCE_MS, () => this.tooSlow(turn)) : () => {};
    if (there === 'pieces') {
      await this.playClock(signal, turn, true).finally(late);
      return void this.takeOver(together, overtaken);
    }
    const { copy } = this.state;
    this.plain.open(this.source.address(together.lead.bounce, copy), this.position());
    this.plain.element.volume = this.elementGain();
    await this.plain.play({ ...this.showing, mix: this.state.lead?.label ?? '' }, (s) => this.seek(s)).finally(late);
    if (overtaken()) {
      // Overtaken while the element began: by a pause, or by what runs on the clock.
      if (!this.wanted || this.state.way === 'clock') this.plain.pause();
      return;
    }
    this.clock.halt();
    this.set({ way: 'plain', phase: 'playing', early: false });
  }

  /** The whole copy takes over from the pieces once it is made: it goes on with the screen locked. */
  protected async takeOver(together: Together, overtaken: () => boolean): Promise<void> {
    while (!overtaken() && together.lead.manifest.state !== 'ready') {
      await pause(LOOK_MS, this.opened.signal);
      // A line that fails for a moment does not end what sounds.
      if (!overtaken()) await together.lead.look().catch(() => {});
    }
    if (!overtaken() && this.state.early) void this.play();
  }

  /** Full quality keeps one waiting: goes on with the light copy at the same place. */
  protected tooSlow(turn: number): void {
    const { state, together } = this;
    if (turn !== this.turn || !this.wanted || this.plain.sounding || this.clock.running || state.way !== 'plain' || state.copy !== 'full') return;
    if (!together || !this.copies.turnToLight(together.lead.manifest)) return;
    // What is on its way would keep the light copy waiting.
    if (!this.plain.opened) this.reload();
    this.replay();
  }

  /** Plays on from the same place with the copy that is due now. */
  protected replay(): void {
    this.place = this.position();
    this.set({ phase: 'waiting' });
    this.plain.pause();
    this.clock.halt();
    void this.play();
  }

  protected lookAtCopies(): void {
    const manifest = this.together?.lead.manifest;
    if (manifest) this.set(this.copies.view(manifest));
  }

  protected elementGain(): number {
    return Math.min(1, gainOf(this.state.volume) * makeUp(this.state.copy, this.together?.lead.manifest));
  }

  /** A copy that was there a moment ago is not: it is asked for again, once, before it counts as a failure. */
  protected plainFailed(): void {
    // Nobody is listening: it is asked for again at the next press.
    if (!this.wanted) return this.plain.close();
    if (this.failedAt > Date.now() - 10_000) return this.fail('This mix can’t be played just now. Press play to try again.');
    this.failedAt = Date.now();
    this.place = this.position();
    this.plain.close();
    this.reload();
    void this.play();
  }

  protected async playClock(signal: AbortSignal, turn: number, early = false): Promise<void> {
    // The context is made inside the press where that is possible; later a browser may not let it sound.
    if (this.together) this.clock.prepare(this.together.lead.manifest.sampleRate);
    const late = this.scope.after(150, () => this.wanted && this.set({ phase: 'waiting' }));
    try {
      const together = await this.loading!;
      if (this.state.sounding !== together.lead.bounce) await together.complete;
      if (signal.aborted || !this.wanted) return;
      const { sounding, volume } = this.state;
      const places = this.plain.playing && !this.clock.running ? [this.position() + 0.1] : [this.place];
      await this.clock.lay(together, sounding, this.matchDb(), volume, places);
      if (signal.aborted || !this.wanted || turn !== this.turn) return;
    } finally {
      late();
    }
    if (this.plain.playing && !this.clock.running) {
      this.place = this.plain.seconds + 0.04;
      this.scope.after(50, () => this.plain.pause());
    }
    this.clock.begin(this.place, this.state.loop);
    if (this.state.difference) this.clock.difference(this.gainDb);
    this.set({ way: early ? 'plain' : 'clock', phase: 'playing', early, interpolated: this.clock.interpolated });
    this.askLevels();
  }

  /** Plays on from the place: after seeking, with a new loop, with mixes that have arrived. */
  protected restart(): void {
    if (this.clock.voices === 1 && this.together?.mapped) {
      this.place = this.position();
      this.clock.clear();
    }
    void this.play();
  }

  protected stopAt(seconds: number): void {
    this.wanted = false;
    this.place = seconds;
    this.set({ phase: 'ready' });
  }

  protected askLevels(): void {
    const { loop, seconds, mapped } = this.state;
    const [lead, ...others] = mixesOf(this.state);
    if (lead && mapped) void this.leveller.ask(lead.id, others.map((m) => m.id), loop?.from ?? 0, loop?.to ?? seconds);
  }

  protected levelled(levels: Levels | null): void {
    this.set({ levels });
    this.applyMatch();
  }

  protected applyMatch(): void {
    this.clock.setMatch(this.matchDb());
  }

  /** Gains of the mixes that are open, the leading one first. */
  protected matchDb(): readonly number[] {
    const { equal, levels, difference } = this.state;
    return equal && levels && !difference ? levels.gainsDb : mixesOf(this.state).map(() => 0);
  }

  protected plainChanged(): void {
    if (this.clock.running || this.state.way !== 'plain' || !this.plain.opened) return;
    if (this.plain.element.ended) {
      this.stopAt(0);
    } else if (this.plain.playing) {
      this.wanted = true;
      if (this.plain.waiting && this.state.phase === 'playing') {
        const { turn } = this;
        this.scope.after(STALL_PATIENCE_MS, () => this.tooSlow(turn));
      }
      this.set({ phase: this.plain.waiting ? 'waiting' : 'playing' });
    } else if (this.state.phase === 'playing') {
      // Paused from the lock screen or by a headset.
      this.pause();
    }
    this.tell();
  }

  protected fail(problem: string): void {
    this.place = this.position();
    this.wanted = false;
    this.plain.pause();
    this.clock.halt();
    this.set({ phase: 'failed', problem });
  }

  protected set(change: Partial<PlayerState>): void {
    this.state = { ...this.state, ...change };
    this.dispatchEvent(new Event('change'));
  }

  protected tell(): void {
    this.dispatchEvent(new Event('place'));
  }
}

function words(e: unknown): string {
  return e instanceof Error ? e.message : String(e);
}
