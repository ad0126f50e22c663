/**
 * Owns what has to end when a page goes away: listeners, timers, streams, requests, audio nodes.
 * Everything else in the page asks a scope instead of calling the browser directly, so nothing
 * outlives the page that started it.
 */
export class Scope {
  private readonly endings: Array<() => void> = [];
  private readonly aborter = new AbortController();
  private ended = false;

  /** Aborted when the scope closes; hand it to fetch. */
  get signal(): AbortSignal {
    return this.aborter.signal;
  }

  get closed(): boolean {
    return this.ended;
  }

  /** Runs the ending once, when the scope closes (or now, if it has closed already). */
  onClose(ending: () => void): void {
    if (this.ended) ending();
    else this.endings.push(ending);
  }

  listen<E extends Event = Event>(
    target: EventTarget,
    type: string,
    handler: (event: E) => void,
    options: AddEventListenerOptions = {},
  ): void {
    target.addEventListener(type, handler as EventListener, { ...options, signal: this.signal });
  }

  /** Calls back once after the delay; returns a function that calls it off. */
  after(milliseconds: number, run: () => void): () => void {
    const id = setTimeout(run, milliseconds);
    const stop = () => clearTimeout(id);
    this.onClose(stop);
    return stop;
  }

  /** Calls back again and again; returns a function that stops it. */
  every(milliseconds: number, run: () => void): () => void {
    const id = setInterval(run, milliseconds);
    const stop = () => clearInterval(id);
    this.onClose(stop);
    return stop;
  }

  /** Calls back before each repaint until the scope closes or the returned function is called. */
  eachFrame(run: (now: number) => void): () => void {
    let id = 0;
    let going = true;
    const step = (now: number) => {
      if (!going) return;
      run(now);
      id = requestAnimationFrame(step);
    };
    id = requestAnimationFrame(step);
    const stop = () => {
      going = false;
      cancelAnimationFrame(id);
    };
    this.onClose(stop);
    return stop;
  }

  observeSize(element: Element, run: (width: number, height: number) => void): void {
    const observer = new ResizeObserver((entries) => {
      for (const entry of entries) run(entry.contentRect.width, entry.contentRect.height);
    });
    observer.observe(element);
    this.onClose(() => observer.disconnect());
  }

  /** A stream of server-sent events that ends with the scope. */
  stream(url: string): EventSource {
    const source = new EventSource(url);
    this.onClose(() => source.close());
    return source;
  }

  /** A scope inside this one: it may end earlier, never later. */
  child(): Scope {
    const inner = new Scope();
    this.onClose(() => inner.close());
    return inner;
  }

  close(): void {
    if (this.ended) return;
    this.ended = true;
    this.aborter.abort();
    for (const ending of this.endings.splice(0).reverse()) ending();
  }
}

/** Waits; ends at once when the signal is aborted. */
export function pause(milliseconds: number, signal: AbortSignal): Promise<void> {
  return new Promise((resolve) => {
    const id = setTimeout(resolve, milliseconds);
    signal.addEventListener('abort', () => {
      clearTimeout(id);
      resolve();
    });
  });
}
