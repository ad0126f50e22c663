/** Puts the listening bar on the page with what it has to know. */
import { html, type TemplateResult } from 'lit';
import type { Bounce } from '../../api/types.ts';
import { mixWords, sentWords } from '../../words/mixes.ts';
import type { Context } from './context.ts';
import './listen-bar.ts';
import type { Named, Opening } from './listen-bar.ts';

export function listenBar(context: Context, outline: readonly number[] | null, gainDb: number | null, jot: () => void, choose: (opening: Opening) => void): TemplateResult {
  const { data } = context;
  const choice = data.bounces.filter((b) => b.state === 'ready');
  const opened = [data.lead, data.other, ...data.more].map((b) => b?.id);
  const open = choice.filter((b) => opened.includes(b.id));
  return html`<mix-listen .player=${context.player} .sections=${context.spans} .marks=${context.marks} .pulse=${context.pulse}
    .outline=${outline} .gainDb=${gainDb} .open=${open.map(named)} .choice=${choice.map(named)} .figures=${context.may('hear-private')} .canNote=${context.may('write-note')}
    @jot=${jot} @choose=${(e: CustomEvent<Opening>) => choose(e.detail)}></mix-listen>`;
}

function named(bounce: Bounce): Named {
  return { id: bounce.id, words: mixWords(bounce), quiet: sentWords(bounce) || 'private' };
}
