// A folded table stays a table for those who hear it.
import assert from "node:assert/strict";
import { test } from "node:test";
import tables from "../../site_overrides/assets/tables.js";

test("each element of a table has its role", () => {
  const roles = ["TABLE", "THEAD", "TBODY", "TR", "TD"].map(name => tables.readRole(name, false));

  assert.deepEqual(roles, ["table", "rowgroup", "rowgroup", "row", "cell"]);
});

test("a head stands for its row where it says so", () => {
  assert.equal(tables.readRole("TH", true), "rowheader");
});

test("any other head stands for its column", () => {
  assert.equal(tables.readRole("TH", false), "columnheader");
});
