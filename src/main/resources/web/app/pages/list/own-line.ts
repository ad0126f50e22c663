/** A line of the engineer's own, or one written down for somebody who said it elsewhere. */
import { html, nothing, type TemplateResult } from 'lit';
import { api } from '../../api/client.ts';
import { fieldOf, Living } from '../../living.ts';
import { me } from '../../state/me.ts';
import type { Sheet } from '../../state/sheet.ts';

class OwnLine extends Living {
  declare sheet: Sheet;
  static properties = { ...Living.properties, sheet: { attribute: false } };

  protected open(): void {}

  render(): TemplateResult | typeof nothing {
    const { song, people } = this.sheet;
    if (!song.newest) return nothing;
    const others = people.filter((person) => person.person !== me.value?.id);
    return html`<details class="fold part"><summary>Add a line</summary>
      <form class="form gap" @submit=${(e: SubmitEvent) => this.send(e)}>
        <label>What is to be done<textarea name="text" rows="2" maxlength="4000" required placeholder="In your own words, with the place"></textarea></label>
        ${others.length === 0 ? nothing : html`<label>Whose wish it is<select name="behalf"><option value="">mine</option>
          ${others.map((person) => html`<option value=${person.person}>${person.name}</option>`)}</select></label>`}
        ${this.refusal('add')}
        <p class="btns"><button class="btn" type="submit" ?disabled=${this.running}>Put it on the list</button></p>
      </form></details>`;
  }

  private send(event: SubmitEvent): void {
    event.preventDefault();
    const form = event.target as HTMLFormElement;
    const behalf = fieldOf(event, 'behalf');
    void this.run('add', async () => {
      await api.post(`/songs/${this.sheet.song.id}/notes`, {
        text: fieldOf(event, 'text'), bounce: this.sheet.song.newest!.bounce, line: true, ...(behalf ? { behalfOf: behalf } : {}),
      });
      form.reset();
      this.dispatchEvent(new CustomEvent('written'));
    });
  }
}

customElements.define('mix-own-line', OwnLine);
