// The task Explain: demonstrations to choose from, and the one that is on the bench.
import { html, type TemplateResult } from "lit";
import { customElement } from "lit/decorators.js";
import { BenchElement } from "../element.ts";
import "./lesson-part.ts";

@customElement("task-explain")
export class TaskExplain extends BenchElement {
  protected override render(): TemplateResult {
    return this.bench.lesson
      ? html`<lesson-part .bench=${this.bench}></lesson-part>`
      : this.#choice();
  }

  #choice(): TemplateResult {
    const { bench } = this;
    const { labels } = bench;
    return html`
      <h2>${labels.explain_heading}</h2>
      <p class="note">${labels.explain_note}</p>
      <ul class="demonstrations" aria-label=${labels.demonstrations}>
        ${bench.demonstrations().map(
          (row) => html`<li>
            <button type="button" data-demonstration=${row.id} @click=${() => bench.startDemonstration(row.id)}>
              <b>${row.title}</b><small>${row.length} · ${row.layout}</small>
            </button>
          </li>`,
        )}
      </ul>
      <p class="caution">${labels.short_caution}</p>
    `;
  }
}
