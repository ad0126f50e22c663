import type { Id } from '../api/types.ts';

/** What a link to a song asks for: a pair of mixes, a section to loop, or to play at once. */
export interface Wish {
  readonly mix: Id | null;
  readonly other: Id | null;
  readonly loop: string | null;
  readonly play: boolean;
}

/** Reads a wish off an address; null when the address asks for nothing. */
export function wishOf(search: string): Wish | null {
  const asked = new URLSearchParams(search);
  const wish = { mix: asked.get('mix'), other: asked.get('with'), loop: asked.get('loop'), play: asked.get('play') === '1' };
  return wish.mix || wish.loop || wish.play ? wish : null;
}
