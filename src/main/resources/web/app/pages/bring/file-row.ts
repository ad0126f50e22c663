/** One file on its way: its name, how it stands, and what can be done about it. */
import { html, nothing, type TemplateResult } from 'lit';
import { uploads } from '../../uploads/queue.ts';
import { troubled, type Upload } from '../../uploads/target.ts';
import { standingOf } from '../../words/sending.ts';

/** A line of a list; with the song's name where the page is not that song's. */
export function fileRow(one: Upload, named: boolean): TemplateResult {
  const { phase, name, target } = one;
  const what = target.element ?? '';
  const odd = troubled(one);
  const bar = phase.is === 'sending' || (phase.is === 'held' && one.sent > 0) || (phase.is === 'left' && one.sent > 0);
  return html`<li class="sent-file" data-upload=${one.id} data-phase=${phase.is}>
    <div><p><b>${name}</b>${named ? html` <a class="small" href="/songs/${target.song}">${target.songTitle}</a>` : nothing} ${what ? html`<span class="quiet small">${what}</span>` : nothing}</p>
      <p class=${odd ? 'small' : 'small quiet'} role=${odd ? 'alert' : nothing}>${standingOf(one)}</p>
      ${bar ? html`<progress max=${one.bytes} .value=${one.sent} aria-label="How much of ${name} is there"></progress>` : nothing}</div>
    <p class="btns">${presses(one)}</p></li>`;
}

function presses(one: Upload): TemplateResult {
  const press = (words: string, work: () => void) =>
    html`<button class="btn plain" type="button" aria-label="${words}: ${one.name}" @click=${work}>${words}</button>`;
  switch (one.phase.is) {
    case 'arrived': return press('Put away', () => uploads.drop(one.id));
    case 'left': return press('Give up', () => uploads.drop(one.id));
    case 'refused': return html`${one.phase.problem.code === 'file-changed' ? nothing : press('Again', () => uploads.again(one.id))}${press('Put away', () => uploads.drop(one.id))}`;
    case 'held': return html`${one.phase.why === 'line' || one.phase.why === 'server' ? press('Try now', () => uploads.wake()) : nothing}${press('Cancel', () => uploads.drop(one.id))}`;
    default: return press('Cancel', () => uploads.drop(one.id));
  }
}
