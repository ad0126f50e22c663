/** Asks the server how loud mixes are on exactly what is heard, and turns down all but the quietest. */
import { pause } from '../scope.ts';
import type { AudioSource, LevelMatch } from './source.ts';

/** What makes the mixes that are open equally loud: dB for each in their order, none over 0. */
export interface Levels {
  readonly gainsDb: readonly number[];
  readonly words: string;
}

/** Keeps the levels of what is open up to date; the latest question wins. */
export class Leveller {
  private asking = new AbortController();
  private asked = '';

  constructor(
    private readonly source: AudioSource,
    private readonly found: (levels: Levels | null) => void,
  ) {}

  /** Asks for a stretch, seconds on the leading mix. */
  async ask(lead: string, others: readonly string[], from: number, to: number): Promise<void> {
    const key = `${lead} ${others.join()} ${from.toFixed(3)} ${to.toFixed(3)}`;
    if (key === this.asked) return;
    this.forget();
    this.asked = key;
    const { signal } = this.asking;
    try {
      const matches = await Promise.all(others.map((other) => this.match(lead, other, from, to, signal)));
      if (!signal.aborted) this.found(levelsOf(matches));
    } catch {
      // Without a match all play as delivered, and the page says so.
      if (!signal.aborted) {
        this.asked = '';
        this.found(null);
      }
    }
  }

  private async match(lead: string, other: string, from: number, to: number, signal: AbortSignal): Promise<LevelMatch> {
    for (;;) {
      const match = await this.source.levelMatch(lead, other, from, to, signal);
      if (match) return match;
      await pause(1500, signal);
      signal.throwIfAborted();
    }
  }

  forget(): void {
    this.asking.abort();
    this.asking = new AbortController();
    this.asked = '';
  }
}

/** Levels from what each of the others is to the leading mix: the quietest of all stays as it is. */
export function levelsOf(matches: readonly LevelMatch[]): Levels {
  const overLead = matches.map((m) => m.gainDb - m.otherGainDb);
  const lead = Math.min(0, ...overLead);
  const gainsDb = [lead, ...overLead.map((over) => lead - over)];
  if (matches.length === 1) return { gainsDb, words: matches[0]!.words };
  const alike = gainsDb.every((gain) => gain > -0.05);
  return { gainsDb, words: alike ? 'All are equally loud here as they are.' : 'All but the quietest play quieter, so that they are equal.' };
}
