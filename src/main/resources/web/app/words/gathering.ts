import type { Song } from '../api/types.ts';
import { capital, count } from './numbers.ts';

/** What the engineer is told while the band gathers its notes: "Three people are writing." */
export function writingWords(song: Pick<Song, 'writing'>): string {
  return song.writing === 1
    ? 'One person is writing. The notes come when the band sends them.'
    : `${capital(count(song.writing, 'person', 'people'))} are writing. Their notes come together, when the band sends them.`;
}

/** What the band is told of its notes that wait for the person with the last word. */
export function waitingWords(song: Pick<Song, 'writing'>): string {
  return song.writing === 1
    ? 'Notes of one person wait to be sent.'
    : `Notes of ${count(song.writing, 'person', 'people')} wait to be sent.`;
}
