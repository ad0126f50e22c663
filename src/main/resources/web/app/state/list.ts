import type { Change, ChangeState, Id, Keep, Section, Song } from '../api/types.ts';
import { sectionsOf } from '../words/sections.ts';

export type Order = 'section' | 'part';
export type Filter = 'all' | 'open' | 'done' | 'left' | 'settled';

/** One block of the list: the changes that share a place, or a part. */
export interface ListGroup {
  /** Section names, or the part; empty for the whole song. */
  readonly names: readonly string[];
  readonly bundles: readonly Bundle[];
  readonly keeps: readonly Keep[];
}

/** Lines that go against each other stay together; any other line is alone. */
export type Bundle = readonly Line[];

const FILTERS: Record<Filter, readonly ChangeState[]> = {
  all: ['unclear', 'asked', 'done', 'good', 'left', 'withdrawn', 'followed'],
  open: ['unclear', 'asked'],
  done: ['done'],
  left: ['left', 'withdrawn'],
  settled: ['good', 'followed'],
};

export function passes(change: Change, filter: Filter): boolean {
  return FILTERS[filter].includes(change.state);
}

/** Whose wishes of which round are shown; null shows all. */
export interface Choice { readonly asker: Id | null; readonly round: number | null }

export function chosen(change: Change, choice: Choice): boolean {
  return (choice.asker === null || change.author === choice.asker) && (choice.round === null || change.round === choice.round);
}

/** One line of the list: a change, and those that are worked with it. */
export interface Line { readonly change: Change; readonly others: readonly Change[] }

/** Those that ask for the same, or were joined, stand as one line where the first of them stands. */
export function lined(changes: readonly Change[]): readonly Line[] {
  const taken = new Set<Id>();
  const lines: Line[] = [];
  for (const change of changes) {
    if (taken.has(change.id)) continue;
    const others = changes.filter((other) => change.mergedWith.includes(other.id) && !taken.has(other.id) && other.state === change.state);
    for (const one of [change, ...others]) taken.add(one.id);
    lines.push({ change, others });
  }
  return lines;
}

/** How many changes each filter lets through. */
export function tallyOf(changes: readonly Change[]): Record<Filter, number> {
  const tally: Record<Filter, number> = { all: 0, open: 0, done: 0, left: 0, settled: 0 };
  for (const filter of Object.keys(tally) as Filter[]) {
    tally[filter] = changes.filter((change) => passes(change, filter)).length;
  }
  return tally;
}

/** What came after the list was closed belongs to the next round. */
export function isLater(change: Change, song: Song): boolean {
  return song.roundState === 'closed' && change.round >= song.round;
}

/** Blocks in the order of the song, or of the parts; what concerns the whole song comes first. */
export function groupList(
  changes: readonly Change[],
  keeps: readonly Keep[],
  sections: readonly Section[],
  order: Order,
): readonly ListGroup[] {
  const keyOf = (row: Change | Keep): readonly string[] =>
    order === 'part' ? [row.element] : inOrder(sectionsOf(row.where, sections), sections);
  const groups = new Map<string, { names: readonly string[]; bundles: Bundle[]; keeps: Keep[] }>();
  const groupFor = (names: readonly string[]) => {
    const key = names.join('\n');
    const group = groups.get(key) ?? { names, bundles: [], keeps: [] };
    groups.set(key, group);
    return group;
  };
  for (const bundle of bundled(lined(changes))) groupFor(keyOf(bundle[0]!.change)).bundles.push(bundle);
  for (const keep of keeps) groupFor(keyOf(keep)).keeps.push(keep);
  const place = (names: readonly string[]) => {
    if (order === 'part' || names.length === 0) return -1;
    const index = sections.findIndex((section) => section.name === names[0]);
    return index < 0 ? sections.length : index;
  };
  return [...groups.values()].sort((a, b) => place(a.names) - place(b.names) || a.names.join().localeCompare(b.names.join()));
}

/** Puts those that go against each other, directly or through a third, into one bundle. */
export function bundled(lines: readonly Line[]): readonly Bundle[] {
  const byId = new Map<Id, Line>(lines.flatMap((line) => [line.change, ...line.others].map((change) => [change.id, line] as const)));
  const seen = new Set<Line>();
  const bundles: Bundle[] = [];
  for (const line of lines) {
    if (seen.has(line)) continue;
    const bundle: Line[] = [];
    const waiting: Line[] = [line];
    while (waiting.length > 0) {
      const found = waiting.shift()!;
      if (seen.has(found)) continue;
      seen.add(found);
      bundle.push(found);
      for (const change of [found.change, ...found.others].filter(isOpen)) {
        for (const id of change.conflictsWith) if (byId.has(id)) waiting.push(byId.get(id)!);
      }
    }
    bundles.push(bundle);
  }
  return bundles;
}

/** True while two or more of these still wait to be settled. */
export function isAgainst(bundle: Bundle): boolean {
  return bundle.filter((line) => isOpen(line.change)).length > 1;
}

/** Asked for, and neither done nor left. */
export function isOpen(change: Change): boolean {
  return change.state === 'asked' || change.state === 'unclear';
}

function inOrder(names: readonly string[], sections: readonly Section[]): readonly string[] {
  const index = (name: string) => {
    const found = sections.findIndex((section) => section.name === name);
    return found < 0 ? sections.length : found;
  };
  return [...names].sort((a, b) => index(a) - index(b));
}
