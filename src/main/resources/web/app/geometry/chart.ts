/** Curves: values to pixels and back, lines with gaps, ticks. Pure. */

/** A straight scale from values to pixels; upwards when `start` lies below `end`. */
export interface Scale {
  readonly low: number;
  readonly high: number;
  readonly start: number;
  readonly end: number;
}

/** Pixel of a value, kept on the scale. */
export function pixel(scale: Scale, value: number): number {
  const share = (value - scale.low) / (scale.high - scale.low);
  return scale.start + Math.min(Math.max(share, 0), 1) * (scale.end - scale.start);
}

/** Value of a pixel, kept on the scale. */
export function valueAt(scale: Scale, at: number): number {
  const share = (at - scale.start) / (scale.end - scale.start);
  return scale.low + Math.min(Math.max(share, 0), 1) * (scale.high - scale.low);
}

/** A scale of levels: its top the next whole step above the highest value, a fixed span below it. */
export function levels(values: readonly (number | null)[], step: number, span: number, otherwise: number): { low: number; high: number } {
  let most = -Infinity;
  for (const v of values) if (v !== null && v > most) most = v;
  const high = most === -Infinity ? otherwise : Math.ceil(most / step) * step;
  return { low: high - span, high };
}

const round = (n: number) => Math.round(n * 10) / 10;

/** A line through the values; broken where there is none. A value alone is a short dash. */
export function line(values: readonly (number | null)[], x: (index: number) => number, y: (value: number) => number): string {
  let path = '';
  let begun = -1;
  for (let i = 0; i <= values.length; i++) {
    const value = i < values.length ? values[i]! : null;
    if (value === null) {
      if (begun >= 0 && begun === i - 1) path += 'h1';
      begun = -1;
      continue;
    }
    path += `${begun < 0 ? 'M' : 'L'}${round(x(i))} ${round(y(value))}`;
    if (begun < 0) begun = i;
  }
  return path;
}

/** Columns that stand on the bottom, as wide as a step; nothing where there is no value. */
export function pillars(values: readonly (number | null)[], x: (index: number) => number, width: number, y: (value: number) => number, bottom: number): string {
  let path = '';
  values.forEach((value, i) => {
    if (value === null) return;
    const top = y(value);
    if (top < bottom) path += `M${round(x(i) - width / 2)} ${round(bottom)}V${round(top)}h${round(width)}V${round(bottom)}`;
  });
  return path;
}

/** Which of so many equal steps a pixel lies in; −1 where there are none. */
export function stepAt(at: number, start: number, end: number, steps: number): number {
  if (steps === 0 || end <= start) return steps > 0 ? 0 : -1;
  return Math.min(steps - 1, Math.max(0, Math.floor(((at - start) / (end - start)) * steps)));
}

const TIMES = [0.1, 0.2, 0.5, 1, 2, 5, 10, 15, 30, 60, 120, 300, 600, 1200];

/** Round times for an axis, at least `apart` pixels from one another. */
export function timeTicks(from: number, to: number, width: number, apart: number): number[] {
  const step = TIMES.find((s) => (s / (to - from)) * width >= apart) ?? TIMES[TIMES.length - 1]!;
  const ticks: number[] = [];
  for (let k = Math.ceil(from / step - 1e-9); k * step <= to + 1e-9; k++) ticks.push(Math.round(k * step * 10) / 10);
  return ticks;
}

/** Whole steps of a scale of levels, from the top. */
export function levelTicks(scale: { low: number; high: number }, step: number): number[] {
  const ticks: number[] = [];
  for (let v = Math.floor(scale.high / step) * step; v >= scale.low - 1e-9; v -= step) ticks.push(v === 0 ? 0 : v);
  return ticks;
}

/** The steps that reach over a limit by more than reading it at two decimals leaves open. */
export function above(values: readonly (number | null)[], limit: number): number[] {
  return values.flatMap((v, i) => (v !== null && v > limit + 0.005 ? [i] : []));
}
