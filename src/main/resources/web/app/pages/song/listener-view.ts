/** The page for artists, managers and listeners: what waits for their ears, the song as a list, their note. */
import { html, nothing, type TemplateResult } from 'lit';
import type { InWords } from '../../api/types.ts';
import { none, sign } from '../../signs/signs.ts';
import { mixWords, ROUGH_KINDS } from '../../words/mixes.ts';
import { chart } from './chart.ts';
import { bandNotes, doneAsks, lastWord, message, questions, type Hearing } from './asks.ts';
import { mixName, type Context } from './context.ts';
import { arriving, elementsOf, newerMix, noteSection } from './common.ts';
import { figures } from './desk-panels.ts';
import { fileWarning } from './file-notes.ts';
import { formList, inWords } from './form-list.ts';
import { hearingOf } from './hearing.ts';
import { notesList } from './notes.ts';
import type { SongPage } from './song-page.ts';
import './blind-picks.ts';
import './stems.ts';
import '../bring/upload.ts';

export function listenerView(context: Context, page: SongPage): TemplateResult {
  const { data } = context;
  if (!data.lead) {
    return html`<section class="part"><h2>No mix yet</h2>${none('The first mix will be here as soon as it is sent.')}</section>${files(context)}`;
  }
  const hearing: Hearing = hearingOf(context, page);
  return html`${newerMix(context, page)}<div class="split"><div>
      ${fileWarning(context)}${message(context, hearing)}${questions(context)}${doneAsks(context, hearing)}<mix-blind .context=${context}></mix-blind>${bandNotes(context)}${lastWord(context)}${moved(context, page)}
    </div><div>${formList(context)}${noteSection(context, page)}${notesList(context, page)}${files(context)}</div></div>
    ${partByPart(context)}`;
}

/** The chart, for whoever wants to see who asked what of which part. */
function partByPart(context: Context): TemplateResult | typeof nothing {
  if (context.spans.length === 0 || context.data.changes.length + context.data.keeps.length === 0) return nothing;
  const nobody = { comparison: null, findings: [], judged: new Map() };
  return html`<details class="fold part wide-chart"><summary>The song, part by part</summary>
    ${chart(context, nobody, { done: () => undefined, asRead: () => undefined }, false)}</details>`;
}

/** What moved, in words first; figures behind another press, unless the engineer closed them. */
function moved(context: Context, page: SongPage): TemplateResult | typeof nothing {
  const { data } = context;
  const evidence = page.evidence.data.value;
  const open = context.may('see-figures');
  if (!evidence.words && !open) return nothing;
  const opened = (key: string) => (e: Event) => page.remember(key, (e.target as HTMLDetailsElement).open ? 'open' : '');
  return html`<section class="part"><h2>In words</h2>${loudestWords(context, evidence.words)}
    ${open && data.other ? html`<details class="fold" ?open=${page.remembered.get('moved') === 'open'} @toggle=${opened('moved')}><summary>What moved since ${mixName(data, data.other.id)}</summary>
      ${evidence.comparison ? inWords(evidence.comparison)
        : html`<p class="quiet">${evidence.problem ?? `${mixWords(data.lead!)} and ${mixWords(data.other)} are being set against each other.`}</p>`}</details>` : nothing}
    ${open ? html`<details class="fold" ?open=${page.remembered.get('figures') === 'open'} @toggle=${opened('figures')}><summary>Show figures</summary>
      ${figures(context, evidence, page.remembered.get('figures-of') ?? '', (s) => page.remember('figures-of', s))}</details>` : nothing}</section>`;
}

/** Where the mix is loudest, in a sentence, and the place to hear. */
function loudestWords(context: Context, words: InWords | null): TemplateResult | typeof nothing {
  if (!words) return nothing;
  const section = words.section;
  return html`<p>${words.words}</p>${section === null ? nothing
    : html`<p class="btns"><button class="btn plain flush" type="button" @click=${() => context.loopSection(section)}>${sign('loop', 'lp')}Hear ${section}</button></p>`}`;
}

/** A rough or a reference, from those who may bring one. */
function files(context: Context): TemplateResult | typeof nothing {
  const { data } = context;
  const stems = context.may('upload-stems');
  if (!context.may('upload-rough') && !stems) return nothing;
  return html`<section class="part">${arriving(context)}
    ${context.may('upload-rough') ? html`<details class="fold"><summary>Bring a rough or a reference</summary>
      <mix-upload shared .song=${data.song.id} .songTitle=${data.song.title} .kinds=${ROUGH_KINDS}></mix-upload></details>` : nothing}
    ${stems && data.lead ? html`<details class="fold"><summary>Bring a part file</summary>
      <mix-stems .song=${data.song.id} .songTitle=${data.song.title} .bounce=${data.lead.id} .elements=${elementsOf(context)}></mix-stems></details>` : nothing}</section>`;
}
