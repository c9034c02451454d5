// @ts-check
"use strict";

/* The timer on the screen: what it reads now, its alarm by sight, text and sound. */

/** @typedef {import("./bench-way.js").Run} Run */

/** @typedef {import("./bench-way.js").Node} Node */

/** @typedef {import("./bench-clock.js").Reads} Reads */

/** @typedef {import("./bench-clock.js").Timer} Timer */

{
  const own =
    typeof module === "undefined"
      ? /** @type {any} */ (window)
      : { benchleafClock: require("./bench-clock.js"), benchleafDraw: require("./bench-draw.js") };
  /** @type {typeof import("./bench-clock.js")} */
  const { passed, read, tellSpan, tellTime } = own.benchleafClock;
  /** @type {typeof import("./bench-draw.js")} */
  const { element, get, write } = own.benchleafDraw;

  /**
   * The figures of a timer, as pairs of label and value.
   * @param {Timer} timer
   * @param {Reads} reads
   * @param {string} started
   * @returns {[string, string][]}
   */
  const figuresOf = (timer, reads, started) => {
    if (timer.kind === "wait") {
      if (reads.state === "ready") return [["To wait", reads.shown]];
      const left = reads.state === "running" ? "Left" : reads.fit === "in window" ? "Time is over" : "Cut short, left";
      return [
        [left, reads.shown],
        ["Started", started],
        ["Ends", reads.ends],
      ];
    }
    const count = /** @type {[string, string]} */ (["Done", `${reads.done} of ${timer.times}`]);
    if (reads.state === "pause") return [["Pause", tellSpan(reads.seconds)], count];
    return [[reads.fit ? `This touch · ${reads.fit}` : "This touch", reads.shown], count];
  };

  /**
   * What a timer says in one sentence. It changes when the state does and not each second: it is read out.
   * @param {Timer} timer
   * @param {Reads} reads
   */
  const sentenceOf = (timer, reads) => {
    if (timer.kind === "wait") {
      if (reads.state === "ready") return "Start the clock when the wait begins.";
      if (reads.state === "running") return `The wait ends at ${reads.ends}.`;
      return reads.fit === "in window" ? "The time is over." : "The wait was cut short.";
    }
    if (reads.state === "running")
      return reads.fit === "too short"
        ? "Keep on."
        : reads.fit === "too long"
          ? "Too long: lift."
          : "In the window: lift.";
    const last = reads.fit ? `The last touch was ${reads.fit === "in window" ? "in the window" : reads.fit}. ` : "";
    if (reads.state === "over") return `${last}All ${timer.times} are done.`;
    return `${last}${reads.state === "pause" ? "Pause." : "Start when the tool touches."}`;
  };

  /** What is said a minute and ten seconds before the end of a wait, and at its end. */
  const announce = (/** @type {number} */ mark) => (mark === 0 ? "The time is over." : `${tellSpan(mark)} left.`);

  /**
   * Draws the timer of a step as it reads at a moment.
   * @param {HTMLElement} place
   * @param {Timer} timer
   * @param {Run["now"]} draft
   * @param {number} clock
   * @param {boolean} isPast a step that is looked back at: nothing can be started there
   */
  const drawTimer = (place, timer, draft, clock, isPast) => {
    const reads = read(timer, draft.spans, clock);
    const figures = figuresOf(timer, reads, draft.spans[0] ? tellTime(draft.spans[0].from, clock) : "");
    place.dataset.state = draft.untimed ? "untimed" : reads.state;
    place.dataset.fit = reads.fit ?? "";
    const face = get(place, "[data-clock]");
    const cells = figures.map(([label, value]) => {
      const name = element("span", label);
      name.className = "label";
      const cell = element("span", name, " ", element("b", value));
      cell.className = "figure";
      return cell;
    });
    if (face.textContent !== cells.map(cell => cell.textContent).join("")) face.replaceChildren(...cells);
    write(place.querySelector("[data-verdict]"), draft.untimed ? "Not timed." : sentenceOf(timer, reads));
    const start = /** @type {HTMLButtonElement} */ (get(place, '[data-do="start"]'));
    write(start, reads.state === "running" && timer.kind === "dwell" ? "Lift" : "Start");
    start.hidden =
      isPast || draft.untimed || reads.state === "over" || (reads.state === "running" && timer.kind === "wait");
    start.disabled = reads.state === "pause";
    const without =
      place.querySelector('[data-do="untimed"]') ?? place.appendChild(element("button", "Without the clock"));
    without.setAttribute("data-do", "untimed");
    without.setAttribute("type", "button");
    /** @type {HTMLElement} */ (without).hidden =
      isPast || timer.kind === "wait" || draft.untimed || reads.state === "over";
  };

  /**
   * What an alarm has to say between two looks at the clock, or nothing.
   * @param {Timer | null | undefined} timer
   * @param {Run["now"]} draft
   * @param {number} before
   * @param {number} clock
   * @returns {{ says: string, rings: boolean } | null}
   */
  const alarmOf = (timer, draft, before, clock) => {
    const [span] = draft.spans;
    if (timer?.kind !== "wait" || !span || span.to !== null) return null;
    // A clock that was started between two looks began with all of its time.
    const earlier = Math.max(before, span.from);
    const mark = passed(read(timer, draft.spans, earlier).seconds, read(timer, draft.spans, clock).seconds);
    return mark === null ? null : { says: announce(mark), rings: mark === 0 };
  };

  const benchleafTimer = { alarmOf, drawTimer, figuresOf, sentenceOf };
  if (typeof module !== "undefined") module.exports = benchleafTimer;
  else Object.assign(window, { benchleafTimer });
}
