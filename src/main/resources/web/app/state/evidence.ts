/** What measuring and comparing say of the open pair: asked for only by those who may see it. */
import { api, isAbort } from '../api/client.ts';
import { Problem } from '../api/problem.ts';
import type { Bounce, Change, Comparison, Finding, Id, InWords, Measurements, Outline } from '../api/types.ts';
import { Scope } from '../scope.ts';
import { Store } from './store.ts';

export interface EvidenceData {
  readonly outline: readonly number[] | null;
  readonly findings: readonly Finding[] | null;
  readonly comparison: Comparison | null;
  readonly lead: Measurements | null;
  readonly other: Measurements | null;
  /** Where the leading mix is loudest, for whoever reads no figures. */
  readonly words: InWords | null;
  /** Changes with their verdicts, by id. */
  readonly judged: ReadonlyMap<Id, Change>;
  /** Why the two can't be compared, in words. */
  readonly problem: string | null;
}

const NOTHING: EvidenceData = {
  outline: null, findings: null, comparison: null, lead: null, other: null, words: null, judged: new Map(), problem: null,
};
/** How many points the strip is drawn from: one for each pixel of a wide screen. */
const POINTS = Math.min(1400, Math.round(innerWidth * Math.min(2, devicePixelRatio || 1)));

export class EvidenceState {
  readonly data = new Store<EvidenceData>(NOTHING);
  private open: Scope | null = null;
  private outlineOf = '';

  constructor(private readonly scope: Scope) {}

  /** Begins anew for a pair; what comes late for another pair is dropped. */
  look(lead: Bounce | null, other: Bounce | null, wants: { figures: boolean; findings: boolean; words: boolean; judged: readonly Id[] }): void {
    this.open?.close();
    const scope = (this.open = this.scope.child());
    if (!lead || lead.id !== this.outlineOf) this.data.set(NOTHING);
    if (!lead) return;
    const { signal } = scope;
    const put = (change: Partial<EvidenceData>) => scope.closed || this.data.set({ ...this.data.value, ...change });
    if (lead.id !== this.outlineOf) {
      void this.ask(api.get<Outline>(`/bounces/${lead.id}/outline?points=${POINTS}`, signal), (o) => {
        this.outlineOf = lead.id;
        put({ outline: o.points });
      });
    }
    if (wants.findings) void this.ask(api.get<Finding[]>(`/bounces/${lead.id}/findings`, signal), (findings) => put({ findings }));
    if (wants.words) void this.ask(api.get<InWords>(`/bounces/${lead.id}/words`, signal), (words) => put({ words }));
    if (wants.figures) {
      void this.ask(api.get<Measurements>(`/bounces/${lead.id}/measurements`, signal), (m) => put({ lead: m }));
      if (other) {
        void this.ask(api.get<Measurements>(`/bounces/${other.id}/measurements`, signal), (m) => put({ other: m }));
        void this.ask(api.whenReady<Comparison>(`/bounces/${lead.id}/comparison?with=${other.id}`, signal),
          (comparison) => comparison && put({ comparison, problem: null }), (problem) => put({ problem }));
      } else put({ other: null, comparison: null });
    }
    if (wants.judged.length > 0) void this.judge(wants.judged, signal, (judged) => put({ judged }));
  }

  private async judge(ids: readonly Id[], signal: AbortSignal, done: (judged: Map<Id, Change>) => void): Promise<void> {
    const judged = new Map<Id, Change>();
    for (const id of ids) {
      await this.ask(api.get<Change>(`/changes/${id}`, signal), (change) => judged.set(id, change));
      if (signal.aborted) return;
    }
    done(judged);
  }

  /** What is refused here stays a gap on the page; only a reason worth words is handed on. */
  private async ask<T>(asked: Promise<T>, then: (value: T) => void, refused: (words: string) => void = () => {}): Promise<void> {
    try {
      then(await asked);
    } catch (reason) {
      if (!isAbort(reason) && reason instanceof Problem) refused(reason.words);
    }
  }
}
