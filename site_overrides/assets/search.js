// @ts-check
"use strict";

/* The search field: what the customer says is answered as it is typed, by keys alone if one likes. */

/** @typedef {import("./search-book.js").Book} Book */

/** @typedef {import("./search-find.js").Found} Found */

/** @typedef {typeof import("./search-draw.js")} Draw */

/** @typedef {{ find: (text: string) => Found, draw: Draw }} Loaded */

{
  // They are loaded when someone wants to search: most pages are opened to be read.
  const PARTS = ["words", "code", "book", "asked", "weigh", "find", "draw", "index"];
  const MOST = 20;
  const COMPLAINT = "does not work";
  const whenIdle = (/** @type {() => void} */ done) =>
    window.requestIdleCallback ? window.requestIdleCallback(done) : setTimeout(done, 200);

  /**
   * What is said of the results, and read out by a screen reader.
   * @param {number} count
   * @param {number} shown
   */
  const tellCount = (count, shown) => {
    if (count === 0) return "Nothing found";
    return count > shown ? `${count} found, the best ${shown} shown` : `${count} found`;
  };

  /**
   * Which result is the current one after a key, or null when the key is no business of ours.
   * @param {string} key
   * @param {number} current
   * @param {number} count
   */
  const nextCurrent = (key, current, count) => {
    if (count === 0 || (key !== "ArrowDown" && key !== "ArrowUp")) return null;
    return (current + (key === "ArrowDown" ? 1 : -1) + count) % count;
  };

  /**
   * What was asked, as the address keeps it, so that Back returns to it.
   * @param {string} text
   */
  const hashOf = text => (text.trim() ? `#q=${encodeURIComponent(text.trim())}` : "");

  /**
   * What an address asks, or null when it asks nothing.
   * @param {string} hash
   */
  const readHash = hash => {
    if (!hash.startsWith("#q=")) return null;
    try {
      return decodeURIComponent(hash.slice(3).replaceAll("+", " "));
    } catch {
      return null;
    }
  };

  /** Whether a key was pressed alone, and not to compose a letter. */
  const isPlainKey = (/** @type {KeyboardEvent} */ event) =>
    !event.ctrlKey && !event.metaKey && !event.altKey && !event.isComposing && !event.defaultPrevented;

  /**
   * Loads what answers, once.
   * @param {string} root
   * @returns {Promise<Loaded>}
   */
  const loadAll = async root => {
    await Promise.all(
      PARTS.map(
        part =>
          new Promise((resolve, reject) => {
            const script = document.createElement("script");
            script.src = `${root}assets/search-${part}.js`;
            // In this order: each needs those before it.
            script.async = false;
            script.addEventListener("load", resolve);
            script.addEventListener("error", reject);
            document.head.append(script);
          }),
      ),
    );
    const own = /** @type {any} */ (window);
    /** @type {Book} */
    const book = own.benchleafBook.openBook(own.benchleafIndex, own.benchleafWords.createWords);
    return { find: text => own.benchleafFind.find(book, text, MOST), draw: own.benchleafDraw };
  };

  /**
   * Makes one search field answer.
   * @param {HTMLElement} box
   * @param {HTMLInputElement} field
   * @param {HTMLElement} answers
   */
  const mountSearch = (box, field, answers) => {
    const [root, isHome] = [box.dataset.root ?? "", box.dataset.search === "home"];
    const id = `${field.id}-found`;
    const said = document.createElement("p");
    said.className = "unseen";
    said.setAttribute("role", "status");
    /** @type {HTMLElement[]} */
    let rows = [];
    let current = 0;
    let opensFirst = false;
    /** @type {Loaded | null} */
    let ready = null;
    /** @type {Promise<void> | null} */
    let loading = null;

    const close = () => {
      rows = [];
      answers.replaceChildren();
      said.textContent = "";
      field.setAttribute("aria-expanded", "false");
      field.removeAttribute("aria-controls");
      field.removeAttribute("aria-activedescendant");
    };

    /** @param {number} place */
    const choose = place => {
      current = place;
      for (const [at, row] of rows.entries()) {
        const line = row.closest("tr") ?? row;
        line.setAttribute("aria-selected", String(at === place));
        line.classList.toggle("here", at === place);
      }
      field.setAttribute("aria-activedescendant", `${id}-${place}`);
    };

    const answer = () => {
      close();
      if (!field.value.trim()) return;
      if (ready === null) {
        said.textContent = "Reading the index";
        void load();
        return;
      }
      const found = ready.find(field.value);
      said.textContent = tellCount(found.count, found.results.length);
      if (found.count === 0) {
        answers.append(ready.draw.makeNothing(field.value, root));
        return;
      }
      answers.append((isHome ? ready.draw.makeTable : ready.draw.makeList)(found, root, id));
      rows = [...answers.querySelectorAll("[data-search-open]")].map(row => /** @type {HTMLElement} */ (row));
      field.setAttribute("aria-expanded", "true");
      field.setAttribute("aria-controls", id);
      choose(0);
      if (opensFirst) rows[0]?.click();
    };

    const load = () =>
      (loading ??= loadAll(root).then(
        loaded => {
          ready = loaded;
          box.dataset.searchReady = "";
          answer();
          // The first answer of all is slow: what is not yet read is read while the customer still talks.
          whenIdle(() => loaded.find(COMPLAINT));
        },
        () => {
          const told = document.createElement("p");
          told.textContent = "Search does not work here: a file of it is missing from this site's assets.";
          answers.replaceChildren(told);
        },
      ));

    const ask = () => {
      opensFirst = false;
      answer();
      if (!isHome) return;
      // Without the file's own name the address would lead to the folder.
      const { pathname, search } = window.location;
      window.history.replaceState(null, "", pathname + search + hashOf(field.value));
    };

    const askAddress = () => {
      const asked = isHome ? readHash(window.location.hash) : null;
      if (asked === null || asked === field.value.trim()) return;
      field.value = asked;
      answer();
    };

    field.addEventListener("input", ask);
    field.addEventListener("focus", () => {
      void load();
      if (!isHome && rows.length === 0) answer();
    });
    box.addEventListener("focusout", event => {
      const isLeft = !(event.relatedTarget instanceof Node && box.contains(event.relatedTarget));
      if (isLeft && !isHome) close();
    });
    field.addEventListener("keydown", event => {
      if (!isPlainKey(event) || event.shiftKey) return;
      const next = nextCurrent(event.key, current, rows.length);
      if (next !== null) {
        choose(next);
        rows[next]?.scrollIntoView({ block: "nearest" });
      } else if (event.key === "Enter") {
        opensFirst = ready === null;
        rows[current]?.click();
      } else if (event.key === "Escape" && field.value) {
        field.value = "";
        ask();
      } else {
        return;
      }
      event.preventDefault();
    });
    window.addEventListener("hashchange", askAddress);

    // A field of type search may not be called a combobox, and has keys of its own.
    field.type = "text";
    field.setAttribute("role", "combobox");
    field.setAttribute("aria-autocomplete", "list");
    field.setAttribute("aria-haspopup", isHome ? "grid" : "listbox");
    answers.before(said);
    close();
    askAddress();
    if (!isHome) return;
    if (document.readyState === "complete") void load();
    else window.addEventListener("load", () => void load());
  };

  if (typeof module !== "undefined") {
    module.exports = { tellCount, nextCurrent, hashOf, readHash };
  } else {
    for (const box of document.querySelectorAll("[data-search]")) {
      const [field, answers] = [box.querySelector("input"), box.querySelector("[data-search-results]")];
      if (!field || !answers) throw new Error("The search field lacks a part");
      mountSearch(/** @type {HTMLElement} */ (box), field, /** @type {HTMLElement} */ (answers));
    }
  }
}
