import { html, nothing, type TemplateResult } from 'lit';
import { api } from '../../api/client.ts';
import { followSong, gathered } from '../../api/events.ts';
import type { Change, ChangeAnswer, ChangeState, Id, Keep } from '../../api/types.ts';
import { Page } from '../../page.ts';
import { head, way, whenThere } from '../../signs/frame.ts';
import { none, roundAtWork, roundWords, tally } from '../../signs/signs.ts';
import { chosen, groupList, isLater, passes, tallyOf, type Choice, type Filter, type ListGroup, type Order } from '../../state/list.ts';
import { idle, loading, loadInto, type Load } from '../../state/load.ts';
import { loadSheet, mayBeDoneIn, mayMark, type Sheet } from '../../state/sheet.ts';
import { keepTicks, keptTicks } from '../../state/ticks.ts';
import { capital, count } from '../../words/numbers.ts';
import { waitingWords, writingWords } from '../../words/gathering.ts';
import { rehearsalMarks } from '../../words/sections.ts';
import type { AskedFields } from '../asking/ask-fields.ts';
import { actBar, type Marking } from './list-acts.ts';
import { besideBlock, groupBlock, laterBlock, memoBlock, remarkBlock, type Hand } from './list-rows.ts';
import { fieldsOf } from './list-tools.ts';
import './conversation.ts';
import './own-line.ts';
import './take-along.ts';

const ORDERS: ReadonlyArray<readonly [Order, string]> = [['section', 'By section'], ['part', 'By part']];
const FILTERS: ReadonlyArray<readonly [Filter, string]> = [
  ['all', 'all'], ['open', 'open'], ['done', 'done'], ['left', 'left'], ['settled', 'answered'],
];

/** Everything asked for, by section or by part; the engineer marks many with one press. */
class ListPage extends Page {
  declare private sheet: Load<Sheet>;
  declare private order: Order;
  declare private filter: Filter;
  declare private marked: ReadonlySet<Id>;
  declare private marking: Marking;
  /** The one small form that is open, by its name and change. */
  declare private opened: string;
  /** The change of that form, as it was then. */
  declare private asOpened: Change | null;
  declare private choice: Choice;
  declare private parts: readonly AskedFields[];
  declare private sentTogether: boolean;
  static properties = {
    ...Page.properties,
    sheet: { state: true },
    order: { state: true },
    filter: { state: true },
    marked: { state: true },
    marking: { state: true },
    opened: { state: true },
    asOpened: { state: true },
    choice: { state: true },
    parts: { state: true },
    sentTogether: { state: true },
  };

  constructor() {
    super();
    this.sheet = loading;
    this.order = 'section';
    this.filter = 'all';
    this.marked = new Set();
    this.marking = 'none';
    this.opened = '';
    this.asOpened = null;
    this.choice = { asker: null, round: null };
    this.parts = [];
    this.sentTogether = false;
  }

  private get song(): Id {
    return this.param('song');
  }

  protected open(): void {
    this.titled('Change list');
    this.marked = keptTicks(this.song);
    void this.ask();
    const again = gathered(this.scope, () => void this.ask());
    followSong(this.song, this.scope, (event) => event.type === 'progress' || again(), again);
    this.scope.listen<KeyboardEvent>(window, 'keydown', (event) => this.pressed(event));
  }

  private async ask(): Promise<void> {
    await loadInto(loadSheet(this.song, this.scope.signal), (load) => {
      if (load.phase === 'ready' || this.sheet.phase !== 'ready') this.sheet = load;
    });
    if (this.sheet.phase !== 'ready') return;
    this.titled(`Change list, ${this.sheet.value.song.title}`);
    const { changes, mains } = this.sheet.value;
    const still = new Set(changes.filter((change) => mayMark(change, mains)).map((change) => change.id));
    this.tick([...this.marked].filter((id) => still.has(id)));
  }

  /** These are ticked, and no others. */
  private tick(ids: readonly Id[]): void {
    this.marked = new Set(ids);
    keepTicks(this.song, this.marked);
  }

  /** What is ticked and in view: what a filter hides is not marked with it. */
  private get inView(): ReadonlySet<Id> {
    if (this.sheet.phase !== 'ready') return new Set();
    const shown = this.sheet.value.changes.filter((change) => chosen(change, this.choice) && passes(change, this.filter));
    return new Set(shown.map((change) => change.id).filter((id) => this.marked.has(id)));
  }

  /** D marks all that is ticked as done, unless somebody is typing. */
  private pressed(event: KeyboardEvent): void {
    if (event.key.toLowerCase() !== 'd' || event.metaKey || event.ctrlKey || event.altKey) return;
    if ((event.target as Element).closest('input:not([type="checkbox"]):not([type="radio"]), textarea, select')) return;
    const { inView, sheet } = this;
    if (inView.size === 0 || sheet.phase !== 'ready') return;
    const newest = sheet.value.mains.find((mix) => mix.id === sheet.value.song.newest?.bounce);
    const changes = sheet.value.changes.filter((change) => inView.has(change.id));
    if (mayBeDoneIn(changes, newest)) this.mark('done', 'as-asked');
  }

  private mark(state: ChangeState, answer?: ChangeAnswer, reason?: string): void {
    const changes = [...this.inView];
    void this.run('mark', async () => {
      await api.post(`/songs/${this.song}/changes/marking`, { changes, state, answer, reason: reason || undefined });
      this.tick([...this.marked].filter((id) => !changes.includes(id)));
      this.marking = 'none';
      await this.ask();
    });
  }

  private readonly hand: Hand = {
    toggle: (change) => {
      const marked = new Set(this.marked);
      if (!marked.delete(change.id)) marked.add(change.id);
      this.tick([...marked]);
      // Why the last press was refused says nothing of other ticks.
      if (!this.running) this.press = idle;
    },
    open: (form, change) => {
      const name = `${form} ${change.id}`;
      this.opened = this.opened === name ? '' : name;
      this.asOpened = this.opened === '' ? null : change;
      if (form === 'split') this.parts = [fieldsOf(change), fieldsOf(change)];
    },
    isOpen: (form, change) => this.opened === `${form} ${change.id}`,
    asOpened: (change) => (this.asOpened?.id === change.id ? this.asOpened : change),
    reopen: (change) => {
      this.asOpened = change;
      this.press = idle;
    },
    parts: () => this.parts,
    setParts: (parts) => (this.parts = parts),
    split: (change, parts) => this.post(change.id, `/changes/${change.id}/splitting`, { parts }),
    part: (change) => this.post(change.id, `/changes/${change.id}/parting`),
    swap: (first, second) => {
      void this.run(first, async () => {
        await api.put(`/songs/${this.song}/changes/order`, { changes: [second, first] });
        await this.ask();
      });
    },
    patch: (change, fields) => this.patch(change, fields),
    settle: (change) => this.post(change.id, `/changes/${change.id}/settlement`),
    answer: (question, body) => this.post(question.id, `/questions/${question.id}/answer`, body),
    withdrawKeep: (keep) => this.post(keep.id, `/keeps/${keep.id}/withdrawal`),
    writeLine: (note, text) => this.post(note.id, `/notes/${note.id}/line`, { text }),
    refusal: (id) => this.refusal(id),
  };

  private patch(change: Change, fields: object): void {
    void this.run(change.id, async () => {
      try {
        await api.patch(`/changes/${change.id}`, fields, { etag: change.etag });
        this.opened = '';
      } finally {
        await this.ask();
      }
    });
  }

  private sendTogether(): void {
    void this.run('round', async () => {
      await api.post(`/songs/${this.song}/rounds/current/notes-sending`, {});
      this.sentTogether = true;
      await this.ask();
    });
  }

  private post(what: Id, path: string, body: object = {}): void {
    void this.run(what, async () => {
      await api.post(path, body);
      this.opened = '';
      await this.ask();
    });
  }

  /** What is ticked is worked as one from now on. */
  private join(): void {
    const changes = [...this.inView];
    void this.run('mark', async () => {
      await api.post(`/songs/${this.song}/changes/joining`, { changes });
      this.tick([]);
      await this.ask();
    });
  }

  render(): TemplateResult {
    return whenThere(this.sheet, (sheet) => this.shown(sheet));
  }

  private shown(sheet: Sheet): TemplateResult {
    const { song } = sheet;
    const now = sheet.changes.filter((change) => !isLater(change, song));
    const later = sheet.changes.filter((change) => isLater(change, song));
    const theirs = now.filter((change) => chosen(change, this.choice));
    const shown = theirs.filter((change) => passes(change, this.filter));
    const all = this.filter === 'all' && this.choice.round === null;
    const keeps = all ? sheet.keeps.filter((keep) => this.choice.asker === null || authorOf(keep, sheet) === this.choice.asker) : [];
    const groups = groupList(shown, keeps, sheet.sections, this.order);
    const works = song.may.includes('work-list');
    return html`
      ${way([{ words: 'All songs', href: '/' }, { words: song.title, href: `/songs/${song.id}` }, { words: 'Change list' }], this.me, song.you.role)}
      ${head({
        title: 'Change list',
        by: `${song.title}, ${song.artist}`,
        left: html`<p>${authorsWords(sheet)}</p>`,
        right: this.round(sheet),
      })}
      <main id="main" class="list" tabindex="-1">
        ${sheet.changes.length === 0 && sheet.keeps.length === 0 && sheet.notes.length === 0 ? this.nothing() : this.tabs(theirs, sheet)}
        ${memoBlock(sheet, this.hand)}
        ${this.blocks(groups, sheet)}
        ${all && this.choice.asker === null ? html`${besideBlock(sheet)}${remarkBlock(sheet)}` : nothing}
        ${laterBlock(later, sheet, this.hand)}
        ${works ? html`<mix-own-line .sheet=${sheet} @written=${() => void this.ask()}></mix-own-line>
          <mix-conversation .sheet=${sheet} @written=${() => void this.ask()}></mix-conversation>` : nothing}
        <mix-take-along .sheet=${sheet}></mix-take-along>
        ${works ? actBar(this.inView, sheet, this.marking, this.running, {
            choose: (marking) => (this.marking = marking),
            mark: (state, answer, reason) => this.mark(state, answer, reason),
            join: () => this.join(),
            clear: () => this.tick([]),
            refusal: () => this.refusal('mark'),
          }) : nothing}
      </main>`;
  }

  private choose(label: string, all: string, options: readonly (readonly [string, string])[], now: string | null, take: (value: string | null) => void): TemplateResult {
    return html`<label class="in-line">${label} <select @change=${(e: Event) => take((e.target as HTMLSelectElement).value || null)}>
      <option value="" ?selected=${now === null}>${all}</option>
      ${options.map(([value, words]) => html`<option value=${value} ?selected=${now === value}>${words}</option>`)}</select></label>`;
  }

  private nothing(): TemplateResult {
    return none(html`<b>Nobody has asked for anything.</b> Notes turn up here by themselves as soon as they are sent.`);
  }

  private blocks(groups: readonly ListGroup[], sheet: Sheet): TemplateResult {
    const marks = rehearsalMarks(sheet.sections.map((section) => section.name));
    const none = groups.length === 0 && (this.filter !== 'all' || this.choice.asker !== null || this.choice.round !== null);
    return html`${groups.map((group) => groupBlock(group, sheet, this.order, marks, this.marked, this.hand))}
      ${none ? html`<p class="quiet gap">Nothing of that kind.</p>` : nothing}`;
  }

  private round({ song }: Sheet): TemplateResult {
    const closed = song.roundState === 'closed';
    const round = roundAtWork(song);
    const words = round === 0 ? 'Nothing sent yet' : `Round ${roundWords(round, song.includedRounds)}`;
    return html`<p>${tally(round, song.includedRounds)}<strong>${words}</strong></p>
      ${closed ? html`<p>${song.may.includes('work-list') ? 'closed, you are on it' : 'closed, being worked on'}</p>` : nothing}
      ${!closed && round > 0 && song.may.includes('close-round')
        ? html`<p class="btns end"><button class="btn" type="button" ?disabled=${this.running} @click=${() => this.post('round', `/songs/${song.id}/rounds/current/closing`)}>I’m on it</button></p>
            <p class="small">Closes this round’s list; later notes wait for the next.</p>`
        : nothing}
      ${song.writing > 0 && song.may.includes('work-list') ? html`<p>${writingWords(song)}</p>` : nothing}
      ${song.gatherNotes && song.writing > 0 && song.may.includes('send-gathered')
        ? html`<p>${waitingWords(song)}</p><p class="btns end"><button class="btn" type="button" ?disabled=${this.running} @click=${() => this.sendTogether()}>Send our notes</button></p>`
        : nothing}
      ${this.sentTogether ? html`<p class="saved" role="status">Your notes are with the engineer.</p>` : nothing}
      ${this.refusal('round')}`;
  }

  private tabs(changes: readonly Change[], sheet: Sheet): TemplateResult {
    const tally = tallyOf(changes);
    const askers = [...new Set(sheet.changes.map((change) => change.author))];
    const rounds = [...new Set(sheet.changes.map((change) => change.round))].sort((a, b) => a - b);
    return html`<div class="tabs">
      <fieldset class="seg"><legend class="hide">Order</legend>
        ${ORDERS.map(([order, words]) => html`<label><input type="radio" name="order" value=${order} .checked=${this.order === order} @change=${() => (this.order = order)}>${words}</label>`)}
      </fieldset>
      <fieldset class="seg"><legend class="hide">Show</legend>
        ${FILTERS.map(([filter, words]) => html`<label><input type="radio" name="filter" value=${filter} .checked=${this.filter === filter} @change=${() => (this.filter = filter)}>${tally[filter]} ${words}</label>`)}
      </fieldset>
      ${askers.length > 1 ? this.choose('Asked by', 'anybody', askers.map((id) => [id, sheet.nameOf(id)] as const), this.choice.asker, (asker) => (this.choice = { ...this.choice, asker })) : nothing}
      ${rounds.length > 1 ? this.choose('Round', 'all', rounds.map((round) => [String(round), String(round)] as const), this.choice.round === null ? null : String(this.choice.round), (round) => (this.choice = { ...this.choice, round: round === null ? null : Number(round) })) : nothing}
      <button class="btn plain" type="button" @click=${() => window.print()}>Print</button>
    </div>`;
  }
}

/** Whose note a keep was drawn from. */
function authorOf(keep: Keep, sheet: Sheet): Id | null {
  return sheet.notes.find((note) => note.id === keep.note)?.author ?? null;
}

function authorsWords(sheet: Sheet): string {
  const names = [...new Set(sheet.changes.map((change) => sheet.nameOf(change.author)))];
  if (names.length === 0) return '';
  return capital(`${count(sheet.changes.length, 'change')} asked by ${names.join(', ')}`);
}

customElements.define('page-list', ListPage);
