// Has a snapshot made for faster starts, while nobody needs the processor; counts what goes wrong.
function snapshotsOf({ name, newWorker }) {
  const QUIET = 6000; // ms without a touch, before anything is done that nobody asked for
  const LONGEST = 120_000; // ms for making one; what takes longer is no gain for anybody
  const PATIENT = 10_000; // ms; a start that the reader leaves sooner is not held against anybody
  const root = document.documentElement;
  // Tries of this version that were not seen to end well. The count stands while one is going on,
  // so that the page need not live to tell; one that the reader went away from is none.
  // Where nothing can be counted, since the browser refuses or has no room, none is tried.
  function triesOf(what, most) {
    const kept = name(what);
    let going = false;
    const tries = {
      get count() {
        try {
          const [of, count] = (localStorage.getItem(kept) || "").split(" ");
          return of === "@PYTHON@" ? Number(count) : 0;
        } catch {
          return most;
        }
      },
      set count(count) {
        try {
          localStorage.setItem(kept, `@PYTHON@ ${count}`);
        } catch {
          most = 0;
        }
      },
      get spent() { return tries.count >= most; },
      goes(yes) {
        if (going !== yes) tries.count += yes ? 1 : -1;
        going = yes;
      },
      failed() { going = false; }, // it stays counted
      succeeded() {
        going = false;
        tries.count = 0;
      },
    };
    return tries;
  }
  const making = triesOf("making", 2);
  // After a start from it that led to no screen the next one goes without, which counts too: so
  // the count is odd where the last start was one from the snapshot.
  const restoring = triesOf("restoring", 4);
  let restored = false;
  let stands = false;
  let touched = performance.now();
  for (const kind of ["pointerdown", "keydown"]) {
    window.addEventListener(kind, () => { touched = performance.now(); }, { capture: true });
  }

  let maker = null;
  let begun = 0; // to make one, or to take it up
  const stop = () => {
    maker?.terminate();
    maker = null;
  };
  function make() {
    making.goes(true);
    begun = performance.now();
    maker = newWorker();
    maker.onmessage = ({ data }) => {
      const said = data.snapshot || data.error || data.dead;
      if (said === undefined) return;
      root.dataset.snapshot = said;
      if (data.snapshot) making.succeeded();
      clearInterval(watch);
      stop();
    };
    maker.postMessage({ make: true });
  }
  let watch;
  function look() {
    // A device that is short of memory ends what lies in the background, and a fill is worth more.
    const unwelcome = document.hidden || root.dataset.pad === "running";
    if (!maker) {
      if (!unwelcome && performance.now() - touched > QUIET) make();
    } else if (unwelcome) {
      stop();
      making.goes(false);
    } else if (performance.now() - begun > LONGEST) {
      root.dataset.snapshot = "too slow";
      making.failed();
      clearInterval(watch);
      stop();
    }
  }
  // The room is needed for what the reader keeps: no more of them until a new version comes.
  function giveUp() {
    clearInterval(watch);
    stop();
    making.count = 2;
  }
  if (root.dataset.full) giveUp(); // the stopwatch had none before this program was there
  window.addEventListener("pondapp-full", giveUp);
  const away = (gone) => {
    if (maker && gone) {
      stop();
      making.goes(false);
    }
    const excused = performance.now() - begun < PATIENT && root.dataset.halted === undefined;
    if (restored && !stands && excused) restoring.goes(!gone);
  };
  window.addEventListener("pagehide", () => away(true));
  document.addEventListener("visibilitychange", () => away(document.hidden));

  return {
    // Whether this start may take the snapshot up; `blameless` where it is known what ended the
    // one before.
    trusted(blameless) {
      const odd = restoring.count % 2 === 1;
      // Written each time: so it is known whether it can be.
      restoring.count += odd ? (blameless ? -1 : 1) : 0;
      return !odd && !restoring.spent;
    },
    restores(how) { // "begun", and then "late" or "spoilt" where it came to nothing
      restored = how === "begun";
      begun = performance.now();
      if (restored) restoring.goes(!document.hidden);
      else if (how === "spoilt") restoring.goes(false);
      else restoring.failed();
      return restored;
    },
    // The first screen stands.
    stands() {
      stands = true;
      if (restored) restoring.succeeded();
    },
    prepare() {
      if (restored) return;
      if (restoring.spent) indexedDB.deleteDatabase(name("snapshot")); // of no use on this device
      else if (!making.spent) watch = setInterval(look, 1000);
    },
    giveUp,
  };
}

