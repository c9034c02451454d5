// @ts-check
"use strict";

/* After the last step: what keeps closing from being finished, how it ended, and the record as file and on paper. */

/** @typedef {import("./bench-way.js").Way} Way */

/** @typedef {import("./bench-way.js").Run} Run */

/** @typedef {import("./bench-record.js").Head} Head */

{
  const own =
    typeof module === "undefined"
      ? /** @type {any} */ (window)
      : {
          benchleafArrive: require("./bench-arrive.js"),
          benchleafDraw: require("./bench-draw.js"),
          benchleafRecord: require("./bench-record.js"),
          benchleafTray: require("./bench-tray.js"),
          benchleafWay: require("./bench-way.js"),
          benchleafClock: require("./bench-clock.js"),
        };
  /** @type {typeof import("./bench-arrive.js")} */
  const { button } = own.benchleafArrive;
  /** @type {typeof import("./bench-draw.js")} */
  const { all, element, get, write } = own.benchleafDraw;
  /** @type {typeof import("./bench-record.js")} */
  const { fileOf, recordOf, tellRow, undone } = own.benchleafRecord;
  /** @type {typeof import("./bench-tray.js")} */
  const { lying, tellItem } = own.benchleafTray;
  /** @type {typeof import("./bench-way.js")} */
  const { leftOut } = own.benchleafWay;
  /** @type {typeof import("./bench-clock.js")} */
  const { tellTime } = own.benchleafClock;

  /**
   * Asks something in a view of its own.
   * @param {HTMLElement} view
   * @param {string} title
   * @param {readonly (string | HTMLElement)[]} body
   * @param {readonly HTMLElement[]} answers
   */
  const ask = (view, title, body, answers) => {
    const head = element("h2", title);
    head.className = "say";
    head.tabIndex = -1;
    const keys = element("div", ...answers);
    keys.className = "answers";
    view.replaceChildren(head, ...body.map(part => (typeof part === "string" ? element("p", part) : part)), keys);
  };

  /**
   * Closing while something lies out: what, and the steps that left it there, each to be done now.
   * @param {HTMLElement} view
   * @param {Way} way
   * @param {Run} run
   * @param {{ again: (slot: number) => void, counted: () => void }} hands
   */
  const askTray = (view, way, run, hands) => {
    const things = element("ul", ...leftOut(way, run).map(item => element("li", tellItem(item))));
    const out = new Set(leftOut(way, run).map(([what]) => what));
    const answers = run.path.flatMap(({ state, node, moves, label }, slot) =>
      state === "undone" && node !== null && moves.some(([what, count]) => count < 0 && out.has(what))
        ? [button(`Do ${label} now`, () => hands.again(slot))]
        : [],
    );
    // Only where no step can bring it back, because the procedure has changed since it was taken out.
    if (answers.length === 0) answers.push(button("I have looked: nothing lies out", hands.counted));
    const left = undone(run);
    const why = left.length > 0 ? [`Not done: ${left.join(", ")}.`] : [];
    ask(view, "Closing is not finished: in the tray lies", [things, ...why], answers);
  };

  /**
   * Another window has carried the same work on: nothing is written over it.
   * @param {HTMLElement} view
   * @param {Run} other
   * @param {() => void} take
   */
  const askOther = (view, other, take) => {
    const last = other.path.at(-1);
    const far = last ? `as far as ${last.label}, ${tellTime(other.saved)}` : `at ${tellTime(other.saved)}`;
    ask(
      view,
      "Another window has carried this work on",
      [`There it was saved ${far}. What was done last here is not saved, and nothing was written over the other.`],
      [button("Go on here from what was saved there", take)],
    );
  };

  /**
   * How it ended: what lies out, what was left undone, and which outcomes there can be.
   * @param {HTMLElement} view
   * @param {Run} run
   * @param {boolean} isNew
   */
  const drawEnd = (view, run, isNew) => {
    const items = lying(run.path).map(item => element("li", `In the tray: ${tellItem(item)}`));
    const steps = undone(run).map(label => element("li", `Not done: ${label}`));
    const rows = [...items, ...steps];
    view
      .querySelector("[data-left]")
      ?.replaceChildren(...(rows.length > 0 ? rows : [element("li", "The tray is empty, and every step is done.")]));
    for (const radio of /** @type {HTMLInputElement[]} */ (all(view, "[name=outcome]"))) {
      // A device is not cured by work that was stopped.
      radio.disabled = radio.value === "cured" && run.state === "stopped";
      radio.checked = radio.value === run.outcome;
    }
    if (isNew) {
      const [cause, remark] = [view.querySelector("[name=cause]"), view.querySelector("[name=remark]")];
      if (cause) /** @type {HTMLInputElement} */ (cause).value = run.cause;
      if (remark) /** @type {HTMLTextAreaElement} */ (remark).value = run.remark;
    }
    const finish = /** @type {HTMLButtonElement | null} */ (view.querySelector('[data-do="finish"]'));
    if (finish) finish.disabled = run.outcome === "" || run.ended !== null;
    write(view.querySelector("[data-ended]"), run.ended === null ? "" : `Closed ${tellTime(run.ended)}.`);
  };

  const drawStopped = (/** @type {HTMLElement} */ view, /** @type {Run} */ run) => {
    write(get(view, "[data-why]"), run.stop?.say ?? "");
    const link = /** @type {HTMLAnchorElement | null} */ (view.querySelector("[data-go]"));
    if (!link) return;
    link.hidden = !run.stop?.link;
    if (run.stop?.link) link.href = run.stop.link;
    if (!link.textContent) link.textContent = "Go on there";
  };

  /** Hands the record over as a file. */
  const download = (/** @type {Head} */ head, /** @type {Run} */ run) => {
    const text = `${JSON.stringify(recordOf(head, run), null, 2)}\n`;
    const link = /** @type {HTMLAnchorElement} */ (element("a"));
    link.href = URL.createObjectURL(new Blob([text], { type: "application/json" }));
    link.download = fileOf(head, run);
    document.body.append(link);
    link.click();
    link.remove();
    // Not at once: the browser reads it a little later.
    setTimeout(() => URL.revokeObjectURL(link.href), 10_000);
  };

  /** A day and a time that every reader takes alike. */
  const tellMoment = (/** @type {number} */ at) => {
    const day = new Date(at);
    const [month, date] = [day.getMonth() + 1, day.getDate()].map(part => String(part).padStart(2, "0"));
    return `${day.getFullYear()}-${month}-${date} ${tellTime(at)}`;
  };

  const row = (/** @type {string} */ name, /** @type {readonly string[]} */ texts) =>
    element("tr", ...texts.map(text => element(name, text)));

  /**
   * The record for paper.
   * @param {HTMLElement} place
   * @param {Head} head
   * @param {Run} run
   * @param {(step: string) => string} say the instruction of a step, as the page has it
   */
  const drawSheet = (place, head, run, say) => {
    const record = recordOf(head, run);
    /** @type {[string, string][]} */
    const facts = [
      ["Procedure", `${record.title ?? record.procedure}, revision ${record.revision}`],
      ["Device", [head.device, run.variant].filter(Boolean).join(", ")],
      ["Serial or job number", run.job],
      ["Begun", tellMoment(run.began)],
      ["Ended", run.ended ? tellMoment(run.ended) : "open"],
      ["Stopped", record.stopped ?? ""],
      ["Outcome", run.outcome.replace("-", " ")],
      ["Cause", record.cause ?? ""],
      ["Remark", run.remark],
      ["Left in the tray", lying(run.path).map(tellItem).join(", ") || "nothing"],
    ];
    const told = facts
      .filter(([, value]) => value)
      .map(([name, value]) => element("tr", element("th", name), element("td", value)));
    const steps = record.steps.map(step =>
      row("td", [
        step.label,
        say(step.step),
        step.replaced ? `${step.state}, done again below` : step.state,
        tellMoment(Date.parse(step.when)),
        tellRow(step),
      ]),
    );
    const heads = row("th", ["Step", "Instruction", "State", "When", "Result, reason, note"]);
    place.replaceChildren(
      element("h2", "Record"),
      element("table", element("tbody", ...told)),
      element("table", element("thead", heads), element("tbody", ...steps)),
    );
  };

  const benchleafClose = { askOther, askTray, download, drawEnd, drawSheet, drawStopped };
  if (typeof module !== "undefined") module.exports = benchleafClose;
  else Object.assign(window, { benchleafClose });
}
