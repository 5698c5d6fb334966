// The stopwatch of the page: it counts before Python is there, beside it, and after its end.
//
// A press is stamped by the page's own clock, which nobody can set, kept in a database of its own
// at once, shown at once, and handed to Python when there is one. Python says what the pad shows;
// the last of that is kept for each screen, so that the next start can show it without Python.
window.pondappPad = (() => {
  "use strict";
  if (!window.pondappName) return undefined; // the browser is too old, which is said
  const DOUBLE_TAP = 400; // ms; nobody fills a container so fast, but a wet thumb bounces
  const QUIET = 1000; // ms after a stop in which a press is taken for a bounce too
  const REACTION = 250; // ms from what is seen to a touch of it; also in aimed.js
  const OLD = 3_600_000; // ms after which fills that were left are not gone on with unasked
  const NO_BAND = 30_000; // ms in which the button fills where no time is wanted
  const FURTHER = 1.25; // times the slowest right fill: there the button is full
  const MOST_PLACES = 50; // of which the last state is kept
  const MOST_DOTS = 9; // for more there is no room beside their count
  const GENERIC = /^\/measure\/(none)\/(outlet)$/; // a screen that needs nothing to be known
  const KEYS = new Set(["AudioVolumeUp", "AudioVolumeDown", "VolumeUp", "VolumeDown", "Camera",
    "CameraFocus", "MediaPlayPause", "MediaTrackNext", "PageUp", "PageDown"]);

  const root = document.documentElement;
  const say = window.pondappSayer(/*@WORDS@*/ {});
  const part = (id) => document.getElementById(id);
  const pad = part("pad");
  const button = part("pad-button");
  const water = part("pad-water");
  const still = matchMedia("(prefers-reduced-motion: reduce)");
  const run = Array.from(crypto.getRandomValues(new Uint8Array(8)), (b) =>
    b.toString(16).padStart(2, "0")).join("");

  let places = new Map(); // route: what was last shown there
  let shown = null; // of the screen that is open; null where it has no stopwatch
  let waiting = []; // presses that Python has not acknowledged, the oldest first
  const told = new Map(); // route: what Python said while it had not heard of the last presses
  let early = []; // presses before it was read what is kept here; null once it is
  let live = false; // whether Python takes presses
  let hand = () => {};
  let count = 0;
  let lastPress = -Infinity;
  let lastStop = -Infinity;
  let away = -Infinity; // when the page was last put away, or came back
  let first = true; // whether no other screen was open before on this page
  let opened = null; // the address that was opened last
  let seen = -Infinity; // when another screen's stopwatch stood on the glass
  let verdict = null; // of the fill just timed, until Python says more
  let timers = [];
  let ticking = 0;
  const noted = []; // for whoever wants to know what counted: tests and measurements

  // ---- what is kept
  const done = (asked) => new Promise((good, bad) => {
    asked.onsuccess = () => good(asked.result);
    asked.onerror = () => bad(asked.error);
  });
  const database = new Promise((good) => {
    let asked;
    try {
      asked = indexedDB.open(window.pondappName("pad"), 1);
    } catch {
      return good(null);
    }
    asked.onupgradeneeded = () => {
      asked.result.createObjectStore("presses", { autoIncrement: true });
      asked.result.createObjectStore("places", { keyPath: "route" });
    };
    asked.onsuccess = () => good(asked.result);
    asked.onerror = () => good(null); // it is said elsewhere that nothing can be kept
  });
  // The device is full: a fill is worth more than what only makes starts faster (snapshot.js makes
  // no other then). Done once: where that was not enough, there is nothing more to give.
  const SOON = 1000; // ms; it cannot go while it is being read or made
  let room = null;
  function makeRoom() {
    room ??= new Promise((gone) => {
      root.dataset.full = "true";
      window.dispatchEvent(new Event("pondapp-full"));
      const asked = indexedDB.deleteDatabase(window.pondappName("snapshot"));
      asked.onsuccess = asked.onerror = gone;
      setTimeout(gone, SOON);
    });
    return room;
  }
  async function change(act) {
    const db = await database;
    if (!db) return false;
    async function write() {
      const step = db.transaction(["presses", "places"], "readwrite", { durability: "strict" });
      const changed = act(step.objectStore("presses"), step.objectStore("places"));
      await new Promise((good, bad) => {
        step.oncomplete = good;
        step.onabort = () => bad(step.error); // of a request that failed too
      });
      return changed?.result ?? true;
    }
    try {
      return await write().catch((error) => {
        if (error?.name !== "QuotaExceededError") throw error;
        return makeRoom().then(write);
      });
    } catch (error) {
      console.info(`not kept: ${error?.message}`);
      return false;
    }
  }

  // A page that lives holds its lock: the presses of all others are nobody's, and go to this one.
  const mine = (id) => `${window.pondappName("pad")} ${id}`;
  navigator.locks?.request(mine(run), () => new Promise(() => {}));
  async function alive() {
    try {
      const { held } = await navigator.locks.query();
      return new Set(held.map((one) => one.name));
    } catch {
      return new Set([mine(run)]);
    }
  }
  const unhanded = (async () => {
    const db = await database;
    if (!db) return [];
    try {
      const step = db.transaction(["presses", "places"]);
      const presses = step.objectStore("presses");
      const [keys, values, states] = await Promise.all(
        [presses.getAllKeys(), presses.getAll(), step.objectStore("places").getAll()].map(done));
      for (const state of states) if (!places.has(state.route)) places.set(state.route, state);
      judgeEarly();
      const living = await alive();
      return values.map((one, at) => ({ ...one, key: keys[at] }))
        .filter((one) => one.run !== run && !living.has(mine(one.run)));
    } catch (error) {
      console.info(`not read: ${error?.message}`);
      return [];
    }
  })();
  unhanded.then((found) => {
    waiting = [...found, ...waiting];
    open();
    judgeEarly();
  });
  // Whether a press starts or stops depends on what ran when the page was left.
  const LONG = 1000; // ms; where reading takes longer, nothing is known to run
  setTimeout(judgeEarly, LONG);
  function judgeEarly() {
    const held = early || [];
    early = null;
    if (held.length) open();
    for (const t of held) press(t);
  }

  // ---- which screen
  const route = () => location.hash.slice(1) || "/";
  function generic(address) {
    const found = GENERIC.exec(address);
    if (!found) return null;
    return {
      route: address, pond: found[1], place: found[2], method: "", title: say("Measure"),
      wanted: "", fills: [], since: null, band: null, result: null, outlook: [], asked: 3,
      words: {}, aids: {}, decimal: window.pondappDecimal(),
    };
  }
  function left(state) { // what was timed here some time ago waits for a word of its user
    return state.fills.length > 0 && !state.since && Date.now() - (state.at || 0) > OLD;
  }
  function open() {
    const address = route();
    let state = places.get(address);
    if (state?.none) state = null;
    else if (!state) state = generic(address);
    else if (!live && left(state)) {
      state = { ...state, fills: [], result: null, outlook: [], anew: true };
    }
    if (address !== shown?.route) verdict = null;
    if (opened !== null && opened !== address) first = false;
    opened = address;
    if (!first && state && address !== shown?.route) aim();
    shown = state;
    draw();
  }
  // A finger that was on its way when another screen went is not meant for the stopwatch that came.
  function aim() {
    const address = route();
    seen = Infinity; // until it is drawn
    const drawn = () => {
      if (seen === Infinity && address === opened) seen = performance.now();
    };
    requestAnimationFrame(() => requestAnimationFrame(drawn));
    setTimeout(drawn, 500);
  }
  window.addEventListener("hashchange", open);
  window.addEventListener("popstate", open);
  for (const step of ["pushState", "replaceState"]) { // the app's own, of which no event tells
    const change = history[step].bind(history);
    history[step] = (...how) => {
      const before = route();
      change(...how);
      if (route() !== before) open();
    };
  }

  // ---- words
  const word = (key, english) => shown?.words?.[key] || say(english);
  const seconds = (value) => {
    const rounded = value < 100 ? value.toFixed(value < 10 ? 2 : 1) : value.toFixed(0);
    return `${rounded.replace(".", shown?.decimal || ".")} s`;
  };
  function clock(value) {
    const whole = Math.floor(Math.max(0, value));
    if (whole >= 60) return `${Math.floor(whole / 60)}:${String(whole % 60).padStart(2, "0")}`;
    return `${Math.max(0, value).toFixed(1).replace(".", shown?.decimal || ".")} s`;
  }
  // Several screens show what is timed at one place: what one of them hears is true of all.
  const same = (one, other) => one.pond === other.pond && one.place === other.place &&
    (!one.method || !other.method || one.method === other.method);
  function keep(state) {
    const { fills, since, result, at } = state;
    const others = [...places.values()]
      .filter((one) => !one.none && one.route !== state.route && same(one, state))
      .map((one) => ({ ...one, fills, since, result, at, outlook: [] }));
    places.delete(state.route); // the newest is the last
    for (const one of [...others, state]) places.set(one.route, one);
    return (kept) => { for (const one of [...others, state]) kept.put(one); };
  }
  const counted = () => shown.fills.filter((one) => !one.excluded).length;

  // ---- drawing: the boxes never move, only what is in them changes
  const elapsed = () => {
    const { since } = shown;
    return since.run === run ? (performance.now() - since.t) / 1000
      : Math.max(0, Date.now() / 1000 - since.wall);
  };
  const full = () => (shown.band ? shown.band.slowest * 1000 * FURTHER : NO_BAND);
  const timedOut = (after, act) => {
    if (after > 0) timers.push(setTimeout(act, after));
  };

  function draw() {
    const on = shown !== null && location.search !== "?safe";
    pad.hidden = !on;
    timers.splice(0).forEach(clearTimeout);
    clearInterval(ticking);
    part("start-title").textContent = on ? shown.title : "pondapp";
    if (!on) {
      delete root.dataset.pad;
      stayAwake(false);
      return;
    }
    const running = shown.since !== null;
    root.dataset.pad = running ? "running" : verdict || shown.fills.length ? "timed" : "ready";
    part("start-wanted").textContent = shown.wanted;
    part("start-times").textContent = shown.fills.filter((one) => !one.excluded)
      .map((one) => seconds(one.seconds)).join("  ·  ");
    const enough = !running && !shown.anew && counted() >= shown.asked;
    button.className = running ? "running" : enough ? "enough" : "";
    part("pad-do").textContent = running ? word("stop", "Stop")
      : enough ? word("enough", "Enough fills")
        : word("start", "Start");
    part("pad-when").textContent = running
      ? word("toStop", "Tap when the water reaches the mark")
      : enough ? word("more", "Tap to time one more")
        : word("toStart", "Tap when water starts to fall in");
    drawDots(running);
    drawGauge(running);
    drawWater(running);
    stayAwake(running);
  }

  function drawDots(running) {
    const fills = counted();
    const dots = part("pad-dots");
    dots.replaceChildren();
    const all = Math.max(shown.asked, fills);
    for (let dot = 0; all <= MOST_DOTS && dot < all; dot += 1) {
      const made = document.createElement("i");
      if (dot < fills) made.className = "done";
      dots.append(made);
    }
    const now = Math.min(fills + (running ? 1 : 0), Math.max(shown.asked, fills + 1));
    part("pad-count").textContent = !fills && !running ? ""
      : word("count", "Fill {n} of {m}")
        .replace("{n}", now).replace("{m}", Math.max(shown.asked, now));
  }

  // The bar is of flows, since these are wanted; a flow is as one over its time.
  function placeOf(time) {
    const { fastest, aim } = shown.band;
    const most = fastest ? (1.5 * aim) / fastest : 2;
    return `${100 * Math.min(1, aim / time / most)}%`;
  }
  function drawGauge(running) {
    const number = part("pad-number");
    const { result, band } = shown;
    const one = running ? null : verdict || result;
    number.setAttribute("aria-live", running ? "off" : "polite"); // the answer, not the time
    if (running) {
      const tick = () => { number.textContent = clock(elapsed()); };
      tick();
      ticking = setInterval(tick, 100);
    } else number.textContent = one ? one.number : clock(0);
    const said = part("pad-word");
    said.className = one?.severity || "";
    said.textContent = one?.word || "";
    part("pad-detail").textContent = one?.detail || "";
    fit();
    const bar = part("pad-bar");
    bar.className = band ? "" : "none";
    if (!band) return;
    const right = part("pad-right").style;
    right.left = placeOf(band.slowest || 1e9);
    right.right = band.fastest ? `calc(100% - ${placeOf(band.fastest)})` : "0";
    const needle = part("pad-needle");
    needle.hidden = !one?.time;
    if (one?.time) needle.style.left = placeOf(one.time);
    const span = part("pad-span");
    span.hidden = !one?.from;
    if (one?.from) {
      span.style.left = placeOf(one.to);
      span.style.right = `calc(100% - ${placeOf(one.from)})`;
    }
  }

  // Verdict and detail take two lines where one is too short; only what is higher than the gauge
  // then, or a word that is too wide, is in smaller letters.
  const LEAST = 20; // % of the usual size
  function fit() {
    const gauge = part("pad-gauge");
    const { paddingTop, paddingBottom } = getComputedStyle(gauge);
    const room = gauge.clientHeight - parseFloat(paddingTop) - parseFloat(paddingBottom);
    const high = () => [...gauge.children].reduce((sum, one) => sum + one.offsetHeight, 0) > room;
    const rows = [part("pad-foot"), part("pad-top")];
    for (const row of rows) row.style.fontSize = "";
    const usual = rows.map((row) => parseFloat(getComputedStyle(row).fontSize));
    for (let size = 95; size >= LEAST; size -= 5) {
      const all = high();
      rows.forEach((row, at) => {
        if (all || row.scrollWidth > row.clientWidth) {
          row.style.fontSize = `${usual[at] * size / 100}px`;
        }
      });
    }
  }

  // Water rises in the button as in the bucket, drawn by the browser beside whatever else runs.
  function drawWater(running) {
    for (const old of water.getAnimations()) old.cancel();
    const { band } = shown;
    const marks = part("pad-band");
    marks.hidden = !band || !running;
    if (band) {
      marks.style.bottom = `${band.fastest ? 100 * (1000 * band.fastest) / full() : 0}%`;
      marks.style.top = `${100 - 100 * (1000 * band.slowest) / full()}%`;
    }
    button.dataset.level = "";
    water.style.transform = "scaleY(0)";
    if (!running) return;
    const now = elapsed() * 1000;
    if (!still.matches) {
      const rise = water.animate([{ transform: "scaleY(0)" }, { transform: "scaleY(1)" }],
        { duration: full(), fill: "forwards" });
      rise.currentTime = now;
    }
    const level = (name) => {
      button.dataset.level = name;
      if (still.matches) water.style.transform = `scaleY(${
        { early: 0, right: band?.fastest ? 1000 * band.fastest / full() : 0.5, late: 1 }[name]})`;
    };
    if (!band) return;
    const edges = [[band.fastest ? 1000 * band.fastest : 0, "right"], [1000 * band.slowest, "late"]];
    level(edges.filter(([at]) => at <= now).pop()?.[1] || "early");
    for (const [at, name] of edges) {
      timedOut(at - now, () => {
        level(name);
        give(name === "right" ? [30] : [60, 40, 60], name === "right" ? 990 : 520);
      });
    }
    if (shown.aids?.countdown) countDown(1000 * band.aim - now);
  }

  // ---- in the hand and in the ear
  let sound = null;
  function give(buzz, tone) {
    if (shown.aids?.vibration !== false && navigator.vibrate) navigator.vibrate(buzz);
    if (shown.aids?.sound === false || typeof AudioContext !== "function") return;
    sound ??= new AudioContext();
    sound.resume().catch(() => {});
    const made = sound.createOscillator();
    const volume = sound.createGain();
    const now = sound.currentTime;
    made.frequency.value = tone;
    volume.gain.setValueAtTime(0.2, now);
    volume.gain.exponentialRampToValueAtTime(0.001, now + 0.12);
    made.connect(volume).connect(sound.destination);
    made.start(now);
    made.stop(now + 0.12);
  }
  function countDown(left) {
    for (const [before, text] of [[3, "3"], [2, "2"], [1, "1"], [0, word("now", "now")]]) {
      timedOut(left - 1000 * before, () => {
        if (!window.speechSynthesis) return give([], 740);
        const said = new SpeechSynthesisUtterance(text);
        said.lang = root.dataset.language;
        said.rate = 1.4;
        speechSynthesis.speak(said);
      });
    }
  }
  let lock = null;
  let wanted = false;
  async function stayAwake(on) {
    if (on === wanted) return;
    wanted = on;
    try {
      if (on) {
        const held = await navigator.wakeLock?.request("screen");
        if (wanted) lock = held;
        else held?.release();
      } else {
        await lock?.release();
        lock = null;
      }
    } catch {
      // A browser that cannot is no reason to stop.
    }
  }

  // ---- a press
  function press(t) {
    if (early && shown) {
      early.push(t);
      return;
    }
    if (!shown || t - lastPress < DOUBLE_TAP || t - lastStop < QUIET) return;
    if (t < seen + REACTION) return;
    lastPress = t;
    const before = shown;
    const { pond, place, method } = before;
    const wall = (Date.now() - (performance.now() - t)) / 1000;
    count += 1;
    const one = {
      id: `${run}-${count}`, run, route: before.route, pond, place, method, wall, tick: t / 1000,
      kind: before.since ? "stop" : "start", seconds: null, away: false,
      anew: Boolean(!before.since && before.anew), branch: before.branch || "",
    };
    const after = { ...before, at: Date.now(), anew: false };
    if (one.kind === "start") {
      verdict = null;
      if (one.anew) Object.assign(after, { fills: [], result: null, outlook: [] });
      after.since = { run, t, wall };
    } else {
      lastStop = t;
      after.since = null;
      const { since } = before;
      const took = since.run === run ? (t - since.t) / 1000 : wall - since.wall;
      if (since.run === run) {
        one.seconds = Math.round(1000 * took) / 1000;
        one.away = away >= since.t;
        after.fills = [...before.fills, { seconds: one.seconds, excluded: false }];
      }
      const judged = since.run === run && before.outlook.length
        ? before.outlook.find((part) => part.upTo === null || took <= part.upTo) : null;
      verdict = {
        number: seconds(took), word: judged?.word || "", severity: judged?.severity || "",
        detail: judged?.detail || "",
        time: before.band && took > 0 ? took : null,
      };
      after.outlook = []; // it was of this fill
      if (since.run === run) after.result = verdict; // what was said before is of fewer fills
    }
    const put = keep(after);
    shown = after;
    draw();
    const mark = { t, kind: one.kind, kept: false };
    noted.push(mark);
    waiting.push(one);
    change((presses, states) => {
      put(states);
      return presses.add(one);
    }).then((key) => {
      mark.kept = key !== false;
      one.key = key;
      if (live && waiting.includes(one)) hand([one]);
    });
    if (one.kind === "start") give([40], 660); // last: no sound that fails may cost a press
    else give([40, 60, 40], 880);
  }
  button.addEventListener("pointerdown", (event) => {
    if (event.button === 0) press(event.timeStamp);
  });
  // A click that no touch made: the keyboard's, or that of a screen reader.
  let touching = false; // or just let go, however long it was held
  button.addEventListener("pointerdown", () => { touching = true; });
  for (const end of ["pointerup", "pointercancel"]) {
    window.addEventListener(end, () => setTimeout(() => { touching = false; }, DOUBLE_TAP), true);
  }
  button.addEventListener("click", (event) => {
    if (!touching) press(event.timeStamp);
  });
  button.addEventListener("keydown", (event) => { // a key that is held presses once
    if (event.repeat) event.preventDefault();
  });
  button.addEventListener("contextmenu", (event) => event.preventDefault());
  window.addEventListener("keydown", (event) => {
    if (!shown || event.repeat || !shown.aids?.keys) return;
    const at = document.activeElement; // where the app draws all by itself, no field is in hand
    const free = at === document.body || at === button || at?.localName === "flutter-view";
    if (!KEYS.has(event.key) && !(free && (event.key === "Enter" || event.key === " "))) return;
    event.preventDefault();
    event.stopPropagation();
    press(event.timeStamp);
  }, true);
  // Tab goes round inside the app's own screen: where it begins anew, the button's turn has come.
  window.addEventListener("keydown", (event) => {
    const from = document.activeElement;
    if (event.key !== "Tab" || pad.hidden || from === button) return;
    const round = event.shiftKey ? Node.DOCUMENT_POSITION_FOLLOWING
      : Node.DOCUMENT_POSITION_PRECEDING;
    setTimeout(() => {
      if (from.compareDocumentPosition(document.activeElement) & round) button.focus();
    }, 80);
  }, true);
  document.addEventListener("visibilitychange", () => {
    away = performance.now();
    if (!document.hidden && shown?.since) { // the browser lets go of it with each page put away
      wanted = false;
      stayAwake(true);
    }
  });

  // Beside each other where the window is wider than high; a keyboard on the screen does not count.
  function lay() {
    if (/^(input|textarea)$/i.test(document.activeElement?.tagName)) return;
    root.dataset.wide = String(innerWidth > innerHeight);
  }
  window.addEventListener("resize", () => {
    lay();
    if (shown) fit();
  });
  lay();

  // ---- with Python
  const json = (presses) => JSON.stringify(presses.map(({ key, ...one }) => one));
  function accept(state) {
    const last = waiting.filter((one) => one.route === state.route || same(one, state)).pop();
    const known = places.get(state.route)
      || [...places.values()].find((one) => !one.none && same(one, state));
    if (last && state.taken !== last.id) { // it has not heard of that press yet
      told.set(state.route, state);
      if (!known) return;
      const { fills, since, result, outlook, at, anew } = known;
      state = { ...state, fills, since, result, outlook, at, anew };
    } else {
      told.delete(state.route);
      if (state.result) verdict = null;
    }
    const put = keep(state);
    change((_, states) => { put(states); });
    if (state.route === route()) open();
  }
  const python = {
    // Python is there: what waits for it, and from now on each press as it comes.
    async begin({ ponds, heard }) {
      await unhanded;
      hand = (presses) => heard(json(presses));
      live = true;
      const gone = [...places.values()].filter((one) => one.pond !== "none" && one.pond &&
        !ponds.includes(one.pond)).map((one) => one.route);
      const many = [...places.keys()].slice(0, Math.max(0, places.size - MOST_PLACES));
      for (const address of [...gone, ...many]) places.delete(address);
      if (gone.length + many.length) {
        change((_, states) => { for (const one of [...gone, ...many]) states.delete(one); });
      }
      return json(waiting.filter((one) => one.key !== undefined));
    },
    show(state) { accept(state); },
    // What was wanted at these ponds has changed: it is not shown again until Python says it.
    stale(ponds) {
      const old = [...places.values()]
        .filter((one) => ponds.includes(one.pond) && one.route !== shown?.route)
        .map((one) => ({ ...one, wanted: "", band: null, result: null, outlook: [] }));
      for (const one of old) places.set(one.route, one);
      change((_, states) => { for (const one of old) states.put(one); });
    },
    cover(on) { root.dataset.covered = String(on); }, // but never while a fill runs
    taken(ids) {
      const known = new Set(ids);
      const last = new Map(); // what is saved holds all that was pressed there before
      waiting.forEach((one, at) => { if (known.has(one.id)) last.set(one.route, at); });
      const saved = (one, at) => at <= (last.get(one.route) ?? -1);
      const keys = waiting.filter(saved).map((one) => one.key);
      waiting = waiting.filter((one, at) => !saved(one, at));
      change((presses) => { for (const key of keys) if (key !== false) presses.delete(key); });
      for (const state of [...told.values()]) accept(state);
    },
  };

  // ---- from the start screen to a stopwatch
  pad.setAttribute("aria-label", say("Stopwatch"));
  // A link, so that a touch in the first moment, before any program is there, is not lost.
  part("start-measure").textContent = say("Measure a flow");
  unhanded.then(() => { // where it was measured before, the last place first
    const known = [...places.values()].filter((one) => !one.none && one.pond !== "none");
    known.sort((one, other) => (other.at || 0) - (one.at || 0));
    const once = known.filter((one, at) => known.findIndex((other) => same(one, other)) === at);
    for (const one of once.slice(0, 3)) {
      const made = document.createElement("button");
      made.type = "button";
      const several = once.some((other) => other.pond !== one.pond); // with places called alike
      made.textContent = several && one.pondName ? `${one.title}, ${one.pondName}` : one.title;
      made.onclick = () => { location.hash = `#${one.route}`; };
      part("start-ways").append(made);
    }
  });

  open();
  return {
    run, python, presses: noted, holds: (node) => pad.contains(node),
    aimed: () => performance.now() >= seen + REACTION,
    async untaken() { // times that wait for a Python that takes them
      await unhanded;
      return waiting.filter((one) => one.seconds !== null).map((one) => seconds(one.seconds));
    },
  };
})();
