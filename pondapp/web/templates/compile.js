// Run once while the site is built: the browser's own Python turns sources into what it would
// otherwise make of them at every start.
import { loadPyodide } from "./pyodide/pyodide.mjs";

async function compile() {
  const python = await loadPyodide({
    indexURL: new URL("pyodide/", document.baseURI).href,
    lockFileContents: { info: /*@LOCK_INFO@*/ {}, packages: {} },
    // The order of constant sets; lines without columns in error messages.
    env: { PYTHONHASHSEED: "0", PYTHONNODEBUGRANGES: "1" },
  });
  const sources = await (await fetch("sources.bin")).arrayBuffer();
  python.FS.writeFile("/sources.bin", new Uint8Array(sources));
  python.runPython(await (await fetch("compile.py")).text());
  return python.FS.readFile("/compiled.bin");
}

compile().then(
  (body) => fetch("compiled.bin", { method: "POST", body }),
  (error) => fetch("failed", { method: "POST", body: String(error) }));
