/** Listening on the audio clock: one to four mixes scheduled together, looped, crossed over. */
import type { Scope } from '../scope.ts';
import { CROSSING_SECONDS, Desk, Run } from './desk.ts';
import type { Together } from './loading.ts';
import { gainOf, type Probe } from './state.ts';

const AHEAD_SECONDS = 2.5;
const FETCH_SECONDS = 12;
const PUMP_MS = 120;

/** What a clock tells its player. */
export interface ClockEvents {
  /** The song has ended. */
  ended(): void;
  /** The line was too slow; play stopped at this place, seconds. */
  dry(seconds: number): void;
  failed(reason: unknown): void;
  moved(): void;
}

/** Owns the audio context, the desk and the run that sounds. */
export class ClockListening {
  context: AudioContext | null = null;
  private preparedFor = 0;
  private desk: Desk | null = null;
  private run: Run | null = null;
  private together: Together | null = null;
  private fetching = false;
  private stopPump: (() => void) | null = null;
  private lastSwitch: Probe['lastSwitch'] = null;

  constructor(private readonly scope: Scope, private readonly events: ClockEvents) {}

  get running(): boolean {
    return this.run !== null;
  }

  /** How many mixes are on the desk. */
  get voices(): number {
    return this.desk?.voices.length ?? 0;
  }

  get interpolated(): boolean {
    return this.desk?.voices.some((v) => v.interpolated) ?? false;
  }

  /** Makes the context at the file's own rate, so that nothing is resampled; inside a press. */
  prepare(rate: number): AudioContext {
    if (this.context && this.preparedFor === rate) return this.context;
    this.close();
    this.preparedFor = rate;
    try {
      this.context = new AudioContext({ sampleRate: rate, latencyHint: 'interactive' });
    } catch {
      // A rate this browser has no clock for: all mixes are then laid onto its own.
      this.context = new AudioContext({ latencyHint: 'interactive' });
    }
    void this.context.resume();
    return this.context;
  }

  /** Puts the mixes on the desk and fetches what is needed around the places given, seconds. */
  async lay(together: Together, sounding: string, matchDb: readonly number[], volume: number, places: number[]): Promise<void> {
    const context = this.prepare(together.lead.manifest.sampleRate);
    await context.resume();
    const voices = together.voices(context.sampleRate);
    if (this.together !== together || this.desk?.voices.length !== voices.length) {
      this.clear();
      this.together = together;
      this.desk = new Desk(context, voices, Math.max(0, voices.findIndex((v) => v.bounce === sounding)));
      this.desk.volume.gain.value = gainOf(volume);
      this.desk.setMatch(matchDb.slice(0, voices.length), context.currentTime);
    }
    const rate = context.sampleRate;
    await Promise.all(places.flatMap((p) => this.desk!.voices.map((v) => v.need(Math.round(p * rate), rate))));
  }

  /** Begins to play at a place, over whatever still sounds; returns seconds until it begins. */
  begin(seconds: number, loop: { from: number; to: number } | null): void {
    const { context, desk, together } = this;
    if (!context || !desk || !together) return;
    const rate = context.sampleRate;
    const at = Math.ceil((context.currentTime + 0.04) * rate);
    const end = Math.round(together.lead.seconds * rate);
    const round = loop && { from: Math.round(loop.from * rate), to: Math.min(end, Math.round(loop.to * rate)) };
    const start = Math.min(Math.max(0, Math.round(seconds * rate)), end - 1);
    this.run?.stop(at / rate);
    this.run = new Run(desk, { start, end, loop: round }, at, this.run ? CROSSING_SECONDS : 0.05);
    this.run.pump(at + AHEAD_SECONDS * rate);
    this.stopPump ??= this.scope.every(PUMP_MS, () => this.pump());
  }

  /** Crosses over to a mix on the desk; false where it is not there yet. */
  crossTo(bounce: string, from: string): boolean {
    const index = this.desk?.voices.findIndex((v) => v.bounce === bounce) ?? -1;
    if (!this.desk || !this.context || index < 0) return false;
    const soon = Math.ceil((this.context.currentTime + 0.02) * this.context.sampleRate);
    const at = this.desk.crossTo(index, soon);
    this.lastSwitch = { atFrame: at, from, to: bounce, positionFrame: this.framesAt(at) };
    return true;
  }

  /** Sounds only what differs, or the chosen mix again; false where there is no other on the desk. */
  difference(gainDb: number | null): boolean {
    if (!this.desk || !this.context || this.voices < 2) return false;
    this.desk.difference(gainDb, Math.ceil((this.context.currentTime + 0.02) * this.context.sampleRate));
    return true;
  }

  /** Seconds on the leading time line that are heard now; null when nothing runs. */
  position(): number | null {
    const { run, context } = this;
    if (!run || !context) return null;
    const rate = context.sampleRate;
    const heard = context.currentTime - (context.outputLatency || context.baseLatency || 0);
    const frame = run.positionAt(Math.max(Math.round(heard * rate), run.startFrame));
    return (frame ?? run.next) / rate;
  }

  setVolume(volume: number): void {
    if (this.desk && this.context) this.desk.volume.gain.setTargetAtTime(gainOf(volume), this.context.currentTime, 0.02);
  }

  setMatch(matchDb: readonly number[]): void {
    if (this.desk && this.context) this.desk.setMatch(matchDb, this.context.currentTime + 0.005);
  }

  /** Stops sounding; the desk stays laid. */
  halt(): void {
    this.stopPump?.();
    this.stopPump = null;
    if (this.run && this.context) this.run.stop(this.context.currentTime);
    this.run = null;
  }

  /** Takes everything off the desk. */
  clear(): void {
    this.halt();
    this.desk?.close();
    this.desk = null;
    this.together = null;
  }

  close(): void {
    this.clear();
    void this.context?.close();
    this.context = null;
  }

  /** Time, rate, own frames of each mix and the last crossing, for tests. */
  probe(): Pick<Probe, 'contextTime' | 'contextFrame' | 'sampleRate' | 'contextState' | 'positionFrame' | 'lastSwitch'> {
    const contextTime = this.context?.currentTime ?? 0;
    const sampleRate = this.context?.sampleRate ?? 0;
    const contextFrame = Math.round(contextTime * sampleRate);
    return {
      contextTime, contextFrame, sampleRate, contextState: this.context?.state ?? 'none',
      positionFrame: this.framesAt(contextFrame), lastSwitch: this.lastSwitch,
    };
  }

  private framesAt(contextFrame: number): Record<string, number | null> {
    const result: Record<string, number | null> = {};
    const position = this.run?.positionAt(contextFrame) ?? null;
    for (const voice of this.desk?.voices ?? []) {
      result[voice.bounce] = position === null ? null : voice.frameAt(position);
    }
    return result;
  }

  private pump(): void {
    const { run, context, desk } = this;
    if (!run || !context || !desk) return;
    const rate = context.sampleRate;
    const now = context.currentTime * rate;
    // A hidden page's timers are slow; more is laid ahead then.
    run.pump(now + (document.hidden ? 3 : 1) * AHEAD_SECONDS * rate);
    if (run.ended && now >= run.scheduledUntil) {
      this.halt();
      this.events.ended();
    } else if (!run.ended && now >= run.scheduledUntil - 0.02 * rate) {
      this.halt();
      this.events.dry(run.next / rate);
    } else {
      if (!this.fetching) void this.fetchAhead(run, desk, rate);
      this.events.moved();
    }
  }

  private async fetchAhead(run: Run, desk: Desk, rate: number): Promise<void> {
    this.fetching = true;
    try {
      for (const [from, to] of run.ahead(FETCH_SECONDS * rate)) {
        await Promise.all(desk.voices.map((v) => v.need(from, to - from)));
      }
    } catch (e) {
      if (this.run === run) this.events.failed(e);
    } finally {
      this.fetching = false;
    }
  }
}
