/** Plain listening to one mix through a media element: goes on with the screen locked. */
import type { Scope } from '../scope.ts';

/** What the lock screen shows. */
export interface Showing {
  title: string;
  artist: string;
  mix: string;
}

/** With less than this ahead it has run dry. */
const DRY_SECONDS = 0.5;

/** One media element and its entries in the system's media controls. */
export class PlainListening {
  readonly element = new Audio();
  private shown: Showing | null = null;
  /** Whether it has sounded since the address was opened or the place changed. */
  private flowing = false;
  /** Places at which it ran dry, seconds. */
  readonly stalls: number[] = [];
  onchange: () => void = () => {};
  onfail: () => void = () => {};

  constructor(scope: Scope) {
    for (const type of ['play', 'pause', 'ended', 'waiting', 'playing', 'seeked', 'loadedmetadata']) {
      scope.listen(this.element, type, () => this.onchange());
    }
    scope.listen(this.element, 'playing', () => (this.flowing = true));
    scope.listen(this.element, 'seeking', () => (this.flowing = false));
    scope.listen(this.element, 'waiting', () => {
      // A busy machine also makes it wait, with plenty there; and nothing comes after the end.
      const goesOn = this.seconds < this.element.duration - DRY_SECONDS;
      if (this.flowing && goesOn && this.ahead < DRY_SECONDS) this.stalls.push(this.seconds);
    });
    scope.listen(this.element, 'error', () => this.onfail());
  }

  get playing(): boolean {
    return !this.element.paused && !this.element.ended;
  }

  get waiting(): boolean {
    return this.playing && this.element.readyState < HTMLMediaElement.HAVE_FUTURE_DATA;
  }

  get opened(): boolean {
    return this.element.hasAttribute('src');
  }

  /** Whether this address is open and what is asked for has come. */
  get sounding(): boolean {
    return this.playing && this.flowing && !this.waiting;
  }

  /** Seconds that are here already, from the place on. */
  get ahead(): number {
    const { buffered, currentTime } = this.element;
    for (let i = 0; i < buffered.length; i++) {
      if (buffered.start(i) <= currentTime + 0.05 && buffered.end(i) > currentTime) return buffered.end(i) - currentTime;
    }
    return 0;
  }

  get seconds(): number {
    return this.element.currentTime;
  }

  set seconds(to: number) {
    this.element.currentTime = to;
  }

  /** Fetches the beginning of what is likely to be played, and no more: the line may be a dear one. */
  readAhead(address: string): void {
    this.element.preload = 'metadata';
    this.element.src = address;
  }

  /** Makes the element ready to play an address from a place. */
  open(address: string, seconds: number): void {
    this.element.preload = 'auto';
    if (this.element.getAttribute('src') !== address) {
      this.flowing = false;
      this.element.src = address;
    }
    if (Math.abs(this.element.currentTime - seconds) > 0.02) this.element.currentTime = seconds;
  }

  async play(showing: Showing, seek: (seconds: number) => void): Promise<void> {
    this.shown = showing;
    await this.element.play();
    this.announce(seek);
  }

  pause(): void {
    this.element.pause();
  }

  close(): void {
    this.element.pause();
    this.element.removeAttribute('src');
    this.element.load();
    this.shown = null;
    if ('mediaSession' in navigator) {
      navigator.mediaSession.metadata = null;
      for (const action of ['play', 'pause', 'seekto', 'seekbackward', 'seekforward'] as const) {
        navigator.mediaSession.setActionHandler(action, null);
      }
    }
  }

  private announce(seek: (seconds: number) => void): void {
    if (!('mediaSession' in navigator) || !this.shown) return;
    const session = navigator.mediaSession;
    session.metadata = new MediaMetadata({ title: this.shown.title, artist: this.shown.artist, album: this.shown.mix });
    session.setActionHandler('play', () => void this.element.play());
    session.setActionHandler('pause', () => this.element.pause());
    session.setActionHandler('seekto', (d) => d.seekTime != null && seek(d.seekTime));
    session.setActionHandler('seekbackward', (d) => seek(this.seconds - (d.seekOffset ?? 10)));
    session.setActionHandler('seekforward', (d) => seek(this.seconds + (d.seekOffset ?? 10)));
  }
}
