import { html, nothing, type TemplateResult } from 'lit';
import { api } from '../../api/client.ts';
import type { BoardRow, Id, Project, Role } from '../../api/types.ts';
import { fieldOf } from '../../living.ts';
import { Page } from '../../page.ts';
import { go } from '../../router.ts';
import { head, way, whenThere } from '../../signs/frame.ts';
import { none } from '../../signs/signs.ts';
import { waitingNotes } from '../../signs/waiting-notes.ts';
import { groupBoard } from '../../state/board.ts';
import { loading, loadInto, type Load } from '../../state/load.ts';
import { sendAgain, takeOut, unsent } from '../../state/outbox.ts';
import { longDay } from '../../words/time.ts';
import { waitingSince } from '../../words/waiting.ts';
import { boardTable } from './board-table.ts';

interface Board {
  readonly rows: readonly BoardRow[];
  readonly projects: readonly Project[];
}

const AGAIN_MS = 60_000;

/** All songs of all projects, what waits for the reader first. */
class BoardPage extends Page {
  declare private board: Load<Board>;
  static properties = { ...Page.properties, board: { state: true } };

  constructor() {
    super();
    this.board = loading;
  }

  protected open(): void {
    this.titled('All songs');
    void this.ask();
    this.scope.onClose(unsent.watch(() => this.requestUpdate()));
    this.scope.every(AGAIN_MS, () => void this.ask());
    this.scope.listen(document, 'visibilitychange', () => {
      if (document.visibilityState === 'visible') void this.ask();
    });
  }

  private ask(): Promise<void> {
    const signal = this.scope.signal;
    const asked = Promise.all([
      api.all<BoardRow>('/me/board', signal),
      api.all<Project>('/projects', signal),
    ]).then(([rows, projects]) => ({ rows, projects }));
    return loadInto(asked, (load) => {
      // A board that is shown is not taken away because one later asking failed.
      if (load.phase === 'ready' || this.board.phase !== 'ready') this.board = load;
    });
  }

  private start(event: SubmitEvent): void {
    event.preventDefault();
    const project = { title: fieldOf(event, 'title'), artist: fieldOf(event, 'artist'), role: fieldOf(event, 'role') as Role };
    void this.run('start', async () => {
      const made = await api.post<{ id: Id }>('/projects', project);
      go(`/projects/${made.id}`);
    });
  }

  render(): TemplateResult {
    return html`${way([{ words: 'All songs' }], this.me)}${whenThere(this.board, (board) => this.shown(board))}`;
  }

  private shown({ rows, projects }: Board): TemplateResult {
    const groups = groupBoard(rows, this.me?.id ?? '');
    const oldest = groups.mine.find((row) => row.waitingOn?.since)?.waitingOn;
    const since = oldest ? waitingSince(oldest) : '';
    const waits = groups.mine.length;
    return html`
      ${head({
        title: 'All songs',
        flat: true,
        by: `${howMany(rows.length, 'song')}, ${howMany(projects.length, 'project')}`,
        left: longDay(),
        right: html`<strong>${waits === 0 ? 'Nothing waits for you' : `${waits} ${waits === 1 ? 'waits' : 'wait'} for you`}</strong>${since === ''
          ? nothing
          : html`<br>${waits === 1 ? 'for' : 'the oldest for'} ${since}`}`,
      })}
      <main id="main" tabindex="-1">
        ${this.waitingNotes()}
        ${rows.length === 0 ? this.empty(projects) : boardTable(groups)}
        ${projects.length === 0 ? nothing : this.list(projects)}
        ${this.starting(projects.length === 0)}
      </main>`;
  }

  /** Notes that have not arrived, also of songs that can't be opened any more: no words are lost. */
  private waitingNotes(): TemplateResult | typeof nothing {
    const notes = unsent.value;
    return notes.length === 0 ? nothing : html`<section class="part"><h2>Notes not sent yet</h2>
      ${waitingNotes(notes, { edit: null, drop: takeOut, send: sendAgain, free: true })}</section>`;
  }

  private empty(projects: readonly Project[]): TemplateResult {
    return projects.length === 0
      ? none(html`<b>No song yet.</b> Start a project below and put its first song in, or open the link somebody has sent you.`)
      : none(html`<b>No song yet.</b> Open a project and put its first song in.`);
  }

  private list(projects: readonly Project[]): TemplateResult {
    return html`<section class="part">
      <h2>Projects</h2>
      <ul class="projects">
        ${projects.map(
          (project) => html`<li><a class="btn plain flush" href="/projects/${project.id}">${project.title}</a> <span class="quiet">${project.artist}</span></li>`,
        )}
      </ul>
    </section>`;
  }

  private starting(first: boolean): TemplateResult {
    return html`<details class="fold part" ?open=${first}>
      <summary>Start a project</summary>
      <form class="form narrow press" @submit=${this.start}>
        <div class="line">
          <label>Title <input type="text" name="title" required maxlength="200" autocomplete="off"></label>
          <label>Artist <input type="text" name="artist" required maxlength="200" autocomplete="off"></label>
          <label>You are its
            <select name="role">
              <option value="engineer">engineer</option>
              <option value="artist">artist</option>
              <option value="manager">manager</option>
            </select></label>
        </div>
        <p class="help">A project is a single, an EP or an album, with its people.</p>
        ${this.refusal('start')}
        <p class="btns"><button class="btn main" type="submit" ?disabled=${this.running}>Start the project</button></p>
      </form>
    </details>`;
  }
}
function howMany(number: number, one: string): string {
  return `${number} ${one}${number === 1 ? '' : 's'}`;
}

customElements.define('page-board', BoardPage);
