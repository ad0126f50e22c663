import { html, nothing, type TemplateResult } from 'lit';
import { live } from 'lit/directives/live.js';
import { api } from '../../api/client.ts';
import type { Id, Member, Project, Role } from '../../api/types.ts';
import { Living } from '../../living.ts';
import { copyLine, ONLY_HERE } from '../../signs/copy.ts';
import { refused } from '../../signs/signs.ts';
import { loading, loadInto, type Load } from '../../state/load.ts';
import { ROLE_WORDS } from '../../words/changes.ts';

const ROLES: readonly Role[] = ['engineer', 'artist', 'manager', 'listener'];

/** Who belongs to a project and what each may do. Whoever may manage people can change it here. */
class ProjectPeople extends Living {
  declare project: Project;
  declare private members: Load<readonly Member[]>;
  declare private editing: Id | null;
  declare private leaving: Id | null;
  declare private link: { readonly member: Id; readonly text: string; readonly hereOnly: boolean } | null;
  static properties = {
    ...Living.properties,
    project: { attribute: false },
    members: { state: true },
    editing: { state: true },
    leaving: { state: true },
    link: { state: true },
  };

  constructor() {
    super();
    this.members = loading;
    this.editing = null;
    this.leaving = null;
    this.link = null;
  }

  protected open(): void {
    void this.ask();
  }

  private get path(): string {
    return `/projects/${this.project.id}/members`;
  }

  private ask(): Promise<void> {
    return loadInto(api.all<Member>(this.path, this.scope.signal), (load) => (this.members = load));
  }

  private change(member: Member, fields: Partial<Pick<Member, 'role' | 'lastWord' | 'approver' | 'mayWrite'>>): void {
    void this.run(member.id, async () => {
      await api.patch(`${this.path}/${member.id}`, fields);
      await this.ask();
      if (member.id === this.project.you.member) this.dispatchEvent(new Event('changed'));
    }).then(() => this.requestUpdate());
  }

  private dismiss(member: Member): void {
    void this.run(member.id, async () => {
      await api.del(`${this.path}/${member.id}`);
      this.leaving = null;
      this.editing = null;
      await this.ask();
    });
  }

  private makeLink(member: Member): void {
    void this.run(member.id, async () => {
      const path = `${this.path}/${member.id}/sign-in-links`;
      const made = await api.post<{ link: string; thisComputerOnly: boolean }>(path);
      this.link = { member: member.id, text: made.link, hereOnly: made.thisComputerOnly };
    });
  }

  render(): TemplateResult {
    return html`<section aria-labelledby="people-title">
      <h2 id="people-title">People</h2>
      ${this.list()}
    </section>`;
  }

  private list(): TemplateResult | typeof nothing {
    const members = this.members;
    if (members.phase === 'failed') return html`${refused(members.problem)}`;
    if (members.phase === 'loading') return nothing;
    return html`<ul class="lines people">${members.value.map((member) => this.line(member))}</ul>
      <p class="small quiet gap">The last word settles notes that go against each other. Approvers are asked before a mix counts as approved.</p>`;
  }

  private line(member: Member): TemplateResult {
    const mine = member.id === this.project.you.member;
    const manages = this.project.may.includes('manage-people');
    const open = this.editing === member.id;
    return html`<li>
      <div><b>${member.name}</b>${mine ? ' (you)' : ''} <span>${dutyWords(member)}</span>
        <span class="small quiet block">${this.identity(member)}</span></div>
      <div class="btns">
        ${manages || mine
          ? html`<button class="btn plain" type="button" aria-expanded=${open} @click=${() => this.toggle(member)}>${manages ? 'Change' : 'Other device'}<span class="hide">: ${member.name}</span></button>`
          : nothing}
      </div>
      ${open ? this.editor(member, mine, manages) : nothing}
    </li>`;
  }

  /** How it is known that this is who it says; the record of an approval carries the same. */
  private identity(member: Member): string {
    if (member.identity === 'mail-confirmed') return 'address confirmed by mail';
    const from = member.identity.replace(/^link-from:/, '');
    if (from === member.identity) return member.identity.replaceAll('-', ' ');
    const members = this.members.phase === 'ready' ? this.members.value : [];
    const name = members.find((one) => one.person === from || one.id === from)?.name;
    return name === member.name ? 'began this project' : `came by a link from ${name ?? 'a member'}`;
  }

  private toggle(member: Member): void {
    this.editing = this.editing === member.id ? null : member.id;
    this.leaving = null;
    this.link = null;
  }

  private editor(member: Member, mine: boolean, manages: boolean): TemplateResult {
    return html`<div class="under form edit">
      ${manages ? this.duties(member, mine) : nothing}
      ${this.refusal(member.id)}
      ${this.link?.member === member.id
        ? html`<div role="status"><p>One sign-in, on one device. ${mine ? 'Keep it to yourself.' : `Hand it to ${member.name} only.`} ${this.link.hereOnly ? ONLY_HERE : ''}</p>${copyLine(this.link.text, 'Sign-in link')}</div>`
        : nothing}
      <p class="btns">
        <button class="btn" type="button" @click=${() => this.makeLink(member)}>Sign-in link for another device</button>
        ${manages && this.leaving !== member.id
          ? html`<button class="btn" type="button" @click=${() => (this.leaving = member.id)}>Remove…</button>`
          : nothing}
      </p>
      ${this.leaving === member.id ? this.parting(member) : nothing}
    </div>`;
  }

  private duties(member: Member, mine: boolean): TemplateResult {
    const ticked = (event: Event) => (event.target as HTMLInputElement).checked;
    return html`
      <label>Role
        <select ?disabled=${mine} .value=${live(member.role)} @change=${(event: Event) => this.change(member, { role: (event.target as HTMLSelectElement).value as Role })}>
          ${ROLES.map((role) => html`<option value=${role} ?selected=${role === member.role}>${ROLE_WORDS[role]}</option>`)}
        </select>
        ${mine ? html`<span class="help">Nobody changes their own role; somebody else can.</span>` : nothing}
      </label>
      <div>
        <label class="tick"><input type="checkbox" .checked=${live(member.lastWord)} ?disabled=${member.lastWord} @change=${() => this.change(member, { lastWord: true })}><span>Has the last word${member.lastWord ? html` <span class="help">Give it to somebody else to take it from here.</span>` : nothing}</span></label>
        <label class="tick"><input type="checkbox" .checked=${live(member.approver)} @change=${(event: Event) => this.change(member, { approver: ticked(event) })}><span>Approves mixes</span></label>
        ${member.role === 'listener'
          ? html`<label class="tick"><input type="checkbox" .checked=${live(member.mayWrite)} @change=${(event: Event) => this.change(member, { mayWrite: ticked(event) })}><span>May write notes</span></label>`
          : nothing}
      </div>`;
  }

  private parting(member: Member): TemplateResult {
    return html`<div role="group" aria-label="Remove ${member.name}">
      <p>${member.name} can hear and see nothing of this project from this moment on. What ${member.name} wrote and approved stays, under that name.</p>
      <p class="btns gap">
        <button class="btn main" type="button" @click=${() => this.dismiss(member)}>Remove ${member.name}</button>
        <button class="btn" type="button" @click=${() => (this.leaving = null)}>Keep</button>
      </p>
    </div>`;
  }
}

function dutyWords(member: Member): string {
  const duties: string[] = [ROLE_WORDS[member.role]];
  if (member.role === 'listener' && member.mayWrite) duties[0] = 'listens and writes';
  if (member.lastWord) duties.push('has the last word');
  if (member.approver) duties.push('approves');
  return duties.join(', ');
}

customElements.define('project-people', ProjectPeople);
