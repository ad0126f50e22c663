/** Full quality or the light copy: what is wished on this device, and what the line allows. */
import { pause } from '../scope.ts';
import { Line } from './line.ts';
import { LOOK_MS } from './loading.ts';
import type { Segments } from './segments.ts';
import type { Manifest } from './source.ts';
import type { PlayerState } from './state.ts';

export type Copy = 'full' | 'light';

/** `auto`: full quality unless the line is too slow for it. */
export type CopyWish = 'auto' | Copy;

const WISH = 'mixaccord.copy';

export class Copies {
  readonly line = new Line();
  /** Once it has turned out too slow, this page stays with the light copy: no going to and fro. */
  private turned = false;

  get wish(): CopyWish {
    try {
      const kept = localStorage.getItem(WISH);
      return kept === 'full' || kept === 'light' ? kept : 'auto';
    } catch {
      return 'auto';
    }
  }

  set wish(wish: CopyWish) {
    if (wish === 'auto') {
      this.turned = false;
      this.line.forget();
    }
    try {
      if (wish === 'auto') localStorage.removeItem(WISH);
      else localStorage.setItem(WISH, wish);
    } catch {
      // Without storage the choice holds for as long as the server can be asked by measuring.
    }
  }

  /** Which copy of a mix is to be played. */
  private pick(manifest: Manifest): Copy {
    if (!hasLight(manifest)) return 'full';
    const { wish } = this;
    if (wish !== 'auto') return wish;
    return this.turned || this.line.isTooSlowFor(bitsPerSecond(manifest)) ? 'light' : 'full';
  }

  /** Full quality did not come in time; whether that changes anything. */
  turnToLight(manifest: Manifest): boolean {
    if (this.wish !== 'auto' || this.turned || !hasLight(manifest)) return false;
    this.turned = true;
    this.line.wasTooSlow();
    return true;
  }

  /** What the page shows of a mix's copies. */
  view(manifest: Manifest): Pick<PlayerState, 'copy' | 'hasLight' | 'slow'> {
    return { copy: this.pick(manifest), hasLight: hasLight(manifest), slow: this.isTooSlowToCompare(manifest) };
  }

  /**
   * Waits until something can sound: the copy that is due, or the first pieces of full quality.
   *
   * @param stop whether nobody waits any more
   * @param waiting told how far the copy is
   */
  async untilThere(
    mix: Segments, signal: AbortSignal, stop: () => boolean, waiting: (manifest: Manifest) => void,
  ): Promise<'copy' | 'pieces' | null> {
    for (;;) {
      const { manifest } = mix;
      const copy = this.pick(manifest);
      if (stop()) return null;
      if (copy === 'light' ? manifest.light!.ready : manifest.state === 'ready') return 'copy';
      if (copy === 'full' && manifest.segmentsReady > 0) return 'pieces';
      waiting(manifest);
      await pause(LOOK_MS, signal);
      if (!stop()) await mix.look();
    }
  }

  /** Whether two mixes in full quality are more than the line brings. */
  private isTooSlowToCompare(manifest: Manifest): boolean {
    return this.turned || this.line.isTooSlowFor(2 * bitsPerSecond(manifest));
  }
}

/** Gain that makes up for what a copy was lowered by. */
export function makeUp(copy: Copy, manifest: Manifest | undefined): number {
  return copy === 'light' ? 10 ** (-(manifest?.light?.gainDb ?? 0) / 20) : 1;
}

/** Whether there is a light copy, or will be, that this browser plays. */
function hasLight(manifest: Manifest): boolean {
  return manifest.light !== null && new Audio().canPlayType(manifest.light.type) !== '';
}

/** What full quality needs; about two thirds of the plain samples where it is not known yet. */
function bitsPerSecond(manifest: Manifest): number {
  const seconds = manifest.frames / manifest.sampleRate;
  return manifest.wholeBytes === null
    ? manifest.sampleRate * manifest.channels * 16
    : (8 * manifest.wholeBytes) / seconds;
}
