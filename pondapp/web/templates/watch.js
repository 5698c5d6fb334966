// Notices that Python or the screen is gone, or never came, and says so over whatever is there.
function watchOver({ say, openings, fetching, sendPing, stopPython }) {
  const BEAT = 1000; // ms between two looks
  const LATE = 3000; // ms; a look this late says that the page was asleep, not that Python is
  const SILENT = 20_000; // ms without an answer, the page in front; Python may be busy
  const NEVER = 60_000; // ms without any sign of life at the start
  const BROKEN = 8000; // ms from an error to the words, for a screen that never came
  const found = { python: false, screen: false, error: null, dead: false };
  let quiet = 0;
  let sinceError = 0;
  let asked = false;
  let panel = null;

  const typed = () => // what no draft may have heard of yet
    document.querySelector("flt-text-editing-host :is(input, textarea)")?.value || "";

  function button(text, act) {
    const made = document.createElement("button");
    made.type = "button";
    made.textContent = text;
    made.onclick = act;
    return made;
  }

  function show(title, lines, buttons) {
    hide();
    panel = document.createElement("section");
    panel.id = "halt";
    panel.setAttribute("role", "alertdialog");
    panel.setAttribute("aria-modal", "true");
    panel.setAttribute("aria-labelledby", "halt-title");
    panel.setAttribute("aria-describedby", "halt-text");
    const heading = document.createElement("h1");
    heading.id = "halt-title";
    heading.textContent = title;
    const text = document.createElement("div");
    text.id = "halt-text";
    for (const line of lines.filter(Boolean)) {
      const paragraph = document.createElement("p");
      paragraph.textContent = line;
      text.append(paragraph);
    }
    panel.append(heading, text, ...buttons);
    document.body.append(panel);
    buttons[0].focus();
  }
  function hide() {
    panel?.remove();
    panel = null;
  }

  const again = () => {
    stopPython();
    location.reload();
  };
  const safe = () => {
    stopPython();
    location.href = "./?safe";
  };
  const offers = () => {
    const suspect = openings.suspect();
    return [
      button({
        link: say("Start without the link"),
        document: say("Start without this document"),
        none: say("Start again"),
      }[suspect.what], again),
      ...(suspect.what === "none" ? [] : [
        button(say("Start as before"), () => {
          openings.done();
          again();
        }),
      ]),
      button(say("Safe start"), safe),
    ];
  };
  const whatWas = () => {
    const suspect = openings.suspect();
    if (suspect.what === "link") {
      return say("It happened while a link was being opened.");
    }
    return suspect.what === "document" && say("It happened while reading {name}.", {
      name: suspect.name,
    });
  };
  const kept = () => [
    say("What you saved is safe on this device, and so is what you had typed or timed up to then."),
    typed() && say("The field you were in said: {text}", { text: typed() }),
  ];

  // Whatever it is, it is said once; what comes after it is its consequence.
  function gone(by, why) {
    if (found.dead || window.pondappRefused) return;
    found.dead = true;
    openings.died(by);
    document.documentElement.dataset.halted = by;
    const never = !(found.python && found.screen);
    show(never ? say("The app could not start") : say("The app has stopped"),
      [...kept(), whatWas(), why && say("The reason given: {reason}", { reason: why })], offers());
  }

  function silent() {
    document.documentElement.dataset.halted = "silent";
    show(say("The app does not answer"), [
      say("It may still be at work on something large. This goes away by itself once it answers."),
      ...kept(),
    ], [
      button(say("Wait"), () => { quiet = -2 * SILENT; hide(); }),
      button(say("Start again"), () => {
        openings.died("silence");
        again();
      }),
    ]);
  }

  window.pondappWatched = true;
  let last = performance.now();
  setInterval(() => {
    const now = performance.now();
    const passed = now - last;
    last = now;
    if (found.dead) return;
    if (document.hidden || passed > LATE) { // a phone in the background stops everything
      quiet = Math.min(quiet, 0);
      return;
    }
    if (!fetching()) quiet += passed; // a slow network is not the app's silence
    if (!asked && found.python) {
      asked = true;
      sendPing();
    }
    if (found.error && !found.screen) sinceError += passed;
    if (sinceError > BROKEN) gone("screen", found.error);
    else if (quiet > (found.python && found.screen ? SILENT : NEVER) && !panel) silent();
  }, BEAT);

  // A program of the screen that fails at its start says so here and nowhere else.
  const noticed = (error) => {
    if (!found.screen) found.error ??= String(error?.message || error);
    else if (error instanceof WebAssembly.RuntimeError) gone("screen", error.message);
  };
  window.addEventListener("error", (event) => noticed(event.error || event.message));
  window.addEventListener("unhandledrejection", (event) => noticed(event.reason));

  // Not in the way of anything: what this start went without, and how to have it all the same.
  function tellLeftOut(link, documents) {
    const bar = document.createElement("div");
    bar.id = "left-out";
    bar.setAttribute("role", "status");
    const text = document.createElement("span");
    const names = documents.filter(Boolean).join(", ");
    text.textContent = names
      ? say("The last start ended while reading {names}: this is left out, and lies where it was.",
        { names })
      : link
        ? say("The last start ended while a link was being opened: the link is left out.")
        : say("The last start ended early. This one began from nothing, without shortcuts.");
    bar.append(text);
    if (link) {
      bar.append(button(say("Open the link"), () => {
        bar.remove();
        location.hash = link;
      }));
    }
    bar.append(
      button(say("Safe start"), safe),
      button(say("Close"), () => bar.remove()),
    );
    document.body.append(bar);
  }

  return {
    gone,
    tellLeftOut,
    heard() { // any sign of life
      quiet = Math.min(quiet, 0);
      if (panel && !found.dead) {
        delete document.documentElement.dataset.halted;
        hide();
      }
    },
    answered() {
      asked = false;
    },
    has(what) { found[what] = true; },
  };
}

