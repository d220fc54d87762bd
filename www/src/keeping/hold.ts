// Which work is this tab's own. A tab holds a lock on its work while it lives, so that no other tab writes
// over it, and a work that no lock is on was left by a tab that is gone. Knows nothing of what a work is.

const PLACE = "two-turns-work";

function lockName(id: string): string {
  return `two-turns-work ${id}`;
}

/** The work that this tab had before it was loaded anew. */
export function ownBefore(): string | undefined {
  try {
    return sessionStorage.getItem(PLACE) ?? undefined;
  } catch {
    return undefined;
  }
}

let letGo = (): void => {};

/**
 * Holds the work `id` as this tab's own, in place of the one before; whether no other tab holds it. Where
 * nobody can tell it is taken to be so: whoever keeps looks whether another tab has kept there meanwhile.
 */
export async function hold(id: string): Promise<boolean> {
  const got = await new Promise<boolean>((resolve) => {
    if (!navigator.locks) {
      resolve(true);
      return;
    }
    navigator.locks
      .request(lockName(id), { ifAvailable: true }, (lock) => {
        resolve(lock !== null);
        if (!lock) return undefined;
        letGo();
        return new Promise<void>((release) => {
          letGo = release;
        });
      })
      .catch(() => resolve(true));
  });
  if (got) remember(id);
  return got;
}

/** A name for a new work. */
export function newId(): string {
  return crypto.randomUUID?.() ?? `${Date.now()}-${Math.random()}`;
}

/** The works that a living tab holds. */
export async function held(): Promise<Set<string>> {
  try {
    const { held: locks = [] } = await navigator.locks.query();
    return new Set(locks.map((lock) => lock.name?.replace(lockName(""), "") ?? ""));
  } catch {
    return new Set();
  }
}

/** What this tab has is kept under `id`, also when it is loaded anew. */
export function remember(id: string): void {
  try {
    sessionStorage.setItem(PLACE, id);
  } catch {
    // Then a page loaded anew takes the newest work that nobody holds.
  }
}
