import { html, type TemplateResult } from 'lit';
import { api } from '../../api/client.ts';
import { Page } from '../../page.ts';
import { go } from '../../router.ts';
import { refreshMe } from '../../state/me.ts';

/** Where to go after signing in: only addresses of this page, never another site. */
export function safeTarget(wanted: string | null): string {
  return wanted && /^\/(?![/\\])/.test(wanted) && !wanted.startsWith('/sign-in') ? wanted : '/';
}

class SignInPage extends Page {
  protected open(): void {
    this.titled('Sign in');
  }

  private send(event: SubmitEvent): void {
    event.preventDefault();
    const form = new FormData(event.target as HTMLFormElement);
    void this.run('sign-in', async () => {
      await api.post('/session', { email: form.get('email'), password: form.get('password') });
      await refreshMe();
      go(safeTarget(new URLSearchParams(location.search).get('then')), 'replace');
    });
  }

  render(): TemplateResult {
    return html`<main id="main" class="door" tabindex="-1">
      <h1>Sign in</h1>
      <form class="form" @submit=${this.send}>
        <label>E-mail <input type="email" name="email" autocomplete="username" required></label>
        <label>Password <input type="password" name="password" autocomplete="current-password" required></label>
        ${this.refusal('sign-in')}
        <button class="btn main" type="submit" ?disabled=${this.running}>Sign in</button>
      </form>
      <p class="quiet">No password yet? Open the link you were sent once more, or ask an engineer or manager of your project for a sign-in link for this device.</p>
    </main>`;
  }
}
customElements.define('page-sign-in', SignInPage);
