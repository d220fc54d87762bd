// What every wheel goes through until the belt is due, what it does if it seizes, and what that rests on, to
// change. Knows no figure but those it is told.
import { html, nothing, type TemplateResult } from "lit";
import { customElement } from "lit/decorators.js";
import type { AssumptionRow, WearingPart as Wearing, WearingRow } from "../generated/page.js";
import { BenchElement } from "./element.ts";
import { said } from "./said.ts";
import { toldOf } from "./told-of.ts";

@customElement("wearing-part")
export class WearingPart extends BenchElement {
  protected override render(): TemplateResult | typeof nothing {
    const { labels, panel } = this.bench;
    const { wearing } = panel;
    if (!wearing) return nothing;
    return html`<details>
      <summary>${labels.wearing_heading}</summary>
      ${this.#seized(wearing)}
      ${wearing.wheels.map((row) => this.#row(row))}
      <p>${labels.tooth_meets}: ${said(wearing.tooth_meets)}</p>
      <h3>${labels.assumed_heading}</h3>
      ${wearing.assumptions.map((row, place) => this.#assumption(row, place))}
      <p class="note">${wearing.assumes}</p>
    </details>`;
  }

  #seized({ wheels, seized, seized_sentence }: Wearing): TemplateResult {
    const { labels } = this.bench;
    const choose = (event: Event): void =>
      this.bench.supposeSeized(Number((event.target as HTMLSelectElement).value));
    return html`<label class="chooser">${labels.seized_choice}
        <select name="seized" @change=${choose}>
          <option value="-1" ?selected=${seized < 0}>${labels.seized_none}</option>
          ${wheels.map((row, i) => html`<option value=${i} ?selected=${seized === i}>${row.name}</option>`)}
        </select>
      </label>
      <p role="status">${seized_sentence}</p>`;
  }

  #row(row: WearingRow): TemplateResult {
    const { labels } = this.bench;
    const unknown = row.strips ? labels.seized_strips : "–";
    return toldOf(row.name, [
      [labels.bearing_load, row.load ? said(row.load) : "–"],
      [labels.turns_a_km, row.per_km ? said(row.per_km) : "–"],
      [labels.turns_an_hour, row.per_hour ? said(row.per_hour) : "–"],
      [labels.turns_when_due, row.due ? said(row.due) : "–"],
      [labels.seized_friction, row.friction ? said(row.friction) : unknown],
      [labels.seized_heat, row.heat ? said(row.heat) : "–"],
    ]);
  }

  #assumption(row: AssumptionRow, place: number): TemplateResult {
    const { labels, lesson, exercise } = this.bench;
    const ends = [labels.assumed_from, labels.assumed_to];
    // What a class is shown rests on the usual assumptions.
    const fixed = lesson !== undefined || exercise !== undefined;
    return html`<fieldset class="assumption" @change=${(event: Event) => this.#assume(event, place)}>
      <legend>${row.name}</legend>
      ${row.range.map(
        (end, i) => html`<label>${ends[i]}
          <input type="number" step="any" inputmode="decimal" aria-invalid=${row.refused !== ""} ?disabled=${fixed} .value=${String(end)} />
        </label>`,
      )}
      ${row.unit ? html`<span class="unit">${row.unit}</span>` : nothing}
      ${row.refused ? html`<p class="field-problems" role="alert">${row.refused}</p>` : nothing}
    </fieldset>`;
  }

  #assume(event: Event, place: number): void {
    const field = event.currentTarget as HTMLFieldSetElement;
    const [low, high] = [...field.querySelectorAll("input")].map((input) => input.valueAsNumber);
    this.bench.assume(place, low ?? Number.NaN, high ?? Number.NaN);
  }
}
