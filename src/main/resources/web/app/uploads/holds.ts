/** What a refusal means for a file on its way: a wait, and for what, or the end of it. */
import type { Problem } from '../api/problem.ts';
import type { Hold } from './target.ts';

export interface Wait {
  readonly why: Hold;
  readonly words: string;
  readonly seconds: number;
}

const LONGEST_SECONDS = 30;
/** A piece that another request still holds is let go of sooner than this. */
const MOST_COLLISIONS = 20;

/**
 * How long to wait before the next try; null when trying again by itself would change nothing.
 *
 * @param tries how often it has failed since something last moved
 * @param begun whether the server has taken the file on already
 */
export function waitAfter(problem: Problem, tries: number, begun: boolean, online: boolean): Wait | null {
  const backing = Math.min(LONGEST_SECONDS, 2 ** Math.min(tries, 10));
  const asked = problem.retryAfterSeconds ?? backing;
  const { status } = problem;
  if (status === 0 && problem.code === 'unreachable') {
    return {
      why: 'line', seconds: backing,
      words: online ? 'The server can’t be reached. It goes on as soon as it answers.' : 'The line is down. It goes on as soon as it is back.',
    };
  }
  if (status === 401) return { why: 'signed-out', seconds: Infinity, words: 'You have been signed out. Sign in, and it goes on.' };
  if (status === 429) return { why: 'slow-down', seconds: asked, words: `${problem.words} It goes on by itself.` };
  if (begun && collided(problem)) return tries < MOST_COLLISIONS ? { why: 'server', seconds: backing, words: 'The server is still busy with the piece before. It goes on in a moment.' } : null;
  // A full disk is nothing that passes by waiting a moment.
  if (status === 408 || (status >= 500 && status !== 507)) {
    return { why: 'server', seconds: asked, words: 'The server can’t take it just now. It goes on by itself.' };
  }
  return null;
}

/** The server has less or more than was believed, got a piece broken, or another request holds the file: ask again where it is. */
function collided(problem: Problem): boolean {
  return [423, 460].includes(problem.status) || ['wrong-state', 'in-progress', 'upload-cut'].includes(problem.code);
}
