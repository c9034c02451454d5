// @ts-check
"use strict";

/* A screen that stays on, an alarm that is heard, and what is remembered of size and sound. */

/** @typedef {Pick<Storage, "getItem" | "setItem">} Memory */

{
  const SIZES = ["near", "usual", "far"];

  /** A remembered size that the page has, or the usual one. */
  const readSize = (/** @type {string | null} */ remembered) =>
    remembered !== null && SIZES.includes(remembered) ? remembered : "usual";

  /**
   * What was remembered, or nothing where the browser keeps nothing for us.
   * @param {() => Memory} memory
   * @param {string} key
   */
  const recall = (memory, key) => {
    try {
      return memory().getItem(key);
    } catch {
      return null;
    }
  };

  /**
   * Remembers, where the browser allows it.
   * @param {() => Memory} memory
   * @param {string} key
   * @param {string} value
   */
  const remember = (memory, key, value) => {
    try {
      memory().setItem(key, value);
    } catch {
      // Private windows and strict policies keep nothing; the choice then lasts as long as the page.
    }
  };

  /**
   * Asks the browser to keep the screen on, again each time the page is seen again; `tell` hears how it stands.
   * @param {Navigator} navigator
   * @param {Document} document
   * @param {(says: string) => void} tell
   */
  const keepScreenOn = (navigator, document, tell) => {
    const ask = async () => {
      if (document.visibilityState !== "visible") return;
      if (!("wakeLock" in navigator)) return tell("Screen may turn off: this browser cannot keep it on here");
      try {
        const lock = await navigator.wakeLock.request("screen");
        tell("Screen stays on");
        lock.addEventListener("release", () => tell("Screen may turn off"));
      } catch {
        tell("Screen may turn off: the system does not let it stay on");
      }
    };
    document.addEventListener("visibilitychange", () => void ask());
    return ask();
  };

  /**
   * Three rising tones. Made ready by a press, because browsers let no page sound before somebody has touched it.
   * @param {() => AudioContext} create
   */
  const createBell = create => {
    /** @type {AudioContext | null} */
    let context = null;
    const ready = () => {
      try {
        context ??= create();
        if (context.state === "suspended") void context.resume().catch(() => undefined);
      } catch {
        context = null;
      }
      return context;
    };
    const ring = () => {
      const sound = ready();
      if (!sound) return false;
      for (const [place, pitch] of [660, 880, 1100, 660, 880, 1100].entries()) {
        const [tone, loud, from] = [sound.createOscillator(), sound.createGain(), sound.currentTime + place * 0.3];
        tone.frequency.value = pitch;
        loud.gain.setValueAtTime(0.0001, from);
        loud.gain.exponentialRampToValueAtTime(0.4, from + 0.02);
        loud.gain.exponentialRampToValueAtTime(0.0001, from + 0.26);
        tone.connect(loud).connect(sound.destination);
        tone.start(from);
        tone.stop(from + 0.28);
      }
      return true;
    };
    return { ready, ring };
  };

  const benchleafScreen = { readSize, recall, remember, keepScreenOn, createBell };
  if (typeof module !== "undefined") module.exports = benchleafScreen;
  else Object.assign(window, { benchleafScreen });
}
