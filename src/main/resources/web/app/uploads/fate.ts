/** What became of files that have arrived: whether they can be used shows only once they are decoded. */
import { api } from '../api/client.ts';
import type { Bounce, Id } from '../api/types.ts';
import type { Upload } from './target.ts';

interface Made {
  readonly id: Id;
  readonly state?: Bounce['state'];
  readonly problem?: Bounce['problem'];
}

/** Arrived, and not known yet whether it can be used. */
export function open(one: Upload): boolean {
  return one.phase.is === 'arrived' && one.phase.unusable === undefined;
}

/** Why files can’t be used, by their ids; null for those that can. What is still being looked at is not among them. */
export async function fates(all: readonly Upload[], signal: AbortSignal): Promise<Map<string, string | null>> {
  const known = new Map<string, string | null>();
  const lists = new Map<string, readonly Made[]>();
  for (const one of all) {
    if (one.phase.is !== 'arrived') continue;
    const { song, bounce } = one.target;
    const list = one.phase.bounce !== null ? `/songs/${song}/bounces` : `/songs/${song}/stems${bounce ? `?bounce=${bounce}` : ''}`;
    if (!lists.has(list)) lists.set(list, await api.all<Made>(list, signal));
    const made = lists.get(list)!.find(({ id }) => one.phase.is === 'arrived' && (id === one.phase.bounce || id === one.phase.stem));
    // Taken away or replaced meanwhile: nothing is left to be said of it.
    if (!made || made.state === 'ready') known.set(one.id, null);
    else if (made.state === 'failed') known.set(one.id, typeof made.problem === 'string' ? made.problem : made.problem?.detail ?? '');
  }
  return known;
}
