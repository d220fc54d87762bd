// The belt off: how far each shaft may turn, where to leave the crank, and the moves back to the marks.
// Asks the program only when somebody wants to know; what it said is stale once anything moves.
import { html, nothing, type TemplateResult } from "lit";
import { customElement, state } from "lit/decorators.js";
import type { BeltOffPart } from "../generated/page.js";
import { BenchElement } from "./element.ts";

@customElement("belt-off")
export class BeltOff extends BenchElement {
  @state() private answer: BeltOffPart | undefined;
  @state() private asked = false;
  readonly #stale = (): void => {
    this.answer = undefined;
    this.asked = false;
  };

  override connectedCallback(): void {
    super.connectedCallback();
    for (const event of ["told", "layout", "labels"])
      this.bench.addEventListener(event, this.#stale);
  }

  override disconnectedCallback(): void {
    super.disconnectedCallback();
    for (const event of ["told", "layout", "labels"]) {
      this.bench.removeEventListener(event, this.#stale);
    }
  }

  protected override render(): TemplateResult | typeof nothing {
    const { labels, panel } = this.bench;
    if (panel.belt_on) return nothing;
    const { answer } = this;
    return html`
      <h3>${labels.belt_off_heading}</h3>
      <div class="buttons">
        <button type="button" @click=${this.#ask}>${labels.find_way}</button>
      </div>
      <div role="status">
        ${this.asked && !answer ? html`<p>${labels.degrees_only}</p>` : nothing}
        ${answer ? this.#found(answer) : nothing}
      </div>
    `;
  }

  #found(answer: BeltOffPart): TemplateResult {
    const { labels } = this.bench;
    return html`
      <p><strong>${answer.sentence}</strong></p>
      <ol class="moves">
        ${answer.moves.map((move) => html`<li>${move.text}</li>`)}
      </ol>
      ${
        answer.moves.length > 0
          ? html`<div class="buttons"><button type="button" class="main" @click=${() => this.bench.actAll(answer.moves.map((move) => move.action))}>${labels.do_it}</button></div>`
          : nothing
      }
      ${answer.freedom.length > 0 ? html`<p class="note">${labels.freedom_heading}</p>` : nothing}
      <ul class="plain">${answer.freedom.map((text) => html`<li>${text}</li>`)}</ul>
      ${answer.parking.length > 0 ? html`<p class="note">${labels.parking_heading}</p>` : nothing}
      <ol class="plain">${answer.parking.map((text) => html`<li>${text}</li>`)}</ol>
      ${answer.trap ? html`<p class="note">${answer.trap}</p>` : nothing}
      <p class="caution">${answer.only_figures}</p>
    `;
  }

  #ask(): void {
    this.answer = this.bench.beltOff();
    this.asked = true;
  }
}
