import { html, type TemplateResult } from 'lit';
import { api } from '../../api/client.ts';
import { asProblem } from '../../api/problem.ts';
import { Page } from '../../page.ts';
import { go } from '../../router.ts';
import { refused } from '../../signs/signs.ts';
import { idle, type Press } from '../../state/load.ts';
import { refreshMe } from '../../state/me.ts';
import { safeTarget } from './sign-in-page.ts';

/** A one-time sign-in link. Opening it uses nothing up; the press does. */
class LinkPage extends Page {
  declare private press: Press;
  static properties = { ...Page.properties, press: { state: true } };

  constructor() {
    super();
    this.press = idle;
  }

  protected open(): void {
    this.titled('Sign in on this device');
  }

  private async enter(): Promise<void> {
    this.press = { phase: 'running', what: 'enter' };
    try {
      await api.post(`/sign-in-links/${encodeURIComponent(this.param('token'))}/use`);
      await refreshMe();
      go(safeTarget(new URLSearchParams(location.search).get('then')), 'replace');
    } catch (reason) {
      this.press = { phase: 'refused', what: 'enter', problem: asProblem(reason) };
    }
  }

  render(): TemplateResult {
    const press = this.press;
    return html`<main id="main" class="door" tabindex="-1">
      <h1>Sign in on this device</h1>
      <p>This link works once. After that this device stays signed in until you sign out.</p>
      ${press.phase === 'refused' ? refused(press.problem) : ''}
      <button class="btn go" type="button" ?disabled=${press.phase === 'running'} @click=${this.enter}>Come in</button>
      <p class="quiet">Not your own device? Sign out when you are done: press your name, then “Sign out”.</p>
    </main>`;
  }
}
customElements.define('page-link', LinkPage);
