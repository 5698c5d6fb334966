// The browser's Python. Everything it needs is in one pack of files beside the runtime.
import { loadPyodide } from "./pyodide/pyodide.mjs";

const here = new URL(".", self.location.href).href;
const bridge = {};
let started = false;

new PerformanceObserver((list) => {
  self.postMessage({
    loaded: list.getEntries().reduce((sum, entry) => sum + entry.decodedBodySize, 0),
  });
}).observe({ type: "resource", buffered: true });

async function fetchPack() {
  const response = await fetch(`${here}pack.bin`);
  if (!response.ok) throw new Error(`pack.bin: ${response.status}`);
  return new Uint8Array(await response.arrayBuffer());
}

// [length of the index, 4 bytes][index: {path: length} in JSON][all files one after the other]
function unpack(FS, pack) {
  const length = new DataView(pack.buffer).getUint32(0, true);
  const index = JSON.parse(new TextDecoder().decode(pack.subarray(4, 4 + length)));
  let at = 4 + length;
  const made = new Set();
  for (const [path, size] of Object.entries(index)) {
    const folder = `/app/${path}`.replace(/\/[^/]*$/, "");
    if (!made.has(folder)) {
      FS.mkdirTree(folder);
      made.add(folder);
    }
    FS.writeFile(`/app/${path}`, pack.subarray(at, at + size), { canOwn: true });
    at += size;
  }
  if (at !== pack.length) throw new Error("pack.bin is not whole");
}

async function start({ documentUrl, tab, textScale }) {
  const packed = fetchPack();
  packed.catch(() => {}); // awaited below; until then a failure is not yet anybody's
  const python = await loadPyodide({
    indexURL: `${here}pyodide/`,
    lockFileContents: { info: /*@LOCK_INFO@*/ {}, packages: {} },
    stdout: (line) => console.log(line),
    stderr: (line) => console.warn(line),
  });
  unpack(python.FS, await packed);
  bridge.documentUrl = documentUrl;
  bridge.tab = tab;
  bridge.textScale = textScale;
  python.registerJsModule("flet_js", bridge);
  await python.runPythonAsync(
    "import runpy, sys\nsys.path.insert(0, '/app')\nrunpy.run_module('main', run_name='__main__')");
  await bridge.start_connection((message) => {
    const bytes = message.toJs();
    self.postMessage(bytes, [bytes.buffer]);
  });
  self.postMessage({ ready: true });
}

self.onmessage = async ({ data }) => {
  if (started) {
    bridge.send(data);
    return;
  }
  started = true;
  try {
    await start(data);
  } catch (error) {
    console.error(error);
    self.postMessage({ error: String(error.message || error).trim().split("\n").pop() });
  }
};
