const MINUTE = 60_000;
const HOUR = 60 * MINUTE;
const DAY = 24 * HOUR;

/** How long ago, in the largest whole unit: "4 days", "3 hours"; null within a minute. */
export function past(instant: string, now: number = Date.now()): string | null {
  const passed = now - Date.parse(instant);
  if (!(passed >= MINUTE)) return null;
  if (passed < HOUR) return plural(Math.floor(passed / MINUTE), 'minute');
  if (passed < DAY) return plural(Math.floor(passed / HOUR), 'hour');
  return plural(Math.floor(passed / DAY), 'day');
}

/** "today at 14:10", "Friday", "18 Nov", "18 Nov 2025": as near as one needs it. */
export function day(instant: string, now: Date = new Date()): string {
  const then = new Date(instant);
  const days = Math.round((startOf(now) - startOf(then)) / DAY);
  const time = then.toLocaleTimeString('en-GB', { hour: '2-digit', minute: '2-digit' });
  if (days === 0) return `today at ${time}`;
  if (days === 1) return `yesterday at ${time}`;
  if (days > 1 && days < 7) return then.toLocaleDateString('en-GB', { weekday: 'long' });
  return date(instant, now);
}

/** "12 Dec", with the year when it is another one. Takes a plain date as well as an instant. */
export function date(text: string, now: Date = new Date()): string {
  const then = new Date(text.length === 10 ? `${text}T12:00:00` : text);
  const year = then.getFullYear() === now.getFullYear() ? undefined : 'numeric';
  return then.toLocaleDateString('en-GB', { day: 'numeric', month: 'short', year });
}

/** "25 Nov 15:02", for the record. */
export function stamp(instant: string): string {
  const then = new Date(instant);
  return `${date(instant)} ${then.toLocaleTimeString('en-GB', { hour: '2-digit', minute: '2-digit' })}`;
}

/** "Wednesday 25 November". */
export function longDay(now: Date = new Date()): string {
  return now.toLocaleDateString('en-GB', { weekday: 'long', day: 'numeric', month: 'long' }).replace(',', '');
}

function startOf(moment: Date): number {
  return new Date(moment.getFullYear(), moment.getMonth(), moment.getDate()).getTime();
}

function plural(number: number, unit: string): string {
  return `${number} ${unit}${number === 1 ? '' : 's'}`;
}
