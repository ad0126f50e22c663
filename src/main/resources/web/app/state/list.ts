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

/** Changes that go against each other stay together; any other change is alone. */
export type Bundle = readonly Change[];

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
  for (const bundle of bundled(changes)) groupFor(keyOf(bundle[0]!)).bundles.push(bundle);
  for (const keep of keeps) groupFor(keyOf(keep)).keeps.push(keep);
  const place = (names: readonly string[]) => {
    if (order === 'part' || names.length === 0) return -1;
    const index = sections.findIndex((section) => section.name === names[0]);
    return index < 0 ? sections.length : index;
  };
  return [...groups.values()].sort((a, b) => place(a.names) - place(b.names) || a.names.join().localeCompare(b.names.join()));
}

/** Puts those that go against each other, directly or through a third, into one bundle. */
export function bundled(changes: readonly Change[]): readonly Bundle[] {
  const byId = new Map<Id, Change>(changes.map((change) => [change.id, change]));
  const seen = new Set<Id>();
  const bundles: Bundle[] = [];
  for (const change of changes) {
    if (seen.has(change.id)) continue;
    const bundle: Change[] = [];
    const waiting = [change.id];
    while (waiting.length > 0) {
      const id = waiting.shift()!;
      const found = byId.get(id);
      if (!found || seen.has(id)) continue;
      seen.add(id);
      bundle.push(found);
      if (found.state === 'asked' || found.state === 'unclear') waiting.push(...found.conflictsWith);
    }
    bundles.push(bundle);
  }
  return bundles;
}

/** True while two or more of these still wait to be settled. */
export function isAgainst(bundle: Bundle): boolean {
  return bundle.filter((change) => change.state === 'asked' || change.state === 'unclear').length > 1;
}

function inOrder(names: readonly string[], sections: readonly Section[]): readonly string[] {
  const index = (name: string) => {
    const found = sections.findIndex((section) => section.name === name);
    return found < 0 ? sections.length : found;
  };
  return [...names].sort((a, b) => index(a) - index(b));
}
