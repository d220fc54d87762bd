// Where works are kept in the browser: one record for each, in IndexedDB, written through to the disk. Knows
// nothing of layouts. Every call may fail: storage can be forbidden, full, or gone.

import type { Left } from "../../generated/page.js";

/** A piece of work as it was last. */
export interface Work {
  id: string;
  /** What its list calls it. */
  title: string;
  /** The text of the layout on the bench. */
  layout: string;
  /** The text as it was being written. */
  written: string;
  /** How the job on the layout stood; works kept by earlier pages have none. */
  left?: Left;
  /** When, ms since 1970. */
  kept: number;
}

const NAME = "two-turns";
const WORKS = "works";

let opened: Promise<IDBDatabase> | undefined;

function database(): Promise<IDBDatabase> {
  opened ??= new Promise<IDBDatabase>((resolve, reject) => {
    const asked = indexedDB.open(NAME, 1);
    asked.onupgradeneeded = () => asked.result.createObjectStore(WORKS, { keyPath: "id" });
    asked.onsuccess = () => resolve(asked.result);
    asked.onerror = () => reject(asked.error ?? new Error());
    asked.onblocked = () => reject(new Error());
  });
  opened.catch(() => {
    opened = undefined;
  });
  return opened;
}

async function within<T>(
  mode: IDBTransactionMode,
  what: (works: IDBObjectStore) => IDBRequest<T>,
): Promise<T> {
  const kept = await database();
  return new Promise<T>((resolve, reject) => {
    const transaction = kept.transaction(WORKS, mode, { durability: "strict" });
    const asked = what(transaction.objectStore(WORKS));
    const failed = (): void => reject(transaction.error ?? asked.error ?? new Error());
    transaction.oncomplete = () => resolve(asked.result);
    transaction.onerror = failed;
    transaction.onabort = failed;
  });
}

export async function keep(work: Work): Promise<void> {
  await within("readwrite", (works) => works.put(work));
}

export async function forget(id: string): Promise<void> {
  await within("readwrite", (works) => works.delete(id));
}

/** All that is kept, the newest first. */
export async function all(): Promise<Work[]> {
  const works = await within("readonly", (store) => store.getAll() as IDBRequest<unknown[]>);
  return works.filter(isWork).sort((a, b) => b.kept - a.kept);
}

/** What is kept under a name. */
export async function kept(id: string): Promise<Work | undefined> {
  const found = await within("readonly", (works) => works.get(id) as IDBRequest<unknown>);
  return isWork(found) ? found : undefined;
}

/** Whether something that was stored is a work: what another hand stored may be anything. */
export function isWork(stored: unknown): stored is Work {
  const work = stored as Partial<Work> | null | undefined;
  const texts = [work?.id, work?.title, work?.layout, work?.written];
  return texts.every((text) => typeof text === "string") && Number.isFinite(work?.kept);
}
