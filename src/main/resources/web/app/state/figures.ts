/** The figures of one mix, and the bands of another laid over them. */
import { api, isAbort } from '../api/client.ts';
import { asProblem, type Problem } from '../api/problem.ts';
import type { Agreed, BandsOf, Bounce, Id, InWords, Measurements, Series } from '../api/types.ts';
import { Scope } from '../scope.ts';
import { Store } from './store.ts';

export interface FiguresData {
  readonly words: InWords | null;
  readonly measurements: Measurements | null;
  readonly series: Series | null;
  readonly agreed: readonly Agreed[] | null;
  readonly bands: BandsOf | null;
  readonly otherBands: BandsOf | null;
  readonly problem: Problem | null;
}

const NOTHING: FiguresData = {
  words: null, measurements: null, series: null, agreed: null, bands: null, otherBands: null, problem: null,
};

/** Steps of a curve: about one for every two pixels of a wide screen. */
const POINTS = 600;

/** The stretch of a series, as the address of its table has it too. */
export function stretchQuery(stretch: { from: number; to: number } | null): string {
  return `points=${POINTS}${stretch ? `&from=${stretch.from}&to=${stretch.to}` : ''}`;
}

export class FiguresState {
  readonly data = new Store<FiguresData>(NOTHING);
  private open: Scope | null = null;
  private curve: Scope | null = null;

  constructor(private readonly scope: Scope) {}

  /** Begins anew for a mix and the one beside it. Everybody gets the words, figures whoever may see them. */
  look(mix: Id, other: Bounce | null, figures: boolean): void {
    this.open?.close();
    this.curve?.close();
    const { signal } = (this.open = this.scope.child());
    this.data.set(NOTHING);
    this.ask(api.get<InWords>(`/bounces/${mix}/words`, signal), (words) => ({ words }));
    if (!figures) return;
    this.ask(api.get<Measurements>(`/bounces/${mix}/measurements`, signal), (measurements) => ({ measurements }));
    this.ask(api.get<Agreed[]>(`/bounces/${mix}/delivery-check`, signal), (agreed) => ({ agreed }));
    this.ask(api.get<BandsOf>(`/bounces/${mix}/bands`, signal), (bands) => ({ bands }));
    if (other) this.ask(api.get<BandsOf>(`/bounces/${other.id}/bands`, signal), (otherBands) => ({ otherBands }));
  }

  /** The curve of the whole mix or of a stretch; the one that is shown stays until the new one is here. */
  lookAt(mix: Id, stretch: { from: number; to: number } | null): void {
    this.curve?.close();
    const { signal } = (this.curve = this.scope.child());
    this.ask(api.get<Series>(`/bounces/${mix}/series?${stretchQuery(stretch)}`, signal), (series) => ({ series }));
  }

  private ask<T>(asked: Promise<T>, put: (value: T) => Partial<FiguresData>): void {
    asked.then(
      (value) => this.data.set({ ...this.data.value, ...put(value) }),
      (reason) => isAbort(reason) || this.data.set({ ...this.data.value, problem: asProblem(reason) }),
    );
  }
}
