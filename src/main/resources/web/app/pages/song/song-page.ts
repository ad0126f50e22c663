import { html, type TemplateResult } from 'lit';
import { api } from '../../api/client.ts';
import type { Song } from '../../api/types.ts';
import { Page } from '../../page.ts';
import { head, way, whenThere } from '../../signs/frame.ts';
import { loading, loadInto, type Load } from '../../state/load.ts';

class SongPage extends Page {
  declare private song: Load<Song>;
  static properties = { ...Page.properties, song: { state: true } };

  constructor() {
    super();
    this.song = loading;
  }

  protected open(): void {
    void loadInto(api.get<Song>(`/songs/${this.param('song')}`, this.scope.signal), (load) => (this.song = load));
  }

  render(): TemplateResult {
    return whenThere(this.song, (song) => html`
      ${way([{ words: 'All songs', href: '/' }, { words: song.title }], this.me, song.you.role)}
      ${head({ title: song.title, by: song.artist })}
      <main id="main" tabindex="-1"></main>`);
  }
}
customElements.define('page-song', SongPage);
