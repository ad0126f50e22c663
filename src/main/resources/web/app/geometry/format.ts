/** How figures are written: a true minus, one decimal, the unit always; times as m:ss. Pure. */

const MINUS = '\u2212';

/** Seconds as m:ss, rounded down as a clock does; negative or missing time reads 0:00. */
export function clock(seconds: number): string {
  const whole = Number.isFinite(seconds) && seconds > 0 ? Math.floor(seconds + 1e-6) : 0;
  return `${Math.floor(whole / 60)}:${String(whole % 60).padStart(2, '0')}`;
}

/** Seconds as m:ss.t for boundaries and lengths, rounded to the tenth. */
export function clockTenths(seconds: number): string {
  const tenths = Number.isFinite(seconds) && seconds > 0 ? Math.round(seconds * 10) : 0;
  const minutes = Math.floor(tenths / 600);
  const rest = tenths - minutes * 600;
  return `${minutes}:${String(Math.floor(rest / 10)).padStart(2, '0')}.${rest % 10}`;
}

/** A number with a true minus and a fixed count of decimals; never "−0.0". */
export function figure(value: number, decimals = 1): string {
  const text = Math.abs(value).toFixed(decimals);
  return value < 0 && Number(text) !== 0 ? MINUS + text : text;
}

/** A change: always signed, except zero. */
export function signed(value: number, decimals = 1): string {
  const text = figure(value, decimals);
  return value > 0 && Number(text) !== 0 ? `+${text}` : text;
}

/** A figure with its unit, or "none" where the server says that no such level exists. */
export function withUnit(value: number | null | undefined, unit: string, decimals = 1): string {
  return value == null ? 'none' : `${figure(value, decimals)} ${unit}`;
}

/** Seconds read back from m:ss, m:ss.t or plain seconds; null where the text is no time. */
export function parseClock(text: string): number | null {
  const match = /^\s*(?:(\d{1,3}):)?(\d{1,5}(?:[.,]\d{1,3})?)\s*$/.exec(text);
  if (!match) return null;
  const seconds = Number(match[2].replace(',', '.'));
  if (match[1] !== undefined && seconds >= 60) return null;
  return Number(match[1] ?? 0) * 60 + seconds;
}

/** Bytes for people. */
export function bytes(count: number): string {
  if (count < 1000) return `${count} bytes`;
  if (count < 1e6) return `${(count / 1e3).toFixed(0)} kB`;
  if (count < 1e9) return `${(count / 1e6).toFixed(1)} MB`;
  return `${(count / 1e9).toFixed(2)} GB`;
}

/** Names in a sentence: "Ines", "Ines and Joss", "Ines, Joss and Wim". */
export function listed(names: readonly string[]): string {
  if (names.length < 2) return names[0] ?? '';
  return `${names.slice(0, -1).join(', ')} and ${names[names.length - 1]}`;
}

/** First letter large, the rest as it stands. */
export function opening(words: string): string {
  return words.charAt(0).toUpperCase() + words.slice(1);
}
