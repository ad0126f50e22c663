/**
 * The player of a song page. Plain listening runs through a media element; crossing over and
 * looping run on the audio clock, where all mixes are scheduled together, frame by frame.
 * All places are seconds on the leading mix's time line.
 */
import type { CopyWish } from './copies.ts';
import { renderTogether, type Rendering } from './offline.ts';
import { Sounding } from './sounding.ts';
import { mixesOf, NOTHING, type Mix, type Probe } from './state.ts';

/** What somebody can do with it. */
export class Player extends Sounding {
  /** Chooses the mix, or the two to four mixes, to listen to; keeps the musical place where it can. */
  open(lead: Mix, other: Mix | null, more: readonly Mix[] = [], sounding = lead.id): void {
    const { state } = this;
    const wanted = [lead, other, ...more];
    const open = [state.lead, state.other, ...state.more];
    if (wanted.length === open.length && wanted.every((mix, i) => mix?.id === open[i]?.id)) {
      if (wanted.some((mix, i) => mix?.label !== open[i]?.label)) this.set({ lead, other, more });
      return;
    }
    const wasPlaying = this.wanted;
    this.place = this.positionOf(lead.id) ?? this.position();
    this.wanted = false;
    this.plain.close();
    this.clock.clear();
    this.set({ ...NOTHING, volume: state.volume, equal: state.equal, copyWish: state.copyWish, phase: 'loading', lead, other, more, sounding });
    this.reload();
    if (wasPlaying) void this.play();
  }

  toggle(): void {
    if (this.wanted) this.pause();
    else void this.play();
  }

  /** Goes to a place in seconds; playing goes on from there. A place outside the loop ends the loop. */
  seek(seconds: number): void {
    const length = this.state.seconds || Infinity;
    this.place = Math.min(Math.max(seconds, 0), Math.max(0, length - 0.01));
    const { loop } = this.state;
    if (loop && (this.place < loop.from - 0.001 || this.place >= loop.to)) {
      this.set({ loop: null });
      this.askLevels();
    }
    if (this.plain.playing && !this.clock.running) this.plain.seconds = this.place;
    else if (this.wanted) this.restart();
    this.tell();
  }

  /** Loops a stretch (seconds on the leading mix); play goes to its start unless it stands inside. */
  setLoop(loop: { from: number; to: number } | null, fromStart = false): void {
    if (loop && loop.to - loop.from < 0.2) return;
    const here = this.position();
    const inside = loop !== null && here >= loop.from && here < loop.to;
    this.place = loop && (fromStart || !inside) ? loop.from : here;
    if (loop && !inside && this.plain.playing && !this.clock.running) this.plain.seconds = this.place;
    this.set({ loop, way: loop ? 'clock' : this.state.way });
    this.askLevels();
    if (this.wanted) this.restart();
    this.tell();
  }

  /** Loops a stretch given in seconds of the other mix, on all. */
  async loopOther(from: number, to: number): Promise<void> {
    const together = await this.loading;
    await together?.complete;
    const map = together?.mapOf(this.state.other?.id ?? '');
    const here = (s: number) => map?.nearestFromOther(s) ?? s;
    // A single moment is heard with the seconds around it.
    const around = to - from < 2 ? 2 : 0;
    const start = Math.max(0, here(from) - around);
    this.setLoop({ from: start, to: Math.max(start + 1, here(to) + around) }, true);
  }

  /** Crosses over to one of the mixes that are open. */
  crossTo(id: string): void {
    const { sounding } = this.state;
    if (id === sounding || !mixesOf(this.state).some((mix) => mix.id === id)) return;
    this.gainDb = null;
    this.set({ difference: false });
    this.applyMatch();
    const crossed = this.clock.crossTo(id, sounding) && this.clock.running;
    if (!crossed) this.place = this.position();
    this.set({ sounding: id, way: 'clock' });
    this.askLevels();
    if (this.wanted && !crossed) void this.play();
  }

  /** Crosses over to the next of the mixes that are open; of two, to the one that does not sound. */
  cross(): void {
    const mixes = mixesOf(this.state);
    const next = mixes[(mixes.findIndex((mix) => mix.id === this.state.sounding) + 1) % mixes.length];
    if (next) this.crossTo(next.id);
  }

  /**
   * Only what differs between the leading mix and the other one, at half level, or the chosen mix again.
   *
   * @param gainDb by how much the leading mix is louder altogether; null ends it
   */
  async setDifference(gainDb: number | null): Promise<void> {
    this.gainDb = gainDb;
    this.set({ difference: gainDb !== null, way: gainDb === null ? this.state.way : 'clock' });
    this.applyMatch();
    if (this.wanted && !this.clock.running) await this.play();
    this.clock.difference(gainDb);
  }

  /** All equally loud, or as delivered. */
  setEqual(equal: boolean): void {
    this.set({ equal });
    this.applyMatch();
  }

  setVolume(volume: number): void {
    this.set({ volume });
    this.plain.element.volume = this.elementGain();
    this.clock.setVolume(volume);
  }

  /** Full quality, the light copy, or as the line allows; kept on this device. */
  setCopy(wish: CopyWish): void {
    this.copies.wish = wish;
    const before = this.state.copy;
    this.set({ copyWish: wish });
    this.lookAtCopies();
    if (this.state.copy !== before && this.wanted && this.state.way === 'plain') this.replay();
  }

  /** Back to plain listening of the leading mix, which goes on with the screen locked. */
  plainly(fromStart = false): void {
    const { lead } = this.state;
    if (!lead) return;
    this.place = fromStart ? 0 : this.position();
    if (this.plain.playing && !this.clock.running && fromStart) this.plain.seconds = 0;
    this.clock.halt();
    this.gainDb = null;
    this.set({ way: 'plain', loop: null, sounding: lead.id, difference: false });
    if (this.wanted || fromStart) void this.play();
  }

  /** The same instant on the time line of any mix that is open; null where it has nothing there. */
  positionOf(id: string): number | null {
    const here = this.position();
    return id === this.state.lead?.id ? here : this.together?.mapOf(id)?.toOther(here) ?? null;
  }

  probe(): Probe {
    const fetched: Record<string, number> = {};
    for (const s of this.together?.segments ?? []) fetched[s.bounce] = s.fetched;
    const { way, phase, sounding } = this.state;
    return { ...this.clock.probe(), way, phase, sounding, fetched, elementTime: this.plain.seconds, bufferedAhead: this.plain.ahead, copy: this.state.copy, stalls: this.plain.stalls };
  }

  /** Renders a stretch of what is open offline, through the same desk that plays. */
  async rendering(what: Omit<Rendering, 'matchDb' | 'sounding'>): ReturnType<typeof renderTogether> {
    return renderTogether(await this.loading!, this.state.sounding, { ...what, matchDb: this.matchDb() });
  }
}
