/** The line over every page that says how files on their way are doing, with the files behind a press. */
import { html, nothing, type TemplateResult } from 'lit';
import { Living } from '../../living.ts';
import { me } from '../../state/me.ts';
import { canPick, chosenIn, droppedIn, pick, type Found } from '../../uploads/found.ts';
import { uploads } from '../../uploads/queue.ts';
import { moving, troubled, type Upload } from '../../uploads/target.ts';
import { capital, count } from '../../words/numbers.ts';
import { goingWords, summaryOf } from '../../words/sending.ts';
import { fileRow } from './file-row.ts';
import type { Bring } from './upload.ts';

class SendingLine extends Living {
  declare private told: string;
  static properties = { ...Living.properties, told: { state: true } };

  /** Also for tests of the page: what the queue itself knows. */
  readonly queue = uploads;

  constructor() {
    super();
    this.told = '';
  }

  protected open(): void {
    this.scope.onClose(uploads.items.watch(() => this.requestUpdate()));
    this.scope.onClose(me.watch(() => this.requestUpdate()));
    // A file let fall beside its place would otherwise replace the page.
    this.scope.listen<DragEvent>(window, 'dragover', (event) => {
      if (event.dataTransfer?.types.includes('Files')) event.preventDefault();
    });
    this.scope.listen<DragEvent>(window, 'drop', (event) => this.strayed(event));
  }

  /** Files let fall anywhere on a page go where that page takes them. */
  private strayed(event: DragEvent): void {
    if (event.defaultPrevented || !event.dataTransfer?.types.includes('Files')) return;
    event.preventDefault();
    const place = document.querySelector<Bring>('mix-upload:not([stems])');
    if (!place) return;
    place.closest('details')?.setAttribute('open', '');
    place.scrollIntoView({ block: 'nearest' });
    place.dropped(event);
  }

  protected updated(): void {
    // What sticks to the top of a page sticks right under this line.
    const line = this.querySelector('.sending summary');
    document.documentElement.style.setProperty('--standing', line ? `${Math.round(line.getBoundingClientRect().height)}px` : '0px');
  }

  render(): TemplateResult | typeof nothing {
    const all = uploads.mine();
    if (all.length === 0) return nothing;
    const going = all.filter(moving);
    const half = all.filter((one) => one.phase.is === 'left');
    const over = all.every((one) => one.phase.is === 'arrived');
    const figures = going.some((one) => one.phase.is === 'sending') ? goingWords([...going, ...all.filter((one) => one.phase.is === 'arrived')]) : '';
    return html`<section class="sending" aria-label="Files on their way" @dragover=${(e: DragEvent) => e.preventDefault()} @drop=${this.dropped}>
      <p class="hide" role="status">${summaryOf(all)} ${this.told}</p>
      <details class="fold"><summary><span>${summaryOf(all)} <span class="quiet">${figures}</span> ${this.told}</span></summary>
        ${me.value === null ? nothing : html`<div class="inside">${half.length > 0 ? this.halfWay(half) : nothing}
          <ul class="lines">${[...all.filter(troubled), ...all.filter((one) => !troubled(one))].map((one) => fileRow(one, true))}</ul></div>`}</details>
      <p class="btns">${this.presses(all, half, over)}</p>
    </section>`;
  }

  /** The one press that comes next. */
  private presses(all: readonly Upload[], half: readonly Upload[], over: boolean): TemplateResult | typeof nothing {
    if (me.value === null) return html`<a class="btn" href="/sign-in?then=${encodeURIComponent(location.pathname)}">Sign in</a>`;
    if (half.some((one) => one.reopens)) return html`<button class="btn main" type="button" ?disabled=${this.running} @click=${this.goOn}>Go on with ${them(half)}</button>`;
    if (half.length > 0) return html`<button class="btn main" type="button" @click=${this.choose}>Choose ${them(half)} again</button>`;
    return over ? html`<button class="btn plain" type="button" @click=${() => all.forEach((one) => uploads.drop(one.id))}>Put away</button>` : nothing;
  }

  private halfWay(half: readonly Upload[]): TemplateResult {
    return html`<div class="form">
      <p>The page was closed before ${half.length === 1 ? 'this file' : 'these files'} had arrived. What is there already is not sent twice.</p>
      <div class="line"><label class="file">Choose ${them(half)} again, or drop ${them(half)} here
        <input type="file" multiple @click=${this.picking} @change=${this.chosen}></label>
      ${half.length > 1 ? html`<label class="file">Or the whole folder <input type="file" webkitdirectory multiple @change=${this.chosen}></label>` : nothing}</div>
      <p class="btns"><button class="btn plain flush" type="button" @click=${() => half.forEach((one) => uploads.drop(one.id))}>Give ${half.length === 1 ? 'it' : 'all of them'} up</button></p></div>`;
  }

  /** Where the browser has a picker whose files it knows again, that one; its own field otherwise. */
  private choose(): void {
    if (canPick()) void pick().then((found) => this.take(found));
    else this.querySelector<HTMLInputElement>('.inside input[type=file]')?.click();
  }

  private picking(event: Event): void {
    if (!canPick()) return;
    event.preventDefault();
    this.choose();
  }

  private goOn(): void {
    void this.run('go-on', async () => {
      const missed = await uploads.reopen();
      this.told = missed === 0 ? '' : `${capital(count(missed, 'file'))} could not be opened as ${missed === 1 ? 'it was' : 'they were'}; choose ${missed === 1 ? 'it' : 'them'} again.`;
    });
  }

  private chosen(event: Event): void {
    const input = event.target as HTMLInputElement;
    const found = chosenIn(input);
    input.value = '';
    this.take(found);
  }

  private dropped(event: DragEvent): void {
    event.preventDefault();
    if (event.dataTransfer) void droppedIn(event.dataTransfer).then((found) => this.take(found));
  }

  private take(found: readonly Found[]): void {
    const others = uploads.goOnWith(found);
    const alike = others.find((other) => uploads.mine().some((one) => one.phase.is === 'left' && one.name === other.file.name));
    if (alike) this.told = `“${alike.file.name}” is not the same file any more: it has been changed or written anew. Give the old one up and bring this one on its song’s page.`;
    else if (others.length === found.length && found.length > 0) this.told = 'None of these is a file that was on its way. Bring new files on the page of their song.';
    else this.told = '';
  }
}
function them(half: readonly Upload[]): string {
  return half.length === 1 ? 'it' : 'them';
}
customElements.define('mix-sending', SendingLine);
