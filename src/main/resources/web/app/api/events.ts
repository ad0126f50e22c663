import type { Scope } from '../scope.ts';
import type { EventType, Id, SongEvent } from './types.ts';

const TYPES: readonly EventType[] = ['bounce', 'progress', 'sent', 'note', 'question', 'change', 'approval', 'people'];

/**
 * Follows a song live until the scope ends. The browser connects again by itself and says which
 * event it saw last; `reset` means the gap cannot be filled and everything has to be asked anew.
 */
export function followSong(
  song: Id,
  scope: Scope,
  happened: (event: SongEvent) => void,
  reset: () => void,
): void {
  const source = scope.stream(`/api/v1/songs/${song}/events`);
  const read = (event: MessageEvent<string>) => {
    const found = parse(event.data);
    if (found) happened(found);
  };
  for (const type of TYPES) scope.listen<MessageEvent<string>>(source, type, read);
  scope.listen<MessageEvent<string>>(source, 'message', read);
  scope.listen(source, 'reset', reset);
}

/** Calls back once for a burst of events: a batch of changes makes one answer, not twenty. */
export function gathered(scope: Scope, run: () => void, milliseconds = 150): () => void {
  let waiting: (() => void) | null = null;
  return () => {
    waiting?.();
    waiting = scope.after(milliseconds, run);
  };
}

function parse(data: string): SongEvent | null {
  try {
    return JSON.parse(data) as SongEvent;
  } catch {
    return null;
  }
}
