// Has a snapshot made for faster starts, while nobody needs the processor; counts what goes wrong.
function snapshotsOf({ name, newWorker }) {
  const QUIET = 6000; // ms without a touch, before anything is done that nobody asked for
  const ENOUGH = 2;
  const root = document.documentElement;
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
  let touched = performance.now();
  for (const kind of ["pointerdown", "keydown"]) {
    window.addEventListener(kind, () => { touched = performance.now(); }, { capture: true });
  }
  function prepare() {
    // Only browsers that tell of enough memory for a second Python; the others start as before.
    if (!(navigator.deviceMemory >= 4)) return;
    if (restoring.count >= ENOUGH || making.count >= ENOUGH) return;
    const watch = setInterval(() => {
      if (document.hidden || performance.now() - touched < QUIET) return;
      clearInterval(watch);
      making.count += 1;
      const maker = newWorker();
      maker.onmessage = ({ data }) => {
        const said = data.snapshot || data.error || data.dead;
        if (said === undefined) return;
        root.dataset.snapshot = said;
        if (data.snapshot) making.count = 0;
        maker.terminate();
      };
      maker.postMessage({ make: true });
    }, 1000);
  }

  return { trusted: () => restoring.count < ENOUGH, restoring, prepare };
}

