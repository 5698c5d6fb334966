"use strict"; // all that follows in this file too

// What of an address may have ended an app. A stopwatch's has nothing in it, and is not to be left
// out: a fill may be running there.
function linkOf(hash) {
  const stopwatch = /^#\/(pond\/[^/]+\/)?(measure|tune)(\/|$)/.test(hash);
  return hash.length > 2 && !stopwatch ? hash : "";
}

// Notes what this page is opening where the next start finds it, should this one die of it. Until it
// is known to have died, the note is of this tab and this run of the browser: where the whole browser
// is ended, old notes come back that were deleted long before.
function openingsOf({ name, tab }) {
  const NOTE = name("opening");
  const DEAD = `${name("died")} `; // and the tab
  const LEFT_OUT = name("left-out"); // documents that ended a Python of this version
  const ENDED = name("ended"); // how many starts in a row led to no screen
  const always = () => localStorage; // asked for within `try`: a browser may refuse even that
  const thisTab = () => sessionStorage;
  const read = (key, where = always) => {
    try {
      return JSON.parse(where().getItem(key));
    } catch {
      return null;
    }
  };
  const write = (key, value, where = always) => {
    try {
      if (value === null) where().removeItem(key);
      else where().setItem(key, JSON.stringify(value));
    } catch {
      // Full or refused: then the next start knows less, and nothing else is wrong.
    }
  };
  let note = null;
  let over = false; // this page has died, and only still says so
  const keep = () => write(NOTE, over ? null : note, thisTab);

  // A page that is left in good order has not died, nor has one that the phone ends behind others.
  const leave = () => { write(NOTE, null, thisTab); };
  window.addEventListener("pagehide", leave);
  document.addEventListener("visibilitychange", () => {
    if (document.hidden) leave();
    else keep();
  });

  return {
    // What the pages before this one died of; their notes are gone with that.
    before() {
      let keys = [];
      try {
        keys = Object.keys(localStorage).filter((key) => key.startsWith(DEAD));
      } catch {
        // Refused: then nothing was noted.
      }
      const notes = [...keys.map((key) => read(key)), read(NOTE, thisTab)].filter(Boolean);
      for (const key of keys) write(key, null);
      write(NOTE, null, thisTab);
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
      note ??= { link: linkOf(location.hash) };
      over = true;
      write(DEAD + tab, { ...note, by });
      keep();
    },
    done() {
      note = null;
      keep();
      write(DEAD + tab, null);
    },
    settled() {
      this.done();
      write(ENDED, null);
    },
  };
}

