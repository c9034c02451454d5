// @ts-check
"use strict";

/* The whole page from the work in hand: one view, what stands beside it, where the address and the focus are. */

/** @typedef {import("./bench-way.js").Run} Run */

/** @typedef {ReturnType<typeof import("./bench-work.js").createWork>} Work */

/** @typedef {import("./bench-work.js").Brought} Brought */

/** @typedef {{ says: string, screen: string, alarm: string }} Words what is said beside the work */

{
  const own = /** @type {any} */ (typeof window === "undefined" ? {} : window);
  /** @type {typeof import("./bench-draw.js")} */
  const draw = own.benchleafDraw;
  /** @type {typeof import("./bench-arrive.js")} */
  const arrive = own.benchleafArrive;
  /** @type {typeof import("./bench-close.js")} */
  const close = own.benchleafClose;
  /** @type {typeof import("./bench-more.js")} */
  const more = own.benchleafMore;
  /** @type {typeof import("./bench-timer.js")} */
  const { drawTimer } = own.benchleafTimer ?? {};

  /** What may only be done when all of the step was seen. A touch that lasts is ended at once. */
  const SEEN_FIRST = new Set(["read", "start", "answer", "reading", "done"]);

  const HINTS = { step: "Page Down is the large key, Escape is Stop" };

  /**
   * Which view is due.
   * @param {import("./bench-work.js").Held} held
   */
  const viewOf = ({ run, cover }) => {
    if (!run) return "arrival";
    if (cover) return cover === "other" ? "ask" : cover;
    if (run.looking !== null) return "step";
    if (run.state === "tray") return "ask";
    if (run.state === "stopped") return run.ended === null ? "stopped" : "end";
    return run.state === "ended" ? "end" : "step";
  };

  /** Which step's section is shown: the present one, or the one that is looked back at. */
  const stepOf = (/** @type {Run} */ run) => (run.looking === null ? run.step : (run.path[run.looking]?.step ?? ""));

  /**
   * @param {Document} document
   * @param {Brought} brought
   * @param {Work} work
   * @param {Words} words
   */
  const createScene = (document, brought, work, words) => {
    const { held } = work;
    let drawn = "";
    let isSeen = false;

    const find = (/** @type {string} */ step) =>
      /** @type {HTMLElement | null} */ (document.querySelector(`[data-view="step"][data-step="${CSS.escape(step)}"]`));
    /** The instruction of a step; a revision may have taken the step out. */
    const say = (/** @type {string} */ step) => {
      const section = find(step);
      return section ? draw.sayOf(section) : `(${step}: not in this revision)`;
    };

    const isStopShown = () => document.location.hash.startsWith("#stop-");

    /** The element that is shown, which may be taller than the screen. */
    const shownPlace = () => {
      const view = viewOf(held);
      const stop = isStopShown() ? "#stop-and-make-safe" : "";
      const step = view === "step" && held.run ? find(stepOf(held.run)) : null;
      return /** @type {HTMLElement} */ (
        step && !stop ? step : draw.get(document, stop || `main [data-view="${view}"]`)
      );
    };

    /** What is due; what lies below the edge comes first. */
    const due = () => {
      const bare = work.due();
      if (!bare || !SEEN_FIRST.has(bare) || viewOf(held) !== "step") return bare;
      isSeen ||= !more.isMore(shownPlace());
      return isSeen ? bare : "more";
    };

    /** The address names the step, so that a reload comes back to the work; before there is work it is left alone. */
    const address = (/** @type {string} */ view, /** @type {HTMLElement | null} */ section) => {
      const place = section ?? (held.run && view === "resume" ? find(held.run.step) : null);
      const hash = place ? `#${place.id}` : view === "arrival" && drawn !== "" ? "#arrival" : "";
      if (hash) document.defaultView?.history.replaceState(null, "", hash);
    };

    /** A new view gets the focus. */
    const arriveAt = (/** @type {string} */ view, /** @type {HTMLElement | null} */ section) => {
      const place = section ?? document.querySelector(`main [data-view="${view}"]`);
      const head = place?.querySelector(view === "reason" ? "textarea" : ".say");
      if (head instanceof HTMLElement) head.focus({ preventScroll: true });
    };

    const drawView = (/** @type {string} */ view, /** @type {boolean} */ isNew) => {
      const { run } = held;
      if (view === "arrival" || !run) return void arrive.drawArrival(draw.get(document, "#arrival"), brought.arrival);
      const place = draw.get(document, `main [data-view="${view}"]`);
      if (view === "resume") {
        const last = run.path.filter(({ state }) => state !== "undone").at(-1);
        arrive.drawResume(place, run, brought, last ? say(last.step) : "");
      } else if (view === "ask" && isNew) {
        const again = (/** @type {number} */ slot) => void (work.go({ do: "again", slot }), render());
        if (held.cover === "other" && held.other)
          close.askOther(place, held.other, () => held.other && work.take(held.other));
        else
          close.askTray(place, work.wayOf(run), run, {
            again,
            counted: () => void (work.go({ do: "counted" }), render()),
          });
      } else if (view === "end") close.drawEnd(place, run, isNew);
      else if (view === "stopped") close.drawStopped(place, run);
    };

    /** What stands around a view while there is work. */
    const drawAround = (
      /** @type {string} */ view,
      /** @type {HTMLElement | null} */ section,
      /** @type {boolean} */ isNew,
    ) => {
      const { run } = held;
      const asked = work.due();
      if (!run || !asked) return;
      const way = work.wayOf(run);
      // While something lies out, closing is where the work still is.
      const slot = run.looking ?? (run.state === "tray" ? run.path.length - 1 : null);
      const at = slot === null ? run.at : (run.path[slot]?.node ?? null);
      const node = run.state === "ended" && run.looking === null ? null : at === null ? null : (way.nodes[at] ?? null);
      const shown = { way, run, due: asked, node, clock: Date.now(), saved: held.saved };
      draw.drawPhases(document, shown);
      draw.drawBoard(document, shown);
      if (!section) return draw.drawKeys(document, shown, view);
      draw.drawStep(section, shown, isNew);
      const timer = /** @type {HTMLElement | null} */ (section.querySelector("[data-timer]"));
      const past = run.looking === null ? undefined : run.path[run.looking];
      const its = past ? past.timer : node?.timer;
      if (timer && its) drawTimer(timer, its, past?.draft ?? run.now, past?.at ?? shown.clock, past !== undefined);
      const next = node && node.next !== null ? way.nodes[node.next] : null;
      const text = next ? `Next: ${next.label} ${say(next.step)}` : "Next: count back, and the record.";
      draw.write(section.querySelector("[data-next]"), run.looking === null && asked !== "route" ? text : "");
      draw.drawKeys(document, { ...shown, due: due() ?? asked }, view);
    };

    const render = () => {
      const { run } = held;
      const view = viewOf(held);
      const section = view === "step" && run ? find(stepOf(run)) : null;
      const name = [view, run?.id, run?.looking, run?.path.length, run?.step, run?.state === "tray"].join(" ");
      const isNew = name !== drawn;
      if (isNew) isSeen = false;
      if (isNew) draw.drawVariant(document, run?.variant ?? "");
      draw.showView(document, view, section);
      // Before anything is measured: the step before may have been scrolled down.
      if (isNew && !isStopShown()) {
        document.querySelector("main")?.scrollTo({ top: 0 });
        document.defaultView?.scrollTo({ top: 0 });
      }
      drawView(view, isNew);
      if (!run) draw.drawIdle(document, held.saved);
      else drawAround(view, section, isNew);
      draw.write(document.querySelector("[data-alert]"), [words.alarm, held.trouble].filter(Boolean).join(" "));
      const hint = [words.screen, HINTS[/** @type {"step"} */ (view)]].filter(Boolean).join(" · ");
      draw.write(document.querySelector("[data-says]"), words.says || hint);
      for (const halt of draw.all(document, '[data-do="halt"]')) halt.hidden = !run || run.ended !== null;
      if (held.proof) document.body.dataset.saved = held.proof;
      if (isNew && !isStopShown()) {
        address(view, section);
        arriveAt(view, section);
      }
      drawn = name;
    };

    return {
      render,
      say,
      find,
      due,
      isStopShown,
      isMore: () => more.isMore(shownPlace()),
      isLess: () => more.isLess(shownPlace()),
      scroll: (/** @type {1 | -1} */ way) => more.scroll(shownPlace(), way),
      view: () => viewOf(held),
      forget: () => void (drawn = ""),
    };
  };

  const benchleafScene = { createScene, viewOf, stepOf };
  if (typeof module !== "undefined") module.exports = benchleafScene;
  else Object.assign(window, { benchleafScene });
}
