/** Plays one memo, quietly at first. */
import { html, type TemplateResult } from 'lit';
import type { Note } from '../api/types.ts';
import { clock } from '../words/numbers.ts';

/** Speech after music: it starts at a third of full volume. */
const FIRST_VOLUME = 0.35;

export function memoPlayer(note: Note): TemplateResult {
  const soft = (e: Event) => ((e.target as HTMLAudioElement).volume = FIRST_VOLUME);
  return html`<audio class="memo-sound" controls preload="none" src="/api/v1/notes/${note.id}/memo" @loadstart=${soft} aria-label="Voice memo, ${clock(note.memo!.seconds)}"></audio>
    <p class="small quiet">It starts quietly. Turn it up by hand.</p>`;
}
