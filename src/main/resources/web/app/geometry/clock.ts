/** Seconds read back from m:ss, m:ss.t or plain seconds; null where the text is no time. Pure. */
export function parseClock(text: string): number | null {
  const match = /^\s*(?:(\d{1,3}):)?(\d{1,5}(?:[.,]\d{1,3})?)\s*$/.exec(text);
  if (!match) return null;
  const seconds = Number(match[2]!.replace(',', '.'));
  if (match[1] !== undefined && seconds >= 60) return null;
  return Number(match[1] ?? 0) * 60 + seconds;
}
