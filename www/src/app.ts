// The whole page: header, view, dial, tasks. Holds what the reader has chosen to look at, no truth.
import { html, nothing, type TemplateResult } from "lit";
import { customElement, property, query, state } from "lit/decorators.js";
import type { Told } from "../generated/page.js";
import { BenchElement } from "./element.ts";
import type { Keeper } from "./keeping/keeper.ts";
import type { Saving } from "./keeping/saving.ts";
import type { OpenFile } from "./open-file.ts";
import "./all-readings.ts";
import "./cylinder-section.ts";
import "./drive-view.ts";
import "./keeping/kept-notes.ts";
import "./explain/task-explain.ts";
import "./open-file.ts";
import "./task-fitting.ts";
import "./task-layout.ts";
import "./task-two-turns.ts";
import "./task-what-if.ts";
import "./tensioner-part.ts";
import "./turn-buttons.ts";
import "./turn-dial.ts";

const TASKS = ["layout", "fitting", "two_turns", "what_if", "explain"] as const;
type Task = (typeof TASKS)[number];

@customElement("two-turns")
export class TwoTurns extends BenchElement {
  @property({ attribute: false }) keeper!: Keeper;
  @property({ attribute: false }) saving!: Saving;
  @query("open-file") private file!: OpenFile;
  @query("#probe") private probe!: HTMLElement;
  @query("dialog") private about!: HTMLDialogElement;
  @state() private task: Task = "two_turns";
  @state() private announced = "";
  @state() private refused = "";
  @state() private stopped = false;

  readonly #dark = matchMedia("(prefers-color-scheme: dark)");

  override connectedCallback(): void {
    super.connectedCallback();
    this.task = TASKS.find((task) => task === this.bench.preferences.task) ?? "two_turns";
    this.bench.show(this.task);
    this.bench.addEventListener("told", (event) => this.#told((event as CustomEvent<Told>).detail));
    this.bench.addEventListener("look", () => {
      // What was said last was said of another drive.
      this.announced = "";
    });
    this.bench.addEventListener("stopped", () => {
      this.stopped = true;
    });
    this.bench.addEventListener("labels", () => {
      // What was said last was said in other words.
      this.announced = "";
      this.refused = "";
      this.#dress();
    });
    this.#dark.addEventListener("change", () => this.#dress());
    this.keeper.addEventListener("kept", () => this.requestUpdate());
    this.keeper.addEventListener("linked", (event) => {
      void this.#follow((event as CustomEvent<Uint8Array<ArrayBuffer>>).detail);
    });
    this.saving.addEventListener("saved", () => this.#sayWhere());
    document.addEventListener("keydown", (event) => this.#key(event));
  }

  protected override firstUpdated(): void {
    this.#dress();
  }

  protected override render(): TemplateResult {
    const { bench } = this;
    const { labels, panel, preferences } = bench;
    if (this.stopped) return this.#stoppedPanel();
    const title = panel.draft?.title ?? panel.title;
    return html`
      <a class="skip" href="#task-panel" @click=${this.#skip}>${labels.skip_to_tasks}</a>
      <header>
        <h1>Two Turns</h1>
        <p class="title">${title}</p>
        <nav>
          <button type="button" class="wide-only" @click=${() => this.file.ask()}>${labels.open}</button>
          <button type="button" ?disabled=${!panel.undo} title=${panel.undo ?? ""} @click=${() => bench.undo()}>${labels.undo}</button>
          <button type="button" ?disabled=${!panel.redo} title=${panel.redo ?? ""} @click=${() => bench.redo()}>${labels.redo}</button>
          <details class="menu" @keydown=${this.#menuKey} @click=${this.#menuClick}>
            <summary>${labels.menu}</summary>
            <div>
              <button type="button" @click=${() => this.file.ask()}>${labels.open_long}</button>
              <button type="button" @click=${() => bench.prefer({ inch: !preferences.inch })}>${labels.units}: ${preferences.inch ? labels.metric : labels.inch}</button>
              <button type="button" @click=${() => bench.prefer({ theme: this.#isDark() ? "light" : "dark" })}>${this.#isDark() ? labels.light : labels.dark}</button>
              <button type="button" lang=${labels.other_language_code} @click=${() => bench.prefer({ lang: labels.other_language_code })}>${labels.other_language}</button>
              <button type="button" @click=${() => this.about.showModal()}>${labels.about}</button>
            </div>
          </details>
        </nav>
      </header>
      <p class="standing">
        <span>${panel.seen_from}</span>
        ${panel.provisional ? html`<span class="provisional">${panel.provisional}</span>` : nothing}
        ${this.#standing()}
      </p>
      <div class="stage" data-look=${bench.lesson?.look.at ?? "drive"}>
        <drive-view .bench=${bench}></drive-view>
        ${bench.lesson?.look.at === "cylinder" ? html`<cylinder-section .bench=${bench}></cylinder-section>` : nothing}
        ${bench.hides ? nothing : html`<turn-dial .bench=${bench} ?inert=${panel.draft !== null} data-over-view></turn-dial>`}
        <turn-buttons .bench=${bench} ?inert=${panel.draft !== null} data-over-view></turn-buttons>
      </div>
      <div class="side">
        <p class="title">${title}</p>
        <open-file .bench=${bench}></open-file>
        <kept-notes .bench=${bench} .keeper=${this.keeper} .saving=${this.saving}></kept-notes>
        ${this.refused ? html`<p class="refused" role="alert">${this.refused}</p>` : nothing}
        <div class="tabs" role="tablist" aria-label=${labels.tasks}>
          ${TASKS.map(
            (task) => html`<button
              type="button"
              role="tab"
              id="tab-${task}"
              aria-selected=${this.task === task}
              aria-controls="task-panel"
              tabindex=${this.task === task ? 0 : -1}
              ?disabled=${bench.hides && this.task !== task}
              @click=${() => this.#choose(task)}
              @keydown=${this.#tabKey}
            >${labels[task]}</button>`,
          )}
        </div>
        <div id="task-panel" role="tabpanel" tabindex="-1" aria-labelledby="tab-${this.task}">
          ${(bench.lesson || bench.exercise) && this.task !== "explain" ? this.#aside() : nothing}
          ${this.#panel()}
        </div>
        ${
          bench.hides || panel.draft
            ? nothing
            : html`<tensioner-part .bench=${bench}></tensioner-part>
              <all-readings .bench=${bench}></all-readings>`
        }
      </div>
      <p class="spoken" role="status">${this.announced}</p>
      <span id="probe" hidden></span>
      <dialog aria-labelledby="about-heading">
        <h2 id="about-heading">${labels.about_heading}</h2>
        <p>${labels.about_what}</p>
        <p>${labels.about_not}</p>
        <p>${labels.about_defer}</p>
        <form method="dialog"><button>${labels.close}</button></form>
      </dialog>
    `;
  }

  /** How the drive stands, in a sentence. */
  #standing(): TemplateResult {
    const { labels, panel } = this.bench;
    if (panel.draft) return html`<b class="out">${labels.draft_standing}</b>`;
    return html`<b class=${panel.shaft_sentence ? "out" : ""}>${panel.shaft_sentence || panel.crank_sentence}</b>`;
  }

  #panel(): TemplateResult {
    const { bench } = this;
    switch (this.task) {
      case "layout":
        return html`<task-layout .bench=${bench} .keeper=${this.keeper} .saving=${this.saving} @ask=${() => this.file.ask()}></task-layout>`;
      case "fitting":
        return html`<task-fitting .bench=${bench}></task-fitting>`;
      case "two_turns":
        return html`<task-two-turns .bench=${bench}></task-two-turns>`;
      case "what_if":
        return html`<task-what-if .bench=${bench}></task-what-if>`;
      case "explain":
        return html`<task-explain .bench=${bench}></task-explain>`;
    }
  }

  /** What there is to know in another task while a demonstration is on the bench. */
  #aside(): TemplateResult {
    const { labels } = this.bench;
    return html`<section class="set-aside">
      <p>${labels.set_aside}</p>
      <div class="buttons">
        <button type="button" @click=${() => this.#choose("explain")}>${labels.to_demonstration}</button>
        <button type="button" @click=${() => this.bench.endLesson()}>${labels.end_demonstration}</button>
      </div>
    </section>`;
  }

  #stoppedPanel(): TemplateResult {
    const { labels, draftText } = this.bench;
    return html`<section class="stopped" role="alert">
      <h1>${labels.stopped}</h1>
      <p>${labels.stopped_advice}</p>
      <textarea readonly rows="16" aria-label=${labels.layout_text} .value=${draftText}></textarea>
      <div class="buttons">
        <button type="button" @click=${() => navigator.clipboard?.writeText(draftText)}>${labels.copy}</button>
        <button type="button" class="main" @click=${() => location.reload()}>${labels.reload}</button>
      </div>
    </section>`;
  }

  /** A text that is to be gone on with is shown where that is done. */
  async #follow(bytes: Uint8Array<ArrayBuffer>): Promise<void> {
    const { draftText } = this.bench;
    await this.file.follow(bytes);
    const { draftText: now, draftProblems } = this.bench;
    if (now !== draftText && draftProblems.length > 0) this.#choose("layout");
  }

  #told(told: Told): void {
    this.announced = told.text;
    this.refused = told.done ? "" : told.text;
  }

  #choose(task: Task): void {
    // A layout is written into one's own work.
    if (task === "layout") this.bench.endLesson();
    this.task = task;
    this.bench.show(task);
    this.bench.prefer({ task });
  }

  #skip(event: Event): void {
    event.preventDefault();
    this.querySelector<HTMLElement>("#task-panel")?.focus();
  }

  #tabKey(event: KeyboardEvent): void {
    const by = { ArrowRight: 1, ArrowLeft: -1 }[event.key];
    if (by === undefined || this.bench.hides) return;
    event.preventDefault();
    const next = TASKS[(TASKS.indexOf(this.task) + by + TASKS.length) % TASKS.length];
    if (!next) return;
    this.#choose(next);
    this.updateComplete.then(() => this.querySelector<HTMLElement>(`#tab-${next}`)?.focus());
  }

  /** The menu closes when something in it was chosen, and on Escape. */
  #menuClick(event: Event): void {
    if (event.target instanceof HTMLButtonElement) {
      (event.currentTarget as HTMLDetailsElement).open = false;
    }
  }

  #menuKey(event: KeyboardEvent): void {
    if (event.key !== "Escape") return;
    const menu = event.currentTarget as HTMLDetailsElement;
    menu.open = false;
    menu.querySelector("summary")?.focus();
  }

  #sayWhere(): void {
    const where = this.saving.where();
    if (where?.same) this.announced = `${where.name}: ${this.bench.labels.saved}`;
  }

  #key(event: KeyboardEvent): void {
    if (!(event.ctrlKey || event.metaKey) || event.altKey) return;
    const { target } = event;
    const field = target instanceof HTMLInputElement && target.type !== "range";
    const typing = field || target instanceof HTMLTextAreaElement;
    const key = event.key.toLowerCase();
    if (key === "s") void this.saving.save(event.shiftKey);
    // A field takes back what was typed into it by itself.
    else if (typing) return;
    else if (key === "z" && !event.shiftKey) this.bench.undo();
    else if (key === "y" || (key === "z" && event.shiftKey)) this.bench.redo();
    else return;
    event.preventDefault();
  }

  #isDark(): boolean {
    const { theme } = this.bench.preferences;
    return theme ? theme === "dark" : this.#dark.matches;
  }

  /** Language, theme and colours as chosen. */
  #dress(): void {
    document.documentElement.lang = this.bench.preferences.lang;
    document.documentElement.style.colorScheme = this.bench.preferences.theme || "light dark";
    if (!this.stopped) this.bench.setPalette(this.probe);
    this.requestUpdate();
  }
}
