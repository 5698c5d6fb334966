// The safe start: no Python, no screen program, nothing read but a list of what is kept here. It
// saves a backup by itself and starts the app without whatever ended it.
"use strict";
window.pondappBooted = true;
(async () => {
  const say = window.pondappSayer(/*@WORDS@*/ {});
  const name = window.pondappName;
  const SHOWN = 300; // documents that are listed one by one
  const KINDS = {
    pond: say("Ponds"),
    reading: say("Readings"),
    entry: say("Other entries of the logs"),
    draft: say("Half done"),
    preferences: say("Settings"),
    quarantine: say("Set aside as damaged"),
    aside: say("Set aside as damaged"),
    before: say("From before the last restore"),
  };
  const answered = (asked) => new Promise((done, failed) => {
    asked.onsuccess = () => done(asked.result);
    asked.onerror = () => failed(asked.error);
  });
  const make = (tag, text) => {
    const made = document.createElement(tag);
    if (text !== undefined) made.textContent = text;
    return made;
  };
  const press = (text, act) => {
    const made = make("button", text);
    made.type = "button";
    made.onclick = act;
    return made;
  };

  // The database of this copy of the app, else the one that early versions kept; null without any.
  async function open() {
    for (const of of [name("data"), "pondapp"]) {
      const asked = indexedDB.open(of);
      asked.onupgradeneeded = () => asked.transaction.abort(); // none is made
      const found = await answered(asked).catch(() => null);
      if (found?.objectStoreNames.contains("texts")) return found;
    }
    return null;
  }
  const data = await open();
  const texts = () => data.transaction("texts").objectStore("texts");
  const keys = data ? await answered(texts().getAllKeys()) : [];

  const main = make("main");
  main.id = "safe";
  const said = make("p");
  said.setAttribute("role", "status");
  main.append(make("h1", say("Safe start")), make("p", say(
    "The app itself is not running now. Below is what it keeps on this device, as it lies there. " +
    "Save a backup first; then start the app again.")));

  const timed = await window.pondappPad.untaken();
  if (timed.length) {
    main.append(make("p", say(
      "Timed and waiting for the next start of the app: {times}.", { times: timed.join(", ") })));
  }

  // ---- a backup: every text as it is, which a restore looks at as it looks at any other
  const AT_ONCE = 200; // texts that are read in one go
  const LARGEST_LINE = 64e6; // bytes of a line that a restore reads
  const line = (value) => `${JSON.stringify(value)}\n`;

  async function read(some) { // what cannot be read of them is null and hides no other
    const store = texts();
    try {
      return await Promise.all(some.map((key) => answered(store.get(key))));
    } catch {
      const found = [];
      for (const key of some) found.push(await answered(texts().get(key)).catch(() => null));
      return found;
    }
  }

  async function backUp() {
    const now = new Date().toISOString();
    const parts = [line({ format: "pondapp-backup", format_version: 2, holds: "everything",
      saved_at: now })]; // the browser holds what is in a Blob where it likes
    const photos = []; // they come last
    const end = {};
    let [count, unread, large] = [0, 0, 0];
    const mine = keys.map(String).filter((key) => !key.startsWith("before/")); // copies of copies
    for (let at = 0; at < mine.length; at += AT_ONCE) {
      said.textContent = say("Read: {n} of {m}", { n: at, m: mine.length });
      const some = mine.slice(at, at + AT_ONCE);
      const [lines, pictures] = [[], []];
      for (const [number, found] of (await read(some)).entries()) {
        if (found === undefined) continue; // deleted meanwhile
        if (found === null) {
          unread += 1;
          continue;
        }
        const [key, text] = [some[number], String(found)];
        const made = line({ key, text });
        // At most three bytes are made of a letter.
        if (made.length > LARGEST_LINE / 3 && new Blob([made]).size > LARGEST_LINE) {
          large += 1;
          continue;
        }
        (text.includes('"kind":"photo"') ? pictures : lines).push(made);
        const kind = key.split("/")[0];
        end[kind] = (end[kind] || 0) + 1;
        count += 1;
      }
      parts.push(new Blob(lines));
      photos.push(new Blob(pictures));
    }
    const body = new Blob([...parts, ...photos]);
    const digest = await crypto.subtle.digest("SHA-256", await body.arrayBuffer());
    const sha256 = Array.from(new Uint8Array(digest), (byte) =>
      byte.toString(16).padStart(2, "0")).join("");
    const file = new Blob([body, line({ end, sha256 })], { type: "application/json" });
    const link = make("a");
    link.href = URL.createObjectURL(file);
    link.download = `pondapp-${now.slice(0, 10)}.json`;
    link.click();
    said.textContent = [
      say("Given to the browser: {file}, {count} documents.", { file: link.download, count }),
      unread && say("{count} could not be read from the device.", { count: unread }),
      large && say("{count} are too large for it and stay on this device only.", { count: large }),
    ].filter(Boolean).join(" ");
  }

  // ---- documents that the next starts leave out
  const LEFT_OUT = name("left-out");
  const recall = (key) => {
    try {
      return JSON.parse(localStorage.getItem(key));
    } catch {
      return null;
    }
  };
  const leftOut = new Set(recall(LEFT_OUT)?.keys);
  const start = (address) => {
    try {
      localStorage.removeItem(name("ended")); // first: it makes room
      localStorage.removeItem(LEFT_OUT);
      if (leftOut.size) {
        localStorage.setItem(LEFT_OUT, JSON.stringify({ python: "@PYTHON@", keys: [...leftOut] }));
      }
    } catch {
      // Full or refused: the app starts all the same, with all that there is.
    }
    location.href = address;
  };
  main.append(
    press(say("Save a backup"), backUp),
    said,
    press(say("Start the app without a link"), () => start("./?plain")),
    press(say("Start the app as usual"), () => start("./")),
  );

  // ---- the list
  main.append(make("h2", data
    ? say("Kept here: {count} documents", { count: keys.length })
    : say("Nothing is kept here yet")));
  if (keys.length) {
    main.append(make("p", say(
      "A document with a tick is left out when the app starts; it stays where it is.")));
  }
  const choice = async (key) => {
    const label = make("label");
    const box = make("input");
    box.type = "checkbox";
    box.checked = leftOut.has(key);
    box.onchange = () => { box.checked ? leftOut.add(key) : leftOut.delete(key); };
    label.append(box, key);
    if (key.startsWith("pond/")) { // its name says more
      const text = await answered(texts().get(key)).catch(() => "");
      const named = /"name"\s*:\s*"((?:[^"\\]|\\.){1,80})"/.exec(String(text).slice(0, 5000));
      if (named) label.lastChild.data = `${JSON.parse(`"${named[1]}"`)} (${key})`;
    }
    return label;
  };
  let listed = 0;
  for (const [kind, title] of Object.entries(KINDS)) {
    const mine = keys.map(String).filter((key) => key.startsWith(`${kind}/`));
    if (mine.length === 0) continue;
    main.append(make("h2", `${title}: ${mine.length}`));
    const few = mine.slice(0, Math.max(0, SHOWN - listed));
    listed += few.length;
    for (const key of few) main.append(await choice(key));
    if (few.length < mine.length) {
      const more = mine.length - few.length;
      main.append(make("p", say("{count} more are not listed.", { count: more })));
    }
  }
  document.getElementById("start").hidden = true;
  document.body.append(main);
  document.documentElement.dataset.app = "safe";
})().catch((error) => window.pondappStop(String(error)));
