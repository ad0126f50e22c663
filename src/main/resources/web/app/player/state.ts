/** What the page knows of the player at any moment. */
import type { Copy, CopyWish } from './copies.ts';
import type { Levels } from './leveller.ts';

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
  /** The mix it is set against; what has moved is told between these two. */
  readonly other: Mix | null;
  /** Up to two more that can be switched to. */
  readonly more: readonly Mix[];
  /** Id of the mix that sounds, or would. */
  readonly sounding: string;
  /** The stretch that is looped, seconds on the leading mix; null when nothing is. */
  readonly loop: { from: number; to: number } | null;
  /** Whether the louder ones are turned down. */
  readonly equal: boolean;
  /** Whether only the difference of the two sounds. */
  readonly difference: boolean;
  readonly levels: Levels | null;
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
  /** Whether it is known how the mixes lie against each other. */
  readonly mapped: boolean;
  /** Ids of mixes heard through a copy on the leading one's time line. */
  readonly laid: readonly string[];
  /** Whether this device's clock runs at a rate of its own, so that everything is laid onto that. */
  readonly interpolated: boolean;
}

/** All that are open, the leading one first. */
export function mixesOf({ lead, other, more }: PlayerState): Mix[] {
  return [lead, other, ...more].filter((m) => m !== null);
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
  phase: 'empty', way: 'plain', lead: null, other: null, more: [], sounding: '', loop: null, equal: true, difference: false, levels: null,
  seconds: 0, volume: FIRST_VOLUME, copy: 'full', copyWish: 'auto', hasLight: false, early: false, slow: false,
  progress: null, delayed: null, problem: null, mapped: false, laid: [], interpolated: false,
};
