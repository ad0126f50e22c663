/** Other tabs of this browser: what one of them is sending is not offered in another. */
import type { Scope } from '../scope.ts';

const CHANNEL = 'mixaccord-uploads';
const ANSWERS_WITHIN_MS = 200;

type Message = { readonly ask: true } | { readonly mine: readonly string[] };

export function answerOtherTabs(scope: Scope, mine: () => readonly string[]): void {
  const channel = open(scope);
  scope.listen<MessageEvent<Message>>(channel, 'message', ({ data }) => {
    if ('ask' in data) channel.postMessage({ mine: mine() } satisfies Message);
  });
}

/** The uploads that other tabs are busy with. */
export async function heldElsewhere(scope: Scope): Promise<Set<string>> {
  const life = scope.child();
  const channel = open(life);
  const held = new Set<string>();
  life.listen<MessageEvent<Message>>(channel, 'message', ({ data }) => {
    if ('mine' in data) data.mine.forEach((id) => held.add(id));
  });
  channel.postMessage({ ask: true } satisfies Message);
  await new Promise<void>((resolve) => scope.after(ANSWERS_WITHIN_MS, resolve));
  life.close();
  return held;
}

function open(scope: Scope): BroadcastChannel {
  const channel = new BroadcastChannel(CHANNEL);
  scope.onClose(() => channel.close());
  return channel;
}
