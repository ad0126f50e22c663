import { html, LitElement, nothing, type TemplateResult } from 'lit';
import { keyed } from 'lit/directives/keyed.js';
import { html as staticHtml, unsafeStatic } from 'lit/static-html.js';
import { whenSignedOut } from './api/client.ts';
import { followAddress, go, matchRoute, type Match } from './router.ts';
import { routes } from './routes.ts';
import { Scope } from './scope.ts';
import { sprite } from './signs/sprite.ts';
import { me, refreshMe } from './state/me.ts';
import './pages/bring/sending-line.ts';
import { startOutbox } from './state/outbox.ts';

type Shown =
  | { readonly phase: 'opening' }
  | { readonly phase: 'page'; readonly match: Match; readonly path: string }
  | { readonly phase: 'nowhere' }
  | { readonly phase: 'failed'; readonly words: string };

/** The frame around the pages: finds the page for the address, and moves the focus to it. */
class MixApp extends LitElement {
  declare private shown: Shown;
  static properties = { shown: { state: true } };

  private readonly scope = new Scope();
  private moves = 0;

  constructor() {
    super();
    this.shown = { phase: 'opening' };
  }

  protected createRenderRoot(): HTMLElement {
    return this;
  }

  connectedCallback(): void {
    super.connectedCallback();
    whenSignedOut(() => this.askToSignIn());
    followAddress(this.scope, () => void this.follow());
    startOutbox(this.scope);
    void this.follow();
  }

  disconnectedCallback(): void {
    super.disconnectedCallback();
    this.scope.close();
  }

  private async follow(): Promise<void> {
    const move = ++this.moves;
    const path = location.pathname;
    const match = matchRoute(routes, path);
    if (!match) {
      this.shown = { phase: 'nowhere' };
      return;
    }
    try {
      const known = me.value === undefined && !match.route.open ? await refreshMe() : me.value;
      if (move !== this.moves) return;
      if (!known && !match.route.open) {
        this.askToSignIn();
        return;
      }
      await match.route.load();
    } catch {
      if (move === this.moves) {
        this.shown = { phase: 'failed', words: 'The server can’t be reached. Load the page again in a moment.' };
      }
      return;
    }
    if (move !== this.moves) return;
    const first = this.shown.phase === 'opening';
    this.shown = { phase: 'page', match, path };
    await this.updateComplete;
    if (!first && location.hash === '') this.toTop();
  }

  /** After a move a screen reader starts at the new page's main part, and sight at its top. */
  private toTop(): void {
    window.scrollTo(0, 0);
    this.querySelector<HTMLElement>('main')?.focus({ preventScroll: true });
  }

  private askToSignIn(): void {
    me.set(null);
    if (matchRoute(routes, location.pathname)?.route.open) return;
    go(`/sign-in?then=${encodeURIComponent(location.pathname + location.search)}`, 'replace');
  }

  render(): TemplateResult {
    return html`${sprite()}<a class="skip" href="#main">Skip to the page</a><mix-sending></mix-sending>${this.body()}`;
  }

  private body(): TemplateResult | typeof nothing {
    const shown = this.shown;
    if (shown.phase === 'opening') return nothing;
    if (shown.phase === 'page') return pageOf(shown.match, shown.path);
    const words =
      shown.phase === 'failed' ? shown.words : 'There is no page at this address. The link may be old.';
    return html`<main id="main" class="door" tabindex="-1">
      <h1>${shown.phase === 'failed' ? 'Not just now' : 'Nothing here'}</h1>
      <p>${words}</p>
      <p class="btns"><a class="btn" href="/">All songs</a></p>
    </main>`;
  }
}

/** Another address makes another element, so that no page has to clean up after itself. */
function pageOf(match: Match, path: string): TemplateResult {
  const tag = unsafeStatic(match.route.tag);
  return html`${keyed(path, staticHtml`<${tag} .params=${match.params}></${tag}>`)}`;
}

customElements.define('mix-app', MixApp);
