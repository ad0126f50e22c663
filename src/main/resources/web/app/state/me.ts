import { api } from '../api/client.ts';
import { Problem } from '../api/problem.ts';
import type { Me } from '../api/types.ts';
import { Store } from './store.ts';

/** Who is signed in on this device: undefined until asked, null when nobody is. */
export const me = new Store<Me | null | undefined>(undefined);

/** Asks the server who is signed in. */
export async function refreshMe(): Promise<Me | null> {
  try {
    const found = await api.get<Me>('/me');
    me.set(found);
    return found;
  } catch (reason) {
    if (reason instanceof Problem && reason.status === 401) {
      me.set(null);
      return null;
    }
    throw reason;
  }
}

export async function signOut(): Promise<void> {
  await api.del('/session');
  me.set(null);
}
