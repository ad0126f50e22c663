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
const SEEN = 'mixaccord.line';
/** A page that came out of the browser's store says nothing of the line; what an earlier one saw holds for a day. */
const SEEN_MS = 24 * 3_600_000;

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

/** What was seen of a line: bits per second, milliseconds until its quickest answer began, and when. */
export interface Seen {
  readonly rate: number;
  readonly answerMs: number;
  readonly at: number;
}

/** The rate to go by where this page has measured none: an earlier one's, unless the line answers so much faster now that it is another. */
export function rateFrom(seen: Seen | null, answerMs: number | null, now: number): number | null {
  if (seen === null || answerMs === null || now - seen.at > SEEN_MS) return null;
  return answerMs * 2 < seen.answerMs ? null : seen.rate;
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
    const rate = this.rate();
    return rate !== null && rate < bitsPerSecond * ROOM;
  }

  private rate(): number | null {
    const measured = rateOf(come());
    const answerMs = answersAfter();
    const now = Date.now();
    try {
      if (measured === null) return rateFrom(JSON.parse(localStorage.getItem(SEEN) ?? 'null') as Seen | null, answerMs, now);
      if (answerMs !== null) localStorage.setItem(SEEN, JSON.stringify({ rate: measured, answerMs, at: now } satisfies Seen));
    } catch {
      // Without storage every page finds out by itself.
    }
    return measured;
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
      localStorage.removeItem(SEEN);
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

/**
 * Milliseconds until the quickest answer to what this page has asked for began; null where it asked for nothing.
 * The others waited for a busy server or behind each other as well, which says nothing of the line.
 */
function answersAfter(): number | null {
  const waits = (performance.getEntriesByType('resource') as PerformanceResourceTiming[])
    .filter((e) => e.initiatorType === 'fetch' && e.requestStart > 0 && e.responseStart > e.requestStart)
    .map((e) => e.responseStart - e.requestStart);
  return waits.length === 0 ? null : Math.min(...waits);
}

/** What this page has fetched itself; a media element fetches as slowly as it plays. */
function come(): Coming[] {
  return (performance.getEntriesByType('resource') as PerformanceResourceTiming[])
    .filter((e) => e.transferSize >= LEAST_ANSWER_BYTES && e.responseStart > 0 && !['audio', 'video', 'eventsource'].includes(e.initiatorType))
    .map((e) => ({ from: e.responseStart, to: e.responseEnd, bytes: e.transferSize }));
}
