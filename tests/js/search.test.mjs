// Search: what customers say, in haste and with slips, leads to the right entry. The index is written by the generator.
import assert from "node:assert/strict";
import { execFileSync } from "node:child_process";
import { existsSync, readFileSync } from "node:fs";
import { test } from "node:test";
import vm from "node:vm";
import books from "../../site_overrides/assets/search-book.js";
import finds from "../../site_overrides/assets/search-find.js";
import search from "../../site_overrides/assets/search.js";
import words from "../../site_overrides/assets/search-words.js";

const ROOT = new URL("../../", import.meta.url);
const OWN_PYTHON = new URL(".venv/bin/python", ROOT).pathname;
const PYTHON = process.env.PYTHON ?? (existsSync(OWN_PYTHON) ? OWN_PYTHON : "python3");

/** The index that the generator writes of these entries, or of a made-up shop of so many procedures. */
const indexOf = asked => {
  const env = { ...process.env, PYTHONPATH: "generator" };
  const options = { cwd: ROOT, env, input: JSON.stringify(asked), encoding: "utf8", maxBuffer: 1e8 };
  const page = { window: {} };
  vm.runInNewContext(execFileSync(PYTHON, ["-m", "tests.search.index_of"], options), page);
  return page.window.benchleafIndex;
};

const ENTRIES = JSON.parse(readFileSync(new URL("tests/search/entries.json", ROOT), "utf8"));
const INDEX = indexOf(ENTRIES);
const BOOK = books.openBook(INDEX, words.createWords);
const FOLD = words.createWords(INDEX.tables);

const find = (text, most = 5) => finds.find(BOOK, text, most);
const first = text => find(text).results[0]?.entry.href;
const firstThree = text => find(text, 3).results.map(({ entry }) => entry.title);

/** Each of these finds that entry first. */
const leads = (href, texts) => {
  for (const text of texts) test(`"${text}" leads to ${href}`, () => assert.equal(first(text), href));
};

leads("symptoms/no-charge.html", [
  "wont chrage",
  "won't charge",
  "won’t charge",
  "not charging",
  "charging not",
  "no charge",
  "does not charge",
  "it doesnt charge",
  "unable to charge",
  "CANNOT CHARGE!",
  "batery stays emtpy",
]);
leads("symptoms/no-sound.html", ["no sound", "no sounds", "cannot hear alarm", "dunlin no sound"]);
leads("symptoms/crackle.html", ["sound", "crackling sound"]);
leads("symptoms/swollen.html", ["battery swolen", "batteries swollen", "swelling battery", "gowdit battery swollen"]);
leads("symptoms/colours.html", ["wrong color", "wrong colour", "colours wrong"]);
leads("symptoms/no-data.html", ["usb not recognized", "usb not recognised"]);
leads("symptoms/touch.html", ["touch screen dead", "touchscreen dead"]);
leads("symptoms/dark.html", ["lbank screen", "blank scre"]);
leads("symptoms/dark.html", ["lcd blank", "monitor is black", "lcd blnk"]);
leads("repairs/godwit/replace-battery.html", ["swap accumulator godwit", "g1 battery swap"]);
leads("repairs/godwit/replace-battery.html", ["replace battery godwit", "godwit replace the battery"]);
leads("repairs/whimbrel/replace-battery.html", ["replace battery whimbrel", "replace battery whim"]);
leads("repairs/godwit/clean-charge-port.html", ["retin charge port", "re-tin charge port"]);
leads("repairs/dunlin/calibrate.html", ["calibration", "94 dB"]);
leads("materials/isopropanol.html", ["isoproponal", "ipa"]);

test("of 168 labelled questions, 95 in 100 or more find their answer among the first three", context => {
  const labelled = JSON.parse(readFileSync(new URL("tests/search/queries.json", ROOT), "utf8"));
  const missed = labelled.filter(([text, href]) => !find(text, 3).results.some(({ entry }) => entry.href === href));
  context.diagnostic(`missed ${missed.length} of ${labelled.length}: ${missed.map(([text]) => text).join(", ")}`);

  assert.deepEqual([labelled.length, missed.length <= labelled.length * 0.05], [168, true]);
});

test("each letter more of a word still finds it", () => {
  const typed = [..."overheating"].map((_, place) => "overheating".slice(0, place + 1)).slice(3);

  assert.deepEqual(typed.map(first), typed.map(() => "symptoms/hot.html"));
});

test("a complaint goes before the procedures that answer it", () => {
  const kinds = find("wont charge").results.map(({ entry }) => entry.kind);

  assert.deepEqual([kinds[0], kinds.includes("procedure")], ["symptom", true]);
});

test("the sheet of a named device goes before the symptom of all, and after it where none is named", () => {
  const kinds = text => find(text, 9).results.map(({ entry }) => entry.kind).filter(kind => /sheet|symptom/.test(kind));

  assert.deepEqual([kinds("godwit wont charge")[0], kinds("wont charge")[0]], ["sheet", "symptom"]);
});

test("a named device's entries go before another device's", () => {
  const devices = find("whimbrel battery", 9).results.map(({ entry }) => entry.device).filter(Boolean);

  assert.equal(devices[0], "Whimbrel tablet");
});

test("a word of a device's kind does not name the device", () => {
  assert.equal(firstThree("sound")[0], "Sound crackles");
});

test("never in a step denies nothing that a customer says", () => {
  const denied = BOOK.places(books.findKin(BOOK, "no")).entries.map(place => BOOK.entries[place].href);

  assert.deepEqual(
    ["symptoms/no-charge.html", "repairs/godwit/replace-battery.html"].map(href => denied.includes(href)),
    [true, false],
  );
});

test("the customers' words that fit best are shown, with what fits marked", () => {
  const found = find("wont chrage");
  const [{ phrase }] = found.results;

  assert.deepEqual(found.marked(phrase), [
    { text: "won't", isMarked: true },
    { text: " ", isMarked: false },
    { text: "charge", isMarked: true },
  ]);
});

test("what the results show comes through the index unchanged", () => {
  const { entry, answers } = find("wont charge").results[0];

  assert.deepEqual({ ...entry, answers }, {
    kind: "symptom",
    title: "Does not charge",
    href: "symptoms/no-charge.html",
    device: "",
    note: "",
    says: ["won't charge", "battery stays empty", "dead after a night on the cable"],
    answers: [
      {
        kind: "procedure",
        title: "Clean and re-tin a corroded charge port",
        href: "repairs/godwit/clean-charge-port.html",
        device: "Godwit field logger",
        note: "",
        says: [],
        answers: [],
      },
      {
        kind: "procedure",
        title: "Replace the charge socket",
        href: "repairs/whimbrel/replace-charge-socket.html",
        device: "Whimbrel tablet",
        note: "",
        says: [],
        answers: [],
      },
    ],
  });
});

test("every entry comes through the index", () => {
  const titles = entries => entries.map(({ href, title, device = "" }) => `${href} ${title} ${device}`).toSorted();

  assert.deepEqual(titles(BOOK.entries), titles(ENTRIES));
});

test("another word for a thing is marked as the thing", () => {
  const found = find("lcd blank");

  assert.deepEqual(found.marked("Display").map(piece => piece.isMarked), [true]);
});

test("a word before the sign stands for one behind it, and not the other way round", () => {
  const kin = word => books.findKin(BOOK, FOLD.stem(word));

  assert.deepEqual(
    [["lcd", "display"], ["display", "lcd"], ["puddle", "water"], ["water", "puddle"]].map(([one, other]) =>
      BOOK.alike(kin(one)).has(kin(other)),
    ),
    [true, true, true, false],
  );
});

test("a filler word weighs less than a word of the trade", () => {
  assert.equal(first("it always makes problems, the screen goes blank"), "symptoms/dark.html");
});

test("words that lead nowhere find nothing", () => {
  assert.equal(find("zzqqxx").count, 0);
});

test("no words find nothing", () => {
  assert.deepEqual(["", "  ", "?!", "'"].map(text => find(text).count), [0, 0, 0, 0]);
});

test("no and not are one word, and not is not note", () => {
  assert.deepEqual(["no", "not", "wont", "doesnt", "note", "noted", "knot"].map(FOLD.stem), [
    "no", "no", "no", "no", "note", "note", "knot",
  ]);
});

test("the browser folds each word of the vocabulary as the generator did", () => {
  const kinOf = word => BOOK.kinOf[books.placeOf(BOOK.vocabulary, word)];
  const strange = BOOK.vocabulary.filter(word => kinOf(word) !== kinOf(FOLD.stem(word)));

  assert.deepEqual(strange, []);
});

test("a letter more, less, wrong or changed round is one slip", () => {
  const typed = ["charge", "chargee", "chrge", "cherge", "chrage", "hcarge", "chrag"];

  assert.deepEqual(typed.map(word => words.slips(word, "charge", 2)), [0, 1, 1, 1, 1, 1, 2]);
});

test("more slips than are asked for are not counted out", () => {
  assert.equal(words.slips("battery", "display", 2), 3);
});

test("an accent, an apostrophe and a unit's sign are no hindrance", () => {
  assert.deepEqual(FOLD.tokens("Won’t fit: naïve, 4,7 kΩ, 10µF at 350 °C"), [
    "wont", "fit", "naive", "4.7", "kohm", "10", "uf", "at", "350", "c",
  ]);
});

test("the arrows go round", () => {
  const moves = [["ArrowDown", 0], ["ArrowDown", 2], ["ArrowUp", 0], ["Enter", 0]];

  assert.deepEqual(moves.map(([key, current]) => search.nextCurrent(key, current, 3)), [1, 0, 2, null]);
});

test("what was asked goes into the address and comes back", () => {
  const asked = "won't charge & 50 % + more";

  assert.equal(search.readHash(search.hashOf(asked)), asked);
});

test("an address that asks nothing, or is damaged, asks nothing", () => {
  assert.deepEqual(["", "#sheet", "#q=%E0%A4%A"].map(search.readHash), [null, null, null]);
});

test("the count says how many are not shown", () => {
  assert.deepEqual([[0, 0], [12, 12], [312, 20]].map(([count, shown]) => search.tellCount(count, shown)), [
    "Nothing found", "12 found", "312 found, the best 20 shown",
  ]);
});

test("a shop of 3,000 procedures answers with what was asked", context => {
  const book = books.openBook(indexOf(3000), words.createWords);
  const asked = ["wont chrage", "no sound", "scren blank", "battery swolen"];
  for (const text of asked) finds.find(book, text, 20);
  const before = process.cpuUsage();
  const titles = asked.map(text => finds.find(book, text, 20).results[0]?.entry.title);
  context.diagnostic(`${process.cpuUsage(before).user / 1000 / asked.length} ms a query`);

  assert.deepEqual(titles, ["Does not charge", "No sound", "Display stays dark", "Battery is swollen"]);
});
