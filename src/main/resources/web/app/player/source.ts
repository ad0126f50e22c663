/** Where the player's audio comes from: the server's listening copies. */
import type { Piece } from './timemap.ts';

/** The listening copy of a bounce, cut into segments by frame count. */
export interface Manifest {
  state: 'ready' | 'preparing';
  progress: number | null;
  sampleRate: number;
  channels: number;
  frames: number;
  /** How many segments are there, counted from the first without a gap. */
  segmentsReady: number;
  /** Length of the whole copy; null until it is there. */
  wholeBytes: number | null;
  light: LightCopy | null;
  /** Why it could not be made when it was tried last. */
  problem: string | null;
  segments: { index: number; fromFrame: number; frames: number }[];
}

/** The small lossy copy of a bounce; null fields until it is there. */
export interface LightCopy {
  ready: boolean;
  type: string;
  bytes: number | null;
  gainDb: number | null;
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

/** The copy of a bounce on another one's time line, made where the two differ in rate or drift. */
export type LaidManifest = Pick<Manifest, 'sampleRate' | 'channels' | 'frames' | 'segmentsReady' | 'segments'>;

/** What the player asks the server. */
export interface AudioSource {
  manifest(bounce: string, signal: AbortSignal): Promise<Manifest>;
  segment(bounce: string, index: number, signal: AbortSignal): Promise<ArrayBuffer>;
  laid(bounce: string, onto: string, signal: AbortSignal): Promise<LaidManifest>;
  laidSegment(bounce: string, onto: string, index: number, signal: AbortSignal): Promise<ArrayBuffer>;
  /** Resolves with null while the server is still working the map out. */
  timeMap(bounce: string, other: string, signal: AbortSignal): Promise<PairMap | null>;
  /** Null while it cannot be told yet. */
  levelMatch(
    bounce: string, other: string, from: number, to: number, signal: AbortSignal,
  ): Promise<LevelMatch | null>;
  /** Address of the whole copy, or of the light one, for a media element. */
  address(bounce: string, copy: 'full' | 'light'): string;
}
