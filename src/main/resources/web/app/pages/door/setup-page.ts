import { html, type TemplateResult } from 'lit';
import { api } from '../../api/client.ts';
import { Page } from '../../page.ts';
import { go } from '../../router.ts';
import { refreshMe } from '../../state/me.ts';

/** The first account of a new server. */
class SetupPage extends Page {
  protected open(): void {
    this.titled('Set up');
  }

  private send(event: SubmitEvent): void {
    event.preventDefault();
    const form = new FormData(event.target as HTMLFormElement);
    void this.run('set-up', async () => {
      await api.post(`/setup/${encodeURIComponent(this.param('token'))}`, {
        name: form.get('name'),
        email: form.get('email'),
        password: form.get('password'),
      });
      await refreshMe();
      go('/', 'replace');
    });
  }

  render(): TemplateResult {
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
        ${this.refusal('set-up')}
        <button class="btn main" type="submit" ?disabled=${this.running}>Make the account</button>
      </form>
    </main>`;
  }
}
customElements.define('page-setup', SetupPage);
