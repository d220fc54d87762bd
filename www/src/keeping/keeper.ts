// Keeps the work in the browser as it goes, and brings it back: after a crash, a closed tab, a link. Knows
// nothing of how any of it is shown.
import type { Bench } from "../bench.ts";
import { held, hold, holdNew, ownBefore } from "./hold.ts";
import { hasLayout, layoutIn } from "./link.ts";
import { all, forget, keep, type Work } from "./store.ts";

/** A change is kept after a pause of this long, ms. */
const PAUSE_MS = 250;
/** Most works that are kept; of more, the oldest go. */
const MOST = 30;

/** What became of keeping: `fine`, or why not. */
export type Standing = "fine" | "forbidden" | "full";

/** Event: `kept`, whenever there is something else to say. */
export class Keeper extends EventTarget {
  standing: Standing = "fine";
  /** When the work that was brought back was kept, ms since 1970. */
  restored: number | undefined;
  /** Whether a link could not be read. */
  badLink = false;
  works: Work[] = [];
  readonly #bench: Bench;
  #id = "";
  #pause = 0;
  #last = "";
  #written: Promise<void> = Promise.resolve();

  constructor(bench: Bench) {
    super();
    this.#bench = bench;
  }

  /** Brings the last work back, or what a link brings, and keeps from then on. */
  async begin(): Promise<void> {
    await this.#comeBack();
    if (hasLayout(location.hash)) await this.#follow();
    this.#bench.addEventListener("layout", () => this.#soon());
    this.#bench.addEventListener("moved", () => this.#soon());
    this.#bench.addEventListener("opened", () => void this.#another());
    window.addEventListener("hashchange", () => {
      if (hasLayout(location.hash)) void this.#follow();
    });
    for (const event of ["pagehide", "visibilitychange"]) {
      document.addEventListener(event, () => void this.now());
      window.addEventListener(event, () => void this.now());
    }
  }

  /** Keeps what there is, without a pause. */
  now(): Promise<void> {
    clearTimeout(this.#pause);
    const { layoutText: layout, draftText: written, panel } = this.#bench;
    if (!this.#id || written === this.#last) return this.#written;
    // A shipped layout that nobody has touched is no work.
    if (layout === written && this.#bench.isShipped(layout)) {
      this.#last = written;
      return this.#written;
    }
    this.#last = written;
    const work: Work = { id: this.#id, title: panel.title, layout, written, kept: Date.now() };
    this.#written = this.#written.then(() => this.#keep(work));
    return this.#written;
  }

  /** Puts a kept work on the bench, as this tab's own if no other tab has it. */
  async take(work: Work): Promise<void> {
    await this.now();
    this.#put(work);
    this.restored = undefined;
    await this.#own(work.id);
    await this.#list();
  }

  async forget(work: Work): Promise<void> {
    try {
      await forget(work.id);
      if (work.id === this.#id) this.#last = this.#bench.draftText;
    } catch (problem) {
      this.#failed(problem);
    }
    await this.#list();
  }

  /** Whether a living tab, this one or another, has a work open. */
  isOpen(work: Work): boolean {
    return this.#open.has(work.id);
  }

  #open = new Set<string>();

  async #comeBack(): Promise<void> {
    try {
      await this.#list();
    } catch (problem) {
      this.#failed(problem);
    }
    const before = ownBefore();
    const mine = this.works.find((work) => work.id === before && !this.#open.has(work.id));
    const left = mine ?? this.works.find((work) => !this.#open.has(work.id));
    // A tab that had nothing of its own when it was loaded anew has nothing to bring back.
    if (!left || (before && !mine)) {
      this.#id = await holdNew();
      await this.#list();
      return;
    }
    this.#put(left);
    this.restored = left.kept;
    await this.#own(left.id);
    await this.#list();
  }

  #put(work: Work): void {
    this.#last = work.written;
    this.#bench.restore(work.layout, work.written);
  }

  async #own(id: string): Promise<void> {
    this.#id = (await hold(id)) ? id : await holdNew();
    if (this.#id !== id) this.#last = "";
  }

  /** Another layout was opened: the one before stays among those kept. */
  async #another(): Promise<void> {
    this.restored = undefined;
    this.#id = "";
    this.#last = "";
    this.#id = await holdNew();
    await this.now();
    await this.#list();
  }

  async #follow(): Promise<void> {
    const { hash } = location;
    try {
      const bytes = await layoutIn(hash);
      this.badLink = false;
      this.dispatchEvent(new CustomEvent("linked", { detail: bytes }));
    } catch {
      this.badLink = true;
    }
    // Loaded anew, the work itself comes back, not the link once more.
    history.replaceState(null, "", location.href.split("#")[0]);
    this.dispatchEvent(new Event("kept"));
  }

  #soon(): void {
    clearTimeout(this.#pause);
    this.#pause = window.setTimeout(() => void this.now(), PAUSE_MS);
  }

  async #keep(work: Work): Promise<void> {
    try {
      await keep(work);
      this.standing = "fine";
      await this.#list();
      const old = this.works.slice(MOST).filter((each) => !this.#open.has(each.id));
      for (const each of old) await forget(each.id);
    } catch (problem) {
      this.#last = "";
      this.#failed(problem);
    }
  }

  async #list(): Promise<void> {
    try {
      this.works = await all();
      this.#open = await held();
    } catch (problem) {
      this.#failed(problem);
    }
    this.dispatchEvent(new Event("kept"));
  }

  #failed(problem: unknown): void {
    const full = problem instanceof DOMException && problem.name === "QuotaExceededError";
    this.standing = full ? "full" : "forbidden";
    this.dispatchEvent(new Event("kept"));
  }
}
