/** The table in which dropped files are looked over: one line a file, everything in it can be put right. */
import { html, nothing, type TemplateResult } from 'lit';
import type { Id, Kind } from '../../api/types.ts';
import { sign } from '../../signs/signs.ts';
import { belongs, freshNeeded, isAlternate, missing, sameSong, type Looked, type Main, type Row, type SongChoice } from '../../uploads/look.ts';
import { KIND_WORDS } from '../../words/mixes.ts';
import { capital, count } from '../../words/numbers.ts';
import { size } from '../../words/sending.ts';

export interface Looking {
  readonly looked: Looked;
  readonly kinds: readonly Kind[];
  /** Part files only, of one mix. */
  readonly stems: boolean;
  /** Songs to choose from; null where there is but one. */
  readonly songs: readonly { readonly id: Id; readonly title: string }[] | null;
  readonly mayMakeSongs: boolean;
  readonly mayBringParts: boolean;
  /** The mains each song has already. */
  readonly mains: ReadonlyMap<Id, readonly Main[]>;
  readonly elements: readonly string[];
  readonly change: (row: Row, news: Partial<Row>) => void;
  readonly rename: (fresh: number, title: string) => void;
  readonly another: (row: Row) => void;
}

export function lookOver(of: Looking): TemplateResult {
  const { rows } = of.looked;
  const shown = rows.filter((row) => row.taken || row.leaveOut === null);
  const out = rows.filter((row) => !row.taken && row.leaveOut !== null);
  return html`${freshSongs(of)}
    ${shown.length === 0 ? nothing : html`<table class="rows look">
      <caption class="hide">What the names of these files seem to say</caption>
      <thead><tr><th scope="col">File</th>${of.songs ? html`<th scope="col">Song</th>` : nothing}<th scope="col">${of.stems ? 'Which part' : 'What it is'}</th>
        ${named(of) ? html`<th scope="col">Name when sent</th>` : nothing}<th scope="col"><span class="hide">Left out or not</span></th></tr></thead>
      <tbody>${shown.map((row) => line(of, row))}</tbody></table>
      <datalist id="look-parts">${of.elements.map((e) => html`<option value=${e}></option>`)}</datalist>`}
    ${out.length === 0 ? nothing : html`<details class="fold"><summary>${capital(count(out.length, 'file'))} left out</summary>
      <ul class="lines">${out.map((row) => html`<li><p><b class="file-name">${row.found.file.name}</b> <span class="quiet small">${row.leaveOut}</span></p>
        <button class="btn plain" type="button" aria-label="Take it all the same: ${row.found.file.name}" @click=${() => of.change(row, { taken: true })}>Take it all the same</button></li>`)}</ul></details>`}`;
}

/** Only mains are given a name at sending: alternates share that of theirs, roughs are there for everybody at once. */
function named(of: Looking): boolean {
  return !of.stems && of.kinds.includes('main');
}

/** Songs that will be made: a title put right here is right for all its files. */
function freshSongs(of: Looking): TemplateResult | typeof nothing {
  const needed = freshNeeded(of.looked);
  if (needed.length === 0) return nothing;
  return html`<fieldset class="form fresh"><legend>${needed.length === 1 ? 'A new song is made' : `${capital(count(needed.length, 'new song'))} are made`}</legend>
    <div class="line">${needed.map((index, at) => html`<label>${needed.length === 1 ? 'Its title' : `Title ${at + 1}`}<input type="text" data-fresh=${index} required maxlength="200" autocomplete="off"
      .value=${of.looked.fresh[index]!.title} @change=${(e: Event) => of.rename(index, (e.target as HTMLInputElement).value.trim())}></label>`)}</div></fieldset>`;
}

function line(of: Looking, row: Row): TemplateResult {
  const name = row.found.file.name;
  const folder = row.found.path.split('/').slice(0, -1).join(' / ');
  // What is named after a mix, and no such mix is here or comes along.
  const alone = isAlternate(row.what) && row.of === null && row.label !== '' && row.song !== null;
  const check = row.taken && (!row.sure || alone || missing(row) !== '');
  return html`<tr class=${row.taken ? '' : 'out'} data-file=${name}>
    <th scope="row"><b class="file-name">${name}</b> <span class="quiet small">${folder ? `${folder}, ` : ''}${size(row.found.file.size)}</span>
      ${row.taken ? html`<span class="small says">${check ? html`<span class="you">${sign('ques')}Check</span> ` : nothing}${row.words}${alone ? ` No mix called “${row.label}” is here or comes with it.` : ''}</span>` : nothing}</th>
    ${row.taken ? fields(of, row, name) : html`<td class="quiet" colspan=${(of.songs ? 1 : 0) + (named(of) ? 2 : 1)}>left out</td>`}
    <td class="num"><button class="btn plain" type="button" aria-label="${row.taken ? 'Leave out' : 'Take'}: ${name}" @click=${() => of.change(row, { taken: !row.taken })}>${row.taken ? 'Leave out' : 'Take'}</button></td>
  </tr>`;
}

function fields(of: Looking, row: Row, name: string): TemplateResult {
  return html`${of.songs ? html`<td data-head="Song">${songField(of, row, name)}</td>` : nothing}
    ${of.stems ? html`<td data-head="Which part">${partField(of, row, name)}</td>` : html`<td data-head="What it is">${kindField(of, row, name)}</td>
      ${!named(of) ? nothing : row.what !== 'main' ? html`<td class="wide-only"></td>` : html`<td data-head="Name when sent"><input type="text" class="label" aria-label="Name when sent: ${name}" maxlength="60" placeholder="as counted" autocomplete="off"
        .value=${row.label} @change=${(e: Event) => of.change(row, { label: (e.target as HTMLInputElement).value })}></td>`}`}`;
}

function songField(of: Looking, row: Row, name: string): TemplateResult {
  const { fresh } = of.looked;
  const chosen = (choice: SongChoice) => sameSong(row.song, choice);
  const pick = (e: Event) => {
    const { value } = e.target as HTMLSelectElement;
    if (value === 'another') of.another(row);
    else of.change(row, { song: value.startsWith('new ') ? { fresh: Number(value.slice(4)) } : { id: value } });
  };
  return html`<select aria-label="Song: ${name}" aria-invalid=${row.song === null ? 'true' : nothing} @change=${pick}>
    ${row.song === null ? html`<option value="" disabled selected>Choose the song</option>` : nothing}
    ${fresh.map((one, index) => html`<option value="new ${index}" ?selected=${chosen({ fresh: index })}>${one.title} (new)</option>`)}
    ${of.songs!.map((one) => html`<option value=${one.id} ?selected=${chosen({ id: one.id })}>${one.title}</option>`)}
    ${of.mayMakeSongs ? html`<option value="another">Another new song</option>` : nothing}</select>`;
}

function kindField(of: Looking, row: Row, name: string): TemplateResult {
  const pick = (e: Event) => of.change(row, { what: (e.target as HTMLSelectElement).value as Row['what'] });
  return html`<select aria-label="What it is: ${name}" @change=${pick}>
      ${of.kinds.map((kind) => html`<option value=${kind} ?selected=${kind === row.what}>${KIND_WORDS[kind]}</option>`)}
      ${of.mayBringParts && of.songs ? html`<option value="part" ?selected=${row.what === 'part'}>Part file</option>` : nothing}</select>
    ${row.what === 'part' ? partField(of, row, name) : nothing}${belongs(row.what) ? mainField(of, row, name) : nothing}`;
}

function partField(of: Looking, row: Row, name: string): TemplateResult {
  return html`<input type="text" list="look-parts" aria-label="Which part: ${name}" placeholder="which part" autocomplete="off" aria-invalid=${missing(row) === 'part' ? 'true' : nothing}
    .value=${row.element} @change=${(e: Event) => of.change(row, { element: (e.target as HTMLInputElement).value })}>`;
}

/** The main an alternate or a part belongs to: one that is here, or one brought with it. */
function mainField(of: Looking, row: Row, name: string): TemplateResult | typeof nothing {
  const beside = of.looked.rows.map((other, index) => ({ other, index })).filter(({ other }) => other.taken && other.what === 'main' && sameSong(other.song, row.song));
  const here = row.song !== null && 'id' in row.song ? of.mains.get(row.song.id) ?? [] : [];
  if (beside.length + here.length === 0) return nothing;
  const chosen = row.of === null ? '' : 'row' in row.of ? `row ${row.of.row}` : row.of.id;
  const pick = (e: Event) => {
    const { value } = e.target as HTMLSelectElement;
    of.change(row, { of: value === '' ? null : value.startsWith('row ') ? { row: Number(value.slice(4)) } : { id: value } });
  };
  return html`<select aria-label="Belongs to: ${name}" @change=${pick}>
    <option value="" ?selected=${chosen === ''}>of the newest mix${row.what === 'part' ? '' : ' sent'}</option>
    ${beside.map(({ other, index }) => html`<option value="row ${index}" ?selected=${chosen === `row ${index}`}>of “${other.found.file.name}”</option>`)}
    ${here.map((main) => html`<option value=${main.id} ?selected=${chosen === main.id}>of ${main.words}</option>`)}</select>`;
}
