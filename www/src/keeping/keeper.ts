// Keeps the work in the browser as it goes, and brings it back: after a crash, a closed tab, a link. Every
// sheet of the bench has a record of its own, so that no document is kept over another, whatever is undone.
// Knows nothing of how any of it is shown.
import type { Bench, Sheet } from "../bench.ts";
import { Pause } from "../pause.ts";
import { held, hold, newId, ownBefore, remember } from "./hold.ts";
import { leave, takeLeft } from "./last-moment.ts";
import { hasLayout, layoutIn } from "./link.ts";
import { all, forget, keep, kept as keptAt, type Work } from "./store.ts";

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
  /** How it is back. */
  as: "left" | "in_time" | "unopened";
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
  /** A change is kept when it has come to rest. */
  readonly #pause = new Pause(() => void this.#flush());
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
    document.addEventListener("visibilitychange", () => {
      void this.now();
      // Other tabs have kept meanwhile.
      if (document.visibilityState === "visible") void this.#list();
    });
    window.addEventListener("pagehide", () => this.#leave());
    if (hasLayout(location.hash)) await this.#follow();
  }

  /** Keeps what there is, without a pause. */
  now(): Promise<void> {
    this.#bench.settle();
    return this.#flush();
  }

  #flush(): Promise<void> {
    this.#pause.end();
    const sheet = this.#waiting;
    this.#waiting = undefined;
    return sheet ? this.#then(() => this.#keep(sheet)) : this.#queue;
  }

  /** Puts a kept work on the bench, as this tab's own if no other tab has it. */
  async take({ id }: Work): Promise<void> {
    await this.#take(id);
    if (this.restored?.as !== "unopened") this.restored = undefined;
    await this.#list();
  }

  /** Takes up what is kept under `id`, as it is there now. */
  async #take(id: string): Promise<void> {
    await this.now();
    const work = await keptAt(id).catch((problem) => this.#failed(problem));
    if (!work) return;
    const as = this.#bench.restore(work);
    this.restored = { kept: work.kept, as };
    // It stays as it is kept: what is on the bench is something else.
    if (as === "unopened") return;
    const sheet = this.#bench.sheet();
    // A sheet of the way back that was kept under it is older, and must not be kept over it.
    for (const [sheet, { id }] of this.#kept) if (id === work.id) this.#kept.delete(sheet);
    this.#kept.set(sheet.number, { id: work.id, last: asText(sheet) });
    await this.#then(() => this.#keep(this.#bench.sheet()));
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
    for (const left of takeLeft()) await this.#keepLeft(left);
    await this.#list();
    const before = ownBefore();
    const mine = this.works.find((work) => work.id === before && !this.#open.has(work.id));
    const left = mine ?? this.works.find((work) => !this.#open.has(work.id));
    // A tab that had nothing of its own when it was loaded anew has nothing to bring back.
    if (left && (mine || !before)) {
      await this.#take(left.id);
    } else {
      await this.#then(() => this.#keep(this.#bench.sheet()));
    }
    await this.#list();
  }

  /** Keeps what an earlier page left behind, unless something later is kept; it stays left where that fails. */
  async #keepLeft(left: Work): Promise<void> {
    try {
      const there = await keptAt(left.id);
      if (!there || there.kept < left.kept) await keep(left);
    } catch {
      leave(left);
    }
  }

  /** The bench has something else: it is kept after a pause, and what waits of another sheet at once. */
  #changed(): void {
    // What a replay shows is over soon, and is not how things were left.
    if (this.#bench.replaying) return;
    const sheet = this.#bench.sheet();
    const waited = this.#waiting;
    if (waited && waited.number !== sheet.number) void this.#then(() => this.#keep(waited));
    this.#waiting = sheet;
    this.#pause.changed();
  }

  /** The page goes, and what was asked of the storage may come to nothing. */
  #leave(): void {
    this.#bench.settle();
    for (const sheet of [this.#writing, this.#waiting]) {
      if (!sheet || !this.#isWork(sheet)) continue;
      const { id } = this.#kept.get(sheet.number) ?? this.#begin(sheet.number);
      leave(this.#asWork(id, sheet));
      // Loaded anew, what was on the bench last comes back.
      remember(id);
    }
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
    kept = this.#begin(number);
    await hold(kept.id);
    this.#own = kept.id;
    return kept;
  }

  #begin(number: number): Kept {
    const kept = { id: newId() };
    this.#kept.set(number, kept);
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
      let kept = await this.#hold(sheet.number);
      if (!this.#isWork(sheet)) return;
      const there = await keptAt(kept.id);
      // Another tab had it meanwhile, and has gone on with it: what is there stays, too.
      if (there && kept.last !== undefined && asText(there) !== kept.last) {
        this.#kept.delete(sheet.number);
        kept = await this.#hold(sheet.number);
      }
      await keep(this.#asWork(kept.id, sheet));
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

  /** A clock that was put back makes nothing older than what was kept before. */
  #asWork(id: string, { number, ...work }: Sheet): Work {
    const newest = Math.max(0, ...this.works.map((each) => each.kept + 1));
    return { id, ...work, kept: Math.max(Date.now(), newest) };
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

/** All of a sheet that is kept. */
function asText({ layout, written, left }: Pick<Sheet, "layout" | "written" | "left">): string {
  return JSON.stringify([layout, written, left]);
}
