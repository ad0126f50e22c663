/** The same desk and runs on an offline context, so that a test can compare what a switch sounds like, sample by sample. */
import { Desk, Run } from './desk.ts';
import type { Together } from './loading.ts';
import type { Voice } from './voice.ts';

/** What to render: seconds on the leading time line. */
export interface Rendering {
  from: number;
  seconds: number;
  /** Seconds after `from` at which to cross over to the next voice, in turn. */
  switches: number[];
  /** Which voices take their turns; all of them unless said. */
  turns?: readonly number[];
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
  const turns = what.turns ?? voices.map((_, i) => i);
  const switchedAt = what.switches.map((s) =>
    desk.crossTo(turns[(turns.indexOf(desk.sounding) + 1) % turns.length]!, Math.round(s * rate)));
  const buffer = await context.startRendering();
  const channels = Array.from({ length: buffer.numberOfChannels }, (_, c) => buffer.getChannelData(c));
  return { channels, switchedAt, startFrame };
}

/** The same of the mixes that are open, once all are there; the mix named sounds first. */
export async function renderTogether(together: Together, sounding: string, what: Omit<Rendering, 'sounding'>): ReturnType<typeof render> {
  await together.complete;
  const rate = together.lead.manifest.sampleRate;
  const voices = together.voices(rate);
  return render(voices, rate, { ...what, sounding: Math.max(0, voices.findIndex((v) => v.bounce === sounding)) });
}
