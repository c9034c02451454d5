// @ts-check
"use strict";

/* What a fault isolation sheet says once rows are filled: shares, what to do next and why. Pure: numbers in, words out. */

/** @typedef {import("./isolation-bayes.js").Problem} Problem */

/** @typedef {import("./isolation-plan.js").Start} Start */

/** @typedef {{ id: string, title: string, value: number, low: number, high: number }} Cause */

/** @typedef {{ id: string, title: string, unless: Record<string, string[]>, outcomes: Record<string, string> }} Test */

/** @typedef {{ variants: string[], title: string, currency: string, problem: Problem }} Group */

/**
 * @typedef {object} Data
 * @property {boolean} several
 * @property {Record<string, string>} arrived what is reckoned with where nothing is said
 * @property {Cause[]} causes
 * @property {Test[]} tests
 * @property {Group[]} groups
 */

/**
 * What was done, in its order, how the device arrived, and which of several faults were found or ruled out.
 * @typedef {object} State
 * @property {{ kind: string, id: string, outcome: string }[]} done tests with their outcome; cures tried in vain
 * @property {Record<string, string>} arrived
 */

/** @typedef {{ kind: string, id: string, title: string, cost: string, minutes: string, level: string, works: string }} Row */

/**
 * @typedef {object} Answer
 * @property {{ id: string, title: string, text: string, width: number, low: number, high: number, range: string }[]} causes
 * @property {Row[]} rows the cheapest first
 * @property {string} reason
 */

{
  /** @type {{ bayes: typeof import("./isolation-bayes.js"), planner: typeof import("./isolation-plan.js") }} */
  const { bayes, planner } =
    typeof module === "undefined"
      ? { bayes: Reflect.get(window, "benchleafBayes"), planner: Reflect.get(window, "benchleafPlan") }
      : { bayes: require("./isolation-bayes.js"), planner: require("./isolation-plan.js") };

  /** Keeps a number and its unit on one line. */
  const held = (/** @type {string} */ text) => text.replaceAll(" ", "\u00a0");

  /** A share in whole percent; what is neither nothing nor all is never called so. */
  const percent = (/** @type {number} */ share) => {
    const rounded = Math.floor(100 * share + 0.5);
    if ((rounded === 0 || rounded === 100) && share > 0 && share < 1) return rounded === 0 ? "< 1 %" : "> 99 %";
    return `${rounded} %`;
  };

  /** An interval of a share, rounded outward. */
  const ends = (/** @type {number} */ low, /** @type {number} */ high) =>
    `${Math.floor(100 * low)}–${Math.ceil(100 * high)} %`;

  const money = (/** @type {number} */ value, /** @type {string} */ currency) => `${value.toFixed(2)} ${currency}`;

  const minutes = (/** @type {number} */ own, /** @type {number} */ ways) => {
    const [one, two] = [own, ways].map(seconds => Math.ceil(seconds / 60 - 1e-9));
    return ways ? `${one} + ${two}` : `${one}`;
  };

  /**
   * Whether a test must not be done on a device that arrived so.
   * @param {Test} test
   * @param {Record<string, string>} arrived
   */
  const isBarred = (test, arrived) =>
    Object.entries(test.unless).some(([what, states]) => states.includes(arrived[what] ?? ""));

  /**
   * Why the plan begins as it does, beside the next best beginning.
   * @param {import("./isolation-plan.js").Plan} plan
   * @param {(start: Start) => string} title
   * @param {number} works how likely the first action ends the fault, where it is a cure
   * @param {string} currency
   */
  const reason = (plan, title, works, currency) => {
    const [first, other] = plan.starts;
    if (!first || !other) return "Nothing else is left to do.";
    const because = {
      test: "What it shows decides what is worth doing next",
      cure: `It ends the fault in ${percent(works)}`,
      refer: "No test and no cure pays for itself any more",
    }[first.kind];
    const begun = first.kind === "refer" ? "ending here costs" : "with it first, the way to the end costs";
    const bound = plan.exact && other.low === other.high ? "" : "at most ";
    const beside = `with “${title(other)}” first ${bound}${money(other.high, currency)}`;
    return `${because}: ${begun} ${money(plan.high, currency)}, ${beside}.`;
  };

  /**
   * What is left of a problem after all that was done: the likelihood of what was seen, and the level of the device.
   * @param {Data} data
   * @param {Problem} problem
   * @param {State} state
   */
  const left = (data, problem, state) => {
    let likelihood = problem.shares.map(() => 1);
    let level = 0;
    for (const { kind, id, outcome } of state.done) {
      const test = kind === "test" ? problem.tests.find(one => one.id === id) : undefined;
      const cure = kind === "cure" ? problem.cures.find(one => one.id === id) : undefined;
      const given = test?.given[test.outcomes.indexOf(outcome)];
      if (given) likelihood = bayes.seen(likelihood, given);
      if (cure) likelihood = bayes.missed(likelihood, cure.success);
      level = test ? test.level : 0;
    }
    const done = new Set(state.done.map(({ kind, id }) => `${kind} ${id}`));
    const barred = new Set(data.tests.filter(test => isBarred(test, state.arrived)).map(test => test.id));
    return {
      likelihood,
      level,
      tests: problem.tests.filter(({ id }) => !done.has(`test ${id}`) && !barred.has(id)),
      cures: problem.cures.filter(({ id }) => !done.has(`cure ${id}`)),
    };
  };

  /**
   * What the sheet says for one group of variants; null where no cause shows all that was seen.
   * @param {Data} data
   * @param {Group} group
   * @param {State} state
   * @returns {Answer | null}
   */
  const answer = (data, group, { done, arrived }) => {
    const { problem, currency } = group;
    const { likelihood, level, tests, cures } = left(data, problem, { done, arrived });
    const weights = bayes.seen(problem.shares, likelihood);
    const whole = bayes.sum(weights);
    if (!(whole > 0)) return null;
    const shares = weights.map(weight => weight / whole);
    const now = { ...problem, shares, tests, cures };
    const plan = planner.plan(now, level);
    const titles = new Map(data.tests.map(({ id, title }) => [id, title]));
    const works = (/** @type {string} */ id) => bayes.sum(bayes.seen(shares, cures.find(one => one.id === id)?.success ?? []));

    const title = (/** @type {Start} */ { kind, id }) =>
      (kind === "test" ? titles.get(id) : cures.find(one => one.id === id)?.title) ?? id;

    const rows = plan.starts.map((start, rank) => {
      const settled = start.low === start.high || (rank === 0 && plan.exact);
      const cost = held(`${settled ? "" : "≤ "}${money(start.high, currency)}`);
      const one = (start.kind === "test" ? tests : cures).find(({ id }) => id === start.id);
      const row = { kind: start.kind, id: start.kind === "refer" ? "" : start.id, title: title(start), cost };
      if (start.kind === "refer" || !one) return { ...row, minutes: "–", level: "–", works: "–" };
      const back = start.kind === "cure" ? problem.ways[one.level]?.[0] ?? 0 : 0;
      return {
        ...row,
        minutes: minutes(one.seconds, (problem.ways[level]?.[one.level] ?? 0) + back),
        level: problem.levels[one.level] ?? "",
        works: start.kind === "cure" ? held(percent(works(start.id))) : "–",
      };
    });
    const first = plan.starts[0];
    const carried = done.length ? bayes.sharesNow(data.causes, likelihood) : data.causes;
    const causes = data.causes.map(({ id, title: named }, number) => {
      const share = /** @type {{ value: number, low: number, high: number }} */ (carried[number]);
      return {
        id, title: named, text: held(percent(share.value)), range: held(ends(share.low, share.high)),
        width: 100 * share.value, low: 100 * share.low, high: 100 * share.high,
      };
    });
    causes.sort((one, other) => other.width - one.width);
    return { causes, rows, reason: reason(plan, title, first?.kind === "cure" ? works(first.id) : 0, currency) };
  };

  /**
   * What is read out and stands at the foot of the screen after a press.
   * @param {Answer | null} found
   * @param {string} parts of the first row, "–" where none is renewed
   */
  const tell = (found, parts) => {
    if (!found) return "No cause on this sheet shows all of this together: read the rows again.";
    const [likeliest, next] = [found.causes[0], found.rows[0]];
    if (!likeliest || !next) return "";
    const head = `Likeliest: ${likeliest.title}, ${likeliest.text} (${likeliest.range}). Next: `;
    if (next.kind === "refer") return `${head}|, ${next.cost}: the plan ends here.`;
    const level = `${next.level}, ${held(`${next.minutes} min`)}`;
    if (next.kind === "test") return `${head}|, ${level}; ${next.cost} from here.`;
    const price = parts === "–" ? "no parts" : `parts ${parts}`;
    return `${head}|, ${level}, ${price}, works in ${next.works}; ${next.cost} from here.`;
  };

  /**
   * The state as an address keeps it, so that Back from a procedure finds the sheet as it was left.
   * @param {State} state
   * @param {Record<string, string>} usual
   */
  const hashOf = (state, usual) => {
    const arrived = Object.entries(state.arrived).filter(([what, how]) => how !== usual[what]);
    const said = [
      ...arrived.map(([what, how]) => `arrived.${what}.${how}`),
      ...state.done.map(({ kind, id, outcome }) => `${kind}.${id}.${outcome}`),
    ];
    return said.length ? `#is=${said.join(",")}` : "";
  };

  /**
   * The state that an address keeps; what the sheet does not have (any more) is left out.
   * @param {string} hash
   * @param {Record<string, string>} usual
   * @param {(kind: string, id: string, outcome: string) => boolean} knows
   * @returns {State}
   */
  const readHash = (hash, usual, knows) => {
    /** @type {State} */
    const state = { done: [], arrived: { ...usual } };
    if (!hash.startsWith("#is=")) return state;
    for (const said of hash.slice(4).split(",")) {
      const [kind = "", id = "", outcome = ""] = said.split(".");
      if (!knows(kind, id, outcome)) continue;
      if (kind === "arrived") state.arrived[id] = outcome;
      else if (!state.done.some(one => one.kind === kind && one.id === id)) state.done.push({ kind, id, outcome });
    }
    return state;
  };

  const benchleafWords = { answer, tell, hashOf, readHash, isBarred, percent };
  if (typeof module !== "undefined") module.exports = benchleafWords;
  else Object.assign(window, { benchleafIsolation: benchleafWords });
}
