// @ts-check
"use strict";

/* What was found, drawn: a table on the first page, a list that drops down from the head of the others. */

/** @typedef {import("./search-find.js").Found} Found */

/** @typedef {import("./search-find.js").Result} Result */

{
  const MOST_ANSWERS = 5;
  const KINDS = /** @type {const} */ ({
    symptom: "Symptom",
    procedure: "Procedure",
    device: "Device",
    part: "Part",
    material: "Material",
    page: "Page",
    tool: "Tool",
    rule: "Rule",
    method: "Method",
    sheet: "Fault isolation sheet",
  });

  /**
   * An element with its attributes and what it holds.
   * @template {keyof HTMLElementTagNameMap} Name
   * @param {Name} name
   * @param {Record<string, string>} attributes
   * @param {(Node | string)[]} held
   */
  const make = (name, attributes, ...held) => {
    const element = document.createElement(name);
    for (const [key, value] of Object.entries(attributes)) element.setAttribute(key, value);
    element.append(...held);
    return element;
  };

  /**
   * A text, with what was typed marked in it.
   * @param {Found} found
   * @param {string} text
   */
  const makeMarked = (found, text) =>
    found.marked(text).map(piece => (piece.isMarked ? make("mark", {}, piece.text) : piece.text));

  /**
   * One result in the first page's table.
   * @param {Result} result
   * @param {Found} found
   * @param {string} root
   * @param {string} id
   */
  const makeRow = ({ entry, phrase, answers }, found, root, id) => {
    const [opens, closes] = entry.kind === "symptom" || entry.kind === "sheet" ? ["“", "”"] : ["", ""];
    const heard = phrase ? [" ", make("br", {}), opens, ...makeMarked(found, phrase), closes] : [];
    const noted = entry.note ? [" ", make("br", {}), make("small", {}, entry.note)] : [];
    const links = answers
      .slice(0, MOST_ANSWERS)
      .map(link => make("li", {}, make("a", { href: root + link.href }, link.title)));
    const more = answers.length - links.length;
    if (more > 0) links.push(make("li", {}, `and ${more} more`));
    const cell = (/** @type {string} */ label, /** @type {(Node | string)[]} */ ...held) =>
      make("td", { role: "gridcell", "data-label": label }, ...held);
    const title = make("a", { href: root + entry.href, "data-search-open": "" }, ...makeMarked(found, entry.title));
    const says = cell("The customer says", title, ...heard, ...noted);
    says.id = id;
    return make(
      "tr",
      { role: "row" },
      cell("Device", entry.device ? make("span", {}, ...makeMarked(found, entry.device)) : "–"),
      says,
      cell("Kind", KINDS[entry.kind]),
      cell("Procedures", links.length > 0 ? make("ul", {}, ...links) : "–"),
    );
  };

  /**
   * All results as the first page's table.
   * @param {Found} found
   * @param {string} root
   * @param {string} id
   */
  const makeTable = (found, root, id) => {
    const head = ["Device", "The customer says", "Kind", "Procedures"].map(label =>
      make("th", { scope: "col", role: "columnheader" }, label),
    );
    const rows = found.results.map((result, place) => makeRow(result, found, root, `${id}-${place}`));
    return make(
      "table",
      { class: "table fold", role: "grid", "aria-label": "What was found", id },
      make("thead", { role: "rowgroup" }, make("tr", { role: "row" }, ...head)),
      make("tbody", { role: "rowgroup" }, ...rows),
    );
  };

  /**
   * All results as the list that drops down from the head of a page.
   * @param {Found} found
   * @param {string} root
   * @param {string} id
   */
  const makeList = (found, root, id) => {
    const options = found.results.map(({ entry }, place) =>
      make(
        "a",
        // Not a stop of its own for Tab: the arrows of the field lead here.
        { role: "option", tabindex: "-1", href: root + entry.href, id: `${id}-${place}`, "data-search-open": "" },
        ...makeMarked(found, entry.title),
        " ",
        make("br", {}),
        make("small", {}, [KINDS[entry.kind], entry.device].filter(Boolean).join(", ")),
      ),
    );
    return make("div", { role: "listbox", "aria-label": "What was found", id }, ...options);
  };

  /**
   * What stands where nothing was found.
   * @param {string} text
   * @param {string} root
   */
  const makeNothing = (text, root) =>
    make(
      "p",
      { "data-search-nothing": "" },
      `Nothing found for “${text.trim()}”. Fewer words may find more: what the device does or does not do, `,
      "in the customer's words; a part; or the device's name alone. Every complaint that the bench knows stands in ",
      make("a", { href: `${root}index.html#symptoms` }, "Symptoms by device"),
      ".",
    );

  const benchleafDraw = { makeTable, makeList, makeNothing };
  if (typeof module !== "undefined") module.exports = benchleafDraw;
  else Object.assign(window, { benchleafDraw });
}
