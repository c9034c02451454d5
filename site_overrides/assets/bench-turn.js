// @ts-check
"use strict";

/* What a person does, and what becomes of the work: one action in, the work as it is then out. */

/** @typedef {import("./bench-way.js").Way} Way */

/** @typedef {import("./bench-way.js").Run} Run */

/** @typedef {import("./bench-way.js").Entry} Entry */

/** @typedef {import("./bench-way.js").Node} Node */

/**
 * @typedef {{ do: "read" | "start" | "lift" | "untimed" | "early" | "yes" | "no" | "judge" | "retry" | "done" }
 *   | { do: "route" | "back" | "forward" | "counted" | "finish" | "reopen" | "away" | "take" }
 *   | { do: "leave" | "halt", why: string }
 *   | { do: "again", slot?: number }
 *   | { do: "keep", typed?: string, note?: string, photos?: string }
 *   | { do: "tell", outcome?: string, cause?: string, remark?: string }
 *   | { do: "revise", revision: number, digest: string }} Action
 */

{
  const own =
    typeof module === "undefined"
      ? /** @type {any} */ (window)
      : { benchleafWay: require("./bench-way.js"), benchleafJudge: require("./bench-judge.js") };
  /** @type {typeof import("./bench-way.js")} */
  const { dueOf, finish, fresh, goTo, nodeOf, route } = own.benchleafWay;
  /** @type {typeof import("./bench-judge.js")} */
  const { readReading } = own.benchleafJudge;

  /** The work with something changed in what is being done at the present step. */
  const now = (/** @type {Run} */ run, /** @type {Partial<Run["now"]>} */ change) => ({
    ...run,
    now: { ...run.now, ...change },
  });

  /**
   * A step that was done is taken back and stands as not done until it is done again; the work then goes on as before.
   * @param {Way} way
   * @param {Run} run
   * @param {number} slot
   * @param {number} clock
   * @returns {Run}
   */
  const again = (way, run, slot, clock) => {
    const entry = run.path[slot];
    if (!entry || entry.node === null || run.ended !== null) return run;
    // After the last step comes what follows it, even where it had failed and led elsewhere.
    const next = slot === run.path.length - 1 ? (way.nodes[entry.node]?.next ?? null) : run.at;
    // What stood there is kept with what is done now: nothing that was recorded goes.
    const earlier = [...entry.earlier, { ...entry, earlier: [] }];
    /** @type {Entry} */
    const kept =
      entry.state === "undone" ? entry : { ...entry, state: "undone", why: "Taken back", taken: true, earlier };
    return {
      ...run,
      path: run.path.map((old, at) => (at === slot ? kept : old)),
      at: entry.node,
      looking: null,
      state: "working",
      stop: null,
      detour: { to: run.detour ? run.detour.to : next, slot },
      now: { ...fresh(clock), note: entry.draft.note, photos: entry.draft.photos },
    };
  };

  /** One step back, to look at: what was done stays done. From a failed check, back to the question. */
  const back = (/** @type {Run} */ run) => {
    if (run.state === "failed" && run.looking === null) return retry(run);
    const slot = run.looking === null ? run.path.length - 1 : run.looking - 1;
    return slot < 0 ? run : { ...run, looking: slot };
  };

  const retry = (/** @type {Run} */ run) =>
    now({ ...run, state: /** @type {const} */ ("working") }, { answer: null, reading: null });

  const forward = (/** @type {Run} */ run) => {
    const slot = (run.looking ?? 0) + 1;
    return { ...run, looking: slot < run.path.length ? slot : null };
  };

  /** Notes are kept with the step that is shown: the present one, or the one that is looked back at. */
  const keep = (/** @type {Run} */ run, /** @type {Partial<Run["now"]>} */ change) =>
    run.looking === null
      ? // A reading that is typed anew is judged anew: what was judged is no longer what stands in the field.
        now(run, run.state === "working" && (change.typed ?? run.now.typed) !== run.now.typed ? { ...change, reading: null } : change)
      : {
          ...run,
          path: run.path.map((old, at) => (at === run.looking ? { ...old, draft: { ...old.draft, ...change } } : old)),
        };

  /** What was written beside the work: with the step that is shown, or of the whole. */
  const told = (/** @type {Run} */ run, /** @type {Action & { do: "keep" | "tell" }} */ action) => {
    const { do: kind, ...words } = action;
    return kind === "keep" ? keep(run, /** @type {Partial<Run["now"]>} */ (words)) : { ...run, ...words };
  };

  /** @returns {Run} */
  const judge = (/** @type {Way} */ way, /** @type {Run} */ run) => {
    const check = nodeOf(way, run)?.check;
    const reading = check ? readReading(run.now.typed, check) : null;
    if (!reading) return run;
    return { ...now(run, { reading }), state: reading.verdict === "within" ? "working" : "failed" };
  };

  const lift = (/** @type {Run} */ run, /** @type {number} */ clock) =>
    now(run, { spans: run.now.spans.map(span => ({ ...span, to: span.to ?? clock })) });

  const halted = (/** @type {Run} */ run, /** @type {string} */ why) => ({
    ...run,
    state: /** @type {const} */ ("stopped"),
    looking: null,
    stop: { say: why, link: null },
  });

  /**
   * The new revision's way for work begun with another: each step that was dealt with is found again by its id,
   * the work goes on after the last of them, and what is new before it stands as not done.
   * @param {Way} way
   * @param {Run} run
   * @param {number} revision
   * @param {string} digest
   * @param {number} clock
   * @returns {Run}
   */
  const revise = (way, run, revision, digest, clock) => {
    let last = -1;
    const path = run.path.map(entry => {
      const found = way.nodes.map((_, at) => at).filter(at => way.nodes[at]?.step === entry.step);
      const node = found.find(at => at > last) ?? found[0] ?? null;
      last = node ?? last;
      const known = node === null ? undefined : way.nodes[node];
      return { ...entry, node, moves: known?.moves ?? entry.moves };
    });
    const from = path.filter(({ node, state }) => node !== null && state !== "failed").at(-1)?.node ?? null;
    const failed = path.at(-1)?.state === "failed";
    const same = way.nodes.findIndex(({ step }, at) => step === run.step && at > last - 1);
    // Never ahead: what was inserted after the last step comes first, unless a failed check led elsewhere.
    const to = failed && same >= 0 ? same : from === null ? way.start : (way.nodes[from]?.next ?? null);
    /** @type {number[]} */
    const straight = [];
    for (
      let at = /** @type {number | null} */ (way.start);
      at !== null && at !== to;
      at = way.nodes[at]?.next ?? null
    ) {
      straight.push(at);
    }
    const met = new Set(path.map(({ step }) => step));
    for (const at of straight) {
      const node = way.nodes[at];
      if (!node || met.has(node.step)) continue;
      const slot = path.findIndex(entry => entry.node !== null && straight.indexOf(entry.node) > straight.indexOf(at));
      path.splice(slot < 0 ? path.length : slot, 0, {
        node: at,
        step: node.step,
        label: node.label,
        phase: node.phase,
        state: "undone",
        at: clock,
        why: `New in revision ${revision}`,
        draft: fresh(clock),
        timer: node.timer,
        moves: node.moves,
        changes: [],
        early: false,
        earlier: [],
      });
    }
    const after = path.filter(({ state }) => state === "done").at(-1)?.label ?? "";
    const revised = {
      ...run,
      revision,
      digest,
      path,
      detour: null,
      looking: null,
      revisions: [...run.revisions, { revision, digest, at: clock, after }],
    };
    return run.state === "working" || run.state === "failed" || run.state === "tray"
      ? goTo(way, revised, to, clock)
      : revised;
  };

  /**
   * @param {Way} way
   * @param {Run} run
   * @param {Action} action
   * @param {number} clock
   * @returns {Run} the same when the action is not due
   */
  const turn = (way, run, action, clock) => {
    const due = dueOf(way, run, clock);
    switch (action.do) {
      case "read":
        return due === "read" ? now(run, { read: true }) : run;
      case "start":
        return due === "start" ? now(run, { spans: [...run.now.spans, { from: clock, to: null }] }) : run;
      case "lift":
        return due === "lift" ? lift(run, clock) : run;
      case "untimed":
        return ["start", "pause", "lift"].includes(due) ? now(lift(run, clock), { untimed: true }) : run;
      case "yes":
        return due === "answer" ? finish(way, now(run, { answer: "yes" }), "done", clock) : run;
      case "no":
        return due === "answer" ? { ...now(run, { answer: "no" }), state: "failed" } : run;
      case "judge":
        return ["reading", "route", "done"].includes(due) ? judge(way, run) : run;
      case "retry":
        return due === "route" ? retry(run) : run;
      case "done":
        return due === "done" ? finish(way, run, "done", clock) : run;
      case "early":
        return due === "wait" ? lift(run, clock) : run;
      case "route":
        return due === "route" ? route(way, run, clock) : run;
      case "back":
        return back(run);
      case "forward":
        return due === "forward" ? forward(run) : run;
      case "again":
        return again(way, run, action.slot ?? run.looking ?? -1, clock);
      case "leave":
        return run.at !== null && run.looking === null && run.state === "working"
          ? finish(way, run, "undone", clock, action.why)
          : run;
      case "counted":
        return due === "tray" ? { ...run, state: run.at === null ? "ended" : "working" } : run;
      case "halt":
        return run.ended === null ? halted(run, action.why) : run;
      case "keep":
      case "tell":
        return told(run, action);
      case "finish":
        return due === "ended" || due === "stopped" ? { ...run, ended: clock } : run;
      case "reopen":
        return { ...run, ended: null };
      case "away":
        return { ...run, away: true };
      case "take":
        return { ...run, away: false };
      case "revise":
        return revise(way, run, action.revision, action.digest, clock);
    }
  };

  /**
   * The work after an action, counted on; the very same where nothing was due.
   * @param {Way} way
   * @param {Run} run
   * @param {Action} action
   * @param {number} clock
   * @returns {Run}
   */
  const act = (way, run, action, clock) => {
    const after = turn(way, run, action, clock);
    return after === run ? run : { ...after, step: nodeOf(way, after)?.step ?? "", seq: run.seq + 1, saved: clock };
  };

  const benchleafTurn = { act };
  if (typeof module !== "undefined") module.exports = benchleafTurn;
  else Object.assign(window, { benchleafTurn });
}
