/**
 * What is remembered on this device of files that have not arrived: enough to know them again when
 * they are chosen once more. In the browser's database, because only that keeps a handle of a file.
 */
import type { Id } from '../api/types.ts';
import type { Target } from './target.ts';

export interface Remembered {
  readonly id: string;
  readonly person: Id;
  readonly name: string;
  readonly bytes: number;
  readonly lastModified: number;
  readonly target: Target;
  /** Where its bytes go; null while it is still waiting for its turn. */
  readonly address: string | null;
  readonly sent: number;
  /** A file, or the folder it lies in with the way to it, where the browser gives such a handle. */
  readonly root: FileSystemHandle | null;
  readonly within: readonly string[];
}

const STORE = 'unfinished';

function asked<T>(request: IDBRequest<T>): Promise<T> {
  return new Promise((resolve, reject) => {
    request.onsuccess = () => resolve(request.result);
    request.onerror = () => reject(request.error);
  });
}

let opened: Promise<IDBDatabase> | null = null;

function database(): Promise<IDBDatabase> {
  opened ??= new Promise<IDBDatabase>((resolve, reject) => {
    const request = indexedDB.open('mixaccord-uploads', 1);
    request.onupgradeneeded = () => request.result.createObjectStore(STORE, { keyPath: 'id' });
    request.onsuccess = () => resolve(request.result);
    request.onerror = () => reject(request.error);
  });
  return opened;
}

async function inStore<T>(mode: IDBTransactionMode, work: (store: IDBObjectStore) => IDBRequest<T>): Promise<T | undefined> {
  try {
    const transaction = (await database()).transaction(STORE, mode);
    return await asked(work(transaction.objectStore(STORE)));
  } catch {
    // A browser that keeps nothing: a reload forgets, everything else goes on.
    return undefined;
  }
}

export async function remember(what: Remembered): Promise<void> {
  await inStore('readwrite', (store) => store.put(what));
}

export async function forget(id: string): Promise<void> {
  await inStore('readwrite', (store) => store.delete(id));
}

export async function rememberedOf(person: Id): Promise<Remembered[]> {
  const all = (await inStore<Remembered[]>('readonly', (store) => store.getAll())) ?? [];
  return all.filter((one) => one.person === person);
}
