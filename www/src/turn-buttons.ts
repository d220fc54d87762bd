// Buttons that turn the crank by set amounts, both ways. Knows no angle but those on its buttons.
import { html, type TemplateResult } from "lit";
import { customElement } from "lit/decorators.js";
import { BenchElement } from "./element.ts";

@customElement("turn-buttons")
export class TurnButtons extends BenchElement {
  protected override render(): TemplateResult {
    const { labels, panel } = this.bench;
    const rows: [string, number][] = [
      [labels.one_degree, 1],
      [labels.one_tooth, panel.tooth_deg],
      [labels.quarter, 90],
      [labels.one_turn, 360],
    ];
    return html`<div class="turn-buttons" role="group" aria-label=${labels.turn_the_crank}>
      ${rows.map(
        ([name, deg]) => html`
          <button type="button" aria-label="${name}, ${labels.backward}, ${labels.not_on_an_engine}" title=${labels.not_on_an_engine} @click=${() => this.bench.runBy(-deg)}><i aria-hidden="true">‹</i> ${name}</button>
          <button type="button" class=${deg === 360 ? "main" : ""} aria-label="${name}, ${labels.forward}" @click=${() => this.bench.runBy(deg)}>${name} <i aria-hidden="true">›</i></button>
        `,
      )}
    </div>`;
  }
}
