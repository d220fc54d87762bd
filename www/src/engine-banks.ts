// What teeth out do to the engine behind the belt, bank by bank, each figure beside its value in time.
import { html, nothing, type TemplateResult } from "lit";
import { customElement } from "lit/decorators.js";
import type { BankPart } from "../generated/page.js";
import { BenchElement } from "./element.ts";
import { said } from "./said.ts";

/** Exponents to choose from; 0 is a range. */
const EXPONENTS = [0, 1.2, 1.25, 1.3];

@customElement("engine-banks")
export class EngineBanks extends BenchElement {
  protected override render(): TemplateResult | typeof nothing {
    const { labels, panel } = this.bench;
    const { engine } = panel;
    if (!engine) return nothing;
    return html`
      <h3>${labels.engine_heading}</h3>
      <p class="contact">${engine.contact}</p>
      ${engine.banks.map((bank) => this.#bank(bank))}
      ${
        engine.has_pressure
          ? html`<label class="exponent">
              <span>${labels.exponent}</span>
              <select @change=${(event: Event) => this.bench.setExponent(Number((event.target as HTMLSelectElement).value))}>
                ${EXPONENTS.map((n) => html`<option value=${n} ?selected=${engine.exponent_chosen ? n === engine.exponent : n === 0}>${n === 0 ? labels.exponent_range : this.bench.axisNumber(n)}</option>`)}
              </select>
            </label>
            <p class="note">${labels.exponent_note}</p>`
          : nothing
      }
      <p class="caution">${engine.only_figures}</p>
    `;
  }

  #bank(bank: BankPart): TemplateResult {
    const { labels } = this.bench;
    return html`<section class="bank" aria-label="${labels.engine_heading}: ${bank.name}">
      <p class=${bank.touches ? "out" : ""}><strong>${bank.sentence}</strong></p>
      <dl class="pairs">
        ${bank.rows.map(
          (row) =>
            html`<div><dt>${row.name}</dt><dd>${row.now.map((one, i) => html`${i > 0 ? ", " : ""}${said(one, row.watch && i === 0 ? "out" : "")}`)}<small>${labels.in_time}: ${row.in_time}</small></dd></div>`,
        )}
      </dl>
      ${bank.snap ? html`<p class="note">${bank.snap}</p>` : nothing}
    </section>`;
  }
}
