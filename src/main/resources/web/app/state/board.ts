import type { BoardRow, Id } from '../api/types.ts';
import { waitsFor } from '../words/waiting.ts';

export interface BoardGroups {
  readonly mine: readonly BoardRow[];
  readonly others: readonly BoardRow[];
  readonly approved: readonly BoardRow[];
}

/** The board's three groups; in each the longest wait comes first, then the nearest date due. */
export function groupBoard(rows: readonly BoardRow[], me: Id): BoardGroups {
  const mine = rows.filter((row) => waitsFor(row.waitingOn, me));
  const approved = rows.filter((row) => !row.waitingOn && isApproved(row));
  const others = rows.filter((row) => !mine.includes(row) && !approved.includes(row));
  return { mine: [...mine].sort(longestWait), others: [...others].sort(longestWait), approved };
}

export function isApproved(row: BoardRow): boolean {
  return row.approved === true;
}

/** Names of those who have approved the latest mix. */
export function approvers(row: BoardRow): readonly string[] {
  return row.approvedBy ?? (Array.isArray(row.approved) ? row.approved : []);
}

function longestWait(a: BoardRow, b: BoardRow): number {
  const since = (row: BoardRow) => (row.waitingOn?.since ? Date.parse(row.waitingOn.since) : Infinity);
  const due = (row: BoardRow) => row.due ?? '9999';
  const first = since(a);
  const second = since(b);
  if (first !== second) return first < second ? -1 : 1;
  return due(a).localeCompare(due(b));
}
