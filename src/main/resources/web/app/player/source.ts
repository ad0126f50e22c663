/** Where the player's audio comes from: the server's lossless listening copies. */
import type { Piece } from './timemap.ts';

/** The listening copy of a bounce, cut into segments by frame count. */
export interface Manifest {
  state: 'ready' | 'preparing';
  progress: number | null;
  sampleRate: number;
  channels: number;
  frames: number;
  segments: { index: number; fromFrame: number; frames: number }[];
}

/** Gains that make two bounces equally loud on one stretch; both ≤ 0 dB. */
export interface LevelMatch {
  gainDb: number;
  otherGainDb: number;
  differenceLu: number | null;
  words: string;
}

/** The pair as the server aligned it. */
export interface PairMap {
  timeMap: Piece[];
  offsetSeconds: number | null;
  speedRatio: number | null;
  sure: number | null;
}

/** What the player asks the server. */
export interface AudioSource {
  manifest(bounce: string, signal: AbortSignal): Promise<Manifest>;
  segment(bounce: string, index: number, signal: AbortSignal): Promise<ArrayBuffer>;
  /** Resolves with null while the server is still working the map out. */
  timeMap(bounce: string, other: string, signal: AbortSignal): Promise<PairMap | null>;
  /** Null while it cannot be told yet. */
  levelMatch(
    bounce: string, other: string, from: number, to: number, signal: AbortSignal,
  ): Promise<LevelMatch | null>;
  /** Address of the whole copy for a media element. */
  whole(bounce: string): string;
}
