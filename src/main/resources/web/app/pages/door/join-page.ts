import { html, nothing, type TemplateResult } from 'lit';
import { api } from '../../api/client.ts';
import type { Problem } from '../../api/problem.ts';
import type { Acceptance, SongSummary } from '../../api/types.ts';
import { Page } from '../../page.ts';
import { go } from '../../router.ts';
import { refused, sign } from '../../signs/signs.ts';
import { refreshMe } from '../../state/me.ts';

/** An invitation: a name, then Play. Nothing of the project is shown before that. */
class JoinPage extends Page {
  protected open(): void {
    this.titled('Something to hear');
    void refreshMe().catch(() => null);
  }

  private enter(event: SubmitEvent): void {
    event.preventDefault();
    const form = new FormData(event.target as HTMLFormElement);
    const name = String(form.get('name') ?? this.me?.name ?? '').trim();
    const password = String(form.get('password') ?? '');
    void this.run('enter', async () => {
      const path = `/invitations/${encodeURIComponent(this.param('token'))}/acceptance`;
      const joined = await api.post<Acceptance>(path, { name, ...(password === '' ? {} : { password }) });
      await refreshMe();
      go(await this.firstToHear(joined.project), 'replace');
    });
  }

  /** The one song with something to hear plays at once; of several one chooses. */
  private async firstToHear(project: string): Promise<string> {
    const songs = await api.all<SongSummary>(`/projects/${project}/songs`);
    const heard = songs.filter((song) => song.newest);
    const only = heard.length === 1 ? heard[0] : undefined;
    return only ? `/songs/${only.id}?play=1` : `/projects/${project}`;
  }

  render(): TemplateResult {
    const problem = this.press.phase === 'refused' ? this.press.problem : null;
    if (problem && GONE.includes(problem.code)) return this.gone(problem);
    return html`<main id="main" class="door" tabindex="-1">
      <div>
        <h1>Somebody would like you to hear something.</h1>
        <p class="quiet gap">${this.me ? `You are signed in as ${this.me.name}.` : 'No account, no password.'}</p>
      </div>
      <form class="form" @submit=${this.enter}>
        ${this.me
          ? nothing
          : html`<label>Your name <input type="text" name="name" autocomplete="name" required maxlength="200"></label>`}
        ${problem?.code === 'sign-in-first' ? this.signInFirst() : refused(problem)}
        <button class="btn go" type="submit" ?disabled=${this.running}>${sign('play')}Play</button>
        ${this.me ? nothing : this.lasting()}
        <p class="quiet">It starts quietly. Turn it up by hand, and give your ears a rest after a while.</p>
      </form>
    </main>`;
  }

  /** A password is offered, never asked for: it may come later as well. */
  private lasting(): TemplateResult {
    return html`<details class="fold"><summary>Set a password, if you like</summary>
      <div class="form"><label>Password <input type="password" name="password" autocomplete="new-password" minlength="10" aria-describedby="why">
        <span class="help" id="why">Only useful to come back on another device, if the invitation was sent to your e-mail.</span></label></div>
    </details>`;
  }

  private signInFirst(): TemplateResult {
    const then = encodeURIComponent(location.pathname);
    return html`<div class="slip" role="alert">
      <p>This address has an account already. Sign in with it, then press Play once more.</p>
      <p class="btns gap"><a class="btn" href="/sign-in?then=${then}">Sign in</a></p>
    </div>`;
  }

  private gone(problem: Problem): TemplateResult {
    return html`<main id="main" class="door" tabindex="-1">
      <h1>This link can’t be used any more.</h1>
      <p>${problem.words}</p>
      <p class="quiet">Ask whoever sent it for a new one. If you have joined already on this device, the songs are one press away.</p>
      <p class="btns"><a class="btn" href="/">All songs</a></p>
    </main>`;
  }
}

const GONE: readonly string[] = ['invitation-used', 'invitation-expired', 'not-found'];

customElements.define('page-join', JoinPage);
