// @ts-check
"use strict";

/* Times by the clock: what is left of a wait, how long a touch lasts. Nothing is counted: a page may sleep. */

/**
 * A step's time: a wait that must be over, or touches that last as long as they may.
 * @typedef {object} Timer
 * @property {"wait" | "dwell"} kind
 * @property {number} low seconds
 * @property {number | null} high seconds
 * @property {number} times
 * @property {number | null} apart seconds between two touches
 * @property {string} [label]
 */

/** @typedef {{ from: number, to: number | null }} Span milliseconds of the clock; null while it lasts */

/** @typedef {"too short" | "in window" | "too long"} Fit */

/**
 * @typedef {object} Reads
 * @property {"ready" | "running" | "pause" | "over"} state
 * @property {number} seconds of the wait that are left, of the touch that have passed, of the pause that are left
 * @property {string} shown
 * @property {Fit | null} fit
 * @property {number} done touches that are over
 * @property {string} ends when a wait is over, as a time of day
 */

{
  const MINUTE = 60;
  const MARKS = [MINUTE, 10, 0];
  const DAYS = ["Sun", "Mon", "Tue", "Wed", "Thu", "Fri", "Sat"];
  const two = (/** @type {number} */ number) => String(number).padStart(2, "0");

  /** Seconds as a clock shows them: 0:09, 12:30, 1:02:03. A part of a second counts as a whole one. */
  const tellSpan = (/** @type {number} */ seconds) => {
    const whole = Math.max(0, Math.ceil(seconds - 1e-6));
    const [hours, minutes, left] = [Math.floor(whole / 3600), Math.floor((whole % 3600) / MINUTE), whole % MINUTE];
    return hours > 0 ? `${hours}:${two(minutes)}:${two(left)}` : `${minutes}:${two(left)}`;
  };

  /** The time of day, here; with the day where it is another one than that of `now`. */
  const tellTime = (/** @type {number} */ at, now = at) => {
    const [day, today] = [new Date(at), new Date(now)];
    const time = `${two(day.getHours())}:${two(day.getMinutes())}:${two(day.getSeconds())}`;
    return day.toDateString() === today.toDateString() ? time : `${DAYS[day.getDay()]} ${day.getDate()}., ${time}`;
  };

  /** Seconds that a span lasts; a clock that was put back gives none, never less. */
  const lasts = (/** @type {Span} */ span, /** @type {number} */ now) =>
    Math.max(0, ((span.to ?? now) - span.from) / 1000);

  /**
   * How a touch lies to its window.
   * @param {number} seconds
   * @param {Timer} timer
   * @returns {Fit}
   */
  const fitOf = (seconds, timer) => {
    if (seconds < timer.low) return "too short";
    return timer.high !== null && seconds > timer.high ? "too long" : "in window";
  };

  /** Tenths of a second, rounded so that they never say "in the window" of what is not. */
  const tellTouch = (/** @type {number} */ seconds, /** @type {Fit} */ fit) =>
    `${((fit === "too long" ? Math.ceil(seconds * 10 - 1e-6) : Math.floor(seconds * 10 + 1e-6)) / 10).toFixed(1)} s`;

  /**
   * @param {Timer} timer
   * @param {readonly Span[]} spans
   * @param {number} now
   * @returns {Reads}
   */
  const readWait = (timer, spans, now) => {
    const [span] = spans;
    if (!span) return { state: "ready", seconds: timer.low, shown: tellSpan(timer.low), fit: null, done: 0, ends: "" };
    const left = timer.low - lasts(span, now);
    const state = left <= 0 || span.to !== null ? "over" : "running";
    const ends = tellTime(span.from + timer.low * 1000, now);
    return { state, seconds: left, shown: tellSpan(left), fit: left <= 0 ? "in window" : "too short", done: 0, ends };
  };

  /**
   * @param {Timer} timer
   * @param {readonly Span[]} spans
   * @param {number} now
   * @returns {Reads}
   */
  const readDwell = (timer, spans, now) => {
    const last = spans.at(-1);
    if (!last) return { state: "ready", seconds: 0, shown: "0.0 s", fit: null, done: 0, ends: "" };
    const seconds = lasts(last, now);
    const fit = fitOf(seconds, timer);
    const shown = tellTouch(seconds, fit);
    if (last.to === null) return { state: "running", seconds, shown, fit, done: spans.length - 1, ends: "" };
    const rest = (timer.apart ?? 0) - Math.max(0, (now - last.to) / 1000);
    const state = spans.length >= timer.times ? "over" : rest > 0 ? "pause" : "ready";
    return { state, seconds: state === "pause" ? rest : seconds, shown, fit, done: spans.length, ends: "" };
  };

  /**
   * What a timer reads at a moment, from when it was started and ended.
   * @param {Timer} timer
   * @param {readonly Span[]} spans
   * @param {number} now
   */
  const read = (timer, spans, now) => (timer.kind === "wait" ? readWait : readDwell)(timer, spans, now);

  /**
   * Which mark of a wait was passed between two looks at the clock: what is left is said a minute and ten seconds
   * before the end, and at the end. Of several passed at once (the page slept) the last one counts.
   * @param {number} before seconds left
   * @param {number} after
   */
  const passed = (before, after) => MARKS.filter(mark => before > mark && after <= mark).at(-1) ?? null;

  const benchleafClock = { tellSpan, tellTime, lasts, fitOf, tellTouch, read, passed };
  if (typeof module !== "undefined") module.exports = benchleafClock;
  else Object.assign(window, { benchleafClock });
}
