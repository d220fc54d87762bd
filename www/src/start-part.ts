// A layout from three counts: an arrangement chosen by its picture, three numbers, and what follows at once.
// Knows nothing of belts.
import { html, nothing, type PropertyValues, type TemplateResult } from "lit";
import { customElement, queryAll } from "lit/decorators.js";
import type { ArrangementPart, StartedPart } from "../generated/page.js";
import { dress, paintEach } from "./canvas.ts";
import { BenchElement } from "./element.ts";
import { said } from "./said.ts";

@customElement("start-part")
export class StartPart extends BenchElement {
  protected override follows = ["labels", "palette", "layout"];
  @queryAll("canvas") private pictures!: NodeListOf<HTMLCanvasElement>;
  #chosen = 0;
  /** As typed: crank, driven, belt. */
  #typed: [string, string, string] = ["", "", ""];
  /** What was last put on the bench from here. */
  #put: StartedPart | undefined;
  #painted = "";

  protected override updated(changed: PropertyValues): void {
    super.updated(changed);
    if (dress() === this.#painted) return;
    this.#painted = dress();
    paintEach(this.pictures, (...picture) => this.bench.paintArrangement(...picture));
  }

  protected override render(): TemplateResult {
    const { bench } = this;
    const { labels } = bench;
    const all = bench.arrangements();
    const chosen = all[this.#chosen];
    const started = bench.startFrom(this.#chosen, this.#typed);
    return html`
      <h3>${labels.start_heading}</h3>
      <p class="note">${labels.start_note}</p>
      <fieldset class="arrangements">
        <legend>${labels.start_arrangement}</legend>
        ${all.map(
          ({ name }, i) => html`<label>
            <input
              type="radio"
              name="arrangement"
              .checked=${i === this.#chosen}
              @change=${() => this.#choose(i)}
            />
            <canvas aria-hidden="true"></canvas><span>${name}</span>
          </label>`,
        )}
      </fieldset>
      ${chosen ? this.#counts(chosen, started?.wrong ?? []) : nothing}
      <div role="status" class="started">${this.#said(started)}${this.#inView(started)}</div>
    `;
  }

  #counts({ counts, example }: ArrangementPart, wrong: string[]): TemplateResult {
    return html`<div class="three-counts">
      ${counts.map(
        (name, i) => html`<label class=${wrong[i] ? "wrong" : ""}>
          <span>${name}</span>
          <input
            inputmode="numeric"
            autocomplete="off"
            placeholder=${example[i] ?? ""}
            aria-invalid=${Boolean(wrong[i])}
            aria-describedby=${wrong[i] ? `count-${i}-wrong` : nothing}
            .value=${this.#typed[i] ?? ""}
            @input=${(event: Event) => this.#type(i, (event.target as HTMLInputElement).value)}
            @change=${() => this.#show()}
          />
        </label>`,
      )}
      ${wrong.map((text, i) =>
        text
          ? html`<p class="field-problems" role="status" id="count-${i}-wrong">${text}</p>`
          : nothing,
      )}
    </div>`;
  }

  #said(started: StartedPart | undefined): TemplateResult | typeof nothing {
    if (started?.refused) return html`<p class="refused">${started.refused}</p>`;
    if (!started?.text) return nothing;
    return html`
      ${started.warning ? html`<p class="caution">${started.warning}</p>` : nothing}
      <dl class="pairs">
        ${started.answers.map(
          ({ name, reading }) => html`<div><dt>${name}</dt><dd>${said(reading)}</dd></div>`,
        )}
      </dl>
      <p class="note">${started.provisional}</p>
    `;
  }

  /** Which drive is in view, where it is not the one that these counts come to. */
  #inView(started: StartedPart | undefined): TemplateResult | typeof nothing {
    const { labels, draftText, panel } = this.bench;
    const all = this.#typed.every((typed) => typed.trim() !== "");
    if (!all || !started || started.text === draftText) return nothing;
    const put = this.#put?.text === draftText ? this.#put.in_view : "";
    return html`<p class="note">${put || `${labels.start_in_view} ${panel.title}`}</p>`;
  }

  #choose(index: number): void {
    this.#chosen = index;
    this.#show();
  }

  #type(index: number, typed: string): void {
    this.#typed[index] = typed;
    this.requestUpdate();
  }

  /** Puts the drive on the bench, as one step; in place of the one that these counts put there before, if it
   * is as it was. */
  #show(): void {
    this.requestUpdate();
    const started = this.bench.startFrom(this.#chosen, this.#typed);
    if (!started?.text || started.text === this.bench.draftText) return;
    const { text } = started;
    const again = this.bench.draftText === this.#put?.text;
    this.#put = started;
    if (again) this.bench.edit(text, false);
    else this.bench.openText(text);
  }
}
