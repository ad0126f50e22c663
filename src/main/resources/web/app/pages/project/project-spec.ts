import { html, nothing, type TemplateResult } from 'lit';
import { api } from '../../api/client.ts';
import type { DeliverySpec, Project } from '../../api/types.ts';
import { fieldOf, Living } from '../../living.ts';
import { refused } from '../../signs/signs.ts';
import { loading, loadInto, type Load } from '../../state/load.ts';
import { figure } from '../../words/numbers.ts';

interface Field {
  readonly name: keyof DeliverySpec;
  readonly words: string;
  readonly unit: string;
  readonly digits: number;
  readonly min: number;
  readonly max: number;
}

const FIELDS: readonly Field[] = [
  { name: 'includedRounds', words: 'Agreed rounds', unit: '', digits: 0, min: 0, max: 99 },
  { name: 'ceilingDbtp', words: 'True peak at most', unit: 'dBTP', digits: 1, min: -30, max: 6 },
  { name: 'ceilingDbfs', words: 'Sample peak at most', unit: 'dBFS', digits: 1, min: -30, max: 0 },
  { name: 'minLufs', words: 'Loudness at least', unit: 'LUFS', digits: 1, min: -70, max: 0 },
  { name: 'maxLufs', words: 'Loudness at most', unit: 'LUFS', digits: 1, min: -70, max: 0 },
  { name: 'sampleRate', words: 'Sample rate', unit: 'Hz', digits: 0, min: 8000, max: 384000 },
  { name: 'bitDepth', words: 'Bit depth', unit: 'bit', digits: 0, min: 8, max: 64 },
];

/** What was agreed on the finished file, and how many rounds. */
class ProjectSpec extends Living {
  declare project: Project;
  declare private spec: Load<DeliverySpec>;
  declare private editing: boolean;
  static properties = {
    ...Living.properties,
    project: { attribute: false },
    spec: { state: true },
    editing: { state: true },
  };

  constructor() {
    super();
    this.spec = loading;
    this.editing = false;
  }

  protected open(): void {
    void this.ask();
  }

  private get path(): string {
    return `/projects/${this.project.id}/delivery-spec`;
  }

  private ask(): Promise<void> {
    return loadInto(api.get<DeliverySpec>(this.path, this.scope.signal), (load) => (this.spec = load));
  }

  private keep(event: SubmitEvent): void {
    event.preventDefault();
    const spec: Record<string, number | null> = {};
    for (const field of FIELDS) {
      const text = fieldOf(event, field.name);
      spec[field.name] = text === '' ? null : Number(text);
    }
    void this.run('keep', async () => {
      await api.put(this.path, spec);
      this.editing = false;
      await this.ask();
    });
  }

  render(): TemplateResult {
    return html`<section aria-labelledby="spec-title">
      <h2 id="spec-title">What was agreed</h2>
      ${this.body()}
    </section>`;
  }

  private body(): TemplateResult | typeof nothing {
    const spec = this.spec;
    if (spec.phase === 'failed') return html`${refused(spec.problem)}`;
    if (spec.phase === 'loading') return nothing;
    return this.editing ? this.form(spec.value) : this.facts(spec.value);
  }

  private facts(spec: DeliverySpec): TemplateResult {
    const agreed = FIELDS.filter((field) => spec[field.name] !== null && spec[field.name] !== undefined);
    return html`${agreed.length === 0
        ? html`<p class="gap">Nothing was agreed about loudness, peaks or the file.</p>`
        : html`<dl class="facts gap">${agreed.map(
            (field) => html`<div><dt>${field.words}</dt><dd>${factWords(field, spec[field.name] ?? null)}</dd></div>`,
          )}</dl>`}
      ${this.project.may.includes('edit-spec')
        ? html`<p class="btns gap"><button class="btn" type="button" @click=${() => (this.editing = true)}>Change</button></p>`
        : nothing}`;
  }

  private form(spec: DeliverySpec): TemplateResult {
    return html`<form class="form gap press" @submit=${this.keep}>
      <div class="line wide">
        ${FIELDS.map(
          (field) => html`<label>${field.words}${field.unit ? `, ${field.unit}` : ''}
            <input type="number" name=${field.name} min=${field.min} max=${field.max} step=${field.digits === 0 ? '1' : 'any'} inputmode="decimal" .value=${String(spec[field.name] ?? '')}></label>`,
        )}
      </div>
      <p class="help">Leave empty what was not agreed. Before approval each mix is checked against the rest.</p>
      ${this.refusal('keep')}
      <p class="btns">
        <button class="btn main" type="submit" ?disabled=${this.running}>Keep</button>
        <button class="btn" type="button" @click=${() => (this.editing = false)}>Leave as it was</button>
      </p>
    </form>`;
  }
}
function factWords(field: Field, value: number | null): string {
  if (field.unit === 'Hz' && value !== null) return `${value / 1000} kHz`;
  return figure(value, field.unit, field.digits);
}

customElements.define('project-spec', ProjectSpec);
