import { html, nothing, type TemplateResult } from 'lit';
import type { Bounce, ChangeAnswer, ChangeState, Id } from '../../api/types.ts';
import type { Sheet } from '../../state/sheet.ts';
import { bounceName, mayBeDoneIn, mayMark } from '../../state/sheet.ts';

/** Which of the two small forms of the bar is open. */
export type Marking = 'none' | 'differently' | 'left';

export interface Acts {
  choose(marking: Marking): void;
  mark(state: ChangeState, answer?: ChangeAnswer, reason?: string): void;
  join(): void;
  clear(): void;
  refusal(): TemplateResult | typeof nothing;
}

const REASONS: ReadonlyArray<readonly [ChangeAnswer, string]> = [
  ['tried', 'Tried it, better without'],
  ['cannot', 'It can’t be done'],
  ['need-files', 'Files are missing'],
  ['new-work', 'It is new work'],
];

/** The bar for what is ticked: it stays in view, and is not there while nothing is ticked. */
export function actBar(marked: ReadonlySet<Id>, sheet: Sheet, marking: Marking, running: boolean, acts: Acts): TemplateResult | typeof nothing {
  const newest = sheet.mains.find((bounce) => bounce.id === sheet.song.newest?.bounce);
  if (marked.size === 0 && !sheet.changes.some((change) => mayMark(change, sheet.mains))) return nothing;
  if (marked.size === 0) {
    return html`<p class="act quiet" role="status">Tick what is done or left; one press marks all of it.</p>`;
  }
  const changes = sheet.changes.filter((change) => marked.has(change.id));
  const asked = changes.every((change) => change.state === 'asked');
  const done = changes.every((change) => change.state === 'done');
  const doable = mayBeDoneIn(changes, newest);
  return html`<div class="act" role="group" aria-label="For what is ticked">
    <b role="status">${marked.size} ticked</b>
    <span class="btns">
      ${asked
        ? html`${doable
              ? html`<button class="btn main" type="button" ?disabled=${running} @click=${() => acts.mark('done', 'as-asked')}>Done in ${bounceName(newest!)}</button>
                <button class="btn" type="button" aria-expanded=${marking === 'differently'} @click=${() => acts.choose(marking === 'differently' ? 'none' : 'differently')}>Differently…</button>`
              : nothing}
            <button class="btn" type="button" aria-expanded=${marking === 'left'} @click=${() => acts.choose(marking === 'left' ? 'none' : 'left')}>Left…</button>`
        : nothing}
      ${asked && changes.length > 1 ? html`<button class="btn" type="button" ?disabled=${running} @click=${acts.join}>Work them as one</button>` : nothing}
      ${done ? html`<button class="btn" type="button" ?disabled=${running} @click=${() => acts.mark('asked')}>Not done after all</button>` : nothing}
      ${asked || done ? nothing : html`<span>Tick either open ones or done ones.</span>`}
      <button class="btn plain" type="button" @click=${acts.clear}>Untick all</button>
    </span>
    ${marking === 'none' && (asked || done) ? html`<span class=${doable || done ? 'small quiet wide-only' : 'small'}>${seenWords(newest, asked && !doable)}</span>` : nothing}
    ${asked && marking === 'left' ? leftForm(running, acts) : nothing}
    ${asked && doable && marking === 'differently' ? differentlyForm(running, acts) : nothing}
    ${acts.refusal()}
  </div>`;
}

function seenWords(newest: Bounce | undefined, waits: boolean): string {
  if (!newest) return 'Bring in the next mix, then mark what you did in it; your ticks stay.';
  if (waits) return `${bounceName(newest)} has been sent. Bring in the next mix, then mark what you did in it; your ticks stay.`;
  return newest.sent
    ? `${bounceName(newest)} has been sent: everybody sees this at once.`
    : 'Nobody else sees what is done until you send the mix.';
}

function leftForm(running: boolean, acts: Acts): TemplateResult {
  const send = (event: SubmitEvent) => {
    event.preventDefault();
    const form = new FormData(event.target as HTMLFormElement);
    acts.mark('left', form.get('answer') as ChangeAnswer, String(form.get('reason') ?? '').trim());
  };
  return html`<form class="form why" @submit=${send}>
    <div class="line">
      <label>Left, because
        <select name="answer">${REASONS.map(([value, words]) => html`<option value=${value}>${words}</option>`)}</select></label>
      <label>In your words <input type="text" name="reason" required maxlength="1000" autocomplete="off"></label>
      <button class="btn main" type="submit" ?disabled=${running}>Leave</button>
    </div>
    <p class="small quiet">Everybody sees this at once.</p>
  </form>`;
}

function differentlyForm(running: boolean, acts: Acts): TemplateResult {
  const send = (event: SubmitEvent) => {
    event.preventDefault();
    acts.mark('done', 'differently', String(new FormData(event.target as HTMLFormElement).get('reason') ?? '').trim());
  };
  return html`<form class="form why" @submit=${send}>
    <div class="line">
      <label>Solved differently: how? <input type="text" name="reason" required maxlength="1000" autocomplete="off"></label>
      <button class="btn main" type="submit" ?disabled=${running}>Done differently</button>
    </div>
  </form>`;
}
