// @ts-check
"use strict";

/* Light, dark, or as the system has it. Loaded in the head and blocking, so that a page is never painted twice. */
{
  /** @typedef {"light" | "dark" | "system"} Scheme */
  /** @typedef {Pick<Storage, "getItem" | "setItem" | "removeItem">} Store */

  /** @type {readonly { scheme: Scheme, text: string }[]} */
  const CHOICES = [
    { scheme: "light", text: "Light" },
    { scheme: "dark", text: "Dark" },
    { scheme: "system", text: "As the system" },
  ];

  /**
   * The name under which one site remembers the choice.
   * @param {string} site
   */
  const keyOf = site => `${site}:scheme`;

  /**
   * What was remembered, as a choice: anything unknown means "as the system".
   * @param {string | null} remembered
   * @returns {Scheme}
   */
  const readScheme = remembered => (remembered === "light" || remembered === "dark" ? remembered : "system");

  /**
   * The remembered choice, or "system" where the browser keeps nothing for us.
   * @param {() => Store} store
   * @param {string} site
   * @returns {Scheme}
   */
  const findScheme = (store, site) => {
    try {
      return readScheme(store().getItem(keyOf(site)));
    } catch {
      return "system";
    }
  };

  /**
   * Remembers a choice, where the browser allows it.
   * @param {() => Store} store
   * @param {string} site
   * @param {Scheme} scheme
   */
  const rememberScheme = (store, site, scheme) => {
    try {
      if (scheme === "system") store().removeItem(keyOf(site));
      else store().setItem(keyOf(site), scheme);
    } catch {
      // Private windows and strict policies keep nothing; the choice then lasts as long as the page.
    }
  };

  /**
   * Applies a choice; the stylesheet reads the attribute.
   * @param {HTMLElement} root
   * @param {Scheme} scheme
   */
  const applyScheme = (root, scheme) => {
    if (scheme === "system") delete root.dataset.scheme;
    else root.dataset.scheme = scheme;
  };

  /**
   * Makes the three-way switch in the header.
   * @param {HTMLElement} place
   * @param {HTMLElement} root
   * @param {() => Store} store
   * @param {string} site
   */
  const mountSwitch = (place, root, store, site) => {
    const buttons = CHOICES.map(({ scheme, text }) => {
      const button = document.createElement("button");
      button.type = "button";
      button.dataset.scheme = scheme;
      button.textContent = text;
      button.addEventListener("click", () => {
        rememberScheme(store, site, scheme);
        show(scheme);
      });
      return button;
    });
    /** @param {Scheme} chosen */
    const show = chosen => {
      applyScheme(root, chosen);
      for (const button of buttons) button.setAttribute("aria-pressed", String(button.dataset.scheme === chosen));
    };
    show(findScheme(store, site));
    place.replaceChildren(...buttons);
    place.hidden = false;
  };

  if (typeof module !== "undefined") {
    module.exports = { keyOf, readScheme, findScheme, rememberScheme };
  } else {
    const root = document.documentElement;
    const store = () => window.localStorage;
    const site = document.currentScript?.dataset.site ?? "benchleaf";
    root.dataset.script = "";
    applyScheme(root, findScheme(store, site));
    document.addEventListener("DOMContentLoaded", () => {
      const place = /** @type {HTMLElement | null} */ (document.querySelector("[data-scheme-switch]"));
      if (place) mountSwitch(place, root, store, site);
    });
  }
}
