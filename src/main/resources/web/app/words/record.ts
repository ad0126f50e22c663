import type { HistoryLine } from '../api/types.ts';
import type { Sheet } from '../state/sheet.ts';

const ACTS: Record<string, string> = {
  approve: 'approved',
  'fine-by-me': 'said it’s fine,',
  'not-yet': 'said not yet,',
  stop: 'said stop,',
  finished: 'marked as finished',
  sent: 'sent',
  withdrawn: 'took back',
};

/** What somebody did, as a verb with the mix it was done to where there is one. */
export function actWords(line: HistoryLine, sheet: Sheet): string {
  const act = ACTS[line.act] ?? line.act.replaceAll('-', ' ');
  const mix = sheet.mains.some((bounce) => bounce.id === line.subject) ? ` ${sheet.labelOf(line.subject)}` : '';
  return act + mix;
}

/** The sentence that was written down with it. */
export function detailWords(line: HistoryLine): string {
  return typeof line.detail === 'string' ? line.detail : '';
}
