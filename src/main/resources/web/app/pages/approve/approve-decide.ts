import { html, nothing, type PropertyValues, type TemplateResult } from 'lit';
import { api } from '../../api/client.ts';
import type { Agreed, Approval, ApprovalMade, Bounce, Decision, Id, OpenPoint } from '../../api/types.ts';
import { Living } from '../../living.ts';
import { refused, sign } from '../../signs/signs.ts';
import { loading, loadInto, type Load } from '../../state/load.ts';
import { sentMains } from '../../state/moved.ts';
import { me } from '../../state/me.ts';
import { bounceName, type Sheet } from '../../state/sheet.ts';
import { loopHref } from '../../state/wish.ts';
import { askWords, partWords } from '../../words/changes.ts';
import { clockTenths, shortHash } from '../../words/numbers.ts';
import { codeOf, waitsFor } from '../../words/waiting.ts';
import { deliveryLine } from '../../words/delivery.ts';
import { givenList } from './approve-given.ts';

interface Standing {
  readonly points: readonly OpenPoint[];
  readonly given: readonly Approval[];
  readonly agreed: readonly Agreed[];
}

const HOLDS: ReadonlyArray<readonly [string, string]> = [
  ['measured', 'Measured'],
  ['sent', 'Sent to everybody'],
  ['file-sound', 'The file is sound'],
  ['no-open-question', 'No question open, nothing to settle'],
  ['no-open-change', 'Everything asked for is done or answered'],
  ['spec-met', 'As agreed for delivery'],
  ['no-stop', 'Nobody said stop'],
];

/** What still stands before approval, and the decision itself. */
class ApproveDecide extends Living {
  declare sheet: Sheet;
  declare bounce: Bounce;
  /** Counts up when something happened to the song. */
  declare turn: number;
  declare private standing: Load<Standing>;
  declare private despite: ReadonlySet<string>;
  declare private onceDone: ReadonlySet<Id>;
  static properties = {
    ...Living.properties,
    sheet: { attribute: false },
    bounce: { attribute: false },
    turn: { attribute: false },
    standing: { state: true },
    despite: { state: true },
    onceDone: { state: true },
  };

  constructor() {
    super();
    this.turn = 0;
    this.standing = loading;
    this.despite = new Set();
    this.onceDone = new Set();
  }

  protected open(): void {
    // Asked for when the mix or the turn is known, see updated().
  }

  protected updated(changed: PropertyValues): void {
    if (changed.has('bounce') || changed.has('turn')) void this.ask();
  }

  private ask(): Promise<void> {
    const path = `/bounces/${this.bounce.id}`;
    const asked = Promise.all([
      api.get<OpenPoint[]>(`${path}/open-points`, this.scope.signal),
      api.all<Approval>(`${path}/approvals`, this.scope.signal),
      api.get<Agreed[]>(`${path}/delivery-check`, this.scope.signal),
    ]).then(([points, given, agreed]) => ({ points, given, agreed }));
    return loadInto(asked, (load) => {
      if (load.phase === 'ready' || this.standing.phase !== 'ready') this.standing = load;
    });
  }

  private decide(decision: Decision): void {
    const form = this.querySelector('form');
    const field = (name: string) => String(form ? (new FormData(form).get(name) ?? '') : '').trim();
    const body = {
      decision,
      pcmSha256: this.bounce.file?.pcmSha256,
      comment: field('comment') || undefined,
      ...(decision === 'approve' && this.despite.size > 0 ? { despite: [...this.despite], reason: field('reason') } : {}),
      ...(decision === 'approve' && this.onceDone.size > 0 ? { onceDone: [...this.onceDone] } : {}),
    };
    void this.run('decide', async () => {
      await api.post<ApprovalMade>(`/bounces/${this.bounce.id}/approvals`, body);
      this.despite = new Set();
      this.onceDone = new Set();
      form?.reset();
      await this.ask();
      this.dispatchEvent(new Event('decided'));
    });
  }

  private withdraw(approval: Approval, reason: string): void {
    void this.run(approval.id, async () => {
      const query = reason === '' ? '' : `?reason=${encodeURIComponent(reason)}`;
      await api.del(`/approvals/${approval.id}${query}`);
      await this.ask();
      this.dispatchEvent(new Event('decided'));
    });
  }

  render(): TemplateResult {
    const standing = this.standing;
    return html`<section aria-labelledby="before-title">
      <h2 id="before-title">Before approval</h2>
      ${standing.phase === 'failed' ? refused(standing.problem) : nothing}
      ${standing.phase === 'ready' ? this.shown(standing.value) : nothing}
    </section>`;
  }

  private shown({ points, given, agreed }: Standing): TemplateResult {
    const open = new Set(points.map((point) => point.code));
    return html`<ul class="points gap">
        ${points.map((point) => html`<li class="open">${sign('asked')}<div>${point.code === 'file-sound' ? this.unsound(point) : html`<b>${point.detail}</b>`}${point.passable ? html`<p class="small">You can go ahead anyway, with a reason.</p>` : nothing}</div></li>`)}
        ${HOLDS.filter(([code]) => !open.has(code)).map(([code, words]) => html`<li>${sign('good')}<p>${code === 'spec-met' ? deliveryLine(agreed) : words}</p></li>`)}
      </ul>
      ${givenList(given, this.sheet, {
        mayLift: this.sheet.song.may.includes('approve'),
        withdraw: (approval, reason) => this.withdraw(approval, reason),
        refusal: (id) => this.refusal(id),
      })}
      ${this.sheet.song.may.includes('say-fine') || this.sheet.song.may.includes('approve') ? this.form(points, this.approved(given)) : nothing}`;
  }

  /** Why a file that is not sound stops everything, what to do, and where to hear it. */
  private unsound(point: OpenPoint): TemplateResult {
    const { bounce, sheet } = this;
    const found = bounce.defects.filter((defect) => defect.affectsSound);
    const name = bounce.uploader === me.value?.id ? '' : sheet.nameOf(bounce.uploader);
    return html`${found.length === 0 ? html`<b>${point.detail}</b>` : found.map(({ detail, from, to }) => html`<p><b>${detail}</b></p>
        ${from == null ? nothing : html`<p class="btns"><a class="btn" href=${loopHref(sheet.song.id, bounce.id, null, { from: Math.max(0, from - 1.5), to: (to ?? from) + 1.5 })}>${sign('loop', 'lp')}Listen at ${clockTenths(from)}</a></p>`}`)}
      <p class="small">Nobody can go past this: what is approved has to be the sound that was meant. ${name === '' ? 'Bring the file anew' : `Ask ${name} to bring the file anew`}, and decide on that one.</p>`;
  }

  /** Whether the reader has approved this mix and no newer one asks again. */
  private approved(given: readonly Approval[]): boolean {
    return sentMains(this.sheet.mains)[0]?.id === this.bounce.id
      && given.some((one) => one.decision === 'approve' && one.state === 'valid' && one.by === me.value?.id);
  }

  private form(points: readonly OpenPoint[], approved: boolean): TemplateResult {
    const may = (act: 'approve' | 'say-fine') => this.sheet.song.may.includes(act) && !(act === 'approve' && approved);
    const name = bounceName(this.bounce);
    const hash = this.bounce.file?.pcmSha256 ?? '';
    const waiting = this.sheet.song.waitingOn;
    const finishes = waiting !== null && codeOf(waiting) === 'finish' && waitsFor(waiting, me.value?.id);
    return html`<form class="decide form press" @submit=${(event: Event) => event.preventDefault()}>
      <p>${approved ? 'You have decided' : 'You decide'} on <b>${name}</b>, this audio and no other. <span class="hash quiet" title=${hash}>${shortHash(hash)}</span></p>
      ${may('approve') ? this.passing(points) : nothing}
      ${may('approve') ? this.once() : nothing}
      <label>A word with it, if you like <input type="text" name="comment" maxlength="2000" autocomplete="off"></label>
      ${this.refusal('decide')}
      ${may('approve')
        ? html`<button class="btn main" type="button" ?disabled=${this.running || points.some((point) => point.code === 'file-sound')} @click=${() => this.decide('approve')}>Approve ${name}${this.onceDone.size > 0 ? ' once these are done' : ''}</button>`
        : nothing}
      ${finishes ? html`<button class="btn main" type="button" ?disabled=${this.running} @click=${() => this.decide('finished')}>Mark ${name} finished</button>` : nothing}
      ${may('say-fine')
        ? html`<div class="pairbtn">
            <button class="btn" type="button" ?disabled=${this.running} @click=${() => this.decide('fine-by-me')}>It’s fine</button>
            <button class="btn" type="button" ?disabled=${this.running} @click=${() => this.decide('not-yet')}>Not yet</button>
            <button class="btn" type="button" ?disabled=${this.running} @click=${() => this.decide('stop')}>Stop</button>
          </div>`
        : nothing}
      <p class="small quiet">“It’s fine” says good to all you asked for, and approves nothing. “Not yet” asks for more work. “Stop” blocks every approval until it is lifted.</p>
      <p class="small quiet">An approval records a listening decision; it replaces no contract, licence or professional or legal advice.</p>
    </form>`;
  }

  /** Open points one may go past: each is named, with one reason for all. */
  private passing(points: readonly OpenPoint[]): TemplateResult | typeof nothing {
    const passable = points.filter((point) => point.passable);
    if (passable.length === 0) return nothing;
    const toggle = (code: string) => {
      const despite = new Set(this.despite);
      if (!despite.delete(code)) despite.add(code);
      this.despite = despite;
    };
    return html`<fieldset class="form"><legend class="hide">Go ahead although something is open</legend>
      ${passable.map((point) => html`<label class="tick"><input type="checkbox" .checked=${this.despite.has(point.code)} @change=${() => toggle(point.code)}><span>Go ahead anyway: ${point.detail}</span></label>`)}
      ${this.despite.size > 0 ? html`<label>Why? <input type="text" name="reason" required maxlength="1000" autocomplete="off"></label>` : nothing}
    </fieldset>`;
  }

  private once(): TemplateResult | typeof nothing {
    const open = this.sheet.changes.filter((change) => change.state === 'asked');
    if (open.length === 0) return nothing;
    const toggle = (id: Id) => {
      const chosen = new Set(this.onceDone);
      if (!chosen.delete(id)) chosen.add(id);
      this.onceDone = chosen;
    };
    return html`<details class="fold"><summary>Fine once these are done…</summary>
      <div class="form">
        ${open.map((change) => html`<label class="tick"><input type="checkbox" .checked=${this.onceDone.has(change.id)} @change=${() => toggle(change.id)}><span>${partWords(change.element)}: ${askWords(change)}</span></label>`)}
        <p class="help">Your approval takes effect on a later mix by itself, if these are done there as asked and nothing else has moved.</p>
      </div>
    </details>`;
  }
}
customElements.define('approve-decide', ApproveDecide);
