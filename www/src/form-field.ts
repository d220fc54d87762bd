// One row of a form: its name, what stands there, how what is typed is understood, what is wrong. What is
// typed and cannot stand there stays in the field until it is mended.
import { html, nothing, type PropertyValues, type TemplateResult } from "lit";
import { customElement, property, state } from "lit/decorators.js";
import type { Filled, FormRow } from "../generated/page.js";
import { BenchElement } from "./element.ts";

@customElement("form-field")
export class FormField extends BenchElement {
  protected override follows = ["labels"];
  @property({ attribute: false }) row!: FormRow;
  /** Typed and not taken yet. */
  @state() private typed: string[] | undefined;
  @state() private said: Filled | undefined;

  protected override willUpdate(changed: PropertyValues<this>): void {
    const before = changed.get("row");
    // Another value stands there now, or another row stands here.
    if (
      before &&
      (before.path !== this.row.path || before.texts.join("|") !== this.row.texts.join("|"))
    ) {
      this.typed = undefined;
      if (before.path !== this.row.path) this.said = undefined;
    }
  }

  protected override render(): TemplateResult {
    const { row } = this;
    const id = `field-${row.path}`;
    const said = this.said?.text
      ? html`<p class=${this.said.done ? "understood" : "field-problems"} role="status">${this.said.text}</p>`
      : nothing;
    const wrong = row.problems.length > 0 || this.said?.done === false;
    return html`<div class="field ${wrong ? "wrong" : ""}" data-path=${row.path}>
      <label for=${id}>${row.name}${row.needed ? nothing : html` <small>${row.optional}</small>`}</label>
      <span class="entry">${this.#inputs(id, wrong)}${row.unit ? html`<span class="unit">${row.unit}</span>` : nothing}</span>
      ${said}
      ${row.problems.map((text) => html`<p class="field-problems">${text}</p>`)}
      <p class="note" id="${id}-meaning">${row.meaning}</p>
    </div>`;
  }

  #inputs(id: string, wrong: boolean): TemplateResult {
    const { row } = this;
    const texts = this.typed ?? row.texts;
    switch (row.kind) {
      case "choice":
        return this.#choice(id, texts[0] ?? "", wrong);
      case "flag":
        return this.#select(id, texts[0] ?? "", wrong, [
          ["true", this.bench.labels.form_yes],
          ["false", this.bench.labels.form_no],
        ]);
      case "long_text":
        return html`<textarea id=${id} rows="3" aria-describedby="${id}-meaning" aria-invalid=${wrong} .value=${texts[0] ?? ""} @change=${(event: Event) => this.#changed(0, event)}></textarea>`;
      case "two":
        return html`${[0, 1].map((i) => this.#input(i === 0 ? id : `${id}-1`, i, texts[i] ?? "", wrong))}`;
      default:
        return this.#input(id, 0, texts[0] ?? "", wrong);
    }
  }

  #input(id: string, i: number, text: string, wrong: boolean): TemplateResult {
    const { row } = this;
    const which = row.kind === "two" ? `${row.name}, ${row.figures[i]}` : nothing;
    return html`<input
      id=${id}
      type="text"
      inputmode=${row.kind === "text" ? "text" : "decimal"}
      autocomplete="off"
      spellcheck="false"
      aria-label=${which}
      title=${row.figures[i] ?? nothing}
      aria-describedby="${id}-meaning"
      aria-invalid=${wrong}
      .value=${text}
      @input=${(event: Event) => this.#typing(i, event)}
      @change=${(event: Event) => this.#changed(i, event)}
    />`;
  }

  #choice(id: string, word: string, wrong: boolean): TemplateResult {
    const choices = this.row.choices.map((choice): [string, string] => [choice.word, choice.name]);
    // What stands there and is none of them can be seen too.
    if (word && !choices.some(([known]) => known === word)) choices.unshift([word, word]);
    return this.#select(id, word, wrong, choices);
  }

  #select(id: string, word: string, wrong: boolean, choices: [string, string][]): TemplateResult {
    const none =
      this.row.needed && word
        ? nothing
        : html`<option value="" ?selected=${word === ""}>–</option>`;
    return html`<select id=${id} aria-describedby="${id}-meaning" aria-invalid=${wrong} .value=${word} @change=${(event: Event) => this.#changed(0, event)}>
      ${none}
      ${choices.map(([each, name]) => html`<option value=${each} ?selected=${each === word}>${name}</option>`)}
    </select>`;
  }

  #texts(i: number, event: Event): string[] {
    const texts = [...(this.typed ?? this.row.texts)];
    const many = this.row.kind === "two" ? 2 : 1;
    while (texts.length < many) texts.push("");
    texts[i] = (event.target as HTMLInputElement).value;
    return texts;
  }

  #typing(i: number, event: Event): void {
    this.typed = this.#texts(i, event);
    if (this.row.kind === "text") return;
    // Half a point says nothing yet.
    const whole = this.typed.every((text) => text.trim() !== "");
    this.said = whole ? this.bench.understand(this.row.path, this.typed) : undefined;
  }

  #changed(i: number, event: Event): void {
    const texts = this.#texts(i, event);
    this.typed = texts;
    const empty = texts.filter((text) => text.trim() === "").length;
    if (empty > 0 && empty < texts.length) return;
    this.said = this.bench.fill(this.row.path, texts);
    if (this.said.done) this.typed = undefined;
  }
}
