/** A conversation pasted from mails or chats: who is who is chosen once, one press keeps all of it. */
import { html, nothing, type TemplateResult } from 'lit';
import { api } from '../../api/client.ts';
import type { Id } from '../../api/types.ts';
import { fieldOf, Living } from '../../living.ts';
import { said } from '../../signs/signs.ts';
import type { Sheet } from '../../state/sheet.ts';
import { capital, count } from '../../words/numbers.ts';

interface Message { sender: string; when: string; text: string; person: Id | null; known: boolean }
interface LeftOut { why: 'quoted' | 'signature' | 'notice' | 'head'; message: number | null; text: string; lines: number }
interface Read { messages: Message[]; leftOut: LeftOut[]; datesUnsure: boolean }

const WHY: Record<LeftOut['why'], string> = {
  quoted: 'said before, quoted', signature: 'a signature', notice: 'no words of anybody', head: 'a dividing line',
};

class PastedConversation extends Living {
  declare sheet: Sheet;
  /** What was pasted, kept until it has become notes. */
  declare private pasted: string;
  declare private read: Read | null;
  /** Who each sender is, by the name as written. */
  declare private who: ReadonlyMap<string, Id>;
  declare private without: ReadonlySet<number>;
  declare private told: string;
  static properties = {
    ...Living.properties, sheet: { attribute: false }, pasted: { state: true }, read: { state: true }, who: { state: true }, without: { state: true }, told: { state: true },
  };

  constructor() {
    super();
    this.pasted = '';
    this.read = null;
    this.who = new Map();
    this.without = new Set();
    this.told = '';
  }

  protected open(): void {}

  render(): TemplateResult | typeof nothing {
    if (!this.sheet.song.newest) return nothing;
    return html`<details class="fold part"><summary>Paste a conversation</summary>
      ${this.told ? html`<p role="status">${this.told}</p>` : nothing}
      ${this.read ? this.found(this.read) : html`<form class="form gap" @submit=${(e: SubmitEvent) => this.take(e)}>
        <label>A mail or chat thread, as it is<textarea name="text" rows="6" required placeholder="Paste it here" .value=${this.pasted}></textarea></label>
        <p class="help">It is taken apart by who wrote what. Nothing is kept before you have looked it over.</p>
        ${this.refusal('read')}
        <p class="btns"><button class="btn" type="submit" ?disabled=${this.running}>Take it apart</button></p></form>`}
    </details>`;
  }

  private take(event: SubmitEvent): void {
    event.preventDefault();
    const text = fieldOf(event, 'text');
    this.pasted = text;
    this.told = '';
    void this.run('read', async () => {
      const read = await api.post<Read>(`/songs/${this.sheet.song.id}/conversation-readings`, { text });
      this.who = new Map(read.messages.filter((m) => m.person).map((m) => [m.sender, m.person!]));
      this.without = new Set(read.messages.flatMap((m, i) => (m.known || m.text === '' ? [i] : [])));
      this.read = read;
    });
  }

  private found(read: Read): TemplateResult {
    const senders = [...new Set(read.messages.map((m) => m.sender))];
    const taken = read.messages.filter((_, i) => !this.without.has(i));
    const nobody = taken.filter((m) => !this.who.has(m.sender));
    return html`<div class="form gap">
      ${read.messages.length === 0 ? html`<p>Nobody’s words were found in it.</p>` : nothing}
      <div class="line">${senders.map((sender) => html`<label>${sender === '' ? 'Who wrote what has no name' : `“${sender}” is`}
        <select @change=${(e: Event) => this.choose(sender, (e.target as HTMLSelectElement).value)}>
          <option value="" ?selected=${!this.who.has(sender)}>choose</option>
          ${this.sheet.people.map((p) => html`<option value=${p.person} ?selected=${this.who.get(sender) === p.person}>${p.name}</option>`)}</select></label>`)}</div>
      ${read.datesUnsure ? html`<p class="help">Day and month can’t be told apart in its dates, so they stay as they are written.</p>` : nothing}
      <ul class="plainlist">${read.messages.map((m, i) => html`<li><label class="tick"><input type="checkbox" .checked=${!this.without.has(i)} ?disabled=${m.text === ''}
          @change=${() => this.toggle(i)}><span>${m.text === '' ? html`<span class="quiet">no words of its own</span>` : said(m.text)}
          <span class="small quiet">${[m.sender, m.when].filter((w) => w !== '').join(', ')}${m.known ? '. It is a note already' : ''}</span></span></label></li>`)}</ul>
      ${read.leftOut.length === 0 ? nothing : html`<details class="fold small"><summary>${capital(count(read.leftOut.reduce((n, o) => n + o.lines, 0), 'line'))} left out</summary>
        <ul class="plainlist">${read.leftOut.map((o) => html`<li><span class="quiet">${capital(WHY[o.why])}</span><br><span class="pasted">${o.text}</span>
          ${o.why === 'quoted' ? html`<button class="btn plain flush" type="button" @click=${() => this.takeIn(read, o)}>Take these words in<span class="hide">: ${o.text}</span></button>` : nothing}</li>`)}</ul></details>`}
      ${this.refusal('keep')}
      ${nobody.length > 0 ? html`<p class="help">Say first who ${nobody.length === 1 ? 'the one' : 'those'} without a person ${nobody.length === 1 ? 'is' : 'are'}, or leave their words out.</p>` : nothing}
      <p class="btns"><button class="btn" type="button" ?disabled=${this.running || taken.length === 0 || nobody.length > 0} @click=${() => this.keep(taken)}>Keep ${count(taken.length, 'message')} as notes</button>
        <button class="btn plain" type="button" @click=${() => (this.read = null)}>Not now</button></p></div>`;
  }

  /** Quoted words that are nowhere else, or answered between the lines: whose they are is chosen like the rest. */
  private takeIn(read: Read, quoted: LeftOut): void {
    const by = quoted.message === null ? undefined : read.messages[quoted.message]?.sender;
    const text = quoted.text.split('\n').map((line) => line.replace(/^[\s>|]+/, '').trimEnd()).join('\n').trim();
    const message = { sender: by ? `quoted by ${by}` : 'quoted', when: '', text, person: null, known: false };
    this.read = { ...read, messages: [...read.messages, message], leftOut: read.leftOut.filter((o) => o !== quoted) };
  }

  private choose(sender: string, person: Id): void {
    const who = new Map(this.who);
    if (person === '') who.delete(sender);
    else who.set(sender, person);
    this.who = who;
  }

  private toggle(index: number): void {
    const without = new Set(this.without);
    if (!without.delete(index)) without.add(index);
    this.without = without;
  }

  private keep(taken: readonly Message[]): void {
    void this.run('keep', async () => {
      const kept = await api.post<{ notes: unknown[]; already: number }>(`/songs/${this.sheet.song.id}/conversations`, {
        bounce: this.sheet.song.newest!.bounce,
        messages: taken.map((m) => ({ person: this.who.get(m.sender), when: m.when || null, text: m.text })),
      });
      this.pasted = '';
      this.read = null;
      this.told = `${capital(count(kept.notes.length, 'note'))} kept${kept.already > 0 ? `, ${count(kept.already, 'of them was', 'were')} there already` : ''}.`;
      this.dispatchEvent(new CustomEvent('written'));
    });
  }
}

customElements.define('mix-conversation', PastedConversation);
