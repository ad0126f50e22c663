import { html, nothing, type TemplateResult } from 'lit';
import type { Approval, Decision } from '../../api/types.ts';
import { said } from '../../signs/signs.ts';
import { me } from '../../state/me.ts';
import type { Sheet } from '../../state/sheet.ts';
import { day } from '../../words/time.ts';

const DECISION_WORDS: Record<Decision, string> = {
  approve: 'approved it',
  'fine-by-me': 'says it’s fine',
  'not-yet': 'says not yet',
  stop: 'says stop',
  finished: 'marked it finished',
};
const STATE_WORDS: Record<Approval['state'], string> = {
  valid: '',
  pending: ', once what was named is done',
  lapsed: ', lapsed with a later mix',
  withdrawn: ', withdrawn',
};

interface Acts {
  readonly mayLift: boolean;
  withdraw(approval: Approval, reason: string): void;
  refusal(id: string): TemplateResult | typeof nothing;
}

/** What people have said to this mix, and how one takes one's own word back. */
export function givenList(given: readonly Approval[], sheet: Sheet, acts: Acts): TemplateResult | typeof nothing {
  if (given.length === 0) return nothing;
  return html`<h3 class="gap">Said to this mix</h3>
    <ul class="lines gap">${given.map((approval) => line(approval, sheet, acts))}</ul>`;
}

function line(approval: Approval, sheet: Sheet, acts: Acts): TemplateResult {
  const mine = approval.by === me.value?.id;
  const inForce = approval.state === 'valid' || approval.state === 'pending';
  const lifts = approval.decision === 'stop' && acts.mayLift;
  const words = approval.decision === 'stop' ? 'Lift the stop' : 'Take back';
  return html`<li>
    <div><b>${mine ? 'You' : (approval.byName ?? sheet.nameOf(approval.by))}</b> ${mine ? ownWords(approval.decision) : DECISION_WORDS[approval.decision]}${STATE_WORDS[approval.state]}
      <span class="small quiet block">${day(approval.at)}${heardWords(approval)}${identitySaid(approval.identity)}</span>
      ${approval.comment ? said(approval.comment) : nothing}</div>
    ${inForce && (mine || lifts) ? takeBack(approval, words, !mine, acts) : nothing}
    ${acts.refusal(approval.id)}
  </li>`;
}

function ownWords(decision: Decision): string {
  return DECISION_WORDS[decision].replace(/^says/, 'say');
}

/** One's own word goes with a press; lifting somebody else's stop needs a reason. */
function takeBack(approval: Approval, words: string, needsReason: boolean, acts: Acts): TemplateResult {
  if (!needsReason) {
    return html`<button class="btn plain" type="button" @click=${() => acts.withdraw(approval, '')}>${words}</button>`;
  }
  const send = (event: SubmitEvent) => {
    event.preventDefault();
    acts.withdraw(approval, String(new FormData(event.target as HTMLFormElement).get('reason') ?? '').trim());
  };
  return html`<form class="copy under" @submit=${send}>
    <input type="text" name="reason" aria-label="Why is the stop lifted?" placeholder="Why is it lifted?" required maxlength="1000" autocomplete="off">
    <button class="btn" type="submit">${words}</button>
  </form>`;
}

export function heardWords(approval: Pick<Approval, 'heard'>): string {
  if (approval.heard === 'lossless') return ', heard lossless';
  if (approval.heard === 'light') return ', heard the light copy';
  return ', not heard here';
}

function identitySaid(identity: string): string {
  return identity === 'mail-confirmed' ? ', address confirmed' : ', came by a link handed on';
}
