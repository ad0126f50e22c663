import { html, nothing, type TemplateResult } from 'lit';
import { live } from 'lit/directives/live.js';
import { api } from '../../api/client.ts';
import type { Member, Project } from '../../api/types.ts';
import { Living } from '../../living.ts';
import { noteAsked, wasAsked } from '../../state/asked-once.ts';
import { capital, count } from '../../words/numbers.ts';

type Stays = Project['approvalStays'];

const STAYS: ReadonlyArray<readonly [Stays, string]> = [
  ['identical', 'Only the very same audio'],
  ['same-audio', 'Also with more or less silence at the ends'],
  ['requantised', 'Also in another bit depth or coding'],
];

/** How the project works: who may fetch files, whose notes wait for whom, what keeps an approval. */
class ProjectSwitches extends Living {
  declare project: Project;
  /** How many artists there are; asked for only where gathering might be proposed. */
  declare private artists: number;
  static properties = { ...Living.properties, project: { attribute: false }, artists: { state: true } };

  constructor() {
    super();
    this.artists = 0;
  }

  protected open(): void {
    if (!this.project.may.includes('edit-spec') || this.project.gatherNotes || wasAsked(this.asked)) return;
    void api.all<Member>(`/projects/${this.project.id}/members`, this.scope.signal)
      .then((members) => (this.artists = members.filter((member) => member.role === 'artist').length))
      // Only a proposal hangs on it.
      .catch(() => undefined);
  }

  private get asked(): string {
    return `gathering ${this.project.id}`;
  }

  private answer(gather: boolean): void {
    noteAsked(this.asked);
    this.artists = 0;
    if (gather) this.set({ gatherNotes: true });
  }

  /** From the second artist on notes may contradict each other; one list is then less work for all. */
  private proposal(): TemplateResult | typeof nothing {
    if (this.project.gatherNotes || this.artists < 2) return nothing;
    return html`<div class="slip"><p><b>${capital(count(this.artists, 'artist'))} write here.</b> Shall they gather their notes, settle what goes against each other, and send you one list?</p>
      <p class="btns"><button class="btn" type="button" ?disabled=${this.running} @click=${() => this.answer(true)}>Gather their notes</button>
        <button class="btn plain" type="button" @click=${() => this.answer(false)}>Not here</button></p></div>`;
  }

  private set(fields: Partial<Pick<Project, 'gatherNotes' | 'downloads' | 'metersOpen' | 'approvalStays'>>): void {
    void this.run('set', async () => {
      await api.patch(`/projects/${this.project.id}`, fields);
      this.dispatchEvent(new Event('changed'));
    }).then(() => this.requestUpdate());
  }

  render(): TemplateResult {
    const project = this.project;
    return html`<section class="part" aria-labelledby="ways-title">
      <h2 id="ways-title">How you work</h2>
      ${project.may.includes('edit-spec') ? this.switches(project) : this.facts(project)}
    </section>`;
  }

  private switches(project: Project): TemplateResult {
    const tick = (name: 'gatherNotes' | 'downloads' | 'metersOpen', words: string, help: string) => html`
      <label class="tick"><input type="checkbox" .checked=${live(project[name])} ?disabled=${this.running} @change=${(event: Event) => this.set({ [name]: (event.target as HTMLInputElement).checked })}><span>${words}<br><span class="help">${help}</span></span></label>`;
    return html`<div class="form">
      ${this.proposal()}
      ${tick('gatherNotes', 'Gather the band’s notes', 'They stay among you until the one with the last word sends them together.')}
      ${tick('downloads', 'Artists may download mixes', 'Engineers and managers always may.')}
      ${tick('metersOpen', 'Everybody may open the figures', 'They stay behind a press; words come first.')}
      <label>An approval stays for a later mix that is
        <select ?disabled=${this.running} .value=${live(project.approvalStays)} @change=${(event: Event) => this.set({ approvalStays: (event.target as HTMLSelectElement).value as Stays })}>
          ${STAYS.map(([value, words]) => html`<option value=${value} ?selected=${value === project.approvalStays}>${words}</option>`)}
        </select></label>
      ${this.refusal('set')}
    </div>`;
  }

  private facts(project: Project): TemplateResult {
    const stays = STAYS.find(([value]) => value === project.approvalStays)?.[1] ?? project.approvalStays;
    return html`<ul class="plainlist gap">
      <li>${project.gatherNotes ? 'The band’s notes are gathered and sent together.' : 'Each note goes to the engineer at once.'}</li>
      <li>${project.downloads ? 'Artists may download mixes.' : 'Artists listen here; downloads are off.'}</li>
      <li>${project.metersOpen ? 'Everybody may open the figures.' : 'The engineer has closed the figures.'}</li>
      <li>An approval stays for: ${stays.charAt(0).toLowerCase() + stays.slice(1)}.</li>
    </ul>`;
  }
}
customElements.define('project-switches', ProjectSwitches);
