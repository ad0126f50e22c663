import { html, nothing, type PropertyValues, type TemplateResult } from 'lit';
import { api } from '../../api/client.ts';
import type { HistoryLine } from '../../api/types.ts';
import { Living } from '../../living.ts';
import { refused } from '../../signs/signs.ts';
import { loading, loadInto, type Load } from '../../state/load.ts';
import type { Sheet } from '../../state/sheet.ts';
import { shortHash } from '../../words/numbers.ts';
import { stamp } from '../../words/time.ts';

const FIRST = 8;

/** The record of a song: what was done and decided, newest first; each line seals the one before. */
class ApproveRecord extends Living {
  declare sheet: Sheet;
  declare turn: number;
  declare private lines: Load<readonly HistoryLine[]>;
  declare private all: boolean;
  static properties = {
    ...Living.properties,
    sheet: { attribute: false },
    turn: { attribute: false },
    lines: { state: true },
    all: { state: true },
  };

  constructor() {
    super();
    this.turn = 0;
    this.lines = loading;
    this.all = false;
  }

  protected open(): void {
    // Asked for with each turn, see updated().
  }

  protected updated(changed: PropertyValues): void {
    if (!changed.has('turn')) return;
    void loadInto(api.all<HistoryLine>(`/songs/${this.sheet.song.id}/history`, this.scope.signal), (load) => {
      if (load.phase === 'ready' || this.lines.phase !== 'ready') this.lines = load;
    });
  }

  render(): TemplateResult {
    const lines = this.lines;
    return html`<section class="part" aria-labelledby="record-title">
      <h2 id="record-title">The record</h2>
      ${lines.phase === 'failed' ? refused(lines.problem) : nothing}
      ${lines.phase === 'ready' ? this.table(lines.value) : nothing}
    </section>`;
  }

  private table(lines: readonly HistoryLine[]): TemplateResult {
    if (lines.length === 0) return html`<p class="quiet">Nothing has happened yet.</p>`;
    const newest = [...lines].sort((a, b) => b.seq - a.seq);
    const shown = this.all ? newest : newest.slice(0, FIRST);
    return html`<table class="rows record">
        <caption class="hide">What was done and decided, newest first. Nothing is ever taken out.</caption>
        <thead><tr><th scope="col">When</th><th scope="col">What</th><th scope="col">Sealed as</th></tr></thead>
        <tbody>${shown.map((line) => this.line(line))}</tbody>
      </table>
      <p class="small quiet gap">Each line seals the one before it.
        ${this.all || newest.length <= FIRST ? nothing : html`<button class="btn plain" type="button" @click=${() => (this.all = true)}>All ${newest.length} lines</button>`}
        <a class="btn plain" href="/api/v1/songs/${this.sheet.song.id}/history?limit=500" download="record.json">Save the record</a></p>`;
  }

  private line(line: HistoryLine): TemplateResult {
    return html`<tr>
      <td class="quiet r-at">${stamp(line.at)}</td>
      <th scope="row" class="r-who">${this.words(line)}</th>
      <td class="hash quiet r-h" title=${line.hash}>${shortHash(line.hash)}</td>
    </tr>`;
  }

  /** The sentence that was written down, which names the person; else who did what. */
  private words(line: HistoryLine): string {
    if (typeof line.detail === 'string' && line.detail !== '') return line.detail;
    return `${line.byName ?? this.sheet.nameOf(line.by)}: ${line.act.replaceAll('-', ' ')}`;
  }
}
customElements.define('approve-record', ApproveRecord);
