/** The same desk and runs on an offline context, so that a test can compare what a switch sounds like, sample by sample. */
import { Desk, Run } from './desk.ts';
import type { Pair } from './loading.ts';
import type { Voice } from './voice.ts';

/** What to render: seconds on the leading time line. */
export interface Rendering {
  from: number;
  seconds: number;
  /** Seconds after `from` at which to cross over to the other voice and back, in turn. */
  switches: number[];
  matchDb: readonly number[];
  sounding: number;
  loop?: { from: number; to: number } | null;
}

/** Renders a stretch with its switches; also tells at which frames they began. */
export async function render(
  voices: readonly Voice[], rate: number, what: Rendering,
): Promise<{ channels: Float32Array[]; switchedAt: number[]; startFrame: number }> {
  const frames = Math.round(what.seconds * rate);
  const channelCount = Math.max(2, ...voices.map((v) => v.channels));
  const context = new OfflineAudioContext(channelCount, frames, rate);
  const desk = new Desk(context, voices, what.sounding);
  desk.setMatch(what.matchDb, 0);
  const startFrame = Math.round(what.from * rate);
  const loop = what.loop
    ? { from: Math.round(what.loop.from * rate), to: Math.round(what.loop.to * rate) }
    : null;
  const run = new Run(desk, { start: startFrame, end: startFrame + frames, loop }, 0, 0);
  for (const voice of voices) {
    for (const [from, to] of run.ahead(frames)) await voice.need(from, to - from);
  }
  run.pump(frames);
  const switchedAt = what.switches.map((s) =>
    desk.crossTo((desk.sounding + 1) % voices.length, Math.round(s * rate)));
  const buffer = await context.startRendering();
  const channels = Array.from({ length: buffer.numberOfChannels }, (_, c) => buffer.getChannelData(c));
  return { channels, switchedAt, startFrame };
}

/** The same of an open pair, once both are there; the mix named sounds first. */
export async function renderPair(pair: Pair, sounding: string, what: Omit<Rendering, 'sounding'>): ReturnType<typeof render> {
  await pair.complete;
  const rate = pair.lead.manifest.sampleRate;
  const voices = pair.voices(rate);
  return render(voices, rate, { ...what, sounding: Math.max(0, voices.findIndex((v) => v.bounce === sounding)) });
}
