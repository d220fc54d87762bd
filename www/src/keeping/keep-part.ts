// Where a layout can be taken along: a file, a link with its QR code, a picture; and what this browser keeps.
import { html, nothing, type TemplateResult } from "lit";
import { customElement, query, state } from "lit/decorators.js";
import qrcode from "qrcode-generator";
import { KeepingElement } from "./element.ts";
import { asksForPlaces, download, pixels } from "./files.ts";
import { linkTo } from "./link.ts";
import { fileName } from "./saving.ts";

/** Pixels of a PNG to each of the drawing's own. */
const PNG_TIMES = 2;
/** More letters than this no QR code holds. */
const MOST_IN_QR = 2900;

@customElement("keep-part")
export class KeepPart extends KeepingElement {
  protected override follows = ["panel", "labels", "layout"];
  @query("dialog") private dialog!: HTMLDialogElement;
  @state() private link = "";
  @state() private pictureFailed = false;

  protected override render(): TemplateResult {
    const { bench, keeper, saving } = this;
    const { labels } = bench;
    const where = saving.where();
    return html`
      <div class="buttons">
        <button type="button" @click=${() => saving.save(false)}>${labels.save_long}</button>
        ${asksForPlaces() ? html`<button type="button" @click=${() => saving.save(true)}>${labels.save_as}</button>` : nothing}
        <button type="button" @click=${this.#showLink}>${labels.link}</button>
        <button type="button" @click=${this.#svg}>${labels.picture_svg}</button>
        <button type="button" @click=${this.#png}>${labels.picture_png}</button>
      </div>
      ${where ? html`<p class="note" role="status">${where.name}: ${where.same ? labels.saved : labels.not_saved}</p>` : nothing}
      ${this.pictureFailed ? html`<p class="refused" role="alert">${labels.picture_failed}</p>` : nothing}
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
      <dialog class="link" aria-labelledby="link-heading" @close=${this.#closed}>
        <h2 id="link-heading">${labels.link}</h2>
        ${this.#qr()}
        ${this.#warnings()}
        <p>${labels.link_about}</p>
        <textarea readonly rows="3" aria-label=${labels.link} .value=${this.link}></textarea>
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

  /** What whoever passes the link on should know first. */
  #warnings(): TemplateResult | typeof nothing {
    const { bench } = this;
    const { labels } = bench;
    if (!this.link) return nothing;
    const draft = bench.form().length > 0 ? labels.link_draft : labels.link_no_toml;
    return html`
      ${bench.draftProblems.length > 0 ? html`<p class="caution">${draft}</p>` : nothing}
      ${location.protocol === "file:" ? html`<p class="caution">${labels.link_local}</p>` : nothing}
    `;
  }

  async #showLink(): Promise<void> {
    this.bench.settle();
    this.link = await linkTo(this.bench.draftText);
    await this.updateComplete;
    this.dialog.showModal();
    // The beginning of all of it, wherever the browser sets focus and caret.
    const field = this.dialog.querySelector("textarea");
    field?.setSelectionRange(0, 0);
    field?.scrollTo(0, 0);
    this.dialog.scrollTo(0, 0);
  }

  #closed(): void {
    this.link = "";
  }

  #svg(): void {
    const { bench } = this;
    const svg = new Blob([bench.svg()], { type: "image/svg+xml" });
    download(fileName(bench.panel.title, "svg"), svg);
  }

  async #png(): Promise<void> {
    const { bench } = this;
    this.pictureFailed = false;
    try {
      download(fileName(bench.panel.title, "png"), await pixels(bench.svg(), PNG_TIMES));
    } catch {
      this.pictureFailed = true;
    }
  }
}
