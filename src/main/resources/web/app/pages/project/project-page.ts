import { html, nothing, type TemplateResult } from 'lit';
import { api } from '../../api/client.ts';
import type { Act, Project } from '../../api/types.ts';
import { fieldOf } from '../../living.ts';
import { Page } from '../../page.ts';
import { head, way, whenThere } from '../../signs/frame.ts';
import { loading, loadInto, type Load } from '../../state/load.ts';
import './project-invite.ts';
import './project-people.ts';
import './project-songs.ts';
import './project-spec.ts';
import './project-switches.ts';

/** A single, an EP or an album: its songs, its people, and what was agreed. */
class ProjectPage extends Page {
  declare private project: Load<Project>;
  declare private renaming: boolean;
  static properties = {
    ...Page.properties,
    project: { state: true },
    renaming: { state: true },
  };

  constructor() {
    super();
    this.project = loading;
    this.renaming = false;
  }

  protected open(): void {
    void this.ask();
  }

  private async ask(): Promise<void> {
    const path = `/projects/${this.param('project')}`;
    await loadInto(api.get<Project>(path, this.scope.signal), (load) => (this.project = load));
    if (this.project.phase === 'ready') this.titled(this.project.value.title);
  }

  private rename(event: SubmitEvent): void {
    event.preventDefault();
    const names = { title: fieldOf(event, 'title'), artist: fieldOf(event, 'artist') };
    void this.run('rename', async () => {
      await api.patch(`/projects/${this.param('project')}`, names);
      this.renaming = false;
      await this.ask();
    });
  }

  render(): TemplateResult {
    return whenThere(this.project, (project) => this.shown(project));
  }

  private shown(project: Project): TemplateResult {
    const may = (act: Act) => project.may.includes(act);
    const again = () => void this.ask();
    return html`
      ${way([{ words: 'All songs', href: '/' }, { words: project.title }], this.me, project.you.role)}
      ${head({ title: project.title, by: project.artist })}
      <main id="main" tabindex="-1">
        ${may('manage-people') ? this.naming(project) : nothing}
        <project-songs .project=${project}></project-songs>
        <div class="two part">
          <div>
            <project-people .project=${project} @changed=${again}></project-people>
            ${may('manage-people') ? html`<project-invite .project=${project}></project-invite>` : nothing}
          </div>
          <div>
            <project-spec .project=${project}></project-spec>
            <project-switches .project=${project} @changed=${again}></project-switches>
          </div>
        </div>
      </main>`;
  }

  private naming(project: Project): TemplateResult {
    return html`<details class="fold" ?open=${this.renaming} @toggle=${(event: Event) => (this.renaming = (event.target as HTMLDetailsElement).open)}>
      <summary>Change title or artist</summary>
      <form class="form narrow press" @submit=${this.rename}>
        <div class="line">
          <label>Title <input type="text" name="title" required maxlength="200" autocomplete="off" .value=${project.title}></label>
          <label>Artist <input type="text" name="artist" required maxlength="200" autocomplete="off" .value=${project.artist}></label>
        </div>
        ${this.refusal('rename')}
        <p class="btns"><button class="btn" type="submit" ?disabled=${this.running}>Keep</button></p>
      </form>
    </details>`;
  }
}
customElements.define('page-project', ProjectPage);
