// The task Layout: choose one of the layouts that ship by its picture, open and save files, and edit the
// text with every problem at its line and its part ringed in the view. Knows nothing of the format.
import { html, nothing, type PropertyValues, type TemplateResult } from "lit";
import { customElement, property, queryAll } from "lit/decorators.js";
import type { ProblemLine } from "../generated/page.js";
import { dress, paintEach } from "./canvas.ts";
import { BenchElement } from "./element.ts";
import type { Keeper } from "./keeping/keeper.ts";
import type { Saving } from "./keeping/saving.ts";
import "./keeping/keep-part.ts";
import "./adds-up.ts";
import "./layout-form.ts";
import { Pause } from "./pause.ts";
import "./start-part.ts";

@customElement("task-layout")
export class TaskLayout extends BenchElement {
  protected override follows = ["panel", "labels", "layout", "draft", "moved"];
  @property({ attribute: false }) keeper!: Keeper;
  @property({ attribute: false }) saving!: Saving;
  @queryAll(".shipped canvas") private pictures!: NodeListOf<HTMLCanvasElement>;
  /** Typing is looked at when it pauses. */
  readonly #pause = new Pause(() => this.#look());
  #typing = false;
  /** Typed and not looked at yet. */
  #typed: string | undefined;
  #painted = "";

  readonly #settle = (): void => this.#look();

  override disconnectedCallback(): void {
    super.disconnectedCallback();
    this.bench.removeEventListener("settle", this.#settle);
    this.#look();
    if (this.bench.arranging) this.bench.arrange(false);
    this.bench.sketch(false);
  }

  override connectedCallback(): void {
    super.connectedCallback();
    this.bench.addEventListener("settle", this.#settle);
    this.bench.sketch(true);
  }

  protected override updated(changed: PropertyValues): void {
    super.updated(changed);
    if (dress() === this.#painted) return;
    this.#painted = dress();
    paintEach(this.pictures, (...picture) => this.bench.paintShipped(...picture));
  }

  protected override render(): TemplateResult {
    const { bench } = this;
    const { labels } = bench;
    return html`
      <h2>${labels.layout_heading}</h2>
      <start-part .bench=${bench}></start-part>
      <ul class="shipped">
        ${bench.shipped.map(
          (title, i) => html`<li><button
            type="button"
            aria-pressed=${bench.panel.title === title}
            @click=${() => this.#choose(i)}
          ><canvas aria-hidden="true"></canvas><span>${title}</span></button></li>`,
        )}
      </ul>
      <p class="note">${bench.panel.about}</p>
      <div class="buttons">
        <button type="button" @click=${() => this.dispatchEvent(new Event("ask", { bubbles: true }))}>${labels.open_long}</button>
      </div>
      <keep-part .bench=${bench} .keeper=${this.keeper} .saving=${this.saving}></keep-part>
      <h3>${labels.form_heading}</h3>
      ${this.#problems(bench.draftProblems)}
      <adds-up .bench=${bench}></adds-up>
      <div class="buttons">
        <button type="button" aria-pressed=${bench.arranging} @click=${() => bench.arrange(!bench.arranging)}>${labels.arrange}</button>
      </div>
      ${bench.arranging ? html`<p class="note">${labels.arrange_how} ${bench.panel.provisional ? labels.arrange_provisional : nothing}</p>` : nothing}
      <layout-form .bench=${bench}></layout-form>
      <h3 id="layout-text">${labels.layout_text}</h3>
      ${this.#sound(bench.draftProblems)}
      <textarea
        class="layout-text"
        aria-labelledby="layout-text"
        aria-invalid=${bench.draftProblems.length > 0}
        rows="22"
        spellcheck="false"
        autocapitalize="off"
        .value=${this.#typed ?? bench.draftText}
        @input=${this.#type}
        @blur=${() => {
          this.#look();
          this.#typing = false;
        }}
      ></textarea>
      <div class="buttons">
        <button type="button" ?disabled=${(this.#typed ?? bench.draftText) === bench.layoutText} @click=${this.#drop}>${labels.drop_changes}</button>
      </div>
    `;
  }

  /** What there is to say of a text that nothing is wrong with. */
  #sound(problems: ProblemLine[]): TemplateResult | typeof nothing {
    const { labels } = this.bench;
    if (problems.length > 0) return nothing;
    const text = this.#typed === undefined ? labels.layout_sound : labels.layout_looking;
    return html`<p class="note" role="status">${text}</p>`;
  }

  #problems(problems: ProblemLine[]): TemplateResult | typeof nothing {
    const { labels } = this.bench;
    if (problems.length === 0) return nothing;
    return html`<section class="problems" role="status">
      <p>${labels.draft_not_sound}</p>
      <ol tabindex="0" aria-label=${labels.problems}>
        ${problems.map(
          (problem) => html`<li><button type="button" @click=${() => this.#show(problem)}>
            <b>${labels.line} ${problem.line}</b>
            ${problem.key ? html`<code>${problem.key}</code>` : nothing}
            ${problem.text}
          </button></li>`,
        )}
      </ol>
    </section>`;
  }

  #area(): HTMLTextAreaElement | null {
    return this.querySelector<HTMLTextAreaElement>(".layout-text");
  }

  #type(event: Event): void {
    this.#typed = (event.target as HTMLTextAreaElement).value;
    this.requestUpdate();
    this.#pause.changed();
  }

  #look(): void {
    this.#pause.end();
    const text = this.#typed;
    if (text === undefined) return;
    this.#typed = undefined;
    this.bench.edit(text, this.#typing);
    this.#typing = true;
  }

  /** The problem's place in the text, selected. */
  #show(problem: ProblemLine): void {
    const area = this.#area();
    if (!area) return;
    area.focus();
    area.setSelectionRange(problem.from, Math.max(problem.to, problem.from));
    const lines = area.value.split("\n").length;
    area.scrollTop = (area.scrollHeight * Math.max(problem.line - 4, 0)) / lines;
    const wheel = this.bench.wheelIndex(problem.part);
    if (wheel >= 0) this.bench.pick(wheel);
  }

  #choose(index: number): void {
    this.#typed = undefined;
    this.#typing = false;
    this.bench.openShipped(index);
  }

  #drop(): void {
    this.#typed = undefined;
    this.#typing = false;
    this.bench.edit(this.bench.layoutText, false);
  }
}
