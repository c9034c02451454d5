// @ts-check
"use strict";

/* Nothing lost: each change of the work goes into the database, and counts as saved when it lies on the disk. */

/** @typedef {import("./bench-way.js").Run} Run */

/** @typedef {{ saved: number } | { other: Run }} Saved when it was complete, or what another window put there */

/**
 * @typedef {object} Store
 * @property {(run: Run, before: () => number) => Promise<Saved>} save `before`, asked at its turn: the count that we believe stored, or -1
 * @property {(key: string) => Promise<Run[]>} list the work on one procedure, the latest first
 * @property {(id: string) => Promise<Run | null>} find
 */

{
  const NAME = "runs";

  /**
   * Whether more is stored than we left there: then another window has carried the work on. Less may be there where
   * the browser refused what we gave it before.
   * @param {Run | undefined} stored
   * @param {number} before
   */
  const isForeign = (stored, before) => stored !== undefined && stored.seq > before;

  /** Work to be offered: begun and not over, the latest first; what was laid away comes last. */
  const offered = (/** @type {readonly Run[]} */ runs) =>
    runs
      .filter(({ ended }) => ended === null)
      .sort((one, other) => Number(one.away) - Number(other.away) || other.saved - one.saved);

  /**
   * What a request answers.
   * @template Answer
   * @param {IDBRequest<Answer>} request
   * @returns {Promise<Answer>}
   */
  const answer = request =>
    new Promise((resolve, reject) => {
      request.addEventListener("success", () => resolve(request.result));
      request.addEventListener("error", () => reject(request.error ?? new Error("The database did not answer")));
    });

  /**
   * @param {IDBFactory} factory
   * @param {string} name
   * @returns {Promise<IDBDatabase>}
   */
  const open = (factory, name) =>
    new Promise((resolve, reject) => {
      const request = factory.open(name, 1);
      request.addEventListener("upgradeneeded", () => {
        request.result.createObjectStore(NAME, { keyPath: "id" }).createIndex("key", "key");
      });
      request.addEventListener("blocked", () => reject(new Error("Another window holds the database")));
      request.addEventListener("error", () => reject(request.error ?? new Error("The database did not open")));
      request.addEventListener("success", () => {
        const database = request.result;
        // Another version of the page may want to change the database: let it.
        database.addEventListener("versionchange", () => database.close());
        resolve(database);
      });
    });

  /**
   * Writes the work, unless another window has written it since; strict: the disk has it when the promise is kept.
   * @param {IDBDatabase} database
   * @param {Run} run
   * @param {number} before
   * @returns {Promise<Saved>}
   */
  const write = (database, run, before) =>
    new Promise((resolve, reject) => {
      const transaction = database.transaction(NAME, "readwrite", { durability: "strict" });
      const runs = transaction.objectStore(NAME);
      /** @type {Run | null} */
      let other = null;
      const stored = runs.get(run.id);
      stored.addEventListener("success", () => {
        if (isForeign(stored.result, before)) other = stored.result;
        else runs.put(run);
      });
      transaction.addEventListener("complete", () => resolve(other ? { other } : { saved: Date.now() }));
      transaction.addEventListener("abort", () => reject(transaction.error ?? new Error("The database gave up")));
      transaction.addEventListener("error", () => reject(transaction.error ?? new Error("The database refused")));
    });

  /**
   * The store of one site. It is opened when it is first asked, and again after a failure.
   * @param {() => IDBFactory} factory
   * @param {string} site
   * @returns {Store}
   */
  const createStore = (factory, site) => {
    /** @type {Promise<IDBDatabase> | null} */
    let opened = null;
    /**
     * @template Result
     * @param {(database: IDBDatabase) => Promise<Result>} use
     */
    const within = async use => {
      try {
        opened ??= open(factory(), `${site}:bench`);
        return await use(await opened);
      } catch (error) {
        opened = null;
        throw error;
      }
    };
    /** @type {Promise<unknown>} */
    let last = Promise.resolve();
    return {
      // One after the other, so that each knows what the one before it left.
      save: (run, before) => {
        const next = last.catch(() => undefined).then(() => within(database => write(database, run, before())));
        last = next;
        return next;
      },
      list: key =>
        within(async database =>
          offered(await answer(database.transaction(NAME).objectStore(NAME).index("key").getAll(key))),
        ),
      find: id =>
        within(async database => (await answer(database.transaction(NAME).objectStore(NAME).get(id))) ?? null),
    };
  };

  const benchleafStore = { createStore, isForeign, offered };
  if (typeof module !== "undefined") module.exports = benchleafStore;
  else Object.assign(window, { benchleafStore });
}
