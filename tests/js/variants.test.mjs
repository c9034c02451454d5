// The variant on the bench: what is put aside, what is said, what is remembered.
import assert from "node:assert/strict";
import { test } from "node:test";
import variants from "../../site_overrides/assets/variants.js";

const G1 = { id: "g1", title: "Godwit G1" };
const G2 = { id: "g2", title: "Godwit G2" };

test("what is marked for the chosen variant stays", () => {
  assert.equal(variants.isForOthers("g1 g2", G2), false);
});

test("what is marked for others only is put aside", () => {
  assert.equal(variants.isForOthers("g1", G2), true);
});

test("an id that only begins alike is another variant", () => {
  assert.equal(variants.isForOthers("g10", G1), true);
});

test("what is marked for none is for all", () => {
  assert.equal(variants.isForOthers(undefined, G2), false);
});

test("nothing is put aside while nothing is chosen", () => {
  assert.equal(variants.isForOthers("g1", null), false);
});

test("a remembered variant that the page does not have is not taken", () => {
  assert.equal(variants.readChoice("g3", [G1, G2]), null);
});

test("the page says how much is put aside", () => {
  assert.equal(variants.tell(G1, 2), "Showing Godwit G1. 2 entries for other variants put aside.");
});

test("the page says when nothing is put aside", () => {
  assert.equal(variants.tell(G1, 0), "Showing Godwit G1. Nothing is put aside.");
});

test("the choice is remembered for one device of one site", () => {
  const kept = [];

  variants.rememberChoice(() => ({ setItem: (...entry) => kept.push(entry) }), variants.keyOf("saltmarsh", "godwit"), G2);

  assert.deepEqual(kept, [["saltmarsh:variant:godwit", "g2"]]);
});

test("a browser that keeps nothing shows all", () => {
  const refusing = () => { throw new Error("refused by policy"); };

  assert.equal(variants.findChoice(refusing, "saltmarsh:variant:godwit", [G1, G2]), null);
});
