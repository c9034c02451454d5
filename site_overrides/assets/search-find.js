// @ts-check
"use strict";

/* What was typed, answered: the entries that fit, the best first, and which words are to be marked in them. */

/** @typedef {import("./search-book.js").Book} Book */

/** @typedef {import("./search-book.js").Entry} Entry */

/** @typedef {import("./search-book.js").Link} Link */

/** @typedef {import("./search-asked.js").Want & { weight: number }} Want how much it tells, besides */

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
        };
  /** @type {typeof import("./search-words.js")} */
  const { pieces } = own.benchleafWords;
  /** @type {typeof import("./search-book.js")} */
  const { findKin } = own.benchleafBook;
  /** @type {typeof import("./search-asked.js")} */
  const { understand } = own.benchleafAsked;

  // How much a word weighs in a title, in customers' words, as a device's or part's name, in a step.
  const FIELDS = /** @type {const} */ ([6, 5, 3, 1]);
  const [DEVICE, HEARD, CLOSE] = [3, 1, 1.5];
  // A negation stands in every other complaint, so its rarity would say too little.
  const NEGATION = 1.5;
  const [NAMED, OTHERS, NO_DEVICE] = [1.25, 0.6, 0.85];
  const [COMPLAINT, DENIED, TASK] = [1.25, 1.5, 1.3];
  // "No sound" is not what a customer means whose sound crackles.
  const OTHER_SENSE = 0.75;
  const [MOST_CLOSELY, LEAST_SHARE, LEAST_FIT, SURELY] = [600, 0.6, 0.4, 0.7];

  /**
   * How much a word tells that stands in `count` entries: the rarer, the more.
   * @param {Book} book
   * @param {number} count
   */
  const rarity = (book, count) => Math.log(1 + book.entries.length / (1 + count));

  /**
   * How much a word tells.
   * @param {Book} book
   * @param {number} kin
   */
  const telling = (book, kin) =>
    kin === findKin(book, "no") ? NEGATION : rarity(book, book.places(kin).entries.length);

  /**
   * How much a wanted word tells: as its best meaning does.
   * @param {Book} book
   * @param {Map<number, number>} meanings
   */
  const weightOf = (book, meanings) => {
    const [kin] = [...meanings].reduce((best, one) => (one[1] > best[1] ? one : best), [-1, 0]);
    return kin < 0 ? 0 : telling(book, kin);
  };

  /**
   * Whether a wanted word only denies another that is known.
   * @param {Want} want
   * @param {readonly Want[]} wants
   */
  const isMereNo = (want, wants) => want.isNo && wants.some(other => !other.isNo && other.weight > 0);

  /**
   * Whether a word of a device's title names it: "godwit" does; "water" of a water meter, which customers say of every
   * device, does not.
   * @param {Book} book
   * @param {number} kin
   * @param {Set<string>} titles
   */
  const isName = (book, kin, titles) => {
    const { entries, ranks } = book.places(kin);
    return entries.every((place, at) => {
      const { kind, title, device } = book.entries[place] ?? { kind: "page", title: "", device: "" };
      const owner = kind === "device" ? title : device;
      return (ranks[at] ?? 0) > HEARD || titles.has(owner) || (owner === "" && kind !== "symptom");
    });
  };

  /**
   * What each entry scores, how much of what is wanted it has, and which are of a device that was named.
   * @param {Book} book
   * @param {readonly Want[]} wants
   */
  const scoresOf = (book, wants) => {
    const size = book.entries.length;
    const [scores, shares, best] = [new Float64Array(size), new Float64Array(size), new Float64Array(size)];
    const ofNamed = new Uint8Array(size);
    let isNamed = false;
    for (const want of wants) {
      const isMere = isMereNo(want, wants);
      let isNaming = false;
      best.fill(0);
      for (const [kin, fit] of want.kin) {
        const { entries, ranks } = book.places(kin);
        const worth = fit * telling(book, kin);
        for (let at = 0; at < entries.length; at += 1) {
          const place = entries[at] ?? 0;
          best[place] = Math.max(best[place] ?? 0, worth * (FIELDS[ranks[at] ?? 0] ?? 1));
        }
        const titles = book.devices.get(kin);
        if (!titles) continue;
        const named = fit >= LEAST_FIT && isName(book, kin, titles);
        isNaming ||= named;
        for (let place = 0; place < size; place += 1) {
          const device = book.entries[place]?.device ?? "";
          if (!titles.has(device)) continue;
          best[place] = Math.max(best[place] ?? 0, fit * DEVICE * rarity(book, book.sizes.get(device) ?? 0));
          if (named) ofNamed[place] = 1;
        }
      }
      isNamed ||= isNaming;
      for (let place = 0; place < size; place += 1) {
        // A symptom that all devices share lacks nothing when one of them is named.
        const isShared = isNaming && book.entries[place]?.kind === "symptom" && !book.entries[place]?.device;
        if (best[place] === 0 && !isShared) continue;
        scores[place] = (scores[place] ?? 0) + (best[place] ?? 0);
        if (!isMere) shares[place] = (shares[place] ?? 0) + want.weight;
      }
    }
    return { scores, shares, ofNamed, isNamed };
  };

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
    const wants = understand(book, text).map(want => ({ ...want, weight: weightOf(book, want.kin) }));
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

    const fitting = [];
    for (const [place, entry] of book.entries.entries()) {
      const share = shares[place] ?? 0;
      if (share < least || scores[place] === 0) continue;
      const device = !isNamed ? 1 : ofNamed[place] === 1 ? NAMED : entry.device ? OTHERS : NO_DEVICE;
      const kind = task ? (entry.kind === "procedure" ? TASK : 1) : entry.kind === "symptom" ? complaint : 1;
      const whole = 0.3 + 0.7 * (share / wanted) ** 2;
      fitting.push({ entry, score: (scores[place] ?? 0) * whole * device * kind });
    }
    fitting.sort((one, other) => other.score - one.score);
    /** @type {Map<string, number>} */
    const known = new Map();
    // What closeness cannot lift among the results need not be looked at.
    const lowest = (fitting[most - 1]?.score ?? 0) / (1 + CLOSE);
    const hopeful = fitting.slice(0, MOST_CLOSELY).filter(({ score }) => score >= lowest);
    const looked = hopeful.map(({ entry, score }) => {
      const { phrase, close } = closest(book, wants, entry, known);
      return { entry, phrase: phrase === entry.title ? "" : phrase, score: score * (1 + CLOSE * close) };
    });
    looked.sort((one, other) => other.score - one.score);
    return {
      count: fitting.length,
      results: looked.slice(0, most).map(({ entry, phrase }) => ({ entry, phrase, answers: answersOf(entry) })),
      marked: createMarked(book, wants),
    };
  };

  const benchleafFind = { find };
  if (typeof module !== "undefined") module.exports = benchleafFind;
  else Object.assign(window, { benchleafFind });
}
