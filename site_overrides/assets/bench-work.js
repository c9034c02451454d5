// @ts-check
"use strict";

/* The work in hand and how it stands with the store: each action changes it, and each change is saved. */

/** @typedef {import("./bench-way.js").Way} Way */

/** @typedef {import("./bench-way.js").Run} Run */

/** @typedef {import("./bench-turn.js").Action} Action */

/** @typedef {import("./bench-store.js").Store} Store */

/** @typedef {import("./bench-record.js").Head} Head */

/**
 * What the page brings as data.
 * @typedef {Head & { revision: number, digest: string, variants: { [id: string]: number }, arrival: any }} About
 */

/**
 * The ways as the page brings them: what is the same wherever a step is met stands once.
 * @typedef {{ ways: any[], steps: { [step: string]: any }, boards: import("./bench-tray.js").Board[] }} Packed
 */

/** @typedef {About & Packed} Brought */

/** @typedef {"" | "resume" | "reason" | "other" | "end"} Cover a view that lies over the step */

/**
 * @typedef {object} Held
 * @property {Run | null} run
 * @property {Cover} cover
 * @property {Run | null} other the work as another window left it
 * @property {string} saved how the record stands
 * @property {string} trouble what is wrong with the store
 * @property {string} proof which work, change and number of steps were saved last
 */

{
  const own =
    typeof module === "undefined"
      ? /** @type {any} */ (window)
      : {
          benchleafWay: require("./bench-way.js"),
          benchleafTurn: require("./bench-turn.js"),
          benchleafClock: require("./bench-clock.js"),
        };
  /** @type {typeof import("./bench-way.js")} */
  const { begin, dueOf, nodeOf } = own.benchleafWay;
  /** @type {typeof import("./bench-turn.js")} */
  const { act } = own.benchleafTurn;
  /** @type {typeof import("./bench-clock.js")} */
  const { tellTime } = own.benchleafClock;

  /**
   * The ways with whole nodes.
   * @param {Packed} packed
   * @returns {Way[]}
   */
  const unpack = ({ ways, steps, boards }) =>
    ways.map(way => ({
      ...way,
      boards,
      nodes: way.nodes.map((/** @type {any} */ node) => ({ ...steps[node.step], ...node })),
    }));

  const reasonOf = (/** @type {unknown} */ error) => (error instanceof Error ? error.message : String(error));
  const NOT_SAVED = "Save the record as a file, or print it, before you close this page.";

  /**
   * @param {Brought} brought
   * @param {Store} store
   * @param {{ changed: () => void, clock: () => number, id: () => string }} world
   */
  const createWork = (brought, store, { changed, clock, id }) => {
    const key = [brought.site, brought.device, brought.procedure].join("/");
    /** @type {Held} */
    const held = { run: null, cover: "", other: null, saved: "not begun", trouble: "", proof: "" };
    // The count of the change that the store holds, as far as we know.
    let stored = -1;

    const ways = unpack(brought);
    const wayFor = (/** @type {string} */ variant) => /** @type {Way} */ (ways[brought.variants[variant] ?? 0]);
    const wayOf = (/** @type {Run} */ run) => wayFor(run.variant);

    const save = async () => {
      const { run } = held;
      if (!run) return;
      held.saved = "saving";
      try {
        const result = await store.save(run, () => stored);
        if ("other" in result) {
          Object.assign(held, { other: result.other, cover: "other" });
        } else {
          if (held.run?.id === run.id) stored = run.seq;
          held.trouble = "";
          held.proof = `${run.id} ${run.seq} ${run.path.length}`;
          // Only what is shown may be called saved: a later change is still on its way.
          if (held.run?.id === run.id && held.run.seq === run.seq) held.saved = `saved ${tellTime(result.saved)}`;
        }
      } catch (error) {
        Object.assign(held, {
          saved: "not saved",
          trouble: `Not saved: the browser keeps nothing here (${reasonOf(error)}). ${NOT_SAVED}`,
        });
      }
      changed();
    };

    /** Does something to the work, where it is due. */
    const go = (/** @type {Action} */ action) => {
      const { run } = held;
      if (!run || held.cover === "other") return false;
      const after = act(wayOf(run), run, action, clock());
      if (after === run) return false;
      held.run = after;
      void save();
      return true;
    };

    /** Takes up work that was saved; what was done last is to be confirmed before it goes on. */
    const take = (/** @type {Run} */ run) => {
      if (!(run.variant in brought.variants)) {
        held.trouble = `This work was begun on ${run.variant}, which is not known here any more. It is not lost.`;
        return changed();
      }
      stored = run.seq;
      Object.assign(held, { run, cover: "resume", other: null, trouble: "", saved: `saved ${tellTime(run.saved)}` });
      if (run.away) go({ do: "take" });
      changed();
    };

    const start = (/** @type {{ [asked: string]: string }} */ answers, /** @type {string} */ job) => {
      const { variant = Object.keys(brought.variants)[0] ?? "", ...arrived } = answers;
      const way = wayFor(variant);
      const head = { id: id(), key, variant, job, arrived, revision: brought.revision, digest: brought.digest };
      const run = begin(way, head, clock());
      stored = -1;
      Object.assign(held, { run: { ...run, step: nodeOf(way, run)?.step ?? "" }, cover: "", other: null });
      void save();
    };

    /** After an interruption: the last step is as it was saved, or it is to be done again. */
    const settle = (/** @type {"resume" | "again"} */ how) => {
      held.cover = "";
      const { run } = held;
      if (!run) return;
      if (run.revision !== brought.revision || run.digest !== brought.digest) {
        go({ do: "revise", revision: brought.revision, digest: brought.digest });
      }
      const last = (held.run?.path ?? [])
        .map(({ node, state }) => state !== "undone" && node !== null)
        .lastIndexOf(true);
      if (how === "again" && last >= 0) go({ do: "again", slot: last });
    };

    const list = async () => {
      try {
        return await store.list(key);
      } catch (error) {
        held.trouble = `Nothing can be saved in this browser (${reasonOf(error)}). ${NOT_SAVED}`;
        return [];
      }
    };

    /** Lays work away that nobody goes on with; it stays in the store, and in the list, last. */
    const lay = async (/** @type {Run} */ run) => {
      await store.save({ ...run, away: true, seq: run.seq + 1 }, () => run.seq).catch(error => void (held.trouble = `Not laid away: the browser keeps nothing here (${reasonOf(error)}).`));
    };

    /** Whether another window has carried the work on while this one was not looked at. */
    const recheck = async () => {
      const { run } = held;
      if (!run || held.cover === "other" || held.saved === "saving") return;
      const there = await store.find(run.id).catch(() => null);
      if (!there || held.run !== run || there.seq <= run.seq) return;
      Object.assign(held, { other: there, cover: "other" });
      changed();
    };

    const due = () => (held.run ? dueOf(wayOf(held.run), held.run, clock()) : null);
    const dropRun = () => Object.assign(held, { run: null, cover: "", other: null, saved: "not begun" });

    return { held, wayOf, go, take, start, settle, list, lay, recheck, due, dropRun };
  };

  const benchleafWork = { createWork, unpack };
  if (typeof module !== "undefined") module.exports = benchleafWork;
  else Object.assign(window, { benchleafWork });
}
