/** Loads what a mix, or two to four mixes beside each other, need before they can be heard. */
import { pause } from '../scope.ts';
import { Segments } from './segments.ts';
import type { AudioSource, Manifest } from './source.ts';
import { frameByFrame, TimeMap } from './timemap.ts';
import { Voice } from './voice.ts';

const RETRY_MS = 1500;
export const LOOK_MS = 500;

/** A mix beside the leading one. */
export interface Beside {
  readonly segments: Segments;
  /** From the leading mix to this one. */
  readonly map: TimeMap;
  /** Whether it is heard through a copy on the leading mix's time line. */
  readonly laid: boolean;
}

/** The leading mix, and those beside it as soon as it is known how they all lie against it. */
export class Together {
  beside: readonly Beside[] = [];
  /** Resolves when all can be heard together; null for a single mix. */
  complete: Promise<void> | null = null;

  constructor(readonly lead: Segments) {}

  get mapped(): boolean {
    return this.beside.length > 0;
  }

  /** All that are here, the leading mix first. */
  get segments(): readonly Segments[] {
    return [this.lead, ...this.beside.map((b) => b.segments)];
  }

  /** From the leading mix to another one; null while that is not known. */
  mapOf(bounce: string): TimeMap | null {
    return this.beside.find((b) => b.segments.bounce === bounce)?.map ?? null;
  }

  /** The voices on the leading mix's clock. */
  voices(rate: number): Voice[] {
    return [
      new Voice(this.lead, TimeMap.identity(this.lead.seconds), rate),
      ...this.beside.map((b) => new Voice(b.segments, b.laid ? b.map.onto() : b.map, rate)),
    ];
  }
}

/** Loads the leading mix and begins to load the others; resolves when the leading one is ready. */
export async function loadTogether(
  source: AudioSource, lead: string, others: readonly string[], signal: AbortSignal,
  progress: (share: number | null, problem?: string | null) => void,
): Promise<Together> {
  const together = new Together(await segments(source, lead, signal, progress));
  if (others.length > 0) {
    const all = async () => {
      together.beside = await Promise.all(others.map((other) => beside(source, together.lead, other, signal)));
      for (const held of together.segments) held.shares = Math.max(2, together.segments.length);
    };
    together.complete = all();
    // Whoever needs them awaits it again; a failure must not count as unhandled before that.
    together.complete.catch(() => {});
  }
  return together;
}

async function beside(source: AudioSource, lead: Segments, other: string, signal: AbortSignal): Promise<Beside> {
  const [own, map] = await Promise.all([
    segments(source, other, signal, () => {}),
    mapOf(source, lead.bounce, other, signal),
  ]);
  if (frameByFrame(map, lead.manifest.sampleRate, own.manifest.sampleRate)) return { segments: own, map, laid: false };
  const manifest = async (): Promise<Manifest> => ({
    ...(await source.laid(other, lead.bounce, signal)), state: 'ready', progress: 1, wholeBytes: null, light: null, problem: null,
  });
  const piece = (index: number) => source.laidSegment(other, lead.bounce, index, signal);
  return { segments: new Segments(other, await manifest(), { piece, manifest }), map, laid: true };
}

async function segments(
  source: AudioSource, bounce: string, signal: AbortSignal,
  progress: (share: number | null, problem?: string | null) => void,
): Promise<Segments> {
  const manifest = () => source.manifest(bounce, signal);
  const piece = (index: number) => source.segment(bounce, index, signal);
  for (;;) {
    const there = await manifest();
    // The first pieces are enough to begin with.
    if (there.segmentsReady > 0 || there.state === 'ready' || there.light?.ready) {
      progress(null);
      return new Segments(bounce, there, { piece, manifest });
    }
    progress(there.progress ?? 0, there.problem);
    await pause(LOOK_MS, signal);
    signal.throwIfAborted();
  }
}

async function mapOf(source: AudioSource, lead: string, other: string, signal: AbortSignal): Promise<TimeMap> {
  for (;;) {
    const found = await source.timeMap(lead, other, signal);
    if (found) return new TimeMap(found.timeMap);
    await pause(RETRY_MS, signal);
    signal.throwIfAborted();
  }
}
