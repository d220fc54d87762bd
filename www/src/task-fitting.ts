// The task Fitting: the answer up front, the usual order, everything that can be done in any order, and
// what to watch out for. Knows no tooth and no angle but those it is told.
import { html, nothing, type PropertyValues, type TemplateResult } from "lit";
import { customElement, state } from "lit/decorators.js";
import type { Action, CountRow, FittingPart, HandRow, StageRow } from "../generated/page.js";
import "./belt-off.ts";
import "./tension-part.ts";
import { BenchElement } from "./element.ts";
import { said } from "./said.ts";
import "./contact-map.ts";

@customElement("task-fitting")
export class TaskFitting extends BenchElement {
  /** Counts to hang the belt with, by name, where they differ from those in time. */
  @state() private wanted: Record<string, number> = {};
  /** The same, as typed, where nobody knows them but who has counted. */
  @state() private typed: Record<string, string> = {};
  #stepHadFocus = false;
  readonly #onLayout = (): void => {
    this.wanted = {};
    this.typed = {};
  };

  override connectedCallback(): void {
    super.connectedCallback();
    this.bench.addEventListener("layout", this.#onLayout);
  }

  override disconnectedCallback(): void {
    super.disconnectedCallback();
    this.bench.removeEventListener("layout", this.#onLayout);
  }

  /** The button of the last step goes with that step: whoever pressed it by keys stays here. */
  protected override willUpdate(): void {
    this.#stepHadFocus = this.querySelector(".stages button:focus") !== null;
  }

  protected override updated(changed: PropertyValues): void {
    super.updated(changed);
    if (!this.#stepHadFocus || this.querySelector(".stages button")) return;
    const find = (what: string) => this.querySelector<HTMLElement>(what);
    (find(".finished") ?? find(".past summary"))?.focus();
  }

  protected override render(): TemplateResult | typeof nothing {
    const { labels, panel } = this.bench;
    const { fitting } = panel;
    if (!fitting) return nothing;
    return html`
      <h2>${labels.fitting_heading}</h2>
      <p class="lead">${fitting.headline}</p>
      <p class="caution short">${labels.short_caution}</p>
      ${this.bench.lastTold ? html`<p class="told">${this.bench.lastTold}</p>` : nothing}
      ${this.#watch(fitting)}
      ${this.#order(fitting)}
      ${
        fitting.belt_on
          ? nothing
          : html`<details class="belt-off-map" open>
              <summary>${labels.map_heading}</summary>
              <contact-map .bench=${this.bench}></contact-map>
            </details>`
      }
      ${this.#paint(fitting)}
      ${this.#shafts(fitting)}
      ${this.#crank(fitting)}
      ${this.#belt(fitting)}
      ${this.#tensioner(fitting)}
      <belt-off .bench=${this.bench}></belt-off>
      ${this.#landing(fitting)}
      <details>
        <summary>${labels.why_heading}</summary>
        <p>${fitting.back_off}</p>
        <p>${fitting.sure}</p>
      </details>
      <tension-part .bench=${this.bench}></tension-part>
      ${this.#layOn(fitting)}
      ${this.#comingUp(fitting)}
      ${this.#jump(fitting)}
      <p class="caution">${labels.turn_caution}</p>
      ${panel.cautions.map((caution) => html`<p class="caution">${caution}</p>`)}
    `;
  }

  #order(fitting: FittingPart): TemplateResult {
    const { labels, panel } = this.bench;
    const at = fitting.stages.findIndex((stage) => stage.next);
    const past = at < 0 ? fitting.stages : fitting.stages.slice(0, at);
    const coming = at < 0 ? [] : fitting.stages.slice(at);
    return html`
      <h3>${labels.usual_order}</h3>
      ${
        past.length > 0
          ? html`<details class="past">
              <summary>${past.some((stage) => stage.skipped) ? "–" : "✓"} ${past.filter((stage) => stage.done).length} ${labels.steps_done}${past.some((stage) => stage.skipped) ? `, ${past.filter((stage) => stage.skipped).length} ${labels.skipped}` : ""}</summary>
              <ol class="stages">${past.map((stage) => this.#stage(stage))}</ol>
            </details>`
          : nothing
      }
      <ol class="stages" start=${past.length + 1}>${coming.map((stage) => this.#stage(stage))}</ol>
      ${fitting.all_done ? html`<p class="finished" tabindex="-1"><strong>${labels.all_done}</strong></p>` : nothing}
      <div class="buttons">
        <button type="button" ?disabled=${!panel.undo} @click=${() => this.bench.rewind()}>${labels.start_over}</button>
        <button type="button" ?disabled=${!panel.undo} @click=${() => this.bench.replay()}>${labels.replay}</button>
      </div>
      <p class="note">${labels.any_order}</p>
    `;
  }

  #stage(stage: StageRow): TemplateResult {
    const { labels } = this.bench;
    const [mark, standing] = stage.done
      ? ["✓", labels.done]
      : stage.skipped
        ? ["–", labels.skipped]
        : stage.next
          ? ["›", labels.next_step]
          : ["", ""];
    const kind = stage.done ? "done" : stage.skipped ? "skipped" : stage.next ? "next" : "";
    return html`<li class=${kind} aria-current=${stage.next ? "step" : nothing}>
      <i aria-hidden="true">${mark}</i>
      <div>
        <b>${stage.name}</b>${standing ? html` <small>${standing}</small>` : nothing}
        ${stage.next ? html`<p>${stage.why}</p>` : nothing}
      </div>
      ${
        stage.next && stage.actions.length > 0
          ? html`<button type="button" class="main" aria-label="${labels.do_it}: ${stage.name}" @click=${() => this.#do(stage.actions)}>${labels.do_it}</button>`
          : nothing
      }
    </li>`;
  }

  #watch(fitting: FittingPart): TemplateResult {
    const { labels } = this.bench;
    return html`
      <section class="watch" aria-label=${labels.watch_out}>
        <div role="status">
          <ul>${fitting.warnings.map((warning) => html`<li class="caution">${warning}</li>`)}</ul>
        </div>
      </section>
    `;
  }

  #shafts(fitting: FittingPart): TemplateResult {
    const { labels } = this.bench;
    return html`
      <h3>${labels.shafts_heading}</h3>
      <div class="hands">${fitting.hands.map((hand) => this.#hand(hand))}</div>
      <p class="caution">${labels.shafts_caution}</p>
    `;
  }

  #hand(hand: HandRow): TemplateResult {
    const { labels } = this.bench;
    const shaft = hand.id;
    const turn = (deg: number): void => this.bench.act({ turn: { shaft, deg } });
    const button = (
      name: string,
      doing: () => void,
      pressed?: boolean,
    ): TemplateResult => html`<button
      type="button"
      aria-label="${hand.name}: ${name}"
      aria-pressed=${pressed ?? nothing}
      @click=${doing}
    >${name}</button>`;
    return html`<section class="hand" aria-label=${hand.name}>
      <h4>${hand.name} <span>${hand.stands}</span></h4>
      <div class="buttons">
        ${
          hand.held
            ? button(labels.let_go, () => this.bench.act({ release: { shaft } }), true)
            : button(labels.hold, () => this.bench.act({ hold: { shaft } }), false)
        }
        ${button(labels.tooth_back, () => turn(-hand.tooth_deg))}
        ${button(labels.tooth_forward, () => turn(hand.tooth_deg))}
        ${button(labels.to_its_mark, () => turn(hand.to_mark_deg))}
        ${hand.others.map((other) => button(`${labels.to_other_mark} “${other.label}”`, () => turn(other.deg)))}
        ${
          !hand.floats
            ? nothing
            : hand.bolt_slack
              ? button(labels.tighten_bolt, () => this.bench.act({ tighten: { shaft } }))
              : button(labels.slacken_bolt, () => this.bench.act({ slacken: { shaft } }))
        }
      </div>
    </section>`;
  }

  #crank(fitting: FittingPart): TemplateResult {
    const { labels } = this.bench;
    const shaft = fitting.crank;
    return html`
      <h3>${labels.crank_heading}</h3>
      <div class="buttons">
        <button type="button" ?disabled=${fitting.back_off_deg === 0} @click=${() => this.bench.act({ turn: { shaft, deg: fitting.back_off_deg } })}>${labels.back_off_button}</button>
        <button type="button" @click=${() => this.bench.act({ bring_forward: { shaft } })}>${labels.bring_forward}</button>
        <button type="button" @click=${() => this.bench.runBy(720)}>${labels.two_turns_forward}</button>
      </div>
    `;
  }

  #belt(fitting: FittingPart): TemplateResult {
    const { labels } = this.bench;
    const chosen = (key: string, teeth: number): number => this.wanted[key] ?? teeth;
    const step = (key: string, teeth: number, by: number): void => {
      this.wanted = { ...this.wanted, [key]: Math.max(1, chosen(key, teeth) + by) };
    };
    const stepper = ({
      key,
      name,
      teeth,
    }: CountRow): TemplateResult => html`<div class="stepper" role="group" aria-label=${name}>
      <button type="button" aria-label="${name}: ${labels.one_fewer}" @click=${() => step(key, teeth.value, -1)}>−</button>
      <output>${chosen(key, teeth.value)}</output>
      <button type="button" aria-label="${name}: ${labels.one_more}" @click=${() => step(key, teeth.value, 1)}>+</button>
    </div>`;
    // Nobody knows this count but who has counted it.
    const field = ({ key, name }: CountRow): TemplateResult => html`<input
      class="counted"
      inputmode="numeric"
      autocomplete="off"
      aria-label=${name}
      aria-invalid=${!isCount(this.typed[key] ?? "")}
      .value=${this.typed[key] ?? ""}
      @input=${(event: Event) => {
        this.typed = { ...this.typed, [key]: (event.target as HTMLInputElement).value };
      }}
    />`;
    return html`
      <h3>${labels.belt_heading}</h3>
      <div class="buttons">
        <button type="button" ?disabled=${!fitting.belt_on} @click=${() => this.bench.act({ belt: "off" })}>${labels.take_off}</button>
        <button type="button" @click=${() => this.bench.act({ hang: "in_time" })}>${labels.hang_in_time}</button>
        <button type="button" @click=${() => this.bench.act({ hang: "as_it_falls" })}>${labels.hang_as_it_falls}</button>
      </div>
      <div class="hang-counts" role="group" aria-label=${labels.hang_teeth}>
        <p>${labels.hang_teeth}</p>
        ${fitting.counts.map(
          (count) => html`<div class="stepper-row">
            <span>${count.name}</span>
            ${count.known ? stepper(count) : field(count)}
          </div>`,
        )}
        ${fitting.counts.some((count) => !count.known) ? html`<p class="note">${labels.hang_teeth_unknown}</p>` : nothing}
        <div class="buttons">
          <button type="button" ?disabled=${!Object.values(this.typed).every(isCount)} @click=${() => this.bench.act({ hang: { teeth: this.#teeth() } })}>${labels.hang_so}</button>
        </div>
      </div>
    `;
  }

  /** The counts to hang the belt with; what is left empty is hung in time. */
  #teeth(): Record<string, number> {
    const typed = Object.entries(this.typed).filter(([, text]) => text.trim() !== "");
    return {
      ...this.wanted,
      ...Object.fromEntries(typed.map(([key, text]) => [key, Number(text)])),
    };
  }

  #tensioner(fitting: FittingPart): TemplateResult {
    const { labels, panel } = this.bench;
    return html`
      <h3>${labels.tensioner_heading}</h3>
      <p>${panel.tensioner.sentence} ${fitting.pointer}</p>
      <div class="buttons">
        <button type="button" @click=${() => this.bench.act({ tensioner: "back" })}>${labels.right_back}</button>
        <button type="button" @click=${() => this.bench.act({ tensioner: "bolt_up" })}>${fitting.locked ? labels.turn_and_lock : labels.bolt_up}</button>
        <button type="button" ?hidden=${fitting.locked} @click=${() => this.bench.act({ tensioner: "pull_pin" })}>${labels.pull_pin}</button>
      </div>
    `;
  }

  #landing(fitting: FittingPart): TemplateResult {
    const { labels } = this.bench;
    return html`<details open>
      <summary>${labels.landing_heading}</summary>
      <div class="scroll"><table class="landing">
        <thead><tr><th scope="col">${labels.in_pulled_run}</th><th scope="col">${labels.crank_lands}</th></tr></thead>
        <tbody>
          ${fitting.landing.map(
            (row) => html`<tr class=${row.right ? "right" : ""}>
              <th scope="row">${said(row.teeth)}</th>
              <td>
                ${said(row.lands, row.right ? "on" : "out")}
                <ul>${row.marks.map((mark, i) => html`<li>${fitting.mark_names[i]}: ${said(mark)}</li>`)}</ul>
              </td>
            </tr>`,
          )}
        </tbody>
      </table></div>
      <p class="note">${labels.landing_note}</p>
    </details>`;
  }

  #paint(fitting: FittingPart): TemplateResult {
    const { bench } = this;
    const { labels } = bench;
    return html`<details>
      <summary>${labels.paint_heading}</summary>
      <label class="check"><input type="checkbox" .checked=${bench.counted} @change=${(event: Event) => bench.showCounts((event.target as HTMLInputElement).checked)}> ${labels.show_counts}</label>
      ${fitting.counts.map(
        (count) => html`<section class="count" aria-label=${count.name}>
          <h4>${count.name} <b>${said(count.teeth)}</b></h4>
          <dl class="pairs">
            <div><dt>${labels.groove_is}</dt><dd>${count.past_mark}</dd></div>
            <div><dt>${labels.teeth_middles}</dt><dd>${said(count.middles)}</dd></div>
            <div><dt>${labels.how_sure}</dt><dd>${count.sure}</dd></div>
          </dl>
        </section>`,
      )}
      <p class="note">${labels.paint_note}</p>
    </details>`;
  }

  #layOn(fitting: FittingPart): TemplateResult {
    const { labels } = this.bench;
    return html`<details>
      <summary>${labels.lay_on_heading}</summary>
      <ol class="lay-on">${fitting.thread_order.map((name) => html`<li>${name}</li>`)}</ol>
      <p class="note">${labels.lay_on_note}</p>
    </details>`;
  }

  #comingUp(fitting: FittingPart): TemplateResult {
    const { labels } = this.bench;
    const best = (name: string) => fitting.best_tooth.find((row) => row.name === name);
    return html`<details>
      <summary>${labels.coming_up_heading}</summary>
      <p>${fitting.lash_sentence}</p>
      ${fitting.lash.map((row) => {
        const tooth = best(row.name);
        return html`<div class="count">
          <h4>${row.name}</h4>
          <dl class="pairs">
            <div><dt>${labels.lash}</dt><dd>${said(row.reading)}</dd></div>
            ${tooth ? html`<div><dt>${labels.best_tooth}</dt><dd>${said(tooth.reading)}</dd></div>` : nothing}
          </dl>
        </section>`;
      })}
    </details>`;
  }

  #jump(fitting: FittingPart): TemplateResult {
    const { labels } = this.bench;
    return html`<details>
      <summary>${labels.jump_heading}</summary>
      <div class="scroll"><table>
        <thead><tr><th scope="col">${labels.wheel}</th><th scope="col">${labels.slack_of_need}</th></tr></thead>
        <tbody>
          ${fitting.jump.map(
            (row) =>
              html`<tr><th scope="row">${row.name}</th><td>${said(row.reading, row.watch ? "out" : "")}</td></tr>`,
          )}
        </tbody>
      </table></div>
      <p class="note">${labels.jump_note}</p>
    </details>`;
  }

  /** Does a step. The crank's own turns are run so that marks can be watched. */
  #do(actions: Action[]): void {
    const crank = this.bench.panel.fitting?.crank;
    const [only] = actions;
    const alone = actions.length === 1 && typeof only === "object" ? only : undefined;
    if (alone && "turn_to" in alone) this.bench.runTo(alone.turn_to.crank_deg);
    else if (alone && "turn" in alone && alone.turn.shaft === crank)
      this.bench.runBy(alone.turn.deg);
    else this.bench.actAll(actions);
  }
}

/** Whether a count may be hung as it is typed: a whole number, or nothing. */
function isCount(text: string): boolean {
  return /^\s*([1-9]\d*)?\s*$/.test(text);
}
