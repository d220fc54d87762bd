// The marks looked at from the side: an angle, a mirror, and what each mark seems to read. Knows no angle
// but those it is told.
import { html, type TemplateResult } from "lit";
import { customElement } from "lit/decorators.js";
import { BenchElement } from "./element.ts";
import { said } from "./said.ts";
import { toldOf } from "./told-of.ts";

@customElement("sight-part")
export class SightPart extends BenchElement {
  protected override render(): TemplateResult {
    const { labels, panel } = this.bench;
    const { sight } = panel;
    return html`
      <h3>${labels.sight_heading}</h3>
      <p role="status">${sight.sentence}</p>
      <label class="travel">
        <span>${labels.sight_aside}: ${said(sight.aside)}</span>
        <input
          type="range"
          min=${-sight.most_deg}
          max=${sight.most_deg}
          step="1"
          .value=${String(sight.aside.value)}
          aria-valuetext=${sight.aside.text}
          @input=${(event: Event) => this.bench.setSight(Number((event.target as HTMLInputElement).value))}
        />
      </label>
      <div class="buttons">
        <button type="button" ?disabled=${sight.aside.value === 0} @click=${() => this.bench.setSight(0)}>${labels.sight_square}</button>
      </div>
      ${sight.marks.map((row) =>
        toldOf(row.name, [
          [labels.mark_stands, row.stands],
          [labels.mark_seems, said(row.seems, row.misread ? "out" : "")],
          [labels.mark_seems_off, said(row.off)],
          [labels.sure_of_a_tooth, said(row.sure)],
        ]),
      )}
      <p class="note">${sight.gaps} ${labels.sight_note}</p>
    `;
  }

  /** Elsewhere the marks are looked at square. */
  override disconnectedCallback(): void {
    super.disconnectedCallback();
    if (this.bench.panel.sight.aside.value !== 0) this.bench.setSight(0);
  }
}
