import { html, nothing, type TemplateResult } from 'lit';
import { api } from '../../api/client.ts';
import type { DeliverySpec, Preset, Project } from '../../api/types.ts';
import { fieldOf, Living } from '../../living.ts';
import { refused } from '../../signs/signs.ts';
import { loading, loadInto, type Load } from '../../state/load.ts';
import { agreedFigure, agreedWords, STANDING_WORDS } from '../../words/delivery.ts';
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
  { name: 'sampleRate', words: 'Sample rate', unit: 'Hz', digits: 0, min: 8000, max: 192000 },
  { name: 'bitDepth', words: 'Bit depth', unit: 'bit', digits: 0, min: 8, max: 64 },
];

/** What was agreed on the finished file, and how many rounds. */
class ProjectSpec extends Living {
  declare project: Project;
  declare private spec: Load<DeliverySpec>;
  declare private editing: boolean;
  declare private presets: readonly Preset[];
  declare private preset: Preset | null;
  static properties = {
    ...Living.properties,
    project: { attribute: false },
    spec: { state: true },
    editing: { state: true },
    presets: { state: true },
    preset: { state: true },
  };

  constructor() {
    super();
    this.spec = loading;
    this.editing = false;
    this.presets = [];
    this.preset = null;
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

  private edit(): void {
    this.editing = true;
    this.preset = null;
    if (this.presets.length > 0) return;
    // Without the list the form does as well.
    void api.get<Preset[]>('/delivery-presets', this.scope.signal).then((presets) => (this.presets = presets), () => undefined);
  }

  /** Fills in what a preset names; what the one before it had filled in is taken out again. */
  private fill(id: string): void {
    const before = this.preset?.figures ?? [];
    this.preset = this.presets.find((p) => p.id === id) ?? null;
    const field = (name: string) => this.querySelector<HTMLInputElement>(`input[name="${name}"]`)!;
    for (const figure of before) field(figure.field).value = '';
    for (const figure of this.preset?.figures ?? []) field(figure.field).value = String(figure.value);
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
      await this.ask();
      this.shut();
    });
  }

  /** The form goes; the focus stays here. */
  private shut(): void {
    this.editing = false;
    void this.updateComplete.then(() => this.querySelector<HTMLElement>('.btn')?.focus());
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
        ? html`<p class="btns gap"><button class="btn" type="button" @click=${() => this.edit()}>Change</button></p>`
        : nothing}`;
  }

  private form(spec: DeliverySpec): TemplateResult {
    return html`<form class="form gap press" @submit=${this.keep}>
      ${this.presets.length > 0 ? this.filling() : nothing}
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
        <button class="btn" type="button" @click=${() => this.shut()}>Leave as it was</button>
      </p>
    </form>`;
  }

  private filling(): TemplateResult {
    const { preset } = this;
    return html`<label>Fill in from <select @change=${(e: Event) => this.fill((e.target as HTMLSelectElement).value)}>
        <option value="">nothing yet</option>
        ${this.presets.map((p) => html`<option value=${p.id} ?selected=${p.id === preset?.id}>${p.name}</option>`)}</select></label>
      <div role="status">${preset ? html`<p>${preset.words}</p>
        <ul class="lines gap">${preset.figures.map((f) => html`<li><span><b>${agreedWords(f.field)}: ${agreedFigure(f.field, f.value)}</b><br>
          <span class="small">${f.source}${f.date ? `, ${month(f.date)}` : ', no date known'}: ${STANDING_WORDS[f.standing]}. <span class="quiet">${f.note}</span></span></span></li>`)}</ul>
        <p class="small">It is filled in below. Alter what you like; nothing is agreed until you press Keep.</p>` : nothing}</div>`;
  }
}

/** "Nov 2023", or the year alone. */
function month(date: string): string {
  return date.length === 4 ? date : new Date(`${date}-15T12:00:00`).toLocaleDateString('en-GB', { month: 'short', year: 'numeric' });
}

function factWords(field: Field, value: number | null): string {
  if (field.unit === 'Hz' && value !== null) return `${value / 1000} kHz`;
  return figure(value, field.unit, field.digits);
}

customElements.define('project-spec', ProjectSpec);
