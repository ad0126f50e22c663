/** What an engineer has ticked on a song's list: kept on this device until it is marked. */
import type { Id } from '../api/types.ts';

const nameOf = (song: Id) => `mixaccord.ticks.${song}`;

export function keptTicks(song: Id): ReadonlySet<Id> {
  try {
    const kept: unknown = JSON.parse(localStorage.getItem(nameOf(song)) ?? '[]');
    return new Set(Array.isArray(kept) ? kept.filter((id): id is Id => typeof id === 'string') : []);
  } catch {
    return new Set();
  }
}

export function keepTicks(song: Id, ticks: ReadonlySet<Id>): void {
  try {
    if (ticks.size === 0) localStorage.removeItem(nameOf(song));
    else localStorage.setItem(nameOf(song), JSON.stringify([...ticks]));
  } catch {
    // Without storage they hold as long as the page is open.
  }
}
