import type { Me } from './api/types.ts';
import { Living } from './living.ts';
import { me } from './state/me.ts';

/** What every page is built on: the parts of its address, and who is signed in. */
export abstract class Page extends Living {
  declare params: Readonly<Record<string, string>>;

  static properties: Record<string, object> = { ...Living.properties, params: { attribute: false } };

  constructor() {
    super();
    this.params = {};
  }

  connectedCallback(): void {
    super.connectedCallback();
    this.scope.onClose(me.watch(() => this.requestUpdate()));
  }

  protected get me(): Me | null {
    return me.value ?? null;
  }

  protected param(name: string): string {
    return this.params[name] ?? '';
  }

  /** The words in the window's title. */
  protected titled(words: string): void {
    document.title = words === '' ? 'Mixaccord' : `${words} · Mixaccord`;
  }
}
