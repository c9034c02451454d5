// @ts-check
"use strict";

/* From a press to an act: what the large key does now, what must be held for it, and what is too soon. */

/** @typedef {import("./bench-way.js").Due} Due */

/** @typedef {import("./bench-keys.js").Hands} Hands */

/** @typedef {import("./bench-keys.js").Meaning} Meaning */

/**
 * What the page tells of itself.
 * @typedef {object} Scene
 * @property {() => string} view
 * @property {() => Due | null} due
 * @property {() => boolean} isStopShown
 * @property {() => boolean} isMore whether something is hidden below
 * @property {() => boolean} isLess whether something is hidden above
 * @property {(act: string, control: HTMLElement | null) => void} perform
 * @property {(says: string) => void} say
 * @property {() => number} clock
 */

/** @typedef {{ act: string, held: boolean, short?: string }} Wish `short`: what a short press does */

{
  const own =
    typeof module === "undefined" ? /** @type {any} */ (window) : { benchleafKeys: require("./bench-keys.js") };
  /** @type {typeof import("./bench-keys.js")} */
  const { HOLD, isCounted } = own.benchleafKeys;

  /** @type {{ [due in Due]?: Wish }} */
  const BY_DUE = {
    more: { act: "more", held: false },
    read: { act: "read", held: true },
    route: { act: "route", held: true },
    wait: { act: "early", held: true },
    // One key is enough for both answers, and a foot that rests on it never says yes.
    answer: { act: "no", held: true, short: "yes" },
    start: { act: "start", held: false },
    lift: { act: "start", held: false },
    reading: { act: "judge", held: false },
    done: { act: "done", held: false },
    forward: { act: "forward", held: false },
  };

  /** @type {{ [view: string]: string }} */
  const BY_VIEW = { arrival: "begin", resume: "resume", reason: "leave-so" };

  /**
   * What the next key wants, here and now; null where it does nothing, because a choice is to be made.
   * @param {string} view
   * @param {Due | null} due
   * @returns {Wish | null}
   */
  const wishOf = (view, due) => {
    if (view === "step") return (due && BY_DUE[due]) || null;
    const act = BY_VIEW[view];
    return act ? { act, held: false } : null;
  };

  const CHOOSE = "Choose here: Tab goes from one to the next, Enter takes it.";
  const AWAY = "Stop and make safe is shown. Page Up goes back to the step.";
  const SHORT = "Hold it until the bar is full: about a second.";
  const TWICE = "Press it once more to do it.";
  // A screen reader presses and cannot hold; its second press is the deliberate one.
  const SECOND = 10_000;

  /**
   * Presses, holds and clicks on one page.
   * @param {Document} document
   * @param {Scene} scene
   * @returns {Hands & { click: (control: HTMLElement, byHand: boolean) => void }}
   */
  const createPress = (document, scene) => {
    let last = 0;
    /** @type {{ control: HTMLElement, wish: Wish, timer: number } | null} */
    let holding = null;
    /** @type {{ control: HTMLElement, at: number } | null} */
    let asked = null;

    const large = () => /** @type {HTMLElement} */ (document.querySelector('.keys [data-do="done"]'));
    const perform = (/** @type {string} */ act, /** @type {HTMLElement | null} */ control) => {
      last = scene.clock();
      scene.perform(act, control);
    };
    const drop = () => {
      if (!holding) return null;
      clearTimeout(holding.timer);
      holding.control.classList.remove("holding");
      const dropped = holding;
      holding = null;
      return dropped;
    };
    const hold = (/** @type {HTMLElement} */ control, /** @type {Wish} */ wish) => {
      drop();
      control.classList.add("holding");
      const timer = window.setTimeout(() => {
        drop();
        perform(wish.act, control);
      }, HOLD);
      holding = { control, wish, timer };
    };
    const wishOfControl = (/** @type {HTMLElement} */ control) => {
      const act = control.dataset.do ?? "";
      return act === "done" ? wishOf(scene.view(), scene.due()) : { act, held: control.hasAttribute("data-held") };
    };

    return {
      press: (meaning, control) => {
        if (!isCounted(scene.clock(), last) || holding) return;
        if (control) {
          const wish = wishOfControl(control);
          return wish ? hold(control, { ...wish, held: true }) : undefined;
        }
        if (meaning === "stop") return perform("stop", null);
        if (scene.isStopShown()) {
          if (meaning === "back") return perform(scene.isLess() ? "less" : "from-stop", null);
          return scene.isMore() ? perform("more", null) : scene.say(AWAY);
        }
        if (meaning === "back") return perform("back", null);
        if (!["step", "arrival"].includes(scene.view()) && scene.isMore()) return perform("more", null);
        const wish = wishOf(scene.view(), scene.due());
        if (!wish)
          return scene.say(
            scene.due() === "pause" ? "Pause first: the joint has to cool between two touches." : CHOOSE,
          );
        const shown = /** @type {HTMLElement} */ (
          document.querySelector(`[data-view="${scene.view()}"] [data-do="${wish.act}"][data-held]`) ?? large()
        );
        const mustHold = wish.held || (shown.dataset.do === wish.act && shown.hasAttribute("data-held"));
        return mustHold ? hold(shown, wish) : perform(wish.act, null);
      },
      release: () => {
        const dropped = drop();
        if (!dropped) return;
        if (dropped.wish.short) perform(dropped.wish.short, null);
        else scene.say(SHORT);
      },
      cancel: () => void drop(),
      click: (control, byHand) => {
        const wish = wishOfControl(control);
        if (!wish || (control instanceof HTMLButtonElement && control.disabled)) return;
        if (wish.held && !wish.short) {
          if (byHand) return;
          const second =
            asked?.control === control && scene.clock() - asked.at < SECOND && scene.clock() - asked.at >= HOLD;
          asked = second ? null : { control, at: scene.clock() };
          return second ? perform(wish.act, control) : scene.say(TWICE);
        }
        if (isCounted(scene.clock(), last)) perform(wish.short ?? wish.act, control);
      },
    };
  };

  const benchleafPress = { createPress, wishOf };
  if (typeof module !== "undefined") module.exports = benchleafPress;
  else Object.assign(window, { benchleafPress });
}
