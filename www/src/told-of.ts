// What is told of one thing: its name, and each figure beside what it is. Never wider than where it stands.
import { html, type TemplateResult } from "lit";

/** A thing by its name, and what is told of it. */
export function toldOf(name: string, figures: [string, TemplateResult | string][]): TemplateResult {
  return html`<div class="told-of" role="group" aria-label=${name}>
    <p>${name}</p>
    <dl class="pairs">
      ${figures.map(([what, told]) => html`<div><dt>${what}</dt><dd>${told}</dd></div>`)}
    </dl>
  </div>`;
}
