/** Bars and beats in time, and steps from one to the next. Pure; times in seconds. */
import { barSeconds, type Pulse } from './form.ts';

/** A bar; its first beat is the barline. */
export interface Bar {
  bar: number;
  beats: readonly number[];
}

const MOST_BEATS = 20000;
const SAME = 0.0015;

/** The bars of one tempo throughout; none where it is not known. */
export function steadyBars(pulse: Pulse, length: number): Bar[] {
  const bar = barSeconds(pulse);
  if (bar === null) return [];
  const count = pulse.beatsPerBar && pulse.beatsPerBar > 0 ? pulse.beatsPerBar : 4;
  const first = pulse.firstBarSeconds ?? 0;
  const bars: Bar[] = [];
  for (let n = Math.ceil((0 - first) / bar - 1e-9); first + n * bar < length && bars.length * count < MOST_BEATS; n++) {
    const begin = first + n * bar;
    bars.push({ bar: n + 1, beats: Array.from({ length: count }, (_, b) => begin + (b * bar) / count).filter((s) => s < length) });
  }
  return bars;
}

export type Step = 'bar' | 'beat' | number;

/** One step back or on: by so many seconds, or to the next beat or barline; null where there is none. */
export function stepFrom(at: number, direction: 1 | -1, step: Step, bars: readonly Bar[]): number | null {
  if (typeof step === 'number') return Math.max(0, at + direction * step);
  const lines = step === 'bar' ? bars.map((b) => b.beats[0]!) : bars.flatMap((b) => b.beats);
  if (direction > 0) return lines.find((s) => s > at + SAME) ?? null;
  for (let i = lines.length - 1; i >= 0; i--) if (lines[i]! < at - SAME) return lines[i]!;
  return null;
}

/** "bar 33", "bar 12, beat 3", or how far off it is, such as "bar 33 − 40 ms"; empty where no bar is near. */
export function barWords(at: number, bars: readonly Bar[]): string {
  let words = '';
  let nearest = Infinity;
  for (const b of bars) {
    b.beats.forEach((s, i) => {
      if (Math.abs(s - at) >= Math.abs(nearest)) return;
      nearest = at - s;
      words = i === 0 ? `bar ${b.bar}` : `bar ${b.bar}, beat ${i + 1}`;
    });
  }
  if (words === '') return '';
  const ms = Math.round(nearest * 1000);
  if (Math.abs(ms) > 2000) return '';
  return ms === 0 ? words : `${words} ${ms < 0 ? '\u2212' : '+'} ${Math.abs(ms)} ms`;
}

/** The beats within a stretch, barlines told apart. */
export function linesIn(bars: readonly Bar[], from: number, to: number): Array<{ at: number; bar: number | null }> {
  return bars.flatMap((b) => b.beats.map((at, i) => ({ at, bar: i === 0 ? b.bar : null }))).filter((l) => l.at >= from && l.at <= to);
}
