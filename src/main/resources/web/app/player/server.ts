/** The server as the player's source of audio, maps and level matches. */
import { api } from '../api/client.ts';
import { Problem, problemOf, unreachable } from '../api/problem.ts';
import { pause } from '../scope.ts';
import type { AudioSource, LaidManifest, LevelMatch, Manifest, PairMap } from './source.ts';

export const serverAudio: AudioSource = {
  manifest: (bounce, signal) => api.get<Manifest>(`/bounces/${bounce}/listening`, signal),

  segment: (bounce, index, signal) => piece(`/api/v1/bounces/${bounce}/listening/segments/${index}`, signal),

  laid: (bounce, onto, signal) => api.get<LaidManifest>(`/bounces/${bounce}/laid-copy?onto=${onto}`, signal),

  laidSegment: (bounce, onto, index, signal) => piece(`/api/v1/bounces/${bounce}/laid-copy/segments/${index}?onto=${onto}`, signal),

  timeMap: (bounce, other, signal) => api.whenReady<PairMap>(`/bounces/${bounce}/time-map?with=${other}`, signal),

  levelMatch: (bounce, other, from, to, signal) =>
    api.whenReady<LevelMatch>(
      `/bounces/${bounce}/level-match?with=${other}&from=${from.toFixed(4)}&to=${(Math.floor(to * 1e4) / 1e4).toFixed(4)}`, signal),

  address: (bounce, copy) => `/api/v1/bounces/${bounce}/listening/${copy === 'light' ? 'light' : 'whole'}`,
};

async function piece(path: string, signal: AbortSignal): Promise<ArrayBuffer> {
  for (;;) {
    try {
      const answer = await fetch(path, { signal, credentials: 'same-origin' });
      if (answer.ok) return await answer.arrayBuffer();
      const problem = await problemOf(answer);
      // Not made yet, or made again after it was removed.
      if (problem.code !== 'busy') throw problem;
      await pause(1000 * (problem.retryAfterSeconds ?? 1), signal);
      signal.throwIfAborted();
    } catch (reason) {
      if (signal.aborted || reason instanceof Problem) throw reason;
      throw unreachable();
    }
  }
}
