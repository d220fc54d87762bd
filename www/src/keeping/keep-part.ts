// Where a layout can be taken along: a file, a link with its QR code, a picture; and what this browser keeps.
import { html, nothing, type TemplateResult } from "lit";
import { customElement, property, query, state } from "lit/decorators.js";
import qrcode from "qrcode-generator";
import { BenchElement } from "../element.ts";
import { askPlace, asksForPlaces, download, type Place, pixels, writeTo } from "./files.ts";
import type { Keeper } from "./keeper.ts";
import { linkTo } from "./link.ts";

/** Pixels of a PNG to each of the drawing's own. */
const PNG_TIMES = 2;
/** More letters than this no QR code holds. */
const MOST_IN_QR = 2900;

@customElement("keep-part")
export class KeepPart extends BenchElement {
  protected override follows = ["panel", "labels", "layout"];
  @property({ attribute: false }) keeper!: Keeper;
  @query("dialog") private dialog!: HTMLDialogElement;
  @state() private link = "";
  @state() private failed = "";
  @state() private place: Place | undefined;
  @state() private savedText = "";
  readonly #kept = (): void => this.requestUpdate();
  readonly #key = (event: KeyboardEvent): void => {
    if (!(event.ctrlKey || event.metaKey) || event.altKey || event.key.toLowerCase() !== "s")
      return;
    event.preventDefault();
    void this.#save(event.shiftKey);
  };

  override connectedCallback(): void {
    super.connectedCallback();
    this.keeper.addEventListener("kept", this.#kept);
    document.addEventListener("keydown", this.#key);
  }

  override disconnectedCallback(): void {
    super.disconnectedCallback();
    this.keeper.removeEventListener("kept", this.#kept);
    document.removeEventListener("keydown", this.#key);
  }

  protected override render(): TemplateResult {
    const { bench, keeper, place } = this;
    const { labels } = bench;
    const saved = this.savedText === bench.draftText ? labels.saved : labels.not_saved;
    return html`
      <div class="buttons">
        <button type="button" @click=${() => this.#save(false)}>${labels.save_long}</button>
        ${asksForPlaces() ? html`<button type="button" @click=${() => this.#save(true)}>${labels.save_as}</button>` : nothing}
        <button type="button" @click=${this.#showLink}>${labels.link}</button>
        <button type="button" @click=${this.#svg}>${labels.picture_svg}</button>
        <button type="button" @click=${this.#png}>${labels.picture_png}</button>
      </div>
      ${place ? html`<p class="note" role="status">${place.name}: ${saved}</p>` : nothing}
      ${this.failed ? html`<p class="refused" role="alert">${this.failed}</p>` : nothing}
      <details class="part">
        <summary>${labels.recent} <small>${keeper.works.length}</small></summary>
        <p class="note">${labels.recent_about}</p>
        ${keeper.works.length === 0 ? html`<p>${labels.recent_none}</p>` : nothing}
        <ul class="kept">
          ${keeper.works.map(
            (work) => html`<li>
              <button type="button" @click=${() => keeper.take(work)}>${work.title}<small>${bench.when(work.kept)}${keeper.isOpen(work) ? `, ${labels.recent_open}` : ""}</small></button>
              <button type="button" aria-label="${labels.forget}: ${work.title}" @click=${() => keeper.forget(work)}>${labels.forget}</button>
            </li>`,
          )}
        </ul>
      </details>
      <dialog aria-labelledby="link-heading">
        <h2 id="link-heading">${labels.link}</h2>
        <p>${labels.link_about}</p>
        <textarea readonly rows="4" aria-label=${labels.link} .value=${this.link}></textarea>
        ${this.#qr()}
        <div class="buttons">
          <button type="button" @click=${() => navigator.clipboard?.writeText(this.link)}>${labels.copy}</button>
          <button type="button" @click=${() => this.dialog.close()}>${labels.close}</button>
        </div>
      </dialog>
    `;
  }

  #qr(): TemplateResult | typeof nothing {
    const { labels } = this.bench;
    if (!this.link) return nothing;
    if (this.link.length > MOST_IN_QR) return html`<p>${labels.link_too_long}</p>`;
    const code = qrcode(0, "L");
    code.addData(this.link, "Byte");
    code.make();
    return html`<img class="qr" alt=${labels.qr_code} src=${code.createDataURL(4, 16)} />`;
  }

  #name(ending: string): string {
    const title = this.bench.panel.title.toLowerCase().replace(/[^\p{L}\p{N}]+/gu, "-");
    return `${title.replace(/^-|-$/g, "") || "layout"}.${ending}`;
  }

  async #save(elsewhere: boolean): Promise<void> {
    const text = this.bench.draftText;
    this.failed = "";
    try {
      if (!asksForPlaces()) {
        download(this.#name("toml"), new Blob([text], { type: "application/toml" }));
        return;
      }
      const place = (elsewhere ? undefined : this.place) ?? (await askPlace(this.#name("toml")));
      if (!place) return;
      await writeTo(place, text);
      this.place = place;
      this.savedText = text;
    } catch {
      this.failed = this.bench.labels.save_failed;
    }
  }

  async #showLink(): Promise<void> {
    this.link = await linkTo(this.bench.draftText);
    await this.updateComplete;
    this.dialog.showModal();
  }

  #svg(): void {
    download(this.#name("svg"), new Blob([this.bench.svg()], { type: "image/svg+xml" }));
  }

  async #png(): Promise<void> {
    this.failed = "";
    try {
      download(this.#name("png"), await pixels(this.bench.svg(), PNG_TIMES));
    } catch {
      this.failed = this.bench.labels.picture_failed;
    }
  }
}
