/** Proposals that are made once on a device: whether this one was answered. */
const PREFIX = 'proposed ';

export function wasAsked(what: string): boolean {
  try {
    return localStorage.getItem(PREFIX + what) !== null;
  } catch {
    // No memory on this device: it is proposed again.
    return false;
  }
}

export function noteAsked(what: string): void {
  try {
    localStorage.setItem(PREFIX + what, String(Date.now()));
  } catch {
    // As above.
  }
}
