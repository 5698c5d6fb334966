"use strict"; // all that follows in this file too

// Notes what this page is opening where the next start finds it, should this one die of it.
function openingsOf({ name, tab }) {
  const NOTES = `${name("opening")} `; // and the tab
  const LEFT_OUT = name("left-out"); // documents that ended a Python of this version
  const ENDED = name("ended"); // how many starts in a row led to no screen
  const alive = (one) => `${NOTES}${one}`; // a lock that is held for as long as the page lives
  const read = (key) => {
    try {
      return JSON.parse(localStorage.getItem(key));
    } catch {
      return null;
    }
  };
  const write = (key, value) => {
    try {
      if (value === null) localStorage.removeItem(key);
      else localStorage.setItem(key, JSON.stringify(value));
    } catch {
      // Full or refused: then the next start knows less, and nothing else is wrong.
    }
  };
  navigator.locks?.request(alive(tab), () => new Promise(() => {}));
  let note = null;
  const keep = () => write(NOTES + tab, note);

  // A page that is left in good order has not died, nor has one that the phone ends behind others.
  const leave = () => { if (note && !note.by) write(NOTES + tab, null); };
  window.addEventListener("pagehide", leave);
  document.addEventListener("visibilitychange", () => {
    if (document.hidden) leave();
    else if (note) keep();
  });

  return {
    // What the pages before this one died of; their notes are gone with that.
    async before() {
      const keys = Object.keys(localStorage).filter((key) =>
        key.startsWith(NOTES) && key !== NOTES + tab);
      if (keys.length === 0) return [];
      const { held = [] } = await navigator.locks?.query() ?? {};
      const living = new Set(held.map((lock) => lock.name));
      const dead = keys.filter((key) => !living.has(key) || read(key)?.by); // or says that it is
      const notes = dead.map(read).filter(Boolean);
      for (const key of dead) write(key, null);
      if (notes.length) write(ENDED, this.ended + 1);
      const documents = notes.map((one) => one.reading).filter(Boolean);
      if (documents.length) this.leftOut = [...new Set([...this.leftOut, ...documents])];
      return notes;
    },
    get ended() { return read(ENDED) || 0; },
    get leftOut() {
      const found = read(LEFT_OUT);
      return found && found.python === "@PYTHON@" ? found.keys : [];
    },
    set leftOut(keys) {
      write(LEFT_OUT, keys.length ? { python: "@PYTHON@", keys } : null);
    },
    begin(link) {
      note = { link };
      keep();
    },
    restores(yes) { // Python from a snapshot
      if (note) note.restored = yes;
      keep();
    },
    reads(key) { // Python says so of each document that is not small
      if (note) note.reading = key;
    },
    suspect() {
      if (note?.reading) return { what: "document", name: note.reading };
      return { what: note?.link ? "link" : "none" };
    },
    died(by) {
      note ??= { link: location.hash.length > 2 ? location.hash : "" };
      note.by = by;
      keep();
    },
    done() {
      note = null;
      keep();
    },
    settled() {
      this.done();
      write(ENDED, null);
    },
  };
}

