// Starts Python and the screen side by side, and watches over both.
window.pondappBooted = true;
(() => {
  const START_BYTES = /*@START_BYTES@*/ {};
  const base = document.baseURI;
  const basePath = new URL(base).pathname;
  const startText = document.getElementById("start-text");
  const startProgress = document.getElementById("start-progress");
  const root = document.documentElement;
  const say = window.pondappSayer(/*@WORDS@*/ {});
  const name = window.pondappName;
  const tab = window.pondappPad.run;

  const hasWebGl = () => {
    const canvas = document.createElement("canvas");
    return Boolean(canvas.getContext("webgl2") || canvas.getContext("webgl"));
  };
  // The light renderer needs all of these; every other browser gets the other one, whole.
  const renderer = navigator.vendor === "Google Inc." && typeof ImageDecoder === "function" &&
    typeof Intl.v8BreakIterator === "function" && typeof Intl.Segmenter === "function" &&
    WebAssembly.validate(new Uint8Array([0, 97, 115, 109, 1, 0, 0, 0, 1, 5, 1, 95, 1, 120, 0])) &&
    hasWebGl() ? "skwasm" : "canvaskit";

  // ---- progress: finished files, by size, here and in the worker
  let loaded = 0;
  let shown = false;
  const total = START_BYTES[renderer] || 1;
  const count = (bytes) => {
    if (shown || window.pondappRefused) return;
    loaded += bytes;
    const share = Math.min(1, loaded / total);
    startProgress.value = share;
    startText.textContent = share < 1
      ? `${say("Loading")} ${Math.round(share * 100)} %` : say("Starting");
  };
  const watcher = new PerformanceObserver((list) => {
    count(list.getEntries().reduce((sum, entry) => sum + entry.decodedBodySize, 0));
  });
  watcher.observe({ type: "resource", buffered: true });

  // ---- Python, at once and not only when the screen asks for it
  const program = new URL("worker.js", base).href;
  const newWorker = () => {
    if (navigator.serviceWorker?.controller) return new Worker(program, { type: "module" });
    // Until then the host may have sent no policy with the program: one that the page makes has
    // the page's own.
    const made = new Blob([`import ${JSON.stringify(program)};`], { type: "text/javascript" });
    return new Worker(URL.createObjectURL(made), { type: "module" });
  };
  const early = [];
  let deliver = (bytes) => early.push(bytes);
  let ready;
  let failed;
  const initialized = new Promise((resolve, reject) => { ready = resolve; failed = reject; });
  initialized.catch((error) => watch.gone("python", error.message));
  const worker = newWorker();
  const openings = openingsOf({ name, tab });
  const snapshots = snapshotsOf({ name, newWorker });
  const watch = watchOver({
    say, openings,
    fetching: () => !shown && loaded < total && !navigator.serviceWorker?.controller,
    sendPing: () => worker.postMessage({ ping: true }),
    stopPython: () => worker.terminate(),
  });
  const ANSWERS = 5; // of a Python at rest: an app that does not say that its screen stands
  let answers = -Infinity; // since the screen's program drew something
  let settling = 0; // answers until what was opened last has done no harm
  let restored = false;
  worker.onmessage = ({ data }) => {
    watch.heard();
    if (data instanceof Uint8Array) deliver(data);
    else if (data.loaded !== undefined) count(data.loaded);
    else if (data.error !== undefined) failed(new Error(data.error));
    else if (data.dead !== undefined) {
      openings.reads(data.reading);
      watch.gone("python", data.dead);
    } else if (data.restoring !== undefined) {
      restored = snapshots.restores(data.restoring);
      count(restored ? START_BYTES.modules : -START_BYTES.modules); // it does without
      openings.restores(restored);
    } else if (data.noRoom) {
      snapshots.giveUp();
    } else if (data.pong) {
      watch.answered();
      if (++answers === ANSWERS) uncover();
      if (settling && --settling === 0) openings.settled();
    } else if (data.ready) {
      watch.has("python");
      ready();
    }
  };
  worker.onerror = (event) => failed(new Error(event.message || "a file is missing"));

  // ---- what ended the starts before this one is left out of it
  const before = openings.before();
  if (openings.ended >= 2) {
    worker.terminate();
    location.replace("./?safe");
    return;
  }
  const plain = location.search === "?plain"; // as the safe start asks for it
  const link = linkOf(location.hash);
  const withoutLink = link !== "" && before.some((one) => one.link === link && !one.reading);
  if (plain || withoutLink) history.replaceState(null, "", plain || withoutLink ? basePath : "");
  // What a link or a document did is not to be held against the snapshot.
  const trusted = snapshots.trusted(
    before.some((one) => one.restored && (one.link || one.reading)));
  openings.begin(withoutLink || plain ? "" : link);
  // The screen follows the reader's text size by itself; Python lays it out for that size.
  const textScale = parseFloat(getComputedStyle(root).fontSize) / 16 || 1;
  worker.postMessage({
    documentUrl: document.URL, tab, textScale, leftOut: openings.leftOut,
    trusted: trusted && !plain && before.length === 0,
  });
  const tellLeftOut = () => {
    if (before.length) watch.tellLeftOut(withoutLink && link, before.map((one) => one.reading));
  };
  window.addEventListener("hashchange", () => { // somebody opened a link in the running app
    if (root.dataset.python === undefined) return;
    openings.begin(linkOf(location.hash));
    settling = 2;
  });

  globalThis.jsConnect = async (_app, _args, onMessage) => {
    await initialized;
    deliver = onMessage;
    early.splice(0).forEach(onMessage);
  };
  globalThis.jsSend = async (_app, data) => worker.postMessage(data, [data.buffer]);
  globalThis.jsDisconnect = async () => worker.terminate();

  // ---- the screen
  keepWholeWhenZoomed(root);
  keepFieldInSight();
  globalThis.flet = {
    pyodide: true, multiView: false, noCdn: true, webSocketEndpoint: "",
    entrypointBaseUrl: basePath, assetBase: basePath, routeUrlStrategy: "hash",
    canvasKitBaseUrl: `${basePath}canvaskit/`, fontFallbackBaseUrl: "assets/fonts/",
    webRenderer: renderer, pythonModuleName: "main", appPackageUrl: "", micropipIncludePre: false,
    pyodideUrl: new URL("pyodide/pyodide.mjs", base).href,
  };
  flet.flutterAppLoaded = new Promise((resolve) => { flet.flutterAppResolve = resolve; });
  const screen = document.createElement("script");
  screen.src = "flutter_bootstrap.js";
  screen.onerror = () => watch.gone("screen", say("a file is missing"));
  document.body.appendChild(screen);
  const keeper = keeperOf({ say, name, renderer, kept: snapshots.prepare });
  window.addEventListener("flutter-first-frame", async () => {
    watch.has("screen");
    answers = 0;
    try {
      await initialized;
    } catch {
      return; // it is said already
    }
    if (window.pondappRefused) return;
    document.querySelector("flutter-view")?.setAttribute("role", "main"); // for screen readers
    settling ||= 10; // for an app that does not say when its first screen stands
    keeper.keepOffline();
  }, { once: true });
  // The start screen goes when the first screen of Python is drawn.
  function uncover() {
    if (shown) return;
    shown = true;
    watcher.disconnect();
    document.getElementById("start").hidden = true;
    root.dataset.app = "started";
  }
  const afterDrawing = (act) => requestAnimationFrame(() => requestAnimationFrame(act));
  // Safari brings a page back from its memory with a screen that no longer draws.
  window.addEventListener("pageshow", (event) => {
    if (event.persisted && navigator.vendor.startsWith("Apple")) location.reload();
  });

  // ---- when the screen was really touched: by the clock that nobody can set, whatever the time
  const touches = new BroadcastChannel(name("touch"));
  const stamp = (t, away) => touches.postMessage({ t, origin: performance.timeOrigin, away, tab });
  window.addEventListener("pointerdown", (event) => {
    if (!window.pondappPad.holds(event.target)) stamp(event.timeStamp, false);
  }, { capture: true, passive: true });
  document.addEventListener("visibilitychange", () => stamp(performance.now(), true));

  // ---- what Python asks
  answerPython({
    name, tab, arrived: aimAtWhatIsSeen(),
    spoken(language) {
      window.pondappSpeak(language);
      afterDrawing(uncover);
      keeper.sayBar();
      snapshots.stands();
      if (root.dataset.python === undefined) {
        root.dataset.python = restored ? "restored" : "begun";
        settling = 1;
        worker.postMessage({ ping: true });
        tellLeftOut();
      }
    },
  });
})();
