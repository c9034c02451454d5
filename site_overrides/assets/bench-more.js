// @ts-check
"use strict";

/* What lies below the edge of the screen: it is brought up before a step can be done, so nothing is passed unseen. */
{
  // A line of small type; less than that hidden is nothing hidden.
  const SLACK = 16;
  // One screen less a strip that was seen before, so that the eye finds its line again.
  const SHARE = 0.8;
  /** What of a step must have been seen. What comes next may wait. */
  const PARTS = ".msg, [data-standing], .say, .lims, [data-timer], [data-check], [data-record], figure";

  /**
   * How much is hidden, from the lowest of what must be seen and the lowest line that is.
   * @param {readonly number[]} bottoms
   * @param {number} floor
   */
  const hidden = (bottoms, floor) => Math.max(0, Math.max(0, ...bottoms) - floor - SLACK);

  /**
   * What scrolls when this element does.
   * @param {HTMLElement} place
   * @returns {Element}
   */
  const scrollerOf = place => {
    for (let at = /** @type {HTMLElement | null} */ (place); at; at = at.parentElement) {
      const isTaller = at.scrollHeight > at.clientHeight + 1;
      if (isTaller && /auto|scroll/.test(getComputedStyle(at).overflowY)) return at;
    }
    return document.scrollingElement ?? document.documentElement;
  };

  /** The lowest line that is seen: the edge of the window, of what scrolls, or the keys that lie over it. */
  const floorOf = (/** @type {HTMLElement} */ place) => {
    const keys = document.querySelector(".keys");
    const scroller = scrollerOf(place);
    const edges = [window.innerHeight];
    if (scroller !== document.scrollingElement) edges.push(scroller.getBoundingClientRect().bottom);
    if (keys && !place.closest("#stop-and-make-safe")) edges.push(keys.getBoundingClientRect().top);
    return Math.min(...edges);
  };

  /** Whether something of a view that must be seen lies below the edge. */
  const isMore = (/** @type {HTMLElement} */ place) => {
    const parts = place.matches('[data-view="step"]') ? [...place.querySelectorAll(PARTS)] : [place];
    const seen = parts.filter(part => part.getClientRects().length > 0);
    return (
      hidden(
        seen.map(part => part.getBoundingClientRect().bottom),
        floorOf(place),
      ) > 0
    );
  };

  /** Whether something lies above the edge. */
  const isLess = (/** @type {HTMLElement} */ place) => scrollerOf(place).scrollTop > 0;

  /**
   * Brings up the next screen of a view, or the one before.
   * @param {HTMLElement} place
   * @param {1 | -1} way
   */
  const scroll = (place, way) => {
    const scroller = scrollerOf(place);
    const top = way * SHARE * Math.min(scroller.clientHeight, floorOf(place));
    scroller.scrollBy({ top, behavior: "instant" });
  };

  const benchleafMore = { hidden, isLess, isMore, scroll };
  if (typeof module !== "undefined") module.exports = benchleafMore;
  else Object.assign(window, { benchleafMore });
}
