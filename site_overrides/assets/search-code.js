// @ts-check
"use strict";

/* The short texts of the index, read: words, numbers, lists of places. They are written by `search_code.py`. */

/**
 * @typedef {object} Places
 * @property {number[]} entries
 * @property {number[]} ranks how much the word weighs in each: 0 in a title, 3 in a step
 */

{
  const [END, WEIGHTS] = ["|", "!#$%"];
  const DIGITS = Array.from({ length: 0x7f - 0x20 }, (_, code) => String.fromCharCode(code + 0x20)).filter(
    digit => !`"\\<${END}${WEIGHTS}`.includes(digit),
  );
  const LAST = 72;
  const MORE = DIGITS.length - LAST;
  const VALUES = new Int16Array(0x80).fill(-1);
  for (const [value, digit] of DIGITS.entries()) VALUES[digit.charCodeAt(0)] = value;

  /**
   * Reads numbers from a text, one after the other.
   * @param {string} text
   */
  const createReader = text => {
    let at = 0;
    const next = () => {
      let value = 0;
      let scale = 1;
      for (;;) {
        const digit = VALUES[text.charCodeAt(at)] ?? -1;
        if (digit < 0) throw new Error(`The search index is damaged: ${text.slice(at, at + 20)}`);
        at += 1;
        if (digit < LAST) return value + digit * scale;
        value += digit * scale;
        scale *= MORE;
      }
    };
    return {
      next,
      hasMore: () => at < text.length,
      peek: () => text[at] ?? "",
      skip: () => (at += 1),
      /** The text as far as the mark that ends it. */
      upTo: (/** @type {string} */ mark) => {
        const end = text.indexOf(mark, at);
        const from = at;
        at = end < 0 ? text.length : end + 1;
        return text.slice(from, end < 0 ? text.length : end);
      },
    };
  };

  /** @param {string} text */
  const readWords = text => {
    let word = "";
    return (text.match(/[A-Z][^A-Z]*/gu) ?? []).map(coded => {
      word = word.slice(0, coded.charCodeAt(0) - 65) + coded.slice(1);
      return word;
    });
  };

  /** @param {string} text */
  const readKin = text => {
    const [reader, kinOf] = [createReader(text), /** @type {number[]} */ ([])];
    let known = 0;
    while (reader.hasMore()) {
      const back = reader.next();
      kinOf.push(known - back);
      if (back === 0) known += 1;
    }
    return kinOf;
  };

  /** @param {string} text */
  const readRising = text => {
    const [reader, values] = [createReader(text), /** @type {number[]} */ ([])];
    while (reader.hasMore()) values.push((values.at(-1) ?? -1) + reader.next() + 1);
    return values;
  };

  /**
   * @param {string} text
   * @returns {Places}
   */
  const readPlaces = text => {
    const [reader, entries, ranks] = [createReader(text), /** @type {number[]} */ ([]), /** @type {number[]} */ ([])];
    let rank = 0;
    let entry = -1;
    while (reader.hasMore()) {
      const mark = WEIGHTS.indexOf(reader.peek());
      if (mark >= 0) {
        rank = mark;
        entry = -1;
        reader.skip();
      } else {
        entry += reader.next() + 1;
        entries.push(entry);
        ranks.push(rank);
      }
    }
    return { entries, ranks };
  };

  /**
   * @param {string} text
   * @returns {Map<number, Set<number>>}
   */
  const readAlike = text => {
    /** @type {Map<number, Set<number>>} */
    const alike = new Map();
    for (const group of text ? text.split(END) : []) {
      const [said = "", meant = said] = group.split(WEIGHTS[0] ?? "");
      for (const one of readRising(said)) {
        const others = alike.get(one) ?? new Set();
        alike.set(one, others);
        for (const other of readRising(meant)) if (other !== one) others.add(other);
      }
    }
    return alike;
  };

  /** @param {string} text */
  const readHrefs = text => {
    const [reader, hrefs] = [createReader(text), /** @type {string[]} */ ([])];
    let way = "";
    while (reader.hasMore()) {
      way = way.slice(0, reader.next()) + reader.upTo(END);
      hrefs.push(way.endsWith("*") ? `${way.slice(0, -1)}.html` : way);
    }
    return hrefs;
  };

  const benchleafCode = { END, createReader, readWords, readKin, readPlaces, readAlike, readHrefs };
  if (typeof module !== "undefined") module.exports = benchleafCode;
  else Object.assign(window, { benchleafCode });
}
