/** Loads what a mix, or a pair of mixes, needs before it can be heard. */
import { pause } from '../scope.ts';
import { Segments } from './segments.ts';
import type { AudioSource, Manifest } from './source.ts';
import { TimeMap } from './timemap.ts';
import { Voice } from './voice.ts';

const RETRY_MS = 1500;
export const LOOK_MS = 500;

/** The leading mix, and the other one as soon as it is known how they lie against each other. */
export class Pair {
  other: Segments | null = null;
  map: TimeMap | null = null;
  /** Resolves when both can be heard together; null for a single mix. */
  complete: Promise<void> | null = null;

  constructor(readonly lead: Segments) {}

  get both(): boolean {
    return this.other !== null && this.map !== null;
  }

  /** The voices on the leading mix's clock. */
  voices(rate: number): Voice[] {
    const voices = [new Voice(this.lead, TimeMap.identity(this.lead.seconds), rate)];
    if (this.other && this.map) voices.push(new Voice(this.other, this.map, rate));
    return voices;
  }
}

/** Loads the leading mix and begins to load the other; resolves when the leading one is ready. */
export async function loadPair(
  source: AudioSource, lead: string, other: string | null, signal: AbortSignal,
  progress: (share: number | null, problem?: string | null) => void,
): Promise<Pair> {
  const pair = new Pair(await segments(source, lead, signal, progress));
  if (other !== null) {
    const both = async () => {
      const [there, map] = await Promise.all([
        segments(source, other, signal, () => {}),
        mapOf(source, lead, other, signal),
      ]);
      pair.other = there;
      pair.map = map;
    };
    pair.complete = both();
    // Whoever needs both awaits it again; a failure must not count as unhandled before that.
    pair.complete.catch(() => {});
  }
  return pair;
}

async function segments(
  source: AudioSource, bounce: string, signal: AbortSignal,
  progress: (share: number | null, problem?: string | null) => void,
): Promise<Segments> {
  for (;;) {
    const manifest: Manifest = await source.manifest(bounce, signal);
    // The first pieces are enough to begin with.
    if (manifest.segmentsReady > 0 || manifest.state === 'ready' || manifest.light?.ready) {
      progress(null);
      return new Segments(bounce, manifest, source, signal);
    }
    progress(manifest.progress ?? 0, manifest.problem);
    await pause(LOOK_MS, signal);
    signal.throwIfAborted();
  }
}

async function mapOf(
  source: AudioSource, lead: string, other: string, signal: AbortSignal,
): Promise<TimeMap> {
  for (;;) {
    const found = await source.timeMap(lead, other, signal);
    if (found) return new TimeMap(found.timeMap);
    await pause(RETRY_MS, signal);
    signal.throwIfAborted();
  }
}
