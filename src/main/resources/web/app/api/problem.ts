/** What the server says when something cannot be done: RFC 9457, in a musician's words. */
export class Problem extends Error {
  constructor(
    readonly status: number,
    readonly code: string,
    readonly title: string,
    readonly detail: string,
    /** The whole body, for fields that belong to one code (a limit, the open points). */
    readonly fields: Readonly<Record<string, unknown>> = {},
  ) {
    super(detail || title);
  }

  /** The sentence to show. */
  get words(): string {
    return this.detail || this.title;
  }

  get retryAfterSeconds(): number | null {
    const value = this.fields['retryAfterSeconds'];
    return typeof value === 'number' ? value : null;
  }
}

/** Reads a refused answer; a body that is no problem document still gives a plain sentence. */
export async function problemOf(answer: Response): Promise<Problem> {
  let fields: Record<string, unknown> = {};
  try {
    const body: unknown = await answer.json();
    if (body && typeof body === 'object') fields = body as Record<string, unknown>;
  } catch {
    // A proxy in between may answer with a page of its own.
  }
  const wait = Number(answer.headers.get('Retry-After'));
  if (wait > 0) fields = { ...fields, retryAfterSeconds: wait };
  const text = (name: string, other: string) =>
    typeof fields[name] === 'string' ? (fields[name] as string) : other;
  return new Problem(
    answer.status,
    text('code', `status-${answer.status}`),
    text('title', plainTitle(answer.status)),
    text('detail', ''),
    fields,
  );
}

/** The server could not be reached at all. */
export function unreachable(): Problem {
  return new Problem(
    0,
    'unreachable',
    'The server can’t be reached.',
    'The server can’t be reached. What you wrote is still here; try again in a moment.',
  );
}

export function asProblem(reason: unknown): Problem {
  if (reason instanceof Problem) return reason;
  return new Problem(0, 'page-failed', 'This page has failed.', 'This page has failed. Load it again.');
}

function plainTitle(status: number): string {
  if (status === 401) return 'Please sign in.';
  if (status === 404) return 'There is nothing here, or it is not shared with you.';
  if (status === 413) return 'That is too large.';
  if (status === 429) return 'Too many tries. Wait a moment.';
  if (status >= 500) return 'The server can’t do that just now. Try again in a moment.';
  return 'The server refused that.';
}
