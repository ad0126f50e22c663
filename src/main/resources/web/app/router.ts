import type { Scope } from './scope.ts';

/** One address of the page: `:name` parts of the pattern become the page's params. */
export interface Route {
  readonly pattern: string;
  /** The custom element that shows it. */
  readonly tag: string;
  /** Fetches the code of the page when it is first needed. */
  readonly load: () => Promise<unknown>;
  /** True for pages that are shown to somebody who is not signed in. */
  readonly open?: boolean;
}

export interface Match {
  readonly route: Route;
  readonly params: Readonly<Record<string, string>>;
}

export function matchRoute(routes: readonly Route[], path: string): Match | null {
  const parts = path.split('/').filter((part) => part !== '');
  for (const route of routes) {
    const wanted = route.pattern.split('/').filter((part) => part !== '');
    if (wanted.length !== parts.length) continue;
    const params: Record<string, string> = {};
    const fits = wanted.every((want, index) => {
      const part = parts[index]!;
      if (!want.startsWith(':')) return want === part;
      params[want.slice(1)] = decodeURIComponent(part);
      return true;
    });
    if (fits) return { route, params };
  }
  return null;
}

const MOVED = 'mix-moved';

/** Goes to another address of the page without loading it anew. */
export function go(path: string, how: 'push' | 'replace' = 'push'): void {
  if (how === 'replace') history.replaceState(null, '', path);
  else history.pushState(null, '', path);
  window.dispatchEvent(new Event(MOVED));
}

/** Calls back at every change of address, and turns plain presses on own links into moves. */
export function followAddress(scope: Scope, moved: () => void): void {
  scope.listen(window, 'popstate', moved);
  scope.listen(window, MOVED, moved);
  scope.listen<MouseEvent>(document, 'click', (event) => {
    if (event.defaultPrevented || event.button !== 0) return;
    if (event.metaKey || event.ctrlKey || event.shiftKey || event.altKey) return;
    const link = (event.target as Element).closest<HTMLAnchorElement>('a[href]');
    if (!link || link.target || link.hasAttribute('download')) return;
    const target = new URL(link.href);
    if (target.origin !== location.origin) return;
    if (target.pathname.startsWith('/api/') || target.pathname.startsWith('/q/')) return;
    if (target.pathname === location.pathname && target.hash !== '') return;
    event.preventDefault();
    go(target.pathname + target.search + target.hash);
  });
}
