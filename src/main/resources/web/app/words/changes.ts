import type { Amount, ChangeAnswer, ChangeState, NewWork, Role, Seen, UsualAmount } from '../api/types.ts';
import { capital, plain } from './numbers.ts';

const LEVEL: Record<string, string> = { up: 'up', down: 'down', match: 'as loud as elsewhere', set: 'set to a level' };
const WAYS: Record<string, Record<string, string>> = {
  level: LEVEL,
  mute: { out: 'out', in: 'back in' },
  pan: { left: 'to the left', right: 'to the right', centre: 'to the middle' },
  width: { wider: 'wider', narrower: 'narrower' },
  lows: { up: 'more lows', down: 'fewer lows' },
  'low mids': { up: 'warmer', down: 'less muddy' },
  mids: { up: 'more mids', down: 'less boxy' },
  highs: { up: 'brighter', down: 'less bright' },
  harshness: { up: 'more edge', down: 'less harsh' },
  sibilance: { up: 'sharper esses', down: 'softer esses' },
  reverb: { up: 'more reverb', down: 'drier' },
  delay: { up: 'more delay', down: 'less delay' },
  compression: { up: 'tighter dynamics', down: 'looser dynamics' },
  distortion: { up: 'more grit', down: 'cleaner' },
  impact: { up: 'hit harder', down: 'hit softer' },
  timing: { earlier: 'earlier', later: 'later', tighter: 'tighter in time' },
  tuning: { fix: 'put in tune' },
  noise: { fix: 'take the noise out' },
  fade: { longer: 'longer fade', shorter: 'shorter fade' },
  length: { longer: 'longer', shorter: 'shorter' },
  effect: { in: 'with the effect', out: 'without the effect' },
  delivery: { add: 'one more file' },
  other: { any: 'see the words' },
};

/** What is asked, without the part: "up, a touch", "wider", "down, 1.5 dB". */
export function askWords(change: { aspect: string; direction: string; amount: Amount | null }): string {
  const way = WAYS[change.aspect]?.[change.direction] ?? `${change.aspect}, ${change.direction}`;
  const much = change.amount ? amountWords(change.amount) : '';
  return much === '' ? way : `${way}, ${much}`;
}

export function amountWords(amount: Amount): string {
  if ('word' in amount) return amount.word;
  const unit = amount.unit === '%' ? '%' : ` ${amount.unit}`;
  return amount.to === undefined || amount.to === null
    ? `${plain(amount.value)}${unit}`
    : `${plain(amount.value)} to ${plain(amount.to)}${unit}`;
}

/** "Lead vocal", and "Whole mix" where no part is meant. */
export function partWords(element: string): string {
  return element === 'mix' ? 'Whole mix' : capital(element);
}

/** "Lead vocal up, a touch". */
export function changeWords(change: {
  element: string;
  aspect: string;
  direction: string;
  amount: Amount | null;
}): string {
  return `${partWords(change.element)}: ${askWords(change)}`;
}

/** The sign of the score for what is asked: the name of a symbol in the sprite. */
export function askSign(change: { aspect: string; direction: string }): string {
  const { aspect, direction } = change;
  if (aspect === 'width' || aspect === 'pan') return 'wide';
  if (aspect === 'mute' || aspect === 'effect' || aspect === 'delivery') return direction === 'out' ? 'out' : 'in';
  if (['lows', 'low mids', 'mids', 'highs', 'harshness', 'sibilance'].includes(aspect)) return 'tone';
  if (direction === 'up' || direction === 'longer' || direction === 'later') return 'up';
  if (direction === 'down' || direction === 'shorter' || direction === 'earlier') return 'down';
  return 'do';
}

export const STATE_WORDS: Record<ChangeState, string> = {
  unclear: 'unclear',
  asked: 'asked',
  done: 'done',
  good: 'good',
  left: 'left',
  withdrawn: 'withdrawn',
  followed: 'asked again',
};

export const ANSWER_WORDS: Record<ChangeAnswer, string> = {
  'as-asked': 'as asked',
  differently: 'solved differently',
  tried: 'tried and left',
  cannot: 'can’t be done',
  'need-files': 'needs files',
  'new-work': 'new work',
};

/** What has to be made before it can be mixed. */
export const NEW_WORK_WORDS: Record<NewWork, string> = {
  take: 'a new take',
  part: 'a new part',
  form: 'an edit of the form',
};

/** "a touch is usually 0.3 to 1.6 dB", and what was good here. */
export function usualWords(amount: Amount, usual: UsualAmount): string {
  if (!('word' in amount)) return '';
  const range = `${usual.fromDb.toFixed(1)} to ${usual.toDb.toFixed(1)} dB`;
  const good = usual.good.map((one) => `${one.name}: ${one.db.toFixed(1)} dB`).join(', ');
  if (usual.learned) return `“${amount.word}” has been ${range} here (${good})`;
  return `“${amount.word}” is usually ${range}${good ? `; good was ${good}` : ''}`;
}

export const SEEN_WORDS: Record<Seen, string> = {
  'as-asked': 'as asked',
  partly: 'less than asked',
  'too-far': 'further than asked',
  opposite: 'the other way',
  'not-seen': 'not moved',
  'cannot-tell': 'can’t be told',
};

export const ROLE_WORDS: Record<Role, string> = {
  engineer: 'engineer',
  artist: 'artist',
  manager: 'manager',
  listener: 'listens only',
};
