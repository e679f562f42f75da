/** The workbench's workbook in the browser's own storage: one at a time, nothing before the first change. */
export interface WorkbenchStore {
  /** What was kept last. @throws {Error} when the storage cannot be read. */
  load(): Promise<string | undefined>;
  /** Whether another page kept a workbook since this one loaded or kept its own. */
  isNewer(): Promise<boolean>;
  /** Whether `keep` hands the workbook to the browser before it returns, as a page that is left must. */
  readonly isReady: boolean;
  /**
   * Resolves once it is kept.
   * @param isSole nobody else keeps one meanwhile: where others may, what is there is looked at first.
   * @throws {NewerWorkbook} where another page's is there; it stays.
   */
  keep(workbook: string, isSole: boolean): Promise<void>;
  /** Sets aside a workbook that cannot be opened; it is not lost. */
  setAside(): Promise<void>;
  clear(): Promise<void>;
  /** Calls the listener where somebody else has cleared the browser's storage, and the workbook in it is gone. */
  onCleared(listener: () => void): void;
}

export class NewerWorkbook extends Error {}

const DATABASE = "downfeed";
const TABLE = "workbooks";
const CURRENT = "current";
/** Another one each time that a workbook is kept. */
const STAMP = "stamp";
const ASIDE = "set aside";

export function workbenchStore(): WorkbenchStore {
  /** Held open: a page that is left has no time to open it. */
  let database: IDBDatabase | undefined;
  let known: unknown;
  let isKept = false;
  let cleared: () => void = () => {};

  async function opened(): Promise<IDBDatabase> {
    return (database ??= await openDatabase({
      released: () => (database = undefined),
      cleared: () => {
        database = undefined;
        const isLost = isKept;
        isKept = false;
        if (isLost) cleared();
      },
    }));
  }

  async function run<T>(
    mode: IDBTransactionMode,
    ask: (table: IDBObjectStore) => IDBRequest<T>,
  ): Promise<T> {
    return inTable(database ?? (await opened()), mode, ask);
  }

  return {
    async load() {
      if (!(await isThere())) return undefined;
      known = await run("readonly", (table) => table.get(STAMP));
      const kept: unknown = await run("readonly", (table) => table.get(CURRENT));
      isKept = kept !== undefined;
      if (kept === undefined || typeof kept === "string") return kept;
      throw new Error("what was kept is not a workbook");
    },
    async isNewer() {
      const isEmpty = (await run("readonly", (table) => table.count(CURRENT))) === 0;
      return !isEmpty && (await run("readonly", (table) => table.get(STAMP))) !== known;
    },
    get isReady() {
      return database !== undefined;
    },
    async keep(workbook, isSole) {
      if (!isSole && (await this.isNewer())) throw new NewerWorkbook();
      const stamp = `${Date.now()} ${Math.random()}`;
      await run("readwrite", (table) => {
        table.put(stamp, STAMP);
        return table.put(workbook, CURRENT);
      });
      known = stamp;
      isKept = true;
    },
    async setAside() {
      if (!(await isThere())) return;
      const kept: unknown = await run("readonly", (table) => table.get(CURRENT));
      await run("readwrite", (table) => table.put(kept, ASIDE));
      await run("readwrite", (table) => table.delete(CURRENT));
      isKept = false;
    },
    async clear() {
      if (!(await isThere())) return;
      await run("readwrite", (table) => table.delete(CURRENT));
      isKept = false;
    },
    onCleared(listener) {
      cleared = listener;
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
  database: IDBDatabase,
  mode: IDBTransactionMode,
  ask: (table: IDBObjectStore) => IDBRequest<T>,
): Promise<T> {
  return new Promise<T>((done, fail) => {
    const transaction = database.transaction(TABLE, mode);
    const request = ask(transaction.objectStore(TABLE));
    // Kept only when the transaction is through.
    transaction.oncomplete = () => done(request.result);
    transaction.onabort = () => fail(transaction.error ?? request.error);
    // Without waiting for the answers: who leaves the page does not hear them.
    transaction.commit();
  });
}

interface DatabaseEnds {
  /** Closed because another page asks for it; what it holds stays. */
  released(): void;
  /** Closed by the browser, and what it held is gone. */
  cleared(): void;
}

/** After either end it has to be opened again. */
function openDatabase({ released, cleared }: DatabaseEnds): Promise<IDBDatabase> {
  return new Promise((done, fail) => {
    const request = indexedDB.open(DATABASE, 1);
    request.onupgradeneeded = () => request.result.createObjectStore(TABLE);
    request.onsuccess = () => {
      const database = request.result;
      database.onclose = cleared;
      database.onversionchange = () => {
        database.close();
        released();
      };
      done(database);
    };
    request.onerror = () => fail(request.error);
    request.onblocked = () => fail(new Error("another tab holds it"));
  });
}
