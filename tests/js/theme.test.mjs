// Light or dark: what is remembered, and what happens where nothing can be.
import assert from "node:assert/strict";
import { test } from "node:test";
import theme from "../../site_overrides/assets/theme.js";

/** A store that keeps its entries in an object. */
const storeOf = entries => () => ({
  getItem: key => entries[key] ?? null,
  setItem: (key, value) => { entries[key] = value; },
  removeItem: key => { delete entries[key]; },
});
const refusing = () => { throw new Error("refused by policy"); };

test("a remembered choice of this site is found", () => {
  const found = theme.findScheme(storeOf({ "saltmarsh:scheme": "dark" }), "saltmarsh");

  assert.equal(found, "dark");
});

test("a choice of another site in the same folder of pages is not taken", () => {
  const found = theme.findScheme(storeOf({ "other:scheme": "dark" }), "saltmarsh");

  assert.equal(found, "system");
});

test("an unknown word means as the system has it", () => {
  assert.equal(theme.readScheme("sepia"), "system");
});

test("a browser that keeps nothing follows the system", () => {
  assert.equal(theme.findScheme(refusing, "saltmarsh"), "system");
});

test("a choice is remembered under the site's name", () => {
  const entries = {};

  theme.rememberScheme(storeOf(entries), "saltmarsh", "light");

  assert.deepEqual(entries, { "saltmarsh:scheme": "light" });
});

test("going back to the system forgets the choice", () => {
  const entries = { "saltmarsh:scheme": "light" };

  theme.rememberScheme(storeOf(entries), "saltmarsh", "system");

  assert.deepEqual(entries, {});
});

test("remembering where nothing may be kept does no harm", () => {
  assert.doesNotThrow(() => theme.rememberScheme(refusing, "saltmarsh", "dark"));
});
