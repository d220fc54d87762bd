// Something done when a change has come to rest, and after a while at the latest however it goes on. Knows
// nothing of what it is.

/** A change has come to rest after a pause of this long, ms. */
const PAUSE_MS = 250;
/** What goes on changing is not waited for longer, ms. */
const LONGEST_MS = 1500;

export class Pause {
  readonly #what: () => void;
  #timer = 0;
  /** Since when something changes, ms of the page's own clock. */
  #since: number | undefined;

  constructor(what: () => void) {
    this.#what = what;
  }

  /** It changed, once more or for the first time. */
  changed(): void {
    const now = performance.now();
    this.#since ??= now;
    clearTimeout(this.#timer);
    const longest = Math.max(0, this.#since + LONGEST_MS - now);
    this.#timer = window.setTimeout(this.#what, Math.min(PAUSE_MS, longest));
  }

  /** Nothing waits any more. */
  end(): void {
    clearTimeout(this.#timer);
    this.#since = undefined;
  }
}
