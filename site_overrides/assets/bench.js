// @ts-check
"use strict";

/* The bench page at work: hears hands and the clock, and lets the work and the scene answer. */
{
  const own = /** @type {any} */ (window);
  /** @type {typeof import("./bench-draw.js")} */
  const { all, get } = own.benchleafDraw;
  /** @type {typeof import("./bench-arrive.js")} */
  const { drawArrival, drawRuns, readAnswers } = own.benchleafArrive;
  /** @type {typeof import("./bench-close.js")} */
  const { download, drawSheet } = own.benchleafClose;
  /** @type {typeof import("./bench-keys.js")} */
  const { mountHands } = own.benchleafKeys;
  /** @type {typeof import("./bench-press.js")} */
  const { createPress } = own.benchleafPress;
  /** @type {typeof import("./bench-scene.js")} */
  const { createScene, stepOf } = own.benchleafScene;
  /** @type {typeof import("./bench-screen.js")} */
  const screen = own.benchleafScreen;
  /** @type {typeof import("./bench-store.js")} */
  const { createStore } = own.benchleafStore;
  /** @type {typeof import("./bench-timer.js")} */
  const { alarmOf } = own.benchleafTimer;
  /** @type {typeof import("./bench-work.js")} */
  const { createWork } = own.benchleafWork;

  // Often enough for tenths of a second to be read, seldom enough to leave a small machine alone.
  const LOOK = 200;
  // A note is saved when its writer pauses.
  const PAUSE = 400;

  own.benchleafOnce.prepare(document);
  document.documentElement.classList.add("works");
  /** @type {import("./bench-work.js").Brought} */
  const brought = JSON.parse(get(document, "#bench-way").textContent ?? "");
  const memory = () => window.localStorage;
  const bell = screen.createBell(() => new AudioContext());
  const words = { says: "", screen: "", alarm: "" };
  const newId = () => `${Date.now().toString(36)}-${Math.floor(Math.random() * 2 ** 40).toString(36)}`;
  const render = () => scene.render();
  const store = createStore(() => window.indexedDB, brought.site);
  const work = createWork(brought, store, { changed: render, clock: Date.now, id: newId });
  const scene = createScene(document, brought, work, words);
  const { held } = work;
  const field = (/** @type {string} */ selector) =>
    /** @type {HTMLInputElement | HTMLTextAreaElement | null} */ (document.querySelector(selector));

  const offer = async () => {
    const runs = await work.list();
    const lay = (/** @type {import("./bench-way.js").Run} */ run) => void work.lay(run).then(offer);
    drawRuns(get(document, "[data-runs]"), runs, { take: work.take, lay }, Date.now());
    render();
    return runs;
  };

  const begin = () => {
    const view = get(document, "#arrival");
    const { answers, open, job } = readAnswers(view);
    if (open) {
      words.says = "Answer first how the device came.";
      open.focus();
    } else if (drawArrival(view, brought.arrival)) work.start(answers, job);
  };

  /** What stands in the fields of the step that is shown is kept with it. */
  const keep = () => {
    const { run } = held;
    if (!run || scene.view() !== "step") return;
    const place = scene.find(stepOf(run));
    const draft = run.looking === null ? run.now : run.path[run.looking]?.draft;
    const value = (/** @type {string} */ name) =>
      /** @type {HTMLInputElement | null} */ (place?.querySelector(`[name=${name}]`))?.value ?? "";
    const [note, photos, typed] = [value("note"), value("photo"), value("reading")];
    if (!draft || (draft.note === note && draft.photos === photos && draft.typed === typed)) return;
    work.go({ do: "keep", note, photos, typed });
  };

  /** What speaks now must be seen: a running clock, a verdict. */
  const bringUp = (/** @type {string} */ selector) => {
    render();
    const place = scene.find(held.run?.step ?? "")?.querySelector(selector);
    if (place instanceof HTMLElement && place.getClientRects().length > 0)
      place.scrollIntoView({ block: "nearest", behavior: "instant" });
  };

  const judge = () => {
    const step = held.run?.step ?? "";
    const place = scene.find(step);
    const typed = /** @type {HTMLInputElement | null} */ (place?.querySelector("[name=reading]"));
    const isJudged = work.go({ do: "judge" });
    if (!isJudged) words.says = "Type the value as the meter shows it, with a comma or a point.";
    const next = isJudged ? /** @type {HTMLElement | null} */ (place?.querySelector(".say")) : typed;
    next?.focus({ preventScroll: true });
    bringUp("[data-check]");
  };

  const leave = () => {
    const reason = field("[name=reason]");
    const why = reason?.value.trim() ?? "";
    if (!reason || why === "") {
      words.says = "Say why first: whoever closes the device will read it.";
      return reason?.focus();
    }
    [reason.value, held.cover] = ["", ""];
    work.go({ do: "leave", why });
  };

  const back = () => {
    if (held.cover === "reason" || held.cover === "end") held.cover = "";
    else if (held.cover === "") work.go({ do: "back" });
  };

  const fromStop = () => {
    // A new address and not a replaced one: only that makes the browser let go of what it points at.
    window.location.hash = "#sheet";
    scene.forget();
  };

  const print = () => {
    if (!held.run) return;
    const sheet = get(document, "[data-record-sheet]");
    drawSheet(sheet, brought, held.run, scene.say);
    sheet.hidden = false;
    document.documentElement.dataset.printing = "record";
    window.print();
    delete document.documentElement.dataset.printing;
    sheet.hidden = true;
  };

  const setSize = (/** @type {string} */ size) => {
    document.documentElement.dataset.size = size;
    screen.remember(memory, `${brought.site}:size`, size);
    for (const button of all(document, '[data-do="size"]')) {
      button.setAttribute("aria-pressed", String(button.getAttribute("value") === size));
    }
  };
  const isLoud = () => screen.recall(memory, `${brought.site}:sound`) !== "off";
  const setSound = (/** @type {boolean} */ on) => {
    screen.remember(memory, `${brought.site}:sound`, on ? "on" : "off");
    get(document, '[data-do="sound"]').setAttribute("aria-pressed", String(on));
  };

  /** @type {{ [act: string]: (control: HTMLElement | null) => unknown }} */
  const ACTS = {
    begin,
    judge,
    back,
    print,
    leave: () => (held.cover = "reason"),
    "leave-so": leave,
    "back-to-step": back,
    more: () => scene.scroll(1),
    less: () => scene.scroll(-1),
    start: () => (work.go({ do: work.due() === "lift" ? "lift" : "start" }), bringUp("[data-timer]")),
    again: () => (held.cover === "resume" ? work.settle("again") : work.go({ do: "again" })),
    resume: () => work.settle("resume"),
    "begin-anew": () => (work.dropRun(), offer()),
    stop: () => (window.location.hash = "#stop-and-make-safe"),
    "from-stop": fromStop,
    halt: () => ((held.cover = ""), work.go({ do: "halt", why: "Stopped and made safe by hand." }), fromStop()),
    end: () => (held.cover = "end"),
    download: () => held.run && download(brought, held.run),
    size: control => setSize(control?.getAttribute("value") ?? "usual"),
    sound: () => setSound(!isLoud()),
    "try-sound": () => (words.says = bell.ring() ? "That is the alarm." : "This browser gives no sound here."),
  };

  const perform = (/** @type {string} */ act, /** @type {HTMLElement | null} */ control) => {
    // Browsers sound only after a press, so each press makes the alarm ready.
    if (isLoud()) bell.ready();
    Object.assign(words, { says: "", alarm: "" });
    keep();
    const known = ACTS[act];
    if (known) known(control);
    else work.go(/** @type {import("./bench-turn.js").Action} */ ({ do: act }));
    render();
  };

  const press = createPress(document, {
    view: scene.view,
    due: scene.due,
    isMore: scene.isMore,
    isLess: scene.isLess,
    isStopShown: scene.isStopShown,
    perform,
    clock: Date.now,
    say: says => ((words.says = says), render()),
  });
  mountHands(window, press);
  document.addEventListener("click", event => {
    const control = event.target instanceof Element ? event.target.closest("[data-do]") : null;
    if (!(control instanceof HTMLElement) || control.dataset.do === "stop") return;
    event.preventDefault();
    press.click(control, event.detail > 0);
  });

  let looked = Date.now();
  /** Looks at the clock. What happened since the last look is told once, however long the page slept. */
  const look = () => {
    const [before, clock, { run }] = [looked, Date.now(), held];
    looked = clock;
    const node = run && run.at !== null ? work.wayOf(run).nodes[run.at] : null;
    if (!run || !node?.timer || run.now.spans.length === 0) return;
    const alarm = alarmOf(node.timer, run.now, before, clock);
    if (alarm) {
      words.alarm = `${node.label}: ${alarm.says}`;
      if (alarm.rings && isLoud()) bell.ring();
    }
    render();
  };
  window.setInterval(look, LOOK);

  let pause = 0;
  document.addEventListener("input", event => {
    window.clearTimeout(pause);
    if (event.target instanceof HTMLInputElement && event.target.closest("#arrival")) return render();
    pause = window.setTimeout(() => (keep(), tell()), PAUSE);
  });
  const tell = () => {
    const [outcome, cause, remark] = [field("[name=outcome]:checked"), field("[name=cause]"), field("[name=remark]")];
    const { run } = held;
    if (!run || scene.view() !== "end") return;
    const told = { outcome: outcome?.value ?? "", cause: cause?.value ?? "", remark: remark?.value ?? "" };
    if (told.outcome !== run.outcome || told.cause !== run.cause || told.remark !== run.remark)
      work.go({ do: "tell", ...told });
    render();
  };
  document.addEventListener("change", tell);
  document.addEventListener("submit", event => event.preventDefault());
  document.addEventListener("visibilitychange", () => {
    if (document.visibilityState !== "visible") return keep();
    look();
    void work.recheck();
  });
  for (const moved of ["scroll", "resize"]) window.addEventListener(moved, render, { capture: true, passive: true });
  window.addEventListener("hashchange", () => {
    if (scene.isStopShown()) /** @type {HTMLElement | null} */ (document.querySelector("#stop-title"))?.focus();
    else scene.forget();
    render();
  });
  window.addEventListener("beforeunload", event => {
    if (held.run && held.saved !== "not begun" && !held.saved.startsWith("saved ")) event.preventDefault();
  });

  const arrived = window.location.hash;
  setSize(screen.readSize(screen.recall(memory, `${brought.site}:size`)));
  setSound(isLoud());
  void screen.keepScreenOn(navigator, document, says => ((words.screen = says), render()));
  // Work that was interrupted on a step comes back to it, and asks; otherwise it is offered.
  void offer().then(([latest]) => {
    if (latest && !latest.away && !held.run && arrived.startsWith("#step-")) work.take(latest);
  });
  Object.assign(window, { benchleafBench: { held } });
}
