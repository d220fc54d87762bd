// What all elements of the page have in common: they live in the page's own tree, so that one style
// sheet serves all, and they follow the bench.
import { LitElement } from "lit";
import { property } from "lit/decorators.js";
import type { Bench } from "./bench.ts";

export class BenchElement extends LitElement {
  @property({ attribute: false }) bench!: Bench;

  /** Events of the bench upon which the element is drawn anew. */
  protected follows: string[] = ["panel", "labels"];

  readonly #again = (): void => this.requestUpdate();

  protected override createRenderRoot(): HTMLElement {
    return this;
  }

  override connectedCallback(): void {
    super.connectedCallback();
    for (const event of this.follows) this.bench.addEventListener(event, this.#again);
  }

  override disconnectedCallback(): void {
    super.disconnectedCallback();
    for (const event of this.follows) this.bench.removeEventListener(event, this.#again);
  }
}
