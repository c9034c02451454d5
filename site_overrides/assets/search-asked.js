// @ts-check
"use strict";

/* What was typed, understood: for each word the kin that it may mean, and how well. */

/** @typedef {import("./search-book.js").Book} Book */

/**
 * One word of what was typed.
 * @typedef {object} Want
 * @property {string} word
 * @property {Map<number, number>} kin what it may mean, and how well: 1 for the word itself
 * @property {boolean} isNo
 */

{
  const own =
    typeof module === "undefined"
      ? /** @type {any} */ (window)
      : { benchleafWords: require("./search-words.js"), benchleafBook: require("./search-book.js") };
  /** @type {typeof import("./search-words.js")} */
  const { slips } = own.benchleafWords;
  /** @type {typeof import("./search-book.js")} */
  const { findKin, placeOf } = own.benchleafBook;

  const [MOST_BEGUN, MOST_SLIPS] = [40, 12];
  const [IN_STEPS, IN_WHOLE, ALIKE] = [3, 0.9, 0.7];

  /** The letters of a word as bits: what two words do not share bounds how few slips can lie between them. */
  const lettersOf = (/** @type {string} */ word) => {
    let bits = 0;
    for (let at = 0; at < word.length; at += 1) bits |= 1 << (word.charCodeAt(at) % 31);
    return bits;
  };

  const countBits = (/** @type {number} */ bits) => {
    let count = 0;
    for (let left = bits; left !== 0; left &= left - 1) count += 1;
    return count;
  };

  /** @type {WeakMap<Book, { lengths: number[][], letters: Int32Array }>} */
  const shelves = new WeakMap();

  /**
   * The vocabulary by length, and each word's letters. Made at the first slip.
   * @param {Book} book
   */
  const shelvesOf = book => {
    const made = shelves.get(book);
    if (made) return made;
    /** @type {number[][]} */
    const lengths = [];
    const letters = new Int32Array(book.vocabulary.length);
    for (const [place, word] of book.vocabulary.entries()) {
      (lengths[word.length] ??= []).push(place);
      letters[place] = lettersOf(word);
    }
    const shelf = { lengths, letters };
    shelves.set(book, shelf);
    return shelf;
  };

  /** How many slips are thought possible in a word of that length. */
  const mostSlips = (/** @type {number} */ length) => (length >= 8 ? 2 : length >= 4 ? 1 : 0);

  /**
   * The words of the vocabulary that a few slips may have made `word` of: the fewest slips first.
   * @param {Book} book
   * @param {string} word
   * @param {boolean} isOpen whether `word` may go on
   * @returns {{ kin: number, slips: number, isFirstWrong: boolean }[]}
   */
  const findSlips = (book, word, isOpen) => {
    const most = mostSlips(word.length);
    if (most === 0 || /\p{N}/u.test(word)) return [];
    const { lengths, letters } = shelvesOf(book);
    const own = lettersOf(word);
    const found = [];
    const longest = isOpen ? lengths.length - 1 : word.length + most;
    for (let length = Math.max(4, word.length - most); length <= longest; length += 1) {
      for (const place of lengths[length] ?? []) {
        const theirs = letters[place] ?? 0;
        // A wrong letter changes at most one bit here and one there; an open word may lack any of theirs.
        if (countBits(own & ~theirs) > most || (!isOpen && countBits(theirs & ~own) > most)) continue;
        const other = book.vocabulary[place] ?? "";
        const count = slips(word, other, most, isOpen);
        if (count <= most) {
          found.push({ kin: book.kinOf[place] ?? -1, slips: count, isFirstWrong: word[0] !== other[0] });
        }
      }
    }
    found.sort((one, other) => one.slips - other.slips || Number(one.isFirstWrong) - Number(other.isFirstWrong));
    return found.slice(0, MOST_SLIPS);
  };

  /**
   * The words of the vocabulary that begin with `word`, those of the most entries first.
   * @param {Book} book
   * @param {string} word
   */
  const findBegun = (book, word) => {
    const [from, to] = [placeOf(book.vocabulary, word), placeOf(book.vocabulary, `${word}\uffff`)];
    const found = [];
    for (let place = from; place < to; place += 1) {
      const kin = book.kinOf[place] ?? -1;
      found.push({ kin, share: word.length / (book.vocabulary[place]?.length ?? 1) });
    }
    if (found.length > MOST_BEGUN) {
      found.sort((one, other) => book.places(other.kin).entries.length - book.places(one.kin).entries.length);
    }
    return found.slice(0, MOST_BEGUN);
  };

  /**
   * The kin of `word` itself, or of what ends as `word` will once it is typed: charg, chargi, chargin.
   * @param {Book} book
   * @param {string} word
   * @param {boolean} isOpen
   */
  const findItself = (book, word, isOpen) => {
    const { words } = book;
    const itself = findKin(book, word);
    if (itself >= 0) return { kin: itself, fit: 1 };
    const stem = findKin(book, words.stem(word));
    if (stem >= 0) return { kin: stem, fit: 0.95 };
    const rest = !isOpen ? "" : word.endsWith("i") ? "ng" : word.endsWith("in") ? "g" : "";
    const grown = rest ? findKin(book, words.stem(word + rest)) : -1;
    return grown >= 0 ? { kin: grown, fit: 0.85 } : null;
  };

  /**
   * All that one word may mean.
   * @param {Book} book
   * @param {string} word
   * @param {boolean} isOpen whether it is the last and may go on
   * @returns {Map<number, number>}
   */
  const meanings = (book, word, isOpen) => {
    /** @type {Map<number, number>} */
    const kin = new Map();
    const { words } = book;
    const add = (/** @type {number} */ one, /** @type {number} */ fit) => {
      kin.set(one, Math.max(fit, kin.get(one) ?? 0));
    };
    const itself = findItself(book, word, isOpen);
    if (itself) add(itself.kin, itself.fit);
    if (isOpen || (!itself && word.length >= 3)) {
      for (const begun of findBegun(book, word)) add(begun.kin, (isOpen ? 0.55 : 0.4) + 0.3 * begun.share);
    }
    // A word that is known from steps alone may still be a slip of what customers say: lose, loose.
    const isSaid = (/** @type {number} */ one) => book.places(one).ranks.some(rank => rank < IN_STEPS);
    const isSure = itself !== null && (isSaid(itself.kin) || book.alike(itself.kin).size > 0);
    if (!isSure && (kin.size === 0 || !isOpen)) {
      for (const found of findSlips(book, word, false)) {
        const fit = (found.slips === 1 ? 0.75 : 0.55) - (found.isFirstWrong ? 0.1 : 0) - (itself ? 0.35 : 0);
        add(found.kin, fit);
      }
    }
    // Leeking: two slips from leaks, one from leak.
    if (kin.size === 0) {
      for (const found of findSlips(book, words.stem(word), false)) add(found.kin, 0.5);
    }
    if (kin.size === 0 && isOpen) {
      for (const found of findSlips(book, word, true)) add(found.kin, 0.5 / found.slips);
    }
    for (const [one, fit] of [...kin]) for (const other of book.alike(one)) add(other, ALIKE * fit);
    return kin;
  };

  /**
   * `word` as two words of the vocabulary, if it can be: touchscreen.
   * @param {Book} book
   * @param {string} word
   * @returns {string[] | null}
   */
  const parted = (book, word) => {
    for (let cut = 3; cut <= word.length - 3; cut += 1) {
      const [one, other] = [word.slice(0, cut), word.slice(cut)];
      if (findItself(book, one, false) && findItself(book, other, false)) return [one, other];
    }
    return null;
  };

  /**
   * What was typed, word by word. Weak words are left out, unless there is nothing else.
   * @param {Book} book
   * @param {string} text
   * @returns {Want[]}
   */
  const understand = (book, text) => {
    const { words } = book;
    const all = words.tokens(text.replaceAll("-", " "));
    const strong = all.filter(word => !words.isWeak(word));
    const typed = strong.length > 0 ? strong : all.slice(-1);
    const openWord = /[\p{L}\p{N}]$/u.test(text) ? all.at(-1) : undefined;

    // Touch screen may stand as touchscreen: each half is then found in the whole.
    const wholes = all.map((word, place) => findKin(book, word + (all[place + 1] ?? "")));
    return typed.flatMap((word, place) => {
      const isOpen = word === openWord && place === typed.length - 1;
      const parts = findItself(book, word, isOpen) || findBegun(book, word).length > 0 ? null : parted(book, word);
      const at = all.indexOf(word);
      const inWhole = [wholes[at] ?? -1, wholes[at - 1] ?? -1].filter(kin => kin >= 0);
      return (parts ?? [word]).map(part => {
        const kin = meanings(book, part, isOpen && parts === null);
        for (const one of inWhole) kin.set(one, Math.max(IN_WHOLE, kin.get(one) ?? 0));
        return { word: part, kin, isNo: words.isNo(part) };
      });
    });
  };

  const benchleafAsked = { understand };
  if (typeof module !== "undefined") module.exports = benchleafAsked;
  else Object.assign(window, { benchleafAsked });
}
