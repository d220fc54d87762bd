// What changed just before the page went: a database cannot be relied on any more then, so it is left where
// it is written at once, and found there by whichever page comes next. Knows nothing of what a work is.
import { isWork, type Work } from "./store.ts";

const MARK = "two-turns-left ";

/** Leaves a work behind; nothing where storage is forbidden or full. */
export function leave(work: Work): void {
  try {
    localStorage.setItem(MARK + work.id, JSON.stringify(work));
  } catch {
    // The moment before is in the database.
  }
}

/** The works left behind, which are then no longer there. */
export function takeLeft(): Work[] {
  try {
    const names = Object.keys(localStorage).filter((name) => name.startsWith(MARK));
    return names.map(take).filter((work) => work !== undefined);
  } catch {
    return [];
  }
}

function take(name: string): Work | undefined {
  const left = localStorage.getItem(name);
  localStorage.removeItem(name);
  try {
    const work: unknown = JSON.parse(left ?? "null");
    return isWork(work) ? work : undefined;
  } catch {
    return undefined;
  }
}
