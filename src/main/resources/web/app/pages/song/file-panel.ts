/** What is said of the leading mix’s file, for whoever made it: what touches the sound, remarks, the other channel. */
import { html, nothing, type PropertyValues, type TemplateResult } from 'lit';
import { api, isAbort } from '../../api/client.ts';
import type { BounceAlone, Id } from '../../api/types.ts';
import { Living } from '../../living.ts';
import { mixWords } from '../../words/mixes.ts';
import { capital, count } from '../../words/numbers.ts';
import type { Context } from './context.ts';
import { note, press } from './file-notes.ts';

class FilePanel extends Living {
  declare context: Context;
  declare private alone: BounceAlone | null;
  declare private paired: boolean;
  static properties = { ...Living.properties, context: { attribute: false }, alone: { state: true }, paired: { state: true } };

  private asked = '';

  constructor() {
    super();
    this.alone = null;
    this.paired = false;
  }

  protected open(): void {
    // Asked for when the mix is known, see updated().
  }

  protected updated(changed: PropertyValues): void {
    const { lead, bounces } = this.context.data;
    // What is said of a file beside others may change with every file that comes.
    const key = `${lead?.id} ${bounces.map((b) => `${b.id}${b.state}`).join()}`;
    if (!changed.has('context') || !lead || key === this.asked) return;
    this.asked = key;
    void this.ask(lead.id);
  }

  private async ask(bounce: Id): Promise<void> {
    try {
      const alone = await api.get<BounceAlone>(`/bounces/${bounce}`, this.scope.signal);
      if (this.alone?.id !== bounce) this.paired = false;
      if (this.context.data.lead?.id === bounce) this.alone = alone;
    } catch (reason) {
      // The panel then shows what the list says; the next change asks again.
      if (!isAbort(reason)) this.asked = '';
    }
  }

  render(): TemplateResult | typeof nothing {
    const { lead } = this.context.data;
    if (!lead) return nothing;
    const touching = lead.defects.filter((d) => d.affectsSound);
    const others = lead.defects.filter((d) => !d.affectsSound);
    const alone = this.alone?.id === lead.id ? this.alone : null;
    const remarks = alone?.nameRemarks ?? [];
    const offer = alone?.pairOffer ?? null;
    if (lead.defects.length + remarks.length === 0 && !offer) return nothing;
    return html`<section class="file-notes" aria-labelledby="file-title"><h2 id="file-title">The file of ${mixWords(lead)}</h2>
      ${touching.length === 0 ? nothing : html`<p class="gap"><b>It may not sound as you meant it.</b> Nobody can approve it like this; bring the file anew, or another one.</p>
        <ul class="lines gap">${touching.map((d) => note(this.context, d))}</ul>`}
      ${remarks.length === 0 ? nothing : html`<ul class="lines gap">${remarks.map((r) => html`<li><p>${r.detail}</p><span></span></li>`)}</ul>`}
      ${offer ? html`<div class="gap"><p>${offer.words}</p>${this.refusal('pair')}
        ${this.paired ? html`<p class="saved" role="status">They are put together; the new mix is here as soon as it is measured.</p>`
          : offer.possible ? html`<p class="btns"><button class="btn" type="button" ?disabled=${this.running} @click=${() => this.pair(lead.id, offer.with)}>Put both together as one stereo mix</button></p>` : nothing}</div>` : nothing}
      ${others.length === 0 ? nothing : html`<details class="fold"><summary>${capital(count(others.length, 'remark'))} on the file; the sound is not touched</summary>
        <ul class="lines">${others.map((d) => html`<li><p>${d.detail}</p>${press(this.context, d)}</li>`)}</ul></details>`}</section>`;
  }

  private pair(bounce: Id, other: Id): void {
    void this.run('pair', async () => {
      await api.post(`/bounces/${bounce}/pairing`, { with: other });
      this.paired = true;
    });
  }
}
customElements.define('mix-file', FilePanel);
