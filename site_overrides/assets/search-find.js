// @ts-check
"use strict";

/* What was typed, answered: the entries that fit, the best first, and which words are to be marked in them. */

/** @typedef {import("./search-book.js").Book} Book */

/** @typedef {import("./search-book.js").Entry} Entry */

/** @typedef {import("./search-book.js").Link} Link */

/** @typedef {import("./search-weigh.js").Want} Want */

/**
 * One result.
 * @typedef {object} Result
 * @property {Entry} entry
 * @property {string} phrase the customer's words that fit best, or nothing
 * @property {Link[]} answers
 */

/**
 * @typedef {object} Found
 * @property {number} count all that fit, also those that are not among the results
 * @property {Result[]} results
 * @property {(text: string) => { text: string, isMarked: boolean }[]} marked a text, with what fits marked
 */

{
  const own =
    typeof module === "undefined"
      ? /** @type {any} */ (window)
      : {
          benchleafWords: require("./search-words.js"),
          benchleafBook: require("./search-book.js"),
          benchleafAsked: require("./search-asked.js"),
          benchleafWeigh: require("./search-weigh.js"),
        };
  /** @type {typeof import("./search-words.js")} */
  const { pieces } = own.benchleafWords;
  /** @type {typeof import("./search-book.js")} */
  const { findKin } = own.benchleafBook;
  /** @type {typeof import("./search-asked.js")} */
  const { understand } = own.benchleafAsked;
  /** @type {typeof import("./search-weigh.js")} */
  const { isMereNo, scoresOf, weigh } = own.benchleafWeigh;

  const CLOSE = 1.5;
  const [NAMED, OTHERS, NO_DEVICE] = [1.25, 0.6, 0.85];
  const [COMPLAINT, DENIED, TASK] = [1.25, 1.5, 1.3];
  // What is looked up on a quiet day comes after what helps with the device at hand.
  /** @type {Partial<Record<Entry["kind"], number>>} */
  const REFERENCE = { rule: 0.7, method: 0.8, page: 0.9, part: 0.75, sheet: 0.5 };
  // "No sound" is not what a customer means whose sound crackles.
  const OTHER_SENSE = 0.75;
  const [MOST_CLOSELY, LEAST_SHARE, LEAST_FIT, SURELY] = [600, 0.4, 0.4, 0.7];

  /** @type {WeakMap<Book, Map<string, Set<number>>>} */
  const read = new WeakMap();

  /**
   * The words of a title or of what customers say, as kin.
   * @param {Book} book
   * @param {string} phrase
   */
  const kinIn = (book, phrase) => {
    const known = read.get(book) ?? new Map();
    read.set(book, known);
    const strong = () => book.words.tokens(phrase).filter(word => !book.words.isWeak(word));
    /** @type {Set<number>} */
    const kin = known.get(phrase) ?? new Set(strong().map(word => findKin(book, word)));
    known.set(phrase, kin);
    return kin;
  };

  /**
   * How closely a phrase says what was typed, in whatever order: 1 when all of it and nothing else.
   * @param {Book} book
   * @param {readonly Want[]} wants
   * @param {string} phrase
   */
  const closeness = (book, wants, phrase) => {
    const said = kinIn(book, phrase);
    let [got, wanted, heard] = [0, 0, 0];
    for (const kin of said) if (wants.some(want => want.kin.has(kin))) heard += 1;
    // "No reading" says nothing of what does not charge.
    if (!wants.some(want => !isMereNo(want, wants) && [...said].some(kin => want.kin.has(kin)))) return 0;
    for (const want of wants) {
      let best = 0;
      for (const kin of said) best = Math.max(best, want.kin.get(kin) ?? 0);
      wanted += want.weight;
      got += want.weight * best;
    }
    const isSameSense = wants.some(want => want.isNo) === said.has(findKin(book, "no"));
    return (got / wanted) * (0.5 + (0.5 * heard) / said.size) * (isSameSense ? 1 : OTHER_SENSE);
  };

  /**
   * Whether what was typed begins as procedures do: replace, clean. Then it is a task, otherwise a complaint.
   * @param {Book} book
   * @param {readonly Want[]} wants
   */
  const isTask = (book, wants) => {
    if (wants.some(want => want.isNo)) return false;
    const [first] = [...(wants[0]?.kin ?? [])].find(([, fit]) => fit >= SURELY) ?? [-1];
    return book.places(first).entries.some(place => {
      const { kind, title } = book.entries[place] ?? { kind: "page", title: "" };
      return kind === "procedure" && [...kinIn(book, title)][0] === first;
    });
  };

  /**
   * The customers' words of an entry, or its title, whichever comes closest to what was typed.
   * @param {Book} book
   * @param {readonly Want[]} wants
   * @param {Entry} entry
   * @param {Map<string, number>} known how close the phrases are that many entries share
   */
  const closest = (book, wants, entry, known) => {
    let best = { phrase: "", close: 0 };
    for (const phrase of [...entry.says, entry.title]) {
      const close = known.get(phrase) ?? closeness(book, wants, phrase);
      known.set(phrase, close);
      if (close > best.close) best = { phrase, close };
    }
    return best;
  };

  /**
   * A way to mark in a text what was typed.
   * @param {Book} book
   * @param {readonly Want[]} wants
   * @returns {Found["marked"]}
   */
  const createMarked = ({ words, vocabulary, kinOf }, wants) => {
    const meant = new Set(
      wants.flatMap(({ kin }) => [...kin].filter(([, fit]) => fit >= LEAST_FIT).map(([one]) => one)),
    );
    const isMeant = (/** @type {string} */ word) =>
      !words.isWeak(word) && meant.has(findKin({ vocabulary, kinOf }, word));
    return text =>
      pieces(text).map(piece => ({
        text: piece.text,
        isMarked: piece.isWord && words.tokens(piece.text).some(isMeant),
      }));
  };

  /**
   * The entries that answer what was typed.
   * @param {Book} book
   * @param {string} text
   * @param {number} most how many results are wanted
   * @returns {Found}
   */
  const find = (book, text, most) => {
    const wants = weigh(book, understand(book, text));
    const { scores, shares, ofNamed, isNamed } = scoresOf(book, wants);
    const wanted = wants.reduce((sum, want) => sum + (isMereNo(want, wants) ? 0 : want.weight), 0);
    const least = Math.max(LEAST_SHARE * shares.reduce((so, share) => Math.max(so, share), 0), Number.MIN_VALUE);
    const complaint = wants.some(want => want.isNo) ? DENIED : COMPLAINT;
    const task = isTask(book, wants);

    // Of many answers, those for the device that was named come first.
    const answersOf = (/** @type {Entry} */ entry) =>
      [...entry.answers]
        .sort((one, other) => (ofNamed[other] ?? 0) - (ofNamed[one] ?? 0))
        .flatMap(link => book.links[link] ?? []);

    const finals = new Float64Array(book.entries.length);
    /** @type {number[]} */
    const fitting = [];
    for (const [place, entry] of book.entries.entries()) {
      const share = shares[place] ?? 0;
      if (share < least || scores[place] === 0) continue;
      const device = !isNamed ? 1 : ofNamed[place] === 1 ? NAMED : entry.device ? OTHERS : NO_DEVICE;
      // Of a complaint on a device that was named, the sheet of that device is the answer narrowed down.
      const isSheet = entry.kind === "sheet" && ofNamed[place] === 1;
      const isWanted = task ? entry.kind === "procedure" : entry.kind === "symptom" || isSheet;
      const kind = isWanted ? (task ? TASK : complaint) : (REFERENCE[entry.kind] ?? 1);
      const whole = 0.3 + 0.7 * (share / wanted) ** 2;
      finals[place] = (scores[place] ?? 0) * whole * device * kind;
      fitting.push(place);
    }
    const byScore = (/** @type {number} */ one, /** @type {number} */ other) =>
      (finals[other] ?? 0) - (finals[one] ?? 0) || one - other;
    fitting.sort(byScore);
    /** @type {Map<string, number>} */
    const known = new Map();
    /** @type {Map<number, string>} */
    const phrases = new Map();
    // What closeness cannot lift among the results need not be looked at.
    const lowest = (finals[fitting[most - 1] ?? -1] ?? 0) / (1 + CLOSE);
    const looked = fitting.slice(0, MOST_CLOSELY).filter(place => (finals[place] ?? 0) >= lowest);
    for (const place of looked) {
      const entry = /** @type {Entry} */ (book.entries[place]);
      const { phrase, close } = closest(book, wants, entry, known);
      phrases.set(place, phrase === entry.title ? "" : phrase);
      finals[place] = (finals[place] ?? 0) * (1 + CLOSE * close);
    }
    looked.sort(byScore);
    const results = looked.slice(0, most).map(place => {
      const entry = /** @type {Entry} */ (book.entries[place]);
      return { entry, phrase: phrases.get(place) ?? "", answers: answersOf(entry) };
    });
    return { count: fitting.length, results, marked: createMarked(book, wants) };
  };

  const benchleafFind = { find };
  if (typeof module !== "undefined") module.exports = benchleafFind;
  else Object.assign(window, { benchleafFind });
}
