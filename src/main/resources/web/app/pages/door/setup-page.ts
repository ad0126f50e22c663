import { html, type TemplateResult } from 'lit';
import { api } from '../../api/client.ts';
import { asProblem } from '../../api/problem.ts';
import { Page } from '../../page.ts';
import { go } from '../../router.ts';
import { refused } from '../../signs/signs.ts';
import { idle, type Press } from '../../state/load.ts';
import { refreshMe } from '../../state/me.ts';

/** The first account of a new server. */
class SetupPage extends Page {
  declare private press: Press;
  static properties = { ...Page.properties, press: { state: true } };

  constructor() {
    super();
    this.press = idle;
  }

  protected open(): void {
    this.titled('Set up');
  }

  private async send(event: SubmitEvent): Promise<void> {
    event.preventDefault();
    const form = new FormData(event.target as HTMLFormElement);
    this.press = { phase: 'running', what: 'set-up' };
    try {
      await api.post(`/setup/${encodeURIComponent(this.param('token'))}`, {
        name: form.get('name'),
        email: form.get('email'),
        password: form.get('password'),
      });
      await refreshMe();
      go('/', 'replace');
    } catch (reason) {
      this.press = { phase: 'refused', what: 'set-up', problem: asProblem(reason) };
    }
  }

  render(): TemplateResult {
    const press = this.press;
    return html`<main id="main" class="door" tabindex="-1">
      <div>
        <h1>Your server is running.</h1>
        <p class="quiet gap">Make the first account. It looks after the accounts of this server and sees no project it does not belong to.</p>
      </div>
      <form class="form" @submit=${this.send}>
        <label>Your name <input type="text" name="name" autocomplete="name" required maxlength="200"></label>
        <label>E-mail <input type="email" name="email" autocomplete="username" required></label>
        <label>Password <input type="password" name="password" autocomplete="new-password" required minlength="10" aria-describedby="how-long">
          <span class="help" id="how-long">At least ten characters. A sentence is fine.</span></label>
        ${press.phase === 'refused' ? refused(press.problem) : ''}
        <button class="btn main" type="submit" ?disabled=${press.phase === 'running'}>Make the account</button>
      </form>
    </main>`;
  }
}
customElements.define('page-setup', SetupPage);
