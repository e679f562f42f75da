/** The workbench's workbook in the browser's own storage: one at a time, nothing before the first change. */
export interface WorkbenchStore {
  /** What was kept last. @throws {Error} when the storage cannot be read. */
  load(): Promise<string | undefined>;
  keep(workbook: string): Promise<void>;
  /** Out of the way, but not lost: it cannot be opened. */
  setAside(): Promise<void>;
  clear(): Promise<void>;
}

const DATABASE = "downfeed";
const TABLE = "workbooks";
const CURRENT = "current";
const ASIDE = "set aside";

export function workbenchStore(): WorkbenchStore {
  return {
    async load() {
      if (!(await isThere())) return undefined;
      const kept = await inTable("readonly", (table) => table.get(CURRENT));
      if (kept === undefined || typeof kept === "string") return kept;
      throw new Error("what was kept is not a workbook");
    },
    async keep(workbook) {
      await inTable("readwrite", (table) => table.put(workbook, CURRENT));
    },
    async setAside() {
      if (!(await isThere())) return;
      const kept = await inTable("readonly", (table) => table.get(CURRENT));
      await inTable("readwrite", (table) => table.put(kept, ASIDE));
      await inTable("readwrite", (table) => table.delete(CURRENT));
    },
    async clear() {
      if (!(await isThere())) return;
      await inTable("readwrite", (table) => table.delete(CURRENT));
    },
  };
}

/** Asked first: opening a database makes one. Older browsers cannot tell. */
async function isThere(): Promise<boolean> {
  if (!("databases" in indexedDB)) return true;
  const known = await indexedDB.databases();
  return known.some(({ name }) => name === DATABASE);
}

async function inTable<T>(
  mode: IDBTransactionMode,
  ask: (table: IDBObjectStore) => IDBRequest<T>,
): Promise<T> {
  const database = await opened();
  try {
    return await new Promise<T>((done, fail) => {
      const transaction = database.transaction(TABLE, mode);
      const request = ask(transaction.objectStore(TABLE));
      // Kept only when the transaction is through.
      transaction.oncomplete = () => done(request.result);
      transaction.onabort = () => fail(transaction.error ?? request.error);
    });
  } finally {
    database.close();
  }
}

function opened(): Promise<IDBDatabase> {
  return new Promise((done, fail) => {
    const request = indexedDB.open(DATABASE, 1);
    request.onupgradeneeded = () => request.result.createObjectStore(TABLE);
    request.onsuccess = () => done(request.result);
    request.onerror = () => fail(request.error);
    request.onblocked = () => fail(new Error("another tab holds it"));
  });
}
