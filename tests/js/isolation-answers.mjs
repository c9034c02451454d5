// Answers many questions about fault isolation sheets: JSON in, JSON out, for the tests that compare with Python.
import { readFileSync } from "node:fs";
import words from "../../site_overrides/assets/isolation-words.js";
import planner from "../../site_overrides/assets/isolation-plan.js";

const asked = JSON.parse(readFileSync(0, "utf-8"));
const answers = asked.sheets?.map(({ data, states }) =>
  states.map(({ group, state }) => words.answer(data, data.groups[group], state)));
const plans = asked.plans?.map(({ problem, level, most }) => planner.plan(problem, level, most));
process.stdout.write(JSON.stringify({ answers, plans }));
