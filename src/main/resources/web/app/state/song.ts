/** One song as its page knows it: read-only values, replaced when the server says that something has changed. */
import { api } from '../api/client.ts';
import { followSong, gathered } from '../api/events.ts';
import { asProblem, Problem } from '../api/problem.ts';
import type { Bounce, Change, Id, Keep, Note, PersonName, Question, Section, Song, SongEvent, TempoMap } from '../api/types.ts';
import type { Scope } from '../scope.ts';
import { isSent } from '../words/mixes.ts';
import { loading, ready, type Load } from './load.ts';
import { Store } from './store.ts';

/** Everything the page of a song is drawn from. */
export interface SongData {
  readonly song: Song;
  readonly bounces: readonly Bounce[];
  readonly changes: readonly Change[];
  readonly keeps: readonly Keep[];
  readonly notes: readonly Note[];
  readonly questions: readonly Question[];
  readonly people: readonly PersonName[];
  /** Sections on the leading mix's time line. */
  readonly sections: readonly Section[];
  /** Barlines on it, where a MIDI file has given them and they have their place there. */
  readonly lines: readonly number[] | null;
  /** The mix whose time line the page uses, and the one it is heard against. */
  readonly lead: Bounce | null;
  readonly other: Bounce | null;
  /** Up to two more that can be switched to while listening. */
  readonly more: readonly Bounce[];
  /** A newer main than the one that leads: it waits until somebody presses, nothing jumps under one's ears. */
  readonly newer: Bounce | null;
}

type Opened = Pick<SongData, 'lead' | 'other' | 'more' | 'newer'>;
type Piece = 'song' | 'bounces' | 'changes' | 'keeps' | 'notes' | 'questions' | 'people' | 'sections';

const TOUCHES: Record<SongEvent['type'], readonly Piece[]> = {
  bounce: ['bounces', 'song', 'sections'],
  // Also told when two mixes have been laid against each other: places may have moved.
  progress: ['bounces', 'sections', 'notes'],
  sent: ['song', 'bounces', 'changes', 'sections', 'questions'],
  note: ['notes', 'changes', 'keeps', 'questions', 'song'],
  question: ['questions', 'changes', 'song'],
  change: ['changes', 'song'],
  approval: ['song', 'changes'],
  people: ['people', 'song'],
};
const EVERYTHING: readonly Piece[] = ['song', 'bounces', 'changes', 'keeps', 'notes', 'questions', 'people', 'sections'];

/** Until it is measured nothing of a mix can be heard, and nothing has its place on it yet. */
function playableOf(bounces: readonly Bounce[]): Bounce[] {
  return bounces.filter((b) => b.state === 'ready');
}

export class SongState {
  readonly data = new Store<Load<SongData>>(loading);
  /** Rises when something about measured audio may have changed. */
  readonly measured = new Store<number>(0);
  private chosen: { lead: Id; other: Id | null; more: readonly Id[] } | null = null;
  private readonly due = new Set<Piece>();
  private readonly soon: () => void;

  constructor(readonly id: Id, private readonly scope: Scope) {
    this.soon = gathered(scope, () => void this.catchUp());
  }

  /** Asks for everything and follows what happens from then on. */
  async open(): Promise<void> {
    try {
      const { signal } = this.scope;
      const [song, bounces, changes, keeps, notes, questions, people] = await Promise.all([
        api.get<Song>(this.path(), signal), this.list<Bounce>('/bounces'), this.list<Change>('/changes'),
        this.list<Keep>('/keeps'), this.list<Note>('/notes'), this.list<Question>('/questions?open=true'),
        this.list<PersonName>('/people'),
      ]);
      const opened = this.openedOf(bounces);
      const form = await this.formOn(opened.lead, song);
      this.data.set(ready({ song, bounces, changes, keeps, notes, questions, people, ...form, ...opened }));
      followSong(this.id, this.scope, (event) => this.happened(event), () => this.refresh(EVERYTHING));
    } catch (reason) {
      if (!this.scope.closed) this.data.set({ phase: 'failed', problem: asProblem(reason) });
    }
  }

  /** Opens mixes: the first leads, what has moved is told against the second. */
  async choose(lead: Id, other: Id | null, more: readonly Id[] = []): Promise<void> {
    const value = this.value;
    if (!value) return;
    this.chosen = { lead, other, more };
    const opened = this.openedOf(value.bounces);
    const [form, notes] = await Promise.all([this.formOn(opened.lead, value.song), this.notesOn(opened.lead)]);
    if (this.value) this.data.set(ready({ ...this.value, ...this.openedOf(this.value.bounces), ...form, notes }));
  }

  /** Opens one mix with the one before it beside it. */
  async chooseWithBefore(lead: Id): Promise<void> {
    const playable = playableOf(this.value?.bounces ?? []);
    const chosen = playable.find((b) => b.id === lead);
    const earlier = chosen ? playable.filter((b) => b.id === lead || b.number < chosen.number) : playable;
    const newest = this.newestOf(earlier);
    const beside = newest.lead?.id === lead ? newest.other : newest.lead;
    await this.choose(lead, beside?.id ?? null);
  }

  /** Takes the newest main and the one before it. */
  async chooseNewest(): Promise<void> {
    const newest = this.newestOf(playableOf(this.value?.bounces ?? []));
    if (newest.lead) await this.choose(newest.lead.id, newest.other?.id ?? null);
  }

  /** Asks anew for what a press of this page has changed, without waiting for the event. */
  refresh(pieces: readonly Piece[] = EVERYTHING): void {
    for (const piece of pieces) this.due.add(piece);
    this.soon();
  }

  get value(): SongData | null {
    const load = this.data.value;
    return load.phase === 'ready' ? load.value : null;
  }

  private path(rest = ''): string {
    return `/songs/${this.id}${rest}`;
  }

  /** A list; empty where this person may not see it. */
  private async list<T>(rest: string): Promise<T[]> {
    try {
      return await api.all<T>(this.path(rest), this.scope.signal);
    } catch (reason) {
      if (reason instanceof Problem && [403, 409].includes(reason.status)) return [];
      throw reason;
    }
  }

  private notesOn(lead: Bounce | null): Promise<Note[]> {
    return this.list<Note>(lead ? `/notes?bounce=${lead.id}` : '/notes');
  }

  private async formOn(lead: Bounce | null, song: Song): Promise<Pick<SongData, 'sections' | 'lines'>> {
    if (!lead) return { sections: [], lines: null };
    const [sections, lines] = await Promise.all([this.list<Section>(`/sections?bounce=${lead.id}`), this.linesOn(lead, song)]);
    return { sections, lines };
  }

  private async linesOn(lead: Bounce, song: Song): Promise<readonly number[] | null> {
    if (!song.tempoMap || !song.may.includes('set-sections')) return null;
    try {
      const map = await api.get<TempoMap>(this.path(`/tempo-map?bounce=${lead.id}`), this.scope.signal);
      return map.placed ? map.bars.map((b) => b.beats[0]!) : null;
    } catch (reason) {
      // Taken away in the meantime: the song's one tempo counts again.
      if (reason instanceof Problem && reason.status === 404) return null;
      throw reason;
    }
  }

  /** The newest main and the main before it; once they are open they stay until somebody chooses others. */
  private openedOf(bounces: readonly Bounce[]): Opened {
    const playable = playableOf(bounces);
    const find = (id: Id | null) => playable.find((b) => b.id === id) ?? null;
    const newest = this.newestOf(playable);
    const chosen = this.chosen && find(this.chosen.lead);
    if (!chosen) {
      if (newest.lead) this.chosen = { lead: newest.lead.id, other: newest.other?.id ?? null, more: [] };
      return { ...newest, more: [], newer: null };
    }
    const other = find(this.chosen!.other);
    const more = this.chosen!.more.map(find).filter((b) => b !== null);
    const newer = newest.lead && newest.lead.kind === 'main' && newest.lead.number > chosen.number && newest.lead.id !== other?.id
      ? newest.lead : null;
    return { lead: chosen, other, more, newer };
  }

  private newestOf(playable: readonly Bounce[]): { lead: Bounce | null; other: Bounce | null } {
    const mains = playable.filter((b) => b.kind === 'main').sort((a, b) => a.number - b.number);
    const pool = mains.length > 0 ? mains : [...playable];
    const lead = pool[pool.length - 1] ?? null;
    const before = pool.slice(0, -1);
    const other = before.filter(isSent).pop() ?? before.pop() ?? null;
    return { lead, other };
  }

  private happened(event: SongEvent): void {
    if (event.type === 'progress' && this.value && typeof event.progress === 'number') {
      const id = event.bounce ?? event.id;
      const bounces = this.value.bounces.map((b) => (b.id === id ? { ...b, progress: event.progress! } : b));
      this.data.set(ready({ ...this.value, bounces }));
      if (event.progress < 1) return;
    }
    this.refresh(TOUCHES[event.type] ?? EVERYTHING);
    if (['bounce', 'sent', 'progress', 'change'].includes(event.type)) this.measured.set(this.measured.value + 1);
  }

  private async catchUp(): Promise<void> {
    const pieces = new Set(this.due);
    this.due.clear();
    const before = this.value;
    if (!before) return;
    try {
      const { signal } = this.scope;
      const [song, bounces, changes, keeps, questions, people] = await Promise.all([
        pieces.has('song') ? api.get<Song>(this.path(), signal) : undefined,
        pieces.has('bounces') ? this.list<Bounce>('/bounces') : undefined,
        pieces.has('changes') ? this.list<Change>('/changes') : undefined,
        pieces.has('keeps') ? this.list<Keep>('/keeps') : undefined,
        pieces.has('questions') ? this.list<Question>('/questions?open=true') : undefined,
        pieces.has('people') ? this.list<PersonName>('/people') : undefined,
      ]);
      const opened = this.openedOf(bounces ?? before.bounces);
      const moved = opened.lead?.id !== before.lead?.id;
      const [form, notes] = await Promise.all([
        moved || pieces.has('sections') ? this.formOn(opened.lead, song ?? before.song) : undefined,
        moved || pieces.has('notes') ? this.notesOn(opened.lead) : undefined,
      ]);
      const now = this.value!;
      this.data.set(ready({
        song: song ?? now.song, bounces: bounces ?? now.bounces, changes: changes ?? now.changes,
        keeps: keeps ?? now.keeps, notes: notes ?? now.notes, questions: questions ?? now.questions,
        people: people ?? now.people, sections: form?.sections ?? now.sections, lines: form ? form.lines : now.lines, ...opened,
      }));
    } catch (reason) {
      // What is shown stays; the next event or the next press asks again.
      if (!this.scope.closed && reason instanceof Problem && reason.status === 404) {
        this.data.set({ phase: 'failed', problem: reason });
      }
    }
  }
}
