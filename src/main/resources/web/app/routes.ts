import type { Route } from './router.ts';

/** Every address of the page. The code behind each is fetched when it is first opened. */
export const routes: readonly Route[] = [
  { pattern: '/', tag: 'page-board', load: () => import('./pages/board/board-page.ts') },
  { pattern: '/projects/:project', tag: 'page-project', load: () => import('./pages/project/project-page.ts') },
  { pattern: '/songs/:song', tag: 'page-song', load: () => import('./pages/song/song-page.ts') },
  { pattern: '/songs/:song/list', tag: 'page-list', load: () => import('./pages/list/list-page.ts') },
  { pattern: '/songs/:song/approve', tag: 'page-approve', load: () => import('./pages/approve/approve-page.ts') },
  { pattern: '/songs/:song/figures', tag: 'page-figures', load: () => import('./pages/figures/figures-page.ts') },
  { pattern: '/me', tag: 'page-me', load: () => import('./pages/me/me-page.ts') },
  { pattern: '/sign-in', tag: 'page-sign-in', load: () => import('./pages/door/sign-in-page.ts'), open: true },
  { pattern: '/in/:token', tag: 'page-link', load: () => import('./pages/door/link-page.ts'), open: true },
  { pattern: '/setup/:token', tag: 'page-setup', load: () => import('./pages/door/setup-page.ts'), open: true },
  { pattern: '/join/:token', tag: 'page-join', load: () => import('./pages/door/join-page.ts'), open: true },
];
