// @ts-check
"use strict";

/* Before the first step: how the device came, who takes it in so, and work that was begun and is taken up again. */

/** @typedef {import("./bench-way.js").Run} Run */

/** @typedef {{ title: string, link: string, variants: string[] | null } & { [asked: string]: any }} Cover */

/** @typedef {{ own: Cover, others: Cover[] }} Arrival */

/** @typedef {{ [asked: string]: string }} Answers */

{
  const own =
    typeof module === "undefined"
      ? /** @type {any} */ (window)
      : { benchleafClock: require("./bench-clock.js"), benchleafDraw: require("./bench-draw.js") };
  /** @type {typeof import("./bench-clock.js")} */
  const { tellTime } = own.benchleafClock;
  /** @type {typeof import("./bench-draw.js")} */
  const { all, element, get, write } = own.benchleafDraw;

  const ASKED = ["liquid", "battery", "glass"];
  const NOBODY =
    "No procedure of ours takes in a device that came so. Leave it closed and show it to the senior technician.";
  const OTHER = "This procedure does not take in a device that came so. Take instead:";

  /**
   * Whether a procedure takes in a device of which so much is known. What was not asked does not matter.
   * @param {Cover} cover
   * @param {Answers} answers
   */
  const covers = (cover, answers) =>
    (cover.variants === null || !answers.variant || cover.variants.includes(answers.variant)) &&
    ASKED.every(asked => !answers[asked] || !cover[asked] || cover[asked].includes(answers[asked]));

  /**
   * Who takes the device in: this procedure, or others, or nobody.
   * @param {Arrival} arrival
   * @param {Answers} answers
   * @returns {{ fits: boolean, says: string, instead: Cover[] }}
   */
  const receive = (arrival, answers) => {
    if (covers(arrival.own, answers)) return { fits: true, says: "", instead: [] };
    const instead = arrival.others.filter(other => covers(other, answers));
    return { fits: false, says: instead.length > 0 ? OTHER : NOBODY, instead };
  };

  /**
   * What was answered in the form, and whether a question is still open.
   * @param {HTMLElement} form
   */
  const readAnswers = form => {
    const radios = /** @type {HTMLInputElement[]} */ (all(form, "input[type=radio]"));
    const answers = /** @type {Answers} */ ({});
    for (const radio of radios) if (radio.checked) answers[radio.name] = radio.value;
    const open = radios.find(radio => !(radio.name in answers));
    const job = /** @type {HTMLInputElement | null} */ (form.querySelector("[name=job]"))?.value ?? "";
    return { answers, open, job };
  };

  /**
   * Says who takes the device in; nothing begins while this procedure does not.
   * @param {HTMLElement} view
   * @param {Arrival} arrival
   */
  const drawArrival = (view, arrival) => {
    const { fits, says, instead } = receive(arrival, readAnswers(view).answers);
    write(get(view, "[data-arrives]"), says);
    const links = instead.map(({ title, link }) => {
      const anchor = /** @type {HTMLAnchorElement} */ (element("a", title));
      anchor.href = link;
      return element("li", anchor);
    });
    get(view, "[data-instead]").replaceChildren(...links);
    /** @type {HTMLButtonElement} */ (get(view, '[data-do="begin"]')).disabled = !fits;
    return fits;
  };

  /** The work that was begun, in one line: which device, how far, when. */
  const tellRun = (/** @type {Run} */ run, /** @type {number} */ clock) => {
    const last = run.path.filter(({ state }) => state === "done").at(-1);
    const far = last ? `done as far as ${last.label}` : "no step done yet";
    const which = [run.variant, run.job].filter(Boolean).join(", ");
    return `${which ? `${which}: ` : ""}${far}, saved ${tellTime(run.saved, clock)}`;
  };

  const button = (/** @type {string} */ text, /** @type {() => void} */ press) => {
    const made = /** @type {HTMLButtonElement} */ (element("button", text));
    made.type = "button";
    made.addEventListener("click", press);
    return made;
  };

  /**
   * The work that can be taken up, the latest first.
   * @param {HTMLElement} place
   * @param {readonly Run[]} runs
   * @param {{ take: (run: Run) => void, lay: (run: Run) => void }} hands
   * @param {number} clock
   */
  const drawRuns = (place, runs, hands, clock) => {
    const rows = runs.map(run => {
      const keys = element(
        "div",
        button("Take up", () => hands.take(run)),
      );
      if (!run.away) keys.append(button("Lay away", () => hands.lay(run)));
      keys.className = "answers";
      const row = element("div", element("p", `${tellRun(run, clock)}${run.away ? " (laid away)" : ""}`), keys);
      row.className = "work";
      return row;
    });
    place.replaceChildren(...(rows.length > 0 ? [element("h2", "Begun and not finished"), ...rows] : []));
  };

  const NUMBERED = "Read its steps anew; what is new stands as not done.";
  const STILL = "Its number is the same; its steps, texts or numbers are not.";

  /**
   * What is said of a revision that changed since the work was begun, or nothing.
   * @param {Pick<Run, "revision" | "digest">} run
   * @param {{ revision: number, digest: string }} page
   */
  const tellRevised = (run, page) => {
    if (run.revision === page.revision && run.digest === page.digest) return "";
    const what = run.revision === page.revision ? `${STILL} ${NUMBERED}` : NUMBERED;
    return `The procedure has changed since this work was begun. ${what} Nothing that was recorded is lost.`;
  };

  /**
   * The words of a key, which has to be held where there are words for that.
   * @param {HTMLElement} key
   * @param {string} plain
   * @param {string} held
   */
  const label = (key, plain, held) => {
    key.toggleAttribute("data-held", held !== "");
    write(key, held || plain);
    // The bar of the hold; writing the words has taken it away.
    if (held && !key.querySelector(".held")) key.append(Object.assign(element("i"), { className: "held" }));
  };

  /**
   * After an interruption: the last step that was saved as done is shown and is to be confirmed; nothing jumps on.
   * @param {HTMLElement} view
   * @param {Run} run
   * @param {{ revision: number, digest: string }} page
   * @param {string} say the instruction of the last step, as the page has it
   */
  const drawResume = (view, run, page, say) => {
    const last = run.path.filter(({ state }) => state !== "undone").at(-1);
    const how = last?.state === "failed" ? "Its check failed" : "Done";
    const told = last ? `${last.label} ${say} ${how}, ${tellTime(last.at, run.saved)}.` : "";
    write(
      get(view, "[data-last]"),
      told ? `${told} Look at the device: is it so?` : "Begun, and no step was done yet.",
    );
    const revised = tellRevised(run, page);
    const place = get(view, "[data-revised]");
    place.hidden = revised === "";
    write(get(view, "[data-revised-what]"), revised);
    const head = element("tr", element("td", ""), element("th", "Begun with"), element("th", "Now"));
    const numbers = element(
      "tr",
      element("th", "Revision"),
      element("td", `${run.revision}`),
      element("td", `${page.revision}`),
    );
    for (const cell of all(head, "th")) cell.setAttribute("scope", "col");
    numbers.firstElementChild?.setAttribute("scope", "row");
    get(view, "[data-revised-numbers]").replaceChildren(element("thead", head), element("tbody", numbers));
    label(
      get(view, '[data-do="resume"]'),
      "Yes, that is so: go on",
      revised ? `Hold: go on with revision ${page.revision}` : "",
    );
    label(get(view, '[data-do="again"]'), "No: do that step again", revised ? "Hold: do that step again" : "");
    return revised !== "";
  };

  const benchleafArrive = {
    button,
    covers,
    drawArrival,
    drawResume,
    drawRuns,
    readAnswers,
    receive,
    tellRevised,
    tellRun,
  };
  if (typeof module !== "undefined") module.exports = benchleafArrive;
  else Object.assign(window, { benchleafArrive });
}
