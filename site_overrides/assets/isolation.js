// @ts-check
"use strict";

/*
 * The fault isolation sheet, filled in: an outcome that is pressed re-ranks the causes and marks the cheapest row next.
 * All rows stay in view and can be changed. Without script the page is whole: these buttons are all that is added.
 */

/** @typedef {typeof import("./isolation-words.js")} Words */

/** @typedef {import("./isolation-words.js").Data} Data */

/** @typedef {import("./isolation-words.js").State} State */

/** @typedef {import("./isolation-words.js").Answer} Answer */

/** @typedef {{ kind: string, id: string, element: HTMLElement, outs: Map<string, HTMLButtonElement>, back: HTMLButtonElement | null }} Row */

{
  /** @type {Words} */
  const words = Reflect.get(window, "benchleafIsolation");

  /** @type {(within: ParentNode, selector: string) => HTMLElement[]} */
  const findAll = (within, selector) => /** @type {HTMLElement[]} */ ([...within.querySelectorAll(selector)]);

  /** @type {(text: string, press: () => void) => HTMLButtonElement} */
  const createButton = (text, press) => {
    const button = document.createElement("button");
    button.type = "button";
    button.textContent = text;
    button.addEventListener("click", press);
    return button;
  };

  /** The row's buttons that keys can reach. @param {Row} row */
  const reachable = row =>
    [...row.outs.values(), ...(row.back ? [row.back] : [])].filter(button => !button.disabled && !button.closest("[hidden]"));

  /**
   * Where a key leads from one button of the rows, or null where it is no business of ours.
   * @param {Row[]} rows those that are shown
   * @param {Row} row
   * @param {HTMLButtonElement} from
   * @param {string} key
   */
  const nextButton = (rows, row, from, key) => {
    const own = reachable(row);
    const at = own.indexOf(from);
    if (key === "ArrowRight") return own[(at + 1) % own.length] ?? null;
    if (key === "ArrowLeft") return own[(at - 1 + own.length) % own.length] ?? null;
    if (key === "Home") return own[0] ?? null;
    if (key === "End") return own.at(-1) ?? null;
    if (key !== "ArrowDown" && key !== "ArrowUp") return null;
    const others = rows.filter(one => one === row || reachable(one).length);
    const other = others[others.indexOf(row) + (key === "ArrowDown" ? 1 : -1)];
    return other ? (reachable(other).find(button => button.tabIndex === 0) ?? reachable(other)[0] ?? null) : null;
  };

  /**
   * Draws a share where another one stood.
   * @param {HTMLElement} row
   * @param {Answer["causes"][number]} cause
   * @param {string} was
   */
  const drawShare = (row, cause, was) => {
    const text = row.querySelector(".share > span");
    if (text) text.textContent = cause.text;
    row.querySelector(".bar-part")?.setAttribute("width", cause.width.toFixed(1));
    const [low, high] = [cause.low.toFixed(1), cause.high.toFixed(1)];
    row.querySelector(".bar-ends")?.setAttribute("d", `M${low} 1V7M${low} 4H${high}M${high} 1V7`);
    const range = row.querySelector("td > small");
    if (range) range.textContent = cause.range;
    const before = row.querySelector("[data-was]");
    if (before) before.textContent = was;
  };

  /**
   * Puts rows in their new order, and gives back the focus that moving takes away.
   * @param {Element} body
   * @param {Element[]} rows
   */
  const reorder = (body, rows) => {
    const focused = document.activeElement;
    const moved = rows.some((row, at) => body.children[at] !== row);
    if (moved) body.append(...rows);
    if (moved && focused instanceof HTMLElement && body.contains(focused)) focused.focus({ preventScroll: true });
  };

  /** @param {HTMLElement} root */
  const mount = root => {
    /** @type {Data} */
    const data = JSON.parse(root.dataset.isolation ?? "{}");
    const groups = findAll(root, "[data-group]");
    const told = /** @type {HTMLElement} */ (root.querySelector("[data-answer]"));
    /** @type {Map<string, string>} */
    const first = new Map();
    /** @type {Map<string, HTMLButtonElement[]>} */
    const tried = new Map();
    /** @type {Row[]} */
    const rows = [];
    /** @type {State} */
    let state = { done: [], arrived: { ...data.arrived } };

    const outcomeOf = (/** @type {Row} */ row) =>
      row.kind === "arrived"
        ? state.arrived[row.id]
        : state.done.find(one => one.kind === row.kind && one.id === row.id)?.outcome;

    const put = (/** @type {string} */ kind, /** @type {string} */ id, /** @type {string | null} */ outcome) => {
      if (kind === "arrived") state.arrived[id] = outcome ?? data.arrived[id] ?? "";
      else {
        // What was done last is where the device is now, also where a row is changed.
        state.done = state.done.filter(one => one.kind !== kind || one.id !== id);
        if (outcome !== null) state.done.push({ kind, id, outcome });
      }
      history.replaceState(null, "", words.hashOf(state, data.arrived) || location.pathname + location.search);
      show();
    };

    /** @param {Row} row */
    const showRow = row => {
      const outcome = outcomeOf(row);
      const test = row.kind === "test" ? data.tests.find(one => one.id === row.id) : undefined;
      const barred = test !== undefined && words.isBarred(test, state.arrived);
      row.element.classList.toggle("barred", barred);
      for (const [id, button] of row.outs) {
        button.setAttribute("aria-pressed", String(id === outcome));
        button.disabled = barred && id !== outcome;
      }
      if (row.back) /** @type {HTMLElement} */ (row.back.parentElement).hidden = outcome === undefined;
      const own = reachable(row);
      const kept = own.find(button => button === document.activeElement) ??
        own.find(button => button.getAttribute("aria-pressed") === "true") ?? own[0];
      for (const button of [...row.outs.values(), ...(row.back ? [row.back] : [])]) button.tabIndex = button === kept ? 0 : -1;
    };

    /**
     * @param {HTMLElement} section
     * @param {Answer | null} found
     */
    const showGroup = (section, found) => {
      const body = /** @type {HTMLElement} */ (section.querySelector("[data-actions]"));
      const own = new Map(findAll(body, "[data-action]").map(row => [row.dataset.action ?? "", row]));
      const rowsNow = found ? found.rows : [];
      for (const row of own.values()) {
        row.classList.remove("here");
        row.classList.add("spent");
        for (const mark of findAll(row, "[data-next]")) mark.hidden = true;
        for (const cell of findAll(row, "[data-cost], [data-works], [data-minutes]")) cell.textContent = "–";
      }
      const inOrder = rowsNow.flatMap((one, rank) => {
        const row = own.get(one.id ? `${one.kind} ${one.id}` : one.kind);
        if (!row) return [];
        const write = (/** @type {string} */ name, /** @type {string} */ text) => {
          const cell = row.querySelector(`[data-${name}]`);
          if (cell) cell.textContent = text;
        };
        write("cost", one.cost);
        write("minutes", one.minutes);
        write("works", one.works);
        row.classList.remove("spent");
        row.classList.toggle("here", rank === 0);
        for (const mark of findAll(row, "[data-next]")) mark.hidden = rank !== 0;
        return [row];
      });
      reorder(body, [...inOrder, ...[...own.values()].filter(row => !inOrder.includes(row))]);
      const [heading, because] = ["[data-first]", "[data-reason]"].map(name => section.querySelector(name));
      if (heading) heading.textContent = rowsNow[0]?.title ?? "";
      if (because) because.textContent = found ? found.reason : words.tell(null, "");
    };

    /** @param {Answer | null} found */
    const showCauses = found => {
      const body = root.querySelector("[data-causes]");
      if (!body || !found) return;
      const own = new Map(findAll(body, "[data-cause]").map(row => [row.dataset.cause ?? "", row]));
      const changed = state.done.length > 0;
      const inOrder = found.causes.flatMap(cause => {
        const row = own.get(cause.id);
        if (!row) return [];
        drawShare(row, cause, changed ? `before: ${first.get(cause.id) ?? ""}` : "");
        return [row];
      });
      reorder(body, inOrder);
    };

    /**
     * @param {Answer | null} found
     * @param {HTMLElement | undefined} section
     */
    const tellAnswer = (found, section) => {
      const next = found?.rows[0];
      const row = next && section?.querySelector(`[data-action="${next.id ? `${next.kind} ${next.id}` : next.kind}"]`);
      const [before = "", after] = words.tell(found, row?.querySelector('[data-label="Parts"]')?.textContent ?? "–").split("|");
      const link = row?.querySelector("th a")?.cloneNode(true) ?? next?.title ?? "";
      const unsafe = state.arrived.battery === "swollen" ? "Make the battery safe before anything else. " : "";
      told.replaceChildren(unsafe, before, ...(after === undefined ? [] : [link, after]));
      told.hidden = state.done.length === 0 && words.hashOf(state, data.arrived) === "";
    };

    const tellSeveral = () => {
      const settled = (/** @type {string} */ outcome) =>
        data.causes.filter(({ id }) => state.done.some(one => one.kind === "cause" && one.id === id && one.outcome === outcome));
      const [found, out] = [settled("found"), settled("ruled-out")];
      const open = data.causes.filter(cause => !found.includes(cause) && !out.includes(cause));
      const list = (/** @type {{ title: string }[]} */ causes) => causes.map(({ title }) => title).join(", ") || "none";
      told.replaceChildren(`Found: ${list(found)}. Ruled out: ${list(out)}. Still open: ${list(open)}.`);
      told.hidden = state.done.length === 0;
    };

    const show = () => {
      rows.forEach(showRow);
      for (const [id, buttons] of tried) {
        const done = state.done.some(one => one.kind === "cure" && one.id === id);
        for (const button of buttons) button.setAttribute("aria-pressed", String(done));
      }
      if (data.several) return tellSeveral();
      if (!data.groups.length) return;
      const answers = data.groups.map(group => words.answer(data, group, state));
      for (const section of groups) showGroup(section, answers[Number(section.dataset.group)] ?? null);
      const shown = groups.find(section => !section.hidden) ?? groups[0];
      const found = answers[Number(shown?.dataset.group ?? 0)] ?? null;
      const next = found?.rows[0];
      for (const row of rows.filter(({ kind }) => kind === "test")) {
        const here = next?.kind === "test" && next.id === row.id;
        row.element.classList.toggle("here", here);
        for (const mark of findAll(row.element, "[data-next]")) mark.hidden = !here;
      }
      showCauses(found);
      tellAnswer(found, shown);
    };

    for (const element of findAll(root, ".asked")) {
      const kind = ["arrived", "test", "cause"].find(name => name in element.dataset) ?? "";
      /** @type {Row} */
      const row = { kind, id: element.dataset[kind] ?? "", element, outs: new Map(), back: null };
      const list = /** @type {HTMLElement} */ (element.querySelector(".outs"));
      for (const item of findAll(list, "[data-out]")) {
        const id = item.dataset.out ?? "";
        const button = createButton(item.textContent ?? "", () => {
          const pressed = button.getAttribute("aria-pressed") === "true";
          if (pressed && kind === "arrived") return;
          put(kind, row.id, pressed ? null : id);
        });
        row.outs.set(id, button);
        item.replaceChildren(button);
      }
      if (kind !== "arrived") {
        const item = document.createElement("li");
        row.back = createButton("Put back", () => {
          put(kind, row.id, null);
          // The button is gone now; who uses keys goes on in its row.
          reachable(row)[0]?.focus();
        });
        item.className = "back";
        item.append(row.back);
        list.append(item);
      }
      element.addEventListener("keydown", event => {
        if (event.altKey || event.ctrlKey || event.metaKey || !(event.target instanceof HTMLButtonElement)) return;
        const to = nextButton(rows.filter(one => !one.element.hidden), row, event.target, event.key);
        if (!to) return;
        event.preventDefault();
        for (const button of findAll(/** @type {HTMLElement} */ (to.closest(".asked")), "button")) button.tabIndex = -1;
        to.tabIndex = 0;
        to.focus();
      });
      rows.push(row);
    }
    for (const row of findAll(root, '[data-action^="cure "]')) {
      const id = (row.dataset.action ?? "").slice("cure ".length);
      const button = createButton("Tried in vain", () =>
        put("cure", id, button.getAttribute("aria-pressed") === "true" ? null : "in-vain"));
      row.querySelector("[data-tried]")?.replaceChildren(button);
      tried.set(id, [...(tried.get(id) ?? []), button]);
    }
    for (const row of findAll(root, "[data-causes] [data-cause]")) {
      const [text, range] = [row.querySelector(".share > span"), row.querySelector("td > small")];
      first.set(row.dataset.cause ?? "", `${text?.textContent} (${range?.textContent})`);
    }
    // A link to a row leads to its outcomes, and leaves the address as it is: it keeps what was filled in.
    root.addEventListener("click", event => {
      const link = event.target instanceof Element ? event.target.closest('a[href^="#test-"]') : null;
      const row = rows.find(({ kind, id }) => kind === "test" && link?.getAttribute("href") === `#test-${id}`);
      if (!row) return;
      event.preventDefault();
      row.element.scrollIntoView({ block: "center" });
      (reachable(row).find(button => button.tabIndex === 0) ?? reachable(row)[0])?.focus({ preventScroll: true });
    });
    const variants = new MutationObserver(show);
    for (const section of groups) variants.observe(section, { attributes: true, attributeFilter: ["hidden"] });
    state = words.readHash(location.hash, data.arrived, (kind, id, outcome) =>
      kind === "cure" ? tried.has(id) : rows.some(row => row.kind === kind && row.id === id && row.outs.has(outcome)));
    show();
  };

  for (const root of document.querySelectorAll("[data-isolation]")) mount(/** @type {HTMLElement} */ (root));
}
