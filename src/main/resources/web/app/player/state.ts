/** What the page knows of the player at any moment. */
import type { Copy, CopyWish } from './copies.ts';
import type { LevelMatch } from './source.ts';

/** A mix that can be heard. */
export interface Mix {
  id: string;
  label: string;
}

/** Plain: one mix through the media element. Clock: on the audio clock, for comparing and looping. */
export type Way = 'plain' | 'clock';

export type Phase = 'empty' | 'loading' | 'preparing' | 'ready' | 'playing' | 'waiting' | 'failed';

export interface PlayerState {
  readonly phase: Phase;
  readonly way: Way;
  readonly lead: Mix | null;
  readonly other: Mix | null;
  /** Id of the mix that sounds, or would. */
  readonly sounding: string;
  /** The stretch that is looped, seconds on the leading mix; null when nothing is. */
  readonly loop: { from: number; to: number } | null;
  /** Whether the louder of the two is turned down. */
  readonly equal: boolean;
  /** Whether only the difference of the two sounds. */
  readonly difference: boolean;
  readonly match: LevelMatch | null;
  readonly seconds: number;
  /** 0…1 on the fader. */
  readonly volume: number;
  /** Which copy plain listening plays; on the clock it is always full quality. */
  readonly copy: Copy;
  readonly copyWish: CopyWish;
  /** Whether there is a light copy to choose. */
  readonly hasLight: boolean;
  /** Whether full quality is played piece by piece, since its whole copy is not made yet. */
  readonly early: boolean;
  /** Whether two mixes in full quality are more than this line brings. */
  readonly slow: boolean;
  /** While the server prepares a listening copy, 0…1. */
  readonly progress: number | null;
  /** Why it is not ready yet, where the server says more than how far it is. */
  readonly delayed: string | null;
  readonly problem: string | null;
  /** Whether the time map between the two is known. */
  readonly mapped: boolean;
  /** Whether the other mix runs at another rate and is laid onto the leading one's clock. */
  readonly interpolated: boolean;
}

/** What a test may look at. */
export interface Probe {
  contextTime: number;
  contextFrame: number;
  sampleRate: number;
  contextState: string;
  way: Way;
  phase: Phase;
  sounding: string;
  /** Own frame of each mix at this instant of the clock; null where it has nothing. */
  positionFrame: Record<string, number | null>;
  /** Segments fetched so far, by mix. */
  fetched: Record<string, number>;
  /** The last crossing: the clock's frame it began at, and each mix's own frame there. */
  lastSwitch: { atFrame: number; from: string; to: string; positionFrame: Record<string, number | null> } | null;
  elementTime: number;
  /** Seconds from the place that the element holds already. */
  bufferedAhead: number;
  copy: Copy;
  /** Places at which plain listening has run dry since the page was opened, seconds. */
  stalls: readonly number[];
}

/** Fader to gain: quiet where it begins (0.3 is −21 dB), full at the top. */
export function gainOf(volume: number): number {
  return Math.min(Math.max(volume, 0), 1) ** 2;
}

/** Where the fader stands when a page opens; never louder by itself. */
const FIRST_VOLUME = 0.3;

/** Before any mix is chosen. */
export const NOTHING: PlayerState = {
  phase: 'empty', way: 'plain', lead: null, other: null, sounding: '', loop: null, equal: true, difference: false, match: null,
  seconds: 0, volume: FIRST_VOLUME, copy: 'full', copyWish: 'auto', hasLight: false, early: false, slow: false,
  progress: null, delayed: null, problem: null, mapped: false, interpolated: false,
};
