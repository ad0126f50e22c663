/** Names of sections: what probably comes next, and names unlike those that are taken. Pure. */

/** Kinds in the order they are offered. */
export const KINDS = ['Intro', 'Verse', 'Pre-chorus', 'Chorus', 'Bridge', 'Solo', 'Break', 'Outro'] as const;

/** Kinds that are numbered from the first on. */
const NUMBERED = new Set(['verse', 'pre-chorus', 'chorus']);

/** A song's first way: what follows a kind that has not been followed by anything yet. */
const USUAL: Readonly<Record<string, string>> = {
  '': 'Intro', intro: 'Verse', verse: 'Pre-chorus', 'pre-chorus': 'Chorus', chorus: 'Verse', bridge: 'Chorus', solo: 'Chorus', break: 'Chorus',
};

/** A name without its number, and the number. */
export function split(name: string): { word: string; number: number | null } {
  const found = /^(.*\S)\s+(\d{1,3})$/.exec(name.trim());
  return found ? { word: found[1]!, number: Number(found[2]) } : { word: name.trim(), number: null };
}

const key = (word: string) => word.toLowerCase();

/** A name of this word that none of the names has. */
export function unlike(word: string, names: readonly string[]): string {
  const taken = new Set(names.map(key));
  const plain = split(word);
  const base = plain.number === null ? word.trim() : plain.word;
  if (!taken.has(key(word.trim())) && (plain.number !== null || !NUMBERED.has(key(base)))) return word.trim();
  for (let n = NUMBERED.has(key(base)) ? 1 : 2; ; n++) if (!taken.has(key(`${base} ${n}`))) return `${base} ${n}`;
}

/**
 * The kind that probably begins now. A song that went on in some way after this kind goes on so
 * again; after the second chorus comes the bridge, after the third the end.
 */
export function nextKind(before: readonly string[]): string {
  const words = before.map((n) => split(n).word);
  const last = words[words.length - 1] ?? '';
  const count = words.filter((w) => key(w) === key(last)).length;
  if (key(last) === 'chorus' && count >= 2) {
    const bridged = words.some((w) => ['bridge', 'solo', 'break'].includes(key(w)));
    return !bridged ? 'Bridge' : 'Outro';
  }
  for (let i = words.length - 2; i >= 0; i--) if (key(words[i]!) === key(last)) return words[i + 1]!;
  return USUAL[key(last)] ?? 'Section';
}

/** The name that probably begins now, unlike all others. */
export function nextName(before: readonly string[], all: readonly string[] = before): string {
  return unlike(nextKind(before), all);
}

/** What a section may be called instead, the likeliest first; each unlike the names of the others. */
export function otherNames(names: readonly string[], index: number): string[] {
  const others = names.filter((_, i) => i !== index);
  const likely = nextKind(names.slice(0, index));
  // A song has hardly ever two beginnings or two ends.
  const unlikely = (k: string) => ['intro', 'outro'].includes(key(k)) && others.some((n) => key(split(n).word) === key(k));
  const rest = KINDS.filter((k) => key(k) !== key(likely));
  const kinds = [likely, ...rest.filter((k) => !unlikely(k))];
  return kinds.map((k) => unlike(k, others)).filter((n) => key(n) !== key(names[index] ?? ''));
}

/** Names numbered in the order of the song, word by word; a word that comes once keeps its number away unless it is one of those always numbered. */
export function inOrder(names: readonly string[]): string[] {
  const words = names.map((n) => split(n).word);
  const total = new Map<string, number>();
  for (const w of words) total.set(key(w), (total.get(key(w)) ?? 0) + 1);
  const seen = new Map<string, number>();
  return words.map((w) => {
    const n = (seen.get(key(w)) ?? 0) + 1;
    seen.set(key(w), n);
    return total.get(key(w))! > 1 || NUMBERED.has(key(w)) ? `${w} ${n}` : w;
  });
}
