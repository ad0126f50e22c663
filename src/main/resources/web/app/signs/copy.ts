import { html, type TemplateResult } from 'lit';

/** Said beside a link while the server does not know its public address. */
export const ONLY_HERE = 'It works on this computer only, until the server has been told its public address.';

/** A link or token to hand on: to be marked and copied by hand, or by one press. */
export function copyLine(text: string, name: string): TemplateResult {
  const copy = async (event: Event) => {
    const button = event.currentTarget as HTMLButtonElement;
    const field = button.previousElementSibling as HTMLInputElement;
    field.select();
    // Without HTTPS the browser offers no clipboard; then the marked text is copied by its old way.
    const done = navigator.clipboard
      ? await navigator.clipboard.writeText(text).then(() => true, () => false)
      : document.execCommand('copy');
    button.textContent = done ? 'Copied' : 'Marked: copy it by hand';
  };
  return html`<div class="copy gap">
    <input type="text" readonly aria-label=${name} .value=${text} @focus=${(event: Event) => (event.target as HTMLInputElement).select()}>
    <button class="btn" type="button" @click=${copy}>Copy</button>
  </div>`;
}
