/** One bounce laid onto the clock of the leading one. */
import { interpolate, reach } from './interpolate.ts';
import type { Segments } from './segments.ts';
import { frameByFrame, runs, type TimeMap } from './timemap.ts';

/** Reads a bounce in frames of the clock, through its time map. */
export class Voice {
  constructor(
    readonly segments: Segments,
    readonly map: TimeMap,
    readonly clockRate: number,
  ) {}

  get bounce(): string {
    return this.segments.bounce;
  }

  get channels(): number {
    return this.segments.manifest.channels;
  }

  /** Whether the clock runs at a rate of its own, which only happens where this device has none at the mix's rate. */
  get interpolated(): boolean {
    return !frameByFrame(this.map, this.clockRate, this.ownRate);
  }

  /** Own frame (fractional) at a frame of the clock; null where this bounce has nothing. */
  frameAt(clockFrame: number): number | null {
    const run = runs(this.map, clockFrame, 1, this.clockRate, this.ownRate)[0];
    return run ? run.position : null;
  }

  /** Whether a block can be filled now. */
  has(start: number, frames: number): boolean {
    return this.ranges(start, frames).every(([from, to]) => this.segments.has(from, to));
  }

  /** Fetches what a block needs. */
  async need(start: number, frames: number): Promise<void> {
    await Promise.all(this.ranges(start, frames).map(([from, to]) => this.segments.need(from, to)));
  }

  /** Fills a block; silence where this bounce has nothing. */
  fill(start: number, frames: number): Float32Array<ArrayBuffer>[] {
    const parts = runs(this.map, start, frames, this.clockRate, this.ownRate);
    return Array.from({ length: this.channels }, (_, channel) => {
      const into = new Float32Array(frames);
      for (const run of parts) {
        if (run.ratio === 1) {
          into.set(this.segments.read(channel, run.position, run.frames), run.at);
        } else {
          const [from, to] = this.span(run.position, run.frames, run.ratio);
          const source = this.segments.read(channel, from, to - from);
          interpolate(source, from, run.position, run.ratio, into, run.at, run.frames);
        }
      }
      return into;
    });
  }

  private get ownRate(): number {
    return this.segments.manifest.sampleRate;
  }

  private ranges(start: number, frames: number): [number, number][] {
    return runs(this.map, start, frames, this.clockRate, this.ownRate).map((r) => this.span(r.position, r.frames, r.ratio));
  }

  private span(position: number, frames: number, ratio: number): [number, number] {
    const around = reach(ratio);
    return [Math.floor(position) - around, Math.ceil(position + frames * ratio) + around];
  }
}
