/** Writing a note: at a place or for the whole song, with the reading of it beside. Sending waits for the reading only to keep what was corrected in it. */
import { html, LitElement, nothing, type TemplateResult } from 'lit';
import { api, isAbort } from '../../api/client.ts';
import type { AskedChange, AskedKeep, NoteReading, PersonName } from '../../api/types.ts';
import { Problem } from '../../api/problem.ts';
import { at, notePlace, type Span } from '../../geometry/form.ts';
import { Scope } from '../../scope.ts';
import { refused } from '../../signs/signs.ts';
import { waitingNotes } from '../../signs/waiting-notes.ts';
import { capital, clock } from '../../words/numbers.ts';
import { draftFor, EMPTY, keepDraft, type NoteDraft } from '../../state/note-draft.ts';
import { send, sendAgain, takeOut, toSend, unsent, type Unsent } from '../../state/outbox.ts';
import { carryOver, keyOf, readingList, type ReadingEdit } from './reading.ts';

const MOST_READING_MS = 5000;

export class NoteWriter extends LitElement {
  /** Who writes. */
  declare person: string;
  declare song: string;
  declare bounce: string;
  /** What that mix is called. */
  declare mix: string;
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
  /** Whether it is the writer who sends the band's notes. */
  declare sends: boolean;
  /** The round's list is being worked: what is written now waits for the next. */
  declare closed: boolean;
  declare private draft: NoteDraft;
  declare private reading: NoteReading | null;
  declare private phase: 'idle' | 'sending' | 'sent' | 'waiting';
  declare private problem: Problem | null;
  declare private editing: string | null;
  static properties = {
    person: {}, song: {}, bounce: {}, mix: {}, spans: { attribute: false }, elements: { attribute: false },
    position: { attribute: false }, loopFrom: { attribute: false }, engineer: {}, others: { attribute: false }, gathered: { attribute: false }, sends: { attribute: false }, closed: { attribute: false },
    draft: { state: true }, reading: { state: true }, phase: { state: true }, problem: { state: true }, editing: { state: true },
  };

  private scope = new Scope();
  private asking = new AbortController();
  private readOf = '';
  /** The note that is on its way just now: it is not called unsent before that has failed. */
  private going = '';
  /** Whether the last one waits with the band's. */
  private together = false;
  private waiting: (() => void) | null = null;
  private readonly corrected = new Map<string, AskedChange | AskedKeep | null>();

  constructor() {
    super();
    this.person = '';
    this.song = '';
    this.bounce = '';
    this.mix = '';
    this.spans = [];
    this.elements = [];
    this.position = () => 0;
    this.loopFrom = () => 0;
    this.engineer = '';
    this.others = [];
    this.gathered = false;
    this.sends = false;
    this.closed = false;
    this.draft = EMPTY;
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
    this.scope.onClose(unsent.watch((notes) => {
      // It has gone out while this page was open.
      if (this.phase === 'waiting' && !notes.some((n) => n.song === this.song)) {
        this.phase = 'sent';
        this.dispatchEvent(new CustomEvent('noted'));
      }
      this.requestUpdate();
    }));
  }

  disconnectedCallback(): void {
    super.disconnectedCallback();
    this.scope.close();
  }

  willUpdate(changed: Map<string, unknown>): void {
    if ((changed.has('bounce') || changed.has('person')) && this.bounce && this.person && this.draft.text === '') this.restore();
  }

  /** Puts the cursor here; the place is taken when typing begins. */
  take(): void {
    this.querySelector('textarea')?.focus();
    this.scrollIntoView({ block: 'center' });
  }

  render(): TemplateResult {
    const { draft } = this;
    const empty = draft.text.trim() === '';
    return html`${this.waitingView()}<form class="form gap" @submit=${this.send} @keydown=${this.keys}>
      <p class="placed">${this.placeLine()}</p>
      <label><span class="hide">Your note</span><textarea rows="3" .value=${draft.text} @input=${this.typed} placeholder="In your own words" aria-describedby="note-place"></textarea></label>
      <div aria-live="polite">${this.readingView()}</div>
      ${this.others.length > 0 ? html`<details class="fold" ?open=${draft.behalf !== ''}><summary>For somebody else</summary><label>On behalf of
        <select name="behalf" @change=${(e: Event) => this.change({ behalf: (e.target as HTMLSelectElement).value })}><option value="">me</option>${this.others.map((p) => html`<option value=${p.person} ?selected=${p.person === draft.behalf}>${p.name}</option>`)}</select></label></details>` : nothing}
      ${this.gathered ? html`<label class="tick"><input type="checkbox" name="only" .checked=${draft.only} @change=${(e: Event) => this.change({ only: (e.target as HTMLInputElement).checked })}><span>For ${this.engineer || 'the engineer'} only</span></label>` : nothing}
      ${refused(this.problem)}
      <p class="btns"><button class="btn main" type="submit" ?disabled=${empty || this.phase === 'sending'}>${this.phase === 'sending' ? 'Sending' : 'Send note'}</button>
        ${this.phase === 'sent' ? html`<span class="saved" role="status">${this.sentWords()}</span>` : nothing}</p>
    </form>`;
  }

  private sentWords(): string {
    const engineer = this.engineer || 'the engineer';
    if (this.together) {
      return `Kept with the band’s notes. ${this.sends ? `You send them to ${engineer} together` : `They go to ${engineer} together`}, ${this.sends
        ? 'with “Send our notes”.' : 'when whoever has the last word sends them.'}`;
    }
    return this.closed
      ? `Sent. ${capital(engineer)} is on this round’s list already, so your words wait for the next one.`
      : `Sent. ${capital(engineer)} gets your words as you wrote them.`;
  }

  /** Notes of this song that have not arrived yet. */
  private waitingView(): TemplateResult | typeof nothing {
    return waitingNotes(unsent.value.filter((n) => n.song === this.song && n.key !== this.going), {
      edit: (note) => this.edit(note),
      drop: (note) => {
        this.phase = 'idle';
        takeOut(note);
      },
      send: sendAgain,
      free: this.draft.text.trim() === '',
    });
  }

  private edit(note: Unsent): void {
    this.phase = 'idle';
    takeOut(note);
    const { body } = note;
    this.change({
      text: body.text, place: body.from ?? null, whole: body.from === undefined, bounce: body.bounce, mix: note.mix,
      behalf: body.behalfOf ?? '', only: body.engineerOnly === true, was: note.tries > 0 ? body.text : note.was,
    });
    this.phase = 'idle';
    this.take();
    void this.read();
  }

  private placeLine(): TemplateResult {
    const { draft } = this;
    const begun = draft.text !== '';
    const place = draft.place ?? 0;
    const other = (words: string, whole: boolean) =>
      html`<button class="btn plain" type="button" @click=${() => this.change({ whole })}>${words}</button>`;
    const mix = draft.bounce !== '' && draft.bounce !== this.bounce ? html`, on <b>${draft.mix}</b>` : nothing;
    if (draft.whole) return html`<span id="note-place">For <b>the whole song</b>${mix}</span> ${other(begun && draft.place !== null ? `At ${this.words(place)} instead` : 'At a place instead', false)}`;
    if (!begun) return html`<span id="note-place">At the place you hear when you begin to write</span> ${other('Whole song instead', true)}`;
    return html`<span id="note-place">At <b>${this.words(place)}</b>${mix}</span> ${other('Whole song instead', true)}`;
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
    this.change({ text, ...(begins && this.draft.bounce === '' ? { bounce: this.bounce, mix: this.mix } : {}), ...(begins && this.draft.place === null ? { place: notePlace(this.position(), this.loopFrom()) } : {}), ...(text === '' ? { place: null, bounce: '', mix: '', was: null } : {}) });
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
        bounce: this.draft.bounce || this.bounce,
      }, { signal: this.asking.signal });
      if (text !== this.draft.text) return;
      // A correction holds as long as the words it was made on are read the same.
      carryOver(this.corrected, this.reading, reading);
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
    this.phase = 'sending';
    if (this.corrected.size > 0 && this.readOf !== draft.text) {
      this.waiting?.();
      // A line that has gone quiet must not keep the words from being sent.
      const enough = this.scope.after(MOST_READING_MS, () => this.asking.abort());
      await this.read();
      enough();
      if (this.draft.text !== draft.text) {
        // Somebody typed on: these are not the words they want to send.
        this.phase = 'idle';
        return;
      }
    }
    const reading = this.correctedReading();
    const note = toSend(this.person, this.song, draft.mix || this.mix, {
      text: draft.text, bounce: draft.bounce || this.bounce, ...(draft.whole || draft.place === null ? {} : { from: draft.place }),
      ...(draft.behalf ? { behalfOf: draft.behalf } : {}), ...(draft.only ? { engineerOnly: true } : {}), ...(reading ? { reading } : {}),
    }, draft.was);
    this.problem = null;
    this.going = note.key;
    const sent = await send(note);
    this.going = '';
    if (sent instanceof Problem) {
      this.phase = 'idle';
      this.problem = sent;
      if (sent.code === 'arrived') this.change({ was: null });
      return;
    }
    this.together = this.gathered && !draft.only;
    this.asking.abort();
    this.waiting?.();
    keepDraft(this.person, this.song, draft.bounce || this.bounce, null);
    this.draft = EMPTY;
    this.reading = null;
    this.corrected.clear();
    this.phase = sent === 'waiting' ? 'waiting' : 'sent';
    if (sent !== 'waiting') this.dispatchEvent(new CustomEvent('noted', { detail: sent }));
    // Another one may have been left half-written on an earlier mix.
    this.restore();
  }

  private change(change: Partial<NoteDraft>): void {
    this.draft = { ...this.draft, ...change };
    const { draft } = this;
    if (this.person) keepDraft(this.person, this.song, draft.bounce || this.bounce, draft.text === '' ? null : draft);
  }

  private restore(): void {
    const kept = draftFor(this.person, this.song, this.bounce);
    if (!kept) return;
    this.draft = kept;
    this.waiting = this.scope.after(200, () => void this.read());
  }
}
customElements.define('mix-note', NoteWriter);
