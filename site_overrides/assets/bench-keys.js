// @ts-check
"use strict";

/* Keys, pedals and pointers: what a press means, which presses do not count, and what must be held. */

/** @typedef {"next" | "back" | "stop"} Meaning */

/** @typedef {"none" | "control" | "held" | "line" | "text" | "choice"} Focus what has the keyboard */

/**
 * @typedef {object} Hands
 * @property {(meaning: Meaning, control: HTMLElement | null) => void} press
 * @property {() => void} release
 * @property {() => void} cancel
 */

{
  // Switches bounce, and a foot that rests taps twice; a press within this time of the last accepted one is none.
  const GUARD = 300;
  // Long enough to be meant; the stylesheet runs the bar in the same time.
  const HOLD = 800;

  const KEYS = new Map(
    /** @type {[string, Meaning][]} */ ([
      ["PageDown", "next"],
      ["ArrowRight", "next"],
      ["ArrowDown", "next"],
      [" ", "next"],
      ["Enter", "next"],
      ["PageUp", "back"],
      ["ArrowLeft", "back"],
      ["ArrowUp", "back"],
      ["Escape", "stop"],
    ]),
  );
  /** Keys that a focused thing needs for itself. Control: Space and Enter press it, so they may not act twice. */
  const TAKEN = {
    none: [],
    control: [" ", "Enter"],
    held: [],
    line: [" ", "ArrowRight", "ArrowLeft", "ArrowDown", "ArrowUp"],
    text: [" ", "Enter", "ArrowRight", "ArrowLeft", "ArrowDown", "ArrowUp", "PageDown", "PageUp"],
    choice: [" ", "ArrowRight", "ArrowLeft", "ArrowDown", "ArrowUp"],
  };

  /**
   * What a key means to the work, or null when it is no business of ours.
   * @param {string} key
   * @param {Focus} focus
   */
  const meaningOf = (key, focus) =>
    /** @type {readonly string[]} */ (TAKEN[focus]).includes(key) ? null : (KEYS.get(key) ?? null);

  /** Whether a press counts, so soon after the last one that did. */
  const isCounted = (/** @type {number} */ at, /** @type {number} */ last) => at - last >= GUARD || at < last;

  /** @returns {Focus} */
  const focusOf = (/** @type {EventTarget | null} */ target) => {
    if (!(target instanceof HTMLElement)) return "none";
    if (target.closest("[data-held]")) return "held";
    if (target instanceof HTMLTextAreaElement || target instanceof HTMLSelectElement) return "text";
    if (target instanceof HTMLInputElement) return ["radio", "checkbox"].includes(target.type) ? "choice" : "line";
    return target.closest("button, a, summary") ? "control" : "none";
  };

  /**
   * Hears all keys before anyone else does, and pointers on what must be held.
   * @param {Window} window
   * @param {Hands} hands
   */
  const mountHands = (window, hands) => {
    /** Until a key is let go it was one press, whatever the browser repeats. */
    /** @type {string | null} */
    let down = null;
    window.addEventListener(
      "keydown",
      event => {
        if (event.ctrlKey || event.altKey || event.metaKey || event.shiftKey) return;
        const focus = focusOf(event.target);
        const meaning = meaningOf(event.key, focus);
        // Held on a focused button, Enter would press it again and again.
        if (event.repeat && (meaning || focus === "control")) return void event.preventDefault();
        if (!meaning || event.isComposing) return;
        event.preventDefault();
        event.stopImmediatePropagation();
        down = event.key;
        const control = focus === "held" ? /** @type {HTMLElement} */ (event.target).closest("[data-held]") : null;
        const own = control && (event.key === " " || event.key === "Enter");
        hands.press(meaning, own ? /** @type {HTMLElement} */ (control) : null);
      },
      { capture: true },
    );
    window.addEventListener(
      "keyup",
      event => {
        if (event.key !== down) return;
        down = null;
        hands.release();
        event.preventDefault();
      },
      { capture: true },
    );
    window.addEventListener("pointerdown", event => {
      const control = event.target instanceof Element ? event.target.closest("[data-held]") : null;
      if (control && event.button === 0) hands.press("next", /** @type {HTMLElement} */ (control));
    });
    window.addEventListener("pointerup", () => hands.release());
    window.addEventListener("pointercancel", () => hands.cancel());
    // A long touch would open a menu and take the finger away.
    window.addEventListener("contextmenu", event => {
      if (event.target instanceof Element && event.target.closest("[data-held]")) event.preventDefault();
    });
    window.addEventListener("blur", () => {
      down = null;
      hands.cancel();
    });
  };

  const benchleafKeys = { GUARD, HOLD, meaningOf, isCounted, mountHands };
  if (typeof module !== "undefined") module.exports = benchleafKeys;
  else Object.assign(window, { benchleafKeys });
}
