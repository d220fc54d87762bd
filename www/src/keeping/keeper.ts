// Keeps the work in the browser as it goes, and brings it back: after a crash, a closed tab, a link. Every
// sheet of the bench has a record of its own, so that no document is kept over another, whatever is undone.
// Knows nothing of how any of it is shown.
import type { Bench, Sheet } from "../bench.ts";
import { held, hold, newId, ownBefore } from "./hold.ts";
import { leave, takeLeft } from "./last-moment.ts";
import { hasLayout, layoutIn } from "./link.ts";
import { all, forget, keep, type Work } from "./store.ts";

/** A change is kept after a pause of this long, ms. */
const PAUSE_MS = 250;
/** Most works that are kept; of more, the oldest go. */
const MOST = 30;

/** What became of keeping: `fine`, or why not. */
export type Standing = "fine" | "forbidden" | "full";

/** Under what a sheet is kept, and what was kept there last; nothing before the first. */
interface Kept {
  id: string;
  last?: string;
}

/** A work that was brought back. */
export interface Restored {
  /** When it was kept, ms since 1970. */
  kept: number;
  /** Whether the drive stands as it was left; else in time on its marks. */
  stands: boolean;
}

/** Event: `kept`, whenever there is something else to say; `linked`, with the bytes that a link brings. */
export class Keeper extends EventTarget {
  standing: Standing = "fine";
  /** The work that was brought back, until something else is on the bench or it is known. */
  restored: Restored | undefined;
  /** Whether a link could not be read. */
  badLink = false;
  works: Work[] = [];
  readonly #bench: Bench;
  readonly #kept = new Map<number, Kept>();
  /** Under what this tab keeps now. */
  #own = "";
  /** The sheet as it was last, while it is not kept yet. */
  #waiting: Sheet | undefined;
  /** The sheet that is being kept. */
  #writing: Sheet | undefined;
  #pause = 0;
  /** Everything that goes to the storage, one after the other. */
  #queue: Promise<void> = Promise.resolve();
  #open = new Set<string>();

  constructor(bench: Bench) {
    super();
    this.#bench = bench;
  }

  /** Brings the last work back, or what a link brings, and keeps from then on. */
  async begin(): Promise<void> {
    await this.#comeBack();
    // Whatever changes, its readings follow.
    for (const event of ["layout", "panel"]) {
      this.#bench.addEventListener(event, () => this.#changed());
    }
    this.#bench.addEventListener("opened", () => {
      this.restored = undefined;
      this.dispatchEvent(new Event("kept"));
    });
    window.addEventListener("hashchange", () => {
      if (hasLayout(location.hash)) void this.#follow();
    });
    document.addEventListener("visibilitychange", () => void this.now());
    window.addEventListener("pagehide", () => this.#leave());
    if (hasLayout(location.hash)) await this.#follow();
  }

  /** Keeps what there is, without a pause. */
  now(): Promise<void> {
    this.#bench.settle();
    clearTimeout(this.#pause);
    const sheet = this.#waiting;
    this.#waiting = undefined;
    return sheet ? this.#then(() => this.#keep(sheet)) : this.#queue;
  }

  /** Puts a kept work on the bench, as this tab's own if no other tab has it. */
  async take(work: Work): Promise<void> {
    await this.#take(work);
    this.restored = undefined;
    await this.#list();
  }

  /** Whether the drive stands as it was left. */
  async #take(work: Work): Promise<boolean> {
    await this.now();
    const stands = this.#bench.restore(work);
    const sheet = this.#bench.sheet();
    // A sheet of the way back that was kept under it is older, and must not be kept over it.
    for (const [sheet, { id }] of this.#kept) if (id === work.id) this.#kept.delete(sheet);
    this.#kept.set(sheet.number, { id: work.id, last: asText(sheet) });
    await this.#then(() => this.#keep(this.#bench.sheet()));
    return stands;
  }

  async forget(work: Work): Promise<void> {
    // What waits would be kept again.
    await this.now();
    try {
      await forget(work.id);
    } catch (problem) {
      this.#failed(problem);
    }
    await this.#list();
  }

  /** Whether a living tab, this one or another, has a work open. */
  isOpen(work: Work): boolean {
    return this.#open.has(work.id);
  }

  async #comeBack(): Promise<void> {
    await this.#list();
    for (const left of takeLeft()) {
      const before = this.works.find((work) => work.id === left.id);
      if (!before || before.kept < left.kept) await keep(left).catch(() => leave(left));
    }
    await this.#list();
    const before = ownBefore();
    const mine = this.works.find((work) => work.id === before && !this.#open.has(work.id));
    const left = mine ?? this.works.find((work) => !this.#open.has(work.id));
    // A tab that had nothing of its own when it was loaded anew has nothing to bring back.
    if (left && (mine || !before)) {
      this.restored = { kept: left.kept, stands: await this.#take(left) };
    } else {
      await this.#then(() => this.#keep(this.#bench.sheet()));
    }
    await this.#list();
  }

  /** The bench has something else: it is kept after a pause, and what waits of another sheet at once. */
  #changed(): void {
    const sheet = this.#bench.sheet();
    const waited = this.#waiting;
    if (waited && waited.number !== sheet.number) void this.#then(() => this.#keep(waited));
    this.#waiting = sheet;
    clearTimeout(this.#pause);
    this.#pause = window.setTimeout(() => void this.now(), PAUSE_MS);
  }

  /** The page goes, and what was asked of the storage may come to nothing. */
  #leave(): void {
    this.#bench.settle();
    const sheet = this.#waiting ?? this.#writing;
    if (sheet && this.#isWork(sheet))
      leave(asWork(this.#kept.get(sheet.number)?.id ?? newId(), sheet));
    void this.now();
  }

  /** A shipped layout that nobody has touched is no work. */
  #isWork(sheet: Sheet): boolean {
    const { layout, written } = sheet;
    const kept = this.#kept.get(sheet.number)?.last;
    if (asText(sheet) === kept) return false;
    return kept !== undefined || layout !== written || !this.#bench.isShipped(layout);
  }

  #then(what: () => Promise<void>): Promise<void> {
    this.#queue = this.#queue.then(what);
    return this.#queue;
  }

  /** Under what a sheet is kept: this tab's own from now on, and no other tab's. */
  async #hold(number: number): Promise<Kept> {
    let kept = this.#kept.get(number);
    if (kept && (kept.id === this.#own || (await hold(kept.id)))) {
      this.#own = kept.id;
      return kept;
    }
    // A new sheet, or another tab has its record: from now on there are two.
    kept = { id: newId() };
    this.#kept.set(number, kept);
    await hold(kept.id);
    this.#own = kept.id;
    return kept;
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

  async #keep(sheet: Sheet): Promise<void> {
    try {
      this.#writing = sheet;
      const kept = await this.#hold(sheet.number);
      if (!this.#isWork(sheet)) return;
      await keep(asWork(kept.id, sheet));
      kept.last = asText(sheet);
      this.standing = "fine";
      await this.#list();
      const old = this.works.slice(MOST).filter((each) => !this.#open.has(each.id));
      for (const each of old) await forget(each.id);
    } catch (problem) {
      this.#failed(problem);
    } finally {
      this.#writing = undefined;
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

function asWork(id: string, { number, ...work }: Sheet): Work {
  return { id, ...work, kept: Date.now() };
}

/** All of a sheet that is kept. */
function asText({ layout, written, left }: Sheet): string {
  return JSON.stringify([layout, written, left]);
}
