// @ts-check
"use strict";

/* Words as the search takes them: a text in pieces, which words are kin, how many slips lie between two spellings. */

/**
 * The tables that come with the index, so that words typed here are folded as the indexed ones were.
 * @typedef {object} Tables
 * @property {string} weak words that tell nothing, spaces between
 * @property {string} faint stems of words that tell little, spaces between
 * @property {string} no negations, spaces between
 * @property {Record<string, string>} irregular
 * @property {Record<string, string>} spelt
 * @property {[pattern: string, cut: number, add: string][]} endings
 */

/**
 * @typedef {object} Words
 * @property {(text: string) => string[]} tokens
 * @property {(word: string) => string} stem
 * @property {(word: string) => boolean} isWeak
 * @property {(word: string) => boolean} isFaint
 * @property {(word: string) => boolean} isNo
 */

/** @typedef {(tables: Tables) => Words} CreateWords */

{
  const NO = "no";
  const APOSTROPHES = /['’‘ʼ`´]/gu;
  const LETTER = "[\\p{L}\\p{Nl}\\p{No}]";
  const WORD = new RegExp(`\\p{Nd}+(?:[.,]\\p{Nd}+)*|${LETTER}[\\p{L}\\p{N}]*`, "gu");
  const JOINED = new RegExp(`${LETTER}+(?:-${LETTER}+)+`, "gu");
  const PIECE = /[\p{L}\p{N}\p{M}](?:[\p{L}\p{N}\p{M}'’‘ʼ`´]|[.,](?=\p{Nd}))*/gu;
  const STRANGE = /[^ -~]/u;
  const LONGEST = 40;

  /**
   * Small letters, without accents and apostrophes; ohm and micro as one would type them.
   * @param {string} text
   */
  const plain = text => {
    const bare = text.replace(APOSTROPHES, "").toLowerCase();
    if (!STRANGE.test(bare)) return bare;
    const small = bare.normalize("NFKD").replace(/\p{M}/gu, "").toLowerCase();
    return small.replace(/ω/gu, "ohm").replace(/μ/gu, "u");
  };

  /**
   * The folding that the tables describe.
   * @type {CreateWords}
   */
  const createWords = tables => {
    const [weak, faint, no] = [tables.weak, tables.faint, tables.no].map(text => new Set(text.split(" ")));
    const irregular = new Map(Object.entries(tables.irregular));
    const kept = new Map(Object.entries(tables.spelt));
    const others = new RegExp([...kept.keys()].join("|"), "gu");
    const endings = tables.endings.map(([pattern, cut, add]) => ({ pattern: new RegExp(pattern, "u"), cut, add }));
    /** @type {Map<string, string>} */
    const known = new Map();

    /** @param {string} word */
    const spelt = word => word.replace(others, other => kept.get(other) ?? other);
    /** @param {string} word */
    const shorter = word => {
      const ending = endings.find(({ pattern }) => pattern.test(word));
      return ending ? word.slice(0, word.length - ending.cut) + ending.add : word;
    };
    /** @param {string} word */
    const stem = word => {
      if (no.has(word)) return NO;
      let [before, kin] = ["", word];
      while (kin !== before) [before, kin] = [kin, irregular.get(kin) ?? shorter(kin)];
      return kin;
    };

    return {
      tokens: text => {
        const small = plain(text);
        const words = (small.match(WORD) ?? []).map(word => spelt(word.replaceAll(",", ".")));
        const joined = (small.match(JOINED) ?? []).map(word => spelt(word.replaceAll("-", "")));
        return [...words, ...joined];
      },
      stem: word => {
        const kin = known.get(word) ?? stem(word);
        known.set(word, kin);
        return kin;
      },
      isWeak: word => weak.has(word),
      isFaint: word => faint.has(stem(word)),
      isNo: word => no.has(word),
    };
  };

  /**
   * A text in pieces, each a word or what stands between words.
   * @param {string} text
   * @returns {{ text: string, isWord: boolean }[]}
   */
  const pieces = text => {
    /** @type {{ text: string, isWord: boolean }[]} */
    const found = [];
    let at = 0;
    for (const match of text.matchAll(PIECE)) {
      if (match.index > at) found.push({ text: text.slice(at, match.index), isWord: false });
      found.push({ text: match[0], isWord: true });
      at = match.index + match[0].length;
    }
    if (at < text.length) found.push({ text: text.slice(at), isWord: false });
    return found;
  };

  const rows = [0, 1, 2].map(() => new Uint8Array(LONGEST + 1));

  /**
   * How many slips make one word of the other: a letter more, less or wrong, or two changed round. More than `most`
   * is given as most + 1. When `isOpen`, `word` may stop anywhere in `other`.
   * @param {string} word
   * @param {string} other
   * @param {number} most
   * @param {boolean} [isOpen]
   */
  const slips = (word, other, most, isOpen = false) => {
    if (word.length > LONGEST || other.length > LONGEST) return word === other ? 0 : most + 1;
    let [before, last, now] = /** @type {[Uint8Array, Uint8Array, Uint8Array]} */ (/** @type {unknown} */ (rows));
    for (let j = 0; j <= other.length; j += 1) last[j] = j;
    for (let i = 1; i <= word.length; i += 1) {
      let least = (now[0] = i);
      for (let j = 1; j <= other.length; j += 1) {
        const isSame = word[i - 1] === other[j - 1];
        let cost = Math.min((last[j] ?? 0) + 1, (now[j - 1] ?? 0) + 1, (last[j - 1] ?? 0) + (isSame ? 0 : 1));
        if (i > 1 && j > 1 && word[i - 1] === other[j - 2] && word[i - 2] === other[j - 1]) {
          cost = Math.min(cost, (before[j - 2] ?? 0) + 1);
        }
        now[j] = cost;
        least = Math.min(least, cost);
      }
      if (least > most) return most + 1;
      const free = before;
      before = last;
      last = now;
      now = free;
    }
    const whole = last[other.length] ?? 0;
    return Math.min(most + 1, isOpen ? Math.min(...last.subarray(0, other.length + 1)) : whole);
  };

  const benchleafWords = { createWords, pieces, plain, slips };
  if (typeof module !== "undefined") module.exports = benchleafWords;
  else Object.assign(window, { benchleafWords });
}
