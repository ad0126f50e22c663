import type { Bounce, Change, Comparison, Id, SectionChange } from '../api/types.ts';
import { sectionsOf } from '../words/sections.ts';
import type { Sheet } from './sheet.ts';
import { isSent } from '../words/mixes.ts';

/** One step of "what moved": sections that moved alike stand together. */
export interface Moved {
  readonly section: SectionChange;
  /** What was asked for in this section and done since. */
  readonly asked: readonly Change[];
}

export interface MovedList {
  readonly moved: readonly Moved[];
  readonly still: readonly string[];
  /** Sections for which it cannot be told. */
  readonly unsure: readonly string[];
}

/** The mains everybody has been sent, newest first. */
export function sentMains(mains: readonly Bounce[]): readonly Bounce[] {
  return mains.filter(isSent).sort((a, b) => b.number - a.number);
}

/** Changes answered in one of the mixes after the one that was heard, up to this one. */
export function doneSince(sheet: Sheet, here: Bounce, there: Bounce | null): readonly Change[] {
  const between = new Set<Id>(
    sheet.mains
      .filter((bounce) => bounce.number <= here.number && bounce.number > (there?.number ?? 0))
      .map((bounce) => bounce.id),
  );
  return sheet.changes.filter((change) => change.doneIn !== null && between.has(change.doneIn));
}

/** Puts the comparison and what was asked for beside each other, section by section. */
export function movedList(comparison: Comparison, done: readonly Change[], sheet: Sheet): MovedList {
  const moved: Moved[] = [];
  const still: string[] = [];
  const unsure: string[] = [];
  for (const section of comparison.sections) {
    if (section.difference === 'unchanged') still.push(section.name);
    else if (section.difference === 'uncertain') unsure.push(section.name);
    else moved.push({ section, asked: done.filter((change) => touches(change, section.name, sheet)) });
  }
  return { moved, still, unsure };
}

function touches(change: Change, section: string, sheet: Sheet): boolean {
  const names = sectionsOf(change.where, sheet.sections);
  return names.length === 0 || names.includes(section);
}

/** How a section's loudness moved, for those who want words. */
export function loudnessWords(changeLu: number | null): string {
  if (changeLu === null) return '';
  const size = Math.abs(changeLu);
  if (size < 0.3) return 'as loud as before';
  const way = changeLu > 0 ? 'louder' : 'quieter';
  if (size < 1) return `a little ${way}`;
  return size < 3 ? `clearly ${way}` : `much ${way}`;
}
