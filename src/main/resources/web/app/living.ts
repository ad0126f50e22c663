import { LitElement, nothing, type TemplateResult } from 'lit';
import { asProblem } from './api/problem.ts';
import { isAbort } from './api/client.ts';
import { Scope } from './scope.ts';
import { refused } from './signs/signs.ts';
import { idle, type Press } from './state/load.ts';

/**
 * An element with a scope that ends when it leaves the document, and with one press at a time: what
 * was pressed, whether it runs, and why it was refused. Light DOM, so that one style sheet does.
 */
export abstract class Living extends LitElement {
  declare protected press: Press;

  static properties: Record<string, object> = { press: { state: true } };

  protected scope = new Scope();

  constructor() {
    super();
    this.press = idle;
  }

  protected createRenderRoot(): HTMLElement {
    return this;
  }

  connectedCallback(): void {
    super.connectedCallback();
    this.scope = new Scope();
    this.open();
  }

  disconnectedCallback(): void {
    super.disconnectedCallback();
    this.scope.close();
  }

  /** Asks for what is shown; the scope is new. */
  protected abstract open(): void;

  protected get running(): boolean {
    return this.press.phase === 'running';
  }

  /** Does what was pressed unless something still runs; true when it was done. */
  protected async run(what: string, work: () => Promise<void>): Promise<boolean> {
    if (this.running) return false;
    this.press = { phase: 'running', what };
    try {
      await work();
      this.press = idle;
      return true;
    } catch (reason) {
      this.press = isAbort(reason) ? idle : { phase: 'refused', what, problem: asProblem(reason) };
      return false;
    }
  }

  /** Why the press of that name was refused, to be shown beside it. */
  protected refusal(what: string): TemplateResult | typeof nothing {
    return this.press.phase === 'refused' && this.press.what === what ? refused(this.press.problem) : nothing;
  }
}

/** One text field of a form that was sent, without the blanks around it. */
export function fieldOf(event: Event, name: string): string {
  const form = event.target as HTMLFormElement;
  return String(new FormData(form).get(name) ?? '').trim();
}
