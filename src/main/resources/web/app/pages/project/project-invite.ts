import { html, nothing, type TemplateResult } from 'lit';
import { api } from '../../api/client.ts';
import type { Invitation, Project, Role } from '../../api/types.ts';
import { fieldOf, Living } from '../../living.ts';
import { copyLine, ONLY_HERE } from '../../signs/copy.ts';
import { refused } from '../../signs/signs.ts';
import { loading, loadInto, type Load } from '../../state/load.ts';
import { ROLE_WORDS } from '../../words/changes.ts';
import { date } from '../../words/time.ts';

type Shape = 'one' | 'band';

/** Asking people in: one person, or one link for a whole band. */
class ProjectInvite extends Living {
  declare project: Project;
  declare private invitations: Load<readonly Invitation[]>;
  declare private shape: Shape;
  declare private made: Invitation | null;
  static properties = {
    ...Living.properties,
    project: { attribute: false },
    invitations: { state: true },
    shape: { state: true },
    made: { state: true },
  };

  constructor() {
    super();
    this.invitations = loading;
    this.shape = 'one';
    this.made = null;
  }

  protected open(): void {
    void this.ask();
  }

  private get path(): string {
    return `/projects/${this.project.id}/invitations`;
  }

  private ask(): Promise<void> {
    return loadInto(api.all<Invitation>(this.path, this.scope.signal), (load) => (this.invitations = load));
  }

  private invite(event: SubmitEvent): void {
    event.preventDefault();
    const role = fieldOf(event, 'role') as Role;
    const email = fieldOf(event, 'email');
    const people = Number(fieldOf(event, 'people'));
    const wanted = this.shape === 'band' ? { role, people } : { role, ...(email === '' ? {} : { email }) };
    void this.run('invite', async () => {
      this.made = await api.post<Invitation>(this.path, wanted);
      await this.ask();
    });
  }

  private takeBack(invitation: Invitation): void {
    void this.run(invitation.id, async () => {
      await api.del(`${this.path}/${invitation.id}`);
      if (this.made?.id === invitation.id) this.made = null;
      await this.ask();
    });
  }

  render(): TemplateResult {
    return html`<section class="part" aria-labelledby="invite-title">
      <h2 id="invite-title">Ask somebody in</h2>
      <form class="form press" @submit=${this.invite}>
        <fieldset class="seg"><legend class="hide">For whom</legend>
          ${this.choice('one', 'One person')}${this.choice('band', 'A whole band')}
        </fieldset>
        <div class="line">
          <label>As
            <select name="role">
              <option value="artist">artist</option><option value="manager">manager</option>
              <option value="engineer">engineer</option><option value="listener">listens only</option>
            </select></label>
          ${this.shape === 'band'
            ? html`<label>How many <input type="number" name="people" min="2" max="50" value="4" required inputmode="numeric"></label>`
            : html`<label>E-mail, if you like <input type="email" name="email" autocomplete="off"></label>`}
        </div>
        <p class="help">${this.shape === 'band'
          ? 'One link to drop into the band’s chat. Each who opens it gives a name and hears the mix.'
          : 'You get a link to hand on. Whoever opens it gives a name and hears the mix: no account, no password.'}</p>
        ${this.refusal('invite')}
        <p class="btns"><button class="btn main" type="submit" ?disabled=${this.running}>Make the link</button></p>
      </form>
      ${this.made ? this.fresh(this.made) : nothing}
      ${this.pending()}
    </section>`;
  }

  private choice(shape: Shape, words: string): TemplateResult {
    return html`<label><input type="radio" name="shape" value=${shape} .checked=${this.shape === shape} @change=${() => (this.shape = shape)}>${words}</label>`;
  }

  private fresh(made: Invitation): TemplateResult {
    const link = made.link ?? '';
    return html`<div class="slip gap" role="status">
      <p><b>The link is ready.</b> ${made.mailed ? 'It has been sent by mail; you can hand it on as well.' : 'Hand it on as you like.'} ${made.thisComputerOnly ? ONLY_HERE : ''}</p>
      ${copyLine(link, 'Invitation link')}
      <p class="small quiet gap">Open until ${date(made.expires)}.</p>
    </div>`;
  }

  private pending(): TemplateResult | typeof nothing {
    const invitations = this.invitations;
    if (invitations.phase === 'failed') return html`${refused(invitations.problem)}`;
    if (invitations.phase === 'loading' || invitations.value.length === 0) return nothing;
    return html`<h3 class="gap">Links that are open</h3>
      <ul class="lines gap">${invitations.value.map((invitation) => this.line(invitation))}</ul>`;
  }

  private line(invitation: Invitation): TemplateResult {
    const people = invitation.people ?? 1;
    const whom = invitation.email ?? (people > 1 ? `A band of ${people}` : 'One person');
    const used = people > 1 && invitation.used !== undefined ? `, ${invitation.used} came in` : '';
    return html`<li>
      <div>${whom}, ${ROLE_WORDS[invitation.role]}${used} <span class="small quiet">until ${date(invitation.expires)}</span></div>
      <button class="btn plain" type="button" @click=${() => this.takeBack(invitation)}>Take back<span class="hide"> the link for ${whom}</span></button>
      ${this.refusal(invitation.id)}
    </li>`;
  }
}

customElements.define('project-invite', ProjectInvite);
