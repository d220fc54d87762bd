// Opening a layout file, picked or dropped; and the list of its problems if it is not opened.
import { html, nothing, type TemplateResult } from "lit";
import { customElement, state } from "lit/decorators.js";
import type { ProblemLine } from "../generated/page.js";
import { BenchElement } from "./element.ts";

/** No layout comes near this; bytes. */
const FAR_TOO_LARGE = 10_000_000;

@customElement("open-file")
export class OpenFile extends BenchElement {
  @state() private problems: ProblemLine[] = [];
  @state() private fileName = "";
  /** Why a file could not even be read. */
  @state() private unread = "";
  private asked = 0;
  /** What has problems, to tell them again in another language. */
  private refused: Uint8Array | undefined;
  @state() private linked = false;
  readonly #retell = (): void => {
    if (this.refused) this.problems = this.#open(this.refused);
    this.unread = "";
  };
  @state() private dragging = false;

  readonly #over = (event: DragEvent): void => {
    if (!event.dataTransfer?.types.includes("Files")) return;
    event.preventDefault();
    this.dragging = true;
  };
  readonly #leave = (event: DragEvent): void => {
    if (!event.relatedTarget) this.dragging = false;
  };
  readonly #drop = (event: DragEvent): void => {
    this.dragging = false;
    const file = event.dataTransfer?.files[0];
    if (!file) return;
    event.preventDefault();
    void this.#read(file);
  };

  override connectedCallback(): void {
    super.connectedCallback();
    this.bench.addEventListener("labels", this.#retell);
    window.addEventListener("dragover", this.#over);
    window.addEventListener("dragleave", this.#leave);
    window.addEventListener("drop", this.#drop);
  }

  override disconnectedCallback(): void {
    super.disconnectedCallback();
    this.bench.removeEventListener("labels", this.#retell);
    window.removeEventListener("dragover", this.#over);
    window.removeEventListener("dragleave", this.#leave);
    window.removeEventListener("drop", this.#drop);
  }

  /** Asks for a file. */
  ask(): void {
    this.querySelector<HTMLInputElement>("input[type=file]")?.click();
  }

  protected override render(): TemplateResult {
    const { labels } = this.bench;
    return html`
      <input
        type="file"
        accept=".toml,application/toml,text/plain"
        aria-label=${labels.open_long}
        tabindex="-1"
        hidden
        @change=${this.#picked}
      />
      ${this.dragging ? html`<div class="drop" aria-hidden="true">${labels.drop_here}</div>` : nothing}
      ${
        this.problems.length > 0 || this.unread
          ? html`<section class="problems" role="alert">
              <h2>${this.fileName}</h2>
              <p>${this.linked ? labels.link_not_opened : labels.not_opened}</p>
              ${this.unread ? html`<p>${this.unread}</p>` : nothing}
              <ol tabindex="0" aria-label=${labels.problems}>
                ${this.problems.map(
                  (problem) => html`<li>
                    <b>${labels.line} ${problem.line}</b>
                    ${problem.key ? html`<code>${problem.key}</code>` : nothing}
                    ${problem.text}
                  </li>`,
                )}
              </ol>
              <button type="button" @click=${() => this.#dismiss()}>${labels.close}</button>
            </section>`
          : nothing
      }
    `;
  }

  /** Opens what a link brings. */
  async follow(bytes: Uint8Array<ArrayBuffer>): Promise<void> {
    this.asked += 1;
    await this.#take(bytes, this.bench.labels.from_link, true);
  }

  async #picked(event: Event): Promise<void> {
    const input = event.target as HTMLInputElement;
    const file = input.files?.[0];
    input.value = "";
    if (file) await this.#read(file);
  }

  async #read(file: File): Promise<void> {
    const { labels } = this.bench;
    this.asked += 1;
    const mine = this.asked;
    try {
      if (file.size > FAR_TOO_LARGE) throw new RangeError();
      const bytes = new Uint8Array(await file.arrayBuffer());
      // Another file was asked for meanwhile: that one counts.
      if (mine !== this.asked) return;
      await this.#take(bytes, file.name, false);
    } catch (problem) {
      if (mine !== this.asked) return;
      this.problems = [];
      this.unread = problem instanceof RangeError ? labels.too_large : labels.not_readable;
      await this.#show(file.name);
    }
  }

  async #take(bytes: Uint8Array, name: string, linked: boolean): Promise<void> {
    this.linked = linked;
    this.problems = this.#open(bytes);
    this.refused = this.problems.length > 0 ? bytes : undefined;
    this.unread = "";
    await this.#show(name);
  }

  #open(bytes: Uint8Array): ProblemLine[] {
    return (this.linked ? this.bench.openLinked(bytes) : this.bench.open(bytes)).problems;
  }

  async #show(name: string): Promise<void> {
    this.fileName = name;
    await this.updateComplete;
    this.querySelector(".problems")?.scrollIntoView({ block: "center" });
  }

  #dismiss(): void {
    this.refused = undefined;
    this.unread = "";
    this.problems = [];
  }
}
