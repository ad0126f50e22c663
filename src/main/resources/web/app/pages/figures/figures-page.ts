/** The engineer's figures of one mix, on one screen. Others see words first, figures behind a press. */
import { html, nothing, type TemplateResult } from 'lit';
import { api } from '../../api/client.ts';
import type { Bounce, Id, Measurements, Song } from '../../api/types.ts';
import { Page } from '../../page.ts';
import { go } from '../../router.ts';
import { head, way, whenThere } from '../../signs/frame.ts';
import { mark, none, refused, sign } from '../../signs/signs.ts';
import { FiguresState, stretchQuery } from '../../state/figures.ts';
import { loading, loadInto, type Load } from '../../state/load.ts';
import { loopHref } from '../../state/wish.ts';
import { isSent, mixWords, sentWords } from '../../words/mixes.ts';
import { clock, clockTenths, figure } from '../../words/numbers.ts';
import { rehearsalMarks } from '../../words/sections.ts';
import type { Banded } from './band-chart.ts';
import { deliveryList, sectionTable, seriesTable } from './tables.ts';
import './band-chart.ts';
import './time-chart.ts';

interface Sheet { readonly song: Song; readonly bounces: readonly Bounce[] }

class FiguresPage extends Page {
  declare private sheet: Load<Sheet>;
  declare private mix: Bounce | null;
  declare private beside: Bounce | null;
  /** Name of the section whose curve is shown; none for the whole song. */
  declare private section: string;
  declare private opened: boolean;
  static properties = {
    ...Page.properties, sheet: { state: true }, mix: { state: true }, beside: { state: true }, section: { state: true }, opened: { state: true },
  };

  private figures!: FiguresState;
  private curveOf = '';

  constructor() {
    super();
    this.sheet = loading;
    this.mix = null;
    this.beside = null;
    this.section = '';
    this.opened = false;
  }

  protected open(): void {
    this.titled('Figures');
    this.figures = new FiguresState(this.scope);
    this.scope.onClose(this.figures.data.watch(() => this.arrived()));
    void this.ask();
  }

  private async ask(): Promise<void> {
    const { signal } = this.scope;
    const path = `/songs/${this.param('song')}`;
    const both = Promise.all([api.get<Song>(path, signal), api.all<Bounce>(`${path}/bounces`, signal)]);
    await loadInto(both.then(([song, bounces]) => ({ song, bounces: bounces.filter((b) => b.state === 'ready') })), (load) => (this.sheet = load));
    if (this.sheet.phase !== 'ready') return;
    const { song, bounces } = this.sheet.value;
    this.titled(`Figures, ${song.title}`);
    this.opened = song.may.includes('hear-private') && song.may.includes('see-figures');
    const asked = new URLSearchParams(location.search);
    const find = (id: string | null) => bounces.find((b) => b.id === id) ?? null;
    const mains = bounces.filter((b) => b.kind === 'main').sort((a, b) => a.number - b.number);
    const mix = find(asked.get('mix')) ?? mains[mains.length - 1] ?? bounces[bounces.length - 1] ?? null;
    const before = mains.filter((b) => mix && b.id !== mix.id && b.number < mix.number);
    this.look(mix, find(asked.get('with')) ?? before.filter(isSent).pop() ?? before.pop() ?? null, asked.get('of') ?? '');
  }

  private look(mix: Bounce | null, beside: Bounce | null, section: string): void {
    this.mix = mix;
    this.beside = beside?.id === mix?.id ? null : beside;
    this.section = section;
    this.curveOf = '';
    if (!mix) return;
    this.figures.look(mix.id, this.beside, this.opened);
  }

  /** Chooses anew, and says so in the address. */
  private choose(mix: Bounce | null, beside: Bounce | null): void {
    this.look(mix, beside, '');
    this.say();
  }

  private show(section: string): void {
    this.section = section;
    this.arrived();
    this.say();
  }

  private say(): void {
    const of = this.section === '' ? '' : `&of=${encodeURIComponent(this.section)}`;
    go(`/songs/${this.param('song')}/figures?mix=${this.mix!.id}${this.beside ? `&with=${this.beside.id}` : ''}${of}`, 'replace');
  }

  /** The curve is asked for once it is known where the sections lie. */
  private arrived(): void {
    this.requestUpdate();
    const { measurements } = this.figures.data.value;
    if (!measurements || !this.mix) return;
    const key = `${this.mix.id} ${this.section}`;
    if (key === this.curveOf) return;
    this.curveOf = key;
    this.figures.lookAt(this.mix.id, this.stretch(measurements));
  }

  private stretch(measurements: Measurements): { from: number; to: number } | null {
    return measurements.sections.find((s) => s.name === this.section) ?? null;
  }

  render(): TemplateResult {
    return whenThere(this.sheet, (sheet) => this.shown(sheet));
  }

  private shown({ song, bounces }: Sheet): TemplateResult {
    const { mix } = this;
    return html`${way([{ words: 'All songs', href: '/' }, { words: song.title, href: `/songs/${song.id}` }, { words: 'Figures' }], this.me, song.you.role)}
      ${head({
        title: song.title, by: song.artist,
        left: mix ? html`<p>Figures of ${mixWords(mix)}${mix.file?.seconds == null ? '' : `, ${clock(mix.file.seconds)}`}<br>${sentWords(mix) || 'private'}</p>` : '',
        right: mix ? html`<p><a href="/songs/${song.id}?mix=${mix.id}${this.beside ? `&with=${this.beside.id}` : ''}">Back to ${mixWords(mix)}</a></p>` : '',
      })}
      <main id="main" tabindex="-1">${mix ? this.body(song, bounces, mix) : none('There is no mix to measure yet.')}</main>`;
  }

  private body(song: Song, bounces: readonly Bounce[], mix: Bounce): TemplateResult {
    const data = this.figures.data.value;
    const engineer = song.may.includes('hear-private');
    const mayOpen = song.may.includes('see-figures');
    return html`${refused(data.problem)}
      ${data.words ? html`<p class="lead in-words">${engineer ? html`<span class="small quiet">Others read</span>` : nothing}<span>${data.words.words}</span>
        ${data.words.section ? html`<a class="btn plain" href=${loopHref(song.id, mix.id, this.beside?.id ?? null, data.words.section)}>${sign('loop', 'lp')}Hear it</a>` : nothing}</p>` : nothing}
      ${this.opened ? this.all(song, bounces, mix)
        : mayOpen ? html`<p class="btns"><button class="btn" type="button" @click=${() => this.openUp()}>Show the figures</button></p>`
          : html`<p class="quiet">The figures of this project are the engineer’s. Your ears are what counts here.</p>`}`;
  }

  private openUp(): void {
    this.opened = true;
    this.look(this.mix, this.beside, this.section);
    // The button goes with the press; the focus stays with what came for it.
    void this.updateComplete.then(() => this.querySelector<HTMLElement>('#main')?.focus());
  }

  private all(song: Song, bounces: readonly Bounce[], mix: Bounce): TemplateResult {
    const data = this.figures.data.value;
    const { measurements, series } = data;
    if (!measurements) return data.problem ? html`` : html`<p class="quiet" role="status">One moment.</p>`;
    const spans = measurements.sections.map((s) => ({ name: s.name, from: s.from, to: s.to }));
    const marks = rehearsalMarks(spans.map((s) => s.name));
    const hear = (loop: string | { from: number; to: number }) => loopHref(song.id, mix.id, this.beside?.id ?? null, loop);
    const stretch = this.stretch(measurements);
    return html`
      <div class="picks">
        ${this.pick('Figures of', bounces, mix, (b) => this.choose(b, this.beside), false)}
        ${this.pick('Bands beside', bounces.filter((b) => b.id !== mix.id), this.beside, (b) => this.choose(mix, b), true)}
        <p class="btns saves"><a class="btn" href="/api/v1/bounces/${mix.id}/measurements.csv" download>Figures as CSV</a>
          <a class="btn" href="/api/v1/bounces/${mix.id}/series.csv?${stretchQuery(stretch)}" download>Curve as CSV</a></p>
      </div>
      ${loudest(measurements, marks, hear)}
      <section class="part" aria-labelledby="time-title"><h2 id="time-title">Over time</h2>
        <div class="picks"><label class="pick"><span>Show</span> <select @change=${(e: Event) => this.show((e.target as HTMLSelectElement).value)}>
          <option value="" ?selected=${this.section === ''}>the whole song</option>${spans.map((s) => html`<option value=${s.name} ?selected=${s.name === this.section}>${s.name}</option>`)}</select></label>
          <p class="small quiet keys-line">Loudness: the thick line is short-term (3 s), the thin one momentary (0.4 s), each at the middle of its window. Arrow keys read it: ← → in time, ↑ ↓ by section.</p></div>
        ${series ? html`<figures-time .series=${series} .spans=${spans} .marks=${marks} .ceiling=${data.agreed?.find((a) => a.field === 'ceilingDbtp')?.agreed ?? null}
            .integrated=${measurements.whole.integratedLufs} .heard=${{ song: song.id, mix: mix.id, other: this.beside?.id ?? null }}></figures-time>
          <details class="fold"><summary>As a table</summary>${seriesTable(series, spans)}</details>` : html`<p class="quiet" role="status">One moment.</p>`}
      </section>
      <div class="two part">
        <section aria-labelledby="bands-title"><h2 id="bands-title">Band balance</h2>
          ${data.bands ? html`<figures-bands .choice=${this.banded(mix)} .first=${mix.id} .second=${this.beside && data.otherBands ? this.beside.id : ''}></figures-bands>` : nothing}</section>
        <section aria-labelledby="delivery-title"><h2 id="delivery-title">Delivery</h2>${data.agreed ? deliveryList(data.agreed, song.project) : nothing}</section>
      </div>
      <section class="part" aria-labelledby="sections-title"><h2 id="sections-title">Section by section</h2>${sectionTable(measurements, marks, hear)}</section>`;
  }

  private pick(words: string, all: readonly Bounce[], chosen: Bounce | null, set: (bounce: Bounce | null) => void, empty: boolean): TemplateResult {
    const find = (id: Id) => all.find((b) => b.id === id) ?? null;
    return html`<label class="pick"><span>${words}</span> <select @change=${(e: Event) => set(find((e.target as HTMLSelectElement).value))}>
      ${empty ? html`<option value="" ?selected=${chosen === null}>no other mix</option>` : nothing}
      ${all.map((b) => html`<option value=${b.id} ?selected=${b.id === chosen?.id}>${mixWords(b)}</option>`)}</select></label>`;
  }

  /** Everything whose bands are known: both mixes, whole and by section. */
  private banded(mix: Bounce): Banded[] {
    const { bands, otherBands } = this.figures.data.value;
    const of = (b: Bounce, all: typeof bands): Banded[] => all === null ? [] : [
      { id: b.id, group: mixWords(b), words: 'whole song', bands: all.whole },
      ...all.sections.filter((s) => s.bands.length > 0).map((s) => ({ id: `${b.id} ${s.name}`, group: mixWords(b), words: s.name, bands: s.bands })),
    ];
    return [...of(mix, bands), ...(this.beside ? of(this.beside, otherBands) : [])];
  }
}

/** Where to begin checking: one press each. */
function loudest(all: Measurements, marks: ReadonlyMap<string, string>, hear: (loop: string | { from: number; to: number }) => string): TemplateResult | typeof nothing {
  const spot = all.loudest;
  if (!spot || (spot.section === null && spot.from === null)) return nothing;
  const section = all.sections.find((s) => s.name === spot.section);
  return html`<ul class="loudest" aria-label="Where it is loudest">
    ${section ? html`<li><span class="quiet">Loudest section</span> <span>${mark(marks.get(section.name) ?? '–', true)} <b>${section.name}</b>, ${figure(section.ungatedLufs, 'LUFS')}</span>
      <a class="btn" href=${hear(section.name)}>${sign('loop', 'lp')}Start there</a></li>` : nothing}
    ${spot.from !== null && spot.to !== null ? html`<li><span class="quiet">Loudest 3 s</span> <span><b>${clockTenths(spot.from)} to ${clockTenths(spot.to)}</b>, ${figure(all.whole.maxShortTermLufs, 'LUFS')}</span>
      <a class="btn" href=${hear({ from: spot.from, to: spot.to })}>${sign('loop', 'lp')}Start there</a></li>` : nothing}</ul>`;
}

customElements.define('page-figures', FiguresPage);
