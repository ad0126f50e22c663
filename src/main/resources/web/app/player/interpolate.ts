/**
 * Reading a bounce at a rate that is not the clock's: band-limited interpolation with a Kaiser
 * window (beta 9, 32 zero crossings a side, cut-off lowered when going down in rate). Only for
 * hearing; no figure is ever taken from it. Pure.
 */

const CROSSINGS = 32;
const STEPS = 512;
const BETA = 9;

/** Modified Bessel function of order 0, by its series. */
function bessel0(x: number): number {
  let sum = 1;
  let term = 1;
  for (let k = 1; k < 40; k++) {
    term *= (x / (2 * k)) ** 2;
    sum += term;
  }
  return sum;
}

let kernel: Float64Array | null = null;

/** One side of the windowed kernel, STEPS values a zero crossing. */
function table(): Float64Array {
  if (kernel) return kernel;
  const values = new Float64Array(CROSSINGS * STEPS + 2);
  const scale = bessel0(BETA);
  for (let i = 0; i <= CROSSINGS * STEPS; i++) {
    const x = i / STEPS;
    const sinc = x === 0 ? 1 : Math.sin(Math.PI * x) / (Math.PI * x);
    values[i] = (sinc * bessel0(BETA * Math.sqrt(Math.max(0, 1 - (x / CROSSINGS) ** 2)))) / scale;
  }
  kernel = values;
  return values;
}

/** How many own frames around a position are needed, each side, at this ratio. */
export function reach(ratio: number): number {
  return ratio === 1 ? 0 : Math.ceil(CROSSINGS * Math.max(1, ratio)) + 1;
}

/**
 * Interpolates one channel.
 *
 * @param source own frames, source[0] being frame `first`; must reach `reach(ratio)` beyond both ends
 * @param position own frame (fractional) of into[at]
 * @param ratio own frames per frame written
 */
export function interpolate(
  source: Float32Array, first: number, position: number, ratio: number,
  into: Float32Array, at: number, frames: number,
): void {
  const values = table();
  const cut = ratio > 1 ? 1 / ratio : 1;
  const half = CROSSINGS / cut;
  for (let i = 0; i < frames; i++) {
    const x = position + i * ratio - first;
    const low = Math.max(0, Math.ceil(x - half));
    const high = Math.min(source.length - 1, Math.floor(x + half));
    let sum = 0;
    for (let k = low; k <= high; k++) {
      const d = Math.abs(x - k) * cut * STEPS;
      const j = d | 0;
      sum += source[k]! * (values[j]! + (values[j + 1]! - values[j]!) * (d - j));
    }
    into[at + i] = sum * cut;
  }
}
