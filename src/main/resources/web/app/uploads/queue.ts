/** All files on their way. It lives above the pages: moving inside the app stops nothing. */
import { asProblem, Problem } from '../api/problem.ts';
import type { Id } from '../api/types.ts';
import { Scope } from '../scope.ts';
import { me, refreshMe } from '../state/me.ts';
import { Store } from '../state/store.ts';
import { fates, open } from './fate.ts';
import { reopened, type Found } from './found.ts';
import { waitAfter, type Wait } from './holds.ts';
import { forget, remember, rememberedOf, type Remembered } from './memory.ts';
import { Pace, pieceBytes } from './pace.ts';
import { heldElsewhere, answerOtherTabs } from './tabs.ts';
import { moving, type Phase, type Target, type Upload } from './target.ts';
import { begin, end, sendPiece, whereIs, type Place } from './tus.ts';

const AT_ONCE = 2;
const SHOWN_EVERY_MS = 200;
const SIGNED_IN_EVERY_MS = 10_000;
const FATE_EVERY_MS = 3000;

type Handle = Pick<Remembered, 'root' | 'within'>;

export class UploadQueue {
  readonly items = new Store<readonly Upload[]>([]);
  private readonly scope = new Scope();
  private readonly files = new Map<string, File>();
  private readonly handles = new Map<string, Handle>();
  private readonly going = new Map<string, Scope>();
  private wakers: Array<() => void> = [];
  private recalled: Id | null = null;
  private following = false;

  constructor() {
    this.scope.listen(window, 'online', () => this.wake());
    this.scope.listen<BeforeUnloadEvent>(window, 'beforeunload', (event) => {
      if (this.items.value.some(moving)) event.preventDefault();
    });
    this.scope.onClose(me.watch(() => void this.signedIn()));
    answerOtherTabs(this.scope, () => this.items.value.filter(moving).map((one) => one.id));
    void this.signedIn();
  }

  /** Those of whoever is signed in; of the last person while nobody is. */
  mine(): readonly Upload[] {
    const person = me.value?.id ?? this.recalled;
    return this.items.value.filter((one) => one.person === person);
  }

  /** Takes files on; what has arrived before is off the list then. Answers with their ids. */
  bring(all: ReadonlyArray<{ readonly id?: string; readonly found: Found; readonly target: Target }>): string[] {
    const person = me.value!.id;
    const made = all.map(({ id, found, target }) => {
      const { file } = found;
      const one: Upload = {
        id: id ?? crypto.getRandomValues(new Uint32Array(3)).join('-'), person, name: file.name, bytes: file.size, lastModified: file.lastModified,
        target, address: null, sent: 0, bytesPerSecond: null, phase: { is: 'waiting' }, reopens: found.root !== null,
      };
      this.files.set(one.id, file);
      this.handles.set(one.id, found);
      return one;
    });
    this.items.set([...this.items.value.filter((one) => one.phase.is !== 'arrived'), ...made]);
    for (const one of made) void this.keep(one.id);
    this.pump();
    return made.map((one) => one.id);
  }

  /** Goes on with those that were left half-way; answers with the files that were none of them. */
  goOnWith(found: readonly Found[]): Found[] {
    return found.filter((each) => {
      const { file } = each;
      const one = this.mine().find((left) => left.phase.is === 'left' && left.name === file.name
        && left.bytes === file.size && left.lastModified === file.lastModified);
      if (!one) return true;
      this.handles.set(one.id, each);
      this.takeUp(one.id, file);
      return false;
    });
  }

  /** Opens again by their handles those that were left half-way; answers how many could not be. */
  async reopen(): Promise<number> {
    let missed = 0;
    for (const one of this.mine().filter((left) => left.phase.is === 'left' && left.reopens)) {
      const { root, within } = this.handles.get(one.id)!;
      const file = await reopened(root!, within);
      if (file && file.size === one.bytes && file.lastModified === one.lastModified) this.takeUp(one.id, file);
      else {
        missed++;
        this.put(one.id, { reopens: false });
      }
    }
    return missed;
  }

  /** Tries once more what was refused. */
  again(id: string): void {
    this.put(id, { phase: { is: 'waiting' } });
    this.pump();
  }

  /** Gives a file up, here and on the server; or puts one away that has arrived. */
  drop(id: string): void {
    const one = this.find(id);
    if (!one) return;
    this.items.set(this.items.value.filter((other) => other.id !== id));
    this.going.get(id)?.close();
    this.release(id);
    if (one.address !== null && one.phase.is !== 'arrived') void this.endThere(one.address);
    this.pump();
  }

  /** Does not wait any longer for the next try. */
  wake(): void {
    for (const waker of this.wakers.splice(0)) waker();
  }

  private find(id: string): Upload | undefined {
    return this.items.value.find((one) => one.id === id);
  }

  private put(id: string, news: Partial<Upload>): void {
    this.items.set(this.items.value.map((one) => (one.id === id ? { ...one, ...news } : one)));
  }

  private phase(id: string, phase: Phase): void {
    this.put(id, phase.is === 'sending' ? { phase } : { phase, bytesPerSecond: null });
  }

  private takeUp(id: string, file: File): void {
    this.files.set(id, file);
    this.phase(id, { is: 'waiting' });
    void this.keep(id);
    this.pump();
  }

  private async keep(id: string): Promise<void> {
    const one = this.find(id);
    const handle = this.handles.get(id);
    if (!one || one.phase.is === 'arrived') return;
    const { person, name, bytes, lastModified, target, address, sent } = one;
    await remember({ id, person, name, bytes, lastModified, target, address, sent, root: handle?.root ?? null, within: handle?.within ?? [] });
    if (!this.find(id)) await forget(id);
  }

  private release(id: string): void {
    this.files.delete(id);
    this.handles.delete(id);
    void forget(id);
  }

  private pump(): void {
    const waiting = this.items.value.filter((one) => one.phase.is === 'waiting' && one.person === me.value?.id && !this.going.has(one.id) && this.mayStart(one));
    for (const one of waiting.slice(0, Math.max(0, AT_ONCE - this.going.size))) void this.send(one.id);
  }

  /** What belongs to a mix that comes with it waits for that one, until it is here or given up. */
  private mayStart(one: Upload): boolean {
    return one.target.after === undefined || !this.find(one.target.after);
  }

  private async send(id: string): Promise<void> {
    const scope = this.scope.child();
    this.going.set(id, scope);
    const pace = new Pace();
    let tries = 0;
    let reached = -1;
    try {
      while (!scope.closed) {
        try {
          await this.through(id, scope, pace, (offset) => {
            if (offset > reached) tries = 0;
            reached = offset;
          });
          return;
        } catch (reason) {
          if (scope.closed) return;
          const problem = asProblem(reason);
          const wait = waitAfter(problem, tries++, this.find(id)?.address !== null, navigator.onLine);
          if (!wait) {
            this.phase(id, { is: 'refused', problem });
            return;
          }
          pace.reset();
          await this.hold(id, wait, scope);
        }
      }
    } finally {
      this.going.delete(id);
      scope.close();
      this.pump();
    }
  }

  /** From where the server has it to the end; throws when something comes between. */
  private async through(id: string, scope: Scope, pace: Pace, reached: (offset: number) => void): Promise<void> {
    const file = this.files.get(id)!;
    const one = this.find(id)!;
    let { address } = one;
    let place = address === null ? null : await placeIfKnown(address, scope.signal);
    if (address === null || place === null) {
      address = await begin(file.size, valuesOf(one), scope.signal);
      place = { offset: 0, bounce: null, stem: null };
    }
    this.put(id, { address, sent: place.offset, phase: { is: 'sending' } });
    await this.keep(id);
    let shown = 0;
    while (place.bounce === null && place.stem === null) {
      const from: number = place.offset;
      reached(from);
      const piece = await pieceOf(file, from, pieceBytes(pace.bytesPerSecond()));
      place = await sendPiece(address, from, piece, scope, (bytes) => {
        const now = performance.now();
        pace.mark(from + bytes, now);
        if (now - shown < SHOWN_EVERY_MS) return;
        shown = now;
        this.put(id, { sent: from + bytes, bytesPerSecond: pace.bytesPerSecond() });
      });
      this.put(id, { sent: place.offset });
      await this.keep(id);
      // Whole, yet nothing came of it: the server is asked again in a moment.
      if (place.offset <= from && place.bounce === null && place.stem === null) throw new Problem(503, 'not-done', '', '');
    }
    this.arrived(id, place);
  }

  private arrived(id: string, { bounce, stem }: Place): void {
    this.phase(id, { is: 'arrived', bounce, stem });
    this.release(id);
    this.follow();
    if (bounce === null) return;
    for (const other of this.items.value.filter((one) => one.target.after === id)) {
      this.put(other.id, { target: belonging(other.target, bounce) });
      void this.keep(other.id);
    }
  }

  /** Looks after what has arrived until it is known whether it can be used. */
  private follow(): void {
    if (this.following) return;
    this.following = true;
    this.scope.after(FATE_EVERY_MS, () => void this.ask());
  }

  private async ask(): Promise<void> {
    const all = this.mine().filter(open);
    const known = me.value === null ? new Map<string, string | null>() : await fates(all, this.scope.signal).catch(() => new Map<string, string | null>());
    for (const [id, unusable] of known) {
      const phase = this.find(id)?.phase;
      if (phase?.is === 'arrived') this.phase(id, { ...phase, unusable });
    }
    this.following = false;
    if (this.mine().some(open)) this.follow();
  }

  private async hold(id: string, { why, words, seconds }: Wait, scope: Scope): Promise<void> {
    const person = this.find(id)?.person;
    this.phase(id, { is: 'held', why, words, until: Number.isFinite(seconds) ? Date.now() + seconds * 1000 : null });
    const life = scope.child();
    if (why === 'signed-out') me.set(null);
    await new Promise<void>((resolve) => {
      life.onClose(resolve);
      if (why === 'signed-out') {
        life.onClose(me.watch((now) => now?.id === person && resolve()));
        // Signing in by a link happens in another tab.
        life.every(SIGNED_IN_EVERY_MS, () => void refreshMe().catch(() => undefined));
      } else {
        life.after(seconds * 1000, resolve);
        // A wait the server asked for is kept.
        if (why !== 'slow-down') this.wakers.push(resolve);
      }
    });
    life.close();
  }

  private async endThere(address: string): Promise<void> {
    for (let tries = 0; tries < 5; tries++) {
      try {
        await end(address, this.scope.signal);
        return;
      } catch (reason) {
        const { status } = asProblem(reason);
        if (status !== 0 && status !== 409 && status !== 423 && status < 500) return;
        await new Promise<void>((resolve) => this.scope.after(1000 * 2 ** tries, resolve));
      }
    }
  }

  /** Somebody has signed in: what they left half-way is found again, what was held goes on. */
  private async signedIn(): Promise<void> {
    const person = me.value?.id;
    if (!person) return;
    this.pump();
    if (this.recalled === person) return;
    this.recalled = person;
    const left = await rememberedOf(person);
    const elsewhere = left.length > 0 ? await heldElsewhere(this.scope) : new Set<string>();
    const alone = left.filter(({ id }) => !this.find(id) && !elsewhere.has(id)).sort((a, b) => a.name.localeCompare(b.name));
    // What arrived just before the page was closed is known first, for the sake of what belongs to it.
    const bounces = new Map<string, Id>();
    for (const one of [...alone.filter((first) => !first.target.after), ...alone.filter((second) => second.target.after)]) await this.recall(one, bounces);
  }

  private async recall(one: Remembered, bounces: Map<string, Id>): Promise<void> {
    let { address, sent } = one;
    let expired = false;
    try {
      const place = address === null ? null : await placeIfKnown(address, this.scope.signal);
      if (place && (place.bounce !== null || place.stem !== null)) {
        await forget(one.id);
        if (place.bounce !== null) bounces.set(one.id, place.bounce);
        return;
      }
      expired = address !== null && place === null;
      address = place ? address : null;
      sent = place?.offset ?? 0;
    } catch {
      // Not to be reached just now: what was known last is shown.
    }
    this.handles.set(one.id, one);
    const { id, person, name, bytes, lastModified } = one;
    const main = one.target.after === undefined ? undefined : bounces.get(one.target.after);
    const target = main === undefined ? one.target : belonging(one.target, main);
    this.items.set([...this.items.value, {
      id, person, name, bytes, lastModified, target, address, sent, bytesPerSecond: null, phase: { is: 'left' }, expired, reopens: one.root !== null,
    }]);
    await this.keep(id);
  }
}

/** The target of what belongs to a mix, now that this one is here. */
function belonging(target: Target, bounce: Id): Target {
  const { after: _, ...rest } = target;
  return rest.element === undefined ? { ...rest, of: bounce } : { ...rest, bounce };
}

async function placeIfKnown(address: string, signal: AbortSignal): Promise<Place | null> {
  try {
    return await whereIs(address, signal);
  } catch (reason) {
    const { status } = asProblem(reason);
    if (status === 404 || status === 410) return null;
    throw reason;
  }
}

async function pieceOf(file: File, from: number, bytes: number): Promise<ArrayBuffer> {
  try {
    return await file.slice(from, from + bytes).arrayBuffer();
  } catch {
    throw new Problem(422, 'file-changed', 'The file has changed.',
      'The file has been changed, moved or taken away since it was chosen. Choose it again; it begins anew.');
  }
}

function valuesOf({ name, target }: Upload): Record<string, string> {
  const { song, kind, of, label, element, bounce } = target;
  if (element !== undefined) return { song, filename: name, element, ...(bounce ? { bounce } : {}) };
  return { song, filename: name, kind, ...(of ? { of } : {}), ...(label ? { label } : {}) };
}

export const uploads = new UploadQueue();
