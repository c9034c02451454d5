// @ts-check
"use strict";

/* The search's index, opened: words, which of them are kin, where each kin stands, and what a result shows. */

/** @typedef {import("./search-words.js").Tables} Tables */

/** @typedef {import("./search-words.js").Words} Words */

/** @typedef {import("./search-words.js").CreateWords} CreateWords */

/**
 * What search-index.js brings. The texts of numbers are written by `search_code.py`.
 * @typedef {object} Index
 * @property {2} version
 * @property {number} count
 * @property {Tables} tables
 * @property {string} words sorted; each as a capital for how much of the one before it shares, and the rest
 * @property {string} kin for each word 0 when its kin is new, otherwise how many kins back, from 1
 * @property {string} places for each kin where it stands, the weights apart
 * @property {string} alike the words that stand for one another; where two lists, the first for the second
 * @property {string} records
 * @property {string} texts
 * @property {string} hrefs
 */

/** @typedef {"symptom" | "procedure" | "device" | "part" | "material" | "page" | "tool" | "rule" | "method" | "sheet"} Kind */

/** @typedef {{ title: string, href: string }} Link */

/**
 * @typedef {object} Entry
 * @property {Kind} kind
 * @property {string} title
 * @property {string} href relative to the site's folder
 * @property {string} device its title, or nothing
 * @property {string} note what is said besides, or nothing
 * @property {string[]} says in the customers' words
 * @property {number[]} answers links, by number
 */

/** @typedef {import("./search-code.js").Places} Places */

/**
 * @typedef {object} Book
 * @property {Words} words
 * @property {string[]} vocabulary sorted
 * @property {number[]} kinOf of each word of the vocabulary
 * @property {Entry[]} entries
 * @property {Link[]} links the entries first, then what only answers lead to
 * @property {(kin: number) => Places} places
 * @property {(kin: number) => ReadonlySet<number>} alike the kin that people also mean by it
 * @property {Map<number, Set<string>>} devices the devices whose title, or that of a variant, holds a word of the kin
 * @property {Map<string, number[]>} owned the entries of each device
 */

{
  const own =
    typeof module === "undefined" ? /** @type {any} */ (window) : { benchleafCode: require("./search-code.js") };
  /** @type {typeof import("./search-code.js")} */
  const { END, createReader, readWords, readKin, readPlaces, readAlike, readHrefs } = own.benchleafCode;

  const KINDS = /** @type {const} */ ([
    "symptom", "procedure", "device", "part", "material", "page", "tool", "rule", "method", "sheet",
  ]);
  /**
   * @param {Index} index
   * @returns {{ entries: Entry[], links: Link[] }}
   */
  const readRecords = index => {
    const [reader, texts, hrefs] = [createReader(index.records), index.texts.split("\n"), readHrefs(index.hrefs)];
    let known = 1;
    const text = () => texts[(reader.next() || ++known) - 1] ?? "";
    /**
     * @template Item
     * @param {() => Item} item
     */
    const several = item => {
      /** @type {Item[]} */
      const items = [];
      for (let left = reader.next(); left > 0; left -= 1) items.push(item());
      return items;
    };
    /** @type {Entry[]} */
    const entries = [];
    while (entries.length < index.count) {
      const kind = KINDS[reader.next()] ?? "page";
      const title = text();
      const device = text();
      const note = text();
      const says = several(text);
      const answers = several(reader.next);
      entries.push({ kind, title, href: hrefs[entries.length] ?? "", device, note, says, answers });
    }
    /** @type {Link[]} */
    const links = [...entries];
    while (reader.hasMore()) links.push({ title: text(), href: hrefs[links.length] ?? "" });
    return { entries, links };
  };

  /**
   * Where a word stands in the sorted vocabulary, or would stand.
   * @param {readonly string[]} vocabulary
   * @param {string} word
   */
  const placeOf = (vocabulary, word) => {
    let low = 0;
    let high = vocabulary.length;
    while (low < high) {
      const middle = (low + high) >> 1;
      if ((vocabulary[middle] ?? "") < word) low = middle + 1;
      else high = middle;
    }
    return low;
  };

  /**
   * The kin of a word of the vocabulary, or -1.
   * @param {Pick<Book, "vocabulary" | "kinOf">} book
   * @param {string} word
   */
  const findKin = ({ vocabulary, kinOf }, word) => {
    const place = placeOf(vocabulary, word);
    return vocabulary[place] === word ? (kinOf[place] ?? -1) : -1;
  };

  /**
   * Opens the index. Where a kin stands is read when it is first asked for.
   * @param {Index} index
   * @param {CreateWords} createWords
   * @returns {Book}
   */
  const openBook = (index, createWords) => {
    const words = createWords(index.tables);
    const [vocabulary, kinOf, coded] = [readWords(index.words), readKin(index.kin), index.places.split(END)];
    const { entries, links } = readRecords(index);

    /** @type {Map<string, number[]>} */
    const owned = new Map();
    for (const [place, { device }] of entries.entries()) {
      if (!device) continue;
      const known = owned.get(device);
      if (known) known.push(place);
      else owned.set(device, [place]);
    }
    /** @type {Map<number, Set<string>>} */
    const devices = new Map();
    for (const { kind, title, says } of entries) {
      if (kind !== "device") continue;
      for (const word of [title, ...says].flatMap(words.tokens)) {
        const kin = findKin({ vocabulary, kinOf }, word);
        if (kin >= 0) devices.set(kin, (devices.get(kin) ?? new Set()).add(title));
      }
    }

    /** @type {Map<number, Places>} */
    const read = new Map();
    const alike = readAlike(index.alike);
    const nothing = new Set();
    return {
      words,
      vocabulary,
      kinOf,
      entries,
      links,
      places: kin => {
        const places = read.get(kin) ?? readPlaces(coded[kin] ?? "");
        read.set(kin, places);
        return places;
      },
      alike: kin => alike.get(kin) ?? nothing,
      devices,
      owned,
    };
  };

  const benchleafBook = { openBook, placeOf, findKin };
  if (typeof module !== "undefined") module.exports = benchleafBook;
  else Object.assign(window, { benchleafBook });
}
