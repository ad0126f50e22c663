import { html, nothing, type TemplateResult } from 'lit';
import { api } from '../../api/client.ts';
import { followSong, gathered } from '../../api/events.ts';
import type { Change, ChangeAnswer, ChangeState, Id } from '../../api/types.ts';
import { Page } from '../../page.ts';
import { head, way, whenThere } from '../../signs/frame.ts';
import { none, roundAtWork, roundWords, tally } from '../../signs/signs.ts';
import { groupList, isLater, passes, tallyOf, type Filter, type ListGroup, type Order } from '../../state/list.ts';
import { loading, loadInto, type Load } from '../../state/load.ts';
import { loadSheet, mayMark, type Sheet } from '../../state/sheet.ts';
import { capital, count } from '../../words/numbers.ts';
import { rehearsalMarks } from '../../words/sections.ts';
import { actBar, type Marking } from './list-acts.ts';
import { groupBlock, laterBlock, remarkBlock, type Hand } from './list-rows.ts';

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
  declare private asking: Id | null;
  static properties = {
    ...Page.properties,
    sheet: { state: true },
    order: { state: true },
    filter: { state: true },
    marked: { state: true },
    marking: { state: true },
    asking: { state: true },
  };

  constructor() {
    super();
    this.sheet = loading;
    this.order = 'section';
    this.filter = 'all';
    this.marked = new Set();
    this.marking = 'none';
    this.asking = null;
  }

  private get song(): Id {
    return this.param('song');
  }

  protected open(): void {
    this.titled('Change list');
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
    const still = new Set(this.sheet.value.changes.filter(mayMark).map((change) => change.id));
    this.marked = new Set([...this.marked].filter((id) => still.has(id)));
  }

  /** D marks all that is ticked as done, unless somebody is typing. */
  private pressed(event: KeyboardEvent): void {
    if (event.key.toLowerCase() !== 'd' || event.metaKey || event.ctrlKey || event.altKey) return;
    if ((event.target as Element).closest('input:not([type="checkbox"]):not([type="radio"]), textarea, select')) return;
    if (this.marked.size > 0) this.mark('done', 'as-asked');
  }

  private mark(state: ChangeState, answer?: ChangeAnswer, reason?: string): void {
    const changes = [...this.marked];
    void this.run('mark', async () => {
      await api.post(`/songs/${this.song}/changes/marking`, { changes, state, answer, reason: reason || undefined });
      this.marked = new Set();
      this.marking = 'none';
      await this.ask();
    });
  }

  private readonly hand: Hand = {
    toggle: (change) => {
      const marked = new Set(this.marked);
      if (!marked.delete(change.id)) marked.add(change.id);
      this.marked = marked;
    },
    ask: (change) => (this.asking = this.asking === change?.id ? null : (change?.id ?? null)),
    patch: (change, fields) => this.patch(change, fields),
    settle: (change) => this.post(change.id, `/changes/${change.id}/settlement`),
    answer: (question, body) => this.post(question.id, `/questions/${question.id}/answer`, body),
    withdrawKeep: (keep) => this.post(keep.id, `/keeps/${keep.id}/withdrawal`),
    refusal: (id) => this.refusal(id),
  };

  private patch(change: Change, fields: object): void {
    void this.run(change.id, async () => {
      try {
        await api.patch(`/changes/${change.id}`, fields, { etag: change.etag });
        this.asking = null;
      } finally {
        await this.ask();
      }
    });
  }

  private post(what: Id, path: string, body: object = {}): void {
    void this.run(what, async () => {
      await api.post(path, body);
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
    const shown = now.filter((change) => passes(change, this.filter));
    const keeps = this.filter === 'all' ? sheet.keeps : [];
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
        ${sheet.changes.length === 0 && sheet.keeps.length === 0 && sheet.notes.length === 0 ? this.nothing() : this.tabs(now)}
        ${this.blocks(groups, sheet)}
        ${this.filter === 'all' ? remarkBlock(sheet) : nothing}
        ${laterBlock(later, sheet, this.hand, this.asking)}
        ${works ? actBar(this.marked, sheet, this.marking, this.running, {
            choose: (marking) => (this.marking = marking),
            mark: (state, answer, reason) => this.mark(state, answer, reason),
            clear: () => (this.marked = new Set()),
            refusal: () => this.refusal('mark'),
          }) : nothing}
      </main>`;
  }

  private nothing(): TemplateResult {
    return none(html`<b>Nobody has asked for anything.</b> Notes turn up here by themselves as soon as they are sent.`);
  }

  private blocks(groups: readonly ListGroup[], sheet: Sheet): TemplateResult {
    const marks = rehearsalMarks(sheet.sections.map((section) => section.name));
    const none = groups.length === 0 && this.filter !== 'all';
    return html`${groups.map((group) => groupBlock(group, sheet, this.order, marks, this.marked, this.hand, this.asking))}
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
      ${song.gatherNotes && song.may.includes('send-gathered')
        ? html`<p class="btns end"><button class="btn" type="button" ?disabled=${this.running} @click=${() => this.post('round', `/songs/${song.id}/rounds/current/notes-sending`)}>Send our notes</button></p>`
        : nothing}
      ${this.refusal('round')}`;
  }

  private tabs(changes: readonly Change[]): TemplateResult {
    const tally = tallyOf(changes);
    return html`<div class="tabs">
      <fieldset class="seg"><legend class="hide">Order</legend>
        ${ORDERS.map(([order, words]) => html`<label><input type="radio" name="order" value=${order} .checked=${this.order === order} @change=${() => (this.order = order)}>${words}</label>`)}
      </fieldset>
      <fieldset class="seg"><legend class="hide">Show</legend>
        ${FILTERS.map(([filter, words]) => html`<label><input type="radio" name="filter" value=${filter} .checked=${this.filter === filter} @change=${() => (this.filter = filter)}>${tally[filter]} ${words}</label>`)}
      </fieldset>
      <button class="btn plain" type="button" @click=${() => window.print()}>Print</button>
    </div>`;
  }
}

function authorsWords(sheet: Sheet): string {
  const names = [...new Set(sheet.changes.map((change) => sheet.nameOf(change.author)))];
  if (names.length === 0) return '';
  return capital(`${count(sheet.changes.length, 'change')} asked by ${names.join(', ')}`);
}

customElements.define('page-list', ListPage);
