// The blind exercise on the bench: what the eye sees in words, an answer to fill in, how it was. Knows no fault.
import { html, nothing, type TemplateResult } from "lit";
import { customElement, state } from "lit/decorators.js";
import type { AnswerShaft, ExercisePart } from "../../generated/page.js";
import { BenchElement } from "../element.ts";

/** Most teeth that an answer names. */
const MOST_TEETH = 4;

@customElement("exercise-part")
export class ExercisePartElement extends BenchElement {
  /** What the class says so far: teeth and wrong marks by shaft, the view, the run. */
  @state() private teeth: Record<string, number> = {};
  @state() private decoys: Record<string, boolean> = {};
  @state() private aside = false;
  @state() private slack = "";

  override connectedCallback(): void {
    super.connectedCallback();
    // Other tasks have looked square again.
    this.bench.lookSquare(this.bench.exercise?.square ?? false);
  }

  protected override render(): TemplateResult | typeof nothing {
    const { bench } = this;
    const { labels, exercise } = bench;
    if (!exercise) return nothing;
    return html`
      <h2>${exercise.title}</h2>
      <p>${labels.exercise_task}</p>
      <p class="caution">${labels.exercise_valves}</p>
      <div class="buttons">
        <button type="button" aria-pressed=${exercise.square} @click=${() => bench.lookSquare(!exercise.square)}>${exercise.square ? labels.look_as_before : labels.look_square}</button>
        <button type="button" @click=${() => bench.asFound()}>${labels.as_found}</button>
        <button type="button" @click=${() => bench.endLesson()}>${labels.end_demonstration}</button>
      </div>
      <details class="seen">
        <summary>${labels.seen_heading}</summary>
        <ul>${exercise.seen.map((sentence) => html`<li>${sentence}</li>`)}</ul>
      </details>
      <h3>${labels.answer_heading}</h3>
      ${this.#answer(exercise)}
      <div role="status" class="verdict">
        ${exercise.verdict && (exercise.right || !exercise.open) ? html`<p class="lead ${exercise.right ? "right" : ""}">${exercise.verdict}</p>` : nothing}
        ${exercise.hidden.map((sentence) => html`<p>${sentence}</p>`)}
      </div>
    `;
  }

  #answer(exercise: ExercisePart): TemplateResult {
    const { labels } = this.bench;
    return html`
      <div class="answer">
        ${exercise.shafts.map((shaft) => this.#shaft(shaft))}
        <label class="check"><input type="checkbox" .checked=${this.aside} @change=${(
          event: Event,
        ) => {
          this.aside = (event.target as HTMLInputElement).checked;
        }} />${labels.answer_aside}</label>
        <label class="chooser">${labels.answer_slack}
          <select @change=${(event: Event) => {
            this.slack = (event.target as HTMLSelectElement).value;
          }}>
            <option value="" ?selected=${this.slack === ""}>${labels.answer_no_slack}</option>
            ${exercise.runs.map((run) => html`<option value=${run.key} ?selected=${this.slack === run.key}>${run.name}</option>`)}
          </select>
        </label>
      </div>
      <div class="buttons">
        <button type="button" class="main" ?disabled=${exercise.open} @click=${this.#give}>${labels.answer_give}</button>
        <button type="button" ?disabled=${exercise.open} @click=${this.#show}>${labels.answer_show}</button>
      </div>
    `;
  }

  #shaft({ id, name, decoy }: AnswerShaft): TemplateResult {
    const { labels } = this.bench;
    const teeth = this.teeth[id] ?? 0;
    const step = (by: number): void => {
      this.teeth = { ...this.teeth, [id]: teeth + by };
    };
    return html`<section class="out-row" aria-label=${name}>
      <h4>${name}</h4>
      <div class="stepper" role="group" aria-label="${name}: ${labels.teeth_out}">
        <button type="button" aria-label="${name}: ${labels.tooth_behind}" ?disabled=${teeth <= -MOST_TEETH} @click=${() => step(-1)}>−</button>
        <output aria-live="off">${this.bench.answerTeeth(teeth)}</output>
        <button type="button" aria-label="${name}: ${labels.tooth_ahead}" ?disabled=${teeth >= MOST_TEETH} @click=${() => step(1)}>+</button>
      </div>
      ${
        decoy
          ? html`<label class="check"><input type="checkbox" .checked=${this.decoys[id] ?? false} @change=${(
              event: Event,
            ) => {
              this.decoys = { ...this.decoys, [id]: (event.target as HTMLInputElement).checked };
            }} />${decoy}</label>`
          : nothing
      }
    </section>`;
  }

  async #show(): Promise<void> {
    this.bench.openExercise();
    await this.#tell();
  }

  /** What was said, in sight. */
  async #tell(): Promise<void> {
    await this.updateComplete;
    this.querySelector(".verdict")?.scrollIntoView({ block: "nearest" });
  }

  #give(): void {
    const chosen = Object.entries(this.decoys).filter(([, ticked]) => ticked);
    this.bench.giveAnswer({
      teeth: this.teeth,
      decoys: chosen.map(([id]) => id),
      aside: this.aside,
      slack: this.slack || undefined,
    });
    void this.#tell();
  }
}
