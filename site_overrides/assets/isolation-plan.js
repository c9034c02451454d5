// @ts-check
"use strict";

/*
 * The plan of a fault isolation sheet, reckoned anew as rows are filled: the cheapest order of what is left. The same as
 * decisions/search.py and plan.py, number for number; tests hold the two against each other.
 */

/** @typedef {import("./isolation-bayes.js").Problem} Problem */

/** @typedef {typeof import("./isolation-bayes.js")} Bayes */

/** @typedef {{ kind: "test" | "cure" | "refer", id: string, low: number, high: number }} Start */

/** @typedef {{ low: number, high: number, exact: boolean, starts: Start[] }} Plan */

/** @typedef {{ outcomes: number[], failed: number, level: number, key: number }} Place */

/** @typedef {{ at: Place, weights: number[], low: number }} Branch */

/** @typedef {{ low: number, rank: number, own: number, branches: Branch[] }} Action */

/** @typedef {{ low: number, high: number, action: number, settled: boolean }} Found */

{
  const [MOST, MORE, NEAR] = [8000, 2000, 1e-9];
  const LIGHTEST = [0.3, 0.1, 0.03, 0.01, 0.003, 0.001];

  /** @type {Bayes} */
  const { sum, seen, missed, createBounds } =
    typeof module === "undefined" ? Reflect.get(window, "benchleafBayes") : require("./isolation-bayes.js");

  class Spent extends Error {}

  /**
   * One search: what is done (or), and what may be seen (and). Actions are numbers: tests, cures, the end.
   * @param {Problem} problem
   * @param {ReturnType<typeof createBounds>} bounds
   * @param {number} most
   * @param {number} lightest
   * @param {boolean} patient
   */
  const createSearch = (problem, bounds, most, lightest, patient) => {
    const { tests, cures, travel } = problem;
    const end = tests.length + cures.length;
    /** @type {Map<number, Found>} */
    const all = new Map();
    let expanded = 0;

    /** @type {(outcomes: number[], failed: number, level: number) => Place} */
    const place = (outcomes, failed, level) => {
      const code = outcomes.reduce((whole, outcome) => whole * 5 + outcome + 1, 0);
      return { outcomes, failed, level, key: (code * 4096 + failed) * travel.length + level };
    };

    /** @type {(weights: readonly number[], at: Place) => { value: number, action: number }} */
    const fallback = (weights, at) => {
      const { value, cure } = bounds.fallback(weights, at.failed, at.level);
      return { value, action: cure < 0 ? end : tests.length + cure };
    };

    /** @type {(rank: number, own: number, ways: { at: Place, weights: number[] }[]) => Action} */
    const action = (rank, own, ways) => {
      const branches = ways
        .filter(({ weights }) => weights.some(Boolean))
        .map(({ at, weights }) => ({ at, weights, low: bounds.lower(weights, at.failed, at.level) }));
      return { low: own + sum(branches.map(branch => branch.low)), rank, own, branches };
    };

    /** @type {(at: Place, weights: readonly number[]) => Action[]} */
    const actions = (at, weights) => {
      const whole = sum(weights);
      const asked = tests.flatMap((test, number) => {
        if (/** @type {number} */ (at.outcomes[number]) >= 0) return [];
        const own = (/** @type {number} */ (travel[at.level]?.[test.level]) + test.cost) * whole;
        return [action(number, own, test.given.map((given, outcome) => ({
          at: place(at.outcomes.map((old, one) => (one === number ? outcome : old)), at.failed, test.level), weights: seen(weights, given),
        })))];
      });
      const tried = cures.flatMap((cure, number) => {
        if ((at.failed >> number) & 1) return [];
        const then = { at: place(at.outcomes, at.failed | (1 << number), 0), weights: missed(weights, cure.success) };
        return [action(tests.length + number, bounds.cost(at.level, cure) * whole, [then])];
      });
      const price = problem.end.price * whole;
      return [...asked, ...tried, { low: price, rank: end, own: price, branches: [] }];
    };

    /** @type {(at: Place, weights: readonly number[]) => Found} */
    const unsearched = (at, weights) => {
      const { value, action: first } = fallback(weights, at);
      const low = Math.min(bounds.lower(weights, at.failed, at.level), value);
      return { low, high: value, action: first, settled: true };
    };

    /** @type {(one: Action, limit: number) => [number, number]} */
    const follow = (one, limit) => {
      let [least, highest] = [one.low, one.own];
      for (const branch of one.branches) {
        if (least > limit) break;
        const found = solve(branch.at, branch.weights, limit - (least - branch.low));
        least += Math.max(found.low - branch.low, 0);
        highest += found.high;
      }
      return [least, least > limit ? Infinity : highest];
    };

    /** @type {(at: Place, weights: readonly number[], limit: number) => Found} */
    const expand = (at, weights, limit) => {
      let { value: best, action: first } = fallback(weights, at);
      let [rank, low] = [end + 1, best];
      const near = best * NEAR;
      const inOrder = actions(at, weights).sort((one, other) => one.low - other.low || one.rank - other.rank);
      for (const one of inOrder) {
        // Of two that cost the same, the one that stands first in the file is taken.
        const enough = one.rank < rank ? best + near : best - near;
        const [least, highest] = follow(one, Math.min(enough, limit));
        low = Math.min(low, least);
        if (highest <= enough) [best, first, rank] = [highest, one.rank, one.rank];
      }
      return { low: low >= best - near ? best : low, high: best, action: first, settled: best <= limit };
    };

    /** @type {(at: Place, weights: readonly number[], limit: number) => Found} */
    const solve = (at, weights, limit) => {
      const known = all.get(at.key);
      if (known && (known.settled || known.low > limit)) return known;
      /** @type {Found} */
      let found;
      if (sum(weights) < lightest) found = unsearched(at, weights);
      else if (expanded >= most) {
        if (!patient) throw new Spent();
        found = unsearched(at, weights);
      } else {
        expanded += 1;
        found = expand(at, weights, limit);
      }
      all.set(at.key, found);
      return found;
    };

    /** @type {(at: Place, weights: readonly number[]) => { rank: number, low: number, high: number }[]} */
    const each = (at, weights) => {
      [patient, most] = [true, expanded + MORE];
      const found = actions(at, weights).map(one => {
        const ways = one.branches.map(branch => solve(branch.at, branch.weights, Infinity));
        return { rank: one.rank, low: one.own + sum(ways.map(way => way.low)), high: one.own + sum(ways.map(way => way.high)) };
      });
      return found.sort((one, other) => one.high - other.high || one.rank - other.rank);
    };
    return { place, solve, each };
  };

  /**
   * What is cheapest to do next from `level`, and what it costs to begin with each other action.
   * @param {Problem} problem
   * @param {number} level
   * @param {number} [most]
   * @returns {Plan}
   */
  const plan = (problem, level, most = MOST) => {
    const bounds = createBounds(problem);
    const whole = sum(problem.shares);
    /** @type {(lightest: number, patient: boolean, limit: number) => { search: ReturnType<typeof createSearch>, found: Found } | null} */
    const tried = (lightest, patient, limit) => {
      const search = createSearch(problem, bounds, most, lightest * whole, patient);
      try {
        const at = search.place(problem.tests.map(() => -1), 0, level);
        return { search, found: search.solve(at, problem.shares, limit) };
      } catch (error) {
        if (error instanceof Spent) return null;
        throw error;
      }
    };
    let kept = tried(0, false, Infinity);
    let low = kept?.found.low ?? 0;
    if (!kept) {
      for (const lightest of LIGHTEST) {
        const next = tried(lightest, kept === null, kept?.found.high ?? Infinity);
        if (!next) break;
        low = Math.max(low, next.found.low);
        if (kept === null || next.found.high < kept.found.high) kept = next;
      }
    }
    const { search, found } = /** @type {NonNullable<typeof kept>} */ (kept);
    low = Math.min(low, found.high);
    /** @type {Omit<Start, "low" | "high">[]} */
    const names = [
      ...problem.tests.map(({ id }) => ({ kind: /** @type {const} */ ("test"), id })),
      ...problem.cures.map(({ id }) => ({ kind: /** @type {const} */ ("cure"), id })),
      { kind: "refer", id: problem.end.title },
    ];
    const all = search.each(search.place(problem.tests.map(() => -1), 0, level), problem.shares);
    const own = { rank: found.action, low, high: found.high };
    const others = all
      .filter(({ rank }) => rank !== found.action)
      .map(one => ({ rank: one.rank, low: Math.max(one.low, low), high: Math.max(one.high, found.high) }));
    const starts = [own, ...others].map(one => ({
      .../** @type {Omit<Start, "low" | "high">} */ (names[one.rank]), low: one.low / whole, high: one.high / whole,
    }));
    return { low: low / whole, high: found.high / whole, exact: low === found.high, starts };
  };

  const benchleafPlan = { plan };
  if (typeof module !== "undefined") module.exports = benchleafPlan;
  else Object.assign(window, { benchleafPlan });
}
