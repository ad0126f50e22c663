/** Paints curves from what the geometry returned. Looks are classes; nothing is worked out here. */
import { svg, type TemplateResult } from 'lit';
import { line, pillars, pixel, type Scale } from '../geometry/chart.ts';

type Values = readonly (number | null)[];

/** Level lines with their numbers at the left. */
export function ruled(ticks: readonly number[], y: Scale, left: number, right: number, words: (value: number) => string): TemplateResult[] {
  return ticks.map((tick) => {
    const at = Math.round(pixel(y, tick)) + 0.5;
    return svg`<path class="rule" d="M${left} ${at}H${right}"/><text class="tick end" x=${left - 6} y=${at + 4}>${words(tick)}</text>`;
  });
}

/** Times under a curve. */
export function timed(ticks: readonly number[], x: Scale, y: number, words: (seconds: number) => string): TemplateResult[] {
  return ticks.map((tick, i) => {
    const at = pixel(x, tick);
    const side = i === 0 && at < x.start + 12 ? 'tick' : at > x.end - 12 ? 'tick end' : 'tick mid';
    return svg`<text class=${side} x=${at} y=${y}>${words(tick)}</text>`;
  });
}

export function curve(values: Values, x: (i: number) => number, y: Scale, look: string): TemplateResult {
  return svg`<path class="curve ${look}" d=${line(values, x, (v) => pixel(y, v))}/>`;
}

export function columnsOf(values: Values, x: (i: number) => number, width: number, y: Scale): TemplateResult {
  return svg`<path class="pillars" d=${pillars(values, x, width, (v) => pixel(y, v), y.start)}/>`;
}

/** A line that something is held against; its name stands over the curve. */
export function limit(value: number, y: Scale, left: number, right: number, look = ''): TemplateResult {
  return svg`<path class="limit ${look}" d="M${left} ${Math.round(pixel(y, value)) + 0.5}H${right}"/>`;
}

/** Crosses over the places that reach beyond a limit. */
export function crosses(at: readonly number[], y: number): TemplateResult {
  return svg`<path class="beyond" d=${at.map((x) => `M${x - 4} ${y - 4}l8 8m0-8l-8 8`).join('')}/>`;
}

/** The place that is read, through all curves. */
export function hair(x: number, top: number, bottom: number): TemplateResult {
  return svg`<path class="hair" d="M${x} ${top}V${bottom}"/>`;
}

/** Where the read value lies on its curve. */
export function dot(x: number, value: number | null | undefined, y: Scale): TemplateResult {
  return value === null || value === undefined ? svg`` : svg`<circle class="dot" cx=${x} cy=${pixel(y, value)} r="4"/>`;
}
