/**
 * Short clips of one place, equally long, looped together on one clock; one of them is heard. The
 * server has laid them on one time line and matched their level; here nothing is changed but which
 * one sounds.
 */
import { problemOf, unreachable } from '../api/problem.ts';
import { gainOf } from '../player/state.ts';
import type { Scope } from '../scope.ts';

const CROSSING_SECONDS = 0.01;
const SOON_SECONDS = 0.03;
const RATE_AT = 24;
const FIRST_VOLUME = 0.3;

interface Voice { source: AudioBufferSourceNode; gain: GainNode }

export class ClipDeck {
  volume = FIRST_VOLUME;
  private context: AudioContext | null = null;
  private out: GainNode | null = null;
  private clips: AudioBuffer[] = [];
  private laid = '';
  private voices: Voice[] = [];
  private sounding = -1;
  private wanted = -1;

  constructor(private readonly scope: Scope, private readonly changed: () => void) {
    scope.onClose(() => {
      this.stop();
      void this.context?.close();
    });
  }

  /** The clip that is heard, or is about to be; null while nothing sounds. */
  get heard(): number | null {
    return this.wanted < 0 ? null : this.wanted;
  }

  /** Fetched and not yet sounding. */
  get waiting(): boolean {
    return this.wanted >= 0 && this.wanted !== this.sounding;
  }

  /** Hears one of the clips at these addresses; called from a press. Other addresses replace those before. */
  async hear(paths: readonly string[], index: number): Promise<void> {
    this.wanted = index;
    this.changed();
    try {
      if (this.laid !== paths.join()) await this.lay(paths);
      if (this.wanted < 0 || this.scope.closed) return;
      if (this.voices.length === 0) this.begin();
      this.cross(this.wanted);
    } catch (reason) {
      this.stop();
      throw reason;
    } finally {
      this.changed();
    }
  }

  stop(): void {
    const { context } = this;
    this.wanted = -1;
    this.sounding = -1;
    for (const { source, gain } of this.voices) {
      if (!context) continue;
      gain.gain.cancelScheduledValues(context.currentTime);
      gain.gain.setTargetAtTime(0, context.currentTime, CROSSING_SECONDS / 3);
      source.stop(context.currentTime + 3 * CROSSING_SECONDS);
    }
    this.voices = [];
    this.changed();
  }

  turn(volume: number): void {
    this.volume = volume;
    if (this.out && this.context) this.out.gain.setTargetAtTime(gainOf(volume), this.context.currentTime, 0.02);
  }

  private async lay(paths: readonly string[]): Promise<void> {
    const { wanted } = this;
    const old = this.laid.split(',');
    const kept = new Map(old.map((path, i) => [path, this.clips[i]]));
    const clips = await Promise.all(paths.map(async (path) => kept.get(path) ?? this.fetched(path)));
    this.stop();
    this.wanted = wanted;
    this.clips = clips;
    this.laid = paths.join();
  }

  private async fetched(path: string): Promise<AudioBuffer> {
    let answer: Response;
    try {
      answer = await fetch(`/api/v1${path}`, { signal: this.scope.signal, credentials: 'same-origin', cache: 'no-store' });
    } catch (reason) {
      if (this.scope.closed) throw reason;
      throw unreachable();
    }
    if (!answer.ok) throw await problemOf(answer);
    const bytes = await answer.arrayBuffer();
    return this.ready(new DataView(bytes).getUint32(RATE_AT, true)).decodeAudioData(bytes);
  }

  /** At the clips' own rate, so that nothing is resampled where the browser can do that. */
  private ready(rate: number): AudioContext {
    if (this.context) return this.context;
    try {
      this.context = new AudioContext({ sampleRate: rate });
    } catch {
      this.context = new AudioContext();
    }
    this.out = this.context.createGain();
    this.out.gain.value = gainOf(this.volume);
    this.out.connect(this.context.destination);
    return this.context;
  }

  /** All clips start on one sample. */
  private begin(): void {
    const context = this.context!;
    void context.resume();
    const at = context.currentTime + SOON_SECONDS;
    this.voices = this.clips.map((buffer) => {
      const source = context.createBufferSource();
      source.buffer = buffer;
      source.loop = true;
      const gain = context.createGain();
      gain.gain.value = 0;
      source.connect(gain).connect(this.out!);
      source.start(at);
      return { source, gain };
    });
  }

  /** Equal gain over ten milliseconds, so that nothing but the mix is heard to change. */
  private cross(index: number): void {
    const at = this.context!.currentTime + SOON_SECONDS;
    this.voices.forEach(({ gain }, i) => {
      const from = i === this.sounding ? 1 : 0;
      const to = i === index ? 1 : 0;
      gain.gain.cancelScheduledValues(this.context!.currentTime);
      gain.gain.setValueAtTime(from, at);
      gain.gain.linearRampToValueAtTime(to, at + CROSSING_SECONDS);
    });
    this.sounding = index;
  }
}
