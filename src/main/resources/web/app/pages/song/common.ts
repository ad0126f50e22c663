/** Parts of the song page that the desk and the listeners share. */
import { html, nothing, type TemplateResult } from 'lit';
import type { Bounce } from '../../api/types.ts';
import { you } from '../../signs/signs.ts';
import { isSent, mixWords, problemWords } from '../../words/mixes.ts';
import { capital, count } from '../../words/numbers.ts';
import type { Context } from './context.ts';
import type { SongPage } from './song-page.ts';
import '../../memos/memo-button.ts';
import './note-writer.ts';

/** The note writer, for everyone who may write. */
export function noteSection(context: Context, page: SongPage): TemplateResult | typeof nothing {
  const { data, me } = context;
  if (!data.lead || !context.may('write-note')) return nothing;
  const engineer = data.people.find((p) => p.role === 'engineer');
  const behalf = data.song.you.role === 'engineer' || data.song.you.role === 'manager';
  const first = engineer && engineer.person !== me ? engineer.name.split(' ')[0]! : '';
  const gathered = data.song.gatherNotes && data.song.you.role !== 'engineer';
  return html`<section class="part note-part" id="note"><h2>Write a note</h2>
    <mix-note .person=${me} .song=${data.song.id} .bounce=${data.lead.id} .mix=${mixWords(data.lead)} .spans=${context.spans} .elements=${elementsOf(context)}
      .position=${() => context.player.position()} .loopFrom=${() => context.player.state.loop?.from ?? 0} .engineer=${first}
      .others=${behalf ? data.people.filter((p) => p.person !== me) : []} .gathered=${gathered} .sends=${context.may('send-gathered')} .closed=${data.song.roundState === 'closed'}
      @noted=${() => page.songState.refresh(['notes', 'changes', 'keeps', 'questions', 'song'])}></mix-note>
    <mix-memo .person=${me} .song=${data.song.id} .bounce=${data.lead.id} .gathered=${gathered} .engineer=${first} .position=${() => context.player.position()} .hush=${() => context.player.pause()}
      @noted=${() => page.songState.refresh(['notes', 'song'])}></mix-memo></section>`;
}

/** Parts this song knows by name. */
export function elementsOf(context: Context): string[] {
  const named = [...context.data.changes, ...context.data.keeps].map((t) => t.element);
  return [...new Set(['lead vocal', 'backing vocals', 'drums', 'bass', 'guitars', 'keys', ...named])].filter((e) => e !== 'mix');
}

/** A newer mix has come while this one is open. */
export function newerMix(context: Context, page: SongPage): TemplateResult | typeof nothing {
  const { newer } = context.data;
  if (!newer) return nothing;
  return html`<p class="newer" role="status"><span>${you(`${mixWords(newer)} is here.`)} ${isSent(newer) ? '' : 'It is private.'}</span>
    <button class="btn" type="button" @click=${() => void page.songState.chooseNewest()}>Open ${mixWords(newer)}</button></p>`;
}

/** Files on their way, and those that can't be used. */
export function arriving(context: Context): TemplateResult | typeof nothing {
  const coming = context.data.bounces.filter((b) => b.state === 'received' || b.state === 'measuring');
  const { me, data: { bounces } } = context;
  const failed = bounces.filter((b) => b.state === 'failed' && (b.uploader === me || context.may('hear-private'))).reverse();
  if (coming.length + failed.length === 0) return nothing;
  // Where a usable file of the kind has come since, it is told behind a press only.
  const open = failed.filter((b) => !bounces.slice(bounces.indexOf(b)).some((later) => later.kind === b.kind && later.state === 'ready'));
  const shown = open.slice(0, FAILED_SHOWN);
  const rest = failed.filter((b) => !shown.includes(b));
  return html`<section class="part arriving" aria-label="On its way">
    ${coming.map((b) => html`<div role="status"><p><b>Measuring ${mixWords(b)}.</b> <span class="quiet">${b.file?.name ?? ''}</span></p>
      <progress max="1" .value=${b.progress ?? 0} aria-label="Measuring ${mixWords(b)}"></progress></div>`)}
    ${shown.map(useless)}
    ${rest.length > 0 ? html`<details class="fold"><summary>${capital(count(rest.length, shown.length > 0 ? 'more file' : 'file'))} that can’t be used</summary>${rest.map(useless)}</details>` : nothing}</section>`;
}

/** The newest that failed; older ones are behind a press. */
const FAILED_SHOWN = 2;

function useless(bounce: Bounce): TemplateResult {
  return html`<p><b>“${bounce.file?.name ?? mixWords(bounce)}” can’t be used.</b> ${problemWords(bounce)} The file stays here as it came.</p>`;
}
