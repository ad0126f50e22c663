/** How fast something goes, from the last few seconds of it: steady enough to read, quick enough to be true. */
export class Pace {
  private static readonly WINDOW_MS = 5000;
  private readonly marks: { at: number; bytes: number }[] = [];

  /** Notes that so many bytes are out by now. */
  mark(bytes: number, now: number): void {
    const last = this.marks[this.marks.length - 1];
    // A server that has less than was sent sets the count back: what went before says nothing of the speed.
    if (last && bytes < last.bytes) this.marks.length = 0;
    this.marks.push({ at: now, bytes });
    while (this.marks.length > 2 && now - this.marks[1]!.at >= Pace.WINDOW_MS) this.marks.shift();
  }

  /** Null until half a second has been seen. */
  bytesPerSecond(): number | null {
    const first = this.marks[0];
    const last = this.marks[this.marks.length - 1];
    if (!first || !last || last.at - first.at < 500) return null;
    return ((last.bytes - first.bytes) * 1000) / (last.at - first.at);
  }

  reset(): void {
    this.marks.length = 0;
  }
}

/** A piece that breaks is sent again as a whole, so that it should take no longer than a few seconds. */
const PIECE_SECONDS = 4;
const FIRST_PIECE_BYTES = 1 << 20;
const SMALLEST_PIECE_BYTES = 1 << 18;
const LARGEST_PIECE_BYTES = 1 << 25;

/** How many bytes to send at a time over a line of that speed; null while it is not known. */
export function pieceBytes(bytesPerSecond: number | null): number {
  if (bytesPerSecond === null) return FIRST_PIECE_BYTES;
  return Math.round(Math.min(LARGEST_PIECE_BYTES, Math.max(SMALLEST_PIECE_BYTES, bytesPerSecond * PIECE_SECONDS)));
}
