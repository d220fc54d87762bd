// One cylinder in section, painted by the program with every frame, and which one it is.
import { html, type TemplateResult } from "lit";
import { customElement, query } from "lit/decorators.js";
import { clear } from "./canvas.ts";
import { BenchElement } from "./element.ts";

@customElement("cylinder-section")
export class CylinderSection extends BenchElement {
  @query("canvas") private canvas!: HTMLCanvasElement;
  readonly #paint = (): void => {
    const { clientWidth: width, clientHeight: height } = this.canvas;
    const painting = clear(this.canvas, width, height);
    if (painting) this.bench.paintSection(painting.context, width, height, painting.density);
  };
  #resized: ResizeObserver | undefined;

  override connectedCallback(): void {
    super.connectedCallback();
    for (const event of ["paint", "palette"]) this.bench.addEventListener(event, this.#paint);
  }

  override disconnectedCallback(): void {
    super.disconnectedCallback();
    for (const event of ["paint", "palette"]) this.bench.removeEventListener(event, this.#paint);
    this.#resized?.disconnect();
  }

  protected override firstUpdated(): void {
    this.#resized = new ResizeObserver(this.#paint);
    this.#resized.observe(this.canvas);
  }

  protected override render(): TemplateResult {
    const { labels, engine } = this.bench;
    const choose = (event: Event): void =>
      this.bench.chooseCylinder(Number((event.target as HTMLSelectElement).value));
    return html`
      <label class="chooser">${labels.cylinder}
        <select @change=${choose}>
          <option value="-1" ?selected=${!engine.chosen}>${engine.cylinders[engine.cylinder]}: ${labels.nearest_cylinder}</option>
          ${engine.cylinders.map((name, i) => html`<option value=${i} ?selected=${engine.chosen && engine.cylinder === i}>${name}</option>`)}
        </select>
      </label>
      <canvas role="img" aria-label=${engine.section}></canvas>
      <p class="section-reading">${engine.section}</p>
    `;
  }
}
