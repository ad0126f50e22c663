import { html, nothing, type TemplateResult } from 'lit';
import type { Load } from '../state/load.ts';
import type { Me, Role } from '../api/types.ts';
import { ROLE_WORDS } from '../words/changes.ts';
import { refused } from './signs.ts';

export interface Crumb {
  readonly words: string;
  readonly href?: string;
}

/** Where one is, and as whom. The last crumb is this page. */
export function way(crumbs: readonly Crumb[], me: Me | null, role?: Role): TemplateResult {
  return html`<nav class="way" aria-label="Where you are">
    <ol>
      ${crumbs.map((crumb, index) =>
        crumb.href
          ? html`<li><a href=${crumb.href}>${crumb.words}</a></li>`
          : html`<li aria-current=${index === crumbs.length - 1 ? 'page' : nothing}>${crumb.words}</li>`,
      )}
    </ol>
    ${me ? html`<a class="me" href="/me">${me.name}${role ? `, ${ROLE_WORDS[role]}` : ''}</a>` : nothing}
  </nav>`;
}

export interface Head {
  readonly title: string;
  readonly by?: TemplateResult | string;
  readonly left?: TemplateResult | string;
  readonly right?: TemplateResult | string;
  readonly flat?: boolean;
}

/** The head of a page, as on a lead sheet: title in the middle, facts left and right. */
export function head(of: Head): TemplateResult {
  return html`<header class=${of.flat ? 'head flat' : 'head'}>
    <div class="l">${of.left ?? nothing}</div>
    <div class="mid"><h1>${of.title}</h1>${of.by ? html`<p class="by">${of.by}</p>` : nothing}</div>
    <div class="r">${of.right ?? nothing}</div>
  </header>`;
}

/** Shows what is there, says that it is coming, or why it is not. */
export function whenThere<T>(load: Load<T>, show: (value: T) => TemplateResult): TemplateResult {
  if (load.phase === 'ready') return show(load.value);
  return html`<main id="main" class="waiting" tabindex="-1">
    ${load.phase === 'loading' ? html`<p class="quiet" role="status">One moment.</p>` : refused(load.problem)}
  </main>`;
}
