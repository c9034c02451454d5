// What the fault isolation sheet says in words, and how it keeps what was filled in. Its numbers are compared with Python.
import assert from "node:assert/strict";
import { test } from "node:test";
import words from "../../site_overrides/assets/isolation-words.js";

const USUAL = { liquid: "none", battery: "sound" };
const everything = () => true;

test("what was filled in is kept in the address, in its order", () => {
  const state = {
    done: [{ kind: "test", id: "rail", outcome: "low" }, { kind: "cure", id: "clean", outcome: "in-vain" }],
    arrived: { liquid: "water", battery: "sound" },
  };

  const hash = words.hashOf(state, USUAL);

  assert.equal(hash, "#is=arrived.liquid.water,test.rail.low,cure.clean.in-vain");
  assert.deepEqual(words.readHash(hash, USUAL, everything), state);
});

test("nothing filled in leaves the address alone", () => {
  assert.equal(words.hashOf({ done: [], arrived: USUAL }, USUAL), "");
});

test("what a revision has dropped is not taken from an address", () => {
  const knows = (kind, id) => id !== "gone";

  const state = words.readHash("#is=test.gone.low,test.rail.low,arrived.gone.wet", USUAL, knows);

  assert.deepEqual(state, { done: [{ kind: "test", id: "rail", outcome: "low" }], arrived: USUAL });
});

test("a test done twice in an address counts once", () => {
  const { done } = words.readHash("#is=test.rail.low,test.rail.high", USUAL, everything);

  assert.deepEqual(done, [{ kind: "test", id: "rail", outcome: "low" }]);
});

test("a test is barred by one way of arriving alone", () => {
  const wet = { unless: { liquid: ["water"], battery: ["swollen"] } };

  assert.equal(words.isBarred(wet, { liquid: "water", battery: "sound" }), true);
  assert.equal(words.isBarred(wet, USUAL), false);
});

test("what is neither nothing nor all is never called so", () => {
  assert.deepEqual([0, 0.001, 0.5, 0.999, 1].map(words.percent), ["0 %", "< 1 %", "50 %", "> 99 %", "100 %"]);
});

test("outcomes that no cause shows together are said to be so", () => {
  assert.match(words.tell(null, "–"), /read the rows again/);
});
