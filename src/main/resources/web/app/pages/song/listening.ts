/** Puts the listening bar on the page with what it has to know. */
import { html, type TemplateResult } from 'lit';
import type { Bounce } from '../../api/types.ts';
import { mixWords, sentWords } from '../../words/mixes.ts';
import type { Context } from './context.ts';
import './listen-bar.ts';
import type { Named } from './listen-bar.ts';

export function listenBar(context: Context, outline: readonly number[] | null, gainDb: number | null, jot: () => void, choose: (lead: string, other: string | null) => void): TemplateResult {
  const { data } = context;
  const pair = [data.other, data.lead].filter((b): b is Bounce => b !== null).map(named);
  const choice = data.bounces.filter((b) => b.state === 'ready').map(named);
  return html`<mix-listen .player=${context.player} .sections=${context.spans} .marks=${context.marks} .pulse=${context.pulse}
    .outline=${outline} .gainDb=${gainDb} .pair=${pair} .choice=${choice} .figures=${context.may('hear-private')} .canNote=${context.may('write-note')}
    @jot=${jot} @choose=${(e: CustomEvent<{ lead: string; other: string | null }>) => choose(e.detail.lead, e.detail.other)}></mix-listen>`;
}

function named(bounce: Bounce): Named {
  return { id: bounce.id, words: mixWords(bounce), quiet: sentWords(bounce) || 'private' };
}
