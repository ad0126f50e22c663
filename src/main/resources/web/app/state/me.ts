import { api } from '../api/client.ts';
import type { Me } from '../api/types.ts';
import { Store } from './store.ts';

/** Who is signed in on this device: undefined until asked, null when nobody is. */
export const me = new Store<Me | null | undefined>(undefined);

/** Asks the server who is signed in. */
export async function refreshMe(): Promise<Me | null> {
  const { person } = await api.get<{ person: Me | null }>('/session');
  me.set(person);
  return person;
}

export async function signOut(): Promise<void> {
  await api.del('/session');
  me.set(null);
}
