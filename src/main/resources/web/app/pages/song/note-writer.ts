/** Writing a note: at a place or for the whole song, with the reading of it beside. Sending never waits for the reading. */
import { html, LitElement, nothing, type TemplateResult } from 'lit';
import { api, asProblem, isAbort, newKey } from '../../api/client.ts';
import type { AskedChange, AskedKeep, NoteReading, NoteSent, PersonName } from '../../api/types.ts';
import type { Problem } from '../../api/problem.ts';
import { at, notePlace, type Span } from '../../geometry/form.ts';
import { Scope } from '../../scope.ts';
import { refused } from '../../signs/signs.ts';
import { clock } from '../../words/numbers.ts';
import { keyOf, readingList, type ReadingEdit } from './reading.ts';

interface Draft {
  text: string;
  place: number | null;
  whole: boolean;
}

export class NoteWriter extends LitElement {
  declare song: string;
  declare bounce: string;
  declare spans: readonly Span[];
  declare elements: readonly string[];
  /** Where play stands now, seconds on the bounce. */
  declare position: () => number;
  /** Start of the loop that is heard, or 0. */
  declare loopFrom: () => number;
  declare engineer: string;
  /** People a note can be written for, or none. */
  declare others: readonly PersonName[];
  declare gathered: boolean;
  declare private draft: Draft;
  declare private reading: NoteReading | null;
  declare private phase: 'idle' | 'sending' | 'sent';
  declare private problem: Problem | null;
  declare private editing: string | null;
  static properties = {
    song: {}, bounce: {}, spans: { attribute: false }, elements: { attribute: false },
    position: { attribute: false }, loopFrom: { attribute: false }, engineer: {}, others: { attribute: false }, gathered: { attribute: false },
    draft: { state: true }, reading: { state: true }, phase: { state: true }, problem: { state: true }, editing: { state: true },
  };

  private scope = new Scope();
  private asking = new AbortController();
  private readOf = '';
  private waiting: (() => void) | null = null;
  private key = newKey();
  private readonly corrected = new Map<string, AskedChange | AskedKeep | null>();

  constructor() {
    super();
    this.song = '';
    this.bounce = '';
    this.spans = [];
    this.elements = [];
    this.position = () => 0;
    this.loopFrom = () => 0;
    this.engineer = '';
    this.others = [];
    this.gathered = false;
    this.draft = { text: '', place: null, whole: false };
    this.reading = null;
    this.phase = 'idle';
    this.problem = null;
    this.editing = null;
  }

  protected createRenderRoot(): HTMLElement {
    return this;
  }

  connectedCallback(): void {
    super.connectedCallback();
    this.scope = new Scope();
  }

  disconnectedCallback(): void {
    super.disconnectedCallback();
    this.scope.close();
  }

  willUpdate(changed: Map<string, unknown>): void {
    if (changed.has('bounce') && this.bounce && this.draft.text === '') this.restore();
  }

  /** Puts the cursor here; the place is taken when typing begins. */
  take(): void {
    this.querySelector('textarea')?.focus();
    this.scrollIntoView({ block: 'center' });
  }

  render(): TemplateResult {
    const { draft } = this;
    const empty = draft.text.trim() === '';
    return html`<form class="form gap" @submit=${this.send} @keydown=${this.keys}>
      <p class="placed">${this.placeLine()}</p>
      <label><span class="hide">Your note</span><textarea rows="3" .value=${draft.text} @input=${this.typed} placeholder="In your own words" aria-describedby="note-place"></textarea></label>
      <div aria-live="polite">${this.readingView()}</div>
      ${this.others.length > 0 ? html`<details class="fold"><summary>For somebody else</summary><label>On behalf of
        <select name="behalf"><option value="">me</option>${this.others.map((p) => html`<option value=${p.person}>${p.name}</option>`)}</select></label></details>` : nothing}
      ${this.gathered ? html`<label class="tick"><input type="checkbox" name="only"><span>For ${this.engineer || 'the engineer'} only</span></label>` : nothing}
      ${refused(this.problem)}
      <p class="btns"><button class="btn main" type="submit" ?disabled=${empty || this.phase === 'sending'}>${this.phase === 'sending' ? 'Sending' : 'Send note'}</button>
        ${this.phase === 'sent' ? html`<span class="saved" role="status">Sent. ${this.engineer || 'The engineer'} gets your words as you wrote them.</span>` : nothing}</p>
    </form>`;
  }

  private placeLine(): TemplateResult {
    const { draft } = this;
    const begun = draft.text !== '';
    const place = draft.place ?? 0;
    const other = (words: string, whole: boolean) =>
      html`<button class="btn plain" type="button" @click=${() => this.change({ whole })}>${words}</button>`;
    if (draft.whole) return html`<span id="note-place">For <b>the whole song</b></span> ${other(begun && draft.place !== null ? `At ${this.words(place)} instead` : 'At a place instead', false)}`;
    if (!begun) return html`<span id="note-place">At the place you hear when you begin to write</span> ${other('Whole song instead', true)}`;
    return html`<span id="note-place">At <b>${this.words(place)}</b></span> ${other('Whole song instead', true)}`;
  }

  private words(place: number): string {
    const section = at(this.spans, place);
    return section ? `${section.name}, ${clock(place)}` : clock(place);
  }

  private readingView(): TemplateResult | typeof nothing {
    const { draft, reading } = this;
    if (!reading || draft.text.trim() === '') return nothing;
    if (reading.changes.length + reading.keeps.length === 0) {
      return html`<p class="small quiet">${this.engineer || 'The engineer'} gets your words. Nothing to change was read out of them.</p>`;
    }
    const edit: ReadingEdit = {
      editing: this.editing, sections: this.spans.map((s) => s.name), elements: this.elements,
      place: draft.whole || draft.place === null ? [] : { from: draft.place, to: draft.place },
      open: (key) => (this.editing = key),
      set: (key, value) => {
        this.corrected.set(key, value);
        this.editing = null;
      },
    };
    return html`<p class="small quiet">${this.engineer || 'The engineer'} gets your words. We read them like this:</p>
      ${readingList(reading, this.corrected, edit)}`;
  }

  private typed(e: Event): void {
    const text = (e.target as HTMLTextAreaElement).value;
    const begins = this.draft.text === '' && text !== '';
    this.change({ text, ...(begins && this.draft.place === null ? { place: notePlace(this.position(), this.loopFrom()) } : {}), ...(text === '' ? { place: null } : {}) });
    this.phase = 'idle';
    this.problem = null;
    this.waiting?.();
    if (text.trim() === '') {
      this.reading = null;
      this.corrected.clear();
    } else {
      this.waiting = this.scope.after(450, () => void this.read());
    }
  }

  private keys(e: KeyboardEvent): void {
    if (e.key === 'Enter' && (e.ctrlKey || e.metaKey)) {
      e.preventDefault();
      this.querySelector('form')!.requestSubmit();
    }
  }

  private async read(): Promise<void> {
    this.asking.abort();
    this.asking = new AbortController();
    const { text } = this.draft;
    try {
      const reading = await api.post<NoteReading>('/note-readings', {
        text, sections: this.spans.map(({ name, from, to }) => ({ name, from, to })), elements: this.elements,
        bounce: this.bounce,
      }, { signal: this.asking.signal });
      if (text !== this.draft.text) return;
      // A correction holds as long as the words it was made on are read the same.
      const keys = new Set([...reading.changes, ...reading.keeps].map(keyOf));
      for (const key of this.corrected.keys()) if (!keys.has(key)) this.corrected.delete(key);
      this.reading = reading;
      this.readOf = text;
    } catch (reason) {
      // The reading is a service, not a condition: the note can be sent without it.
      if (!isAbort(reason)) this.reading = null;
    }
  }

  /** The reading as it stands after corrections, if it belongs to these very words. */
  private correctedReading(): { changes: AskedChange[]; keeps: AskedKeep[] } | undefined {
    const { reading } = this;
    if (!reading || this.corrected.size === 0 || this.readOf !== this.draft.text) return undefined;
    const kept = <T extends AskedChange | AskedKeep>(list: readonly T[]): T[] =>
      list.map((item) => (this.corrected.has(keyOf(item)) ? (this.corrected.get(keyOf(item)) as T | null) : item))
        .filter((item) => item !== null) as T[];
    return { changes: kept(reading.changes), keeps: kept(reading.keeps) };
  }

  private async send(e: SubmitEvent): Promise<void> {
    e.preventDefault();
    const { draft } = this;
    if (draft.text.trim() === '' || this.phase === 'sending') return;
    const form = new FormData(e.target as HTMLFormElement);
    const behalfOf = String(form.get('behalf') ?? '');
    const reading = this.correctedReading();
    const place = draft.whole || draft.place === null ? {} : { from: draft.place };
    this.phase = 'sending';
    this.problem = null;
    try {
      const sent = await api.post<NoteSent>(`/songs/${this.song}/notes`, {
        text: draft.text, bounce: this.bounce, ...place, ...(behalfOf ? { behalfOf } : {}),
        ...(form.get('only') ? { engineerOnly: true } : {}), ...(reading ? { reading } : {}),
      }, { key: this.key });
      this.key = newKey();
      this.asking.abort();
      this.waiting?.();
      this.draft = { text: '', place: null, whole: false };
      this.keep();
      this.reading = null;
      this.corrected.clear();
      this.phase = 'sent';
      this.dispatchEvent(new CustomEvent('noted', { detail: sent }));
    } catch (reason) {
      this.phase = 'idle';
      this.problem = asProblem(reason);
    }
  }

  private change(change: Partial<Draft>): void {
    this.draft = { ...this.draft, ...change };
    this.keep();
  }

  private get storageKey(): string {
    return `mixaccord.note.${this.song}.${this.bounce}`;
  }

  private keep(): void {
    try {
      if (this.draft.text === '') localStorage.removeItem(this.storageKey);
      else localStorage.setItem(this.storageKey, JSON.stringify(this.draft));
    } catch {
      // A browser that keeps nothing still lets one write.
    }
  }

  private restore(): void {
    try {
      const kept = localStorage.getItem(this.storageKey);
      if (!kept) return;
      const { text, place, whole } = JSON.parse(kept) as Draft;
      if (typeof text === 'string') {
        this.draft = { text, place: typeof place === 'number' ? place : null, whole: whole === true };
        this.waiting = this.scope.after(200, () => void this.read());
      }
    } catch {
      localStorage.removeItem(this.storageKey);
    }
  }
}
customElements.define('mix-note', NoteWriter);
