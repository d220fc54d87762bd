// The belt off: crank across, one camshaft up, where they may not stand together; to read and to move in.
// Knows no angle; the program says what a finger asks for.
import { html, nothing, type TemplateResult } from "lit";
import { customElement, query, state } from "lit/decorators.js";
import { clear } from "./canvas.ts";
import { BenchElement } from "./element.ts";

@customElement("contact-map")
export class ContactMap extends BenchElement {
  @query("canvas") private canvas!: HTMLCanvasElement | null;
  @state() private camshaft = 0;
  #held = false;
  #moved = false;
  #resized: ResizeObserver | undefined;
  readonly #onLayout = (): void => {
    this.camshaft = 0;
  };
  readonly #paint = (): void => {
    if (!this.canvas) return;
    const size = this.canvas.clientWidth;
    const painting = clear(this.canvas, size, size);
    if (!painting || size === 0) return;
    this.bench.paintMap(painting.context, this.camshaft, size, painting.density);
  };

  override connectedCallback(): void {
    super.connectedCallback();
    for (const event of ["paint", "palette"]) this.bench.addEventListener(event, this.#paint);
    this.bench.addEventListener("layout", this.#onLayout);
  }

  override disconnectedCallback(): void {
    super.disconnectedCallback();
    for (const event of ["paint", "palette"]) this.bench.removeEventListener(event, this.#paint);
    this.bench.removeEventListener("layout", this.#onLayout);
    this.#resized?.disconnect();
  }

  protected override updated(): void {
    if (this.canvas && !this.#resized) {
      this.#resized = new ResizeObserver(this.#paint);
      this.#resized.observe(this.canvas);
    }
    this.#paint();
  }

  protected override render(): TemplateResult {
    const { bench } = this;
    const { labels, engine } = bench;
    const lacking = engine.missing ? [engine.missing] : engine.lacking;
    if (lacking.length > 0) return html`${lacking.map((s) => html`<p class="note">${s}</p>`)}`;
    const choose = (event: Event): void => {
      this.camshaft = Number((event.target as HTMLSelectElement).value);
    };
    const ticks = [-180, -90, 0, 90, 180].map((deg) => `${bench.axisNumber(deg)}°`);
    return html`
      ${
        engine.camshafts.length > 1
          ? html`<label class="chooser">${labels.camshaft}
              <select @change=${choose}>${engine.camshafts.map((name, i) => html`<option value=${i} ?selected=${i === this.camshaft}>${name}</option>`)}</select>
            </label>`
          : nothing
      }
      <p class="map-reading" id="map-reading">${bench.mapReading(this.camshaft)}</p>
      <div class="map">
        <span class="up">${labels.map_up}</span>
        <span class="ticks-up" aria-hidden="true">${[...ticks].reverse().map((t) => html`<i>${t}</i>`)}</span>
        <div
          class="map-field"
          role="application"
          tabindex="0"
          aria-label="${labels.map_heading}: ${engine.camshafts[this.camshaft]}"
          aria-describedby="map-reading"
          @pointerdown=${this.#down}
          @pointermove=${this.#move}
          @pointerup=${this.#up}
          @pointercancel=${this.#up}
          @keydown=${this.#key}
        ><canvas aria-hidden="true"></canvas></div>
        <span class="ticks-across" aria-hidden="true">${ticks.map((t) => html`<i>${t}</i>`)}</span>
        <span class="across">${labels.map_across}</span>
      </div>
      <p class="caution">${labels.gap_caution}</p>
      <p class="note">${labels.map_note}</p>
    `;
  }

  #turn(event: PointerEvent): void {
    if (!this.canvas) return;
    const own = this.canvas.getBoundingClientRect();
    const [x, y] = [event.clientX - own.left, event.clientY - own.top];
    this.bench.mapTurn(this.camshaft, x, y, own.width, this.#moved);
    this.#moved = true;
  }

  #down(event: PointerEvent): void {
    if (event.button !== 0) return;
    (event.currentTarget as HTMLElement).setPointerCapture(event.pointerId);
    this.#held = true;
    this.#moved = false;
  }

  #move(event: PointerEvent): void {
    if (event.buttons === 0) this.#held = false;
    if (this.#held) this.#turn(event);
  }

  #up(event: PointerEvent): void {
    if (this.#held && !this.#moved && event.type === "pointerup") this.#turn(event);
    this.#held = false;
  }

  #key(event: KeyboardEvent): void {
    const by = { ArrowRight: [1, 0], ArrowLeft: [-1, 0], ArrowUp: [0, 1], ArrowDown: [0, -1] }[
      event.key
    ];
    if (!by) return;
    event.preventDefault();
    this.bench.mapStep(this.camshaft, by[0] ?? 0, by[1] ?? 0);
  }
}
