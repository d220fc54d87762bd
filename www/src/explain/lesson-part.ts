// The demonstration on the bench: its caption, step by step or by itself, full screen, by buttons, keys or a
// clicker. Knows how long a step is left to be read; nothing of what it shows.
import { html, nothing, type PropertyValues, type TemplateResult } from "lit";
import { customElement, state } from "lit/decorators.js";
import type { LessonPart } from "../../generated/page.js";
import { BenchElement } from "../element.ts";
import { said } from "../said.ts";
import { onFullScreen, present, presenting } from "./presenting.ts";

@customElement("lesson-part")
export class LessonPartElement extends BenchElement {
  @state() private playing = false;
  #timer: ReturnType<typeof setTimeout> | undefined;
  /** The step that the timer waits to leave. */
  #waiting = -1;
  readonly #onKey = (event: KeyboardEvent): void => this.#key(event);
  readonly #onScreen = (): void => {
    onFullScreen();
    this.requestUpdate();
  };

  override connectedCallback(): void {
    super.connectedCallback();
    // Other tasks have looked square again.
    const { lesson } = this.bench;
    if (lesson) this.bench.setSight(lesson.aside_deg);
    document.addEventListener("keydown", this.#onKey);
    document.addEventListener("fullscreenchange", this.#onScreen);
  }

  override disconnectedCallback(): void {
    super.disconnectedCallback();
    document.removeEventListener("keydown", this.#onKey);
    document.removeEventListener("fullscreenchange", this.#onScreen);
    this.#pause();
    present(false);
  }

  protected override firstUpdated(): void {
    this.#focus();
  }

  /** By itself it goes on once everything has come to rest and was left to be read. */
  protected override updated(changed: PropertyValues): void {
    super.updated(changed);
    const { lesson, running } = this.bench;
    if (!lesson || !this.playing) return;
    if (lesson.strayed) this.#pause();
    else if (!running && this.#waiting !== lesson.step) {
      this.#waiting = lesson.step;
      this.#timer = setTimeout(() => this.#playOn(), lesson.pause_s * 1000);
    }
  }

  protected override render(): TemplateResult | typeof nothing {
    const { bench } = this;
    const { labels, lesson } = bench;
    if (!lesson) return nothing;
    const last = lesson.step === lesson.steps - 1;
    const full = presenting();
    return html`
      ${full ? html`<h1>${lesson.title}</h1>` : html`<h2>${lesson.title}</h2>`}
      <p class="note">${lesson.step_text}</p>
      <div class="lesson-caption ${lesson.strayed ? "strayed" : ""}" aria-live="polite" aria-atomic="true" tabindex="-1">
        ${lesson.strayed ? html`<p>${labels.strayed}</p>` : this.#caption(lesson)}
      </div>
      <div class="buttons lesson-steps">
        <button type="button" ?disabled=${lesson.step === 0} @click=${() => this.#step(-1)}>${labels.step_back}</button>
        ${
          lesson.strayed
            ? html`<button type="button" class="main" @click=${() => this.#comeBack()}>${labels.back_to_step}</button>`
            : last
              ? html`<button type="button" class="main" @click=${() => this.#go(0)}>${labels.from_the_first}</button>`
              : html`<button type="button" class="main" @click=${() => this.#step(1)}>${labels.step_on}</button>`
        }
        <button type="button" ?disabled=${last && !this.playing} @click=${() => this.#toggle()}>${this.playing ? labels.pause : labels.by_itself}</button>
      </div>
      <div class="buttons">
        <button type="button" @click=${() => this.#present(!full)}>${full ? labels.leave_full_screen : labels.full_screen}</button>
        <button type="button" @click=${() => bench.endLesson()}>${labels.end_demonstration}</button>
      </div>
      <p class="note">${labels.try_note}</p>
      ${bench.lastTold ? html`<p class="told">${bench.lastTold}</p>` : nothing}
    `;
  }

  #caption(lesson: LessonPart): TemplateResult {
    return html`
      <p>${lesson.caption.map((piece) => (piece.said ? said(piece.said) : piece.words))}</p>
      ${lesson.caution ? html`<p class="caution">${lesson.caution}</p>` : nothing}
    `;
  }

  #go(step: number): void {
    this.bench.goToStep(step);
    this.#focus();
  }

  #step(by: number): void {
    const { lesson } = this.bench;
    if (!lesson) return;
    const to = lesson.step + by;
    if (to < 0 || to >= lesson.steps) return;
    this.#pause();
    this.#go(to);
  }

  #comeBack(): void {
    if (this.bench.lesson) this.#go(this.bench.lesson.step);
  }

  /** The caption in sight, and above all the title; and a button that has gone must not take the focus along, or keys would no longer
   * be heard. */
  #focus(): void {
    this.updateComplete.then(() => {
      for (const seen of [".lesson-caption", "h1, h2"]) {
        this.querySelector(seen)?.scrollIntoView({ block: "nearest" });
      }
      const lost = !document.activeElement || document.activeElement === document.body;
      if (lost) this.querySelector<HTMLElement>(".lesson-caption")?.focus({ preventScroll: true });
    });
  }

  #toggle(): void {
    if (this.playing) this.#pause();
    else {
      if (this.bench.lesson?.strayed) this.#comeBack();
      this.playing = true;
    }
  }

  #pause(): void {
    clearTimeout(this.#timer);
    this.#waiting = -1;
    this.playing = false;
  }

  #playOn(): void {
    const { lesson } = this.bench;
    if (!lesson || lesson.step + 1 >= lesson.steps) {
      this.#pause();
      return;
    }
    this.bench.goToStep(lesson.step + 1);
  }

  #present(on: boolean): void {
    present(on);
    this.requestUpdate();
    this.querySelector<HTMLElement>(".lesson-caption")?.focus({ preventScroll: true });
  }

  #key(event: KeyboardEvent): void {
    const { target, key } = event;
    if (event.defaultPrevented || event.ctrlKey || event.metaKey || event.altKey) return;
    if (target instanceof Element && target.matches("input, textarea, select, [role=tab]")) return;
    // Space and Enter press the button that has the focus.
    const pressed = target instanceof Element && target.matches("button, summary");
    if (["PageDown", "ArrowRight", "ArrowDown"].includes(key) || (key === " " && !pressed)) {
      this.#step(1);
    } else if (["PageUp", "ArrowLeft", "ArrowUp"].includes(key)) this.#step(-1);
    else if (key === "Escape" && presenting()) this.#present(false);
    else if (key === "Escape") this.bench.endLesson();
    else return;
    event.preventDefault();
  }
}
