// What the plots have in common: curves by uPlot from columns that the program hands over, colours of the
// style sheet, and a place that is read out, moved by pointer or arrow keys. Knows no formula.
import { html, type PropertyValues, type TemplateResult } from "lit";
import { query, state } from "lit/decorators.js";
import "./language.ts";
import uPlot from "uplot";
import { BenchElement } from "./element.ts";

export interface Colours {
  ink: string;
  muted: string;
  line: string;
  intake: string;
  exhaust: string;
  piston: string;
}

const NAMES: Record<keyof Colours, string> = {
  ink: "--ink",
  muted: "--muted",
  line: "--line",
  intake: "--plot-intake",
  exhaust: "--plot-exhaust",
  piston: "--plot-piston",
};

const HEIGHT = 280;
const FONT = "12px system-ui, sans-serif";

/** The place that is read is moved here and not by the plot itself. */
const NOTHING = (): null => null;
const UNBOUND: uPlot.Cursor.Bind = {
  mousedown: NOTHING,
  mouseup: NOTHING,
  click: NOTHING,
  dblclick: NOTHING,
  mousemove: NOTHING,
  mouseleave: NOTHING,
  mouseenter: NOTHING,
};

export abstract class PlotElement extends BenchElement {
  @query(".plot") private box!: HTMLElement;
  @state() protected place = -1;
  #plot: uPlot | undefined;
  #columns: Float64Array = new Float64Array();
  #resized: ResizeObserver | undefined;
  readonly #again = (): void => this.#build();

  /** What it is called. */
  protected abstract heading(): string;
  /** Its columns one after the other, the places first. */
  protected abstract columns(): Float64Array;
  /** How many columns there are. */
  protected abstract readonly count: number;
  /** How each column but the places is drawn. */
  protected abstract series(colours: Colours): uPlot.Series[];
  /** What stands along the axes. */
  protected abstract axes(): [string, string];
  /** Lowest and highest place up. */
  protected abstract range(data: readonly Float64Array[]): [number, number];
  /** Drawn on top. */
  protected abstract over(plot: uPlot, colours: Colours): void;
  /** The place that is read first. */
  protected abstract start(): number;
  /** What a place reads. */
  protected abstract reading(place: number): string;

  /** What is read while nobody points anywhere, where that is not one place's reading. */
  protected resting(): string {
    return "";
  }

  override connectedCallback(): void {
    super.connectedCallback();
    for (const event of ["labels", "palette"]) this.bench.addEventListener(event, this.#again);
  }

  override disconnectedCallback(): void {
    super.disconnectedCallback();
    for (const event of ["labels", "palette"]) this.bench.removeEventListener(event, this.#again);
    this.#resized?.disconnect();
    this.#plot?.destroy();
    this.#plot = undefined;
  }

  protected override firstUpdated(): void {
    this.#resized = new ResizeObserver(() => {
      const width = this.box.clientWidth;
      if (width > 0) this.#plot?.setSize({ width, height: HEIGHT });
      this.#pointSoon();
    });
    this.#resized.observe(this.box);
  }

  /** Of the columns before, so that the same ones are not drawn again. */
  #drawn: Float64Array | undefined;

  protected override willUpdate(changed: PropertyValues): void {
    super.willUpdate(changed);
    this.#columns = this.columns();
  }

  protected override updated(changed: PropertyValues): void {
    super.updated(changed);
    const [now, before] = [this.#columns, this.#drawn];
    const same =
      now.length === before?.length && now.every((number, i) => Object.is(number, before[i]));
    if (this.#plot && same) {
      this.#point();
      return;
    }
    this.#drawn = now;
    if (this.#plot) this.#plot.setData(this.#data() as unknown as uPlot.AlignedData);
    else this.#build();
    this.#pointSoon();
  }

  protected override render(): TemplateResult {
    const place = this.place < 0 ? this.start() : this.place;
    const reading = (this.place < 0 && this.resting()) || this.reading(place);
    return html`
      <div
        class="plot"
        role="slider"
        tabindex="0"
        aria-label=${this.heading()}
        aria-valuemin="0"
        aria-valuemax=${this.#places() - 1}
        aria-valuenow=${place}
        aria-valuetext=${reading}
        @keydown=${this.#key}
        @pointerdown=${this.#pointer}
        @pointermove=${this.#pointer}
      ></div>
      <p class="plot-reading">${reading}</p>
    `;
  }

  #places(): number {
    return Math.max(1, this.#columns.length / this.count);
  }

  #data(): Float64Array[] {
    const places = this.#places();
    return Array.from({ length: this.count }, (_, i) =>
      this.#columns.slice(i * places, (i + 1) * places),
    );
  }

  #colours(): Colours {
    const colour = (name: string): string => {
      this.box.style.color = `var(${name})`;
      return getComputedStyle(this.box).color;
    };
    const all = Object.entries(NAMES).map(([key, name]) => [key, colour(name)]);
    this.box.style.color = "";
    return Object.fromEntries(all) as unknown as Colours;
  }

  #build(): void {
    if (!this.isConnected || !this.box || this.#columns.length === 0) return;
    this.#plot?.destroy();
    const colours = this.#colours();
    const [across, up] = this.axes();
    const axis = {
      stroke: colours.ink,
      font: FONT,
      labelFont: FONT,
      labelSize: 18,
      grid: { stroke: colours.line, width: 1 },
      ticks: { stroke: colours.line, width: 1, size: 4 },
      values: (_: uPlot, splits: number[]) => splits.map((split) => this.bench.axisNumber(split)),
    };
    this.#plot = new uPlot(
      {
        width: Math.max(this.box.clientWidth, 200),
        height: HEIGHT,
        padding: [14, 12, 0, 0],
        legend: { show: false },
        cursor: { y: false, drag: { x: false, y: false }, points: { show: false }, bind: UNBOUND },
        scales: {
          x: { time: false },
          y: { range: () => this.range(this.#data()) },
        },
        axes: [
          { ...axis, label: across, size: 30, ...this.ticks() },
          { ...axis, label: up, size: 42 },
        ],
        series: [{}, ...this.series(colours)],
        hooks: { draw: [(plot) => this.over(plot, colours)] },
      },
      this.#data() as unknown as uPlot.AlignedData,
      this.box,
    );
    this.#pointSoon();
  }

  /** Where the axis across has its numbers. */
  protected abstract ticks(): Pick<uPlot.Axis, "incrs" | "space">;

  /** After the plot has taken its size and numbers, which it does a moment later. */
  #pointSoon(): void {
    queueMicrotask(() => this.#point());
  }

  /** Puts the line where the reading is. */
  #point(): void {
    const plot = this.#plot;
    if (!plot) return;
    const at = this.#columns[this.place < 0 ? this.start() : this.place];
    if (at !== undefined) plot.setCursor({ left: plot.valToPos(at, "x"), top: 0 }, false);
  }

  #pointer(event: PointerEvent): void {
    const plot = this.#plot;
    if (!plot) return;
    const { left, width } = plot.over.getBoundingClientRect();
    const across = Math.min(Math.max(event.clientX - left, 0), width);
    this.place = plot.posToIdx(across);
    this.#point();
  }

  #key(event: KeyboardEvent): void {
    const step = event.shiftKey ? 10 : 1;
    const last = this.#places() - 1;
    const now = this.place < 0 ? this.start() : this.place;
    const to = { ArrowRight: now + step, ArrowLeft: now - step, Home: 0, End: last }[event.key];
    if (to === undefined) return;
    event.preventDefault();
    this.place = Math.min(Math.max(to, 0), last);
    this.#point();
  }
}

/** Words beside a place of a plot, kept inside it. */
export function write(plot: uPlot, text: string, x: number, y: number, colour: string): void {
  const { ctx } = plot;
  const density = devicePixelRatio || 1;
  ctx.save();
  ctx.font = `600 ${12 * density}px system-ui, sans-serif`;
  ctx.fillStyle = colour;
  ctx.textAlign = "center";
  const half = ctx.measureText(text).width / 2;
  const { left, top, width } = plot.bbox;
  const at = Math.min(Math.max(plot.valToPos(x, "x", true), left + half), left + width - half);
  ctx.fillText(text, at, Math.max(plot.valToPos(y, "y", true) - 6 * density, top + 12 * density));
  ctx.restore();
}
