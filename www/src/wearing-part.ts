// What every wheel goes through until the belt is due, and what it does if it seizes. Knows no figure but
// those it is told.
import { html, type TemplateResult } from "lit";
import { customElement } from "lit/decorators.js";
import type { WearingRow } from "../generated/page.js";
import { BenchElement } from "./element.ts";
import { said } from "./said.ts";

@customElement("wearing-part")
export class WearingPart extends BenchElement {
  protected override render(): TemplateResult {
    const { labels, panel } = this.bench;
    const { wearing } = panel;
    return html`<details>
      <summary>${labels.wearing_heading}</summary>
      <div class="scroll"><table>
        <thead><tr><th scope="col">${labels.wheel}</th><th scope="col">${labels.bearing_load}</th><th scope="col">${labels.turns_a_km}</th><th scope="col">${labels.turns_when_due}</th><th scope="col">${labels.seized_friction}</th><th scope="col">${labels.seized_heat}</th></tr></thead>
        <tbody>${wearing.wheels.map((row) => this.#row(row))}</tbody>
      </table></div>
      <p>${labels.tooth_meets}: ${said(wearing.tooth_meets)}</p>
      <p class="note">${wearing.assumes}</p>
    </details>`;
  }

  #row(row: WearingRow): TemplateResult {
    const { labels } = this.bench;
    const unknown = row.toothed ? labels.seized_strips : "–";
    return html`<tr>
      <th scope="row">${row.name}</th>
      <td>${row.load ? said(row.load) : "–"}</td>
      <td>${row.per_km ? said(row.per_km) : "–"}</td>
      <td>${row.due ? said(row.due) : "–"}</td>
      <td>${row.friction ? said(row.friction) : unknown}</td>
      <td>${row.heat ? said(row.heat) : "–"}</td>
    </tr>`;
  }
}
