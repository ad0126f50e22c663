import { LitElement } from 'lit';
import { Scope } from './scope.ts';
import { me } from './state/me.ts';
import type { Me } from './api/types.ts';

/**
 * What every page is built on: light DOM (one style sheet for all), a scope that ends with it, and
 * the parts of its address. A page opens when it is put into the document, never earlier.
 */
export abstract class Page extends LitElement {
  declare params: Readonly<Record<string, string>>;

  static properties = { params: { attribute: false } };

  protected scope = new Scope();

  constructor() {
    super();
    this.params = {};
  }

  protected createRenderRoot(): HTMLElement {
    return this;
  }

  connectedCallback(): void {
    super.connectedCallback();
    this.scope = new Scope();
    this.scope.onClose(me.watch(() => this.requestUpdate()));
    this.open();
  }

  disconnectedCallback(): void {
    super.disconnectedCallback();
    this.scope.close();
  }

  /** Asks for what the page shows. */
  protected abstract open(): void;

  protected get me(): Me | null {
    return me.value ?? null;
  }

  protected param(name: string): string {
    return this.params[name] ?? '';
  }

  /** The words in the window's title; the heading that gets the focus after a move says the same. */
  protected titled(words: string): void {
    document.title = words === '' ? 'Mixaccord' : `${words} · Mixaccord`;
  }
}
