/**
 * The player of a song page. Plain listening runs through a media element; crossing over and
 * looping run on the audio clock, where both mixes are scheduled together, frame by frame.
 * All places are seconds on the leading mix's time line.
 */
import type { Scope } from '../scope.ts';
import { ClockListening } from './clock.ts';
import { Leveller } from './leveller.ts';
import { loadPair, type Pair } from './loading.ts';
import { render, type Rendering } from './offline.ts';
import { PlainListening, type Showing } from './plain.ts';
import type { AudioSource, LevelMatch } from './source.ts';
import { FIRST_VOLUME, gainOf, type Mix, type PlayerState, type Probe } from './state.ts';

const NOTHING: PlayerState = {
  phase: 'empty', way: 'plain', lead: null, other: null, sounding: '', loop: null, equal: true, difference: false, match: null,
  seconds: 0, volume: FIRST_VOLUME, progress: null, problem: null, mapped: false, interpolated: false,
};

/** Tells `change` when its state changes and `place` while it plays. */
export class Player extends EventTarget {
  state: PlayerState = NOTHING;
  showing: Showing = { title: '', artist: '', mix: '' };
  private readonly plain: PlainListening;
  private readonly leveller: Leveller;
  private opened = new AbortController();
  private loading: Promise<Pair> | null = null;
  private pair: Pair | null = null;
  private readonly clock: ClockListening;
  private place = 0;
  private wanted = false;
  private gainDb: number | null = null;
  /** Beginnings asked for, and the last one that came about or was given up: only the latest begins. */
  private turn = 0;
  private begun = 0;

  constructor(private readonly source: AudioSource, private readonly scope: Scope) {
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
    this.leveller = new Leveller(source, (match) => this.matched(match));
    scope.onClose(() => this.close());
    this.plain.onchange = () => this.plainChanged();
    this.plain.onfail = () => {
      if (this.plain.opened && !this.clock.running) this.fail('This mix can’t be played just now. Press play to try again.');
    };
  }

  get playing(): boolean {
    return this.wanted;
  }

  /** Chooses the mix, or the two mixes, to listen to; keeps the musical place where it can. */
  open(lead: Mix, other: Mix | null, sounding = lead.id): void {
    const { state } = this;
    if (state.lead?.id === lead.id && state.other?.id === other?.id) {
      if (state.lead.label !== lead.label || state.other?.label !== other?.label) this.set({ lead, other });
      return;
    }
    const wasPlaying = this.wanted;
    this.place = state.other?.id === lead.id ? this.positionOf(lead.id) ?? this.position() : this.position();
    this.wanted = false;
    this.plain.close();
    this.clock.clear();
    this.set({ ...NOTHING, volume: state.volume, equal: state.equal, phase: 'loading', lead, other, sounding });
    this.reload();
    if (wasPlaying) void this.play();
  }

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
    this.set({ phase: this.pair ? 'ready' : 'loading' });
  }

  toggle(): void {
    if (this.wanted) this.pause();
    else void this.play();
  }

  /** Goes to a place in seconds; playing goes on from there. A place outside the loop ends the loop. */
  seek(seconds: number): void {
    const length = this.state.seconds || Infinity;
    this.place = Math.min(Math.max(seconds, 0), Math.max(0, length - 0.01));
    const { loop } = this.state;
    if (loop && (this.place < loop.from - 0.001 || this.place >= loop.to)) {
      this.set({ loop: null });
      this.askLevels();
    }
    if (this.plain.playing && !this.clock.running) this.plain.seconds = this.place;
    else if (this.wanted) this.restart();
    this.tell();
  }

  /** Loops a stretch (seconds on the leading mix); play goes to its start unless it stands inside. */
  setLoop(loop: { from: number; to: number } | null, fromStart = false): void {
    if (loop && loop.to - loop.from < 0.2) return;
    const here = this.position();
    const inside = loop !== null && here >= loop.from && here < loop.to;
    this.place = loop && (fromStart || !inside) ? loop.from : here;
    if (loop && !inside && this.plain.playing && !this.clock.running) this.plain.seconds = this.place;
    this.set({ loop, way: loop ? 'clock' : this.state.way });
    this.askLevels();
    if (this.wanted) this.restart();
    this.tell();
  }

  /** Loops a stretch given in seconds of the other mix, on both. */
  async loopOther(from: number, to: number): Promise<void> {
    const pair = await this.loading;
    await pair?.complete;
    const here = (s: number) => pair?.map?.nearestFromOther(s) ?? s;
    // A single moment is heard with the seconds around it.
    const around = to - from < 2 ? 2 : 0;
    const start = Math.max(0, here(from) - around);
    this.setLoop({ from: start, to: Math.max(start + 1, here(to) + around) }, true);
  }

  /** Crosses over to a mix of the pair. */
  crossTo(id: string): void {
    const { lead, other, sounding } = this.state;
    if (id === sounding || (id !== lead?.id && id !== other?.id)) return;
    this.gainDb = null;
    this.set({ difference: false });
    this.applyMatch();
    const crossed = this.clock.crossTo(id, sounding) && this.clock.running;
    if (!crossed) this.place = this.position();
    this.set({ sounding: id, way: 'clock' });
    this.askLevels();
    if (this.wanted && !crossed) void this.play();
  }

  /** Crosses over to the one of the two that does not sound. */
  cross(): void {
    const { lead, other, sounding } = this.state;
    if (lead && other) this.crossTo(sounding === lead.id ? other.id : lead.id);
  }

  /**
   * Only what differs between the two, at half level, or the chosen mix again.
   *
   * @param gainDb by how much the leading mix is louder altogether; null ends it
   */
  async setDifference(gainDb: number | null): Promise<void> {
    this.gainDb = gainDb;
    this.set({ difference: gainDb !== null, way: gainDb === null ? this.state.way : 'clock' });
    this.applyMatch();
    if (this.wanted && !this.clock.running) await this.play();
    this.clock.difference(gainDb);
  }

  /** Both equally loud, or as delivered. */
  setEqual(equal: boolean): void {
    this.set({ equal });
    this.applyMatch();
  }

  setVolume(volume: number): void {
    this.set({ volume });
    this.plain.element.volume = gainOf(volume);
    this.clock.setVolume(volume);
  }

  /** Back to plain listening of the leading mix, which goes on with the screen locked. */
  plainly(fromStart = false): void {
    const { lead } = this.state;
    if (!lead) return;
    this.place = fromStart ? 0 : this.position();
    if (this.plain.playing && !this.clock.running && fromStart) this.plain.seconds = 0;
    this.clock.halt();
    this.gainDb = null;
    this.set({ way: 'plain', loop: null, sounding: lead.id, difference: false });
    if (this.wanted || fromStart) void this.play();
  }

  /** Seconds on the leading mix's time line that are heard now. */
  position(): number {
    const heard = this.clock.position();
    if (heard !== null) return heard;
    return this.plain.playing ? this.plain.seconds : this.place;
  }

  /** The same instant on the time line of either mix; null where it has nothing there. */
  positionOf(id: string): number | null {
    const here = this.position();
    return id === this.state.lead?.id ? here : this.pair?.map?.toOther(here) ?? null;
  }

  probe(): Probe {
    const fetched: Record<string, number> = {};
    for (const s of [this.pair?.lead, this.pair?.other]) if (s) fetched[s.bounce] = s.fetched;
    const { way, phase, sounding } = this.state;
    return { ...this.clock.probe(), way, phase, sounding, fetched, elementTime: this.plain.seconds };
  }

  /** Renders a stretch of the open pair offline, through the same desk that plays. */
  async rendering(what: Omit<Rendering, 'matchDb' | 'sounding'>): ReturnType<typeof render> {
    const pair = await this.loading!;
    await pair.complete;
    const rate = pair.lead.manifest.sampleRate;
    const voices = pair.voices(rate);
    const sounding = Math.max(0, voices.findIndex((v) => v.bounce === this.state.sounding));
    return render(voices, rate, { ...what, matchDb: this.matchDb(), sounding });
  }

  close(): void {
    this.wanted = false;
    this.opened.abort();
    this.leveller.forget();
    this.clock.close();
    this.plain.close();
  }

  private reload(): void {
    const { lead, other } = this.state;
    this.opened.abort();
    this.opened = new AbortController();
    const { signal } = this.opened;
    this.pair = null;
    this.clock.clear();
    this.set({ problem: null });
    const loading = loadPair(this.source, lead!.id, other?.id ?? null, signal, (progress) =>
      this.set({ progress, phase: progress === null ? this.state.phase : 'preparing' }));
    this.loading = loading;
    loading.then(async (pair) => {
      if (signal.aborted) return;
      this.pair = pair;
      this.set({ seconds: pair.lead.seconds, phase: this.wanted ? this.state.phase : 'ready' });
      await pair.complete;
      if (signal.aborted || !pair.both) return;
      this.set({ mapped: true });
      this.askLevels();
      if (this.clock.running) this.restart();
    }).catch((e: unknown) => signal.aborted || this.fail(words(e)));
  }

  private async playPlain(signal: AbortSignal, turn: number): Promise<void> {
    const pair = await this.loading!;
    if (signal.aborted || !this.wanted || turn !== this.turn) return;
    this.plain.element.volume = gainOf(this.state.volume);
    this.plain.open(this.source.whole(pair.lead.bounce), this.position());
    await this.plain.play({ ...this.showing, mix: this.state.lead?.label ?? '' }, (s) => this.seek(s));
    if (signal.aborted || !this.wanted || turn !== this.turn) {
      // Overtaken while the element began: by a pause, or by what runs on the clock.
      if (!this.wanted || this.state.way === 'clock') this.plain.pause();
      return;
    }
    this.clock.halt();
    this.set({ way: 'plain', phase: 'playing' });
  }

  private async playClock(signal: AbortSignal, turn: number): Promise<void> {
    // The context is made inside the press where that is possible; later a browser may not let it sound.
    if (this.pair) this.clock.prepare(this.pair.lead.manifest.sampleRate);
    const late = this.scope.after(150, () => this.wanted && this.set({ phase: 'waiting' }));
    try {
      const pair = await this.loading!;
      if (this.state.sounding !== pair.lead.bounce) await pair.complete;
      if (signal.aborted || !this.wanted) return;
      const { sounding, volume } = this.state;
      const places = this.plain.playing && !this.clock.running ? [this.position() + 0.1] : [this.place];
      await this.clock.lay(pair, sounding, this.matchDb(), volume, places);
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
    this.set({ way: 'clock', phase: 'playing', interpolated: this.clock.interpolated });
    this.askLevels();
  }

  /** Plays on from the place: after seeking, with a new loop, with a second mix that has arrived. */
  private restart(): void {
    if (this.clock.voices === 1 && this.pair?.both) {
      this.place = this.position();
      this.clock.clear();
    }
    void this.play();
  }

  private stopAt(seconds: number): void {
    this.wanted = false;
    this.place = seconds;
    this.set({ phase: 'ready' });
  }

  private askLevels(): void {
    const { lead, other, loop, seconds, mapped } = this.state;
    if (lead && other && mapped) void this.leveller.ask(lead.id, other.id, loop?.from ?? 0, loop?.to ?? seconds);
  }

  private matched(match: LevelMatch | null): void {
    this.set({ match });
    this.applyMatch();
  }

  private applyMatch(): void {
    this.clock.setMatch(this.matchDb());
  }

  /** Gains of the leading mix and the other one. */
  private matchDb(): number[] {
    const { equal, match, difference } = this.state;
    return equal && match && !difference ? [match.gainDb, match.otherGainDb] : [0, 0];
  }

  private plainChanged(): void {
    if (this.clock.running || this.state.way !== 'plain' || !this.plain.opened) return;
    if (this.plain.element.ended) {
      this.stopAt(0);
    } else if (this.plain.playing) {
      this.wanted = true;
      this.set({ phase: this.plain.waiting ? 'waiting' : 'playing' });
    } else if (this.state.phase === 'playing') {
      // Paused from the lock screen or by a headset.
      this.pause();
    }
    this.tell();
  }

  private fail(problem: string): void {
    this.place = this.position();
    this.wanted = false;
    this.plain.pause();
    this.clock.halt();
    this.set({ phase: 'failed', problem });
  }

  private set(change: Partial<PlayerState>): void {
    this.state = { ...this.state, ...change };
    this.dispatchEvent(new Event('change'));
  }

  private tell(): void {
    this.dispatchEvent(new Event('place'));
  }
}

function words(e: unknown): string {
  return e instanceof Error ? e.message : String(e);
}
