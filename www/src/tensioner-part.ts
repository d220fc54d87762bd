// The tensioner and the slack it leaves, run by run. Knows no lengths but those it is told.
import { html, type TemplateResult } from "lit";
import { customElement } from "lit/decorators.js";
import { BenchElement } from "./element.ts";
import { said } from "./said.ts";

@customElement("tensioner-part")
export class TensionerPart extends BenchElement {
  #moved = false;

  protected override render(): TemplateResult {
    const { labels, panel } = this.bench;
    const { tensioner } = panel;
    return html`
      <h2>${labels.tensioner}</h2>
      <p>${tensioner.sentence} <strong>${panel.slack_sentence}</strong></p>
      <p class="caution">${labels.tensioner_caution}</p>
      <label class="travel">
        <span>${labels.tensioner_travel}: ${said(tensioner.travel)}</span>
        <input
          type="range"
          min=${tensioner.right_back}
          max=${tensioner.tight}
          step="any"
          .value=${String(tensioner.travel.value)}
          aria-valuetext=${tensioner.travel.text}
          @pointerdown=${() => this.#begin()}
          @keydown=${() => this.#begin()}
          @input=${this.#slide}
        />
      </label>
      <div class="buttons">
        <button type="button" @click=${() => this.bench.act({ tensioner: "back" })}>${labels.right_back}</button>
        <button type="button" @click=${() => this.bench.act({ tensioner: "pull_pin" })}>${labels.take_up}</button>
      </div>
      <div class="scroll"><table>
        <thead><tr><th scope="col">${labels.run}</th><th scope="col">${labels.teeth_between}</th><th scope="col">${labels.slack}</th></tr></thead>
        <tbody>
          ${panel.runs.map(
            (run) => html`<tr>
              <th scope="row">${run.name}<small>${run.side}</small></th>
              <td>${said(run.teeth)}</td>
              <td>${said(run.slack, run.tight ? "" : "hangs")}</td>
            </tr>`,
          )}
        </tbody>
      </table></div>
      <p class="note">${labels.teeth_between_note}</p>
    `;
  }

  #begin(): void {
    this.#moved = false;
  }

  #slide(event: Event): void {
    const travel = Number((event.target as HTMLInputElement).value);
    this.bench.act({ tensioner_to: { travel } }, this.#moved);
    this.#moved = true;
  }
}
