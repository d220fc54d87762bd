// The drawing in words and numbers: every wheel, whether picked or not.
import { html, type TemplateResult } from "lit";
import { customElement } from "lit/decorators.js";
import { BenchElement } from "./element.ts";
import { said } from "./said.ts";

@customElement("all-readings")
export class AllReadings extends BenchElement {
  protected override render(): TemplateResult {
    const { labels, panel, picked } = this.bench;
    return html`
      <h2>${labels.readings}</h2>
      <div class="scroll" tabindex="0"><table>
        <thead><tr><th scope="col">${labels.wheel}</th><th scope="col">${labels.turned}</th><th scope="col">${labels.wrap}</th><th scope="col">${labels.in_mesh}</th></tr></thead>
        <tbody>
          ${panel.wheels.map(
            (wheel, i) => html`<tr class=${picked === i ? "picked" : ""}>
              <th scope="row">${wheel.name}<small>${wheel.note}</small></th>
              <td>${said(wheel.turned)}</td>
              <td>${said(wheel.wrap)}</td>
              <td>${said(wheel.in_mesh)}</td>
            </tr>`,
          )}
        </tbody>
      </table></div>
      <p class="note">${panel.about}</p>
    `;
  }
}
