// @ts-check
"use strict";

/*
 * The plan of a fault isolation sheet, reckoned anew as rows are filled: the cheapest order of what is left. The same as
 * decisions/search.py, best.py and plan.py, number for number; tests hold the two against each other.
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
  const [MOST, MORE, LOOKED_AT, NEAR] = [8000, 2000, 4000, 1e-9];

  /** @type {Bayes} */
  const { sum, seen, missed, createBounds } =
    typeof module === "undefined" ? Reflect.get(window, "benchleafBayes") : require("./isolation-bayes.js");

  class Spent extends Error {}

  /**
   * One search: what is done (or), and what may be seen (and). Actions are numbers: tests, cures, the end.
   * @param {Problem} problem
   * @param {ReturnType<typeof createBounds>} bounds
   * @param {number} most
   */
  const createSearch = (problem, bounds, most) => {
    let patient = false;
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
      if (expanded >= most) {
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
    return { place, solve, each, actions, fallback };
  };

  /** @typedef {{ at: Place, weights: readonly number[], low: number, high: number, rest: number, ways: Way[] | null }} State */

  /** @typedef {{ rank: number, own: number, states: State[] }} Way */

  /**
   * The search where a whole one is too long: the states that matter most are looked at first.
   * @param {Problem} problem
   * @param {ReturnType<typeof createBounds>} bounds
   * @param {number} most
   */
  const createBest = (problem, bounds, most) => {
    const all = createSearch(problem, bounds, 0);
    /** @type {Map<number, State>} */
    const states = new Map();
    const lowOf = (/** @type {Way} */ way) => way.own + sum(way.states.map(state => state.low));
    const highOf = (/** @type {Way} */ way) => way.own + sum(way.states.map(state => state.high));

    /** @type {<T>(items: readonly T[], value: (item: T) => number) => T | undefined} */
    const least = (items, value) => items.reduce(
      (/** @type {{ item: any, own: number }} */ best, item) => {
        const own = value(item);
        return own < best.own ? { item, own } : best;
      }, { item: undefined, own: Infinity },
    ).item;

    /** @type {(at: Place, weights: readonly number[]) => State} */
    const stateOf = (at, weights) => {
      let known = states.get(at.key);
      if (!known) {
        const { value: high, action: rest } = all.fallback(weights, at);
        const low = Math.min(bounds.lower(weights, at.failed, at.level), high);
        states.set(at.key, (known = { at, weights, low, high, rest, ways: null }));
      }
      return known;
    };

    /** @type {(one: Action) => Way} */
    const wayOf = ({ rank, own, branches }) =>
      ({ rank, own, states: branches.map(({ at, weights }) => stateOf(at, weights)) });

    const expand = (/** @type {State} */ state) => (state.ways = all.actions(state.at, state.weights).map(wayOf));

    const descend = (/** @type {State} */ first) => {
      const way = [first];
      for (let state = first; state.ways;) {
        const next = least(least(state.ways, lowOf)?.states ?? [], one => one.low - one.high);
        if (!next) break;
        way.push((state = next));
      }
      return way;
    };

    const narrow = (/** @type {State} */ state) => {
      const [low, high] = [Math.min(...(state.ways ?? []).map(lowOf)), Math.min(...(state.ways ?? []).map(highOf))];
      const before = [state.low, state.high];
      state.high = Math.min(state.high, high);
      state.low = Math.min(Math.max(state.low, low), state.high);
      return before[0] !== state.low || before[1] !== state.high;
    };

    /** @type {(at: Place, weights: readonly number[]) => State} */
    const solve = (at, weights) => {
      const first = stateOf(at, weights);
      for (let expanded = 0; expanded < most && first.high - first.low > NEAR * first.high;) {
        const way = descend(first);
        const last = /** @type {State} */ (way.at(-1));
        const isNew = last.ways === null;
        if (isNew) [expanded] = [expanded + 1, expand(last)];
        const moved = way.reverse().map(narrow);
        if (!isNew && !moved.some(Boolean)) break;
      }
      return first;
    };

    /**
     * What the plan that begins in a state costs, each state with its cheapest action by what is known now.
     * @type {(state: State, known?: Map<State, number>) => number}
     */
    const costOf = (state, known = new Map()) => {
      const had = known.get(state);
      if (had !== undefined) return had;
      // Where nobody looked, the cures are tried without tests, each chosen anew by what is left.
      const way = state.ways
        ? least(state.ways, highOf)
        : all.actions(state.at, state.weights).filter(({ rank }) => rank === state.rest).map(wayOf)[0];
      const cost = (way?.own ?? 0) + sum((way?.states ?? []).map((/** @type {State} */ next) => costOf(next, known)));
      known.set(state, cost);
      return cost;
    };

    const each = (/** @type {State} */ state) =>
      (state.ways ?? expand(state))
        .map(way => ({ rank: way.rank, low: lowOf(way), high: highOf(way) }))
        .sort((one, other) => one.high - other.high || one.rank - other.rank);
    return { solve, each, costOf, action: (/** @type {State} */ state) => (state.ways && least(state.ways, highOf)?.rank) ?? state.rest };
  };

  /**
   * What is found by a whole search, or where that is too long by a search of what matters.
   * @param {Problem} problem
   * @param {number} level
   * @param {number} most
   */
  const searched = (problem, level, most) => {
    const bounds = createBounds(problem);
    const search = createSearch(problem, bounds, most);
    const at = search.place(problem.tests.map(() => -1), 0, level);
    try {
      const { low, high, action } = search.solve(at, problem.shares, Infinity);
      return { low, high, action, all: search.each(at, problem.shares) };
    } catch (error) {
      if (!(error instanceof Spent)) throw error;
    }
    const best = createBest(problem, bounds, Math.min(most, LOOKED_AT));
    const first = best.solve(at, problem.shares);
    const high = Math.min(first.high, best.costOf(first));
    return { low: high - first.low <= NEAR * high ? high : first.low, high, action: best.action(first), all: best.each(first) };
  };

  /**
   * What is cheapest to do next from `level`, and what it costs to begin with each other action.
   * @param {Problem} problem
   * @param {number} level
   * @param {number} [most]
   * @returns {Plan}
   */
  const plan = (problem, level, most = MOST) => {
    const whole = sum(problem.shares);
    const { low, high, action, all } = searched(problem, level, most);
    /** @type {Omit<Start, "low" | "high">[]} */
    const names = [
      ...problem.tests.map(({ id }) => ({ kind: /** @type {const} */ ("test"), id })),
      ...problem.cures.map(({ id }) => ({ kind: /** @type {const} */ ("cure"), id })),
      { kind: "refer", id: problem.end.title },
    ];
    const own = { rank: action, low, high };
    const others = all
      .filter(({ rank }) => rank !== action)
      .map(one => ({ rank: one.rank, low: Math.max(one.low, low), high: Math.max(one.high, high) }));
    const starts = [own, ...others].map(one => ({
      .../** @type {Omit<Start, "low" | "high">} */ (names[one.rank]), low: one.low / whole, high: one.high / whole,
    }));
    return { low: low / whole, high: high / whole, exact: low === high, starts };
  };

  const benchleafPlan = { plan };
  if (typeof module !== "undefined") module.exports = benchleafPlan;
  else Object.assign(window, { benchleafPlan });
}
