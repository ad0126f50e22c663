/** Files as they are dropped or chosen: single ones, many, whole folders. */

export interface Found {
  readonly file: File;
  /** With the folders above it, as far as they were given: "Album/Mixes/one.wav". */
  readonly path: string;
  /** A handle that outlives a reload, of the file or of the folder it was dropped in. */
  readonly root: FileSystemHandle | null;
  readonly within: readonly string[];
}

/** More than anybody means to bring at once; a whole disk was dropped. */
export const MOST_FILES = 1000;

// Newer than the types the page is checked against, and not in every browser.
interface HandleItem {
  getAsFileSystemHandle?: () => Promise<FileSystemHandle | null>;
}
interface PickerWindow {
  showOpenFilePicker?: (options: { multiple: boolean }) => Promise<FileSystemFileHandle[]>;
}
interface AskableHandle {
  requestPermission?: (options: { mode: 'read' }) => Promise<PermissionState>;
}
type Folder = FileSystemDirectoryHandle & { values(): AsyncIterable<FileSystemHandle> };

/** What a drop holds. Has to be called while the drop is being told: the browser forgets it afterwards. */
export async function droppedIn(data: DataTransfer): Promise<Found[]> {
  const items = [...data.items].filter((item) => item.kind === 'file').map((item) => ({
    handle: (item as unknown as HandleItem).getAsFileSystemHandle?.().catch(() => null) ?? Promise.resolve(null),
    entry: item.webkitGetAsEntry(),
    file: item.getAsFile(),
  }));
  const found: Found[] = [];
  for (const { handle, entry, file } of items) {
    const given = await handle;
    if (given) await throughHandle(given, given, [], found);
    else if (entry) await throughEntry(entry, found);
    else if (file) found.push(plain(file));
  }
  return found;
}

/** What a file field holds. */
export function chosenIn(input: HTMLInputElement): Found[] {
  return [...(input.files ?? [])].slice(0, MOST_FILES).map(plain);
}

/** Whether the browser can hand out files that it knows again after a reload. */
export function canPick(): boolean {
  return typeof (window as PickerWindow).showOpenFilePicker === 'function';
}

/** Lets one choose files that the browser knows again after a reload; empty when nothing was chosen. */
export async function pick(): Promise<Found[]> {
  const found: Found[] = [];
  const handles = await (window as PickerWindow).showOpenFilePicker!({ multiple: true }).catch(() => []);
  for (const handle of handles.slice(0, MOST_FILES)) await throughHandle(handle, handle, [], found);
  return found;
}

/** Opens a file by the handle that was kept of it; null where that is not allowed or it is gone. */
export async function reopened(root: FileSystemHandle, within: readonly string[]): Promise<File | null> {
  try {
    const asked = (root as unknown as AskableHandle).requestPermission?.({ mode: 'read' });
    if ((await asked) === 'denied') return null;
    let here = root;
    for (const [index, name] of within.entries()) {
      const folder = here as FileSystemDirectoryHandle;
      here = index === within.length - 1 ? await folder.getFileHandle(name) : await folder.getDirectoryHandle(name);
    }
    return await (here as FileSystemFileHandle).getFile();
  } catch {
    return null;
  }
}

function plain(file: File): Found {
  return { file, path: file.webkitRelativePath || file.name, root: null, within: [] };
}

async function throughHandle(handle: FileSystemHandle, root: FileSystemHandle, within: readonly string[], found: Found[]): Promise<void> {
  if (found.length >= MOST_FILES) return;
  if (handle.kind === 'file') {
    found.push({ file: await (handle as FileSystemFileHandle).getFile(), path: [root.name, ...within].join('/'), root, within });
    return;
  }
  for await (const inner of (handle as Folder).values()) await throughHandle(inner, root, [...within, inner.name], found);
}

async function throughEntry(entry: FileSystemEntry, found: Found[]): Promise<void> {
  if (found.length >= MOST_FILES) return;
  if (entry.isFile) {
    const file = await new Promise<File>((resolve, reject) => (entry as FileSystemFileEntry).file(resolve, reject));
    found.push({ ...plain(file), path: entry.fullPath.replace(/^\//, '') });
    return;
  }
  const reader = (entry as FileSystemDirectoryEntry).createReader();
  for (;;) {
    // A folder is handed out a hundred at a time.
    const some = await new Promise<FileSystemEntry[]>((resolve, reject) => reader.readEntries(resolve, reject));
    if (some.length === 0) return;
    for (const inner of some) await throughEntry(inner, found);
  }
}
