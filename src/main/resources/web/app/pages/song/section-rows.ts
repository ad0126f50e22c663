/** The sections one by one, and the buttons that begin and end them. */
import { html, nothing, type TemplateResult } from 'lit';
import { edgesOf } from '../../geometry/edges.ts';
import { bars, type Pulse, type Span } from '../../geometry/form.ts';
import { mark, sign } from '../../signs/signs.ts';
import { clock, clockMillis } from '../../words/numbers.ts';
import { calling } from './edge-panel.ts';

/** What the rows and buttons let one do. */
export interface RowActions {
  begin(): void;
  stop(): void;
  cut(): void;
  end(): void;
  show(edge: number): void;
  rename(index: number, name: string, input?: HTMLInputElement): void;
  /** Loops a stretch; null lets go of the loop. */
  loop(stretch: { from: number; to: number } | null): void;
  drop(index: number): void;
}

/** Before tapping: how it goes, and where to begin. */
export function startPanel(some: boolean, act: RowActions): TemplateResult {
  return html`<div class="tap"><p>${some ? html`The button<span class="keyed">, or <kbd>B</kbd>,</span> begins a section where it plays. Drag an edge, or draw a section over the strip; nothing is kept until you say so.`
    : html`Play the song and press the button<span class="keyed">, or <kbd>B</kbd>,</span> wherever something new begins. The likely name is there already; edges can be nudged afterwards.`}</p>
    <p class="btns gap"><button class=${some ? 'btn' : 'btn main'} type="button" @click=${() => act.begin()}>${some ? 'Tap anew from the start' : 'Play and tap'}</button>
      <button class="btn" type="button" @click=${() => act.cut()}>A section begins here</button>
      ${some ? html`<button class="btn" type="button" @click=${() => act.end()}>It ends here</button>` : nothing}</p></div>`;
}

/** While tapping: the section that plays, and the one that begins with a press. */
export function tapPanel(rows: readonly Span[], began: number, upcoming: string, letters: boolean, act: RowActions): TemplateResult {
  const now = rows[began];
  return html`<div class="tap on"><p class="tap-now"><span class="quiet">Since ${clock(now?.from ?? 0)}</span> <strong>${now?.name ?? ''}</strong></p>
    <p class="tap-row"><button class="btn go tap-here" type="button" @click=${() => act.cut()}><span>${upcoming} begins here</span> <kbd>B</kbd></button>
      <button class="btn" type="button" @click=${() => act.stop()}>Stop</button></p>
    ${now ? calling(rows, began, (i, name) => act.rename(i, name), letters) : nothing}</div>`;
}

/** How the rows stand to what is heard and looked at. */
export interface RowsSeen {
  readonly pulse: Pulse;
  readonly chosen: number | null;
  readonly loop: { readonly from: number; readonly to: number } | null;
}

export function sectionRow(rows: readonly Span[], i: number, marks: ReadonlyMap<string, string>, seen: RowsSeen, act: RowActions): TemplateResult {
  const row = rows[i]!;
  const looped = seen.loop !== null && Math.abs(seen.loop.from - row.from) < 0.01 && Math.abs(seen.loop.to - row.to) < 0.01;
  const count = bars(row, seen.pulse);
  const edges = edgesOf(rows);
  const start = edges.findIndex((e) => e.begins === i);
  const end = edges.findIndex((e) => e.ends === i);
  const to = (edge: number, seconds: number, words: string) => html`<button class="btn plain time" type="button" aria-pressed=${edge === seen.chosen} aria-label="${words} of ${row.name}: ${clockMillis(seconds)}" @click=${() => act.show(edge)}>${clockMillis(seconds)}</button>`;
  return html`<li class=${seen.chosen === start ? 'now' : ''}>${mark(marks.get(row.name) ?? '')}
    <input type="text" aria-label="Name of section ${i + 1}" list="section-names" maxlength="60" .value=${row.name} @change=${(e: Event) => act.rename(i, (e.target as HTMLInputElement).value, e.target as HTMLInputElement)}>
    <span class="span">${to(start, row.from, 'Start')}<span class="quiet" aria-hidden="true">to</span>${to(end, row.to, 'End')}</span>
    <span class="quiet long">${count === null ? clock(row.to - row.from) : count === 1 ? '1 bar' : `${count} bars`}</span>
    <button class="loop" type="button" aria-label="Loop ${row.name}" aria-pressed=${looped} @click=${() => act.loop(looped ? null : row)}>${sign('loop', '')}</button>
    <button class="btn plain" type="button" aria-label="Take ${row.name} away" @click=${() => act.drop(i)}>Take away</button></li>`;
}
