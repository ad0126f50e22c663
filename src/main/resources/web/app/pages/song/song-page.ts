/** The page of one song: listening, its form, what is asked, and what is to be done next. */
import { html, nothing, type TemplateResult } from 'lit';
import { api } from '../../api/client.ts';
import { asProblem, type Problem } from '../../api/problem.ts';
import type { Act, Change } from '../../api/types.ts';
import { at, neighbour, present, step, type Pulse } from '../../geometry/form.ts';
import { Page } from '../../page.ts';
import { Player } from '../../player/player.ts';
import { serverAudio } from '../../player/server.ts';
import { head, way, whenThere } from '../../signs/frame.ts';
import { roundAtWork, roundWords, tally } from '../../signs/signs.ts';
import { EvidenceState } from '../../state/evidence.ts';
import { SongState, type SongData } from '../../state/song.ts';
import { wishOf, type Wish } from '../../state/wish.ts';
import { date } from '../../words/time.ts';
import { rehearsalMarks } from '../../words/sections.ts';
import { isSent } from '../../words/mixes.ts';
import { rowId } from './chart.ts';
import { figuresHref, mixName, type Context } from './context.ts';
import { deskView } from './desk-view.ts';
import { keyList, lettersOn, onKey, switchLetters, type KeyActions } from './keys.ts';
import { listenerView } from './listener-view.ts';
import { listenBar } from './listening.ts';
import type { NoteWriter } from './note-writer.ts';

class SongPage extends Page {
  declare private keysOpen: boolean;
  declare private letters: boolean;
  declare private here: string | null;
  declare private doing: string | null;
  declare private said: string;
  static properties = {
    ...Page.properties, keysOpen: { state: true }, letters: { state: true }, here: { state: true }, doing: { state: true }, said: { state: true },
  };

  /** Also for tests of the page: `document.querySelector('page-song').player.probe()`. */
  player!: Player;
  songState!: SongState;
  evidence!: EvidenceState;
  /** What a part of the page remembers for itself: open folds, chosen section of the figures. */
  readonly remembered = new Map<string, string>();
  private readonly refusals = new Map<string, Problem>();
  private looked = '';
  private undo: Change | null = null;
  private wish: Wish | null = null;

  constructor() {
    super();
    this.keysOpen = false;
    this.letters = lettersOn();
    this.here = null;
    this.doing = null;
    this.said = '';
  }

  protected open(): void {
    const { scope } = this;
    this.wish = wishOf(location.search);
    this.player = new Player(serverAudio, scope);
    this.songState = new SongState(this.param('song'), scope);
    this.evidence = new EvidenceState(scope);
    scope.onClose(this.songState.data.watch(() => this.changed()));
    scope.onClose(this.songState.measured.watch(() => this.look(true)));
    scope.onClose(this.evidence.data.watch(() => this.requestUpdate()));
    scope.listen(this.player, 'change', () => this.requestUpdate());
    scope.listen(this.player, 'place', () => this.placed());
    scope.listen<KeyboardEvent>(document, 'keydown', (e) => {
      if (onKey(e, this.keyActions, this.letters)) e.preventDefault();
    });
    void this.songState.open();
  }

  render(): TemplateResult {
    return whenThere(this.songState.data.value, (data) => {
      const context = this.context(data);
      return html`
        ${way([{ words: 'All songs', href: '/' }, { words: data.song.projectTitle, href: `/projects/${data.song.project}` }, { words: data.song.title }], this.me, data.song.you.role)}
        ${this.head(data, context)}
        ${listenBar(context, this.evidence.data.value.outline, this.evidence.data.value.comparison?.gainDb ?? null, () => this.keyActions.note(), ({ lead, other, more }) => void this.songState.choose(lead, other, more))}
        <main id="main" tabindex="-1">
          ${context.may('work-list') ? deskView(context, this) : listenerView(context, this)}
          ${keyList(this.keysOpen, this.letters, context.may('work-list'), (open) => (this.keysOpen = open), (on) => this.setLetters(on))}
        </main>
        <div class="told" role="status">${this.said ? html`<p>${this.said} ${this.undo ? html`<button class="link" type="button" @click=${() => this.undoDone()}>Undo</button>` : nothing}</p>` : nothing}</div>`;
    });
  }

  private head(data: SongData, context: Context): TemplateResult {
    const { song } = data;
    const left = [song.tempoBpm ? `${song.tempoBpm} bpm${song.beatsPerBar ? `, ${song.beatsPerBar}/4` : ''}` : '', song.due ? `due ${date(song.due)}` : ''].filter(Boolean);
    return head({
      title: song.title, by: song.artist, left: html`${left.map((l, i) => html`${i > 0 ? html`<br>` : nothing}${l}`)}`,
      right: html`<p>${tally(roundAtWork(song), song.includedRounds)}<strong>Round ${roundWords(roundAtWork(song), song.includedRounds)}</strong>${song.roundState === 'closed' ? ', closed' : ''}</p>
        <p><a href="/songs/${song.id}/list">Change list</a>${data.bounces.some(isSent) ? html`, <a href="/songs/${song.id}/approve">approval</a>` : nothing}${data.lead && context.may('work-list') ? html`, <a href=${figuresHref(data)}>figures</a>` : nothing}</p>`,
    });
  }

  context(data: SongData): Context {
    const { song } = data;
    const pulse: Pulse = { tempoBpm: song.tempoBpm, beatsPerBar: song.beatsPerBar, firstBarSeconds: song.firstBarSeconds, lines: data.lines };
    return {
      data, me: this.me?.id ?? '', player: this.player, spans: present(data.sections), pulse,
      marks: rehearsalMarks(data.sections.map((s) => s.name)), here: this.here, refusals: this.refusals, running: this.doing,
      may: (act: Act) => song.may.includes(act),
      press: (name, work) => void this.carryOut(name, work),
      loopSection: (name) => this.loopSection(name),
    };
  }

  async carryOut(name: string, work: () => Promise<unknown>): Promise<boolean> {
    if (this.doing !== null) return false;
    this.doing = name;
    this.refusals.delete(name);
    try {
      await work();
      this.songState.refresh(['song', 'changes', 'questions', 'keeps', 'bounces']);
      return true;
    } catch (reason) {
      this.refusals.set(name, asProblem(reason));
      return false;
    } finally {
      this.doing = null;
    }
  }

  loopSection(name: string): void {
    const span = present(this.songState.value?.sections ?? []).find((s) => s.name === name);
    if (!span) return;
    const { loop } = this.player.state;
    if (loop && Math.abs(loop.from - span.from) < 0.01 && Math.abs(loop.to - span.to) < 0.01) {
      this.player.setLoop(null);
      return;
    }
    this.player.setLoop({ from: span.from, to: span.to });
    if (!this.player.playing) void this.player.play();
  }

  /** Loops a stretch of the leading mix that is no section, and plays it. */
  loopStretch(from: number, to: number): void {
    this.player.setLoop({ from, to }, true);
    if (!this.player.playing) void this.player.play();
  }

  /** Marks a change as done in the leading mix; it can be undone until the mix is sent. */
  async markDone(change: Change, state: 'done' | 'asked' = 'done'): Promise<void> {
    const data = this.songState.value;
    if (!data?.lead) return;
    const { lead } = data;
    const went = await this.carryOut(`done ${change.id}`, () => api.post(`/songs/${data.song.id}/changes/marking`, {
      changes: [change.id], state, ...(state === 'done' ? { doneIn: lead.id, answer: 'as-asked' } : {}),
    }));
    if (!went) return;
    this.undo = state === 'done' && !isSent(lead) ? change : null;
    this.tell(state === 'done'
      ? `“${change.text}” is marked as done in ${mixName(data, lead.id)}. ${isSent(lead) ? 'It has been sent, so everybody sees this.' : 'Nobody else sees this until you send it.'}`
      : 'Open again.');
  }

  /** Takes an unclear change as the engineer reads it. */
  takeAsRead(change: Change): void {
    const data = this.songState.value;
    if (!data) return;
    void this.carryOut(`done ${change.id}`, () => api.post(`/songs/${data.song.id}/changes/marking`, { changes: [change.id], state: 'asked' }))
      .then((went) => went && this.tell('Taken as read. Whoever wrote it is told.'));
  }

  tell(words: string): void {
    this.said = words;
    this.scope.after(9000, () => {
      if (this.said === words) this.said = '';
    });
  }

  private undoDone(): void {
    if (this.undo) void this.markDone(this.undo, 'asked');
  }

  private changed(): void {
    const data = this.songState.value;
    this.requestUpdate();
    if (!data) return;
    this.titled(data.song.title);
    this.player.showing = { title: data.song.title, artist: data.song.artist, mix: '' };
    const mix = (b: SongData['lead']) => b && { id: b.id, label: mixName(data, b.id) };
    const lead = mix(data.lead);
    if (lead) this.player.open(lead, mix(data.other), data.more.map((b) => mix(b)!));
    this.look(false);
    if (data.lead) void this.grant();
  }

  /** Does once what the link to this page asked for; a press brought the reader here, so it may sound. */
  private async grant(): Promise<void> {
    const { wish } = this;
    if (!wish) return;
    this.wish = null;
    if (wish.mix && wish.other) await this.songState.choose(wish.mix, wish.other);
    else if (wish.mix) await this.songState.chooseWithBefore(wish.mix);
    if (wish.loop) this.loopSection(wish.loop);
    else if (wish.stretch) this.loopStretch(wish.stretch.from, wish.stretch.to);
    else if (wish.play) await this.player.play();
  }

  /** Asks for the evidence this person may see, once for each pair and anew when something was measured. */
  look(again: boolean): void {
    const data = this.songState.value;
    if (!data) return;
    const engineer = data.song.may.includes('hear-private');
    const figures = engineer || (this.remembered.get('figures') ?? this.remembered.get('moved')) === 'open';
    const judged = engineer ? data.changes.filter((c) => c.state === 'done' || c.state === 'asked').map((c) => c.id) : [];
    const key = [data.lead?.id, data.other?.id, figures, judged.join()].join(' ');
    if (!again && key === this.looked) return;
    this.looked = key;
    this.evidence.look(data.lead, data.other, { figures, findings: engineer, words: !engineer, judged });
  }

  remember(key: string, value: string): void {
    this.remembered.set(key, value);
    this.look(false);
    this.requestUpdate();
  }

  get lettersOn(): boolean {
    return this.letters;
  }

  /** Sections have been kept: they, and every figure that goes by them, are asked for anew. */
  sectionsKept(): void {
    this.songState.refresh(['sections', 'notes']);
    this.look(true);
  }

  private placed(): void {
    const name = at(present(this.songState.value?.sections ?? []), this.player.position())?.name ?? null;
    if (name !== this.here) this.here = name;
  }

  private setLetters(on: boolean): void {
    this.letters = on;
    switchLetters(on);
  }

  private readonly keyActions: KeyActions = {
    play: () => this.player.toggle(),
    section: (direction) => {
      const to = neighbour(this.spans(), this.player.position(), direction);
      if (!to) return;
      const { loop } = this.player.state;
      if (loop) this.player.setLoop({ from: to.from, to: to.to }, true);
      else this.player.seek(to.from);
      this.placed();
      document.getElementById(rowId(to.name))?.scrollIntoView({ block: 'nearest' });
    },
    bar: (direction) => {
      const data = this.songState.value;
      if (!data) return;
      const here = this.player.position();
      // Sections move along with the music from mix to mix; the song's first bar does not.
      this.player.seek(step(here, direction, this.context(data).pulse, this.player.state.seconds, at(this.spans(), here)?.from));
      this.placed();
    },
    cross: () => this.player.cross(),
    equal: () => this.player.setEqual(!this.player.state.equal),
    loop: () => {
      const here = at(this.spans(), this.player.position());
      if (this.player.state.loop) this.player.setLoop(null);
      else if (here) this.loopSection(here.name);
    },
    note: () => this.querySelector<NoteWriter>('mix-note')?.take(),
    done: () => this.doneByKey(),
    list: () => {
      this.keysOpen = true;
      void this.updateComplete.then(() => this.querySelector<HTMLElement>('#keys summary')?.focus());
    },
  };

  private doneByKey(): void {
    const data = this.songState.value;
    if (!data?.song.may.includes('work-list')) return;
    const focused = (document.activeElement?.closest('[data-change]') as HTMLElement | null)?.dataset['change'];
    const row = this.here ? document.getElementById(rowId(this.here)) : null;
    const open = [...(row?.querySelectorAll<HTMLElement>('[data-done]') ?? [])].map((b) => b.dataset['done']!);
    const id = focused ?? (open.length === 1 ? open[0] : undefined);
    const change = data.changes.find((c) => c.id === id && c.state === 'asked');
    if (change) void this.markDone(change);
    else if (open.length > 1) {
      row!.querySelector<HTMLElement>('[data-done]')!.focus();
      this.tell('More than one change is open here: choose with Tab.');
    } else this.tell('No change is open in this section.');
  }

  private spans() {
    return present(this.songState.value?.sections ?? []);
  }
}
customElements.define('page-song', SongPage);
export type { SongPage };
