/** Bringing a file: a bounce or a part file, straight to the server, with its progress. */
import { html, LitElement, nothing, type TemplateResult } from 'lit';
import { Problem } from '../../api/problem.ts';
import { newKey } from '../../api/client.ts';
import type { Kind } from '../../api/types.ts';
import { Scope } from '../../scope.ts';
import { refused } from '../../signs/signs.ts';
import { KIND_WORDS } from '../../words/mixes.ts';

type Sending =
  | { phase: 'idle' }
  | { phase: 'sending'; name: string; share: number; stop: () => void }
  | { phase: 'sent'; name: string }
  | { phase: 'refused'; name: string; problem: Problem };

/** Sends one file; resolves with the server's answer. */
export function sendFile(url: string, file: File, scope: Scope, progress: (share: number) => void): { done: Promise<unknown>; stop: () => void } {
  const request = new XMLHttpRequest();
  const done = new Promise<unknown>((resolve, reject) => {
    request.open('POST', url);
    request.setRequestHeader('Accept', 'application/json, application/problem+json');
    request.setRequestHeader('Content-Type', 'application/octet-stream');
    request.setRequestHeader('Idempotency-Key', newKey());
    request.responseType = 'json';
    scope.listen<ProgressEvent>(request.upload, 'progress', (e) => e.lengthComputable && progress(e.loaded / e.total));
    scope.listen(request, 'load', () => {
      if (request.status >= 200 && request.status < 300) resolve(request.response);
      else reject(refusal(request));
    });
    scope.listen(request, 'error', () => reject(new Problem(0, 'upload-broke', 'The upload broke off.',
      'The upload broke off before the end. Nothing is lost on your side; choose the file again.')));
    scope.listen(request, 'abort', () => reject(new DOMException('stopped', 'AbortError')));
    request.send(file);
  });
  scope.onClose(() => request.abort());
  return { done, stop: () => request.abort() };
}

function refusal(request: XMLHttpRequest): Problem {
  const body = (request.response ?? {}) as { code?: string; title?: string; detail?: string };
  return new Problem(request.status, body.code ?? `status-${request.status}`, body.title ?? 'The server refused this file.', body.detail ?? '');
}

/** A form that takes one bounce, or part files for a bounce. */
export class Upload extends LitElement {
  declare song: string;
  declare kinds: readonly Kind[];
  /** Mains an alternate can belong to. */
  declare mains: readonly { id: string; words: string }[];
  declare stems: boolean;
  /** Whether what is brought is for everybody at once, with no sending. */
  declare shared: boolean;
  declare bounce: string;
  declare elements: readonly string[];
  declare private sending: Sending;
  declare private kind: Kind;
  declare private over: boolean;
  static properties = {
    song: {}, kinds: { attribute: false }, mains: { attribute: false }, stems: { type: Boolean }, shared: { type: Boolean }, bounce: {},
    elements: { attribute: false }, sending: { state: true }, kind: { state: true }, over: { state: true },
  };

  private scope = new Scope();

  constructor() {
    super();
    this.song = '';
    this.kinds = ['main'];
    this.mains = [];
    this.stems = false;
    this.shared = false;
    this.bounce = '';
    this.elements = [];
    this.sending = { phase: 'idle' };
    this.kind = 'main';
    this.over = false;
  }

  protected createRenderRoot(): HTMLElement {
    return this;
  }

  connectedCallback(): void {
    super.connectedCallback();
    this.scope = new Scope();
    if (!this.kinds.includes(this.kind)) this.kind = this.kinds[0] ?? 'main';
  }

  disconnectedCallback(): void {
    super.disconnectedCallback();
    this.scope.close();
  }

  render(): TemplateResult {
    return html`<form class=${this.over ? 'form drop-here over' : 'form drop-here'} @submit=${(e: Event) => e.preventDefault()}
      @dragover=${this.dragged} @dragleave=${() => (this.over = false)} @drop=${this.dropped}>
      ${this.stems ? this.stemFields() : this.kindFields()}
      <label class="file">${this.stems ? 'Part file' : 'Choose a mix, or drop it here'}
        <input type="file" accept="audio/*,.wav,.aif,.aiff,.flac,.m4a,.mp3,.caf,.w64,.bwf,.ogg,.opus" ?disabled=${this.sending.phase === 'sending'} @change=${this.chosen}></label>
      ${this.state()}
    </form>`;
  }

  private kindFields(): TemplateResult | typeof nothing {
    if (this.kinds.length < 2) return nothing;
    const alternate = !['main', 'rough', 'reference', 'master'].includes(this.kind);
    return html`<div class="line"><label>What it is<select @change=${(e: Event) => (this.kind = (e.target as HTMLSelectElement).value as Kind)}>
      ${this.kinds.map((k) => html`<option value=${k} ?selected=${k === this.kind}>${KIND_WORDS[k]}</option>`)}</select></label>
      ${alternate && this.mains.length > 0 ? html`<label>Belongs to<select name="of">${this.mains.map((m) => html`<option value=${m.id}>${m.words}</option>`)}</select></label>` : nothing}</div>`;
  }

  private stemFields(): TemplateResult {
    return html`<label>Which part<input type="text" name="element" list="stem-parts" placeholder="lead vocal" autocomplete="off">
      <datalist id="stem-parts">${this.elements.map((e) => html`<option value=${e}></option>`)}</datalist>
      <span class="help">One part alone, same start and length as the mix.</span></label>`;
  }

  private state(): TemplateResult | typeof nothing {
    const { sending } = this;
    switch (sending.phase) {
      case 'idle': return nothing;
      case 'sending': return html`<p role="status">${sending.name}, ${Math.floor(sending.share * 100)} %</p>
        <progress max="1" .value=${sending.share} aria-label="Uploading"></progress>
        <p><button class="btn plain flush" type="button" @click=${sending.stop}>Stop</button></p>`;
      case 'sent': return html`<p class="saved" role="status">${sending.name} has arrived. ${this.fate()}</p>`;
      case 'refused': return refused(sending.problem) as TemplateResult;
    }
  }

  private fate(): string {
    if (this.stems) return 'It is used as soon as it is measured.';
    return this.shared ? 'Everybody here can hear it as soon as it is measured.' : 'It stays private until it is sent.';
  }

  private dragged(e: DragEvent): void {
    e.preventDefault();
    this.over = true;
  }

  private dropped(e: DragEvent): void {
    e.preventDefault();
    this.over = false;
    const file = e.dataTransfer?.files[0];
    if (file) void this.take(file);
  }

  private chosen(e: Event): void {
    const input = e.target as HTMLInputElement;
    const file = input.files?.[0];
    input.value = '';
    if (file) void this.take(file);
  }

  private address(file: File): string | null {
    const query = new URLSearchParams({ filename: file.name });
    if (this.stems) {
      const element = this.querySelector<HTMLInputElement>('[name=element]')!.value.trim().toLowerCase();
      if (!element) return null;
      query.set('element', element);
      if (this.bounce) query.set('bounce', this.bounce);
      return `/api/v1/songs/${this.song}/stems?${query}`;
    }
    query.set('kind', this.kind);
    const of = this.querySelector<HTMLSelectElement>('[name=of]')?.value;
    if (of) query.set('of', of);
    return `/api/v1/songs/${this.song}/bounces?${query}`;
  }

  private async take(file: File): Promise<void> {
    const address = this.address(file);
    const { name } = file;
    if (address === null) {
      this.sending = { phase: 'refused', name, problem: new Problem(422, 'no-part', 'Say which part it is first.', 'Say which part this file is, then choose it.') };
      return;
    }
    const { done, stop } = sendFile(address, file, this.scope, (share) => (this.sending = { phase: 'sending', name, share, stop }));
    this.sending = { phase: 'sending', name, share: 0, stop };
    try {
      await done;
      this.sending = { phase: 'sent', name };
      this.dispatchEvent(new CustomEvent('uploaded'));
    } catch (reason) {
      this.sending = reason instanceof Problem ? { phase: 'refused', name, problem: reason } : { phase: 'idle' };
    }
  }
}
customElements.define('mix-upload', Upload);
