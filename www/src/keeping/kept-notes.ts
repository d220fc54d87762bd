// What there is to say of keeping: that the last work is here again, that a link was damaged, that nothing
// can be kept or saved. Shown over every task.
import { html, nothing, type TemplateResult } from "lit";
import { customElement } from "lit/decorators.js";
import { KeepingElement } from "./element.ts";
import type { Restored } from "./keeper.ts";

@customElement("kept-notes")
export class KeptNotes extends KeepingElement {
  protected override render(): TemplateResult {
    const { bench, keeper, saving } = this;
    const { labels } = bench;
    return html`
      ${keeper.badLink ? html`<p class="kept-note" role="alert">${labels.bad_link} <button type="button" @click=${this.#closeLink}>${labels.close}</button></p>` : nothing}
      ${saving.failed ? html`<p class="kept-note" role="alert">${labels.save_failed}</p>` : nothing}
      ${keeper.standing === "forbidden" ? html`<p class="kept-note" role="status">${labels.keep_forbidden}</p>` : nothing}
      ${keeper.standing === "full" ? html`<p class="kept-note" role="alert">${labels.keep_full}</p>` : nothing}
      ${
        keeper.restored === undefined
          ? nothing
          : html`<p class="kept-note" role="status">
              ${keeper.restored.as === "unopened" ? labels.restored_not : `${labels.restored} ${bench.when(keeper.restored.kept)}. ${this.#how(keeper.restored)}`}
              <span class="buttons">
                <button type="button" @click=${() => bench.startAfresh()}>${labels.start_afresh}</button>
                <button type="button" @click=${this.#closeRestored}>${labels.close}</button>
              </span>
            </p>`
      }
    `;
  }

  #how({ as }: Restored): string {
    const { labels, draftProblems } = this.bench;
    if (draftProblems.length > 0) return labels.restored_draft;
    return as === "left" ? labels.restored_how : labels.restored_in_time;
  }

  #closeLink(): void {
    this.keeper.badLink = false;
    this.requestUpdate();
  }

  #closeRestored(): void {
    this.keeper.restored = undefined;
    this.requestUpdate();
  }
}
