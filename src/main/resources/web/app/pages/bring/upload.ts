/** Where files are brought: dropped or chosen, looked over, and handed to the queue with one press. */
import { html, nothing, type PropertyValues, type TemplateResult } from 'lit';
import { api, newKey } from '../../api/client.ts';
import type { Bounce, Id, Kind } from '../../api/types.ts';
import { Living } from '../../living.ts';
import { canPick, chosenIn, droppedIn, MOST_FILES, pick, type Found } from '../../uploads/found.ts';
import { bringing, freshNeeded, joined, missing, pointed, readNames, songsWithMains, type Looked, type Main, type Row, type SongChoice } from '../../uploads/look.ts';
import { uploads } from '../../uploads/queue.ts';
import { moving, type Upload } from '../../uploads/target.ts';
import { mixWords } from '../../words/mixes.ts';
import { capital, count, listed } from '../../words/numbers.ts';
import { fileRow } from './file-row.ts';
import { lookOver } from './look-over.ts';

const SOUNDS = 'audio/*,.wav,.aif,.aiff,.flac,.m4a,.mp3,.caf,.w64,.bwf,.ogg,.opus,.wv';

/** Takes mixes of one song, part files of one mix, or anything of a whole project. */
export class Bring extends Living {
  declare project: Id;
  /** Empty where files of any song may come. */
  declare song: Id;
  declare songTitle: string;
  declare kinds: readonly Kind[];
  declare stems: boolean;
  /** Whether what is brought is for everybody at once, with no sending. */
  declare shared: boolean;
  declare bounce: Id;
  declare elements: readonly string[];
  /** The songs of a project. */
  declare songs: readonly { id: Id; title: string }[];
  declare mayMakeSongs: boolean;
  declare mayBringParts: boolean;
  declare private looked: Looked | null;
  declare private over: boolean;
  declare private told: string;
  static properties = {
    ...Living.properties,
    project: {}, song: {}, songTitle: {}, kinds: { attribute: false }, stems: { type: Boolean }, shared: { type: Boolean },
    bounce: {}, elements: { attribute: false }, songs: { attribute: false }, mayMakeSongs: { attribute: false }, mayBringParts: { attribute: false },
    looked: { state: true }, over: { state: true }, told: { state: true },
  };

  /** What is being looked over outlives a step to another page and back. */
  private static readonly kept = new Map<string, Looked>();

  /** The mains of songs, as they were when files of these songs were looked over. */
  private mains: ReadonlyMap<Id, readonly Main[]> = new Map();

  /** Songs made by a confirm of which something else failed: pressing again makes them no second time. */
  private readonly made = new Map<string, Id>();

  constructor() {
    super();
    this.project = '';
    this.song = '';
    this.songTitle = '';
    this.kinds = ['main'];
    this.stems = false;
    this.shared = false;
    this.bounce = '';
    this.elements = [];
    this.songs = [];
    this.mayMakeSongs = false;
    this.mayBringParts = false;
    this.looked = null;
    this.over = false;
    this.told = '';
  }

  protected open(): void {
    this.looked = Bring.kept.get(this.place) ?? null;
    this.scope.onClose(uploads.items.watch(() => this.requestUpdate()));
  }

  protected updated(changed: PropertyValues): void {
    if (!changed.has('looked')) return;
    if (this.looked) Bring.kept.set(this.place, this.looked);
    else Bring.kept.delete(this.place);
  }

  private get place(): string {
    return `${this.project} ${this.song} ${this.stems}`;
  }

  render(): TemplateResult {
    return html`<div class=${this.over ? 'form drop-here over' : 'form drop-here'}
      @dragover=${this.dragged} @dragleave=${() => (this.over = false)} @drop=${(e: DragEvent) => this.dropped(e)}>
      ${this.looked ? nothing : this.fields()}
      ${this.running && !this.looked ? html`<p role="status">The names are being read.</p>` : nothing}
      ${this.told ? html`<p role="status">${this.told}</p>` : nothing}
      ${this.refusal('read')}
      ${this.looked ? this.looking(this.looked) : nothing}
      ${this.own()}
    </div>`;
  }

  private fields(): TemplateResult {
    const any = this.song === '';
    const words = any ? 'Choose files, or drop files and folders here' : this.stems ? 'Choose part files, or drop them here' : this.shared ? 'Choose files, or drop them here' : 'Choose mixes, or drop them here';
    return html`<div class="line"><label class="file">${words}
        <input type="file" accept=${SOUNDS} multiple @click=${this.picking} @change=${this.chosen}></label>
      ${any ? html`<label class="file">A whole folder<input type="file" webkitdirectory multiple @change=${this.chosen}></label>` : nothing}</div>
      ${this.stems ? html`<p class="help">Each one part alone, same start and length as the mix. They may come all at once.</p>` : nothing}`;
  }

  private looking(looked: Looked): TemplateResult {
    const taken = looked.rows.filter((row) => row.taken);
    const open = taken.filter((row) => missing(row) !== '');
    const unsure = taken.filter((row) => !row.sure && missing(row) === '').length;
    return html`<h3>Look these over</h3>
      ${lookOver({
        looked, kinds: this.kinds, stems: this.stems, songs: this.song === '' ? this.songs : null, mayMakeSongs: this.mayMakeSongs, mayBringParts: this.mayBringParts,
        mains: this.mains, elements: this.elements,
        change: (row, news) => this.change(row, news), rename: (fresh, title) => this.rename(fresh, title), another: (row) => this.another(row),
      })}
      <div class="look-end">
        ${open.length > 0 ? html`<p id="look-open">${this.openWords(open)}</p>` : unsure > 0 ? html`<p id="look-open">${capital(count(unsure, 'line'))} to check: the name does not say it plainly.</p>` : nothing}
        ${this.refusal('bring')}
        <p class="btns"><button class="btn main" type="button" aria-describedby="look-open" ?disabled=${this.running || taken.length === 0 || open.length > 0} @click=${this.confirm}>Bring ${taken.length === 1 ? 'this file' : count(taken.length, 'file')}</button>
          <button class="btn plain" type="button" @click=${() => (this.looked = null)}>Not now</button></p></div>`;
  }

  private openWords(open: readonly Row[]): string {
    const of = (what: string) => open.filter((row) => missing(row) === what).length;
    const parts = [of('song') > 0 ? `choose the song of ${count(of('song'), 'file')}` : '', of('part') > 0 ? `say which part ${count(of('part'), 'file is', 'files are')}` : ''].filter(Boolean);
    return `${capital(listed(parts))}, or leave ${open.length === 1 ? 'it' : 'them'} out.`;
  }

  /** Files on their way to this place. */
  private own(): TemplateResult | typeof nothing {
    if (this.song === '') return nothing;
    const own = uploads.mine().filter((one) => one.target.song === this.song && (one.target.element !== undefined) === this.stems && (!this.stems || !one.target.bounce || one.target.bounce === this.bounce));
    if (own.length === 0) return nothing;
    const arrived = own.filter((one) => one.phase.is === 'arrived');
    return html`<ul class="lines">${own.map((one) => fileRow(one, false))}</ul>
      ${arrived.length > 0 ? html`<p class="quiet small">${this.fate(own)}</p>` : nothing}`;
  }

  private fate(own: readonly Upload[]): string {
    if (this.stems) return own.some(moving) ? 'Each is used as soon as it is measured.' : 'They are used as soon as they are measured.';
    return this.shared ? 'Everybody here can hear it as soon as it is measured.' : 'A mix stays private until it is sent.';
  }

  private dragged(e: DragEvent): void {
    e.preventDefault();
    this.over = true;
  }

  /** Also called for files that were let fall elsewhere on the page. */
  dropped(e: DragEvent): void {
    e.preventDefault();
    this.over = false;
    if (e.dataTransfer) void this.take(droppedIn(e.dataTransfer));
  }

  /** Where the browser has a picker whose files it knows again after a reload, that one is used. */
  private picking(e: Event): void {
    if (!canPick()) return;
    e.preventDefault();
    void this.take(pick());
  }

  private chosen(e: Event): void {
    const input = e.target as HTMLInputElement;
    const found = chosenIn(input);
    input.value = '';
    void this.take(Promise.resolve(found));
  }

  private async take(finding: Promise<readonly Found[]>): Promise<void> {
    this.told = '';
    const before = this.looked;
    if (!before) this.mains = new Map();
    await this.run('read', async () => {
      const found = await finding;
      const fresh = uploads.goOnWith(found);
      if (fresh.length === 0) return;
      if (found.length >= MOST_FILES) this.told = `More than ${MOST_FILES} files: only the first ${MOST_FILES} are here. Bring the others afterwards.`;
      const place = { project: this.project, song: this.song || null, as: this.song === '' ? null : this.stems ? 'stems' as const : 'bounces' as const, kinds: this.kinds, mayMakeSongs: this.mayMakeSongs };
      const read = await readNames(fresh, place, this.scope.signal);
      const all = this.looked ? joined(this.looked, read) : read;
      await this.askMains(all);
      const known = new Set(this.looked?.rows);
      this.looked = this.stems ? all : pointed(all, (row) => !known.has(row), this.mains);
    });
    await this.updateComplete;
    // The next press is where the eyes are: what has to be said first, or the one confirm.
    if (this.looked !== before) (this.querySelector<HTMLElement>('.look [aria-invalid=true]') ?? this.querySelector<HTMLElement>('.look-end .btn.main'))?.focus();
  }

  private change(row: Row, news: Partial<Row>): void {
    const { looked } = this;
    if (!looked) return;
    const changed = { ...row, ...news };
    const after = { ...looked, rows: looked.rows.map((one) => (one === row ? changed : one)) };
    this.looked = after;
    if (this.stems || (news.what === undefined && news.song === undefined)) return;
    // Another song or kind has other mains it may belong to.
    this.looked = pointed(after, (one) => one === changed, this.mains);
    void this.askMains(after).then(() => {
      if (this.looked?.rows.some((one) => one.found === row.found)) this.looked = pointed(this.looked, (one) => one.found === row.found && one.of === null, this.mains);
    });
  }

  /** Which mains the songs have that files are to go to; without an answer they go with the newest. */
  private async askMains(looked: Looked): Promise<void> {
    if (this.stems || !this.kinds.includes('main')) return;
    const asked = await Promise.all(songsWithMains(looked).filter((song) => !this.mains.has(song)).map(async (song) => {
      const bounces = await api.all<Bounce>(`/songs/${song}/bounces?kind=main`, this.scope.signal).catch(() => []);
      return [song, bounces.filter((b) => b.state !== 'failed').map((b) => ({ id: b.id, words: nameOf(b), label: b.label ?? b.proposedLabel ?? null })).reverse()] as const;
    }));
    this.mains = new Map([...this.mains, ...asked]);
  }

  private rename(index: number, title: string): void {
    const { looked } = this;
    if (looked && title !== '') this.looked = { ...looked, fresh: looked.fresh.map((one, at) => (at === index ? { title, key: newKey() } : one)) };
    else this.requestUpdate();
  }

  private another(row: Row): void {
    const { looked } = this;
    if (!looked) return;
    const fresh = [...looked.fresh, { title: 'New song', key: newKey() }];
    this.looked = { rows: looked.rows.map((one) => (one === row ? { ...one, song: { fresh: fresh.length - 1 } } : one)), fresh };
    void this.updateComplete.then(() => this.querySelector<HTMLInputElement>(`[data-fresh="${fresh.length - 1}"]`)?.select());
  }

  private confirm(): void {
    const { looked } = this;
    if (!looked) return;
    const going = this.run('bring', async () => {
      for (const index of freshNeeded(looked)) {
        const { title, key } = looked.fresh[index]!;
        if (this.made.has(key)) continue;
        this.made.set(key, (await api.post<{ id: Id }>(`/projects/${this.project}/songs`, { title }, { key })).id);
      }
      uploads.bring(bringing(looked.rows, (choice) => this.songOf(looked, choice), this.bounce || null));
      this.looked = null;
      this.dispatchEvent(new Event('brought'));
    });
    void going.then(async (went) => {
      await this.updateComplete;
      if (went) this.querySelector<HTMLElement>('input[type=file]')?.focus({ preventScroll: true });
    });
  }

  private songOf(looked: Looked, choice: SongChoice): { id: Id; title: string } {
    if (choice !== null && 'fresh' in choice) {
      const { title, key } = looked.fresh[choice.fresh]!;
      return { id: this.made.get(key)!, title };
    }
    const id = choice?.id ?? this.song;
    return { id, title: id === this.song ? this.songTitle : this.songs.find((one) => one.id === id)?.title ?? '' };
  }
}
/** "Mix 2"; a private one with the name it was brought with, "Pass 3 (“Mix 2”)". */
function nameOf(b: Bounce): string {
  return b.label === null && b.proposedLabel ? `${mixWords(b)} (“${b.proposedLabel}”)` : mixWords(b);
}
customElements.define('mix-upload', Bring);
