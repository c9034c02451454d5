// Small parts of the bench page: readings, clocks, keys, arrivals, the record, what the store offers.
import assert from "node:assert/strict";
import { test } from "node:test";
import arrive from "../../site_overrides/assets/bench-arrive.js";
import clock from "../../site_overrides/assets/bench-clock.js";
import judge from "../../site_overrides/assets/bench-judge.js";
import keys from "../../site_overrides/assets/bench-keys.js";
import more from "../../site_overrides/assets/bench-more.js";
import press from "../../site_overrides/assets/bench-press.js";
import record from "../../site_overrides/assets/bench-record.js";
import screen from "../../site_overrides/assets/bench-screen.js";
import store from "../../site_overrides/assets/bench-store.js";
import timer from "../../site_overrides/assets/bench-timer.js";
import tray from "../../site_overrides/assets/bench-tray.js";
import { AS_FAR_AS_THE_LOOK, after, brought, fresh } from "./bench-fixture.mjs";

for (const [typed, value] of [
  ["1,5", 1.5],
  ["1.5", 1.5],
  [" 3.7 V ", 3.7],
  ["3,7V", 3.7],
  ["−0,2", -0.2],
  [".5", 0.5],
  ["12", 12],
  ["1e-3", 0.001],
]) {
  test(`${JSON.stringify(typed)} is ${value}`, () => assert.deepEqual(judge.readNumber(typed, "V"), { value }));
}
for (const typed of ["", "abc", "1,234.5", "1.2.3", "3.7 A", "37 mV", "1 2", "V"]) {
  test(`${JSON.stringify(typed)} is no value in volts`, () => assert.equal(judge.readNumber(typed, "V"), null));
}

test("milliohm is not megaohm", () => {
  assert.equal(judge.readNumber("5 mΩ", "MΩ"), null);
  assert.deepEqual(judge.readNumber("5 MΩ", "MΩ"), { value: 5 });
});

test("what a meter shows as beyond its range lies above all", () => {
  assert.equal(judge.readReading("OL", { kind: "reading", unit: "kΩ", low: 10, high: null }).verdict, "within");
  assert.equal(judge.readReading("OL", { kind: "reading", unit: "Ω", low: null, high: 2 }).verdict, "above");
});

test("an end belongs to its limits, unless they are strict", () => {
  const check = { kind: "reading", unit: "V", low: 3, high: 4.2 };

  assert.deepEqual(
    [2.999, 3, 4.2, 4.201].map(value => judge.judge(value, check)),
    ["below", "within", "within", "above"],
  );
  assert.deepEqual(
    [3, 4.2].map(value => judge.judge(value, { ...check, strict: true })),
    ["below", "above"],
  );
});

const DWELL = { kind: "dwell", low: 2, high: 3, times: 2, apart: 4 };
const WAIT = { kind: "wait", low: 120, high: null, times: 1, apart: null };

test("a touch is too short, in its window, too long, and no rounding says otherwise", () => {
  const touch = ms => clock.read(DWELL, [{ from: 0, to: ms }], ms);

  assert.deepEqual(
    [1999, 2000, 3000, 3001].map(ms => touch(ms).fit),
    ["too short", "in window", "in window", "too long"],
  );
  assert.deepEqual(
    [1999, 2000, 3000, 3001].map(ms => touch(ms).shown),
    ["1.9 s", "2.0 s", "3.0 s", "3.1 s"],
  );
});

test("a wait shows a whole second until it is over", () => {
  const left = ms => clock.read(WAIT, [{ from: 0, to: null }], ms);

  assert.deepEqual([left(119_999).shown, left(119_999).state], ["0:01", "running"]);
  assert.deepEqual([left(120_000).shown, left(120_000).state], ["0:00", "over"]);
});

test("a clock that was put back takes nothing off a wait", () => {
  assert.equal(clock.read(WAIT, [{ from: 60_000, to: null }], 0).seconds, 120);
});

test("a page that slept through all marks tells the end, once", () => {
  assert.equal(clock.passed(120, -3000), 0);
  assert.equal(clock.passed(-1, -2), null);
  assert.deepEqual(timer.alarmOf(WAIT, { spans: [{ from: 0, to: null }] }, 1000, 9_999_000), {
    says: "The time is over.",
    rings: true,
  });
});

test("a minute and ten seconds before the end are told without a bell", () => {
  const draft = { spans: [{ from: 0, to: null }] };

  assert.deepEqual(timer.alarmOf(WAIT, draft, 59_900, 60_000), { says: "1:00 left.", rings: false });
  assert.equal(timer.alarmOf(WAIT, draft, 60_000, 60_200), null);
});

test("an end on another day says which", () => {
  const [now, then] = [new Date(2026, 10, 25, 20, 0, 0), new Date(2026, 10, 26, 8, 0, 0)];

  assert.equal(clock.tellTime(then.getTime(), now.getTime()), "Thu 26., 08:00:00");
});

test("pedals and keys go on, go back and stop", () => {
  const meanings = [
    "PageDown",
    "ArrowRight",
    "ArrowDown",
    " ",
    "Enter",
    "PageUp",
    "ArrowLeft",
    "ArrowUp",
    "Escape",
    "n",
  ];

  assert.deepEqual(
    meanings.map(key => keys.meaningOf(key, "none")),
    ["next", "next", "next", "next", "next", "back", "back", "back", "stop", null],
  );
});

test("a focused button keeps Space and Enter to itself, a pedal goes on all the same", () => {
  assert.deepEqual(
    [" ", "Enter", "PageDown"].map(key => keys.meaningOf(key, "control")),
    [null, null, "next"],
  );
});

test("in a field the keys that write are the field's", () => {
  assert.deepEqual(
    [" ", "ArrowLeft", "Enter", "PageDown"].map(key => keys.meaningOf(key, "line")),
    [null, null, "next", "next"],
  );
  assert.deepEqual(
    ["Enter", "PageDown", "Escape"].map(key => keys.meaningOf(key, "text")),
    [null, null, "stop"],
  );
});

test("a second press within 300 ms is none", () => {
  assert.deepEqual(
    [299, 300].map(at => keys.isCounted(at, 0)),
    [false, true],
  );
});

test("a danger, a failed check and a wait cut short are held; a look takes yes from a short press only", () => {
  const wish = due => press.wishOf("step", due);

  assert.deepEqual(
    ["read", "route", "wait"].map(due => wish(due).held),
    [true, true, true],
  );
  assert.deepEqual(wish("answer"), { act: "no", held: true, short: "yes" });
  assert.deepEqual(wish("done"), { act: "done", held: false });
  assert.equal(press.wishOf("end", "ended"), null);
});

test("a device that came otherwise is led to who takes it in", () => {
  const { arrival } = brought();

  assert.equal(arrive.receive(arrival, { variant: "a1", liquid: "none" }).fits, true);
  assert.deepEqual(
    arrive.receive(arrival, { variant: "a1", liquid: "water" }).instead.map(({ title }) => title),
    ["Dry a wet device"],
  );
  assert.deepEqual(arrive.receive(arrival, { liquid: "water", battery: "swollen" }).instead, []);
});

test("a revision that changed is told, and one with the same number whose steps did too", () => {
  const run = { revision: 4, digest: "a" };

  assert.equal(arrive.tellRevised(run, { revision: 4, digest: "a" }), "");
  assert.match(arrive.tellRevised(run, { revision: 5, digest: "b" }), /changed since/);
  assert.match(arrive.tellRevised(run, { revision: 4, digest: "b" }), /number is the same/);
});

test("what was never taken out cannot be brought back twice", () => {
  const step = (state, moves) => ({ state, moves, label: "", changes: [] });

  assert.deepEqual(tray.lying([step("undone", [["a", 2]]), step("done", [["a", -2]]), step("done", [["a", 1]])]), [
    ["a", 1],
  ]);
});

test("the record gives each step, what was read, timed and left out, and nothing that is empty", () => {
  const made = record.recordOf(
    brought(),
    after(...AS_FAR_AS_THE_LOOK, { do: "keep", note: " dull ", photos: "a.jpg, b.jpg" }, "no", "route"),
  );
  const [first] = made.steps;
  const last = made.steps.at(-1);

  assert.deepEqual(first, { step: "open-1", label: "O1", phase: "O", state: "done", when: "2026-11-25T10:40:01.000Z" });
  assert.deepEqual(made.steps[3].touches, [
    { seconds: 2.5, verdict: "in window" },
    { seconds: 4.5, verdict: "too long" },
  ]);
  assert.deepEqual([last.state, last.verdict, last.note, last.photos], ["failed", "no", "dull", ["a.jpg", "b.jpg"]]);
  assert.deepEqual(made.left_out, [{ what: "T4 × 5 mm", count: 2 }]);
  assert.equal("outcome" in made, false);
});

test("a cause that the page offers tells its symptom", () => {
  const made = record.recordOf(brought(), { ...fresh(), outcome: "cured", cause: "no-charge/corroded-port" });

  assert.deepEqual([made.symptom, made.cause], ["no-charge", "corroded-port"]);
});

test("a record's file name holds letters, figures and hyphens alone", () => {
  const named = { ...fresh(), job: "Nº 47/11" };

  assert.equal(record.fileOf(brought(), named), "record_heron_mend-port_n-47-11_2026-11-25t10-40.json");
});

test("what another window wrote is not ours to overwrite", () => {
  assert.deepEqual(
    [undefined, { seq: 3 }, { seq: 4 }, { seq: 5 }].map(stored => store.isForeign(stored, 4)),
    [false, false, false, true],
  );
});

test("work that is over is not offered, and what was laid away comes last", () => {
  const work = (id, saved, more) => ({ id, saved, ended: null, away: false, ...more });

  const ids = store.offered([work("a", 1), work("b", 9, { away: true }), work("c", 5), work("d", 7, { ended: 8 })]);

  assert.deepEqual(
    ids.map(({ id }) => id),
    ["c", "a", "b"],
  );
});

test("a browser that remembers nothing has the usual size", () => {
  const refusing = () => {
    throw new Error("refused by policy");
  };

  assert.equal(screen.readSize(screen.recall(refusing, "size")), "usual");
});

test("what lies below the edge is hidden, less than a line of small type is not", () => {
  assert.deepEqual([more.hidden([400, 916], 900), more.hidden([917], 900), more.hidden([], 900)], [0, 1, 0]);
  assert.deepEqual(press.wishOf("step", "more"), { act: "more", held: false });
});
