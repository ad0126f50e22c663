/** The server's time map between two bounces, as the player uses it. Pure. */

/** One straight piece: from–to on the leading bounce is otherFrom–otherTo on the other, seconds. */
export interface Piece {
  from: number;
  to: number;
  otherFrom: number;
  otherTo: number;
  sure?: number;
}

/** Moves times between the leading bounce and the other one. */
export class TimeMap {
  constructor(readonly pieces: readonly Piece[]) {}

  /** A map of a bounce onto itself. */
  static identity(seconds: number): TimeMap {
    return new TimeMap([{ from: 0, to: seconds, otherFrom: 0, otherTo: seconds, sure: 1 }]);
  }

  /** Where there is something, on the leading bounce's own time line: how a copy laid onto it is read. */
  onto(): TimeMap {
    return new TimeMap(this.pieces.map((p) => ({ from: p.from, to: p.to, otherFrom: p.from, otherTo: p.to })));
  }

  /** The other bounce's time for a time of the leading one; null where the other has nothing. */
  toOther(seconds: number): number | null {
    const piece = this.pieces.find((p) => seconds >= p.from && seconds < p.to);
    return piece ? piece.otherFrom + (seconds - piece.from) * slope(piece) : null;
  }

  /** The leading bounce's time for a time of the other; null where it has nothing. */
  fromOther(seconds: number): number | null {
    const piece = this.pieces.find((p) => seconds >= p.otherFrom && seconds < p.otherTo);
    return piece ? piece.from + (seconds - piece.otherFrom) / slope(piece) : null;
  }

  /** As fromOther, but the nearest place that is there where the passage itself is missing. */
  nearestFromOther(seconds: number): number {
    const exact = this.fromOther(seconds);
    if (exact !== null) return exact;
    let best = 0;
    let distance = Infinity;
    for (const p of this.pieces) {
      for (const [other, here] of [[p.otherFrom, p.from], [p.otherTo, p.to]] as const) {
        if (Math.abs(other - seconds) < distance) {
          distance = Math.abs(other - seconds);
          best = here;
        }
      }
    }
    return best;
  }
}

/** Other seconds per leading second. */
export function slope(piece: Piece): number {
  return (piece.otherTo - piece.otherFrom) / (piece.to - piece.from);
}

/** Whether a piece runs as fast as the clock, to within half a frame over its whole length. */
function keepsPace(piece: Piece, clockRate: number, ownRate: number): boolean {
  return Math.abs((slope(piece) * ownRate) / clockRate - 1) * (piece.to - piece.from) * clockRate < 0.5;
}

/** Whether a bounce can be laid onto a clock frame by frame; else it is heard through a copy the server renders. */
export function frameByFrame(map: TimeMap, clockRate: number, ownRate: number): boolean {
  return map.pieces.every((piece) => keepsPace(piece, clockRate, ownRate));
}

/** A stretch of the clock that is filled from one stretch of a bounce's frames. */
export interface Run {
  /** Offset into the block, frames of the clock. */
  at: number;
  /** Length, frames of the clock. */
  frames: number;
  /** Position in the bounce at `at`, in its own frames; whole where ratio is exactly 1. */
  position: number;
  /** Own frames per frame of the clock. */
  ratio: number;
}

/**
 * What fills one block of the clock. Where a piece runs as fast as the clock (to within half a
 * frame over its whole length) the frames are taken one for one with one whole-frame offset for the
 * piece, so that neighbouring blocks join without a seam; otherwise they are interpolated.
 *
 * @param start first frame of the block on the leading bounce's time line, frames of the clock
 * @param frames length of the block
 * @param clockRate frames per second of the clock
 * @param ownRate frames per second of the bounce to be read
 */
export function runs(map: TimeMap, start: number, frames: number, clockRate: number, ownRate: number): Run[] {
  const result: Run[] = [];
  for (const piece of map.pieces) {
    const first = Math.max(start, Math.round(piece.from * clockRate));
    const last = Math.min(start + frames, Math.round(piece.to * clockRate));
    if (last <= first) continue;
    const ratio = (slope(piece) * ownRate) / clockRate;
    const offset = piece.otherFrom * ownRate - piece.from * clockRate * ratio;
    if (keepsPace(piece, clockRate, ownRate)) {
      const shift = Math.round(piece.otherFrom * ownRate - piece.from * clockRate);
      result.push({ at: first - start, frames: last - first, position: first + shift, ratio: 1 });
    } else {
      result.push({ at: first - start, frames: last - first, position: offset + first * ratio, ratio });
    }
  }
  return result;
}
