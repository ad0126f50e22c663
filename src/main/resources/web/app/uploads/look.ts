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
  /** The main an alternate or a part belongs to: one that is here, or the row of one that is brought now; null: the newest. */
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

/** Names in the order in which people count. */
const byName = new Intl.Collator(undefined, { numeric: true });

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
  // What still has no song comes first, then song by song, mains before what belongs to them, mix 2 before mix 10.
  const title = (index: number) => (rows[index]!.song === null ? '' : readings[index]!.song?.title ?? '');
  const sorted = rows.map((row, index) => ({ row, index }))
    .sort((a, b) => title(a.index).localeCompare(title(b.index)) || Number(b.row.what === 'main') - Number(a.row.what === 'main')
      || Number(a.row.what === 'part') - Number(b.row.what === 'part') || byName.compare(a.row.found.file.name, b.row.found.file.name) || a.index - b.index)
    .map(({ row }) => row);
  return { rows: sorted, fresh };
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

/** A main mix a song has already. */
export interface Main {
  readonly id: Id;
  readonly words: string;
  /** What it is called, or was brought to be called. */
  readonly label: string | null;
}

/** Songs that have files which belong to a main, and may have such mains already. */
export function songsWithMains({ rows }: Looked): Id[] {
  const ids = rows.flatMap(({ what, song }) => (belongs(what) && song !== null && 'id' in song ? [song.id] : []));
  return [...new Set(ids)];
}

/** Each of these rows pointed at its main, as far as the names tell. */
export function pointed(looked: Looked, which: (row: Row) => boolean, mains: ReadonlyMap<Id, readonly Main[]>): Looked {
  return { ...looked, rows: looked.rows.map((row) => (which(row) ? { ...row, of: mainFor(row, looked.rows, mains) } : row)) };
}

/** The main brought along, or the one that is here, of the same name; else the only one, or for a part the last, that comes along. */
function mainFor(row: Row, rows: readonly Row[], mains: ReadonlyMap<Id, readonly Main[]>): Row['of'] {
  if (!belongs(row.what)) return null;
  const alike = (label: string | null) => row.label !== '' && label?.toLowerCase() === row.label.toLowerCase();
  const beside = rows.map((other, index) => ({ other, index })).filter(({ other }) => other.taken && other.what === 'main' && sameSong(other.song, row.song));
  const named = beside.find(({ other }) => alike(other.label));
  if (named) return { row: named.index };
  const here = row.song !== null && 'id' in row.song ? mains.get(row.song.id)?.find((main) => alike(main.label)) : undefined;
  if (here) return { id: here.id };
  if (row.what === 'part' ? beside.length > 0 : beside.length === 1 && (row.label === '' || beside[0]!.other.label === '')) return { row: beside.at(-1)!.index };
  return null;
}

/** Whether it belongs to a main: alternates and parts do. */
export function belongs(what: Row['what']): boolean {
  return what === 'part' || isAlternate(what);
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
    const main = row.of !== null && 'row' in row.of ? rows[row.of.row] : undefined;
    const after = belongs(row.what) && main?.taken ? { after: id.get(main)! } : {};
    const here = row.of !== null && 'id' in row.of ? row.of.id : null;
    if (row.what === 'part') {
      const of = bounce ?? here;
      return { id: id.get(row)!, found: row.found, target: { ...base, kind: 'main', element: row.element.trim().toLowerCase(), ...(of !== null ? { bounce: of } : after) } };
    }
    return { id: id.get(row)!, found: row.found, target: { ...base, kind: row.what, ...after, ...(isAlternate(row.what) && here !== null ? { of: here } : {}) } };
  });
}
