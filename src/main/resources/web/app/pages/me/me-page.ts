import { html, nothing, type TemplateResult } from 'lit';
import { api } from '../../api/client.ts';
import type { AccessToken } from '../../api/types.ts';
import { fieldOf } from '../../living.ts';
import { Page } from '../../page.ts';
import { go } from '../../router.ts';
import { copyLine } from '../../signs/copy.ts';
import { head, way } from '../../signs/frame.ts';
import { refused } from '../../signs/signs.ts';
import { loading, loadInto, type Load } from '../../state/load.ts';
import { refreshMe, signOut } from '../../state/me.ts';
import { day } from '../../words/time.ts';

/** One's own account: who one is here, signing out, tokens for one's own programs. */
class MePage extends Page {
  declare private tokens: Load<readonly AccessToken[]>;
  declare private made: AccessToken | null;
  declare private kept: boolean;
  static properties = {
    ...Page.properties,
    tokens: { state: true },
    made: { state: true },
    kept: { state: true },
  };

  constructor() {
    super();
    this.tokens = loading;
    this.made = null;
    this.kept = false;
  }

  protected open(): void {
    this.titled('You');
    this.ask();
  }

  private ask(): void {
    void loadInto(api.all<AccessToken>('/access-tokens', this.scope.signal), (load) => (this.tokens = load));
  }

  private make(event: SubmitEvent): void {
    event.preventDefault();
    const form = event.target as HTMLFormElement;
    const name = fieldOf(event, 'name');
    void this.run('make', async () => {
      this.made = { ...(await api.post<AccessToken>('/access-tokens', { name })), name };
      form.reset();
      this.ask();
    });
  }

  private take(token: AccessToken): void {
    void this.run(token.id, async () => {
      await api.del(`/access-tokens/${token.id}`);
      if (this.made?.id === token.id) this.made = null;
      this.ask();
    });
  }

  private keep(event: SubmitEvent): void {
    event.preventDefault();
    const form = event.target as HTMLFormElement;
    const given = new FormData(form);
    const known: Record<string, string | null> = { name: this.me?.name ?? null, email: this.me?.email ?? null };
    const fields = Object.fromEntries([...given].filter(([name, value]) => value !== '' && value !== known[name]));
    this.kept = false;
    void this.run('keep', async () => {
      await api.patch('/me', fields);
      await refreshMe();
      for (const field of form.querySelectorAll<HTMLInputElement>('input[type="password"]')) field.value = '';
      this.kept = true;
    });
  }

  private leave(): void {
    void this.run('sign-out', async () => {
      await signOut();
      go('/sign-in', 'replace');
    });
  }

  render(): TemplateResult {
    const me = this.me;
    return html`
      ${way([{ words: 'All songs', href: '/' }, { words: 'You' }], null)}
      ${head({ title: me?.name ?? 'You', by: me?.email ?? 'No e-mail on this account' })}
      <main id="main" class="narrow" tabindex="-1">
        <section class="part">
          <h2>This device</h2>
          <p>It stays signed in for 30 days after you last used it. Signing out works at once, here and on the server.</p>
          ${this.refusal('sign-out')}
          <p class="btns gap"><button class="btn" type="button" @click=${this.leave}>Sign out</button></p>
        </section>
        ${this.account()}
        <section class="part">
          <h2>Tokens for your own programs</h2>
          <p>A script that carries a token may do here what you may do. Take a token back as soon as you no longer need it.</p>
          ${this.made ? this.shownOnce(this.made) : nothing}
          ${this.list()}
          <form class="form gap" @submit=${this.make}>
            <label>What is it for? <input type="text" name="name" required maxlength="100" autocomplete="off"></label>
            ${this.refusal('make')}
            <p class="btns"><button class="btn" type="submit">Make a token</button></p>
          </form>
        </section>
      </main>`;
  }

  private account(): TemplateResult {
    const me = this.me;
    const has = me?.hasPassword === true;
    return html`<section class="part">
      <h2>Your account</h2>
      <form class="form" @submit=${this.keep}>
        <div class="line">
          <label>Name <input type="text" name="name" required maxlength="200" autocomplete="name" .value=${me?.name ?? ''}></label>
          <label>E-mail <input type="email" name="email" autocomplete="username" .value=${me?.email ?? ''}></label>
        </div>
        <div class="line">
          ${has ? html`<label>Password now <input type="password" name="oldPassword" autocomplete="current-password"></label>` : nothing}
          <label>${has ? 'New password' : 'Password'} <input type="password" name="password" autocomplete="new-password" minlength="10"></label>
        </div>
        <p class="help">${has ? 'Leave the passwords empty to keep the one you have.' : 'With an e-mail and a password of ten characters or more you can sign in on any device.'}</p>
        ${this.refusal('keep')}
        <p class="btns"><button class="btn" type="submit" ?disabled=${this.running}>Keep</button>${this.kept ? html`<span class="saved" role="status">Kept.</span>` : nothing}</p>
      </form>
    </section>`;
  }

  private shownOnce(token: AccessToken): TemplateResult {
    return html`<div class="slip gap" role="status">
      <p><b>${token.name}</b>: copy this now. It is shown only once.</p>
      ${copyLine(token.token ?? '', 'The token')}
    </div>`;
  }

  private list(): TemplateResult | typeof nothing {
    if (this.tokens.phase === 'failed') return refused(this.tokens.problem);
    if (this.tokens.phase === 'loading' || this.tokens.value.length === 0) return nothing;
    return html`<ul class="lines gap">
      ${this.tokens.value.map(
        (token) => html`<li>
          <div><b>${token.name}</b>${token.createdAt ? html` <span class="quiet small">made ${day(token.createdAt)}</span>` : nothing}</div>
          <button class="btn plain" type="button" @click=${() => this.take(token)}>Take back<span class="hide"> ${token.name}</span></button>
          ${this.refusal(token.id)}
        </li>`,
      )}
    </ul>`;
  }
}
customElements.define('page-me', MePage);
