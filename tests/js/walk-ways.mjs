// Walks each way of each bench page of a built site: node walk-ways.mjs SITE. All checks pass; then each of them fails
// once; then each of them fails whenever it is met. Prints for each walk the page, the variant, which step failed and how
// often, how the work ended, and what lies out then.
import { readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import turn from "../../site_overrides/assets/bench-turn.js";
import way from "../../site_overrides/assets/bench-way.js";
import work from "../../site_overrides/assets/bench-work.js";

const FAR = 1000;

/** What the present moment asks for, done; a reading in the middle of its limits, or far outside where it is to fail. */
const deed = (due, node, fails) => {
  if (due === "answer") return { do: fails ? "no" : "yes" };
  if (due === "start") return { do: node.timer.kind === "wait" ? "start" : "untimed" };
  return { do: due === "wait" ? "early" : due };
};

const within = ({ low, high }) => (low === null ? high / 2 : high === null ? low * 1.5 + 0.1 : (low + high) / 2);
const outside = ({ low, high }) => (high === null ? low - Math.abs(low) - 1 : high + Math.abs(high) + 1);

const walk = (ways, brought, variant, failing, most) => {
  const own = ways[brought.variants[variant]];
  const head = { id: "1", key: "k", variant, job: "", arrived: {}, revision: 1, digest: "" };
  let run = way.begin(own, head, 0);
  let [clock, failed] = [0, 0];
  for (let acts = 0; acts < FAR && !["ended", "stopped", "tray"].includes(run.state); acts += 1) {
    clock += 1000;
    const node = way.nodeOf(own, run);
    const due = way.dueOf(own, run, clock);
    const fails = node?.step === failing && failed < most;
    if (fails && ["answer", "reading"].includes(due)) failed += 1;
    if (due === "reading") {
      const typed = String((fails ? outside : within)(node.check));
      run = turn.act(own, turn.act(own, run, { do: "keep", typed }, clock), { do: "judge" }, clock);
    } else {
      run = turn.act(own, run, deed(due, node, fails), clock);
    }
  }
  return { variant, failing, failed, state: run.state, left: way.leftOut(own, run), acts: run.seq };
};

const site = process.argv[2];
for (const device of readdirSync(join(site, "bench"))) {
  for (const file of readdirSync(join(site, "bench", device))) {
    const html = readFileSync(join(site, "bench", device, file), "utf8");
    const brought = JSON.parse(/id="bench-way">([\s\S]*?)<\/script>/u.exec(html)[1]);
    const ways = work.unpack(brought);
    for (const variant of Object.keys(brought.variants)) {
      const { nodes } = ways[brought.variants[variant]];
      const checked = new Set(nodes.flatMap(({ check, step }) => (check ? [step] : [])));
      for (const [failing, most] of [
        [null, 0],
        ...[...checked].flatMap(step => [
          [step, 1],
          [step, FAR],
        ]),
      ]) {
        console.log(JSON.stringify({ page: `${device}/${file}`, ...walk(ways, brought, variant, failing, most) }));
      }
    }
  }
}
