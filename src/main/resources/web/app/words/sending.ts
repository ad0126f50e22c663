/** Files on their way, in words. */
import { moving, type Upload } from '../uploads/target.ts';
import { capital, count } from './numbers.ts';

/** "640 kB", "48.2 MB", "3.91 GB": as a file list shows sizes, in powers of ten. */
export function size(bytes: number): string {
  if (bytes < 999_500) return `${Math.max(1, Math.round(bytes / 1000))} kB`;
  if (bytes < 999_950_000) return `${(bytes / 1e6).toFixed(1)} MB`;
  return `${(bytes / 1e9).toFixed(2)} GB`;
}

/** "3.1 MB/s", "84 kB/s". */
export function pace(bytesPerSecond: number): string {
  return bytesPerSecond < 100_000 ? `${Math.round(bytesPerSecond / 1000)} kB/s` : `${(bytesPerSecond / 1e6).toFixed(1)} MB/s`;
}

/** "a few seconds left", "40 s left", "3 min left", "2 h 10 min left": no finer than one can trust it. */
export function left(seconds: number): string {
  if (seconds < 5) return 'a few seconds left';
  if (seconds < 55) return `${Math.ceil(seconds / 5) * 5} s left`;
  const minutes = Math.ceil(seconds / 60);
  if (minutes < 60) return `${minutes} min left`;
  return `${Math.floor(minutes / 60)} h ${minutes % 60} min left`;
}

/** Whole percent, never 100 before everything is there. */
export function percent(sent: number, bytes: number): string {
  return `${Math.min(99, Math.floor((100 * sent) / Math.max(1, bytes)))} %`;
}

/** How one file stands. */
export function standingOf(one: Upload): string {
  const { phase } = one;
  switch (phase.is) {
    case 'waiting': return one.target.after ? 'waits for its main mix' : 'waits for its turn';
    case 'sending': return one.sent >= one.bytes ? 'all is sent, the server puts it away' : goingWords([one]);
    case 'held': return phase.words;
    case 'left':
      if (one.expired) return 'what had arrived was not gone on with for too long and is put away; it begins anew';
      return one.sent > 0 ? `${percent(one.sent, one.bytes)} of ${size(one.bytes)} is there` : 'nothing of it is there yet';
    case 'refused': return phase.problem.words;
    case 'arrived': return phase.unusable ? `has arrived, but can’t be used: ${phase.unusable}` : 'has arrived';
  }
}

/** "43 %, 3.1 MB/s, 40 s left" of all that move, together. */
export function goingWords(all: readonly Upload[]): string {
  const bytes = all.reduce((sum, one) => sum + one.bytes, 0);
  const sent = all.reduce((sum, one) => sum + (one.phase.is === 'arrived' ? one.bytes : one.sent), 0);
  const speed = all.reduce((sum, one) => sum + (one.bytesPerSecond ?? 0), 0);
  const known = speed > 0 ? [pace(speed), left((bytes - sent) / speed)] : [];
  return [percent(sent, bytes), ...known].join(', ');
}

/** The one line over all files: what is going on, without the figures that change all the time. */
export function summaryOf(all: readonly Upload[]): string {
  const going = all.filter(moving);
  const arrived = all.filter((one) => one.phase.is === 'arrived').length;
  const refused = all.filter((one) => one.phase.is === 'refused').length;
  const half = all.filter((one) => one.phase.is === 'left').length;
  const held = going.filter((one) => one.phase.is === 'held');
  const parts: string[] = [];
  const why = held[0]?.phase.is === 'held' && going.every((one) => one.phase.is !== 'sending') ? held[0].phase.words : null;
  if (why !== null) parts.push(`${capital(count(going.length, 'file'))} on the way. ${why}`);
  else if (going.length > 0) parts.push(`${capital(count(going.length, 'file'))} on the way.`);
  else if (arrived > 0) parts.push(`${capital(count(arrived, 'file'))} ${arrived === 1 ? 'has' : 'have'} arrived.`);
  const useless = all.filter((one) => one.phase.is === 'arrived' && one.phase.unusable).length;
  if (useless > 0) parts.push(`${capital(count(useless, 'file'))} can’t be used.`);
  if (refused > 0) parts.push(`${capital(count(refused, 'file'))} ${refused === 1 ? 'was' : 'were'} not taken.`);
  if (half > 0) parts.push(`${capital(count(half, 'file'))} did not arrive completely.`);
  return parts.join(' ');
}
