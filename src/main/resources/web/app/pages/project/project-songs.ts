import { html, nothing, type TemplateResult } from 'lit';
import { api } from '../../api/client.ts';
import type { Id, Project, SongSummary } from '../../api/types.ts';
import { fieldOf, Living } from '../../living.ts';
import { go } from '../../router.ts';
import { none, refused, roundAtWork, roundWords, tally, you } from '../../signs/signs.ts';
import { loading, loadInto, type Load } from '../../state/load.ts';
import { me } from '../../state/me.ts';
import { date } from '../../words/time.ts';
import { uploads } from '../../uploads/queue.ts';
import { ALL_KINDS, ROUGH_KINDS } from '../../words/mixes.ts';
import { capital, count } from '../../words/numbers.ts';
import { waitingName, waitingSince, waitingWords, waitsFor } from '../../words/waiting.ts';
import '../bring/upload.ts';

const SOON_MS = 500;

/** Counts up with every file that arrives, and with every one of which it becomes known whether it can be used. */
function arrivals(): number {
  return uploads.mine().reduce((sum, { phase }) => sum + (phase.is !== 'arrived' ? 0 : phase.unusable === undefined ? 1 : 2), 0);
}

/** The songs of a project, and the form that adds one. */
class ProjectSongs extends Living {
  declare project: Project;
  declare private songs: Load<readonly SongSummary[]>;
  static properties = { ...Living.properties, project: { attribute: false }, songs: { state: true } };

  constructor() {
    super();
    this.songs = loading;
  }

  protected open(): void {
    this.ask();
    let told = arrivals();
    let soon: (() => void) | null = null;
    // What has arrived, or turned out to be of no use, shows without a reload; many at once are asked for once.
    this.scope.onClose(uploads.items.watch(() => {
      const now = arrivals();
      if (now === told) return;
      told = now;
      soon?.();
      soon = this.scope.after(SOON_MS, () => this.ask());
    }));
  }

  private ask(): void {
    void loadInto(
      api.all<SongSummary>(`/projects/${this.project.id}/songs`, this.scope.signal),
      (load) => (this.songs = load),
    );
  }

  private add(event: SubmitEvent): void {
    event.preventDefault();
    const number = (name: string) => (fieldOf(event, name) === '' ? undefined : Number(fieldOf(event, name)));
    const song = {
      title: fieldOf(event, 'title'),
      tempoBpm: number('tempo'),
      beatsPerBar: number('beats'),
      due: fieldOf(event, 'due') || undefined,
    };
    void this.run('add', async () => {
      const made = await api.post<{ id: Id }>(`/projects/${this.project.id}/songs`, song);
      go(`/songs/${made.id}`);
    });
  }

  render(): TemplateResult {
    return html`<section aria-labelledby="songs-title">
      <h2 id="songs-title" class="hide">Songs</h2>
      ${this.list()}
      ${this.project.may.includes('edit-song') ? this.adding() : nothing}
      ${this.bringing()}
    </section>`;
  }

  /** Files of any song, a whole folder of them. */
  private bringing(): TemplateResult | typeof nothing {
    const { may, id } = this.project;
    const all = may.includes('upload-main');
    if (!all && !may.includes('upload-rough')) return nothing;
    const songs = this.songs.phase === 'ready' ? this.songs.value : [];
    if (songs.length === 0 && !may.includes('edit-song')) return nothing;
    return html`<details class="fold"><summary>${all ? 'Bring mixes, a whole folder if you like' : 'Bring roughs or references'}</summary>
      <mix-upload .project=${id} .songs=${songs} .kinds=${all ? ALL_KINDS : ROUGH_KINDS} ?shared=${!all} .mayMakeSongs=${may.includes('edit-song')}
        .mayBringParts=${may.includes('upload-stems')} @brought=${() => this.ask()}></mix-upload></details>`;
  }

  private list(): TemplateResult | typeof nothing {
    const songs = this.songs;
    if (songs.phase === 'failed') return html`${refused(songs.problem)}`;
    if (songs.phase === 'loading') return nothing;
    if (songs.value.length === 0) {
      return none(
        this.project.may.includes('edit-song')
          ? html`<b>No song yet.</b> Give the first one a title below; its mix comes next.`
          : html`<b>No song yet.</b> The engineer puts the first one in.`,
      );
    }
    return html`<table class="rows songs">
      <caption class="hide">The songs of ${this.project.title}</caption>
      <thead><tr><th scope="col">Song</th><th scope="col">Newest</th><th scope="col">Waits for</th><th scope="col">Round</th><th scope="col" class="num">Due</th></tr></thead>
      <tbody>${songs.value.map((song) => this.row(song))}</tbody>
    </table>`;
  }

  private row(song: SongSummary): TemplateResult {
    const round = roundAtWork(song);
    const agreed = song.includedRounds ?? null;
    return html`<tr>
      <th scope="row"><a class="song" href="/songs/${song.id}">${song.title}</a></th>
      <td>${newestWords(song)}${song.unusable ? html` <a class="small" href="/songs/${song.id}">${capital(count(song.unusable, 'file'))} can’t be used</a>` : nothing}</td>
      <td class="s-wait">${this.waits(song)}</td>
      <td>${tally(round, agreed)}<span class="small">${roundWords(round, agreed)}</span></td>
      <td class="num">${song.due ? html`<span class="onphone quiet">due </span>${date(song.due)}` : nothing}</td>
    </tr>`;
  }

  private waits(song: SongSummary): TemplateResult | typeof nothing {
    const waiting = song.waitingOn;
    if (!waiting) return nothing;
    const mine = waitsFor(waiting, me.value?.id);
    const words = waitingWords(waiting, song.newest?.label ?? null, mine);
    const since = html`<span class="quiet">${waitingSince(waiting)}</span>`;
    const name = waitingName(waiting);
    return mine ? html`${you()} ${words} ${since}` : html`${name === '' ? '' : `${name}, `}${words} ${since}`;
  }

  private adding(): TemplateResult {
    const first = this.songs.phase === 'ready' && this.songs.value.length === 0;
    return html`<details class="fold gap" ?open=${first}>
      <summary>Add a song</summary>
      <form class="form narrow press" @submit=${this.add}>
        <label>Title <input type="text" name="title" required maxlength="200" autocomplete="off"></label>
        <div class="line">
          <label>Tempo, bpm <input type="number" name="tempo" min="20" max="400" step="any" inputmode="decimal"></label>
          <label>Beats in a bar <input type="number" name="beats" min="1" max="32" step="1" inputmode="numeric"></label>
          <label>Due <input type="date" name="due"></label>
        </div>
        <p class="help">Only the title is needed. With a tempo, places can be given in bars.</p>
        ${this.refusal('add')}
        <p class="btns"><button class="btn main" type="submit" ?disabled=${this.running}>Add the song</button></p>
      </form>
    </details>`;
  }
}

function newestWords(song: SongSummary): string {
  const newest = song.newest;
  if (!newest) return 'no mix yet';
  if (newest.label) return newest.label;
  return newest.sent ? `Mix ${newest.number}` : `Pass ${newest.number}, private`;
}

customElements.define('project-songs', ProjectSongs);
