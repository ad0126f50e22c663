/** The page for whoever works the list: the chart, the checks, the figures, sending, sections, files. */
import { html, nothing, type TemplateResult } from 'lit';
import { none } from '../../signs/signs.ts';
import { draftOf } from '../../state/draft.ts';
import { ALL_KINDS, mixWords } from '../../words/mixes.ts';
import { chart, summary } from './chart.ts';
import type { Context } from './context.ts';
import { checks, figures, sendForm } from './desk-panels.ts';
import { arriving, elementsOf, newerMix, noteSection } from './common.ts';
import { notesList } from './notes.ts';
import type { SongPage } from './song-page.ts';
import './file-panel.ts';
import './abx-panel.ts';
import './blind-picks.ts';
import './recall-panel.ts';
import './sections-editor.ts';
import './stems.ts';
import '../bring/upload.ts';

export function deskView(context: Context, page: SongPage): TemplateResult {
  const { data } = context;
  const evidence = page.evidence.data.value;
  if (!data.lead) {
    return html`${arriving(context)}<section class="part"><h2>No mix yet</h2>${none(`${data.bounces.some((b) => b.state !== 'failed') ? 'It can be heard once it is measured.' : 'Drop the first mix below, or choose a file.'} It stays private until you send it.`)}${uploadForm(context)}</section>`;
  }
  const seen = { comparison: evidence.comparison, findings: evidence.findings ?? [], judged: evidence.judged };
  const passed = new Set((page.remembered.get('passed') ?? '').split('\n'));
  const loop = (from: number, to: number, cross: boolean) => {
    context.player.setLoop({ from, to }, true);
    void context.player.play();
    if (cross && data.other && context.player.state.sounding === data.lead!.id) page.tell('Press X to hear the same place in the other mix.');
  };
  return html`${arriving(context)}${newerMix(context, page)}
    ${summary(context, seen)}
    ${evidence.problem ? html`<p class="quiet">${evidence.problem}</p>` : nothing}
    ${context.spans.length > 0 ? chart(context, seen, { done: (c) => void page.markDone(c), asRead: (c) => page.takeAsRead(c) }) : none('No sections yet. Name them below, and the form of the song shows here.')}
    <div class="cols part">
      <div class="stack"><mix-file .context=${context}></mix-file>${checks(context, evidence.findings, loop, passed, (keys) => page.remember('passed', [...passed, ...keys].join('\n')))}
        <mix-recall .context=${context} .page=${page}></mix-recall></div>
      ${figures(context, evidence, page.remembered.get('figures-of') ?? '', (s) => page.remember('figures-of', s))}
      <div class="stack">${sendForm(context, () => page.tell('Sent. Everybody in the project can hear it now.'))}
        <section><h2>Next file</h2>${uploadForm(context)}</section></div>
    </div>
    <mix-blind .context=${context}></mix-blind><mix-abx .context=${context}></mix-abx>
    ${noteSection(context, page)}
    <section class="part narrow">${notesList(context, page)}</section>
    <section class="part"><details class="fold" ?open=${(page.remembered.get('form') ?? (context.spans.length === 0 || draftOf(data.song.id) ? 'open' : 'shut')) === 'open'}
      @toggle=${(e: Event) => page.remember('form', (e.target as HTMLDetailsElement).open ? 'open' : 'shut')}><summary>Sections</summary>
      <mix-sections .song=${data.song.id} .bounce=${data.lead.id} .sections=${context.spans} .player=${context.player}
        .outline=${evidence.outline} .pulse=${context.pulse} .mapped=${data.song.tempoMap} .letters=${page.lettersOn} @kept=${() => page.sectionsKept()}></mix-sections></details>
      ${context.may('upload-stems') ? html`<details class="fold"><summary>Part files of ${mixWords(data.lead)}</summary>
        <mix-stems .song=${data.song.id} .songTitle=${data.song.title} .bounce=${data.lead.id} .elements=${elementsOf(context)} mayRemove></mix-stems></details>` : nothing}
    </section>`;
}

function uploadForm(context: Context): TemplateResult {
  const { data } = context;
  return html`<mix-upload .song=${data.song.id} .songTitle=${data.song.title} .kinds=${ALL_KINDS}></mix-upload>`;
}
