// What the page's pure parts and its player answer, as numbers for PageNumbersTest to judge.
import { at, bars, neighbour, notePlace, placeWords, present, step } from '../../main/resources/web/app/geometry/form.ts';
import { barWords, linesIn, steadyBars, stepFrom } from '../../main/resources/web/app/geometry/beats.ts';
import { around, cutAt, drawOver, edgesOf, endAt, moveEdge, nearestEdge, takeAway } from '../../main/resources/web/app/geometry/edges.ts';
import { parseClock } from '../../main/resources/web/app/geometry/clock.ts';
import { above, levels, levelTicks, line, pillars, pixel, stepAt, timeTicks, valueAt, type Scale } from '../../main/resources/web/app/geometry/chart.ts';
import { boxes, columns, dragged, roomFor, timeToX, xToTime } from '../../main/resources/web/app/geometry/strip.ts';
import { Desk, Run } from '../../main/resources/web/app/player/desk.ts';
import { rateFrom, rateOf } from '../../main/resources/web/app/player/line.ts';
import { render } from '../../main/resources/web/app/player/offline.ts';
import { Segments } from '../../main/resources/web/app/player/segments.ts';
import { TimeMap, type Piece } from '../../main/resources/web/app/player/timemap.ts';
import { Voice } from '../../main/resources/web/app/player/voice.ts';
import { loopHref, wishOf } from '../../main/resources/web/app/state/wish.ts';
import { Problem } from '../../main/resources/web/app/api/problem.ts';
import { waitAfter } from '../../main/resources/web/app/uploads/holds.ts';
import { Pace, pieceBytes } from '../../main/resources/web/app/uploads/pace.ts';
import { left, pace as paceWords, percent, size } from '../../main/resources/web/app/words/sending.ts';
import { inOrder, nextName, otherNames, unlike } from '../../main/resources/web/app/words/section-names.ts';
import { alike, behind, limitWords } from '../../main/resources/web/app/words/checks.ts';
import { rehearsalMarks, saidPlace, whereWords } from '../../main/resources/web/app/words/sections.ts';
import { saidAmount } from '../../main/resources/web/app/words/amounts.ts';
import { amountWords, askWords } from '../../main/resources/web/app/words/changes.ts';
import { clock, clockMillis, clockTenths, figure, plain, signedFigure } from '../../main/resources/web/app/words/numbers.ts';

const RATE = 48000;
const SECONDS = 12;

/** The same piece of music at any rate: six tones with a slow swing, the highest at 15 kHz. */
function music(rate: number, frames: number, speed = 1): Float32Array[] {
  const tones = [97, 331.7, 1234.5, 4321, 9777, 15003];
  return [0, 1].map((channel) => Float32Array.from({ length: frames }, (_, i) => {
    const t = i / rate / speed;
    return tones.reduce((sum, f) => sum + 0.13 * Math.sin(2 * Math.PI * f * t + f * channel * 0.01 + Math.sin(t * 0.7)), 0);
  }));
}

function floatWav(channels: Float32Array[], rate: number): ArrayBuffer {
  const frames = channels[0]!.length;
  const bytes = new ArrayBuffer(44 + frames * 8);
  const view = new DataView(bytes);
  const text = (at: number, words: string) => [...words].forEach((c, i) => view.setUint8(at + i, c.charCodeAt(0)));
  text(0, 'RIFF');
  view.setUint32(4, 36 + frames * 8, true);
  text(8, 'WAVEfmt ');
  [[16, 16, 4], [20, 3, 2], [22, 2, 2], [24, rate, 4], [28, rate * 8, 4], [32, 8, 2], [34, 32, 2]].forEach(([at, value, size]) =>
    size === 4 ? view.setUint32(at!, value!, true) : view.setUint16(at!, value!, true));
  text(36, 'data');
  view.setUint32(40, frames * 8, true);
  for (let i = 0; i < frames; i++) for (let c = 0; c < 2; c++) view.setFloat32(44 + (i * 2 + c) * 4, channels[c]![i]!, true);
  return bytes;
}

/** A bounce held in memory, cut into segments of an odd length as a server might. */
function bounce(id: string, channels: Float32Array[], rate: number, length: number): Segments {
  const frames = channels[0]!.length;
  const segments: { index: number; fromFrame: number; frames: number }[] = [];
  for (let from = 0, index = 0; from < frames; from += length, index++) segments.push({ index, fromFrame: from, frames: Math.min(length, frames - from) });
  const piece = (index: number) => {
    const s = segments[index]!;
    return Promise.resolve(floatWav(channels.map((c) => c.slice(s.fromFrame, s.fromFrame + s.frames)), rate));
  };
  const manifest = { state: 'ready' as const, progress: 1, sampleRate: rate, channels: 2, frames, segments, segmentsReady: segments.length, wholeBytes: null, light: null, problem: null };
  return new Segments(id, manifest, { piece, manifest: () => Promise.resolve(manifest) });
}

let seed = 20261125;
function random(): number {
  seed = (Math.imul(seed, 1664525) + 1013904223) >>> 0;
  return seed / 4294967296;
}

/** Renders twenty crossings between two bounces that hold the same music and says how far the sound strays from it. */
async function crossings(rate: number, lead: Float32Array[], other: Float32Array[], otherRate: number, map: Piece[]) {
  const here = new Voice(bounce('lead', lead, rate, rate * 3 + 17), TimeMap.identity(lead[0]!.length / rate), rate);
  const there = new Voice(bounce('other', other, otherRate, otherRate * 2 + 5), new TimeMap(map), rate);
  const switches = Array.from({ length: 20 }, () => 0.1 + random() * 7.7).sort((a, b) => a - b);
  const heard = await render([here, there], rate, { from: 1.2345, seconds: 8, switches, matchDb: [0, 0], sounding: 0 });
  let stray = 0;
  heard.channels.forEach((channel, c) => channel.forEach((v, i) => (stray = Math.max(stray, Math.abs(v - lead[c]![heard.startFrame + i]!)))));
  return { crossings: heard.switchedAt.length, stray, interpolated: there.interpolated };
}

/** Crosses over to the same music upside down, so that the first and last frame of the crossing can be told. */
async function edges() {
  const lead = music(RATE, SECONDS * RATE);
  const turned = lead.map((c) => c.map((v) => -v));
  const voices = [lead, turned].map((c, i) => new Voice(bounce(`b${i}`, c, RATE, 100003), TimeMap.identity(SECONDS), RATE));
  const heard = await render(voices, RATE, { from: 2, seconds: 1, switches: [0.40001], matchDb: [0, 0], sounding: 0 });
  const at0 = heard.switchedAt[0]!;
  let first = -1;
  let last = -1;
  heard.channels[0]!.forEach((v, i) => {
    const wanted = lead[0]![heard.startFrame + i]!;
    if (first < 0 && Math.abs(v - wanted) > 1e-6) first = i;
    if (Math.abs(v + wanted) > 1e-6) last = i;
  });
  return { asked: Math.round(0.40001 * RATE), began: at0, firstChanged: first, lastChanging: last };
}

async function looping() {
  const lead = music(RATE, SECONDS * RATE);
  const segments = bounce('loop', lead, RATE, RATE * 3);
  const voice = new Voice(segments, TimeMap.identity(SECONDS), RATE);
  const heard = await render([voice], RATE, { from: 2, seconds: 3, switches: [], matchDb: [-6], sounding: 0, loop: { from: 2, to: 2.75 } });
  const length = 0.75 * RATE;
  const gain = 10 ** (-6 / 20);
  let stray = 0;
  heard.channels[0]!.forEach((v, i) => {
    const place = i % length;
    const seam = place >= length - 240 || (place < 240 && i >= length);
    if (!seam) stray = Math.max(stray, Math.abs(v - lead[0]![2 * RATE + place]! * gain));
  });
  return { stray, fetched: segments.fetched, segments: segments.manifest.segments.length };
}

/** What is left of a mix and the same mix 0.3 dB quieter. */
async function difference() {
  const lead = music(RATE, SECONDS * RATE);
  const quieter = lead.map((c) => c.map((v) => v * 10 ** (-0.3 / 20)));
  const voices = [lead, quieter].map((c, i) => new Voice(bounce(`b${i}`, c, RATE, 90001), TimeMap.identity(SECONDS), RATE));
  const context = new OfflineAudioContext(2, RATE, RATE);
  const desk = new Desk(context, voices, 0);
  const run = new Run(desk, { start: RATE, end: 3 * RATE, loop: null }, 0, 0);
  for (const voice of voices) await voice.need(RATE, RATE);
  run.pump(RATE);
  desk.difference(0.3, 4800);
  const left = (await context.startRendering()).getChannelData(0).subarray(4800 + 481);
  return { rest: left.reduce((most, v) => Math.max(most, Math.abs(v)), 0) };
}

async function player() {
  const lead = music(RATE, SECONDS * RATE);
  const whole = { from: 0, to: SECONDS, otherFrom: 0, otherTo: SECONDS };
  const later = lead.map((c) => {
    const o = new Float32Array(c.length + 1776);
    o.set(c, 1776);
    return o;
  });
  const longer = lead.map((c) => {
    const o = new Float32Array(c.length + 2 * RATE);
    o.set(c.subarray(0, 5 * RATE));
    o.set(c.subarray(5 * RATE), 7 * RATE);
    return o;
  });
  const drift = 1 + 50e-6;
  return {
    same: await crossings(RATE, lead, lead, RATE, [whole]),
    offset: await crossings(RATE, lead, later, RATE, [{ ...whole, otherFrom: 0.037, otherTo: SECONDS + 0.037 }]),
    cut: await crossings(RATE, lead, longer, RATE, [{ from: 0, to: 5, otherFrom: 0, otherTo: 5 }, { from: 5, to: SECONDS, otherFrom: 7, otherTo: SECONDS + 2 }]),
    otherRate: await crossings(RATE, lead, music(44100, SECONDS * 44100), 44100, [whole]),
    drift: await crossings(RATE, lead, music(RATE, Math.round(SECONDS * RATE * drift) + 10, drift), RATE, [{ ...whole, otherTo: SECONDS * drift }]),
    edges: await edges(),
    loop: await looping(),
    difference: await difference(),
  };
}

function geometry() {
  const spans = present([
    { name: 'Chorus 1', from: 20, to: 40 }, { name: 'Intro', from: 0, to: 10 }, { name: 'Bridge', from: null, to: null }, { name: 'Verse 1', from: 10, to: 20 }]);
  const pulse = { tempoBpm: 96, beatsPerBar: 4, firstBarSeconds: 0.5 };
  const map = new TimeMap([{ from: 0, to: 5, otherFrom: 0.5, otherTo: 5.5 }, { from: 6, to: 10, otherFrom: 8, otherTo: 12 }]);
  // Two bars of 2 s, then three bars of 1.5 s: the chorus begins with the tempo change, 20 ms early.
  const mapped = { ...pulse, lines: [16, 18, 20, 21.5, 23, 24.5] };
  const turned = [{ name: 'Verse', from: 16, to: 19.98 }, { name: 'Chorus', from: 19.98, to: 24.5 }];
  const drawn = columns([-70, -45, -22.5, 0, 3], 5, 32);
  return {
    order: spans.map((s) => s.name).join(), at: at(spans, 20)?.name ?? '', gap: at(spans, 40)?.name ?? '',
    bars: bars(spans[2]!, pulse), noBars: bars(spans[2]!, {}),
    stepOn: step(1, 1, pulse, 60), stepBack: step(5.6, -1, pulse, 60), stepPlain: step(1, 1, {}, 60), stepEnd: step(59, 1, pulse, 60), stepAnchored: step(20.1, 1, pulse, 60, 20),
    sectionOn: neighbour(spans, 3, 1)?.name ?? '', sectionOwnStart: neighbour(spans, 15, -1)?.name ?? '', sectionBefore: neighbour(spans, 10.5, -1)?.name ?? '',
    mappedBars: turned.map((s) => bars(s, mapped)), mappedPlaces: [17.99, 18.01, 19.99, 21.6, 24.4].map((t) => placeWords(turned, t, mapped)),
    mappedSteps: [step(18.1, 1, mapped, 60), step(20, 1, mapped, 60), step(21.6, -1, mapped, 60), step(22.5, -1, mapped, 60), step(20.1, -1, mapped, 60), step(30, 1, mapped, 60)],
    place: placeWords(spans, 22.6, pulse), notePlace: notePlace(83.4), noteStart: notePlace(1), noteLoop: notePlace(21, 20),
    x: timeToX(30, 60, 1392), xPast: timeToX(90, 60, 1392), time: xToTime(696, 60, 1392), noLength: timeToX(3, 0, 100),
    press: dragged(10, 13, 60, 600), drag: dragged(300, 100, 60, 600),
    half: [...drawn.half], box: boxes(spans, 40, 400).map((b) => [b.x, b.width]),
    room: roomFor([{ name: 'a', x: 0, width: 9 }, { name: 'b', x: 10, width: 9 }, { name: 'c', x: 40, width: 9 }], () => 20).map((b) => b.name).join(),
    toOther: map.toOther(2), toGap: map.toOther(5.5), fromOther: map.fromOther(9), nearest: map.nearestFromOther(6),
    parsed: [parseClock('1:23.4'), parseClock('83,4'), parseClock('1:75'), parseClock('soon')],
    clock: [clock(83.99), clock(-1), clockTenths(83.96), clockTenths(59.97)],
    amounts: ['-3 dB', '+3', '3 dBs', '1,5 db', '1 to 2 dB', '\u22122 %', 'a touch', '-3 horses'].map((text) => askWords({ aspect: 'level', ...saidAmount(text, 'up', null) })),
    elsewhere: [saidAmount('-20 ms', 'later', null), saidAmount('-3 dB', 'centre', null)].map((one) => `${one.direction}, ${amountWords(one.amount!)}`),
    places: ['1:05 to 1:20', '1:05\u20131:20', 'at 1:05', '83.5', '', '1:05', '1:20 to 1:05', '1:65', 'the end', '1:00 to 1:10 to 1:20']
      .map((text) => saidPlace(text, { from: 65.4, to: 65.4 })).map((where) => where && `${whereWords(where)} ${JSON.stringify(where)}`),
    plain: [1.25, 3, 0.1 + 0.2, 1e13, 1e21].map(plain),
    figures: [figure(-14.62, 'LUFS'), figure(-0.04, 'dB'), figure(null, 'dB'), signedFigure(0.84, 'dB'), signedFigure(-0.5, 'dB')],
  };
}

/** Marks of sections whose names begin alike, and of one in signs beyond two bytes. */
function marks() {
  const many = Array.from({ length: 60 }, (_, i) => `Part number ${i + 1} of the suite`);
  const all = rehearsalMarks([...many, 'Chorus 2', '\u{1F3B5}\u{1F3B5}\u{1F3B5}']);
  return { first: all.get(many[0]!), second: all.get(many[1]!), z: all.get(many[26]!), after: all.get(many[27]!), last: all.get(many[59]!), chorus: all.get('Chorus 2'), signs: all.get('\u{1F3B5}\u{1F3B5}\u{1F3B5}') };
}

/** What is said beside checks, and how they are gathered. */
function checks() {
  const one = (code: string, value: number | null, limit: number | null, standing: 'standard' | 'agreement' | 'habit' | null, source: string | null) =>
    ({ code, severity: 'warning', detail: code, from: 0, to: 1, value, limit, standing, source });
  const found = [one('intersample-over', 2.071, 0, 'standard', 'ITU-R BS.1770'), one('clipped', 2782, 0, 'habit', null),
    one('over', -0.52, -1, 'agreement', null), one('intersample-over', 0.5, 0, 'standard', 'ITU-R BS.1770'), one('dropout', 0.03, null, null, null)];
  return {
    said: found.map((f) => [limitWords(f), behind(f)].filter(Boolean).join(', ')),
    kinds: alike(found).map((all) => all.map((f) => f.value)),
  };
}

/** Curves of the figures: pixels, gaps, ticks. */
function curves() {
  const y: Scale = { low: -36, high: 0, start: 200, end: 20 };
  const x = (i: number) => 10 * i;
  return {
    pixel: [pixel(y, -36), pixel(y, -18), pixel(y, 0), pixel(y, 6), pixel(y, -90)],
    value: [valueAt(y, 200), valueAt(y, 110), valueAt(y, 500)],
    levels: [levels([-30, null, -13.2], 6, 36, 0), levels([null], 6, 36, 0), levels([-12], 6, 36, 0)],
    line: line([null, -36, -18, null, -18, null, 0, 0], x, (v) => pixel(y, v)),
    pillars: pillars([-18, null, -36], x, 4, (v) => pixel(y, v), 200),
    steps: [stepAt(44, 44, 644, 600), stepAt(344.5, 44, 644, 600), stepAt(900, 44, 644, 600), stepAt(0, 44, 644, 600), stepAt(50, 44, 644, 0)],
    times: [timeTicks(0, 157.6, 1384, 64), timeTicks(61.2, 63.1, 600, 64)],
    ticks: [levelTicks({ low: -24, high: 3 }, 6), levelTicks({ low: -42, high: -6 }, 12)],
    above: above([-1.2, -1, -0.996, -0.99, null, 0.4], -1),
    wish: [wishOf('?mix=m&from=61.2&to=64.2')?.stretch ?? null, wishOf('?mix=m&from=9&to=3')?.stretch ?? null, wishOf('?from=-1&to=3')],
    href: [loopHref('s', 'm', null, 'Chorus 1 & 2'), loopHref('s', 'm', 'o', { from: 61.204, to: 64.2 })],
  };
}

/** Sections as text: "A 0-4, B 4-8". */
function told(rows: readonly { name: string; from: number; to: number }[] | null | undefined): string {
  return rows ? rows.map((r) => `${r.name} ${r.from}-${r.to}`).join(', ') : 'none';
}

function sections() {
  const rows = [{ name: 'A', from: 0, to: 4 }, { name: 'B', from: 4, to: 8 }, { name: 'C', from: 9, to: 12 }];
  const grid = steadyBars({ tempoBpm: 120, beatsPerBar: 3, firstBarSeconds: 0.25 }, 6);
  // A map with a change: two bars of three at half a second, then four beats of a second each.
  const turning = [{ bar: 1, beats: [0, 0.5, 1] }, { bar: 2, beats: [1.5, 2, 2.5] }, { bar: 3, beats: [3, 4, 5, 6] }];
  const grown: string[] = [];
  for (let i = 0; i < 10; i++) grown.push(nextName(grown));
  return {
    edges: edgesOf(rows).map((e) => `${e.at}:${e.ends ?? ''}>${e.begins ?? ''}`).join(' '),
    shared: told(moveEdge(rows, 1, 4.01, 12)), stopped: told(moveEdge(rows, 1, 20, 12)), closed: told(moveEdge(rows, 3, 1, 12)), gap: told(moveEdge(rows, 2, 11, 12)), last: told(moveEdge(rows, 4, 99, 12)),
    cut: told(cutAt(rows, 6, 'N', 12)?.sections), cutGap: told(cutAt(rows, 8.5, 'N', 12)?.sections), cutNear: cutAt(rows, 4.05, 'N', 12), cutFirst: told(cutAt([], 3, 'N', 12)?.sections),
    ended: told(endAt(rows, 5)), endedGap: endAt(rows, 8.5),
    drawn: told(drawOver(rows, { name: 'N', from: 3, to: 10 }, 'R')), within: told(drawOver(rows, { name: 'N', from: 5, to: 6 }, 'R')), drawnShort: told(drawOver(rows, { name: 'N', from: 5, to: 5.05 }, 'R')),
    away: told(takeAway(rows, 1)), awayGap: told(takeAway(rows, 2)), awayFirst: told(takeAway(rows, 0)),
    near: nearestEdge(edgesOf(rows), 8.2, 0.5), far: nearestEdge(edgesOf(rows), 6, 0.5), around: [around(1, 8, 60), around(30, 8, 60), around(59, 8, 60), around(2, 8, 5)],
    grid: grid.map((b) => `${b.bar}:${b.beats.join('/')}`).join(' '), noGrid: steadyBars({}, 60).length,
    steps: [stepFrom(1.5, 1, 0.01, []), stepFrom(0.02, -1, 0.05, []), stepFrom(1.6, 1, 'beat', turning), stepFrom(1.6, -1, 'beat', turning), stepFrom(1.6, 1, 'bar', turning), stepFrom(3, -1, 'bar', turning), stepFrom(6, 1, 'beat', turning)],
    bars: [barWords(3, turning), barWords(4, turning), barWords(2.96, turning), barWords(30, turning)], lines: linesIn(turning, 1.5, 3).map((l) => l.bar ?? '-').join(' '),
    grown: grown.join(', '),
    learnt: nextName(['Intro', 'Verse 1', 'Chorus 1', 'Verse 2']), own: nextName(['Verse 1', 'Drop', 'Verse 2']), taken: nextName(['Intro'], ['Intro', 'Verse 1', 'verse 2']),
    others: otherNames(['Intro', 'Verse 1', 'Pre-chorus 1'], 2).join(', '),
    unlike: [unlike('Verse', []), unlike('Verse', ['verse 1']), unlike('Bridge', []), unlike('Bridge', ['Bridge']), unlike('Chorus 2', []), unlike('Chorus 2', ['Chorus 2', 'Chorus 1'])],
    ordered: inOrder(['Verse 3', 'Chorus', 'verse 1', 'Bridge 4', 'Chorus']).join(', '),
    millis: [clockMillis(83.4412), clockMillis(59.9996), clockMillis(-1)],
  };
}

/** Files on their way: how fast, how long still, and when to try again. */
function sending() {
  const pace = new Pace();
  const speeds: (number | null)[] = [];
  const mark = (bytes: number, at: number) => { pace.mark(bytes, at); speeds.push(pace.bytesPerSecond()); };
  // A steady megabyte a second, a pause of four seconds, and the server setting the count back.
  mark(0, 0); mark(400_000, 400); mark(1_000_000, 1000); mark(5_000_000, 5000); mark(5_000_000, 9000); mark(4_000_000, 9100);
  const wait = (status: number, code: string, tries: number, begun: boolean, fields = {}) => {
    const found = waitAfter(new Problem(status, code, 't', 'd.', fields), tries, begun, true);
    return found ? `${found.why} ${found.seconds}` : 'ends';
  };
  return {
    speeds,
    pieces: [pieceBytes(null), pieceBytes(1), pieceBytes(100_000), pieceBytes(1e9)],
    sizes: [size(1), size(640_000), size(999_600), size(48_240_000), size(3_907_000_000)],
    paces: [paceWords(37_500), paceWords(3_140_000)],
    left: [left(2), left(38), left(56), left(170), left(7790)],
    percent: [percent(0, 10), percent(435, 1000), percent(10, 10)],
    waits: [wait(0, 'unreachable', 0, true), wait(0, 'unreachable', 9, true), wait(401, 'not-signed-in', 0, true), wait(429, 'slow-down', 0, false, { retryAfterSeconds: 45 }),
      wait(503, 'busy', 2, true), wait(460, 'checksum-differs', 0, true), wait(409, 'wrong-state', 1, true), wait(409, 'wrong-state', 20, true),
      wait(409, 'no-bounce', 0, false), wait(413, 'too-large', 0, false), wait(507, 'disk-full', 0, true), wait(404, 'not-found', 0, false), wait(422, 'file-changed', 0, true)],
  };
}

/** How fast a line was, from what came when: milliseconds and bytes. */
function lineSpeeds() {
  return {
    // 75,000 bytes in two seconds, one after the other; the pause between them does not count.
    inTurn: rateOf([{ from: 0, to: 1000, bytes: 37_500 }, { from: 5000, to: 6000, bytes: 37_500 }]),
    // The same two side by side share one line.
    sideBySide: rateOf([{ from: 0, to: 2000, bytes: 37_500 }, { from: 0, to: 2000, bytes: 37_500 }]),
    nested: rateOf([{ from: 0, to: 2000, bytes: 60_000 }, { from: 500, to: 900, bytes: 15_000 }]),
    tooLittle: rateOf([{ from: 0, to: 1000, bytes: 49_999 }]),
    atOnce: rateOf([{ from: 0, to: 240, bytes: 900_000 }]),
    remembered: rateFrom({ rate: 280_000, answerMs: 430, at: 0 }, 410, 80_000_000),
    forgotten: [rateFrom({ rate: 280_000, answerMs: 430, at: 0 }, 410, 90_000_000), rateFrom({ rate: 280_000, answerMs: 430, at: 0 }, 20, 1000), rateFrom({ rate: 280_000, answerMs: 430, at: 0 }, null, 1000), rateFrom(null, 410, 1000)],
  };
}

(globalThis as unknown as { numbers: unknown }).numbers = async () => ({ geometry: geometry(), curves: curves(), sections: sections(), marks: marks(), checks: checks(), sending: sending(), line: lineSpeeds(), player: await player() });
