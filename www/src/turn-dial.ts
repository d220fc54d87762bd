// The dial that turns the crank: painted by the program, dragged round like a wrench, a slider to keys
// and screen readers. Knows no angles; the program says which angle a finger asks for.
import { html, type TemplateResult } from "lit";
import { customElement, query } from "lit/decorators.js";
import { clear } from "./canvas.ts";
import { BenchElement } from "./element.ts";
import { said } from "./said.ts";

@customElement("turn-dial")
export class TurnDial extends BenchElement {
  @query("canvas") private canvas!: HTMLCanvasElement;
  #held = false;
  #moved = false;
  readonly #onPaint = (): void => this.#paint();

  override connectedCallback(): void {
    super.connectedCallback();
    this.bench.addEventListener("paint", this.#onPaint);
  }

  override disconnectedCallback(): void {
    super.disconnectedCallback();
    this.bench.removeEventListener("paint", this.#onPaint);
  }

  protected override render(): TemplateResult {
    const { labels, panel } = this.bench;
    return html`
      <div
        class="dial"
        role="slider"
        tabindex="0"
        aria-label=${labels.dial}
        aria-valuemin="0"
        aria-valuemax="720"
        aria-valuenow=${panel.dial_deg}
        aria-valuetext=${panel.crank_spoken}
        @pointerdown=${this.#down}
        @pointermove=${this.#move}
        @pointerup=${this.#up}
        @pointercancel=${this.#up}
        @keydown=${this.#key}
      >
        <canvas aria-hidden="true"></canvas>
        <div class="dial-face" aria-hidden="true">
          <strong>${said(panel.crank)}</strong><small>${panel.crank_turn}</small>
        </div>
      </div>
    `;
  }

  #paint(): void {
    const size = this.canvas.clientWidth;
    const painting = clear(this.canvas, size, size);
    if (painting) this.bench.paintDial(painting.context, size, painting.density);
  }

  #turn(event: PointerEvent): void {
    const own = this.canvas.getBoundingClientRect();
    const deg = this.bench.dialAngle(event.clientX - own.left, event.clientY - own.top, own.width);
    if (Number.isNaN(deg)) return;
    this.bench.act({ turn_to: { crank_deg: deg } }, this.#moved);
    this.#moved = true;
  }

  #down(event: PointerEvent): void {
    if (event.button !== 0) return;
    (event.currentTarget as HTMLElement).setPointerCapture(event.pointerId);
    this.#held = true;
    this.#moved = false;
  }

  #move(event: PointerEvent): void {
    // A release that happened elsewhere never came here.
    if (event.buttons === 0) this.#held = false;
    if (this.#held) this.#turn(event);
  }

  #up(event: PointerEvent): void {
    // A tap turns to where it is; a drag already has.
    if (this.#held && !this.#moved && event.type === "pointerup") this.#turn(event);
    this.#held = false;
  }

  #key(event: KeyboardEvent): void {
    const tooth = this.bench.panel.tooth_deg;
    const small = event.shiftKey ? tooth : 1;
    const by: Record<string, number> = {
      ArrowRight: small,
      ArrowUp: small,
      ArrowLeft: -small,
      ArrowDown: -small,
      PageUp: tooth,
      PageDown: -tooth,
    };
    const deg = by[event.key];
    if (deg !== undefined) this.bench.runBy(deg);
    else if (event.key === "Home") this.bench.runTo(0);
    else if (event.key === "End") this.bench.runTo(720);
    else return;
    event.preventDefault();
  }
}
