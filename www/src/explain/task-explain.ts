// The task Explain: demonstrations to choose from, and the one that is on the bench.
import { html, nothing, type TemplateResult } from "lit";
import { customElement, state } from "lit/decorators.js";
import { BenchElement } from "../element.ts";
import "./exercise-part.ts";
import "./lesson-part.ts";

@customElement("task-explain")
export class TaskExplain extends BenchElement {
  /** Whether what was typed is no number of an exercise. */
  @state() private refused = false;

  protected override render(): TemplateResult {
    const { bench } = this;
    if (bench.lesson) return html`<lesson-part .bench=${bench}></lesson-part>`;
    if (bench.exercise) return html`<exercise-part .bench=${bench}></exercise-part>`;
    return this.#choice();
  }

  #choice(): TemplateResult {
    const { bench } = this;
    const { labels } = bench;
    return html`
      <h2>${labels.explain_heading}</h2>
      <p class="note">${labels.explain_note}</p>
      <ul class="demonstrations" aria-label=${labels.demonstrations}>
        ${bench.demonstrations().map(
          (row) => html`<li>
            <button type="button" data-demonstration=${row.id} @click=${() => bench.startDemonstration(row.id)}>
              <b>${row.title}</b><small>${row.length} · ${row.layout}</small>
            </button>
          </li>`,
        )}
      </ul>
      <p class="caution">${labels.short_caution}</p>
      <h3>${labels.exercise_heading}</h3>
      <p class="note">${labels.exercise_note}</p>
      <form class="buttons exercise-start" novalidate @submit=${this.#start}>
        <label>${labels.exercise_number}
          <input
            name="number"
            type="number"
            min="0"
            max="999999"
            step="1"
            required
            inputmode="numeric"
            aria-invalid=${this.refused}
            aria-describedby="exercise-refused"
          />
        </label>
        <button>${labels.exercise_start}</button>
      </form>
      <p id="exercise-refused" class="out" role="alert">${this.refused ? labels.exercise_refused : nothing}</p>
    `;
  }

  #start(event: SubmitEvent): void {
    event.preventDefault();
    const form = event.currentTarget as HTMLFormElement;
    this.refused = !form.checkValidity();
    if (this.refused) form.querySelector("input")?.focus();
    else this.bench.startExercise(Number(new FormData(form).get("number")));
  }
}
