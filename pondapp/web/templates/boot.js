// Starts Python and the screen side by side, keeps the app for offline use, offers new versions.
"use strict";
(() => {
  const START_BYTES = /*@START_BYTES@*/ {};
  const base = document.baseURI;
  const basePath = new URL(base).pathname;
  const startText = document.getElementById("start-text");
  const startProgress = document.getElementById("start-progress");
  const root = document.documentElement;
  const QUIET = 6000; // ms without a touch, before anything is done that nobody asked for
  const say = window.pondappSay;
  const name = window.pondappName;

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
    if (window.pondappRefused) return;
    loaded += bytes;
    const share = Math.min(1, loaded / total);
    startProgress.value = share;
    startText.textContent = share < 1
      ? `${say("Loading", "Lädt")} ${Math.round(share * 100)} %` : say("Starting", "Startet");
  };
  const watcher = new PerformanceObserver((list) => {
    if (!shown) count(list.getEntries().reduce((sum, entry) => sum + entry.decodedBodySize, 0));
  });
  watcher.observe({ type: "resource", buffered: true });

  // ---- Python, at once and not only when the screen asks for it
  const tab = Array.from(crypto.getRandomValues(new Uint8Array(8)), (b) =>
    b.toString(16).padStart(2, "0")).join("");
  const early = [];
  let deliver = (bytes) => early.push(bytes);
  let ready;
  let failed;
  const initialized = new Promise((resolve, reject) => { ready = resolve; failed = reject; });
  initialized.catch((error) => {
    if (window.pondappRefused) return; // the start screen already says why
    shown = true; // no progress over the message
    document.getElementById("start").hidden = false;
    window.pondappStop(say("The app could not start. Load the page again.",
      "Die App konnte nicht starten. Lade die Seite neu.") + ` (${error.message})`);
  });
  // A snapshot that twice led to no screen is left alone until a new version makes its own; and
  // where making one was twice cut off, by a device short of memory perhaps, no other is made.
  const tally = (what) => {
    const kept = name(what);
    return {
      get count() {
        const [of, count] = (localStorage.getItem(kept) || "").split(" ");
        return of === "@PYTHON@" ? Number(count) : 0;
      },
      set count(count) { localStorage.setItem(kept, `@PYTHON@ ${count}`); },
    };
  };
  const restoring = tally("restoring");
  const making = tally("making");
  const ENOUGH = 2;
  let restored = false;
  const newWorker = () => new Worker(new URL("worker.js", base), { type: "module" });
  const worker = newWorker();
  worker.onmessage = ({ data }) => {
    if (data instanceof Uint8Array) deliver(data);
    else if (data.loaded !== undefined) { if (!shown) count(data.loaded); }
    else if (data.error !== undefined) failed(new Error(data.error));
    else if (data.restoring !== undefined) {
      restored = data.restoring;
      restoring.count += restored ? 1 : -1;
    } else ready();
  };
  worker.onerror = (event) => failed(new Error(event.message || "a file is missing"));
  // The screen follows the reader's text size by itself; Python lays it out for that size.
  const textScale = parseFloat(getComputedStyle(root).fontSize) / 16 || 1;
  worker.postMessage({ documentUrl: document.URL, tab, textScale, trusted: restoring.count < ENOUGH });

  globalThis.jsConnect = async (_app, _args, onMessage) => {
    await initialized;
    deliver = onMessage;
    early.splice(0).forEach(onMessage);
  };
  globalThis.jsSend = async (_app, data) => worker.postMessage(data, [data.buffer]);
  globalThis.jsDisconnect = async () => worker.terminate();

  // ---- the screen
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
  screen.onerror = () => failed(new Error("the screen's program is missing"));
  document.body.appendChild(screen);
  window.addEventListener("flutter-first-frame", async () => {
    try {
      await initialized;
    } catch {
      return; // the start screen already says so
    }
    if (window.pondappRefused) return;
    shown = true;
    watcher.disconnect();
    document.getElementById("start").hidden = true;
    document.querySelector("flutter-view")?.setAttribute("role", "main"); // for screen readers
    root.dataset.app = "started";
    keepOffline();
  }, { once: true });
  // Safari brings a page back from its memory with a screen that no longer draws.
  window.addEventListener("pageshow", (event) => {
    if (event.persisted && navigator.vendor.startsWith("Apple")) location.reload();
  });

  // ---- when the screen was really touched: by the clock that nobody can set, whatever the time
  const touches = new BroadcastChannel(name("touch"));
  const stamp = (t, away) => touches.postMessage({ t, origin: performance.timeOrigin, away, tab });
  window.addEventListener("pointerdown", (event) => stamp(event.timeStamp, false),
    { capture: true, passive: true });
  document.addEventListener("visibilitychange", () => stamp(performance.now(), true));

  // ---- a snapshot for faster starts, made while nobody needs the processor
  let touched = performance.now();
  for (const kind of ["pointerdown", "keydown"]) {
    window.addEventListener(kind, () => { touched = performance.now(); }, { capture: true });
  }
  function prepareSnapshot() {
    // Only browsers that tell of enough memory for a second Python; the others start as before.
    if (!(navigator.deviceMemory >= 4)) return;
    if (restoring.count >= ENOUGH || making.count >= ENOUGH) return;
    const watch = setInterval(() => {
      if (document.hidden || performance.now() - touched < QUIET) return;
      clearInterval(watch);
      making.count += 1;
      const maker = newWorker();
      maker.onmessage = ({ data }) => {
        if (data.loaded !== undefined) return;
        root.dataset.snapshot = data.snapshot || data.error;
        if (data.snapshot) making.count = 0;
        maker.terminate();
      };
      maker.postMessage({ make: true });
    }, 1000);
  }

  // ---- what only a page may ask of the browser, for Python in its worker
  const asked = new BroadcastChannel(name("page"));
  const asShared = ({ title, text, url, name, data }) => {
    const shared = { title };
    if (text) shared.text = text;
    if (url) shared.url = url;
    if (data) shared.files = [new File([data], name, { type: "application/json" })];
    return shared;
  };
  let sound = null;
  const tick = (high) => {
    sound ??= new AudioContext();
    sound.resume().catch(() => {});
    const tone = sound.createOscillator();
    const volume = sound.createGain();
    const now = sound.currentTime;
    tone.frequency.value = high ? 880 : 660;
    volume.gain.setValueAtTime(0.2, now);
    volume.gain.exponentialRampToValueAtTime(0.001, now + 0.12);
    tone.connect(volume).connect(sound.destination);
    tone.start(now);
    tone.stop(now + 0.12);
  };
  const abilities = {
    async speak({ language }) {
      root.lang = language; // Python says so when its first screen stands
      sayBar();
      if (restored) restoring.count = 0;
      root.dataset.python = restored ? "restored" : "begun";
      return "done";
    },
    async cue({ cue }) { // in the hand and in the ear
      if (navigator.vibrate) navigator.vibrate(cue === "start" ? 40 : [40, 60, 40]);
      if (typeof AudioContext !== "function") return "impossible";
      tick(cue === "stop");
      return "done";
    },
    async motion() {
      return matchMedia("(prefers-reduced-motion: reduce)").matches ? "reduced" : "free";
    },
    async persist() {
      if (!navigator.storage || !navigator.storage.persist) return "impossible";
      return await navigator.storage.persist() ? "done" : "refused";
    },
    async show({ data }) { // a page of our own making, for the browser's own way to print
      const address = URL.createObjectURL(new Blob([data], { type: "text/html" }));
      return window.open(address) ? "done" : "impossible";
    },
    async save({ name, data }) { // a Blob: it lies with the browser, not in Python's memory
      const link = document.createElement("a");
      link.href = URL.createObjectURL(data);
      link.download = name;
      link.click();
      setTimeout(() => URL.revokeObjectURL(link.href), 60000);
      return "done";
    },
    async share(values) {
      const shared = asShared(values);
      if (!navigator.share || (navigator.canShare && !navigator.canShare(shared))) {
        return "impossible";
      }
      try {
        await navigator.share(shared);
        return "done";
      } catch (error) {
        return error.name === "AbortError" ? "cancelled" : "impossible";
      }
    },
  };
  asked.onmessage = async ({ data }) => {
    if (data.tab !== tab || !Object.hasOwn(abilities, data.ask)) return; // of another tab
    let answer = "impossible";
    try {
      answer = await abilities[data.ask](data);
    } catch (error) {
      console.info(`${data.ask}: ${error.message}`);
    }
    asked.postMessage({ tab, answers: data.number, answer });
  };

  // A picked file goes to Python as it lies on the device, to be read in pieces. The client, which
  // would read it whole, is handed an empty one of its name.
  const files = Object.getOwnPropertyDescriptor(HTMLInputElement.prototype, "files");
  const click = HTMLInputElement.prototype.click;
  HTMLInputElement.prototype.click = function () {
    if (this.type === "file") {
      const empty = () => {
        const [picked] = files.get.call(this);
        const handed = new DataTransfer();
        if (picked) {
          asked.postMessage({ tab, picked });
          handed.items.add(new File([], picked.name));
        }
        return handed.files;
      };
      Object.defineProperty(this, "files", { get: empty });
    }
    click.call(this);
  };

  // ---- offline, and new versions
  const updates = new BroadcastChannel(name("update"));
  const bar = document.getElementById("bar");
  let waiting = null;
  const restart = () => waiting && waiting.postMessage("take over");
  window.pondappUpdate = { ready: false, restart };
  updates.onmessage = ({ data }) => { if (data === "restart") restart(); };
  const barRestart = document.getElementById("bar-restart");
  const barLater = document.getElementById("bar-later");
  const sayBar = () => {
    barRestart.textContent = say("New version: restart", "Neue Fassung: neu starten");
    barLater.textContent = say("Later", "Später");
  };
  barRestart.onclick = restart;
  barLater.onclick = () => { bar.hidden = true; };

  function offer(registration) {
    if (!registration.waiting || !navigator.serviceWorker.controller) return;
    waiting = registration.waiting;
    window.pondappUpdate.ready = true;
    updates.postMessage("ready");
    document.getElementById("bar-text").hidden = true;
    sayBar();
    bar.hidden = false;
  }

  function follow(registration) {
    const newcomer = registration.installing;
    if (newcomer) newcomer.addEventListener("statechange", () => {
      root.dataset.update = newcomer.state;
      offer(registration);
    });
  }

  async function keepOffline() {
    if (!navigator.serviceWorker) {
      root.dataset.offline = "impossible";
      return;
    }
    let hasOne = Boolean(navigator.serviceWorker.controller);
    let reloading = false;
    navigator.serviceWorker.addEventListener("controllerchange", () => {
      const first = !hasOne; // it only takes a page that is already its own
      hasOne = true;
      if (first || reloading) return;
      reloading = true;
      location.reload();
    });
    try {
      const registration = await navigator.serviceWorker.register(
        `sw.js?${renderer}`, { updateViaCache: "none" });
      follow(registration);
      registration.addEventListener("updatefound", () => follow(registration));
      offer(registration);
      await navigator.serviceWorker.ready;
      root.dataset.offline = "ready";
      prepareSnapshot();
      document.addEventListener("visibilitychange", () => {
        if (document.visibilityState === "visible") registration.update().catch(() => {});
      });
    } catch (error) {
      // Offline with a version already kept, this is normal; the kept one goes on working.
      root.dataset.offline = hasOne ? "ready" : "refused";
      console.info(`not kept for offline use: ${error.message}`);
    }
  }
})();
