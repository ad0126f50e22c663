/** Records a voice memo as something every browser plays: MP4 where it records that, else WAV (older phones play no Ogg). */

import type { Scope } from '../scope.ts';

/** Longest memo, seconds. */
export const MOST_SECONDS = 120;
/** Enough for speech. */
const WAV_RATE = 24_000;
const PLAYED_EVERYWHERE = 'audio/mp4;codecs=mp4a.40.2';

export class NoMicrophone extends Error {}

/** One recording under way. */
export class Recording {
  private readonly parts: Blob[] = [];
  private readonly ended: Promise<void>;
  readonly began = Date.now();

  private constructor(private readonly recorder: MediaRecorder, private readonly stream: MediaStream, scope: Scope) {
    scope.listen<BlobEvent>(recorder, 'dataavailable', (e) => void (e.data.size > 0 && this.parts.push(e.data)));
    this.ended = new Promise((resolve) => scope.listen(recorder, 'stop', () => resolve()));
    recorder.start(1000);
  }

  /** Asks for the microphone and begins; {@link NoMicrophone} says in words why it can't. */
  static async begin(scope: Scope): Promise<Recording> {
    if (!navigator.mediaDevices || typeof MediaRecorder === 'undefined') {
      throw new NoMicrophone('This browser can’t record here. Write the note, or open the page over a secure line.');
    }
    let stream: MediaStream;
    try {
      stream = await navigator.mediaDevices.getUserMedia({ audio: true });
    } catch (reason) {
      const refused = reason instanceof DOMException && (reason.name === 'NotAllowedError' || reason.name === 'SecurityError');
      throw new NoMicrophone(refused
        ? 'The browser was not allowed to use the microphone. Allow it in the browser’s settings for this page, or write the note.'
        : 'No microphone was found. Plug one in, or write the note.');
    }
    const options = MediaRecorder.isTypeSupported(PLAYED_EVERYWHERE) ? { mimeType: PLAYED_EVERYWHERE } : {};
    return new Recording(new MediaRecorder(stream, options), stream, scope);
  }

  get seconds(): number {
    return (Date.now() - this.began) / 1000;
  }

  /** Ends it: the sound, ready to be sent. */
  async end(): Promise<Blob> {
    if (this.recorder.state !== 'inactive') this.recorder.stop();
    await this.ended;
    this.release();
    const whole = new Blob(this.parts, { type: this.recorder.mimeType });
    return this.recorder.mimeType.startsWith('audio/mp4') ? whole : wavOf(whole);
  }

  /** Ends it and keeps nothing. */
  drop(): void {
    if (this.recorder.state !== 'inactive') this.recorder.stop();
    this.release();
  }

  private release(): void {
    for (const track of this.stream.getTracks()) track.stop();
  }
}

/** The same sound as WAV, mono, 16 bits. */
async function wavOf(sound: Blob): Promise<Blob> {
  const bytes = await sound.arrayBuffer();
  const decoded = await new OfflineAudioContext(1, 1, WAV_RATE).decodeAudioData(bytes);
  const frames = Math.max(1, Math.ceil(decoded.duration * WAV_RATE));
  const context = new OfflineAudioContext(1, frames, WAV_RATE);
  const source = new AudioBufferSourceNode(context, { buffer: decoded });
  source.connect(context.destination);
  source.start();
  const samples = (await context.startRendering()).getChannelData(0);
  const view = new DataView(new ArrayBuffer(44 + 2 * samples.length));
  const id = (at: number, words: string) => [...words].forEach((c, i) => view.setUint8(at + i, c.charCodeAt(0)));
  id(0, 'RIFF');
  view.setUint32(4, 36 + 2 * samples.length, true);
  id(8, 'WAVEfmt ');
  view.setUint32(16, 16, true);
  view.setUint16(20, 1, true);
  view.setUint16(22, 1, true);
  view.setUint32(24, WAV_RATE, true);
  view.setUint32(28, 2 * WAV_RATE, true);
  view.setUint16(32, 2, true);
  view.setUint16(34, 16, true);
  id(36, 'data');
  view.setUint32(40, 2 * samples.length, true);
  samples.forEach((value, i) => view.setInt16(44 + 2 * i, Math.round(Math.max(-1, Math.min(1, value)) * 32767), true));
  return new Blob([view], { type: 'audio/wav' });
}
