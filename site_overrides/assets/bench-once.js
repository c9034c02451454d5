// @ts-check
"use strict";

/* What the page needs once there is script, and would be of no use without: it is made here, where it is missing. */
{
  const own =
    typeof module === "undefined" ? /** @type {any} */ (window) : { benchleafDraw: require("./bench-draw.js") };
  /** @type {typeof import("./bench-draw.js")} */
  const { element, get } = own.benchleafDraw;

  /**
   * An element with attributes, and text in it.
   * @param {string} name
   * @param {{ [attribute: string]: string }} attributes
   */
  const made = (name, attributes, text = "") => {
    const built = element(name, ...(text ? [text] : []));
    for (const [attribute, value] of Object.entries(attributes)) built.setAttribute(attribute, value);
    return built;
  };

  const key = (/** @type {string} */ act, /** @type {string} */ text, more = {}) => {
    const button = made("button", { type: "button", "data-do": act, ...more }, text);
    if ("data-held" in more) button.append(made("i", { class: "held" }));
    return button;
  };

  /**
   * Puts an element where it is missing.
   * @param {ParentNode} within
   * @param {string} selector
   * @param {(added: HTMLElement) => void} place
   * @param {() => HTMLElement} make
   */
  const ensure = (within, selector, place, make) => {
    if (!within.querySelector(selector)) place(make());
  };

  /** @param {Document} document */
  const prepare = document => {
    const [main, arrival, end] = [get(document, "main"), get(document, "#arrival"), get(document, "#end")];
    const [keys, stop, resume] = [
      get(document, ".keys"),
      get(document, "#stop-and-make-safe"),
      get(document, "#resume"),
    ];
    const row = (/** @type {HTMLElement} */ view) => view.querySelector(".row:last-of-type") ?? view;

    ensure(
      main,
      "[data-alert]",
      added => main.prepend(added),
      () => made("div", { "data-alert": "", role: "alert" }),
    );
    ensure(
      main,
      '[data-view="ask"]',
      added => main.append(added),
      () => made("section", { "data-view": "ask", id: "ask" }),
    );
    ensure(
      arrival,
      "[data-runs]",
      added => arrival.querySelector("form")?.before(added),
      () => made("div", { "data-runs": "" }),
    );
    ensure(
      arrival,
      '[data-do="sound"]',
      added => get(arrival, ".sizes").after(added),
      () => {
        const group = made("div", { class: "sizes", role: "group", "aria-label": "Alarm" });
        group.append(key("sound", "Sound", { "aria-pressed": "true" }), key("try-sound", "Try the sound"));
        return group;
      },
    );
    ensure(
      keys,
      '[data-do="again"]',
      added => get(keys, '[data-do="back"]').after(added),
      () => key("again", "Not done: do it again"),
    );
    ensure(
      resume,
      '[data-do="again"]',
      added => get(resume, '[data-do="resume"]').after(added),
      () => key("again", "No: do that step again"),
    );
    ensure(
      stop,
      '[data-do="halt"]',
      added => get(stop, '[data-do="from-stop"]').after(added),
      () => key("halt", "Hold: end the work here", { "data-held": "" }),
    );
    ensure(
      document,
      "[data-go]",
      added => row(get(document, "#stopped")).prepend(added),
      () => made("a", { "data-go": "", class: "key", href: "#" }),
    );
    ensure(
      end,
      "[name=remark]",
      added => row(end).before(added),
      () => {
        const field = made("p", { class: "field" });
        field.append(
          made("label", { for: "remark" }, "Remark"),
          " ",
          made("textarea", { id: "remark", name: "remark", rows: "2" }),
        );
        return field;
      },
    );
    ensure(
      end,
      '[data-do="finish"]',
      added => row(end).append(added),
      () => key("finish", "Close the record"),
    );
    ensure(
      end,
      '[data-do="begin-anew"]',
      added => row(end).append(added),
      () => key("begin-anew", "Next device"),
    );
    ensure(
      end,
      "[data-ended]",
      added => row(end).after(added),
      () => made("p", { "data-ended": "", role: "status" }),
    );
    ensure(
      document,
      "[data-record-sheet]",
      added => document.body.append(added),
      () => made("section", { "data-record-sheet": "", hidden: "" }),
    );
    // It may be taller than its place, and then keys must reach it.
    get(document, ".board").tabIndex = 0;
    const done = get(keys, '[data-do="done"]');
    ensure(
      done,
      "[data-do-words]",
      added => done.replaceChildren(added, made("i", { class: "held" })),
      () => made("span", { "data-do-words": "" }),
    );
  };

  const benchleafOnce = { prepare };
  if (typeof module !== "undefined") module.exports = benchleafOnce;
  else Object.assign(window, { benchleafOnce });
}
