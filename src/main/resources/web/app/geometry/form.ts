/** The form of a song in numbers: where a time lies, bars, steps. Pure. */

/** A named stretch; from and to in seconds on one bounce, null where that bounce lacks it. */
export interface Stretch {
  name: string;
  from: number | null;
  to: number | null;
}

/** A stretch that is there. */
export interface Span {
  name: string;
  from: number;
  to: number;
}

/** What is known of the pulse; any of it may be missing. */
export interface Pulse {
  tempoBpm?: number | null;
  beatsPerBar?: number | null;
  firstBarSeconds?: number | null;
  /** Barlines on the bounce, where a tempo map has given them; they win over the one tempo. */
  lines?: readonly number[] | null;
}

/** A press just after a barline means the bar before, not the one that has barely begun: this share of a bar. */
const JUST_AFTER = 0.15;

/** The stretches that exist on the bounce, in the order of time. */
export function present(sections: readonly Stretch[]): Span[] {
  return sections
    .filter((s): s is Span => s.from !== null && s.to !== null && s.to > s.from)
    .sort((a, b) => a.from - b.from);
}

/** The stretch that holds this time, or undefined in a gap. */
export function at(sections: readonly Span[], seconds: number): Span | undefined {
  return sections.find((s) => seconds >= s.from && seconds < s.to);
}

/** Length of a bar in seconds, or null where the tempo is not known. */
export function barSeconds(pulse: Pulse): number | null {
  const { tempoBpm, beatsPerBar } = pulse;
  if (!tempoBpm || tempoBpm <= 0) return null;
  return (60 / tempoBpm) * (beatsPerBar && beatsPerBar > 0 ? beatsPerBar : 4);
}

/** Whole bars in a stretch, or null where the tempo is not known. */
export function bars(span: Span, pulse: Pulse): number | null {
  const lines = linesOf(pulse);
  if (lines) return Math.max(1, nearest(lines, span.to) - nearest(lines, span.from));
  const bar = barSeconds(pulse);
  return bar === null ? null : Math.max(1, Math.round((span.to - span.from) / bar));
}

/** Barlines one can count by: a single one bounds no bar. */
function linesOf(pulse: Pulse): readonly number[] | null {
  return pulse.lines && pulse.lines.length > 1 ? pulse.lines : null;
}

/** Index of the barline nearest to a place. */
function nearest(lines: readonly number[], seconds: number): number {
  return lines.reduce((best, l, i) => (Math.abs(l - seconds) < Math.abs(lines[best]! - seconds) ? i : best), 0);
}

/** Index of the last barline passed, -1 before the first. */
function passed(lines: readonly number[], seconds: number): number {
  return lines.filter((l) => l <= seconds + 1e-3).length - 1;
}

/** The barline before or after a place; none beyond the ends of what is known. */
function lineFrom(lines: readonly number[], seconds: number, direction: 1 | -1): number | undefined {
  const here = passed(lines, seconds);
  if (direction > 0) return lines[here + 1];
  const long = (lines[here + 1] ?? Infinity) - (lines[here] ?? 0);
  return lines[here >= 0 && seconds - lines[here]! > JUST_AFTER * long ? here : here - 1];
}

/**
 * One bar back or on from a place: to the next barline; two seconds where there is no tempo.
 *
 * @param anchor a time on this bounce where a bar begins, such as the start of the section; the
 *     song's first bar where none is known
 */
export function step(seconds: number, direction: 1 | -1, pulse: Pulse, length: number, anchor?: number): number {
  const lines = linesOf(pulse);
  const bar = barSeconds(pulse);
  const clamp = (s: number) => Math.min(Math.max(s, 0), Math.max(0, length - 0.05));
  const line = lines ? lineFrom(lines, seconds, direction) : undefined;
  if (line !== undefined) return clamp(line);
  if (bar === null) return clamp(seconds + 2 * direction);
  const first = anchor ?? pulse.firstBarSeconds ?? 0;
  const position = (seconds - first) / bar;
  const next = direction > 0 ? Math.floor(position + 1e-3) + 1 : Math.ceil(position - JUST_AFTER) - 1;
  return clamp(first + next * bar);
}

/** The stretch before or after the place, by time; undefined at the ends. */
export function neighbour(sections: readonly Span[], seconds: number, direction: 1 | -1): Span | undefined {
  if (direction > 0) return sections.find((s) => s.from > seconds + 1e-3);
  const here = at(sections, seconds);
  const before = sections.filter((s) => s.from < seconds - 1e-3 && s !== here);
  // Well inside a section, "before" first goes to its own start.
  if (here && seconds - here.from > 1.5) return here;
  return before[before.length - 1];
}

/** "Chorus 2, bar 4 of 8", or the section alone, or nothing. */
export function placeWords(sections: readonly Span[], seconds: number, pulse: Pulse): string {
  const here = at(sections, seconds);
  if (!here) return '';
  const count = bars(here, pulse);
  if (count === null) return here.name;
  const lines = linesOf(pulse);
  const before = lines ? passed(lines, seconds) - nearest(lines, here.from) : Math.floor((seconds - here.from) / barSeconds(pulse)! + 1e-3);
  const number = Math.min(count, Math.max(0, before) + 1);
  return `${here.name}, bar ${number} of ${count}`;
}

/**
 * Where a note belongs: the place play had when typing began, less two seconds; never before the
 * song, nor before the loop that is heard.
 */
export function notePlace(playedAt: number, loopFrom = 0): number {
  return Math.max(0, loopFrom, playedAt - 2);
}
