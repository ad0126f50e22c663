/** What is said beside a check: its limit and what that stands on. Pure. */
import type { Finding, Standing } from '../api/types.ts';
import { figure } from './numbers.ts';

const UNITS: Record<string, string> = { over: 'dBTP', 'intersample-over': 'dBTP', 'mono-loss': 'dB', 'something-else-moved': 'dB' };

/** "2.1 dBTP, limit 0.0 dBTP"; nothing where the check is no matter of level. */
export function limitWords(f: Finding): string {
  const unit = UNITS[f.code];
  if (!unit || f.value === null) return '';
  return f.limit === null ? figure(f.value, unit) : `${figure(f.value, unit)}, limit ${figure(f.limit, unit)}`;
}

/** What stands behind the limit of a check; nothing for plain facts. */
export function behind(f: Finding): string {
  const words: Record<Standing, string> = {
    agreement: 'agreed on', standard: f.source ?? 'a standard', recommendation: f.source ?? 'a recommendation', habit: 'a habit, no standard',
  };
  return f.standing ? words[f.standing] : '';
}

/** Findings by kind, in the order of the first of each. */
export function alike(findings: readonly Finding[]): Finding[][] {
  const kinds = new Map<string, Finding[]>();
  for (const f of findings) kinds.set(f.code, [...(kinds.get(f.code) ?? []), f]);
  return [...kinds.values()];
}
