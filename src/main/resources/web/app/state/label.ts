/** The name a mix was given when its file was looked over: proposed when it is sent from this browser. */
import type { Id } from '../api/types.ts';

const key = (bounce: Id) => `mixaccord.label.${bounce}`;

export function labelGiven(bounce: Id): string | null {
  try {
    return localStorage.getItem(key(bounce));
  } catch {
    return null;
  }
}

/** Null once it is sent. */
export function giveLabel(bounce: Id, label: string | null): void {
  try {
    if (label === null) localStorage.removeItem(key(bounce));
    else localStorage.setItem(key(bounce), label);
  } catch {
    // Without storage the mix is proposed as counted.
  }
}
