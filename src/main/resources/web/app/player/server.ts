/** The server as the player's source of audio, maps and level matches. */
import { api } from '../api/client.ts';
import { problemOf, unreachable } from '../api/problem.ts';
import type { AudioSource, LevelMatch, Manifest, PairMap } from './source.ts';

export const serverAudio: AudioSource = {
  manifest: (bounce, signal) => api.get<Manifest>(`/bounces/${bounce}/listening`, signal),

  async segment(bounce, index, signal) {
    const path = `/api/v1/bounces/${bounce}/listening/segments/${index}`;
    let answer: Response;
    try {
      answer = await fetch(path, { signal, credentials: 'same-origin' });
    } catch (reason) {
      if (signal.aborted) throw reason;
      throw unreachable();
    }
    if (!answer.ok) throw await problemOf(answer);
    return answer.arrayBuffer();
  },

  timeMap: (bounce, other, signal) => api.whenReady<PairMap>(`/bounces/${bounce}/time-map?with=${other}`, signal),

  levelMatch: (bounce, other, from, to, signal) =>
    api.whenReady<LevelMatch>(
      `/bounces/${bounce}/level-match?with=${other}&from=${from.toFixed(4)}&to=${(Math.floor(to * 1e4) / 1e4).toFixed(4)}`, signal),

  whole: (bounce) => `/api/v1/bounces/${bounce}/listening/whole`,
};
