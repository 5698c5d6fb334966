// The browser's Python. Everything it needs is in two packs of files beside the runtime: what every
// start reads, and the modules.
//
// A start from nothing reads and runs some hundreds of modules. Once for each version, while nobody
// touches the screen, a second worker does that ahead and keeps a snapshot of Python's memory;
// later starts take it up instead, without their files. Whatever is wrong with a snapshot, the start
// from nothing works.
import { loadPyodide } from "./pyodide/pyodide.mjs";

const here = new URL(".", import.meta.url).href; // the page may have made the program of the worker
const LIBRARIES = /*@LIBRARIES@*/ {}; // where Python looks for each: its file on the site
const SNAPSHOT = `pondapp-snapshot ${new URL(here).pathname}`; // its database, and its lock
const PYTHON = "@PYTHON@"; // what a snapshot is of
const ALWAYS = "start.bin"; // what is no module of a package
const MODULES = "pack.bin";
const PARTS = "parts"; // of the memory by their places, and "facts" for what must be known of it
const PART = 2 ** 21; // bytes
const STATE_AT = 48; // where the runtime puts its state into what it makes
const ROOM = 200e6; // bytes that must be free: what the user keeps comes first
const SOON = 3000; // ms for a database to say what is in it
const LONGEST = 8000; // ms for reading the memory: from nothing it would not take much longer
const ANSWERED = 15_000; // ms for a file that Python waits for: less than a dead one is silent
const runtime = import("./pyodide/pyodide.asm.mjs");
const bridge = { path: new URL(here).pathname, makeRoom }; // what Python knows of the page
const EARLY = "pondapp"; // the database before copies of the app were told apart
let started = false;
let lives = () => {};
const lastLine = (error) => String(error?.message || error).trim().split("\n").pop();

new PerformanceObserver((list) => {
  self.postMessage({
    loaded: list.getEntries().reduce((sum, entry) => sum + entry.decodedBodySize, 0),
  });
}).observe({ type: "resource", buffered: true });

async function fetchBytes(path) {
  const response = await fetch(`${here}${path}`);
  if (!response.ok) throw new Error(`${path}: ${response.status}`);
  return new Uint8Array(await response.arrayBuffer());
}

// For what is awaited later: until then a failure is not yet anybody's.
function fetchLater(path) {
  const bytes = fetchBytes(path);
  bytes.catch(() => {});
  return bytes;
}

// Waits for it where the caller cannot: Python, while it reads a module.
function fetchAtOnce(path) {
  const request = new XMLHttpRequest();
  request.open("GET", `${here}${path}`, false);
  request.responseType = "arraybuffer";
  request.timeout = ANSWERED;
  request.send();
  if (request.status !== 200) throw new Error(`${path}: ${request.status}`);
  return new Uint8Array(request.response);
}

async function compile(path) {
  try {
    return await WebAssembly.compileStreaming(fetch(`${here}${path}`));
  } catch {
    return WebAssembly.compile(await fetchBytes(path)); // a host that does not know its type
  }
}

function writerTo(FS) {
  const made = new Set();
  return (path, data) => {
    const folder = `/app/${path}`.replace(/\/[^/]*$/, "");
    if (!made.has(folder)) {
      FS.mkdirTree(folder);
      made.add(folder);
    }
    FS.writeFile(`/app/${path}`, data, { canOwn: true });
  };
}

// [length of the index, 4 bytes][index: {path: length} in JSON][all files one after the other]
function unpack(pack, write) {
  const length = new DataView(pack.buffer).getUint32(0, true);
  const index = JSON.parse(new TextDecoder().decode(pack.subarray(4, 4 + length)));
  let at = 4 + length;
  for (const [path, size] of Object.entries(index)) {
    write(path, pack.subarray(at, at + size));
    at += size;
  }
  if (at !== pack.length) throw new Error("a pack of files is not whole");
}

// The address of a function that Python calls through; it must be where the snapshot has it.
const trampoline = (module) => {
  const offset = module.HEAP32[module.__PyEM_EMSCRIPTEN_TRAMPOLINE_OFFSET / 4];
  return module.HEAP32[(module.__PyRuntime + offset) / 4];
};

// Python with these packs and libraries in it. The libraries go in before Python starts, so that
// they lie at the same places each time: a snapshot holds addresses.
async function boot({ packs, compiled }, { snapshot, making }) {
  let facts;

  async function furnish(module) {
    const write = writerTo(module.FS);
    for (const pack of packs) unpack(await pack, write);
    for (const [path, library] of compiled) {
      write(path, new Uint8Array()); // found, never read
      const exports = await module.loadWebAssemblyModule(
        await library, { loadAsync: true, nodelete: true }, `/app/${path}`, {});
      module.newDSO(`/app/${path}`, undefined, exports).global = false;
    }
  }

  async function createPyodideModule(settings) {
    const { default: create } = await runtime;
    const module = await new Promise((resolve, reject) => {
      settings.preRun.push((unfinished) => {
        unfinished.addRunDependency("libraries");
        furnish(unfinished).then(() => unfinished.removeRunDependency("libraries"), reject);
      });
      create(settings).then(resolve, reject);
    });
    settings.API.on_fatal = (error) => {
      self.postMessage({ dead: lastLine(error), reading: bridge.reading ?? null });
    };
    facts = { table: module.wasmTable.length, trampoline: trampoline(module) };
    if (snapshot) {
      const memory = await within(LONGEST, snapshot.memory);
      settings.API.restoreSnapshot = () => restore(module, facts, snapshot.facts, memory);
    }
    return module;
  }

  const python = await loadPyodide({
    indexURL: `${here}pyodide/`,
    lockFileContents: { info: /*@LOCK_INFO@*/ {}, packages: {} },
    stdout: (line) => console.log(line),
    stderr: (line) => console.warn(line),
    createPyodideModule,
    _makeSnapshot: making,
    _loadSnapshot: snapshot && new Uint8Array(), // only says that there is one
    _snapshotDeserializer: () => bridge,
  });
  if (snapshot) {
    python.runPython("import random\nrandom.seed()"); // else the same each time
    bridge.bringModules = () => {
      try {
        unpack(fetchAtOnce(MODULES), writerTo(python.FS));
        return true;
      } catch (error) {
        console.info(`modules do not come: ${error.message}`);
        return false;
      }
    };
  } else {
    python.registerJsModule("flet_js", bridge);
    python.runPython("import sys\nsys.path.insert(0, '/app')");
  }
  return { python, facts };
}

// A sum that any damage changes.
function sumUp(bytes) {
  const words = new Uint32Array(bytes.buffer, bytes.byteOffset, bytes.length >> 2);
  let sum = 0;
  for (let at = 0; at < words.length; at += 1) sum = (Math.imul(sum, 31) + words[at]) | 0;
  return sum;
}

// What a promise gives, unless it takes too long; the late one is then nobody's.
function within(longest, promise) {
  let timer;
  const late = new Promise((_, failed) => {
    timer = setTimeout(() => failed(new DOMException("it takes too long", "TimeoutError")), longest);
  });
  promise.catch(() => {});
  return Promise.race([promise, late]).finally(() => clearTimeout(timer));
}

// The database of a name, or null; none is made.
function openExisting(name) {
  return new Promise((done, failed) => {
    const asked = indexedDB.open(name);
    asked.onupgradeneeded = () => asked.transaction.abort();
    asked.onsuccess = () => {
      asked.result.onversionchange = () => asked.result.close(); // whoever deletes it may
      done(asked.result);
    };
    asked.onerror = () => asked.error.name === "AbortError" ? done(null) : failed(asked.error);
  });
}

const answered = (asked) => new Promise((done, failed) => {
  asked.onsuccess = () => done(asked.result);
  asked.onerror = () => failed(asked.error);
});

const forgetSnapshot = () => answered(indexedDB.deleteDatabase(SNAPSHOT));

// The snapshot of this version: what is known of it, and its memory, which is still being read.
// Null where there is none; one of another version goes.
async function openSnapshot() {
  const kept = await openExisting(SNAPSHOT);
  if (!kept) return null;
  const parts = kept.transaction(PARTS).objectStore(PARTS);
  const facts = await answered(parts.get("facts"));
  if (facts?.python !== PYTHON) {
    kept.close();
    await forgetSnapshot();
    return null;
  }
  const memory = Promise.all(facts.places.map(async (at) => [at, await answered(parts.get(at))]));
  const closed = () => kept.close();
  memory.then(closed, closed);
  return { facts, memory };
}

// Fills the memory and gives the state of the runtime that belongs to it.
function restore(module, found, facts, parts) {
  if (facts.table !== found.table) throw new Error("the libraries lie elsewhere");
  if (facts.heap > module.HEAP8.length) module.growMemory(facts.heap);
  const memory = module.HEAPU8.subarray(0, facts.length);
  let filled = 0;
  for (const [at, part] of parts.splice(0)) {
    memory.fill(0, filled, at); // what was nothing but zeros is not kept
    memory.set(part, at);
    filled = at + part.length;
  }
  if (sumUp(memory) !== facts.sum) throw new Error("it is not as it was written");
  if (trampoline(module) !== found.trampoline) throw new Error("a function lies elsewhere");
  return facts.state;
}

// Python as it is after all modules were read, kept in one step, in the place of any older one.
async function makeSnapshot() {
  // Early versions had it in a private folder.
  navigator.storage?.getDirectory?.()
    .then((root) => root.removeEntry(`snapshots of ${encodeURIComponent(bridge.path)}`,
      { recursive: true }))
    .catch(() => {});
  if (await openSnapshot()) return "kept";
  const { usage, quota } = await navigator.storage?.estimate?.() ?? {};
  if (quota - usage < ROOM) return "no room"; // one that does not tell may try
  const { python, facts } = await boot(fromNothing(parts()), { making: true });
  python.runPython("import runpy\nrunpy.run_module('ahead')");
  const whole = python.makeMemorySnapshot({
    serializer(value) {
      if (value !== bridge) throw new Error(`a module holds a part of the page: ${value}`);
      return "bridge";
    },
  });
  const [, from, stateLength] = new Uint32Array(whole.buffer, 0, 3); // the runtime's own layout
  const state = new TextDecoder().decode(whole.subarray(STATE_AT, STATE_AT + stateLength));
  const used = whole.findLastIndex((byte) => byte !== 0) + 1 - from;
  const memory = whole.subarray(from, from + 4 * Math.ceil(used / 4));
  const asked = indexedDB.open(SNAPSHOT);
  asked.onupgradeneeded = () => asked.result.createObjectStore(PARTS);
  const database = await answered(asked);
  const kept = database.transaction(PARTS, "readwrite").objectStore(PARTS);
  const places = [];
  for (let at = 0; at < memory.length; at += PART) {
    const part = memory.slice(at, at + PART); // of its own: else all that it is cut from is kept
    if (part.every((byte) => byte === 0)) continue;
    places.push(at);
    await answered(kept.put(part, at)); // one at a time: there may be little memory for more
  }
  kept.put({
    ...facts, python: PYTHON, places, heap: python._module.HEAP8.length, length: memory.length,
    sum: sumUp(memory), state: JSON.parse(state),
  }, "facts");
  await new Promise((done, failed) => {
    kept.transaction.oncomplete = done;
    kept.transaction.onabort = () => failed(kept.transaction.error);
  });
  database.close();
  return "made";
}

// What both ways of starting need, asked for at once.
function parts() {
  const packs = [fetchLater(ALWAYS)];
  const compiled = Object.entries(LIBRARIES).map(([path, file]) => [path, compile(file)]);
  for (const [, library] of compiled) library.catch(() => {});
  return { packs, compiled };
}
const fromNothing = ({ packs, compiled }) => ({ packs: [...packs, fetchLater(MODULES)], compiled });

async function bootFastest(trusted) {
  const asked = parts();
  const snapshot = trusted ? await within(SOON, openSnapshot()).catch(() => null) : null;
  if (!snapshot) return boot(fromNothing(asked), {});
  self.postMessage({ restoring: "begun" });
  try {
    return await boot(asked, { snapshot });
  } catch (error) {
    console.info(`not from the snapshot: ${error.message}`);
    const late = error.name === "TimeoutError";
    self.postMessage({ restoring: late ? "late" : "spoilt" });
    if (!late) forgetSnapshot().catch(() => {});
  }
  return boot(fromNothing(asked), {});
}

// Early versions kept everything under one name for all copies of the app on a host. Each copy that
// starts without a database of its own copies that one, in one step, and leaves it where it is. The
// result is the name of the database to use: the early one still where there is no room for two, or
// where copying takes too long, and what comes of it late is undone: nothing is written to both.
async function takeOver(name) {
  let early;
  try {
    const own = await within(SOON, openExisting(name));
    if (own) own.close();
    early = own ? null : await within(SOON, openExisting(EARLY));
  } catch {
    return name; // Python finds the same, and says so
  }
  if (!early) return name;
  let made;
  let late = false;
  try {
    const texts = early.transaction("texts").objectStore("texts");
    const [keys, values] = await within(
      LONGEST, Promise.all([texts.getAllKeys(), texts.getAll()].map(answered)));
    made = indexedDB.open(name, 1);
    made.onupgradeneeded = () => {
      if (late) return made.transaction.abort();
      const copy = made.result.createObjectStore("texts");
      keys.forEach((key, at) => copy.put(values[at], key));
    };
    (await within(LONGEST, answered(made))).close();
    return name;
  } catch (error) {
    late = true;
    made?.transaction?.abort();
    console.info(`kept where it was: ${error.message}`);
    return EARLY;
  } finally {
    early.close();
  }
}

async function start({ documentUrl, tab, textScale, trusted, leftOut = [] }) {
  const database = takeOver(`pondapp-data ${bridge.path}`);
  const { python } = await bootFastest(trusted);
  lives = () => python.globals; // refused once Python has ended
  bridge.database = await database;
  bridge.documentUrl = documentUrl;
  bridge.tab = tab;
  bridge.textScale = textScale;
  bridge.leftOut = leftOut;
  await python.runPythonAsync("import runpy\nrunpy.run_module('main', run_name='__main__')");
  await bridge.start_connection((message) => {
    const bytes = message.toJs();
    self.postMessage(bytes, [bytes.buffer]);
  });
  self.postMessage({ ready: true });
}

// The device is full: what the user keeps comes first. Whether there is more room now.
async function makeRoom() {
  const kept = await openExisting(SNAPSHOT).catch(() => null);
  if (!kept) return false;
  kept.close();
  self.postMessage({ noRoom: true });
  await forgetSnapshot();
  return true;
}

function answerPing() {
  try {
    lives();
    self.postMessage({ pong: true });
  } catch (error) {
    self.postMessage({ dead: lastLine(error), reading: bridge.reading ?? null });
  }
}

self.onmessage = async ({ data }) => {
  if (data.ping) {
    answerPing();
    return;
  }
  if (started) {
    bridge.send(data);
    return;
  }
  started = true;
  try {
    if (data.make) {
      self.postMessage({
        snapshot: await navigator.locks.request(SNAPSHOT, { ifAvailable: true }, (lock) =>
          lock ? makeSnapshot() : "made elsewhere"), // never twice at once, whatever the tab
      });
    }
    else await start(data);
  } catch (error) {
    if (!data.make) console.error(error); // without a snapshot all goes on, only slower
    self.postMessage({ error: lastLine(error) });
  }
};
