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
  protected override follows = ["labels", "palette"];
  @queryAll("canvas") private pictures!: NodeListOf<HTMLCanvasElement>;
  #chosen = 0;
  /** As typed: crank, driven, belt. */
  #typed: [string, string, string] = ["", "", ""];
  /** The text last put on the bench from here. */
  #put = "";
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
      ${chosen ? this.#counts(chosen) : nothing}
      <div role="status" class="started">${this.#said(this.#started())}</div>
    `;
  }

  #counts({ counts, example }: ArrangementPart): TemplateResult {
    return html`<div class="three-counts">
      ${counts.map(
        (name, i) => html`<label>
          <span>${name}</span>
          <input
            inputmode="numeric"
            autocomplete="off"
            maxlength="3"
            placeholder=${example[i] ?? ""}
            .value=${this.#typed[i] ?? ""}
            @input=${(event: Event) => this.#type(i, (event.target as HTMLInputElement).value)}
            @change=${() => this.#show()}
          />
        </label>`,
      )}
    </div>`;
  }

  #said(started: StartedPart | undefined): TemplateResult | typeof nothing {
    if (!started) return nothing;
    if (started.refused) return html`<p class="refused">${started.refused}</p>`;
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

  /** What the three counts come to, once there are three. */
  #started(): StartedPart | undefined {
    const [crank, driven, belt] = this.#typed.map((typed) =>
      /^\s*\d{1,3}\s*$/.test(typed) ? Number(typed) : Number.NaN,
    ) as [number, number, number];
    if ([crank, driven, belt].some(Number.isNaN)) return undefined;
    return this.bench.startFrom(this.#chosen, crank, driven, belt);
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
    const text = this.#started()?.text;
    if (!text || text === this.bench.draftText) return;
    const again = this.bench.draftText === this.#put;
    this.#put = text;
    if (again) this.bench.edit(text, false);
    else this.bench.openText(text);
  }
}
