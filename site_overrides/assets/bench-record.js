// @ts-check
"use strict";

/* The record of the work on one device, as `record.schema.json` has it: what was done, measured, left undone, found. */

/** @typedef {import("./bench-way.js").Way} Way */

/** @typedef {import("./bench-way.js").Run} Run */

/** @typedef {import("./bench-way.js").Entry} Entry */

/** @typedef {{ site: string, device: string, procedure: string, title: string, number: string }} Head */

/** @typedef {{ step: string, label: string, state: string, when: string } & { [more: string]: any }} Row */

/** @typedef {{ steps: Row[] } & { [more: string]: any }} Record_ */

{
  const own =
    typeof module === "undefined"
      ? /** @type {any} */ (window)
      : { benchleafClock: require("./bench-clock.js"), benchleafTray: require("./bench-tray.js") };
  /** @type {typeof import("./bench-clock.js")} */
  const { fitOf, lasts } = own.benchleafClock;
  /** @type {typeof import("./bench-tray.js")} */
  const { lying } = own.benchleafTray;

  const iso = (/** @type {number} */ at) => new Date(at).toISOString();
  const tenths = (/** @type {number} */ seconds) => Math.round(seconds * 10) / 10;

  /** What is empty is not said. */
  const filled = (/** @type {{ [name: string]: unknown }} */ fields) =>
    Object.fromEntries(
      Object.entries(fields).filter(([, value]) => value !== "" && value !== null && value !== undefined),
    );

  /** File names of photos, as they were typed with commas between. */
  const photosOf = (/** @type {string} */ typed) =>
    typed
      .split(/[,;\n]/)
      .map(name => name.trim())
      .filter(Boolean);

  /** @returns {{ [name: string]: unknown }} */
  const timesOf = (/** @type {Entry} */ { timer, draft }) => {
    if (!timer || draft.spans.length === 0) return {};
    const seconds = draft.spans.map(span => lasts(span, span.from));
    if (timer.kind === "wait") {
      return {
        waited: {
          seconds: tenths(seconds[0] ?? 0),
          verdict: (seconds[0] ?? 0) < timer.low ? "too short" : "long enough",
        },
      };
    }
    return { touches: seconds.map(each => ({ seconds: tenths(each), verdict: fitOf(each, timer) })) };
  };

  /**
   * One step's row.
   * @param {Entry} entry
   * @returns {Row}
   */
  const rowOf = entry => {
    const { reading, answer, note, photos } = entry.draft;
    const shown = reading && {
      ...(reading.value === null ? { beyond: true } : { value: reading.value }),
      unit: reading.unit,
      typed: reading.typed,
      limits: reading.limits,
    };
    return {
      step: entry.step,
      label: entry.label,
      phase: entry.phase,
      state: entry.state,
      when: iso(entry.at),
      ...filled({ why: entry.why, reading: shown, verdict: reading?.verdict ?? answer, note: note.trim() }),
      ...timesOf(entry),
      ...(photosOf(photos).length > 0 ? { photos: photosOf(photos) } : {}),
    };
  };

  /** A step's rows: what was done first and then done again stands before what counts. */
  const rowsOf = (/** @type {Entry} */ entry) => [
    ...entry.earlier.map(before => ({ ...rowOf(before), replaced: true })),
    rowOf(entry),
  ];

  const STATES = { working: "open", failed: "open", tray: "open", stopped: "stopped", ended: "through" };

  /**
   * The record, whole and plain.
   * @param {Head} head
   * @param {Run} run
   * @returns {Record_}
   */
  const recordOf = (head, run) => {
    const [symptom, cause] = run.cause.includes("/") ? run.cause.split("/", 2) : ["", run.cause];
    return {
      record: 1,
      ...filled({
        site: head.site,
        device: head.device,
        procedure: head.procedure,
        title: head.title,
        number: head.number,
      }),
      revision: run.revision,
      ...(run.revisions.length > 1
        ? {
            revisions: run.revisions.map(({ revision, at, after }) => ({
              revision,
              since: iso(at),
              ...filled({ after }),
            })),
          }
        : {}),
      ...filled({ variant: run.variant, job: run.job.trim() }),
      ...(Object.keys(run.arrived).length > 0 ? { arrived: run.arrived } : {}),
      began: iso(run.began),
      ...(run.ended === null ? {} : { ended: iso(run.ended) }),
      state: STATES[run.state],
      ...filled({ stopped: run.state === "stopped" ? run.stop?.say : "" }),
      steps: run.path.flatMap(rowsOf),
      left_out: lying(run.path).map(([what, count]) => ({ what, count })),
      ...filled({ outcome: run.outcome, symptom, cause: cause?.trim(), remark: run.remark.trim() }),
    };
  };

  /** A file name that every system takes: what, which device, when. */
  const fileOf = (/** @type {Head} */ head, /** @type {Run} */ run) =>
    ["record", head.device, head.procedure.split("/").at(-1), run.job, iso(run.began).slice(0, 16)]
      .map(part =>
        (part ?? "")
          .toLowerCase()
          .replace(/[^a-z0-9]+/g, "-")
          .replace(/^-|-$/g, ""),
      )
      .filter(Boolean)
      .join("_") + ".json";

  /** Labels of the steps that were left undone and not done since. */
  const undone = (/** @type {Run} */ run) =>
    run.path.filter(({ state }) => state === "undone").map(({ label }) => label);

  /** A row's result in words, for paper. */
  const tellRow = (/** @type {Row} */ row) => {
    const { reading } = row;
    const value = reading
      ? `${reading.beyond ? "beyond the meter" : reading.value} ${reading.unit} (${reading.limits})`
      : "";
    const touches = (row.touches ?? [])
      .map((/** @type {any} */ touch) => `${touch.seconds} s ${touch.verdict}`)
      .join("; ");
    const waited = row.waited ? `waited ${row.waited.seconds} s, ${row.waited.verdict}` : "";
    return [value, row.verdict, waited, touches, row.why, row.note, (row.photos ?? []).join(", ")]
      .filter(Boolean)
      .join("; ");
  };

  const benchleafRecord = { recordOf, fileOf, undone, tellRow };
  if (typeof module !== "undefined") module.exports = benchleafRecord;
  else Object.assign(window, { benchleafRecord });
}
