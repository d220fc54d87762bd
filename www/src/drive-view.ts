// The drive, painted by the program, with its labels as real buttons: a hand, a finger or the arrow keys
// turn a wheel. Knows no geometry; the program says where labels go and what is under a finger.
import { html, nothing, type PropertyValues, type TemplateResult } from "lit";
import { customElement, query, queryAll } from "lit/decorators.js";
import type { WheelRow } from "../generated/page.js";
import { clear } from "./canvas.ts";
import { BenchElement } from "./element.ts";

const MOST_ZOOM = 8;
/** How much larger a wheel is shown that a demonstration looks at. */
const CLOSE_ZOOM = 1.8;

@customElement("drive-view")
export class DriveView extends BenchElement {
  @query("canvas") private canvas!: HTMLCanvasElement;
  @query(".misfit") private misfit!: HTMLElement;
  @queryAll(".slack-tags li") private slackTags!: NodeListOf<HTMLElement>;
  @queryAll(".count-tags li") private countTags!: NodeListOf<HTMLElement>;
  @queryAll(".letter-tags li") private letterTags!: NodeListOf<HTMLElement>;
  @queryAll(".wheel-label") private labelButtons!: NodeListOf<HTMLElement>;
  #hid = false;
  #zoom = 1;
  #pan = { x: 0, y: 0 };
  #pointers = new Map<number, { x: number; y: number }>();
  #dragging = false;
  #moved = false;
  #words = "";
  /** Width and height of each tag, one after the other, as last laid out. */
  #slackSizes: number[] = [];
  #countSizes: number[] = [];
  readonly #resized = new ResizeObserver(() => this.#fit());
  readonly #onPaint = (): void => this.#paint();
  readonly #onLayout = (): void => {
    this.#zoom = 1;
    this.#pan = { x: 0, y: 0 };
    this.updateComplete.then(() => this.#fit());
  };

  /** A wheel is elsewhere: its label goes with it. */
  readonly #onMoved = (): void => {
    this.updateComplete.then(() => {
      this.#placeLabels();
      this.#paint();
    });
  };

  /** A demonstration looks at a wheel from near, or at the whole drive. */
  readonly #onLook = (): void => {
    const look = this.bench.lesson?.look;
    const near = look?.at === "wheel";
    this.bench.pick(near ? look.index : -1);
    this.#zoom = 1;
    this.#zoomBy(near ? CLOSE_ZOOM : 0);
  };

  override connectedCallback(): void {
    super.connectedCallback();
    this.bench.addEventListener("look", this.#onLook);
    window.addEventListener("beforeprint", this.#toPaper);
    window.addEventListener("afterprint", this.#fromPaper);
    this.bench.addEventListener("paint", this.#onPaint);
    this.bench.addEventListener("layout", this.#onLayout);
    this.bench.addEventListener("draft", this.#onLayout);
    this.bench.addEventListener("moved", this.#onMoved);
  }

  override disconnectedCallback(): void {
    super.disconnectedCallback();
    this.bench.removeEventListener("look", this.#onLook);
    window.removeEventListener("beforeprint", this.#toPaper);
    window.removeEventListener("afterprint", this.#fromPaper);
    this.bench.removeEventListener("paint", this.#onPaint);
    this.bench.removeEventListener("layout", this.#onLayout);
    this.bench.removeEventListener("draft", this.#onLayout);
    this.bench.removeEventListener("moved", this.#onMoved);
    this.#resized.disconnect();
  }

  protected override firstUpdated(): void {
    // A finger on something that moves must not scroll the page; only a listener that may say so can.
    this.canvas.addEventListener("touchstart", (event) => this.#touch(event), { passive: false });
    this.#fit();
    this.#resized.observe(this);
    for (const beside of this.#beside()) this.#resized.observe(beside);
  }

  /** A label whose words change may need another place. */
  protected override updated(changed: PropertyValues): void {
    super.updated(changed);
    const words = [...this.labelButtons].map((button) => button.textContent).join("|");
    this.#slackSizes = sizes(this.slackTags);
    this.#countSizes = sizes(this.countTags);
    this.#putTags();
    if (this.#hid !== this.bench.hides) {
      // The dial goes and comes with what is hidden: what stands beside it has other room.
      this.#hid = this.bench.hides;
      requestAnimationFrame(() => this.#fit());
    }
    if (words === this.#words) return;
    this.#words = words;
    this.#placeLabels();
  }

  protected override render(): TemplateResult {
    const { labels, panel } = this.bench;
    return html`
      <canvas
        role="img"
        aria-label=${labels.drive_view}
        @pointerdown=${this.#down}
        @pointermove=${this.#move}
        @pointerup=${this.#up}
        @pointercancel=${this.#up}
        @wheel=${this.#wheel}
      ></canvas>
      <ul class="wheel-labels" aria-label=${labels.wheels}>
        ${
          panel.draft
            ? panel.draft.wheels.map(({ name, note, fault }, i) =>
                this.#label(i, name, fault ? labels.look_here : note, fault),
              )
            : panel.wheels.map((wheel, i) => this.#wheelLabel(wheel, i))
        }
      </ul>
      <ul class="slack-tags" aria-hidden="true">
        ${panel.draft ? nothing : panel.runs.map((run) => html`<li ?hidden=${run.tag === ""}>${run.tag}</li>`)}
      </ul>
      <ul class="count-tags" aria-hidden="true">
        ${this.bench.counted && panel.fitting && !panel.draft ? panel.fitting.counts.map((count) => html`<li>${count.teeth.text}</li>`) : nothing}
      </ul>
      <ul class="letter-tags" aria-hidden="true">
        ${panel.draft ? nothing : panel.letters.map((letters) => html`<li>${letters}</li>`)}
      </ul>
      <p class="misfit" role="status" ?hidden=${!panel.draft}>${panel.draft?.misfit}</p>
      <div class="zoom" role="group" aria-label=${labels.zoom} data-over-view>
        <button type="button" aria-label=${labels.zoom_out} ?disabled=${this.#zoom <= 1} @click=${() => this.#zoomBy(1 / 1.4)}>−</button>
        <button type="button" aria-label=${labels.zoom_in} ?disabled=${this.#zoom >= MOST_ZOOM} @click=${() => this.#zoomBy(1.4)}>+</button>
        <button type="button" ?hidden=${this.#zoom <= 1} @click=${() => this.#zoomBy(0)}>${labels.zoom_fit}</button>
      </div>
    `;
  }

  #wheelLabel(wheel: WheelRow, index: number): TemplateResult {
    const out = this.bench.panel.shafts.find((row) => row.id === wheel.id)?.out ?? "";
    return this.#label(index, wheel.name, out || wheel.note, out !== "", wheel);
  }

  /** A wheel's label, the same button whether or not a belt can run; `wheel` is what its keys turn. */
  #label(
    index: number,
    name: string,
    note: string,
    out: boolean,
    wheel?: WheelRow,
  ): TemplateResult {
    const picked = this.bench.picked === index;
    return html`<li>
      <button
        type="button"
        class="wheel-label ${out ? "out" : ""} ${picked ? "picked" : ""}"
        aria-pressed=${picked}
        @click=${() => this.bench.pick(picked ? -1 : index)}
        @keydown=${(event: KeyboardEvent) => this.#key(event, index, wheel)}
      ><b>${name}</b><small>${note}</small></button>
    </li>`;
  }

  /** Arrow keys move a wheel by a millimetre while wheels are arranged. Whether that was it. */
  #moveKey(event: KeyboardEvent, index: number): boolean {
    if (!this.bench.arranging) return false;
    const [right, up] = {
      ArrowRight: [1, 0],
      ArrowLeft: [-1, 0],
      ArrowUp: [0, 1],
      ArrowDown: [0, -1],
    }[event.key] ?? [0, 0];
    if (right === 0 && up === 0) return false;
    event.preventDefault();
    const mm = event.shiftKey ? 0.1 : 1;
    this.bench.nudgeWheel(index, (right ?? 0) * mm, (up ?? 0) * mm);
    return true;
  }

  /** Arrow keys turn the shaft by a tooth, or move the tensioner. */
  #key(event: KeyboardEvent, index: number, wheel?: WheelRow): void {
    if (this.#moveKey(event, index) || !wheel) return;
    const forward = event.key === "ArrowRight" || event.key === "ArrowUp";
    const back = event.key === "ArrowLeft" || event.key === "ArrowDown";
    if (!forward && !back) return;
    const sign = forward ? 1 : -1;
    const { tensioner } = this.bench.panel;
    if (wheel.turns) {
      event.preventDefault();
      const deg = sign * wheel.tooth_deg * (event.shiftKey ? 0.1 : 1);
      this.bench.act({ turn: { shaft: wheel.id, deg } });
    } else if (index === tensioner.wheel) {
      event.preventDefault();
      const travel = tensioner.travel.value + sign * tensioner.step;
      this.bench.act({ tensioner_to: { travel } });
    }
  }

  /** The dial and the buttons stand over the view where it is wide. */
  #beside(): HTMLElement[] {
    const all = this.parentElement?.querySelectorAll<HTMLElement>("[data-over-view]") ?? [];
    // On a phone they stand below the view, which only slides over them as the page scrolls.
    return [...all].filter((element) => getComputedStyle(element).position === "absolute");
  }

  /** Left, top, width and height of what stands over the view, one after the other. */
  #rects(elements: HTMLElement[]): number[] {
    const own = this.getBoundingClientRect();
    return elements
      .map((element) => element.getBoundingClientRect())
      .filter(
        (r) =>
          r.left < own.right && r.right > own.left && r.top < own.bottom - 1 && r.bottom > own.top,
      )
      .flatMap((r) => [r.left - own.left, r.top - own.top, r.width, r.height]);
  }

  #fit(): void {
    // Under a hand the drawing stays where it is.
    if (this.#dragging) return;
    const own = this.getBoundingClientRect();
    if (own.width === 0) return;
    const side = own.width > 700 ? 60 : 0;
    this.bench.setSize(own.width, own.height, side, this.#rects(this.#beside()));
    this.bench.setZoom(this.#zoom, this.#pan.x, this.#pan.y);
    this.#placeLabels();
  }

  #placeLabels(): void {
    this.bench.keepLabelsOff(this.#rects([this.misfit]));
    const buttons = [...this.labelButtons];
    const places = this.bench.placeLabels(
      buttons.flatMap((button) => [button.offsetWidth, button.offsetHeight]),
    );
    for (const [i, button] of buttons.entries()) {
      const [left = 0, top = 0, clear = 0] = places.subarray(3 * i, 3 * i + 3);
      button.style.transform = `translate(${Math.round(left)}px, ${Math.round(top)}px)`;
      button.classList.toggle("no-room", clear === 0);
    }
  }

  #paint(): void {
    const painting = clear(this.canvas, this.clientWidth, this.clientHeight);
    if (painting) this.bench.paintDrive(painting.context, painting.density);
    this.#putTags();
  }

  #putTags(): void {
    put(this.slackTags, this.bench.slackCrowns(this.#slackSizes));
    put(this.countTags, this.bench.countTags(this.#countSizes));
    if (this.letterTags.length > 0) put(this.letterTags, this.bench.letterTags());
  }

  /** On paper the drawing has its own size, light colours and places for its labels. */
  readonly #toPaper = (): void => {
    this.classList.add("on-paper");
    this.bench.forPaper(true);
    this.#fit();
    this.#paint();
  };
  readonly #fromPaper = (): void => {
    this.classList.remove("on-paper");
    this.bench.forPaper(false);
    this.#fit();
  };

  #px(event: { clientX: number; clientY: number }): [number, number] {
    const { x, y } = this.#at(event);
    return [x, y];
  }

  #at(event: { clientX: number; clientY: number }): { x: number; y: number } {
    const own = this.canvas.getBoundingClientRect();
    return { x: event.clientX - own.left, y: event.clientY - own.top };
  }

  #down(event: PointerEvent): void {
    if (event.button !== 0) return;
    const at = this.#at(event);
    this.#pointers.set(event.pointerId, at);
    this.canvas.setPointerCapture(event.pointerId);
    this.#moved = false;
    if (this.#pointers.size > 1) {
      this.#dragging = false;
      return;
    }
    const wheel = this.#take(at);
    if (wheel >= 0) this.bench.pick(wheel);
    else if (this.bench.picked >= 0) this.bench.pick(-1);
  }

  /** Takes hold of what is there, to turn or to move it: gives which wheel that is, −1 for none. */
  #take(at: { x: number; y: number }): number {
    if (this.bench.arranging) {
      const wheel = this.bench.takeWheel(at.x, at.y);
      this.#dragging = wheel >= 0;
      return wheel;
    }
    const held = this.bench.grab(at.x, at.y);
    this.#dragging = held?.moves ?? false;
    return held?.wheel ?? -1;
  }

  #move(event: PointerEvent): void {
    const before = this.#pointers.get(event.pointerId);
    if (!before) return;
    // A release that happened elsewhere never came here.
    if (event.buttons === 0) {
      this.#up(event);
      return;
    }
    const at = this.#at(event);
    const others = [...this.#pointers].filter(([id]) => id !== event.pointerId);
    this.#pointers.set(event.pointerId, at);
    const other = others[0]?.[1];
    if (other) {
      const apart = (p: { x: number; y: number }): number =>
        Math.hypot(p.x - other.x, p.y - other.y);
      this.#pan.x += (at.x - before.x) / 2;
      this.#pan.y += (at.y - before.y) / 2;
      this.#zoomBy(apart(at) / Math.max(apart(before), 1));
    } else if (this.#dragging) {
      if (this.bench.arranging) this.bench.moveWheelTo(at.x, at.y, this.#moved);
      else this.bench.dragTo(at.x, at.y, this.#moved);
      this.#moved = true;
    } else if (this.#zoom > 1) {
      this.#pan.x += at.x - before.x;
      this.#pan.y += at.y - before.y;
      this.#zoomBy(1);
    }
  }

  #touch(event: TouchEvent): void {
    const touch = event.touches[0];
    if (event.touches.length > 1 || (touch && this.#holds(...this.#px(touch)))) {
      event.preventDefault();
    }
  }

  #holds(x: number, y: number): boolean {
    const { bench } = this;
    return bench.arranging ? bench.takeWheel(x, y) >= 0 : (bench.grab(x, y)?.moves ?? false);
  }

  #up(event: PointerEvent): void {
    this.#pointers.delete(event.pointerId);
    if (this.#pointers.size > 0) return;
    const arranged = this.#dragging && this.#moved && this.bench.arranging;
    this.#dragging = false;
    // What was moved may have left the view.
    if (arranged) this.#fit();
  }

  /** With the control key held, as a browser's own zoom: the page itself must still scroll. */
  #wheel(event: WheelEvent): void {
    if (!event.ctrlKey) return;
    event.preventDefault();
    this.#zoomBy(event.deltaY < 0 ? 1.15 : 1 / 1.15);
  }

  /** Enlarges by a factor; 0 shows the whole drive. */
  #zoomBy(factor: number): void {
    this.#zoom = factor === 0 ? 1 : Math.min(Math.max(this.#zoom * factor, 1), MOST_ZOOM);
    if (this.#zoom === 1) this.#pan = { x: 0, y: 0 };
    this.bench.setZoom(this.#zoom, this.#pan.x, this.#pan.y);
    this.#placeLabels();
    this.requestUpdate();
  }
}

function sizes(tags: Iterable<HTMLElement>): number[] {
  return [...tags].flatMap((tag) => [tag.offsetWidth, tag.offsetHeight]);
}

/** Puts each tag's middle at its place; one without a place is not shown. */
function put(tags: Iterable<HTMLElement>, places: Float64Array): void {
  for (const [j, tag] of [...tags].entries()) {
    const [x, y] = places.subarray(2 * j, 2 * j + 2);
    tag.classList.toggle("no-room", x === undefined);
    tag.style.transform = `translate(${Math.round(x ?? 0)}px, ${Math.round(y ?? 0)}px) translate(-50%, -50%)`;
  }
}
