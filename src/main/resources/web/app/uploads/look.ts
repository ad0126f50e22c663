/** Files that were dropped together, as they are looked over before they are brought: what the server read out of their names, and what was put right. */
import { api, newKey, Problem } from '../api/client.ts';
import type { Id, Kind } from '../api/types.ts';
import { ALTERNATES } from '../words/mixes.ts';
import type { Found } from './found.ts';
import type { Target } from './target.ts';

/** What the server reads out of a file's name; a proposal only. */
export interface Reading {
  readonly name: string;
  readonly as: 'bounce' | 'stem';
  readonly leaveOut: string | null;
  readonly song: { readonly id: Id | null; readonly title: string } | null;
  readonly kind: Kind | null;
  readonly label: string | null;
  readonly element: string | null;
  readonly sure: boolean;
  readonly words: string;
}

/** A song by its id; one that will be made, by its place in {@link Looked.fresh}; or none chosen yet. */
export type SongChoice = { readonly id: Id } | { readonly fresh: number } | null;

export interface Row {
  readonly found: Found;
  readonly taken: boolean;
  readonly leaveOut: string | null;
  readonly song: SongChoice;
  readonly what: Kind | 'part';
  readonly label: string;
  readonly element: string;
  /** The main an alternate belongs to: one that is here, or the row of one that is brought now. */
  readonly of: { readonly id: Id } | { readonly row: number } | null;
  readonly sure: boolean;
  readonly words: string;
}

export interface Fresh {
  readonly title: string;
  /** The same press tried again makes no second song. */
  readonly key: string;
}

export interface Looked {
  readonly rows: readonly Row[];
  /** Songs that are made on confirm. */
  readonly fresh: readonly Fresh[];
}

export interface Place {
  readonly project: Id;
  /** The one song they are for, where they were dropped on a song's page. */
  readonly song: Id | null;
  readonly as: 'bounces' | 'stems' | null;
  readonly kinds: readonly Kind[];
  readonly mayMakeSongs: boolean;
}

/** The server reads so many names at a time. */
const AT_A_TIME = 500;

export async function readNames(found: readonly Found[], place: Place, signal: AbortSignal): Promise<Looked> {
  const path = place.song === null ? `/projects/${place.project}/file-name-readings` : `/songs/${place.song}/file-name-readings`;
  const readings: Reading[] = [];
  for (let at = 0; at < found.length; at += AT_A_TIME) {
    const files = found.slice(at, at + AT_A_TIME).map(({ file, path: way }) => ({ name: file.name, path: way, bytes: file.size }));
    readings.push(...(await read(path, { files, ...(place.as ? { as: place.as } : {}) }, signal)));
  }
  return lookedOver(found, readings, place);
}

/** Over a line that is down it is said by hand what the files are; they wait in the queue then. */
async function read(path: string, body: { files: readonly { name: string }[]; as?: string }, signal: AbortSignal): Promise<Reading[]> {
  try {
    return await api.post<Reading[]>(path, body, { signal });
  } catch (reason) {
    if (!(reason instanceof Problem) || (reason.status > 0 && reason.status < 500 && reason.status !== 404)) throw reason;
    const words = 'The name could not be read just now. Say here what it is.';
    return body.files.map(({ name }) => ({
      name, as: body.as === 'stems' ? 'stem' : 'bounce', leaveOut: null, song: null, kind: null, label: null, element: null, sure: false, words,
    }));
  }
}

function lookedOver(found: readonly Found[], readings: readonly Reading[], place: Place): Looked {
  const fresh: Fresh[] = [];
  const songOf = (reading: Reading): SongChoice => {
    if (place.song !== null) return { id: place.song };
    if (!reading.song) return null;
    if (reading.song.id !== null) return { id: reading.song.id };
    if (!place.mayMakeSongs || reading.leaveOut !== null) return null;
    const { title } = reading.song;
    const known = fresh.findIndex((one) => one.title === title);
    return { fresh: known >= 0 ? known : fresh.push({ title, key: newKey() }) - 1 };
  };
  const rows = readings.map((reading, index): Row => {
    const part = place.as === 'stems' || (place.as === null && reading.as === 'stem');
    const kind = reading.kind !== null && place.kinds.includes(reading.kind) ? reading.kind : place.kinds[0]!;
    return {
      found: found[index]!, taken: reading.leaveOut === null, leaveOut: reading.leaveOut, song: songOf(reading), what: part ? 'part' : kind,
      label: reading.label ?? '', element: reading.element ?? '', of: null, sure: reading.sure, words: reading.words,
    };
  });
  // What still has no song comes first, then song by song, mains before what belongs to them.
  const title = (index: number) => (rows[index]!.song === null ? '' : readings[index]!.song?.title ?? '');
  const sorted = rows.map((row, index) => ({ row, index }))
    .sort((a, b) => title(a.index).localeCompare(title(b.index)) || Number(b.row.what === 'main') - Number(a.row.what === 'main') || a.index - b.index)
    .map(({ row }) => row);
  return { rows: sorted.map((row) => ({ ...row, of: mainFor(row, sorted) })), fresh };
}

/** More files have been dropped while the first were looked over: nothing put right so far is lost. */
export function joined(first: Looked, more: Looked): Looked {
  const fresh = [...first.fresh];
  const moved = more.fresh.map((one) => {
    const known = fresh.findIndex((other) => other.title === one.title);
    return known >= 0 ? known : fresh.push(one) - 1;
  });
  const rows = more.rows.map((row): Row => ({
    ...row,
    song: row.song !== null && 'fresh' in row.song ? { fresh: moved[row.song.fresh]! } : row.song,
    of: row.of !== null && 'row' in row.of ? { row: row.of.row + first.rows.length } : row.of,
  }));
  return { rows: [...first.rows, ...rows], fresh };
}

/** The main brought along with an alternate: the one of the same name, or the only one. */
function mainFor(row: Row, rows: readonly Row[]): Row['of'] {
  if (!isAlternate(row.what)) return null;
  const mains = rows.map((other, index) => ({ other, index })).filter(({ other }) => other.taken && other.what === 'main' && sameSong(other.song, row.song));
  const named = mains.find(({ other }) => other.label !== '' && other.label === row.label) ?? (mains.length === 1 ? mains[0] : undefined);
  return named ? { row: named.index } : null;
}

export function isAlternate(what: Row['what']): boolean {
  return what !== 'part' && ALTERNATES.includes(what);
}

export function sameSong(a: SongChoice, b: SongChoice): boolean {
  if (a === null || b === null) return false;
  return 'id' in a ? 'id' in b && a.id === b.id : 'fresh' in b && a.fresh === b.fresh;
}

/** What still has to be said of a row before it can be brought; empty when nothing. */
export function missing(row: Row): '' | 'song' | 'part' {
  if (row.song === null) return 'song';
  return row.what === 'part' && row.element.trim() === '' ? 'part' : '';
}

/** Songs that the taken rows need and that are not there yet. */
export function freshNeeded({ rows, fresh }: Looked): readonly number[] {
  return fresh.map((_, index) => index).filter((index) => rows.some((row) => row.taken && row.song !== null && 'fresh' in row.song && row.song.fresh === index));
}

/**
 * What is handed to the queue, mains first.
 *
 * @param songs id and title of each song, by its choice
 * @param bounce the mix that part files belong to, where it is known
 */
export function bringing(rows: readonly Row[], songs: (choice: SongChoice) => { id: Id; title: string }, bounce: Id | null): Array<{ id: string; found: Found; target: Target }> {
  const id = new Map(rows.map((row) => [row, newKey()]));
  const ordered = [...rows.filter((row) => row.taken && row.what === 'main'), ...rows.filter((row) => row.taken && row.what !== 'main')];
  return ordered.map((row) => {
    const { id: song, title: songTitle } = songs(row.song);
    const label = row.label.trim();
    const base = { song, songTitle, ...(label && row.what === 'main' ? { label } : {}) };
    if (row.what === 'part') {
      const first = bounce === null ? rows.find((other) => other.taken && other.what === 'main' && sameSong(other.song, row.song)) : undefined;
      return { id: id.get(row)!, found: row.found, target: {
        ...base, kind: 'main', element: row.element.trim().toLowerCase(), ...(bounce !== null ? { bounce } : {}), ...(first ? { after: id.get(first)! } : {}),
      } };
    }
    const main = row.of === null ? undefined : 'row' in row.of ? rows[row.of.row] : undefined;
    const of = row.of !== null && 'id' in row.of ? row.of.id : undefined;
    return { id: id.get(row)!, found: row.found, target: {
      ...base, kind: row.what, ...(isAlternate(row.what) && of ? { of } : {}), ...(isAlternate(row.what) && main?.taken ? { after: id.get(main)! } : {}),
    } };
  });
}
