/** The song as a plain list: for phones, and for everyone who is not at the desk. */
import { html, nothing, type TemplateResult } from 'lit';
import type { Change, Comparison, SectionChange } from '../../api/types.ts';
import type { Span } from '../../geometry/form.ts';
import { mark, sign } from '../../signs/signs.ts';
import { partWords } from '../../words/changes.ts';
import { clock, listed } from '../../words/numbers.ts';
import { isLooped, rowId } from './chart.ts';
import { ownerWords, standing, touches, wholeSong, type Context } from './context.ts';

export function formList(context: Context): TemplateResult {
  const { data } = context;
  const whole = standing(data.changes).filter((c) => wholeSong(c, data));
  return html`<section class="formside"><h2>The song</h2>
    ${context.spans.length === 0 ? html`<p class="quiet gap">The sections have not been named yet. Drag over the strip to loop a stretch.</p>` : nothing}
    <ol class="formlist gap">
      ${context.spans.map((span) => line(context, span))}
      ${whole.length > 0 ? html`<li>${mark('All')}<span><b>Whole song</b><span class="meta">${summed(context, whole)}</span></span><span></span></li>` : nothing}
    </ol></section>`;
}

function line(context: Context, span: Span): TemplateResult {
  const { data } = context;
  const now = context.here === span.name;
  const asks = standing(data.changes).filter((c) => touches(c, span, data));
  const kept = data.keeps.filter((k) => touches(k, span, data));
  return html`<li class=${now ? 'now' : ''} id=${rowId(span.name)} aria-current=${now ? 'true' : nothing}>${mark(context.marks.get(span.name) ?? '')}
    <span><b>${span.name}</b> <span class="quiet small">${clock(span.from)}</span>
      <span class="meta">${asks.length > 0 ? summed(context, asks) : kept.length === 0 ? 'Nothing asked' : nothing}
        ${kept.map((k) => html`<span class="st">${sign('hold')}${partWords(k.element)} left alone</span>`)}</span></span>
    <button class="loop" type="button" aria-pressed=${isLooped(context, span)} aria-label="Loop ${span.name}" @click=${() => context.loopSection(span.name)}>${sign('loop', '')}</button></li>`;
}

/** The asks of one section by state: a barline, then whose they are. */
function summed(context: Context, asks: readonly Change[]): TemplateResult {
  const { data, me } = context;
  const words = { unclear: 'a question', asked: 'asked', done: 'done', good: 'good', left: 'left', withdrawn: '', followed: '' };
  const states = ['done', 'asked', 'unclear', 'good', 'left'] as const;
  return html`${states.map((s) => {
    const here = asks.filter((c) => c.state === s);
    if (here.length === 0) return nothing;
    const parts = [...new Set(here.map((c) => partWords(c.element)))];
    const who = [...new Set(here.map((c) => ownerWords(data, c.author, me)))];
    return html`<span class="st">${sign(s)}${listed(parts)}, ${listed(who)}: ${words[s]}</span> `;
  })}`;
}

/** What moved, section by section, without a figure. */
export function inWords(comparison: Comparison): TemplateResult {
  const moved = comparison.sections.filter((s) => s.difference !== 'unchanged');
  const same = comparison.sections.filter((s) => s.difference === 'unchanged');
  const overall = LIKENESS[comparison.likeness];
  return html`<ul class="moves gap">
    ${overall ? html`<li class="mv big no"><span>${overall}</span></li>` : nothing}
    ${comparison.causes.map((c) => html`<li class="mv big no"><span>${c.detail}</span></li>`)}
    ${moved.map((s) => html`<li class="mv big ${s.difference === 'uncertain' ? 'no' : 'asked'}"><span><b>${s.name}</b>: ${movedWords(s)}</span></li>`)}
    ${same.length > 0 && moved.length > 0 ? html`<li class="mv big no"><span>${listed(same.map((s) => s.name))}: nothing moved</span></li>` : nothing}
  </ul>`;
}

const LIKENESS: Partial<Record<Comparison['likeness'], string>> = {
  identical: 'The two are the same, sample for sample.',
  'same-audio': 'The same audio; only silence at an end, or the way it is stored, differs.',
  requantised: 'The same audio, stored again. Nothing in the music moved.',
  'level-only': 'Only the level of the whole mix differs.',
  rework: 'Reworked all over: nearly everything moved.',
  'not-comparable': 'These two can’t be set against each other: no common music was found.',
};

function movedWords(s: SectionChange): string {
  if (s.difference === 'only-here') return 'new in this mix';
  if (s.difference === 'only-there') return 'taken out';
  if (s.difference === 'uncertain') return 'can’t be told for certain';
  const change = s.loudnessChangeLu;
  if (change === null || Math.abs(change) < 0.25) return 'changed';
  return change > 0 ? 'changed, a little louder altogether' : 'changed, a little quieter altogether';
}
