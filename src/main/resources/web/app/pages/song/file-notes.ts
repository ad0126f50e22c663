/** What is wrong with the file of a mix, with the place to hear it. */
import { html, nothing, type TemplateResult } from 'lit';
import type { Bounce, Defect } from '../../api/types.ts';
import { sign } from '../../signs/signs.ts';
import { mixWords } from '../../words/mixes.ts';
import { clock, clockTenths } from '../../words/numbers.ts';
import type { Context } from './context.ts';

/** Only what can be heard, for those who listen. */
export function fileWarning(context: Context): TemplateResult | typeof nothing {
  const { lead } = context.data;
  const touching = lead?.defects.filter((d) => d.affectsSound) ?? [];
  if (!lead || touching.length === 0) return nothing;
  return html`<section class="slip file-notes" aria-labelledby="file-title"><h2 id="file-title">Something is wrong with the file of ${mixWords(lead)}</h2>
    <p>What you hear may not be what was meant. It can’t be approved like this; ${whose(context, lead)}.</p>
    <ul class="lines gap">${touching.map((d) => note(context, d))}</ul></section>`;
}

function whose(context: Context, lead: Bounce): string {
  if (lead.uploader === context.me) return 'bring the file anew';
  const person = context.data.people.find((p) => p.person === lead.uploader);
  return person ? `ask ${person.name} for a new file` : 'ask for a new file';
}

export function note(context: Context, defect: Defect): TemplateResult {
  return html`<li><p>${defect.detail}</p>${press(context, defect)}</li>`;
}

/** The place of it, to be heard with a little around it. */
export function press(context: Context, { from, to }: Defect): TemplateResult {
  if (from == null) return html`<span></span>`;
  const long = to != null && to - from > 2;
  const listen = () => {
    context.player.setLoop(long ? { from, to } : { from: Math.max(0, from - 1.5), to: (to ?? from) + 1.5 }, true);
    if (!context.player.playing) void context.player.play();
  };
  return html`<p class="btns"><button class="btn" type="button" @click=${listen}>${sign('loop', 'lp')}Listen at ${long ? `${clock(from)} to ${clock(to)}` : clockTenths(from)}</button></p>`;
}
