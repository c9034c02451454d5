// @ts-check
"use strict";

/* Which variant lies on the bench: rows that are for others only are put aside, and the page says so. */
{
  /** @typedef {{ id: string, title: string }} Option */
  /** @typedef {Pick<Storage, "getItem" | "setItem" | "removeItem">} Store */

  /**
   * The name under which one site remembers the choice for one device.
   * @param {string} site
   * @param {string} device
   */
  const keyOf = (site, device) => `${site}:variant:${device}`;

  /**
   * What was remembered, if it is one of these variants: a revision may have dropped it.
   * @param {string | null} remembered
   * @param {readonly Option[]} options
   * @returns {Option | null}
   */
  const readChoice = (remembered, options) => options.find(option => option.id === remembered) ?? null;

  /**
   * Whether something marked for some variants is to be put aside.
   * @param {string | undefined} marked ids with spaces between, as data-variant has them
   * @param {Option | null} chosen
   */
  const isForOthers = (marked, chosen) =>
    chosen !== null && marked !== undefined && !marked.split(/\s+/).includes(chosen.id);

  /**
   * What the page says about the choice. A count is given, because what is not seen must still be known of.
   * @param {Option | null} chosen
   * @param {number} aside
   */
  const tell = (chosen, aside) => {
    if (chosen === null) return "";
    if (aside === 0) return `Showing ${chosen.title}. Nothing is put aside.`;
    return `Showing ${chosen.title}. ${aside} ${aside === 1 ? "entry" : "entries"} for other variants put aside.`;
  };

  /**
   * The remembered choice, or none where the browser keeps nothing for us.
   * @param {() => Store} store
   * @param {string} key
   * @param {readonly Option[]} options
   */
  const findChoice = (store, key, options) => {
    try {
      return readChoice(store().getItem(key), options);
    } catch {
      return null;
    }
  };

  /**
   * Remembers a choice, or forgets it, where the browser allows it.
   * @param {() => Store} store
   * @param {string} key
   * @param {Option | null} chosen
   */
  const rememberChoice = (store, key, chosen) => {
    try {
      if (chosen) store().setItem(key, chosen.id);
      else store().removeItem(key);
    } catch {
      // Private windows and strict policies keep nothing; the choice then lasts as long as the page.
    }
  };

  /**
   * The element that must be there, because the template puts it there.
   * @param {ParentNode} within
   * @param {string} selector
   * @returns {HTMLElement}
   */
  const getElement = (within, selector) => {
    const found = within.querySelector(selector);
    if (!(found instanceof HTMLElement)) throw new Error(`There is no ${selector} on this page`);
    return found;
  };

  /**
   * Turns each variant into a button, and puts aside what is for others within `scope`.
   * @param {HTMLElement} row
   * @param {ParentNode} scope
   * @param {() => Store} store
   * @param {string} site
   */
  const mountVariants = (row, scope, store, site) => {
    const key = keyOf(site, row.dataset.variants ?? "");
    const showing = getElement(scope, "[data-showing]");
    const marked = /** @type {HTMLElement[]} */ ([...scope.querySelectorAll("[data-variant]")]);
    const choices = /** @type {HTMLElement[]} */ ([...row.querySelectorAll("[data-choice]")]).map(item => {
      const title = getElement(item, "[data-choice-title]").textContent ?? "";
      return { item, option: { id: item.dataset.choice ?? "", title }, button: document.createElement("button") };
    });
    const all = document.createElement("button");

    /** @param {Option | null} chosen */
    const show = chosen => {
      const aside = marked.filter(element => isForOthers(element.dataset.variant, chosen));
      for (const element of marked) element.hidden = aside.includes(element);
      for (const { option, button } of choices) button.setAttribute("aria-pressed", String(option.id === chosen?.id));
      showing.replaceChildren(tell(chosen, aside.length), " ", all);
      showing.hidden = chosen === null;
    };
    /** @param {Option | null} chosen */
    const choose = chosen => {
      rememberChoice(store, key, chosen);
      show(chosen);
    };

    all.type = "button";
    all.textContent = "Show all";
    all.addEventListener("click", () => {
      choose(null);
      // The button is gone now; a reader who uses keys goes on at the row of variants.
      choices[0]?.button.focus();
    });
    for (const { item, option, button } of choices) {
      button.type = "button";
      button.append(...item.childNodes);
      button.addEventListener("click", () => choose(option));
      item.replaceChildren(button);
    }
    show(findChoice(store, key, choices.map(({ option }) => option)));
  };

  if (typeof module !== "undefined") {
    module.exports = { keyOf, readChoice, isForOthers, tell, findChoice, rememberChoice };
  } else {
    const site = document.currentScript?.dataset.site ?? "benchleaf";
    for (const row of document.querySelectorAll("[data-variants]")) {
      const scope = row.closest("[data-variant-scope]") ?? document;
      mountVariants(/** @type {HTMLElement} */ (row), scope, () => window.localStorage, site);
    }
  }
}
