/** Asks the server how to make two mixes equally loud on exactly what is heard. The page computes nothing. */
import { pause } from '../scope.ts';
import type { AudioSource, LevelMatch } from './source.ts';

/** Keeps the level match of the open pair up to date; the latest question wins. */
export class Leveller {
  private asking = new AbortController();
  private asked = '';

  constructor(
    private readonly source: AudioSource,
    private readonly found: (match: LevelMatch | null) => void,
  ) {}

  /** Asks for a stretch, seconds on the leading mix. */
  async ask(lead: string, other: string, from: number, to: number): Promise<void> {
    const key = `${lead} ${other} ${from.toFixed(3)} ${to.toFixed(3)}`;
    if (key === this.asked) return;
    this.forget();
    this.asked = key;
    const { signal } = this.asking;
    try {
      while (!signal.aborted) {
        const match = await this.source.levelMatch(lead, other, from, to, signal);
        if (signal.aborted) return;
        if (match) return this.found(match);
        await pause(1500, signal);
      }
    } catch {
      // Without a match both play as delivered, and the page says so.
      if (!signal.aborted) {
        this.asked = '';
        this.found(null);
      }
    }
  }

  forget(): void {
    this.asking.abort();
    this.asking = new AbortController();
    this.asked = '';
  }
}
