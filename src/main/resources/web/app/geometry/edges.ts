/** Sections while they are drawn: cutting, drawing, moving their edges. Pure; times in seconds. */
import type { Span } from './form.ts';

/** No section is shorter than this. */
export const SHORTEST = 0.1;

/** Edges nearer than this are one. */
const SAME = 0.0005;

/** Where something begins or ends; the rows are indexes into the sections. */
export interface Edge {
  at: number;
  ends: number | null;
  begins: number | null;
}

/** The edges of sections in order; where one ends and the next begins is one edge. */
export function edgesOf(sections: readonly Span[]): Edge[] {
  const edges: Edge[] = [];
  sections.forEach((s, i) => {
    const last = edges[edges.length - 1];
    if (last && last.ends === i - 1 && Math.abs(last.at - s.from) < SAME) last.begins = i;
    else edges.push({ at: s.from, ends: null, begins: i });
    edges.push({ at: s.to, ends: i, begins: null });
  });
  return edges;
}

/** Moves an edge, as far as its neighbours let it; what meets there moves along. */
export function moveEdge(sections: readonly Span[], index: number, to: number, length: number): Span[] {
  const edges = edgesOf(sections);
  const edge = edges[index];
  if (!edge) return [...sections];
  const before = edges[index - 1];
  const after = edges[index + 1];
  // A gap may close, a section may not.
  const low = before ? before.at + (edge.ends === null ? 0 : SHORTEST) : 0;
  const high = after ? after.at - (edge.begins === null ? 0 : SHORTEST) : length;
  const at = toMicro(Math.min(Math.max(to, low), Math.max(low, high)));
  return sections.map((s, i) => ({
    ...s,
    ...(i === edge.begins ? { from: at } : {}),
    ...(i === edge.ends ? { to: at } : {}),
  }));
}

/**
 * A boundary at a place: the section there is cut in two, in a gap a section begins that lasts to
 * the next one. Null where that would leave a piece too short.
 */
export function cutAt(sections: readonly Span[], at: number, name: string, length: number): { sections: Span[]; index: number } | null {
  const place = toMicro(at);
  const inside = sections.findIndex((s) => place > s.from && place < s.to);
  const index = inside >= 0 ? inside + 1 : sections.filter((s) => s.from < place).length;
  const end = inside >= 0 ? sections[inside]!.to : sections[index]?.from ?? length;
  if (end - place < SHORTEST || (inside >= 0 && place - sections[inside]!.from < SHORTEST)) return null;
  const rows = sections.map((s, i) => (i === inside ? { ...s, to: place } : s));
  return { sections: [...rows.slice(0, index), { name, from: place, to: end }, ...rows.slice(index)], index };
}

/** The section that holds a place ends there; what was behind it is a gap. */
export function endAt(sections: readonly Span[], at: number): Span[] | null {
  const place = toMicro(at);
  const inside = sections.findIndex((s) => place > s.from + SHORTEST && place < s.to);
  return inside < 0 ? null : sections.map((s, i) => (i === inside ? { ...s, to: place } : s));
}

/**
 * A section drawn by hand. Those it covers give way: they are cut back, or go where nothing of them
 * is left; the rest behind it of one it lies within takes the name given for that.
 */
export function drawOver(sections: readonly Span[], drawn: Span, restName: string): Span[] {
  const from = toMicro(drawn.from);
  const to = toMicro(drawn.to);
  if (to - from < SHORTEST) return [...sections];
  const kept: Span[] = [];
  for (const s of sections) {
    const front = Math.min(s.to, from) - s.from >= SHORTEST;
    const back = s.to - Math.max(s.from, to) >= SHORTEST;
    if (front) kept.push({ ...s, to: Math.min(s.to, from) });
    if (back) kept.push({ name: front ? restName : s.name, from: Math.max(s.from, to), to: s.to });
  }
  return [...kept, { name: drawn.name, from, to }].sort((a, b) => a.from - b.from);
}

/** Without a section; the one before takes its place where it touches it. */
export function takeAway(sections: readonly Span[], index: number): Span[] {
  const gone = sections[index];
  const rows = sections.filter((_, i) => i !== index);
  const before = rows[index - 1];
  if (gone && before && Math.abs(before.to - gone.from) < SAME) rows[index - 1] = { ...before, to: gone.to };
  return rows;
}

/** The nearest edge to a place, if one lies within reach. */
export function nearestEdge(edges: readonly Edge[], at: number, reach: number): number | null {
  let found: number | null = null;
  let distance = reach;
  edges.forEach((e, i) => {
    const d = Math.abs(e.at - at);
    if (d <= distance) {
      found = i;
      distance = d;
    }
  });
  return found;
}

/** A stretch of fixed length around a place, kept within the song: what a close-up shows. */
export function around(at: number, span: number, length: number): { from: number; to: number } {
  const wide = Math.min(span, length);
  const from = Math.min(Math.max(0, at - wide / 2), Math.max(0, length - wide));
  return { from, to: from + wide };
}

/** Whether two forms are the same, name by name and place by place. */
export function same(one: readonly Span[], other: readonly Span[]): boolean {
  return one.length === other.length && one.every((s, i) => s.name === other[i]!.name && s.from === other[i]!.from && s.to === other[i]!.to);
}

function toMicro(seconds: number): number {
  return Math.round(seconds * 1e6) / 1e6;
}
