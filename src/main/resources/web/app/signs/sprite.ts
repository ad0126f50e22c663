import { svg, html, type TemplateResult } from 'lit';

const SYMBOLS = svg`
  <symbol id="up" viewBox="0 0 18 18"><path d="M16 4 2 9l14 5"/></symbol>
  <symbol id="down" viewBox="0 0 18 18"><path d="M2 4l14 5-14 5"/></symbol>
  <symbol id="wide" viewBox="0 0 18 18"><path d="M6 5 2 9l4 4M12 5l4 4-4 4M9 3v12"/></symbol>
  <symbol id="tone" viewBox="0 0 18 18"><path d="M2 6h7l7 7M2 14h14"/></symbol>
  <symbol id="in" viewBox="0 0 18 18"><path d="M9 3v12M3 9h12"/></symbol>
  <symbol id="out" viewBox="0 0 18 18"><path d="M3 9h12"/></symbol>
  <symbol id="do" viewBox="0 0 18 18"><path d="M9 4 14 9l-5 5-5-5z"/></symbol>
  <symbol id="hold" viewBox="0 0 18 18"><path d="M2 12a7 7 0 0 1 14 0"/><circle cx="9" cy="11.5" r="1.4" fill="currentColor" stroke="none"/></symbol>
  <symbol id="ques" viewBox="0 0 18 18"><path d="M2.5 2.5h13v13h-13z"/><path d="M6.8 7.2a2.2 2.2 0 1 1 3.2 2c-.8.4-1 .8-1 1.6"/><circle cx="9" cy="12.9" r=".9" fill="currentColor" stroke="none"/></symbol>
  <symbol id="simile" viewBox="0 0 18 18"><path d="M4 15 14 3"/><circle cx="5" cy="6" r="1.5" fill="currentColor" stroke="none"/><circle cx="13" cy="12" r="1.5" fill="currentColor" stroke="none"/></symbol>
  <symbol id="unclear" viewBox="0 0 14 18"><path d="M7 1v16" stroke-width="2" stroke-dasharray="2 2.6"/></symbol>
  <symbol id="asked" viewBox="0 0 14 18"><path d="M7 1v16" stroke-width="1.6"/></symbol>
  <symbol id="done" viewBox="0 0 14 18"><path d="M4.5 1v16M9.5 1v16" stroke-width="1.6"/></symbol>
  <symbol id="good" viewBox="0 0 14 18"><path d="M3.5 1v16" stroke-width="1.6"/><path d="M9.5 1v16" stroke-width="4.4"/></symbol>
  <symbol id="followed" viewBox="0 0 14 18"><circle cx="2" cy="6" r="1.4" fill="currentColor" stroke="none"/><circle cx="2" cy="12" r="1.4" fill="currentColor" stroke="none"/><path d="M6 1v16" stroke-width="1.4"/><path d="M11 1v16" stroke-width="3.8"/></symbol>
  <symbol id="left" viewBox="0 0 14 18"><path d="M2 14 7 3M7 14l5-11"/></symbol>
  <symbol id="withdrawn" viewBox="0 0 14 18"><path d="M7 1v16M1 9h12"/></symbol>
  <symbol id="play" viewBox="0 0 24 24"><path d="M6 3.5v17L21 12z"/></symbol>
  <symbol id="pause" viewBox="0 0 24 24"><path d="M6 4h4v16H6zM14 4h4v16h-4z"/></symbol>
  <symbol id="loop" viewBox="0 0 28 18"><path d="M2 2v14" stroke-width="3.4"/><path d="M6 2v14M22 2v14" stroke-width="1.4"/><path d="M26 2v14" stroke-width="3.4"/><g fill="currentColor" stroke="none"><circle cx="9.4" cy="6.4" r="1.4"/><circle cx="9.4" cy="11.6" r="1.4"/><circle cx="18.6" cy="6.4" r="1.4"/><circle cx="18.6" cy="11.6" r="1.4"/></g></symbol>
  <symbol id="shut" viewBox="0 0 18 18"><path d="M4 8h10v7H4zM6 8V5.5a3 3 0 0 1 6 0V8"/></symbol>
  <symbol id="stop" viewBox="0 0 18 18"><path d="M4 4l10 10M14 4 4 14"/></symbol>`;

/** All signs, drawn once; `sign()` refers to them. */
export function sprite(): TemplateResult {
  return html`<svg class="sprite" aria-hidden="true" focusable="false">${SYMBOLS}</svg>`;
}
