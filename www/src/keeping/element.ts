// What the elements of keeping and saving have in common: they follow both, beside the bench.
import { property } from "lit/decorators.js";
import { BenchElement } from "../element.ts";
import type { Keeper } from "./keeper.ts";
import type { Saving } from "./saving.ts";

export class KeepingElement extends BenchElement {
  @property({ attribute: false }) keeper!: Keeper;
  @property({ attribute: false }) saving!: Saving;
  readonly #again = (): void => this.requestUpdate();

  override connectedCallback(): void {
    super.connectedCallback();
    this.keeper.addEventListener("kept", this.#again);
    this.saving.addEventListener("saved", this.#again);
  }

  override disconnectedCallback(): void {
    super.disconnectedCallback();
    this.keeper.removeEventListener("kept", this.#again);
    this.saving.removeEventListener("saved", this.#again);
  }
}
