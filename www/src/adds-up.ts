// Whether belt, counts and centres agree, and what would explain that they do not, each to be tried as one
// step. Knows nothing of slips.
import { html, nothing, type TemplateResult } from "lit";
import { customElement } from "lit/decorators.js";
import type { AddsUpPart } from "../generated/page.js";
import { BenchElement } from "./element.ts";

@customElement("adds-up")
export class AddsUp extends BenchElement {
  protected override follows = ["panel", "labels", "layout", "draft", "moved"];
  #of = "";
  #answer: AddsUpPart | undefined;

  protected override render(): TemplateResult | typeof nothing {
    const { labels } = this.bench;
    const answer = this.#asked();
    if (!answer) return nothing;
    return html`
      <h3>${labels.adds_up_heading}</h3>
      ${answer.misfit.map((line) => html`<p>${line}</p>`)}
      ${answer.adds_up ? nothing : this.#causes(answer)}
    `;
  }

  #causes({ causes }: AddsUpPart): TemplateResult {
    const { labels } = this.bench;
    if (causes.length === 0) return html`<p class="note">${labels.adds_up_none}</p>`;
    return html`
      <p>${labels.adds_up_causes}</p>
      <ol class="causes">
        ${causes.map(
          ({ says, text }, i) => html`<li>
            <span id="cause-${i}">${says}</span>
            <button
              type="button"
              id="try-${i}"
              aria-labelledby="try-${i} cause-${i}"
              @click=${() => this.bench.edit(text, false)}
            >${labels.adds_up_try}</button>
          </li>`,
        )}
      </ol>
    `;
  }

  /** Asked anew only when the text or the words are others. */
  #asked(): AddsUpPart | undefined {
    const { preferences, draftText } = this.bench;
    const of = `${preferences.lang} ${preferences.inch} ${draftText}`;
    if (of !== this.#of) {
      this.#of = of;
      this.#answer = this.bench.addsUp();
    }
    return this.#answer;
  }
}
