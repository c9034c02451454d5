// The way through a procedure: what is due, what a failed check does, what going back and a revision leave as it was.
import assert from "node:assert/strict";
import { test } from "node:test";
import record from "../../site_overrides/assets/bench-record.js";
import tray from "../../site_overrides/assets/bench-tray.js";
import turn from "../../site_overrides/assets/bench-turn.js";
import way from "../../site_overrides/assets/bench-way.js";
import {
  AS_FAR_AS_THE_LOOK,
  AS_FAR_AS_THE_READING,
  after,
  brought,
  fresh,
  reading,
  START,
  WAY,
} from "./bench-fixture.mjs";

const due = (run, seconds = 1000) => way.dueOf(WAY, run, START + seconds * 1000);
const states = run => run.path.map(({ label, state }) => `${label} ${state}`);

test("a step that is done leads to the next", () => {
  assert.equal(after("done").step, "open-2");
});

test("a danger is read before its step can be done", () => {
  assert.equal(due(after("done")), "read");
  assert.equal(after("done", "done").step, "open-2");
  assert.equal(after("done", "read", "done").step, "dry");
});

test("a wait is over by the clock", () => {
  const run = after("done", "read", "done", { do: "start", at: 10 });

  assert.deepEqual([due(run, 129), due(run, 131)], ["wait", "done"]);
});

test("a wait that is cut short is recorded so, and what hangs on it is in doubt", () => {
  const run = after("done", "read", "done", { do: "start", at: 10 }, { do: "early", at: 40 }, "done");

  assert.equal(run.path.at(-1).early, true);
  assert.equal(record.recordOf(brought(), run).steps.at(-1).waited.verdict, "too short");
  assert.deepEqual([...tray.doubts(run.path).keys()], ["wet"]);
});

test("between two touches there is a pause", () => {
  const run = after(
    "done",
    "read",
    "done",
    { do: "start", at: 10 },
    { do: "done", at: 140 },
    { do: "start", at: 150 },
    { do: "lift", at: 152 },
  );

  assert.deepEqual([due(run, 155), due(run, 157)], ["pause", "start"]);
});

test("a look that is answered no goes the way of its failure, and the second time stops", () => {
  const once = after(...AS_FAR_AS_THE_LOOK, "no", "route");
  const twice = after(...AS_FAR_AS_THE_LOOK, "no", "route", "untimed", "done", "no", "route");

  assert.deepEqual([once.step, once.at], ["tin", 9]);
  assert.deepEqual([twice.state, twice.stop.say], ["stopped", "A joint cannot be wetted. Fit a new port."]);
});

test("a failed check does not go on by itself", () => {
  const run = after(...AS_FAR_AS_THE_LOOK, "no", "done", "yes");

  assert.deepEqual([run.state, due(run)], ["failed", "route"]);
});

test("a reading within its limits may go on, one outside takes its way", () => {
  const within = after(...AS_FAR_AS_THE_READING, ...reading("12,5"));
  const below = after(...AS_FAR_AS_THE_READING, ...reading("10"), "route");

  assert.equal(due(within), "done");
  assert.deepEqual([below.state, below.stop.link], ["stopped", "other.html"]);
});

test("a reading that cannot be read is no reading", () => {
  assert.equal(due(after(...AS_FAR_AS_THE_READING, ...reading("1.2.3"))), "reading");
});

test("back from a failed check asks again", () => {
  assert.equal(due(after(...AS_FAR_AS_THE_READING, ...reading("1"), "back")), "reading");
});

test("a check with no way on stops", () => {
  const nodes = WAY.nodes.map(node => ({ ...node, fail: null }));

  const run = turn.act({ ...WAY, nodes }, after(...AS_FAR_AS_THE_LOOK, "no"), { do: "route" }, START + 999_000);

  assert.equal(run.state, "stopped");
});

test("looking back undoes nothing, and forward returns", () => {
  const looking = after("done", "read", "done", "back", "back");
  const returned = after("done", "read", "done", "back", "back", "forward", "forward");

  assert.deepEqual([looking.looking, looking.step, states(looking)], [0, "dry", ["O1 done", "O2 done"]]);
  assert.deepEqual([returned.looking, returned.step], [null, "dry"]);
});

test("a step that is taken back stands as not done until it is done again, and the work goes on where it was", () => {
  const taken = after("done", "read", "done", "back", "back", "again");
  const done = after("done", "read", "done", "back", "back", "again", "done");

  assert.deepEqual(states(taken), ["O1 undone", "O2 done"]);
  assert.deepEqual([done.step, states(done), done.path[0].earlier.length], ["dry", ["O1 done", "O2 done"], 1]);
});

test("after a stop the failed check can be done again, and leads on", () => {
  const run = after(...AS_FAR_AS_THE_READING, ...reading("1"), "route", "back", "again", ...reading("20"), "done");

  assert.deepEqual([run.state, run.step], ["working", "close-1"]);
});

test("a step left undone says why, and its screws are counted", () => {
  const run = after({ do: "leave", why: "No screws on this unit" });

  assert.deepEqual([run.step, states(run), tray.lying(run.path)], ["open-2", ["O1 undone"], []]);
  assert.equal(record.recordOf(brought(), run).steps[0].why, "No screws on this unit");
});

test("the board is in doubt where the step that should have changed it was left undone", () => {
  assert.deepEqual([...tray.doubts(after("done", "read", { do: "leave", why: "Stuck" }).path)], [["battery", ["O2"]]]);
});

test("closing is not finished while something is in the tray", () => {
  const left = [...AS_FAR_AS_THE_READING, ...reading("20"), "done", "done", { do: "leave", why: "Later" }];

  const stuck = after(...left);
  const home = after(...left, { do: "again", slot: 7 }, "done");

  assert.deepEqual([stuck.state, way.leftOut(WAY, stuck)], ["tray", [["T4 × 5 mm", 2]]]);
  assert.deepEqual([home.state, home.step, way.leftOut(WAY, home)], ["working", "prove-1", []]);
});

test("what may stay out does not keep closing open", () => {
  const stays = { ...WAY, stays: [["T4 × 5 mm", 2]] };
  const run = after(...AS_FAR_AS_THE_READING, ...reading("20"), "done", "done");

  assert.equal(turn.act(stays, run, { do: "leave", why: "Later" }, START).step, "prove-1");
});

test("the way ends after the last step", () => {
  const run = after(...AS_FAR_AS_THE_READING, ...reading("20"), "done", "done", "done", ...reading("0.8"), "done");

  assert.deepEqual([run.state, run.at, due(run)], ["ended", null, "ended"]);
});

test("each change is counted, and what is not due changes nothing", () => {
  assert.equal(after("done", "read").seq, 2);
  assert.equal(after("yes", "lift", "route", "counted").seq, 0);
});

test("no action changes the work that it was given", () => {
  const run = Object.freeze(fresh());

  turn.act(WAY, run, { do: "done" }, START);

  assert.deepEqual(run, fresh());
});

/** The way with a step put in after the one at `at`, as a new revision has it. */
const inserted = (at, step) => {
  const nodes = WAY.nodes.map(node => ({ ...node }));
  nodes.push({
    ...nodes[at],
    step,
    label: "W9",
    moves: [],
    danger: false,
    timer: null,
    check: null,
    next: nodes[at].next,
  });
  nodes[at].next = nodes.length - 1;
  return { ...WAY, nodes };
};
const revise = { do: "revise", revision: 5, digest: "bbbb2222" };

test("a new revision goes on after the last step that was done", () => {
  const run = turn.act(inserted(7, "wipe"), after("done", "read", "done"), revise, START);

  assert.deepEqual([run.step, run.revision, run.revisions.map(({ revision }) => revision)], ["dry", 5, [4, 5]]);
});

test("what is new right after the last step is due next", () => {
  assert.equal(turn.act(inserted(1, "wipe"), after("done", "read", "done"), revise, START).step, "wipe");
});

test("what is new before the last step stands as not done", () => {
  const run = turn.act(inserted(0, "wipe"), after("done", "read", "done"), revise, START);

  assert.deepEqual(states(run), ["O1 done", "W9 undone", "O2 done"]);
  assert.equal(run.path[1].why, "New in revision 5");
});

test("a step that the new revision no longer has stays in the record", () => {
  const nodes = WAY.nodes.map((node, at) => (at === 0 ? { ...node, step: "other" } : node));

  const run = turn.act({ ...WAY, nodes }, after("done", "read", "done"), revise, START);

  assert.deepEqual(
    run.path.map(({ step, node }) => [step, node]),
    [
      ["open-1", null],
      ["other", 0],
      ["open-2", 1],
    ],
  );
});
