// @ts-check
"use strict";

/* What was typed, weighed: how much each word tells, and what each entry scores by the words that it has. */

/** @typedef {import("./search-book.js").Book} Book */

/** @typedef {import("./search-asked.js").Want & { weight: number }} Want how much it tells, besides */

/**
 * What the entries score, by their place in the book.
 * @typedef {object} Scores
 * @property {Float64Array} scores
 * @property {Float64Array} shares how much of what is wanted each has
 * @property {Uint8Array} ofNamed 1 where it belongs to a device that was named
 * @property {boolean} isNamed whether one was named
 */

{
  const own =
    typeof module === "undefined" ? /** @type {any} */ (window) : { benchleafBook: require("./search-book.js") };
  /** @type {typeof import("./search-book.js")} */
  const { findKin } = own.benchleafBook;

  // How much a word weighs in a title, in customers' words, as a device's or part's name, in a step.
  const FIELDS = /** @type {const} */ ([6, 5, 3, 1]);
  // How much of what was asked is answered by a word in each: long texts hold every word somewhere.
  const COVERS = /** @type {const} */ ([1, 1, 0.9, 0.5]);
  const [DEVICE, HEARD, FAINT, LEAST_FIT] = [3, 1, 0.35, 0.4];
  // A negation stands in every other complaint, so its rarity would say too little.
  const NEGATION = 1.5;

  /**
   * How much a word tells that stands in `count` entries: the rarer, the more.
   * @param {Book} book
   * @param {number} count
   */
  const rarity = (book, count) => Math.log(1 + book.entries.length / (1 + count));

  /** @type {WeakMap<Book, Map<number, number>>} */
  const told = new WeakMap();

  /**
   * How much a word tells, which is as much as all words together that people use for it.
   * @param {Book} book
   * @param {number} kin
   */
  const telling = (book, kin) => {
    const known = told.get(book) ?? new Map();
    told.set(book, known);
    const own = known.get(kin);
    if (own !== undefined) return own;
    const places = new Set(book.places(kin).entries);
    for (const other of book.alike(kin)) for (const place of book.places(other).entries) places.add(place);
    const tells = kin === findKin(book, "no") ? NEGATION : rarity(book, places.size);
    known.set(kin, tells);
    return tells;
  };

  /**
   * How much a wanted word tells: as its best meaning does.
   * @param {Book} book
   * @param {import("./search-asked.js").Want} want
   */
  const weightOf = (book, { word, kin: meanings }) => {
    const [kin, fit] = [...meanings].reduce((best, one) => (one[1] > best[1] ? one : best), [-1, 0]);
    // What may be a slip tells less than what stands there.
    return kin < 0 ? 0 : fit * telling(book, kin) * (book.words.isFaint(word) ? FAINT : 1);
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
    const [scores, shares, best, covered] = [0, 0, 0, 0].map(() => new Float64Array(size));
    const ofNamed = new Uint8Array(size);
    let isNamed = false;
    for (const want of wants) {
      const isMere = isMereNo(want, wants);
      let isNaming = false;
      best.fill(0);
      covered.fill(0);
      for (const [kin, fit] of want.kin) {
        const { entries, ranks } = book.places(kin);
        const worth = fit * Math.min(want.weight, telling(book, kin));
        for (let at = 0; at < entries.length; at += 1) {
          const place = entries[at] ?? 0;
          const rank = ranks[at] ?? 0;
          best[place] = Math.max(best[place] ?? 0, worth * (FIELDS[rank] ?? 1));
          covered[place] = Math.max(covered[place] ?? 0, fit * (COVERS[rank] ?? 1));
        }
        const titles = book.devices.get(kin);
        if (!titles) continue;
        const named = fit >= LEAST_FIT && isName(book, kin, titles);
        isNaming ||= named;
        for (const title of titles) {
          const owned = book.owned.get(title) ?? [];
          const worthOf = fit * DEVICE * rarity(book, owned.length);
          for (const place of owned) {
            best[place] = Math.max(best[place] ?? 0, worthOf);
            covered[place] = Math.max(covered[place] ?? 0, fit);
            if (named) ofNamed[place] = 1;
          }
        }
      }
      isNamed ||= isNaming;
      for (let place = 0; place < size; place += 1) {
        // A symptom that all devices share lacks nothing when one of them is named.
        const isShared = isNaming && book.entries[place]?.kind === "symptom" && !book.entries[place]?.device;
        if (best[place] === 0 && !isShared) continue;
        scores[place] = (scores[place] ?? 0) + (best[place] ?? 0);
        if (!isMere) shares[place] = (shares[place] ?? 0) + want.weight * (isShared ? 1 : (covered[place] ?? 0));
      }
    }
    return { scores, shares, ofNamed, isNamed };
  };

  /**
   * What was typed, with how much each word tells.
   * @param {Book} book
   * @param {readonly import("./search-asked.js").Want[]} wants
   * @returns {Want[]}
   */
  const weigh = (book, wants) => wants.map(want => ({ ...want, weight: weightOf(book, want) }));

  const benchleafWeigh = { isMereNo, scoresOf, weigh };
  if (typeof module !== "undefined") module.exports = benchleafWeigh;
  else Object.assign(window, { benchleafWeigh });
}
