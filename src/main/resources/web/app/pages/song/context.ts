/** What the parts of the song page share. */
import type { Change, Id, Keep } from '../../api/types.ts';
import { present, type Pulse, type Span } from '../../geometry/form.ts';
import type { Player } from '../../player/player.ts';
import type { Problem } from '../../api/problem.ts';
import type { SongData } from '../../state/song.ts';
import type { Act } from '../../api/types.ts';
import { sectionsOf } from '../../words/sections.ts';
import { mixWords } from '../../words/mixes.ts';

/** Data and presses of the page, handed to the functions that draw its parts. */
export interface Context {
  readonly data: SongData;
  readonly me: Id;
  readonly player: Player;
  readonly spans: readonly Span[];
  readonly marks: ReadonlyMap<string, string>;
  readonly pulse: Pulse;
  /** Name of the section that play is in. */
  readonly here: string | null;
  /** What was refused last, by the press it belongs to. */
  readonly refusals: ReadonlyMap<string, Problem>;
  /** The press that is under way, by its name. */
  readonly running: string | null;
  may(act: Act): boolean;
  /** Does something once, shows its refusal where it was pressed. */
  press(name: string, work: () => Promise<unknown>): void;
  loopSection(name: string): void;
}

/** The name to show for a person. */
export function nameOf(data: SongData, person: Id | null, me: Id): string {
  if (person === null) return 'Somebody';
  if (person === me) return 'you';
  return data.people.find((p) => p.person === person || p.member === person)?.name ?? 'Somebody who has left';
}

/** "yours", "Maren’s". */
export function ownerWords(data: SongData, person: Id | null, me: Id): string {
  const name = nameOf(data, person, me);
  if (name === 'you') return 'yours';
  return name === 'Somebody' || name.startsWith('Somebody ') ? 'from somebody who has left' : `${name}’s`;
}

export function isMine(data: SongData, author: Id | null, me: Id): boolean {
  return author !== null && (author === me || author === data.song.you.member);
}

/** The label of a mix by its id. */
export function mixName(data: SongData, id: Id | null): string {
  const bounce = data.bounces.find((b) => b.id === id);
  return bounce ? mixWords(bounce) : 'an earlier mix';
}

/** Whether a change or a keep touches a section; one for the whole song touches none by name. */
export function touches(thing: Change | Keep, section: Span, data: SongData): boolean {
  return sectionsOf(thing.where, data.sections).includes(section.name);
}

/** Whether it has no section of this song: whole song, or a name that is not there. */
export function wholeSong(thing: Change | Keep, data: SongData): boolean {
  const names = sectionsOf(thing.where, data.sections);
  const known = new Set(present(data.sections).map((s) => s.name));
  return !names.some((n) => known.has(n));
}

/** The figures of the leading mix, with the other one beside it. */
export function figuresHref(data: SongData): string {
  return `/songs/${data.song.id}/figures?mix=${data.lead?.id ?? ''}${data.other ? `&with=${data.other.id}` : ''}`;
}

/** Changes that stand on the page: what was withdrawn or followed by another is history. */
export function standing(changes: readonly Change[]): readonly Change[] {
  return changes.filter((c) => c.state !== 'withdrawn' && c.state !== 'followed');
}
