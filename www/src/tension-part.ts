// How tight the belt is: before the pin, after it, under the hand. Knows no force but those it is told.
import { html, nothing, type TemplateResult } from "lit";
import { customElement } from "lit/decorators.js";
import { BenchElement } from "./element.ts";
import { said } from "./said.ts";
import { toldOf } from "./told-of.ts";

@customElement("tension-part")
export class TensionPart extends BenchElement {
  protected override render(): TemplateResult {
    const { labels, panel } = this.bench;
    const { tension } = panel;
    return html`<details>
      <summary>${labels.tension_heading}</summary>
      <p>${tension.now}</p>
      <dl class="pairs">
        ${tension.figures.map(
          (figure) => html`<div><dt>${figure.name}</dt><dd>${said(figure.reading)}</dd></div>`,
        )}
      </dl>
      <p>${tension.pin_moves}</p>
      ${tension.marks.map((row) =>
        toldOf(row.name, [
          [labels.pin_pulled, said(row.pin)],
          [labels.under_the_hand, row.hand ? said(row.hand) : "–"],
        ]),
      )}
      ${tension.by_hand ? html`<p>${tension.by_hand}</p>` : nothing}
      ${tension.gives_way ? html`<p class="caution">${tension.gives_way}</p>` : nothing}
      <p class="note">${tension.assumes}</p>
    </details>`;
  }
}
