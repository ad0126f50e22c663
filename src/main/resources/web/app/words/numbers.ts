const MINUS = '\u2212';

/** 83.4 → "1:23": whole seconds passed, as a player shows them. */
export function clock(seconds: number): string {
  const whole = Math.max(0, Math.floor(seconds + 1e-6));
  return `${Math.floor(whole / 60)}:${String(whole % 60).padStart(2, '0')}`;
}

/** 83.44 → "1:23.4", for engineers. */
export function clockTenths(seconds: number): string {
  const tenths = Math.max(0, Math.round(seconds * 10));
  return `${Math.floor(tenths / 600)}:${String(Math.floor((tenths % 600) / 10)).padStart(2, '0')}.${tenths % 10}`;
}

/** 83.4412 → "1:23.441", where edges are set. */
export function clockMillis(seconds: number): string {
  const ms = Math.max(0, Math.round(seconds * 1000));
  return `${Math.floor(ms / 60000)}:${String(Math.floor((ms % 60000) / 1000)).padStart(2, '0')}.${String(ms % 1000).padStart(3, '0')}`;
}

/** At most two decimals and never an exponent: 1.5, 12, 0.25. */
export function plain(value: number): string {
  return Number.isSafeInteger(Math.trunc(value)) ? String(Number(value.toFixed(2))) : BigInt(Math.trunc(value)).toString();
}

/** A figure with one decimal and a true minus; what does not exist is a dash. */
export function figure(value: number | null | undefined, unit: string, digits = 1): string {
  if (value === null || value === undefined) return '–';
  return `${trueMinus(value.toFixed(digits))} ${unit}`;
}

/** A difference: the plus is said as well. */
export function signedFigure(value: number | null | undefined, unit: string, digits = 1): string {
  if (value === null || value === undefined) return '–';
  const text = trueMinus(value.toFixed(digits));
  return `${text.startsWith(MINUS) || Number(value.toFixed(digits)) === 0 ? '' : '+'}${text} ${unit}`;
}

function trueMinus(text: string): string {
  if (/^-0(\.0+)?$/.test(text)) return text.slice(1);
  return text.replace('-', MINUS);
}

const SMALL = ['no', 'one', 'two', 'three', 'four', 'five', 'six', 'seven', 'eight', 'nine', 'ten', 'eleven', 'twelve'];

/** "one change", "3 files": small counts as words, with the noun that fits. */
export function count(number: number, one: string, many = `${one}s`): string {
  return `${SMALL[number] ?? number} ${number === 1 ? one : many}`;
}

export function capital(text: string): string {
  return text.charAt(0).toUpperCase() + text.slice(1);
}

/** "Ines, Joss and Wim". */
export function listed(names: readonly string[], joint = 'and'): string {
  if (names.length < 2) return names[0] ?? '';
  return `${names.slice(0, -1).join(', ')} ${joint} ${names[names.length - 1]}`;
}

/** 9f02…77e4: enough of a hash to tell it by. */
export function shortHash(hash: string): string {
  return hash.length > 12 ? `${hash.slice(0, 4)}…${hash.slice(-4)}` : hash;
}
