// @ts-check
"use strict";

/* What lies out of the device along the way that was really taken, and which lines of the state board are in doubt. */

/** @typedef {[what: string, count: number]} Item a screw by its drive and length, or a part, and how many */

/** @typedef {{ [row: string]: string[] }} Board for each line a value and small print, as planned when a step begins */

/**
 * What of a step that was dealt with matters here.
 * @typedef {object} Moved
 * @property {"done" | "undone" | "failed"} state
 * @property {string} label
 * @property {Item[]} moves what it takes out (above nothing) and brings back (below)
 * @property {string[]} changes lines of the board that it was to change
 * @property {boolean} [early] it was ended before its time
 */

{
  /**
   * Two lists of things, one taken `sign` times to the other; what comes to nothing is left out.
   * @param {readonly Item[]} one
   * @param {readonly Item[]} other
   * @returns {Item[]}
   */
  const sum = (one, other, sign = 1) => {
    /** @type {Map<string, number>} */
    const counts = new Map();
    for (const [what, count] of one) counts.set(what, (counts.get(what) ?? 0) + count);
    for (const [what, count] of other) counts.set(what, (counts.get(what) ?? 0) + sign * count);
    return [...counts].filter(([, count]) => count !== 0);
  };

  const above = (/** @type {readonly Item[]} */ items) => items.filter(([, count]) => count > 0);

  /**
   * What lies out after these steps. A step that was left undone moved nothing; what was never taken out cannot be
   * brought back, so no count falls below nothing.
   * @param {readonly Moved[]} path
   */
  const lying = path =>
    path
      .filter(({ state }) => state !== "undone")
      .reduce((out, { moves }) => above(sum(out, moves)), /** @type {Item[]} */ ([]));

  /** What lies out beyond what may stay out. */
  const beyond = (/** @type {readonly Item[]} */ out, /** @type {readonly Item[]} */ stays) =>
    above(sum(out, stays, -1));

  /** Which lines of the board differ before and after a step; none where nothing is known of what comes after. */
  const changesOf = (/** @type {Board} */ before, /** @type {Board | null} */ after) =>
    Object.keys(after ? before : {}).filter(row => before[row]?.join("\n") !== after?.[row]?.join("\n"));

  /**
   * The lines that nobody can vouch for, each with the steps that were left undone or cut short. The tray is counted.
   * @param {readonly Moved[]} path
   * @returns {Map<string, string[]>}
   */
  const doubts = path => {
    /** @type {Map<string, string[]>} */
    const doubtful = new Map();
    for (const { label, state, early, changes } of path) {
      if (state !== "undone" && !early) continue;
      for (const row of changes) if (row !== "tray") doubtful.set(row, [...(doubtful.get(row) ?? []), label]);
    }
    return doubtful;
  };

  /** One kind of thing in words: "T4 × 5 mm: 8", "Back shell". */
  const tellItem = (/** @type {Item} */ [what, count]) => (count === 1 ? what : `${what}: ${count}`);

  const benchleafTray = { lying, beyond, changesOf, doubts, tellItem };
  if (typeof module !== "undefined") module.exports = benchleafTray;
  else Object.assign(window, { benchleafTray });
}
