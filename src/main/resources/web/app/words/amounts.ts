/** How much, as people type it: "1.5 dB", "+3", "-3 dBs", "1 to 2 dB", or words of degree. */
import type { Amount } from '../api/types.ts';
import { amountWords } from './changes.ts';

const NUMBER = '(\\d+(?:[.,]\\d+)?)';
const FIGURE = new RegExp(`^([-+\\u2212\\u2013]|minus |plus )?\\s*${NUMBER}(?:\\s*(?:to|-|\\u2013)\\s*${NUMBER})?\\s*([a-z%]*)$`, 'i');

const UNITS: Record<string, string> = {
  '': 'dB', db: 'dB', dbs: 'dB', decibel: 'dB', decibels: 'dB', '%': '%', percent: '%', ms: 'ms', s: 's', sec: 's', secs: 's',
  second: 's', seconds: 's', bar: 'bars', bars: 'bars', hz: 'Hz',
};

/** Which way a plus goes, and which way a minus. */
const PAIRS: ReadonlyArray<readonly [string, string]> = [['up', 'down'], ['wider', 'narrower'], ['later', 'earlier'], ['longer', 'shorter']];

/** A sign says which way, where there are two; the server refuses it elsewhere and says why. */
export function saidAmount(text: string, direction: string, before: Amount | null): { direction: string; amount: Amount | null } {
  const words = text.trim();
  if (words === '') return { direction, amount: null };
  if (before && amountWords(before) === words) return { direction, amount: before };
  const found = FIGURE.exec(words);
  const unit = found ? UNITS[found[4]!.toLowerCase()] : undefined;
  const pair = PAIRS.find((ways) => ways.includes(direction));
  if (!found || !unit || (found[1] && !pair)) return { direction, amount: { word: words.toLowerCase() } };
  const minus = found[1] !== undefined && !/^(\+|plus)/i.test(found[1]);
  const way = found[1] && pair ? pair[minus ? 1 : 0] : direction;
  const value = numberOf(found[2]!);
  return { direction: way, amount: found[3] ? { value, to: numberOf(found[3]), unit } : { value, unit } };
}

function numberOf(text: string): number {
  return Number(text.replace(',', '.'));
}
