// Saves the work to files. Every sheet of the bench has a place of its own once it was saved, so that no
// document is saved over another's file. Knows nothing of how any of it is shown.
import type { Bench } from "../bench.ts";
import { askPlace, asksForPlaces, download, type Place, writeTo } from "./files.ts";

/** Event: `saved`, whenever a saving has ended, well or not. */
export class Saving extends EventTarget {
  /** Whether the last saving failed. */
  failed = false;
  readonly #bench: Bench;
  /** Where each sheet was saved last, and the text that is there. */
  readonly #places = new Map<number, { place: Place; text: string }>();
  #busy = false;

  constructor(bench: Bench) {
    super();
    this.#bench = bench;
  }

  /** Where the sheet on the bench was saved last, and whether it is as it was then; nothing before. */
  where(): { name: string; same: boolean } | undefined {
    const { sheetNumber, draftText } = this.#bench;
    const saved = this.#places.get(sheetNumber);
    return saved && { name: saved.place.name, same: saved.text === draftText };
  }

  /** Saves where the sheet was saved last; for the first time, or `elsewhere`, it is asked where. */
  async save(elsewhere: boolean): Promise<void> {
    if (this.#busy) return;
    this.#busy = true;
    this.failed = false;
    this.#bench.settle();
    const { sheetNumber: number, layoutTitle: title, draftText: written } = this.#bench;
    const name = fileName(title, "toml");
    try {
      if (!asksForPlaces()) {
        download(name, new Blob([written], { type: "application/toml" }));
        return;
      }
      const before = elsewhere ? undefined : this.#places.get(number)?.place;
      const place = before ?? (await askPlace(name));
      if (!place) return;
      await writeTo(place, written);
      this.#places.set(number, { place, text: written });
    } catch {
      this.failed = true;
    } finally {
      this.#busy = false;
      this.dispatchEvent(new Event("saved"));
    }
  }
}

/** A file's name from a layout's title. */
export function fileName(title: string, ending: string): string {
  const plain = title.toLowerCase().replace(/[^\p{L}\p{N}]+/gu, "-");
  return `${plain.replace(/^-|-$/g, "") || "layout"}.${ending}`;
}
