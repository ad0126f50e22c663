/** How fast this device's line is, as far as can be told without asking for anything extra. */

const SLOW = 'mixaccord.slow-line';
/** How long a line that was too slow is taken to be so, for the next pages too. */
const SLOW_MS = 20 * 60_000;
/** Less than this says nothing about a line, and neither do answers so small that the server's own time is most of theirs. */
const LEAST_BYTES = 50_000;
const LEAST_ANSWER_BYTES = 10_000;
/** What comes in less time comes from a fast line; how fast, so short a time does not tell. */
const LEAST_MS = 250;
/** Full quality has to fit with some room. */
const ROOM = 1.3;

interface Hints {
  readonly saveData?: boolean;
  readonly effectiveType?: string;
}

/** A stretch of time, milliseconds, in which bytes came. */
export interface Coming {
  readonly from: number;
  readonly to: number;
  readonly bytes: number;
}

/** Bits per second over the time in which anything came; null where too little did, or too fast to tell. */
export function rateOf(coming: readonly Coming[]): number | null {
  let bytes = 0;
  let milliseconds = 0;
  let until = -Infinity;
  for (const part of [...coming].sort((a, b) => a.from - b.from)) {
    bytes += part.bytes;
    milliseconds += Math.max(0, part.to - Math.max(part.from, until));
    until = Math.max(until, part.to);
  }
  return bytes < LEAST_BYTES || milliseconds < LEAST_MS ? null : (8000 * bytes) / milliseconds;
}

export class Line {
  /** Whether this much can't be expected to come in time, bits per second. */
  isTooSlowFor(bitsPerSecond: number): boolean {
    if (this.rememberedSlow()) return true;
    // The browser's guess at bits per second is left aside: before it has measured anything it is far too low.
    const hints = (navigator as { connection?: Hints }).connection;
    if (hints?.saveData || ['slow-2g', '2g', '3g'].includes(hints?.effectiveType ?? '')) return true;
    const measured = rateOf(come());
    return measured !== null && measured < bitsPerSecond * ROOM;
  }

  /** Play has run dry, or would not begin. */
  wasTooSlow(): void {
    try {
      localStorage.setItem(SLOW, String(Date.now() + SLOW_MS));
    } catch {
      // Without storage the next page finds out by itself.
    }
  }

  /** Somebody wants it to be tried again. */
  forget(): void {
    try {
      localStorage.removeItem(SLOW);
    } catch {
      // Nothing was kept.
    }
  }

  private rememberedSlow(): boolean {
    try {
      return Number(localStorage.getItem(SLOW) ?? 0) > Date.now();
    } catch {
      return false;
    }
  }
}

/** What this page has fetched itself; a media element fetches as slowly as it plays. */
function come(): Coming[] {
  return (performance.getEntriesByType('resource') as PerformanceResourceTiming[])
    .filter((e) => e.transferSize >= LEAST_ANSWER_BYTES && e.responseStart > 0 && !['audio', 'video', 'eventsource'].includes(e.initiatorType))
    .map((e) => ({ from: e.responseStart, to: e.responseEnd, bytes: e.transferSize }));
}
