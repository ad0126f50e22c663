/**
 * The sound path, on a live or an offline context: every bounce runs all the time on one clock, and
 * crossing over only turns two gains, so that a switch lands on the same instant of the music.
 *
 * blocks → run gain → level match → crossing → volume → out
 */
import type { Voice } from './voice.ts';

/** Equal-gain crossing: both sides are the same music, so their gains add up to 1. */
export const CROSSING_SECONDS = 0.01;
const BLOCK_SECONDS = 0.5;
const SEAM_SECONDS = 0.005;

/** What is played: from `start`, round a loop or to `end`; frames of the clock. */
export interface Line {
  start: number;
  end: number;
  loop: { from: number; to: number } | null;
}

interface Block {
  at: number;
  position: number;
  frames: number;
}

/** Mixer of the voices that sound together. */
export class Desk {
  readonly volume: GainNode;
  private readonly match: GainNode[];
  private readonly crossing: GainNode[];
  /** What the crossing gains are turned to. */
  private targets: number[];
  private crossedUntil = 0;
  sounding: number;

  constructor(readonly context: BaseAudioContext, readonly voices: readonly Voice[], sounding: number) {
    this.sounding = sounding;
    this.volume = context.createGain();
    this.volume.connect(context.destination);
    this.match = [];
    this.crossing = [];
    this.targets = voices.map((_, i) => (i === sounding ? 1 : 0));
    voices.forEach((_, i) => {
      const match = context.createGain();
      const crossing = context.createGain();
      crossing.gain.setValueAtTime(this.targets[i]!, 0);
      match.connect(crossing).connect(this.volume);
      this.match.push(match);
      this.crossing.push(crossing);
    });
  }

  /** Crosses over, beginning at a frame of the clock; returns the frame it really begins at. */
  crossTo(voice: number, atFrame: number): number {
    this.sounding = voice;
    return this.turnTo(this.voices.map((_, i) => (i === voice ? 1 : 0)), atFrame);
  }

  /**
   * Sounds the leading mix less the first one beside it, or the chosen mix again. Each side is halved, so that
   * the difference of two files can never be louder than one of them.
   *
   * @param gainDb level of the leading mix over the other; null ends it
   */
  difference(gainDb: number | null, atFrame: number): void {
    if (gainDb === null) this.crossTo(this.sounding, atFrame);
    else if (this.voices.length > 1) {
      const [lead, other] = gainDb > 0 ? [10 ** (-gainDb / 20), 1] : [1, 10 ** (gainDb / 20)];
      this.turnTo(this.voices.map((_, i) => (i === 0 ? 0.5 * lead! : i === 1 ? -0.5 * other! : 0)), atFrame);
    }
  }

  private turnTo(targets: number[], atFrame: number): number {
    const rate = this.context.sampleRate;
    const begin = Math.max(atFrame, Math.ceil(this.crossedUntil * rate));
    const from = begin / rate;
    targets.forEach((to, i) => {
      const now = this.targets[i]!;
      if (now !== to) this.turn(this.crossing[i]!.gain, now, to, from, from + CROSSING_SECONDS);
    });
    this.targets = targets;
    this.crossedUntil = from + CROSSING_SECONDS;
    return begin;
  }

  /** Level match in dB for each voice, turned over 30 ms. */
  setMatch(decibels: readonly number[], atSeconds: number): void {
    this.match.forEach((node, i) => {
      const gain = 10 ** (decibels[i]! / 20);
      const now = node.gain.value;
      if (atSeconds <= this.context.currentTime && this.context.currentTime === 0) {
        node.gain.setValueAtTime(gain, 0);
      } else {
        this.turn(node.gain, now, gain, atSeconds, atSeconds + 0.03);
      }
    });
  }

  /** Input of a voice, for a run. */
  input(voice: number): AudioNode {
    return this.match[voice]!;
  }

  close(): void {
    this.volume.disconnect();
    this.match.forEach((n) => n.disconnect());
    this.crossing.forEach((n) => n.disconnect());
  }

  private turn(gain: AudioParam, from: number, to: number, begin: number, end: number): void {
    gain.cancelScheduledValues(begin);
    gain.setValueAtTime(from, begin);
    gain.linearRampToValueAtTime(to, end);
  }
}

/** One uninterrupted stretch of playing. Seeking or a new loop begins another run. */
export class Run {
  private readonly gains: GainNode[];
  private readonly sources = new Set<AudioBufferSourceNode>();
  private readonly blocks: Block[] = [];
  private cursor: number;
  private wrapped = false;
  private at: number;

  /** @param fadeSeconds fade in; over the same music as a run that stops, the two add up to 1 */
  constructor(private readonly desk: Desk, readonly line: Line, readonly startFrame: number, fadeSeconds: number) {
    const { context } = desk;
    this.cursor = line.start;
    this.at = startFrame;
    const from = startFrame / context.sampleRate;
    this.gains = desk.voices.map((_, i) => {
      const gain = context.createGain();
      if (fadeSeconds > 0) {
        gain.gain.setValueAtTime(0, from);
        gain.gain.linearRampToValueAtTime(1, from + fadeSeconds);
      }
      gain.connect(desk.input(i));
      return gain;
    });
  }

  /** Frame of the clock up to which everything is scheduled. */
  get scheduledUntil(): number {
    return this.at;
  }

  /** Position on the leading time line of the next block to be scheduled. */
  get next(): number {
    return this.cursor;
  }

  get ended(): boolean {
    return this.cursor >= this.line.end && !this.looping;
  }

  /** Schedules blocks up to a frame of the clock, as far as audio is here. */
  pump(untilFrame: number): void {
    while (this.at < untilFrame && !this.ended) {
      const frames = this.blockFrames();
      if (!this.desk.voices.every((v) => v.has(this.cursor, frames))) return;
      this.schedule(frames);
    }
  }

  /** What will be played in the next `frames`, as stretches of the leading time line. */
  ahead(frames: number): [number, number][] {
    const { loop, end } = this.line;
    const first = Math.min(this.cursor + frames, this.looping && loop ? loop.to : end);
    const result: [number, number][] = [[this.cursor, first]];
    const left = frames - (first - this.cursor);
    if (this.looping && loop && left > 0) result.push([loop.from, Math.min(loop.from + left, loop.to)]);
    return result;
  }

  /** Position on the leading time line at a frame of the clock; null outside what was scheduled. */
  positionAt(frame: number): number | null {
    for (let i = this.blocks.length - 1; i >= 0; i--) {
      const b = this.blocks[i]!;
      if (frame >= b.at && frame < b.at + b.frames) return b.position + (frame - b.at);
    }
    return null;
  }

  /** Fades out and lets go. */
  stop(atSeconds: number): void {
    for (const gain of this.gains) {
      gain.gain.cancelScheduledValues(atSeconds);
      gain.gain.setValueAtTime(1, atSeconds);
      gain.gain.linearRampToValueAtTime(0, atSeconds + CROSSING_SECONDS);
    }
    for (const source of this.sources) source.stop(atSeconds + CROSSING_SECONDS + 0.005);
  }

  private get looping(): boolean {
    return this.line.loop !== null && this.cursor < this.line.loop.to;
  }

  private blockFrames(): number {
    const whole = Math.round(BLOCK_SECONDS * this.desk.context.sampleRate);
    const end = this.looping ? this.line.loop!.to : this.line.end;
    return Math.min(whole, end - this.cursor);
  }

  private schedule(frames: number): void {
    const { context, voices } = this.desk;
    const rate = context.sampleRate;
    const loop = this.looping ? this.line.loop : null;
    voices.forEach((voice, i) => {
      const channels = voice.fill(this.cursor, frames);
      const buffer = context.createBuffer(channels.length, frames, rate);
      channels.forEach((data, c) => {
        // A loop's seam joins two different places: five milliseconds each side, so that it does not click.
        if (loop && this.wrapped && this.cursor === loop.from) seam(data, rate, true);
        if (loop && this.cursor + frames === loop.to) seam(data, rate, false);
        buffer.copyToChannel(data, c);
      });
      const source = context.createBufferSource();
      source.buffer = buffer;
      source.connect(this.gains[i]!);
      source.start(this.at / rate);
      this.sources.add(source);
      source.onended = () => {
        this.sources.delete(source);
        source.disconnect();
      };
    });
    this.blocks.push({ at: this.at, position: this.cursor, frames });
    if (this.blocks.length > 64) this.blocks.shift();
    this.at += frames;
    this.cursor += frames;
    if (loop && this.cursor >= loop.to) {
      this.cursor = loop.from;
      this.wrapped = true;
    }
  }
}

function seam(data: Float32Array, rate: number, atStart: boolean): void {
  const frames = Math.min(data.length, Math.round(SEAM_SECONDS * rate));
  for (let i = 0; i < frames; i++) {
    data[atStart ? i : data.length - 1 - i]! *= (i + 0.5) / frames;
  }
}
