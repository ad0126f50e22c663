import type { Section, Where } from '../api/types.ts';
import { parseClock } from '../geometry/clock.ts';
import { clock, listed } from './numbers.ts';

/** What is shorter is called a moment, seconds. */
const SHORTEST = 0.5;

const KNOWN: ReadonlyArray<readonly [RegExp, string]> = [
  [/^pre\b|^pre-?chorus/i, 'P'],
  [/^post\b|^post-?chorus/i, 'Po'],
  [/^intro/i, 'In'],
  [/^outro|^ending/i, 'Out'],
  [/^verse/i, 'V'],
  [/^chorus|^refrain|^hook/i, 'C'],
  [/^bridge/i, 'Br'],
  [/^middle/i, 'M'],
  [/^solo/i, 'So'],
  [/^inter/i, 'Int'],
  [/^break/i, 'Bk'],
  [/^build/i, 'Bu'],
  [/^drop/i, 'D'],
  [/^coda/i, 'Cd'],
  [/^tag/i, 'Tg'],
];

/** The rehearsal mark of each section: short, unlike each other, the same wherever it is shown. */
export function rehearsalMarks(names: readonly string[]): ReadonlyMap<string, string> {
  const marks = new Map<string, string>();
  const taken = new Set<string>();
  for (const name of names) {
    if (marks.has(name)) continue;
    const number = /(\d+)\s*$/.exec(name)?.[1] ?? '';
    const letters = KNOWN.find(([pattern]) => pattern.test(name))?.[1] ?? firstLetters(name);
    let mark = letters + number;
    for (let more = 1; taken.has(mark); more++) mark = `${letters}${number}${lettered(more)}`;
    taken.add(mark);
    marks.set(name, mark);
  }
  return marks;
}

/** 1 → "a", 26 → "z", 27 → "aa". */
function lettered(number: number): string {
  const rest = Math.floor((number - 1) / 26);
  return (rest > 0 ? lettered(rest) : '') + String.fromCharCode(97 + ((number - 1) % 26));
}

function firstLetters(name: string): string {
  const words = name.replace(/[\d]+\s*$/, '').trim().split(/\s+/);
  if (words.length > 1) return words.slice(0, 2).map((word) => ([...word][0] ?? '').toUpperCase()).join('');
  return [...(words[0] ?? '?')].slice(0, 2).join('');
}

/** "Chorus 1, 2 and 3", "Pre 1 and Verse 2": sections that share a word are said once. */
export function sectionWords(names: readonly string[]): string {
  const groups: Array<{ word: string; numbers: string[] }> = [];
  for (const name of names) {
    const split = /^(.*\S)\s+(\d+)$/.exec(name);
    const word = split?.[1] ?? name;
    const last = groups[groups.length - 1];
    if (split && last && last.word === word && last.numbers.length > 0) last.numbers.push(split[2]!);
    else groups.push({ word, numbers: split ? [split[2]!] : [] });
  }
  const said = groups.map((group) =>
    group.numbers.length === 0 ? group.word : `${group.word} ${listed(group.numbers)}`,
  );
  const nested = groups.some((group) => group.numbers.length > 1);
  return nested ? said.join(', ') : listed(said);
}

/** A stretch as it can be typed again: "1:05 to 1:20", "1:05". */
export function timeWords({ from, to }: { from: number; to: number }): string {
  return to - from < SHORTEST ? clock(from) : `${clock(from)} to ${clock(to)}`;
}

/** A stretch from what was typed, the one before where it says the same; no sections where nothing was; null where it is no time. */
export function saidPlace(text: string, before: Where): Where | null {
  const words = text.trim();
  if (words === '') return [];
  if (isStretch(before) && words === timeWords(before)) return before;
  const times = words.replace(/^(?:at|from)\s+/i, '').split(/\s*(?:to|until|[-\u2013\u2014])\s*/i).map(parseClock);
  const [from, to = from] = times;
  return times.length > 2 || from == null || to == null || to < from ? null : { from, to };
}

/** Where a change is wanted, in words. */
export function whereWords(where: Where): string {
  if (isStretch(where)) {
    return where.to - where.from < SHORTEST ? `at ${clock(where.from)}` : timeWords(where);
  }
  return where.length === 0 ? 'Whole song' : sectionWords(where);
}

/** The same for a line of the list, with what lies after the end of the mix called so. */
export function lineWhereWords(line: { where: Where; afterEnd: boolean }): string {
  return line.afterEnd && isStretch(line.where) ? `after the end of the mix (${clock(line.where.from)})` : whereWords(line.where);
}

export function isStretch(where: Where): where is { from: number; to: number } {
  return !Array.isArray(where);
}

/** The sections a place touches, by name; none for the whole song. */
export function sectionsOf(where: Where, sections: readonly Section[]): readonly string[] {
  if (!isStretch(where)) return where;
  return sections
    .filter((section) => section.from !== null && section.to !== null)
    .filter((section) => section.from! <= where.to && section.to! > where.from)
    .map((section) => section.name);
}
