import { LitElement, html } from 'lit';

class MixApp extends LitElement {
  render() {
    return html`<h1>Mixaccord</h1>`;
  }
}
customElements.define('mix-app', MixApp);
