// @ts-check
"use strict";

/* The way through a procedure: what is due at the present step, and what an action makes of the work so far. */

/** @typedef {import("./bench-judge.js").Check} Check */

/** @typedef {import("./bench-judge.js").Reading} Reading */

/** @typedef {import("./bench-clock.js").Timer} Timer */

/** @typedef {import("./bench-clock.js").Span} Span */

/** @typedef {import("./bench-tray.js").Item} Item */

/** @typedef {import("./bench-tray.js").Board} Board */

/** @typedef {{ kind: "repeat" | "go" | "stop" | "leave", to?: number, link?: string | null, say: string }} Fail */

/**
 * One performed step of one way, as the page brings it.
 * @typedef {object} Node
 * @property {string} step
 * @property {string} label
 * @property {"O" | "W" | "C" | "P"} phase
 * @property {[number, number]} in
 * @property {number} n
 * @property {number} of
 * @property {number} board
 * @property {Item[]} moves
 * @property {boolean} danger
 * @property {Timer | null} timer
 * @property {Check | null} check
 * @property {string[]} record
 * @property {number | null} next
 * @property {Fail | null} fail
 */

/** @typedef {{ start: number, nodes: Node[], boards: Board[], stays: Item[] }} Way */

/**
 * What is being done at the present step and is not over.
 * @typedef {object} Draft
 * @property {number} from
 * @property {boolean} read the danger was read
 * @property {string} typed
 * @property {Reading | null} reading
 * @property {"yes" | "no" | null} answer
 * @property {Span[]} spans
 * @property {boolean} untimed
 * @property {string} note
 * @property {string} photos
 */

/**
 * A step that was dealt with.
 * @typedef {object} Entry
 * @property {number | null} node null where a later revision has no such step
 * @property {string} step
 * @property {string} label
 * @property {Node["phase"]} phase
 * @property {"done" | "undone" | "failed"} state
 * @property {number} at
 * @property {string} why
 * @property {Draft} draft
 * @property {Timer | null} timer
 * @property {Item[]} moves
 * @property {string[]} changes
 * @property {boolean} early
 * @property {boolean} [taken] it was done, was taken back, and is to be done again
 * @property {Entry[]} earlier what stood here before it was done again
 */

/**
 * The work on one device.
 * @typedef {object} Run
 * @property {string} id
 * @property {number} seq raised with each change, so that two windows cannot overwrite each other
 * @property {string} key site, device and procedure
 * @property {string} variant
 * @property {string} job
 * @property {{ [asked: string]: string }} arrived
 * @property {number} revision
 * @property {string} digest
 * @property {{ revision: number, digest: string, at: number, after: string }[]} revisions the first, and those since
 * @property {number} began
 * @property {number} saved when it last changed
 * @property {number | null} ended
 * @property {boolean} away
 * @property {number | null} at the present step; null when the way is over
 * @property {string} step its id, by which a later revision finds it
 * @property {{ to: number | null, slot: number } | null} detour a step that is done again: where it leads and stands
 * @property {number | null} looking which step of the path is looked back at
 * @property {"working" | "failed" | "tray" | "stopped" | "ended"} state
 * @property {Entry[]} path
 * @property {Draft} now
 * @property {{ say: string, link: string | null } | null} stop
 * @property {string} outcome
 * @property {string} cause
 * @property {string} remark
 */

/** @typedef {"read" | "start" | "pause" | "lift" | "wait" | "answer" | "reading" | "done" | "route"} Step */

/** @typedef {Step | "more" | "forward" | "tray" | "stopped" | "ended"} Due what the present moment asks for */

{
  const own =
    typeof module === "undefined"
      ? /** @type {any} */ (window)
      : { benchleafClock: require("./bench-clock.js"), benchleafTray: require("./bench-tray.js") };
  /** @type {typeof import("./bench-clock.js")} */
  const { read } = own.benchleafClock;
  /** @type {typeof import("./bench-tray.js")} */
  const { beyond, changesOf, lying } = own.benchleafTray;

  /** @returns {Draft} */
  const fresh = (/** @type {number} */ from) => ({
    from,
    read: false,
    typed: "",
    reading: null,
    answer: null,
    spans: [],
    untimed: false,
    note: "",
    photos: "",
  });

  /**
   * The work as it begins.
   * @param {Way} way
   * @param {Pick<Run, "id" | "key" | "variant" | "job" | "arrived" | "revision" | "digest">} head
   * @param {number} at
   * @returns {Run}
   */
  const begin = (way, head, at) => ({
    ...head,
    seq: 0,
    revisions: [{ revision: head.revision, digest: head.digest, at, after: "" }],
    began: at,
    saved: at,
    ended: null,
    away: false,
    at: way.start,
    step: "",
    detour: null,
    looking: null,
    state: "working",
    path: [],
    now: fresh(at),
    stop: null,
    outcome: "",
    cause: "",
    remark: "",
  });

  /** The present step, or null when the way is over. */
  const nodeOf = (/** @type {Way} */ way, /** @type {Run} */ run) =>
    run.at === null ? null : (way.nodes[run.at] ?? null);

  /**
   * What is due. A danger is read first, then the work takes its time, then its result is checked.
   * @param {Way} way
   * @param {Run} run
   * @param {number} clock
   * @returns {Due}
   */
  const dueOf = (way, run, clock) => {
    if (run.looking !== null) return "forward";
    if (run.state === "ended" || run.state === "stopped" || run.state === "tray") return run.state;
    if (run.state === "failed") return "route";
    const node = nodeOf(way, run);
    if (!node) return "ended";
    if (node.danger && !run.now.read) return "read";
    if (node.timer && !run.now.untimed) {
      const { state } = read(node.timer, run.now.spans, clock);
      if (state === "ready") return "start";
      if (state === "pause") return "pause";
      if (state === "running") return node.timer.kind === "wait" ? "wait" : "lift";
    }
    if (node.check?.kind === "look" && run.now.answer !== "yes") return "answer";
    if (node.check?.kind === "reading" && run.now.reading?.verdict !== "within") return "reading";
    return "done";
  };

  /**
   * The present step, as one that was dealt with.
   * @param {Way} way
   * @param {Run} run
   * @param {Entry["state"]} state
   * @param {number} clock
   * @returns {Entry}
   */
  const entryOf = (way, run, state, clock, why = "") => {
    const node = nodeOf(way, run);
    if (!node) throw new Error("There is no step to deal with");
    const before = run.detour ? run.path[run.detour.slot] : undefined;
    const after = node.next === null ? null : (way.nodes[node.next] ?? null);
    const timed = node.timer && !run.now.untimed ? read(node.timer, run.now.spans, clock) : null;
    return {
      node: run.at,
      step: node.step,
      label: node.label,
      phase: node.phase,
      state,
      at: clock,
      why,
      draft: { ...run.now, spans: run.now.spans.map(span => ({ ...span, to: span.to ?? clock })) },
      timer: node.timer,
      moves: node.moves,
      changes: changesOf(way.boards[node.board] ?? {}, after ? (way.boards[after.board] ?? null) : null),
      early: state === "done" && node.timer?.kind === "wait" && timed?.fit === "too short",
      earlier: !before ? [] : before.taken ? before.earlier : [...before.earlier, { ...before, earlier: [] }],
    };
  };

  /** The path with the present step in it: at its end, or in the place where it stood before it was done again. */
  const withEntry = (/** @type {Run} */ run, /** @type {Entry} */ entry) =>
    run.detour ? run.path.map((old, slot) => (slot === run.detour?.slot ? entry : old)) : [...run.path, entry];

  /**
   * What lies out beyond what may stay out: closing is not finished before that is nothing.
   * @param {Way} way
   * @param {Run} run
   */
  const leftOut = (way, run) => beyond(lying(run.path), way.stays);

  /**
   * Whether a step is where closing is finished: the proof, or the end.
   * @param {Way} way
   * @param {number | null} to
   */
  const isPastClosing = (way, to) => to === null || way.nodes[to]?.phase === "P";

  /**
   * Goes on to a step. What lies out keeps the work from leaving the closing, until the steps left undone are done.
   * @param {Way} way
   * @param {Run} run
   * @param {number | null} to
   * @param {number} clock
   * @returns {Run}
   */
  const goTo = (way, run, to, clock) => {
    const moved = { ...run, at: to, detour: null, looking: null, now: fresh(clock) };
    const last = run.path.at(-1);
    if (isPastClosing(way, to) && last?.phase !== "P" && leftOut(way, run).length > 0)
      return { ...moved, state: "tray" };
    return { ...moved, state: to === null ? "ended" : "working" };
  };

  /**
   * Ends the present step and goes on to what follows it.
   * @param {Way} way
   * @param {Run} run
   * @param {"done" | "undone"} state
   * @param {number} clock
   */
  const finish = (way, run, state, clock, why = "") => {
    const to = run.detour ? run.detour.to : (nodeOf(way, run)?.next ?? null);
    return goTo(way, { ...run, path: withEntry(run, entryOf(way, run, state, clock, why)) }, to, clock);
  };

  const STOPS =
    "The check failed, and no way on is written. Leave the device as it is and show it to the senior technician.";

  /**
   * Takes the way on after a failed check.
   * @param {Way} way
   * @param {Run} run
   * @param {number} clock
   * @returns {Run}
   */
  const route = (way, run, clock) => {
    const fail = nodeOf(way, run)?.fail ?? { kind: "stop", say: STOPS };
    const failed = {
      ...run,
      path: withEntry(run, entryOf(way, run, "failed", clock)),
      now: fresh(clock),
      detour: null,
    };
    if (fail.to !== undefined) return goTo(way, failed, fail.to, clock);
    return { ...failed, state: "stopped", stop: { say: fail.say, link: fail.link ?? null } };
  };

  const benchleafWay = { fresh, begin, nodeOf, dueOf, leftOut, goTo, finish, route };
  if (typeof module !== "undefined") module.exports = benchleafWay;
  else Object.assign(window, { benchleafWay });
}
