/** What waits for this person's ears: their asks done, questions, notes against each other, the whole mix. */
import { html, nothing, type TemplateResult } from 'lit';
import { api } from '../../api/client.ts';
import { waitingWords } from '../../words/gathering.ts';
import type { Change, Question, Says } from '../../api/types.ts';
import { apart, brace, mark, refused, said, sign } from '../../signs/signs.ts';
import { askSign, askWords, partWords } from '../../words/changes.ts';
import { capital } from '../../words/numbers.ts';
import { sectionsOf, sectionWords, whereWords } from '../../words/sections.ts';
import { isSent, mixWords } from '../../words/mixes.ts';
import { isMine, mixName, nameOf, standing, type Context } from './context.ts';

/** Presses of this part that need the page. */
export interface Hearing {
  /** Plays a section of the change before or after it was done. */
  play(change: Change, section: string | null, which: 'before' | 'after'): void;
  /** Which of the two plays for a change, and where. */
  playing(change: Change): { which: 'before' | 'after'; section: string | null } | null;
  fine(): void;
}

const FIVE: readonly (readonly [Says, string])[] = [
  ['good', 'Good'], ['more', 'More'], ['too-much', 'Too much'], ['halfway', 'Halfway'], ['put-back', 'Put it back'],
];

/** The line the engineer wrote, and the two ways to begin. */
export function message(context: Context, hearing: Hearing): TemplateResult | typeof nothing {
  const { data, me, player } = context;
  const sent = [...data.bounces].reverse().find((b) => b.kind === 'main' && isSent(b));
  if (!sent) return nothing;
  const words = sent.message;
  const engineer = data.people.find((p) => p.role === 'engineer');
  return html`<section class="slip" aria-label="The newest mix">
    ${words ? html`<p>${engineer ? capital(nameOf(data, engineer.person, me)) : 'The engineer'} writes</p>${said(words)}` : html`<p><b>${mixWords(sent)}</b> is here.</p>`}
    <p class="btns gap"><button class="btn" type="button" @click=${() => player.plainly(true)}>${sign('play', 'g fill')}From the start</button>
      ${context.may('say-fine') ? html`<button class="btn" type="button" ?disabled=${context.running === 'fine'} @click=${() => hearing.fine()}>It’s fine</button>` : nothing}</p>
    ${refused(context.refusals.get('fine'))}
    ${context.may('say-fine') ? html`<p class="small quiet gap">“It’s fine” answers all you asked for at once. It is not an approval.</p>` : nothing}
  </section>`;
}

/** One's own asks that were done and sent. */
export function doneAsks(context: Context, hearing: Hearing): TemplateResult | typeof nothing {
  const { data, me } = context;
  const mine = data.changes.filter((c) => c.state === 'done' && isMine(data, c.author, me)
    && data.bounces.some((b) => b.id === c.doneIn && isSent(b)));
  if (mine.length === 0) return nothing;
  return html`<section class="part"><h2>What you asked for, done</h2>
    ${mine.map((c, i) => doneAsk(context, hearing, c, i === 0))}</section>`;
}

function doneAsk(context: Context, hearing: Hearing, change: Change, open: boolean): TemplateResult {
  const { data } = context;
  const sections = sectionsOf(change.where, data.sections).filter((n) => context.marks.has(n));
  const playing = hearing.playing(change);
  const section = playing?.section ?? sections[0] ?? null;
  const words = data.notes.find((n) => n.id === change.note)?.text ?? change.text;
  const one = (which: 'before' | 'after', label: string, id: string | null) => {
    const on = playing?.which === which;
    return html`<button class="btn" type="button" aria-pressed=${on} @click=${() => hearing.play(change, section, which)}>
      ${sign(on ? 'pause' : 'play', 'g fill')}${label} <span class=${on ? '' : 'quiet'}>${mixName(data, id)}${on ? ', sounding' : ''}</span></button>`;
  };
  const name = `hearing ${change.id}`;
  return html`<details class="slip ask-done" ?open=${open}>
    <summary><span><b>${partWords(change.element)}</b> ${sign(askSign(change), 'g inl')} ${askWords(change)} <span class="quiet small">${whereWords(change.where)}</span></span><span class="more">Hear</span></summary>
    ${said(change.text || words)}
    ${change.answer === 'differently' ? html`<p class="quiet">Solved differently${change.reason ? html`: ${change.reason}` : nothing}</p>` : nothing}
    ${sections.length > 1
      ? html`<p class="places" role="group" aria-label="Where to hear it">${sections.map((n) => html`<button class="rm-press" type="button" aria-pressed=${n === section} @click=${() => hearing.play(change, n, playing?.which ?? 'after')} aria-label=${n}>${mark(context.marks.get(n) ?? n)}</button>`)}</p>` : nothing}
    <div class="turn" role="group" aria-label="${section ?? 'This place'}, before and after">${brace()}
      ${one('before', 'Before', change.bounce)}${one('after', 'After', change.doneIn)}</div>
    <div class="ear" role="group" aria-label="Your answer">
      ${FIVE.map(([says, label]) => html`<button class="btn" type="button" ?disabled=${context.running === name}
        @click=${() => context.press(name, () => api.post(`/changes/${change.id}/hearing`, { bounce: change.doneIn, says }))}>${label}</button>`)}</div>
    ${refused(context.refusals.get(name))}</details>`;
}

/** Questions this person was asked back. */
export function questions(context: Context): TemplateResult | typeof nothing {
  const { data, me } = context;
  const mine = data.questions.filter((q) => q.answer === null && (isMine(data, q.to, me)));
  if (mine.length === 0) return nothing;
  return html`<section class="part"><h2>${mine.length === 1 ? 'One question to you' : 'Questions to you'}</h2>${mine.map((q) => question(context, q))}</section>`;
}

function question(context: Context, q: Question): TemplateResult {
  const name = `question ${q.id}`;
  const words = context.data.notes.find((n) => n.id === q.note)?.text;
  const answer = (body: unknown) => context.press(name, () => api.post(`/questions/${q.id}/answer`, body));
  const own = (e: SubmitEvent) => {
    e.preventDefault();
    const text = String(new FormData(e.target as HTMLFormElement).get('text') ?? '').trim();
    if (text) answer({ text });
  };
  return html`<div class="slip mine"><h3>${q.text}</h3>${words ? html`<p class="quiet small gap">You wrote</p>${said(words)}` : nothing}
    <div class="ear gap">${q.choices.map((c) => html`<button class="btn" type="button" ?disabled=${context.running === name} @click=${() => answer({ choice: c.id })}>${c.text}</button>`)}</div>
    <details class="fold"><summary>In your own words</summary><form class="form" @submit=${own}>
      <label><span class="hide">Your answer</span><textarea name="text" rows="2"></textarea></label>
      <p class="btns"><button class="btn" type="submit">Answer</button></p></form></details>
    <p><button class="btn plain flush" type="button" ?disabled=${context.running === name} @click=${() => answer({ skip: true })}>Skip it, let the engineer decide</button></p>
    ${refused(context.refusals.get(name))}</div>`;
}

/** The band's notes, for the person who sends them together. */
export function bandNotes(context: Context): TemplateResult | typeof nothing {
  const { song } = context.data;
  if (!song.gatherNotes || song.writing === 0 || !context.may('send-gathered')) return nothing;
  const name = 'send together';
  return html`<section class="part" id="band-notes"><h2>The band’s notes</h2><div class="slip mine">
    <p>${waitingWords(song)} They go to the engineer together, when you send them.</p>
    <p class="btns"><button class="btn main" type="button" ?disabled=${context.running === name} @click=${() => context.press(name, () => api.post(`/songs/${song.id}/rounds/current/notes-sending`, {}))}>Send our notes</button>
      <a href="/songs/${song.id}/list">Read the list first</a></p>
    ${refused(context.refusals.get(name))}</div></section>`;
}

/** Notes against each other, for the person with the last word. */
export function lastWord(context: Context): TemplateResult | typeof nothing {
  if (!context.may('settle')) return nothing;
  const { data } = context;
  const open = standing(data.changes).filter((c) => c.conflictsWith.length > 0 && (c.state === 'asked' || c.state === 'unclear'));
  const groups: Change[][] = [];
  for (const c of open) {
    const group = groups.find((g) => g.some((o) => o.conflictsWith.includes(c.id) || c.conflictsWith.includes(o.id)));
    if (group) group.push(c);
    else groups.push([c]);
  }
  const real = groups.filter((g) => g.length > 1);
  if (real.length === 0) return nothing;
  return html`<section class="part"><h2>You have the last word</h2>${real.map((g) => contradiction(context, g))}</section>`;
}

function contradiction(context: Context, group: Change[]): TemplateResult {
  const { data, me } = context;
  const sections = sectionsOf(group[0]!.where, data.sections).filter((n) => context.marks.has(n));
  const name = `settle ${group[0]!.id}`;
  const parts = [...new Set(group.map((c) => partWords(c.element)))].join(' and ');
  const leave = async () => {
    for (const c of group) {
      // Each is read anew: withdrawing the first ends the contradiction of the next.
      const { value, etag } = await api.getTagged<Change>(`/changes/${c.id}`);
      if (value.state !== 'withdrawn') await api.patch(`/changes/${c.id}`, { state: 'withdrawn', reason: 'settled: neither of them' }, { etag });
    }
  };
  return html`<div class="slip mine"><h3>${parts}${sections.length > 0 ? ` in ${sectionWords(sections)}` : ''}</h3>
    <div class="against">${brace()}<ul>${group.map((c) => html`<li>${capital(nameOf(data, c.author, me))}: <span class="said">${apart(c.text)}</span></li>`)}</ul></div>
    <div class="ear">
      ${sections[0] ? html`<button class="btn wide" type="button" @click=${() => context.loopSection(sections[0]!)}>${sign('loop', 'lp')}Hear ${sections[0]}</button>` : nothing}
      ${group.map((c) => html`<button class="btn" type="button" ?disabled=${context.running === name} @click=${() => context.press(name, () => api.post(`/changes/${c.id}/settlement`, {}))}>${nameOf(data, c.author, me) === 'you' ? 'As you said' : `As ${nameOf(data, c.author, me)} says`}</button>`)}
      <button class="btn wide" type="button" ?disabled=${context.running === name} @click=${() => context.press(name, leave)}>Neither of them</button></div>
    ${refused(context.refusals.get(name))}</div>`;
}
