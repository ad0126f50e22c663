/** One edge from near: nudged by small steps, beats and bars, heard, set to where it plays; and what begins there is called. */
import { html, nothing, type TemplateResult } from 'lit';
import { barWords, type Bar, type Step } from '../../geometry/beats.ts';
import type { Edge } from '../../geometry/edges.ts';
import type { Span } from '../../geometry/form.ts';
import { sign } from '../../signs/signs.ts';
import { clockMillis } from '../../words/numbers.ts';
import { otherNames } from '../../words/section-names.ts';
import { edgeName } from './edge-strip.ts';

export const FINE = 0.01;
export const COARSE = 0.05;

export interface EdgeActions {
  step(direction: 1 | -1, step: Step): void;
  typed(input: HTMLInputElement): void;
  hear(): void;
  here(): void;
  choose(edge: number): void;
  rename(index: number, name: string): void;
}

export function edgePanel(edges: readonly Edge[], index: number, sections: readonly Span[], bars: readonly Bar[], closeUp: TemplateResult, act: EdgeActions): TemplateResult {
  const edge = edges[index]!;
  const what = edgeName(edge, sections);
  const steps: ReadonlyArray<readonly [Step, string]> = [
    ...(bars.length > 0 ? [['bar', '1 bar'], ['beat', '1 beat']] as const : []), [COARSE, '50 ms'], [FINE, '10 ms']];
  const nudge = (direction: 1 | -1) => {
    const way = direction < 0 ? 'earlier' : 'later';
    const list = direction < 0 ? steps : [...steps].reverse();
    return html`<span class="nudges">${list.map(([step, words]) => html`<button class="btn" type="button" aria-label="${what}: ${words} ${way}" @click=${() => act.step(direction, step)}>
      <span aria-hidden="true">${direction < 0 ? '\u2212' : '+'}${words}</span></button>`)}</span>`;
  };
  const where = barWords(edge.at, bars);
  return html`<div class="edge-panel" role="group" aria-label=${what}>
    <p class="edge-head"><button class="btn plain" type="button" aria-label="Edge before" ?disabled=${index === 0} @click=${() => act.choose(index - 1)}>‹</button>
      <strong>${what}</strong> ${edge.begins !== null && edge.ends !== null ? html`<span class="quiet">and end of ${sections[edge.ends]!.name}</span>` : nothing}
      <button class="btn plain" type="button" aria-label="Edge after" ?disabled=${index === edges.length - 1} @click=${() => act.choose(index + 1)}>›</button></p>
    ${closeUp}
    <div class="nudge-line">${nudge(-1)}
      <label class="edge-at"><span class="hide">${what}</span><input type="text" inputmode="decimal" data-edge-at .value=${clockMillis(edge.at)} @change=${(e: Event) => act.typed(e.target as HTMLInputElement)}></label>
      ${nudge(1)}</div>
    <p class="btns"><button class="btn" type="button" @click=${() => act.hear()}>${sign('loop', '')} Hear this edge</button>
      <button class="btn" type="button" @click=${() => act.here()}>Put it where it plays</button>
      ${where ? html`<span class="quiet">${where}</span>` : nothing}</p>
    ${edge.begins === null ? nothing : calling(sections, edge.begins, act.rename)}</div>`;
}

/** Names for a section, one press each. */
export function calling(sections: readonly Span[], index: number, rename: (index: number, name: string) => void, keys = false): TemplateResult {
  return html`<p class="calling" role="group" aria-label="Other names for ${sections[index]!.name}"><span class="quiet">Rather</span>
    ${otherNames(sections.map((s) => s.name), index).map((name, i) => html`<button class="btn" type="button" @click=${() => rename(index, name)}>${name}${keys && i < 9 ? html` <kbd>${i + 1}</kbd>` : nothing}</button>`)}</p>`;
}
