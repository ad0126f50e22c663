/** The thin strip: time to pixel and back, columns of loudness, boxes of sections. Pure. */
import type { Span } from './form.ts';

/** Pixel of a time on a strip; clamped to it. */
export function timeToX(seconds: number, length: number, width: number): number {
  if (length <= 0) return 0;
  return (Math.min(Math.max(seconds, 0), length) / length) * width;
}

/** Time of a pixel; clamped to the song. */
export function xToTime(x: number, length: number, width: number): number {
  if (width <= 0) return 0;
  return (Math.min(Math.max(x, 0), width) / width) * length;
}

/** Half the height of the ribbon, in pixels, at every column. */
export interface Columns {
  width: number;
  half: Float32Array;
}

/** Quieter than this is a hair line; louder than the top fills the strip. */
const QUIETEST_LUFS = -45;
const TOP_LUFS = 0;

/**
 * Columns of the loudness ribbon: for every pixel the loudest point that falls into it, on one
 * fixed scale for every song, so that two strips may be set against each other.
 *
 * @param points momentary loudness over the whole length, LUFS
 */
export function columns(points: readonly number[], width: number, height: number): Columns {
  const half = new Float32Array(Math.max(0, width));
  for (let x = 0; x < half.length; x++) {
    const first = Math.floor((x / width) * points.length);
    const last = Math.max(first + 1, Math.ceil(((x + 1) / width) * points.length));
    let loudest = -Infinity;
    for (let i = first; i < last && i < points.length; i++) loudest = Math.max(loudest, points[i]!);
    const share = (loudest - QUIETEST_LUFS) / (TOP_LUFS - QUIETEST_LUFS);
    half[x] = Math.max(0.5, (Math.min(Math.max(share, 0), 1) * height) / 2);
  }
  return { width, half };
}

/** A section on the strip. */
export interface Box {
  name: string;
  x: number;
  width: number;
}

/** Boxes of the sections in pixels. */
export function boxes(sections: readonly Span[], length: number, width: number): Box[] {
  return sections.map((s) => {
    const x = timeToX(s.from, length, width);
    return { name: s.name, x, width: timeToX(s.to, length, width) - x };
  });
}

/**
 * Which marks may be written above the strip without touching one another: from the left, each that
 * has room, given the width of its text.
 */
export function roomFor(items: readonly Box[], textWidth: (name: string) => number, gap = 6): Box[] {
  let free = -Infinity;
  return items.filter((box) => {
    if (box.x < free) return false;
    free = box.x + textWidth(box.name) + gap;
    return true;
  });
}

/** A dragged stretch in seconds, or null where the hand hardly moved (that is a press, not a drag). */
export function dragged(x0: number, x1: number, length: number, width: number): { from: number; to: number } | null {
  if (Math.abs(x1 - x0) < 5) return null;
  return { from: xToTime(Math.min(x0, x1), length, width), to: xToTime(Math.max(x0, x1), length, width) };
}
