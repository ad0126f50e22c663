import type { Id } from '../api/types.ts';

/** What a link to a song asks for: a pair of mixes, a section or a stretch to loop, or to play at once. */
export interface Wish {
  readonly mix: Id | null;
  readonly other: Id | null;
  readonly loop: string | null;
  /** A stretch of the leading mix, in seconds. */
  readonly stretch: { readonly from: number; readonly to: number } | null;
  readonly play: boolean;
}

/** Reads a wish off an address; null when the address asks for nothing. */
export function wishOf(search: string): Wish | null {
  const asked = new URLSearchParams(search);
  const wish = { mix: asked.get('mix'), other: asked.get('with'), loop: asked.get('loop'), stretch: stretchOf(asked), play: asked.get('play') === '1' };
  return wish.mix || wish.loop || wish.stretch || wish.play ? wish : null;
}

function stretchOf(asked: URLSearchParams): Wish['stretch'] {
  const from = Number.parseFloat(asked.get('from') ?? '');
  const to = Number.parseFloat(asked.get('to') ?? '');
  return from >= 0 && to > from && Number.isFinite(to) ? { from, to } : null;
}

/** The address of a song's page with a section, or a stretch, of one mix looping. */
export function loopHref(song: Id, mix: Id, other: Id | null, loop: string | { from: number; to: number }): string {
  const what = typeof loop === 'string' ? `loop=${encodeURIComponent(loop)}` : `from=${loop.from.toFixed(2)}&to=${loop.to.toFixed(2)}`;
  return `/songs/${song}?mix=${mix}${other ? `&with=${other}` : ''}&${what}`;
}
