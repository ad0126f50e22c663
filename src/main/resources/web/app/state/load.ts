import { asProblem, Problem } from '../api/problem.ts';
import { isAbort } from '../api/client.ts';

/** What a page knows of something it asked for. A closed set: nothing is ever half there. */
export type Load<T> =
  | { readonly phase: 'loading' }
  | { readonly phase: 'ready'; readonly value: T }
  | { readonly phase: 'failed'; readonly problem: Problem };

export const loading: Load<never> = { phase: 'loading' };

export function ready<T>(value: T): Load<T> {
  return { phase: 'ready', value };
}

/** Asks, and hands the outcome on; what was left meanwhile hands on nothing. */
export async function loadInto<T>(asked: Promise<T>, set: (load: Load<T>) => void): Promise<void> {
  try {
    set(ready(await asked));
  } catch (reason) {
    if (!isAbort(reason)) set({ phase: 'failed', problem: asProblem(reason) });
  }
}

/** What a press is doing: nothing, running, or refused with a reason. */
export type Press =
  | { readonly phase: 'idle' }
  | { readonly phase: 'running'; readonly what: string }
  | { readonly phase: 'refused'; readonly what: string; readonly problem: Problem };

export const idle: Press = { phase: 'idle' };
