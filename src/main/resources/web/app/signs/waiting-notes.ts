/** Notes that wait for the line, or that were refused after it came back. */
import { html, nothing, type TemplateResult } from 'lit';
import type { Unsent } from '../state/outbox.ts';
import { clock } from '../words/numbers.ts';
import { said, sign } from './signs.ts';

/** What can be done with one. */
export interface WaitingPresses {
  /** Takes it back into the field it was written in; none where there is no field. */
  readonly edit: ((note: Unsent) => void) | null;
  drop(note: Unsent): void;
  send(note: Unsent): void;
  /** Whether no other note is being written, so that one can be taken back into the field. */
  readonly free: boolean;
}

export function waitingNotes(notes: readonly Unsent[], presses: WaitingPresses): TemplateResult | typeof nothing {
  if (notes.length === 0) return nothing;
  return html`<ul class="lines unsent" aria-label="Notes not sent yet">${notes.map((note) => one(note, presses))}</ul>`;
}

function one(note: Unsent, presses: WaitingPresses): TemplateResult {
  const place = note.body.from === undefined ? 'whole song' : clock(note.body.from);
  return html`<li><div>${said(note.body.text)}
      ${note.problem
        ? html`<p class="refused" role="alert">${sign('stop')}<span>Not sent. ${note.problem} Your words are kept here.</span></p>`
        : html`<p role="status"><strong>Not sent yet.</strong> It goes by itself as soon as the line is back, on ${note.mix}, ${place}.</p>`}
      <p class="btns">
        ${note.problem ? html`<button class="btn plain flush" type="button" @click=${() => presses.send(note)}>Send again</button>` : nothing}
        ${presses.edit ? html`<button class="btn plain flush" type="button" ?disabled=${!presses.free} @click=${() => presses.edit?.(note)}>Change the words</button>` : nothing}
        <button class="btn plain flush" type="button" @click=${() => presses.drop(note)}>Don’t send it</button></p></div></li>`;
}
