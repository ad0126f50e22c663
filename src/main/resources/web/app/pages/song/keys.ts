/** Keys of the song page: for whoever has both hands on a desk. Letters can be switched off. */
import { html, type TemplateResult } from 'lit';

export interface KeyActions {
  play(): void;
  section(direction: 1 | -1): void;
  bar(direction: 1 | -1): void;
  cross(): void;
  equal(): void;
  loop(): void;
  note(): void;
  done(): void;
  list(): void;
}

const STORED = 'mixaccord.letters';

export function lettersOn(): boolean {
  try {
    return localStorage.getItem(STORED) !== 'off';
  } catch {
    return true;
  }
}

export function switchLetters(on: boolean): void {
  try {
    if (on) localStorage.removeItem(STORED);
    else localStorage.setItem(STORED, 'off');
  } catch {
    // Without storage the choice holds until the page is left.
  }
}

/** Whether the key belongs to what has the focus: a field, or a button for Space. */
function belongsElsewhere(e: KeyboardEvent): boolean {
  const target = e.target as HTMLElement;
  if (target.closest('textarea, select, [contenteditable], dialog')) return true;
  const input = target.closest('input');
  if (input && !['radio', 'checkbox'].includes(input.type)) return true;
  if (input?.type === 'radio' && e.key.startsWith('Arrow')) return true;
  // A mix that is already chosen has no use for Space; pressing it should still play.
  if (e.key === ' ' && input?.type === 'radio' && input.checked) return false;
  if (e.key === ' ' || e.key === 'Enter') return target.closest('button, a, summary, input, label') !== null;
  return false;
}

/** Does what the key says; true where it did something. */
export function onKey(e: KeyboardEvent, actions: KeyActions, letters: boolean): boolean {
  if (e.defaultPrevented || e.ctrlKey || e.metaKey || e.altKey || belongsElsewhere(e)) return false;
  switch (e.key) {
    case ' ': actions.play(); return true;
    case 'ArrowUp': actions.section(-1); return true;
    case 'ArrowDown': actions.section(1); return true;
    case 'ArrowLeft': actions.bar(-1); return true;
    case 'ArrowRight': actions.bar(1); return true;
    case '?': actions.list(); return true;
  }
  if (!letters) return false;
  switch (e.key.toLowerCase()) {
    case 'x': actions.cross(); return true;
    case 'e': actions.equal(); return true;
    case 'l': actions.loop(); return true;
    case 'n': actions.note(); return true;
    case 'd': actions.done(); return true;
    default: return false;
  }
}

export function keyList(open: boolean, letters: boolean, engineer: boolean, toggled: (open: boolean) => void, switched: (on: boolean) => void): TemplateResult {
  const line = (keys: readonly string[], words: string) =>
    html`<div><dt>${keys.map((k) => html`<kbd>${k}</kbd> `)}</dt><dd>${words}</dd></div>`;
  return html`<details class="keys fold" id="keys" ?open=${open} @toggle=${(e: Event) => toggled((e.target as HTMLDetailsElement).open)}>
    <summary>Keys</summary><dl>
      ${line(['Space'], 'Play, pause')}${line(['↑', '↓'], 'Section before, section after')}${line(['←', '→'], 'One bar back, one bar on')}
      ${line(['X'], 'Cross over to the other mix')}${line(['E'], 'Both equal, or as delivered')}${line(['L'], 'Loop this section, or let go')}
      ${line(['N'], 'Note at this place')}${engineer ? html`${line(['D'], 'Done in the newest mix')}${line(['B'], 'A section begins here, while the sections are open')}` : ''}${line(['?'], 'This list')}</dl>
    <label class="tick"><input type="checkbox" .checked=${letters} @change=${(e: Event) => switched((e.target as HTMLInputElement).checked)}><span>Letters act as keys</span></label>
  </details>`;
}
