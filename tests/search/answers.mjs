// What the search of a built site answers, by the very scripts that its pages load.
//
//     node answers.mjs SITE    with a list of texts as JSON on standard input
//
// Writes, for each text, the ways that its first rows lead, the best first, as JSON.
import { readFileSync } from "node:fs";
import { createRequire } from "node:module";
import { join, resolve } from "node:path";
import process from "node:process";
import vm from "node:vm";

const ROWS = 20;

const assets = join(resolve(process.argv[2]), "assets");
const load = name => createRequire(import.meta.url)(join(assets, `search-${name}.js`));
const page = { window: {} };
vm.runInNewContext(readFileSync(join(assets, "search-index.js"), "utf8"), page);

const book = load("book").openBook(page.window.benchleafIndex, load("words").createWords);
const asked = JSON.parse(readFileSync(0, "utf8"));
const answered = asked.map(text => load("find").find(book, text, ROWS).results.map(({ entry }) => entry.href));
process.stdout.write(JSON.stringify(answered));
