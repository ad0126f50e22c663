/** Memos that have not arrived yet, kept in the browser's own store until the server has them. */
import { api } from '../api/client.ts';
import { Problem } from '../api/problem.ts';
import type { Id } from '../api/types.ts';

/** A memo and where it belongs. */
export interface KeptMemo {
  /** The Idempotency-Key. */
  readonly key: string;
  readonly person: Id;
  readonly song: Id;
  readonly bounce: Id;
  readonly from: number | null;
  readonly only: boolean;
  readonly sound: Blob;
  readonly at: number;
  /** Why it was refused for good. */
  readonly problem?: string;
}

const STORE = 'memos';

function open(): Promise<IDBDatabase> {
  return new Promise((resolve, reject) => {
    const asked = indexedDB.open('mixaccord-memos', 1);
    asked.onupgradeneeded = () => asked.result.createObjectStore(STORE, { keyPath: 'key' });
    asked.onsuccess = () => resolve(asked.result);
    asked.onerror = () => reject(asked.error);
  });
}

async function inStore<T>(mode: IDBTransactionMode, work: (store: IDBObjectStore) => IDBRequest<T>): Promise<T> {
  const base = await open();
  try {
    return await new Promise<T>((resolve, reject) => {
      const transaction = base.transaction(STORE, mode);
      const asked = work(transaction.objectStore(STORE));
      transaction.oncomplete = () => resolve(asked.result);
      transaction.onerror = () => reject(transaction.error);
      transaction.onabort = () => reject(transaction.error);
    });
  } finally {
    base.close();
  }
}

/** Where the browser keeps nothing, a memo lives as long as the page. */
const held = new Map<string, KeptMemo>();

export async function keepMemo(memo: KeptMemo): Promise<void> {
  held.set(memo.key, memo);
  try {
    await inStore('readwrite', (store) => store.put(memo));
  } catch {
    // Held by the page alone then.
  }
}

export async function dropMemo(key: string): Promise<void> {
  held.delete(key);
  try {
    await inStore('readwrite', (store) => store.delete(key));
  } catch {
    // It was held by the page alone.
  }
}

/** The memos of a person on a song that wait here, oldest first. */
export async function memosOf(person: Id, song: Id): Promise<readonly KeptMemo[]> {
  let all: KeptMemo[] = [];
  try {
    all = await inStore('readonly', (store) => store.getAll() as IDBRequest<KeptMemo[]>);
  } catch {
    // Only what the page holds.
  }
  const known = new Set(all.map((memo) => memo.key));
  return [...all, ...[...held.values()].filter((memo) => !known.has(memo.key))]
    .filter((memo) => memo.person === person && memo.song === song)
    .sort((a, b) => a.at - b.at);
}

/** Sends a memo: true when it has arrived, false when the line failed; what is refused for good stays, with why. */
export async function sendMemo(memo: KeptMemo): Promise<boolean> {
  const where = new URLSearchParams({ bounce: memo.bounce });
  if (memo.from !== null) where.set('from', memo.from.toFixed(3));
  if (memo.only) where.set('engineerOnly', 'true');
  try {
    await api.postFile(`/songs/${memo.song}/voice-memos?${where.toString()}`, memo.sound, memo.key);
  } catch (reason) {
    if (reason instanceof Problem && reason.status >= 400 && reason.status < 500 && ![401, 408, 409, 429].includes(reason.status)) {
      await keepMemo({ ...memo, problem: reason.detail });
    }
    return false;
  }
  await dropMemo(memo.key);
  return true;
}
