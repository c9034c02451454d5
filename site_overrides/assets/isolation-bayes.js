// @ts-check
"use strict";

/*
 * What an outcome says of the causes, and what a plan costs at least and at most without searching for it: the same as
 * decisions/bayes.py, shares.py and bounds.py, number for number; tests hold the two against each other.
 */

/** @typedef {{ id: string, level: number, cost: number, seconds: number, outcomes: string[], given: number[][] }} Trial */

/** @typedef {{ id: string, title: string, level: number, cost: number, seconds: number, success: number[] }} Remedy */

/**
 * What there is to decide. Level 0 is the closed device.
 * @typedef {object} Problem
 * @property {number[]} shares
 * @property {Trial[]} tests
 * @property {Remedy[]} cures
 * @property {string[]} levels
 * @property {number[][]} travel money from level to level
 * @property {number[][]} ways seconds from level to level
 * @property {{ title: string, price: number }} end
 */

{
  /** @param {readonly number[]} weights */
  const sum = weights => weights.reduce((whole, weight) => whole + weight, 0);

  /**
   * @param {readonly number[]} weights
   * @param {readonly number[]} given
   */
  const seen = (weights, given) => weights.map((weight, cause) => weight * (given[cause] ?? 0));

  /**
   * @param {readonly number[]} weights
   * @param {readonly number[]} success
   */
  const missed = (weights, success) => weights.map((weight, cause) => weight * (1 - (success[cause] ?? 0)));

  /**
   * The shares of the causes now, each with its interval carried along by Bayes' rule.
   * @param {readonly { value: number, low: number, high: number }[]} prior
   * @param {readonly number[]} likelihood how likely each cause shows all that was seen
   */
  const sharesNow = (prior, likelihood) =>
    prior.map((share, cause) => {
      const rest = 1 - share.value;
      const against = prior.reduce(
        (whole, one, other) => (other === cause ? whole : whole + one.value * (likelihood[other] ?? 0)), 0,
      );
      const others = rest > 0 ? against / rest : 0;
      const carried = (/** @type {number} */ end) => {
        const [pro, contra] = [end * (likelihood[cause] ?? 0), (1 - end) * others];
        return pro + contra > 0 ? pro / (pro + contra) : end;
      };
      return { value: carried(share.value), low: carried(share.low), high: carried(share.high) };
    });

  /**
   * What a plan costs at least and at most, without searching for it.
   * @param {Problem} problem
   */
  const createBounds = problem => {
    const { cures, travel, end } = problem;
    /** @type {Map<number, number[]>} */
    const known = new Map();
    const cost = (/** @type {number} */ level, /** @type {Remedy} */ cure) =>
      /** @type {number} */ (travel[level]?.[cure.level]) + cure.cost + /** @type {number} */ (travel[cure.level]?.[0]);
    const success = (/** @type {Remedy} */ cure, /** @type {number} */ cause) => cure.success[cause] ?? 0;

    /** @type {(cause: number, order: readonly Remedy[]) => number} */
    const inTurn = (cause, order) =>
      order.reduceRight(
        (value, cure) => Math.min(value, cost(0, cure) + (1 - success(cure, cause)) * value), end.price,
      );

    /** @type {(cause: number, failed: number, level: number) => number} */
    const ifKnown = (cause, failed, level) => {
      const useful = cures.filter((cure, number) => !((failed >> number) & 1) && success(cure, cause) > 0);
      useful.sort((one, other) => cost(0, one) / success(one, cause) - cost(0, other) / success(other, cause));
      let least = inTurn(cause, useful);
      if (level === 0) return least;
      for (const first of useful) {
        const rest = inTurn(cause, useful.filter(cure => cure !== first));
        least = Math.min(least, cost(level, first) + (1 - success(first, cause)) * rest);
      }
      return Math.min(least, end.price);
    };

    /** @type {(weights: readonly number[], failed: number, level: number) => number} */
    const lower = (weights, failed, level) => {
      const key = failed * travel.length + level;
      let each = known.get(key);
      if (!each) known.set(key, (each = problem.shares.map((_, cause) => ifKnown(cause, failed, level))));
      return sum(seen(weights, each));
    };

    /** @type {(weights: readonly number[], failed: number, level: number) => { value: number, cure: number }} */
    const fallback = (weights, failed, level) => {
      const promised = cures.flatMap((cure, number) => {
        if ((failed >> number) & 1) return [];
        const own = cost(level, cure);
        return [{ cure, number, promise: own > 0 ? sum(seen(weights, cure.success)) / own : Infinity }];
      });
      // Not a difference: two that promise without end would give none.
      promised.sort((one, other) => (one.promise === other.promise ? one.number - other.number : other.promise > one.promise ? 1 : -1));
      const tried = promised.map(({ cure, number }) => {
        const whole = sum(weights);
        const own = cost(level, cure) * whole;
        weights = missed(weights, cure.success);
        level = 0;
        return { number, whole, own };
      });
      let [value, first] = [end.price * sum(weights), -1];
      for (const { number, whole, own } of tried.reverse()) {
        const [goOn, stop] = [own + value, end.price * whole];
        [value, first] = goOn <= stop ? [goOn, number] : [stop, -1];
      }
      return { value, cure: first };
    };
    return { lower, fallback, cost };
  };

  const benchleafBayes = { sum, seen, missed, sharesNow, createBounds };
  if (typeof module !== "undefined") module.exports = benchleafBayes;
  else Object.assign(window, { benchleafBayes });
}
