/** What is agreed on delivery, said. */
import type { Agreed, Standing } from '../api/types.ts';
import { figure } from './numbers.ts';

const FIELDS: Record<string, { words: string; unit: string; digits?: number }> = {
  ceilingDbtp: { words: 'True peak at most', unit: 'dBTP' },
  ceilingDbfs: { words: 'Sample peak at most', unit: 'dBFS' },
  minLufs: { words: 'Loudness at least', unit: 'LUFS' },
  maxLufs: { words: 'Loudness at most', unit: 'LUFS' },
  sampleRate: { words: 'Sample rate', unit: 'kHz' },
  bitDepth: { words: 'Bit depth', unit: 'bit', digits: 0 },
};

/** The name of an agreed figure. */
export function agreedWords(field: string): string {
  return FIELDS[field]?.words ?? field;
}

/** An agreed figure with its unit. */
export function agreedFigure(field: string, value: number | null): string {
  const { unit, digits } = FIELDS[field] ?? { unit: '' };
  if (field === 'sampleRate' && value !== null) return `${value / 1000} kHz`;
  return figure(value, unit, digits ?? 1);
}

/** The same in one line, without figures. */
export function deliveryLine(agreed: readonly Agreed[]): string {
  if (agreed.length === 0) return 'Nothing was agreed for delivery';
  const names = agreed.map((a) => agreedWords(a.field).replace(/ at (most|least)$/, '').toLowerCase());
  return `As agreed for delivery: ${[...new Set(names)].join(', ')}`;
}

/** What stands behind a figure. */
export const STANDING_WORDS: Record<Standing, string> = {
  agreement: 'agreed', standard: 'a standard', recommendation: 'a recommendation', habit: 'only a habit',
};
