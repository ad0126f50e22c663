/** What is to come of a file, and what has become of it so far. */
import type { Problem } from '../api/problem.ts';
import type { Id, Kind } from '../api/types.ts';

export interface Target {
  readonly song: Id;
  readonly songTitle: string;
  readonly kind: Kind;
  /** The main an alternate belongs to. */
  readonly of?: Id;
  /** The upload that becomes that main: it has to arrive first. */
  readonly after?: string;
  /** For a part file: which part, and of which mix. */
  readonly element?: string;
  readonly bounce?: Id;
  /** The name it is to be sent under, as far as it is known already. */
  readonly label?: string;
}

/** Why a file that is on its way does not move just now. */
export type Hold = 'line' | 'server' | 'slow-down' | 'signed-out';

export type Phase =
  | { readonly is: 'waiting' }
  | { readonly is: 'sending' }
  | { readonly is: 'held'; readonly why: Hold; readonly words: string; readonly until: number | null }
  /** Known from before the page was loaded: the file has to be chosen again. */
  | { readonly is: 'left' }
  | { readonly is: 'refused'; readonly problem: Problem }
  /** Why it can’t be used is null once it can be, and not there as long as nobody knows. */
  | { readonly is: 'arrived'; readonly bounce: Id | null; readonly stem: Id | null; readonly unusable?: string | null };

export interface Upload {
  readonly id: string;
  readonly person: Id;
  readonly name: string;
  readonly bytes: number;
  readonly lastModified: number;
  readonly target: Target;
  readonly address: string | null;
  readonly sent: number;
  readonly bytesPerSecond: number | null;
  readonly phase: Phase;
  /** What had arrived of it is gone from the server: nobody went on with it for too long. */
  readonly expired?: boolean;
  /** Whether the browser can open the file again by itself after a press. */
  readonly reopens: boolean;
}

/** On its way, or waiting to be. */
export function moving(one: Upload): boolean {
  return one.phase.is === 'waiting' || one.phase.is === 'sending' || one.phase.is === 'held';
}

/** Refused, or arrived and of no use: somebody has to do something about it. */
export function troubled(one: Upload): boolean {
  return one.phase.is === 'refused' || (one.phase.is === 'arrived' && Boolean(one.phase.unusable));
}
