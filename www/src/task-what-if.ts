// The task What if: any shaft any number of teeth out, and what that comes to in degrees.
import { html, nothing, type TemplateResult } from "lit";
import { customElement } from "lit/decorators.js";
import type { OutRow } from "../generated/page.js";
import "./engine-banks.ts";
import { BenchElement } from "./element.ts";
import { said } from "./said.ts";
import "./engine-pictures.ts";

@customElement("task-what-if")
export class TaskWhatIf extends BenchElement {
  protected override render(): TemplateResult {
    const { labels, panel } = this.bench;
    return html`
      <h2>${labels.what_if_heading}</h2>
      <p class="lead">${panel.what_if_sentence}</p>
      ${this.bench.lastTold ? html`<p class="told">${this.bench.lastTold}</p>` : nothing}
      <div class="outs">
        ${panel.what_if.map((row) => this.#row(row))}
      </div>
      <div class="buttons">
        <button type="button" ?disabled=${!panel.any_out} @click=${this.#allInTime}>${labels.all_in_time}</button>
      </div>
      <engine-banks .bench=${this.bench}></engine-banks>
      <p class="caution">${labels.turn_caution}</p>
      <p class="note">${labels.same_degrees}</p>
      <engine-pictures .bench=${this.bench}></engine-pictures>
    `;
  }

  #row(row: OutRow): TemplateResult {
    const { labels } = this.bench;
    const step = (by: number): void =>
      this.bench.act({ set_teeth: { [row.id]: row.set_teeth + by } });
    return html`<section class="out-row" aria-label=${row.name}>
      <h3>${row.name}</h3>
      <div class="stepper" role="group" aria-label="${row.name}: ${labels.teeth_out}">
        <button type="button" aria-label="${row.name}: ${labels.tooth_behind}" ?disabled=${row.set_teeth <= -row.most_teeth} @click=${() => step(-1)}>−</button>
        <output aria-live="off">${row.set_text}</output>
        <button type="button" aria-label="${row.name}: ${labels.tooth_ahead}" ?disabled=${row.set_teeth >= row.most_teeth} @click=${() => step(1)}>+</button>
      </div>
      <dl class="pairs">
        <div><dt>${labels.at_shaft}</dt><dd>${said(row.at_shaft, row.in_time ? "" : "out")}</dd></div>
        <div><dt>${labels.at_crank}</dt><dd>${said(row.at_crank, row.in_time ? "" : "out")}</dd></div>
        <div><dt>${labels.best_tooth}</dt><dd>${said(row.best_tooth)}</dd></div>
      </dl>
    </section>`;
  }

  #allInTime(): void {
    const teeth = this.bench.panel.what_if.map((row) => [row.id, 0] as const);
    this.bench.act({ set_teeth: Object.fromEntries(teeth) });
  }
}
