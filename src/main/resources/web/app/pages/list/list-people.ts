import { html, nothing, type TemplateResult } from 'lit';
import type { Change, Question } from '../../api/types.ts';
import { me } from '../../state/me.ts';
import type { Sheet } from '../../state/sheet.ts';
import { capital } from '../../words/numbers.ts';
import type { Hand } from './list-rows.ts';

/** The open question of an unclear change: to be answered, or taken as read by the engineer. */
export function questionBox(change: Change, sheet: Sheet, hand: Hand): TemplateResult | typeof nothing {
  const question = sheet.questions.find((one) => one.changes.includes(change.id));
  const works = sheet.song.may.includes('work-list');
  const take = works
    ? html`<p><button class="btn plain flush" type="button" @click=${() => hand.patch(change, { state: 'asked' })}>Take it as it reads<span class="hide">: ${change.text}</span></button></p>`
    : nothing;
  if (!question) return take;
  const mine = question.to === me.value?.id;
  return html`<div class=${mine ? 'ques mine' : 'ques'}>
    <p><b>${mine ? html`<span class="you">You</span> ` : `To ${sheet.nameOf(question.to)}: `}</b>${question.text}</p>
    ${mine || sheet.song.you.lastWord ? answers(question, hand) : nothing}
    ${take}
    ${hand.refusal(question.id)}
  </div>`;
}

function answers(question: Question, hand: Hand): TemplateResult {
  const send = (event: SubmitEvent) => {
    event.preventDefault();
    const text = String(new FormData(event.target as HTMLFormElement).get('text') ?? '').trim();
    if (text !== '') hand.answer(question, { text });
  };
  return html`<p class="btns">
      ${question.choices.map((choice) => html`<button class="btn" type="button" @click=${() => hand.answer(question, { choice: choice.id })}>${choice.text}</button>`)}
      <button class="btn plain" type="button" @click=${() => hand.answer(question, { skip: true })}>Never mind, as I wrote it</button>
    </p>
    <form class="copy press" @submit=${send}>
      <input type="text" name="text" aria-label="Answer in your words: ${question.text}" placeholder="In your words" maxlength="2000" autocomplete="off">
      <button class="btn" type="submit">Answer</button>
    </form>`;
}

/** What somebody may do with a change of their own, or with the last word. */
export function theirActs(change: Change, sheet: Sheet, hand: Hand): TemplateResult | typeof nothing {
  const mine = change.author === me.value?.id;
  const last = sheet.song.you.lastWord;
  if (!mine && !last) return nothing;
  const open = change.state === 'asked' || change.state === 'unclear';
  if (!open && change.state !== 'left') return nothing;
  const act = open ? 'withdraw' : 'ask for it all the same';
  const needsReason = !mine || !open;
  const asking = hand.isOpen('why', change);
  if (open && !needsReason) {
    return html`<button class="btn plain flush" type="button" @click=${() => hand.patch(change, { state: 'withdrawn' })}>Withdraw<span class="hide">: ${change.text}</span></button>`;
  }
  return html`<button class="btn plain flush" type="button" aria-expanded=${asking} @click=${() => hand.open('why', change)}>${capital(act)}…<span class="hide">: ${change.text}</span></button>
    ${asking ? reasonForm(change, open ? 'withdrawn' : 'asked', capital(act), hand) : nothing}`;
}

function reasonForm(change: Change, to: 'withdrawn' | 'asked', words: string, hand: Hand): TemplateResult {
  const send = (event: SubmitEvent) => {
    event.preventDefault();
    hand.patch(change, { state: to, reason: String(new FormData(event.target as HTMLFormElement).get('reason') ?? '').trim() });
  };
  return html`<form class="copy press" @submit=${send}>
    <input type="text" name="reason" aria-label="Why? It is shown beside the change." placeholder="Why?" required maxlength="1000" autocomplete="off">
    <button class="btn" type="submit">${words}</button>
  </form>`;
}
