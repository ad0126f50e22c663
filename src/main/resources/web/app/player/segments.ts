/** Decoded segments of one bounce, fetched when asked for and kept while there is room. */
import type { Manifest } from './source.ts';

/** Decoded audio kept of all that is open: twice three minutes of stereo at 48 kHz, which a phone can hold. */
const KEEP_BYTES = 128e6;

interface Held {
  channels: Float32Array[];
  used: number;
}

/** Gives frames of one bounce; frames before its start and after its end are silence. */
export class Segments {
  private readonly held = new Map<number, Held>();
  private readonly coming = new Map<number, Promise<void>>();
  private tick = 0;
  /** How many mixes share the room that decoded audio may take. */
  shares = 2;
  /** How many segments were fetched; a loop must not fetch the whole song. */
  fetched = 0;

  constructor(
    readonly bounce: string,
    public manifest: Manifest,
    private readonly from: {
      piece(index: number): Promise<ArrayBuffer>;
      manifest(): Promise<Manifest>;
    },
  ) {}

  get seconds(): number {
    return this.manifest.frames / this.manifest.sampleRate;
  }

  /** Asks again how much of the copy is there. */
  async look(): Promise<void> {
    this.manifest = await this.from.manifest();
  }

  /** Whether frames from..to can be read now. */
  has(from: number, to: number): boolean {
    return this.covering(from, to).every((i) => this.held.has(i));
  }

  /** Fetches and decodes what frames from..to need. */
  async need(from: number, to: number): Promise<void> {
    await Promise.all(this.covering(from, to).map((i) => this.load(i)));
  }

  /** One channel of frames from..from+frames; a mono bounce gives its one channel for each. */
  read(channel: number, from: number, frames: number): Float32Array {
    const into = new Float32Array(frames);
    for (const index of this.covering(from, from + frames)) {
      const held = this.held.get(index);
      if (!held) throw new Error(`segment ${index} of ${this.bounce} is not here yet`);
      held.used = ++this.tick;
      const segment = this.manifest.segments[index]!;
      const data = held.channels[Math.min(channel, held.channels.length - 1)]!;
      const first = Math.max(from, segment.fromFrame);
      const last = Math.min(from + frames, segment.fromFrame + Math.min(segment.frames, data.length));
      if (last > first) {
        into.set(data.subarray(first - segment.fromFrame, last - segment.fromFrame), first - from);
      }
    }
    return into;
  }

  private covering(from: number, to: number): number[] {
    const result: number[] = [];
    this.manifest.segments.forEach((s, i) => {
      if (s.fromFrame < to && s.fromFrame + s.frames > from) result.push(i);
    });
    return result;
  }

  private load(index: number): Promise<void> {
    if (this.held.has(index)) return Promise.resolve();
    let promise = this.coming.get(index);
    if (!promise) {
      promise = this.fetchAndDecode(index).finally(() => this.coming.delete(index));
      this.coming.set(index, promise);
    }
    return promise;
  }

  private async fetchAndDecode(index: number): Promise<void> {
    const segment = this.manifest.segments[index]!;
    const bytes = await this.from.piece(segment.index);
    this.fetched++;
    // A context at the bounce's own rate: decodeAudioData resamples to its context's rate, so this
    // one leaves every sample as it is.
    const context = new OfflineAudioContext(this.manifest.channels, 1, this.manifest.sampleRate);
    const buffer = await context.decodeAudioData(bytes);
    const channels: Float32Array[] = [];
    for (let c = 0; c < buffer.numberOfChannels; c++) channels.push(buffer.getChannelData(c));
    this.held.set(index, { channels, used: ++this.tick });
    this.makeRoom(index);
  }

  private makeRoom(keep: number): void {
    const size = (h: Held) => h.channels.reduce((sum, c) => sum + c.byteLength, 0);
    let total = 0;
    for (const h of this.held.values()) total += size(h);
    while (total > KEEP_BYTES / this.shares && this.held.size > 4) {
      let oldest = -1;
      for (const [i, h] of this.held) {
        if (i !== keep && (oldest < 0 || h.used < this.held.get(oldest)!.used)) oldest = i;
      }
      total -= size(this.held.get(oldest)!);
      this.held.delete(oldest);
    }
  }
}
