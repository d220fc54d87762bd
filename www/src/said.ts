// A reading on the page: its text, with its path and full figure beside it. Formats nothing.
import { html, type TemplateResult } from "lit";
import type { Said } from "../generated/page.js";

/** One reading as an element; `standing` is an extra class that styles it. */
export function said(reading: Said, standing = ""): TemplateResult {
  return html`<data class=${`said ${standing}`} data-key=${reading.key} data-value=${String(reading.value)} value=${String(reading.value)}>${reading.text}</data>`;
}
