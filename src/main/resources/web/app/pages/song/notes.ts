/** What people wrote, word for word, at the place the music went to. */
import { html, nothing, type TemplateResult } from 'lit';
import { api } from '../../api/client.ts';
import type { Note } from '../../api/types.ts';
import { at } from '../../geometry/form.ts';
import { memoPlayer } from '../../memos/memo-player.ts';
import { refused, said, sign } from '../../signs/signs.ts';
import { capital, clock, count } from '../../words/numbers.ts';
import { day } from '../../words/time.ts';
import { isMine, mixName, nameOf, type Context } from './context.ts';
import type { SongPage } from './song-page.ts';

/** Seconds that are played around a note that names one moment. */
const AROUND = 4;

export function notesList(context: Context, page: SongPage): TemplateResult | typeof nothing {
  const notes = [...context.data.notes].sort((a, b) => b.at.localeCompare(a.at));
  if (notes.length === 0) return nothing;
  const key = 'notes';
  return html`<details class="fold" ?open=${page.remembered.get(key) === 'open'} @toggle=${(e: Event) => page.remember(key, (e.target as HTMLDetailsElement).open ? 'open' : '')}>
    <summary>${capital(count(notes.length, 'note'))}, as written</summary>
    <ul class="lines">${notes.map((n) => note(context, n))}</ul></details>`;
}

function note(context: Context, n: Note): TemplateResult {
  const { data, me } = context;
  const keeps = data.keeps.filter((k) => k.note === n.id);
  return html`<li><div>${said(n.memo?.line ?? n.text)}${n.memo ? memoPlayer(n) : nothing}
      <p class="small quiet">${capital(n.authorName ?? nameOf(data, n.author, me))}, ${n.saidWhen ?? day(n.at)}${placeOf(context, n)}${n.changes.length + n.keeps.length === 0 ? '. Nothing asked' : ''}</p></div>
    ${n.shownFrom === null ? html`<span></span>` : html`<button class="loop" type="button" aria-label="Play the place of this note" @click=${() => play(context, n)}>${sign('loop', '')}</button>`}
    ${keeps.map((k) => (isMine(data, n.author, me) || data.song.you.lastWord
      ? html`<p class="under"><button class="btn plain flush" type="button" @click=${() => context.press(`keep ${k.id}`, () => api.post(`/keeps/${k.id}/withdrawal`, {}))}>No need to leave it alone any more</button></p>${refused(context.refusals.get(`keep ${k.id}`))}` : nothing))}</li>`;
}

function placeOf(context: Context, n: Note): string {
  const { data } = context;
  const written = n.bounce === data.lead?.id ? '' : `, on ${mixName(data, n.bounce)}`;
  if (n.shownFrom === null) return `${n.from === null ? ', whole song' : ', its passage is not in this mix'}${written}`;
  const section = at(context.spans, n.shownFrom)?.name;
  const fallen = n.place === 'section' && n.from !== null ? ' (the passage itself is not in this mix)' : '';
  return `, ${section ? `${section}, ` : ''}${clock(n.shownFrom)}${fallen}${written}`;
}

function play(context: Context, n: Note): void {
  const from = n.shownFrom ?? 0;
  const to = n.shownTo !== null && n.shownTo - from > 1 ? n.shownTo : from + 2 * AROUND;
  context.player.setLoop({ from: Math.max(0, n.shownTo !== null && n.shownTo > from ? from : from - 1), to }, true);
  if (!context.player.playing) void context.player.play();
}
