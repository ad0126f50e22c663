import { api } from '../api/client.ts';
import type { Bounce, Change, Id, Keep, Note, PersonName, Question, Section, Song } from '../api/types.ts';

/** What the change list and the approval page know of a song. */
export interface Sheet {
  readonly song: Song;
  readonly changes: readonly Change[];
  readonly keeps: readonly Keep[];
  readonly notes: readonly Note[];
  readonly questions: readonly Question[];
  /** On the newest bounce the reader may hear; none before sections were written. */
  readonly sections: readonly Section[];
  readonly people: readonly PersonName[];
  readonly mains: readonly Bounce[];
  nameOf(person: Id | null): string;
  labelOf(bounce: Id | null): string;
}

export async function loadSheet(id: Id, signal: AbortSignal): Promise<Sheet> {
  const song = await api.get<Song>(`/songs/${id}`, signal);
  const path = `/songs/${id}`;
  const [changes, keeps, notes, questions, people, mains, sections] = await Promise.all([
    api.all<Change>(`${path}/changes`, signal),
    api.all<Keep>(`${path}/keeps`, signal),
    api.all<Note>(`${path}/notes`, signal),
    api.all<Question>(`${path}/questions?open=true`, signal),
    api.all<PersonName>(`${path}/people`, signal),
    api.all<Bounce>(`${path}/bounces?kind=main`, signal),
    song.newest ? api.all<Section>(`${path}/sections?bounce=${song.newest.bounce}`, signal) : [],
  ]);
  const judged = song.may.includes('see-checks') ? await withVerdicts(changes, signal) : changes;
  return sheetOf(song, judged, keeps, notes, questions, sections, people, mains);
}

/** What moved is told for one change at a time, of those marked done; what vague words mean, of those open. */
function withVerdicts(changes: readonly Change[], signal: AbortSignal): Promise<Change[]> {
  return Promise.all(
    changes.map((change) =>
      (change.state === 'done' && !change.verdicts) || (change.state === 'asked' && change.aspect === 'level' && change.amount && 'word' in change.amount) ? api.get<Change>(`/changes/${change.id}`, signal) : change,
    ),
  );
}

function sheetOf(
  song: Song,
  changes: readonly Change[],
  keeps: readonly Keep[],
  notes: readonly Note[],
  questions: readonly Question[],
  sections: readonly Section[],
  people: readonly PersonName[],
  mains: readonly Bounce[],
): Sheet {
  const names = new Map(people.map((person) => [person.person, person.name]));
  const labels = new Map(mains.map((bounce) => [bounce.id, bounceName(bounce)]));
  return {
    song, changes, keeps, notes, questions, sections, people, mains,
    nameOf: (person) => (person === null ? '' : (names.get(person) ?? 'somebody who has left')),
    labelOf: (bounce) => (bounce === null ? '' : (labels.get(bounce) ?? 'another mix')),
  };
}

/** What a bounce is called: by its label once it is sent, before that by its number among the passes. */
export function bounceName(bounce: Pick<Bounce, 'label' | 'number'>): string {
  return bounce.label ?? `Pass ${bounce.number}`;
}

/** Asked ones can be marked done or left; done ones can be taken back until the mix is sent. */
export function mayMark(change: Change, mains: readonly Bounce[]): boolean {
  return change.state === 'asked' || (change.state === 'done' && !mains.some((mix) => mix.id === change.doneIn && mix.sent));
}

/** Whether these can have been done in a mix: not in the very one they were written about, once that is sent. */
export function mayBeDoneIn(changes: readonly Change[], mix: Bounce | null | undefined): boolean {
  return !!mix && (!mix.sent || changes.every((change) => change.bounce !== mix.id));
}
