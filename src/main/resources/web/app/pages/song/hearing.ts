/** Before and after of one change, with one press. */
import { api } from '../../api/client.ts';
import type { Bounce, Change } from '../../api/types.ts';
import { isStretch } from '../../words/sections.ts';
import { isSent } from '../../words/mixes.ts';
import type { Hearing } from './asks.ts';
import type { Context } from './context.ts';
import type { SongPage } from './song-page.ts';

/** What is heard for which change. */
interface Heard {
  change: string;
  section: string | null;
}

const heard = new WeakMap<SongPage, Heard>();

export function hearingOf(context: Context, page: SongPage): Hearing {
  const { data, player } = context;
  return {
    play: (change, section, which) => void hear(context, page, change, section, which),
    playing: (change) => {
      const now = heard.get(page);
      if (now?.change !== change.id || !player.playing || !player.state.loop) return null;
      return { which: player.state.sounding === change.doneIn ? 'after' : 'before', section: now.section };
    },
    fine: () => {
      const newest = [...data.bounces].reverse().find((b) => b.kind === 'main' && isSent(b));
      if (!newest) return;
      context.press('fine', async () => {
        const { file } = newest.file ? newest : await api.get<Bounce>(`/bounces/${newest.id}`);
        await api.post(`/bounces/${newest.id}/approvals`, { decision: 'fine-by-me', pcmSha256: file?.pcmSha256 });
        page.tell('Thank you. Everything you asked for counts as good.');
      });
    },
  };
}

/** Opens the mix it was done in against the one it was asked on, loops the place and sounds one of them. */
async function hear(context: Context, page: SongPage, change: Change, section: string | null, which: 'before' | 'after'): Promise<void> {
  const { player } = context;
  const after = change.doneIn;
  if (!after) return;
  const before = change.bounce === after ? null : change.bounce;
  const now = heard.get(page);
  const id = which === 'after' ? after : before ?? after;
  const same = now?.change === change.id && now.section === section && player.state.loop !== null;
  if (same && player.playing && player.state.sounding === id) {
    player.pause();
    page.requestUpdate();
    return;
  }
  if (player.state.lead?.id !== after || player.state.other?.id !== before) {
    await page.songState.choose(after, before);
  }
  heard.set(page, { change: change.id, section });
  const data = page.songState.value!;
  const span = page.context(data).spans.find((s) => s.name === section);
  if (!same) {
    if (span) player.setLoop({ from: span.from, to: span.to }, true);
    else if (isStretch(change.where)) await player.loopOther(change.where.from, change.where.to);
  }
  player.crossTo(id);
  if (!player.playing) await player.play();
  page.requestUpdate();
}
