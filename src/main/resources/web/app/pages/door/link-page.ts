import { html, type TemplateResult } from 'lit';
import { api } from '../../api/client.ts';
import { Page } from '../../page.ts';
import { go } from '../../router.ts';
import { refreshMe } from '../../state/me.ts';
import { safeTarget } from './sign-in-page.ts';

/** A one-time sign-in link. Opening it uses nothing up; the press does. */
class LinkPage extends Page {
  protected open(): void {
    this.titled('Sign in on this device');
  }

  private enter(): void {
    void this.run('enter', async () => {
      await api.post(`/sign-in-links/${encodeURIComponent(this.param('token'))}/use`);
      await refreshMe();
      go(safeTarget(new URLSearchParams(location.search).get('then')), 'replace');
    });
  }

  render(): TemplateResult {
    return html`<main id="main" class="door" tabindex="-1">
      <h1>Sign in on this device</h1>
      <p>This link works once. After that this device stays signed in until you sign out.</p>
      ${this.refusal('enter')}
      <button class="btn go" type="button" ?disabled=${this.running} @click=${this.enter}>Come in</button>
      <p class="quiet">Not your own device? Sign out when you are done: press your name, then “Sign out”.</p>
    </main>`;
  }
}
customElements.define('page-link', LinkPage);
