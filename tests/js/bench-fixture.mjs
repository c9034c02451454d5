// The way of the fixture page, and work on it that goes as far as a test needs.
import { readFileSync } from "node:fs";
import turn from "../../site_overrides/assets/bench-turn.js";
import work from "../../site_overrides/assets/bench-work.js";
import way from "../../site_overrides/assets/bench-way.js";

const page = readFileSync(new URL("../browser/fixtures/bench.html", import.meta.url), "utf8");

/** What the fixture page brings as data; a new copy each time. */
export const brought = () => JSON.parse(/id="bench-way">([\s\S]*?)<\/script>/u.exec(page)[1]);

export const WAY = work.unpack(brought())[0];
export const START = Date.UTC(2026, 10, 25, 10, 40);

export const HEAD = {
  id: "one",
  key: "fixture/heron/mend-port",
  variant: "a1",
  job: "4711",
  arrived: { liquid: "none" },
  revision: 4,
  digest: "aaaa1111",
};

export const fresh = () => ({ ...way.begin(WAY, HEAD, START), step: WAY.nodes[0].step });

/** Work after these actions, one second apart, or at the second that an action says. */
export const after = (...actions) => {
  let clock = START;
  return actions.reduce((run, action) => {
    const { at, ...bare } = typeof action === "string" ? { do: action } : action;
    clock = at === undefined ? clock + 1000 : START + at * 1000;
    return turn.act(WAY, run, bare, clock);
  }, fresh());
};

/** As far as the look: opened, isolated, dried, tinned. */
export const AS_FAR_AS_THE_LOOK = [
  "done",
  "read",
  "done",
  { do: "start", at: 10 },
  { do: "done", at: 140 },
  { do: "start", at: 150 },
  { do: "lift", at: 152.5 },
  { do: "start", at: 160 },
  { do: "lift", at: 164.5 },
  "done",
];
export const AS_FAR_AS_THE_READING = [...AS_FAR_AS_THE_LOOK, "yes"];
export const reading = typed => [{ do: "keep", typed }, { do: "judge" }];
