// One cylinder in section, painted by the program with every frame, and which one it is.
import { html, type TemplateResult } from "lit";
import { customElement, query, queryAll } from "lit/decorators.js";
import { clear } from "./canvas.ts";
import { BenchElement } from "./element.ts";

@customElement("cylinder-section")
export class CylinderSection extends BenchElement {
  @query("canvas") private canvas!: HTMLCanvasElement;
  @queryAll(".gap-tag") private tags!: NodeListOf<HTMLElement>;
  readonly #paint = (): void => {
    const { clientWidth: width, clientHeight: height } = this.canvas;
    const painting = clear(this.canvas, width, height);
    if (painting) this.bench.paintSection(painting.context, width, height, painting.density);
    const places = this.bench.sectionTags(width, height);
    for (const [i, tag] of this.tags.entries()) {
      const [x, y] = [places[2 * i] ?? Number.NaN, places[2 * i + 1] ?? Number.NaN];
      tag.hidden = Number.isNaN(x) || tag.textContent === "";
      if (!tag.hidden) tag.style.transform = `translate(${x}px, ${y}px) translate(-50%, -50%)`;
    }
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
      <div class="section">
        <canvas role="img" aria-label=${engine.section}></canvas>
        ${engine.gap_tags.map((tag, i) => html`<b class="gap-tag ${engine.touching[i] ? "out" : ""}" aria-hidden="true">${tag}</b>`)}
      </div>
      <p class="section-reading">${engine.section}</p>
    `;
  }
}
