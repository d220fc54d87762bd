// The engine behind the belt in pictures, for the task What if: section, curves, gaps against teeth, and
// what the dial's arcs mean; or one sentence where figures are missing.
import { html, nothing, type TemplateResult } from "lit";
import { customElement } from "lit/decorators.js";
import { BenchElement } from "./element.ts";
import "./cylinder-section.ts";
import "./teeth-plot.ts";
import "./valve-curves.ts";

@customElement("engine-pictures")
export class EnginePictures extends BenchElement {
  protected override render(): TemplateResult {
    const { bench } = this;
    const { labels, engine } = bench;
    if (engine.missing) return html`<p class="note missing">${engine.missing}</p>`;
    return html`
      <h3>${labels.pistons_heading}</h3>
      ${engine.lacking.map((sentence) => html`<p class="note missing">${sentence}</p>`)}
      <cylinder-section .bench=${bench}></cylinder-section>
      <p class="caution">${labels.gap_caution}</p>
      <p class="note">${labels.section_note}</p>
      ${engine.gaps ? this.#gaps() : nothing}
    `;
  }

  #gaps(): TemplateResult {
    const { bench } = this;
    const { labels, engine } = bench;
    return html`
      <h3>${labels.teeth_gap_heading}</h3>
      <p>${engine.teeth_now}</p>
      <teeth-plot .bench=${bench}></teeth-plot>
      <p class="note">${labels.teeth_gap_note} ${labels.gap_caution}</p>
      <details>
        <summary>${labels.as_a_table}</summary>
        <div class="scroll"><table class="teeth-gaps">
          <thead><tr><th scope="col">${labels.teeth_out}</th>${engine.valves.map((name) => html`<th scope="col">${name}</th>`)}</tr></thead>
          <tbody>
            ${engine.teeth.map((row) => html`<tr><th scope="row">${row.teeth}</th>${row.gaps.map((gap) => html`<td>${gap}</td>`)}</tr>`)}
          </tbody>
        </table></div>
      </details>
      <h3>${labels.curves_heading}</h3>
      <p class="note">${engine.cylinders[engine.cylinder]}; ${labels.curve_in_time}</p>
      <valve-curves .bench=${bench}></valve-curves>
      <p class="note">${labels.curves_note} ${labels.gap_caution}</p>
      ${
        bench.panel.belt_on
          ? html`<h3>${labels.dial_arcs_heading}</h3>
            <p>${engine.arcs}</p>
            <p class="note">${engine.arcs_note}</p>`
          : nothing
      }
    `;
  }
}
