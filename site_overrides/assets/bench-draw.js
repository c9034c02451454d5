// @ts-check
"use strict";

/* The step on the screen: the one section of it, the state board beside it, the phases above it, the keys below it. */

/** @typedef {import("./bench-way.js").Way} Way */

/** @typedef {import("./bench-way.js").Run} Run */

/** @typedef {import("./bench-way.js").Node} Node */

/** @typedef {import("./bench-way.js").Due} Due */

/**
 * Everything that is drawn from.
 * @typedef {object} Shown
 * @property {Way} way
 * @property {Run} run
 * @property {Due} due
 * @property {Node | null} node the step that is shown
 * @property {number} clock
 * @property {string} saved how the record stands, in words
 */

{
  const own =
    typeof module === "undefined"
      ? /** @type {any} */ (window)
      : {
          benchleafClock: require("./bench-clock.js"),
          benchleafTray: require("./bench-tray.js"),
          benchleafJudge: require("./bench-judge.js"),
          benchleafRecord: require("./bench-record.js"),
        };
  /** @type {typeof import("./bench-clock.js")} */
  const { tellTime } = own.benchleafClock;
  /** @type {typeof import("./bench-tray.js")} */
  const { doubts, lying, tellItem } = own.benchleafTray;
  /** @type {typeof import("./bench-judge.js")} */
  const { tellReading } = own.benchleafJudge;
  /** @type {typeof import("./bench-record.js")} */
  const { undone } = own.benchleafRecord;

  const PHASES = ["O", "W", "C", "P"];
  /** @type {ReadonlySet<Due>} */
  const HELD = new Set(["read", "wait", "route"]);
  /** @type {{ [due in Due]?: string }} */
  const WORDS = {
    more: "More below",
    read: "Hold: danger read",
    start: "Start",
    lift: "Lift",
    pause: "Pause",
    wait: "Hold: cut the wait short",
    answer: "Yes",
    reading: "Reading",
    done: "Done",
    forward: "Forward",
    route: "Hold: take this way",
  };

  /**
   * The element that must be there, because the template puts it there.
   * @param {ParentNode} within
   * @param {string} selector
   */
  const get = (within, selector) => {
    const found = within.querySelector(selector);
    if (!(found instanceof HTMLElement)) throw new Error(`There is no ${selector} on this page`);
    return found;
  };

  const all = (/** @type {ParentNode} */ within, /** @type {string} */ selector) =>
    /** @type {HTMLElement[]} */ ([...within.querySelectorAll(selector)]);

  /**
   * A new element with text or elements in it.
   * @param {string} name
   * @param {...(string | globalThis.Node)} inside
   */
  const element = (name, ...inside) => {
    const made = document.createElement(name);
    made.append(...inside);
    return made;
  };

  /** Writes a text where it is another one, so that a screen reader is told of changes alone. */
  const write = (/** @type {HTMLElement | null} */ place, /** @type {string} */ text) => {
    if (place && place.textContent !== text) place.textContent = text;
  };

  /**
   * The section of a step, for a variant; what is for others in it is put aside.
   * @param {ParentNode} document
   * @param {string} step
   */
  const sectionOf = (document, step) => get(document, `[data-view="step"][data-step="${CSS.escape(step)}"]`);

  /** The instruction alone, without its number. */
  const sayOf = (/** @type {HTMLElement} */ section) => {
    const say = /** @type {HTMLElement} */ (get(section, ".say").cloneNode(true));
    for (const number of all(say, "b, [data-label]")) number.remove();
    return (say.textContent ?? "").trim().replace(/\s+/g, " ");
  };

  /**
   * Shows one view, and of the steps one.
   * @param {Document} document
   * @param {string} view
   * @param {HTMLElement | null} section
   */
  const showView = (document, view, section) => {
    document.documentElement.dataset.view = view;
    for (const other of all(document, "[data-view]")) {
      if (other !== document.documentElement)
        other.hidden = other.dataset.view !== view || (view === "step" && other !== section);
    }
  };

  const drawVariant = (/** @type {Document} */ document, /** @type {string} */ variant) => {
    for (const marked of all(document, "main [data-variant]:not([data-view])")) {
      marked.hidden = variant !== "" && !(marked.dataset.variant ?? "").split(/\s+/).includes(variant);
    }
  };

  const drawPhases = (/** @type {Document} */ document, /** @type {Shown} */ { way, run, node }) => {
    const present = node ? PHASES.indexOf(node.phase) : PHASES.length;
    for (const phase of all(document, "[data-phase]")) {
      const place = PHASES.indexOf(phase.dataset.phase ?? "");
      const steps = way.nodes.find(({ phase: its }) => its === phase.dataset.phase)?.in[1] ?? 0;
      const left = run.path.filter(entry => entry.phase === phase.dataset.phase && entry.state === "undone").length;
      const over = left > 0 ? `${left} not done` : "done";
      const count = place === present && node ? `${node.in[0]} of ${node.in[1]}` : place < present ? over : `${steps}`;
      write(phase.querySelector("[data-count]"), steps === 0 ? "none" : count);
      phase.toggleAttribute("data-done", place < present);
      if (place === present) phase.setAttribute("aria-current", "step");
      else phase.removeAttribute("aria-current");
    }
    write(document.querySelector("[data-place]"), node ? `step ${node.n} of ${node.of}` : "");
  };

  const line = (/** @type {HTMLElement | null} */ place, /** @type {string} */ value, small = "") => {
    const text = small ? `${value} ${small}` : value;
    if (place && place.textContent !== text)
      place.replaceChildren(value, ...(small ? [" ", element("small", small)] : []));
  };

  /**
   * The state of the device where the work stands, also while an earlier step is looked at. What hangs on a step that
   * is left undone is marked as planned only: the board may not say "isolated" of a battery that nobody unplugged.
   * @param {Document} document
   * @param {Shown} shown
   */
  const drawBoard = (document, { way, run, saved }) => {
    const present = run.at === null ? undefined : way.nodes[run.at];
    const [board, doubtful] = [present ? way.boards[present.board] : undefined, doubts(run.path)];
    const missing = undone(run);
    for (const [row, [value, small]] of Object.entries(board ?? {})) {
      const steps = doubtful.get(row);
      const place = /** @type {HTMLElement | null} */ (document.querySelector(`[data-board="${CSS.escape(row)}"]`));
      if (steps) line(place, "not known", `${steps.join(", ")} not done as written; planned: ${value}`);
      else if (row !== "tray" || missing.length === 0) line(place, value ?? "", small);
      else line(place, "as counted below", `${missing.join(", ")} not done`);
      place?.toggleAttribute("data-doubt", steps !== undefined);
    }
    line(
      document.querySelector('[data-board="record"]'),
      saved,
      missing.length > 0 ? `not done: ${missing.join(", ")}` : "",
    );
    const items = lying(run.path).map(item => element("li", tellItem(item)));
    const nothing = missing.length > 0 ? [element("li", "nothing")] : [];
    document.querySelector("[data-tray]")?.replaceChildren(...(items.length > 0 ? items : nothing));
  };

  /** Before work is begun nothing is known of a device, and no key does anything to it. */
  const drawIdle = (/** @type {Document} */ document, /** @type {string} */ saved) => {
    for (const place of all(document, "[data-board]")) line(place, "");
    line(document.querySelector('[data-board="record"]'), saved);
    document.querySelector("[data-tray]")?.replaceChildren();
    write(document.querySelector("[data-place]"), "");
    for (const phase of all(document, "[data-phase]")) {
      write(phase.querySelector("[data-count]"), "");
      phase.removeAttribute("data-done");
      phase.removeAttribute("aria-current");
    }
    for (const control of all(document, '.keys [data-do]:not([data-do="stop"])')) control.hidden = true;
  };

  /** What the present check says: the reading in words, or the answer. */
  const verdictOf = (/** @type {Shown} */ { run, node, due }) => {
    const draft = run.looking === null ? run.now : run.path[run.looking]?.draft;
    const said = draft?.reading
      ? tellReading(draft.reading)
      : draft?.answer === "no"
        ? "No."
        : draft?.answer === "yes"
          ? "Yes."
          : "";
    const way = node?.fail?.say ?? "No way on is written: stop, and show it to the senior technician.";
    return due === "route" ? `${said} ${way} Or Back one, and ${draft?.reading ? "read" : "look"} again.` : said;
  };

  /**
   * What stands in the step itself: its number, its check, and what was written there.
   * @param {HTMLElement} section
   * @param {Shown} shown
   * @param {boolean} isNew whether the fields are to be filled, or may hold what is just being typed
   */
  const drawStep = (section, shown, isNew) => {
    const { run, node, due } = shown;
    const entry = run.looking === null ? undefined : run.path[run.looking];
    const draft = entry?.draft ?? run.now;
    write(section.querySelector(".say b, .say [data-label]"), node?.label ?? entry?.label ?? "");
    for (const check of all(section, "[data-check]")) {
      check.toggleAttribute("data-failed", due === "route");
      const place = check.querySelector("[data-verdict]") ?? check.appendChild(element("p"));
      place.setAttribute("data-verdict", draft.reading?.verdict ?? draft.answer ?? "");
      place.setAttribute("role", "status");
      write(/** @type {HTMLElement} */ (place), verdictOf(shown));
      for (const control of /** @type {HTMLButtonElement[]} */ (all(check, "button, input")))
        control.disabled = entry !== undefined;
    }
    const was = section.querySelector("[data-was]") ?? section.appendChild(element("p"));
    was.setAttribute("data-was", "");
    const states = { done: "Done", undone: "Not done", failed: "Failed" };
    write(
      /** @type {HTMLElement} */ (was),
      entry ? `${states[entry.state]} ${tellTime(entry.at, shown.clock)}${entry.why ? `: ${entry.why}` : ""}` : "",
    );
    if (!isNew) return;
    const fields = { reading: draft.typed, note: draft.note, photo: draft.photos };
    for (const field of /** @type {HTMLInputElement[]} */ (all(section, "input, textarea"))) {
      field.value = fields[/** @type {keyof typeof fields} */ (field.name)] ?? "";
    }
  };

  /** The words of the large key, and whether it must be held. */
  const drawKeys = (
    /** @type {Document} */ document,
    /** @type {Shown} */ { run, due },
    /** @type {string} */ view,
  ) => {
    const done = /** @type {HTMLButtonElement} */ (get(document, '.keys [data-do="done"]'));
    const words = WORDS[due] ?? "";
    write(get(done, "[data-do-words]"), words);
    done.hidden = view !== "step";
    done.toggleAttribute("data-held", HELD.has(due));
    done.setAttribute("aria-disabled", String(due === "pause"));
    const again = /** @type {HTMLElement | null} */ (document.querySelector('.keys [data-do="again"]'));
    if (again) again.hidden = run.looking === null || view !== "step";
    /** @type {HTMLButtonElement} */ (get(document, '.keys [data-do="leave"]')).hidden =
      view !== "step" || run.looking !== null || run.state !== "working";
    const back = /** @type {HTMLButtonElement} */ (get(document, '.keys [data-do="back"]'));
    back.hidden = ["resume", "ask"].includes(view);
    back.disabled = run.path.length === 0 || run.looking === 0;
  };

  const benchleafDraw = {
    all,
    drawBoard,
    drawIdle,
    drawKeys,
    drawPhases,
    drawStep,
    drawVariant,
    element,
    get,
    sayOf,
    sectionOf,
    showView,
    write,
  };
  if (typeof module !== "undefined") module.exports = benchleafDraw;
  else Object.assign(window, { benchleafDraw });
}
