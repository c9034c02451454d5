// @ts-check
"use strict";

/* A reading as it was typed, read and held against its limits. */

/**
 * What a checkpoint asks: something to look at, or a value.
 * @typedef {object} Check
 * @property {"look" | "reading"} kind
 * @property {string} [ask] what must be true, for a look
 * @property {string} [quantity]
 * @property {string} [unit]
 * @property {number | null} [low]
 * @property {number | null} [high]
 * @property {boolean} [strict] an end itself does not belong: > 10 kΩ
 * @property {string} [limits] in words
 */

/** @typedef {"within" | "below" | "above"} Verdict */

/**
 * @typedef {object} Reading
 * @property {number | null} value null when the meter showed more than it can
 * @property {string} unit
 * @property {string} typed
 * @property {string} limits
 * @property {Verdict} verdict
 */

{
  // What meters show when a value lies beyond their range: an open circuit, mostly.
  const BEYOND = /^(?:ol|o\.l|0l|overload|∞|open)$/i;
  const NUMBER = /^([+-]?)(\d+(?:[.,]\d*)?|[.,]\d+)(?:e([+-]?\d+))?$/i;

  /** One letter has many signs: the Greek one and the sign of the unit, micro and mu. */
  const plain = (/** @type {string} */ unit) =>
    unit
      .normalize("NFKC")
      .replaceAll("Ω", "ohm")
      .replace(/[\s·.]/g, "")
      .toLowerCase();

  /**
   * A number as people type it, with a comma or a point, alone or with its unit; null when it is none.
   * Two separators are two ways to read it, so they are none either.
   * @param {string} text
   * @param {string} unit
   * @returns {{ value: number | null } | null}
   */
  const readNumber = (text, unit) => {
    const bare = text
      .trim()
      .replace(/[−–]/g, "-")
      .replace(/[\u00a0\u202f]/g, " ");
    if (BEYOND.test(bare)) return { value: null };
    const parts = /^([+-]?[\d.,]+(?:e[+-]?\d+)?)\s*(\D*)$/i.exec(bare);
    if (!parts || (parts[2] && plain(parts[2]) !== plain(unit))) return null;
    // Milli and mega differ in their capital alone, so a unit must be written as it is asked for.
    if (parts[2] && /^[mM]/.test(parts[2]) && parts[2][0] !== unit[0]) return null;
    const number = NUMBER.exec(parts[1] ?? "");
    if (!number) return null;
    const value = Number(`${number[1]}${(number[2] ?? "").replace(",", ".")}${number[3] ? `e${number[3]}` : ""}`);
    return Number.isFinite(value) ? { value } : null;
  };

  /**
   * Where a value lies. What a meter cannot show any more lies above all.
   * @param {number | null} value
   * @param {Check} check
   * @returns {Verdict}
   */
  const judge = (value, check) => {
    const [low, high, shown] = [check.low ?? -Infinity, check.high ?? Infinity, value ?? Infinity];
    if (shown < low || (check.strict && shown === low)) return "below";
    // Where no high end is asked for, what lies beyond the meter's range is within.
    if (shown > high || (check.strict && shown === high && high !== Infinity)) return "above";
    return "within";
  };

  /**
   * What was typed, as a reading; null when it cannot be read.
   * @param {string} typed
   * @param {Check} check
   * @returns {Reading | null}
   */
  const readReading = (typed, check) => {
    const unit = check.unit ?? "";
    const number = readNumber(typed, unit);
    if (!number) return null;
    const verdict = judge(number.value, check);
    return { value: number.value, unit, typed: typed.trim(), limits: check.limits ?? "", verdict };
  };

  /**
   * A reading in words: what was understood, with its unit, and how it lies to the limits.
   * @param {Reading} reading
   */
  const tellReading = reading => {
    const shown = reading.value === null ? "More than the meter shows" : `${reading.value} ${reading.unit}`.trim();
    const limits = reading.limits || "what is asked";
    if (reading.verdict === "within") return `${shown}: within ${limits}.`;
    return `${shown}: too ${reading.verdict === "below" ? "low" : "high"}. Wanted: ${limits}.`;
  };

  const benchleafJudge = { readNumber, judge, readReading, tellReading };
  if (typeof module !== "undefined") module.exports = benchleafJudge;
  else Object.assign(window, { benchleafJudge });
}
