// First script of the page, in plain old syntax so that an old browser can read it far enough to
// say that it is too old.
(function () {
  "use strict";
  var text = document.getElementById("start-text");
  var progress = document.getElementById("start-progress");

  // Languages besides English: the decimal mark of each.
  var DECIMALS = /*@DECIMALS@*/ {};
  var language = (navigator.language || "").slice(0, 2).toLowerCase();
  var root = document.documentElement;
  // The screen's program writes a language of its own into the page until Python tells it one.
  function speak(language) {
    root.lang = root.dataset.language = language;
    document.getElementById("start").lang = document.getElementById("pad").lang = language;
  }
  // What a program of the page says until Python runs, or without it: its texts in other languages
  // are put into it when the site is built.
  function sayer(words) {
    return function (english, values) {
      var text = (words[english] || {})[root.dataset.language] || english;
      return text.replace(/\{(\w+)\}/g, function (place, name) {
        return values && name in values ? values[name] : place;
      });
    };
  }
  var say = sayer(/*@WORDS@*/ {});
  speak(language in DECIMALS ? language : "en");
  window.pondappSpeak = speak;
  window.pondappSayer = sayer;
  window.pondappDecimal = function () { return DECIMALS[root.dataset.language] || "."; };
  text.textContent = say("Starting");

  function stop(message) {
    text.textContent = message;
    progress.hidden = true;
    document.getElementById("start-ways").hidden = true;
  }
  window.pondappStop = stop;

  // Until the watchdog is there, whatever fails here is said by nobody else.
  window.addEventListener("error", function (event) {
    if (window.pondappWatched || !event.error) return;
    stop(say("The app could not start. Load the page again, or try the safe start. The reason " +
      "given: {reason}", { reason: event.message }));
    document.getElementById("start-long").style.animationDelay = "0s";
  });

  // Says, when it takes long, what else there is. Where not even this program came, it stands there
  // in English.
  var long = document.getElementById("start-long");
  var around = say("Nothing happens? Load the page again, or try the {start}.").split("{start}");
  long.firstChild.data = around[0];
  long.querySelector("a").textContent = say("safe start");
  long.lastChild.data = around[1];

  // A browser may name a language that is none, such as "C": the screen's program would die of it.
  function known(tag) {
    try {
      return Boolean(new Intl.Locale(tag));
    } catch (_) {
      return false;
    }
  }
  var tags = [].concat(navigator.languages || [], navigator.language || []);
  if (typeof Intl === "object" && Intl.Locale && !tags.every(known)) {
    tags = tags.filter(known).concat("en");
    Object.defineProperty(navigator, "language", { value: tags[0] });
    Object.defineProperty(navigator, "languages", { value: tags });
  }

  // What another app shares with this one comes as a question, which no plan may stay in: a plan in
  // it is opened as its link would be.
  window.pondappShared = function (question) {
    var texts = [];
    new URLSearchParams(question).forEach(function (text) { texts.push(text); });
    var plan = /#\/shared\/[\w-]+/.exec(texts.join(" "));
    return plan ? plan[0] : "";
  };
  if (/^\?shared/.test(location.search)) {
    history.replaceState(null, "", location.pathname + window.pondappShared(location.search));
  }

  // The browser says once that the app can be installed, maybe before anybody else listens.
  window.addEventListener("beforeinstallprompt", function (event) {
    event.preventDefault(); // it is offered in the app's own words
    window.pondappInstall = event;
  });

  // A small module with an exception handler: browsers that refuse it cannot run the Python here.
  var handler = [0, 97, 115, 109, 1, 0, 0, 0, 1, 4, 1, 96, 0, 0, 3, 2, 1, 0, 10, 8, 1, 6, 0, 6, 64,
    25, 11, 11];
  var able = typeof WebAssembly === "object" && typeof BigInt64Array === "function" &&
    typeof Worker === "function" && typeof Promise === "function" &&
    typeof ReadableStream === "function" && "noModule" in HTMLScriptElement.prototype &&
    typeof BroadcastChannel === "function" && WebAssembly.validate(new Uint8Array(handler));
  if (!able) {
    stop(say("This browser is too old for the app. Update it, or use a current Chrome, Edge, " +
      "Firefox or Safari."));
    return;
  }

  var base = document.createElement("base"); // any sub-path of any host
  var path = new URL(".", document.URL.split("#")[0]).pathname;
  base.href = path;
  document.head.insertBefore(base, document.head.firstChild);

  // A host may hold several copies of the app: what each keeps and says has its path in its name.
  window.pondappName = function (what) { return "pondapp-" + what + " " + path; };

  function refused() {
    window.pondappRefused = true; // what has begun meanwhile must not cover the message
    stop(say("This browser does not let the app keep anything on this device, so readings would " +
      "be lost. Leave private browsing, or allow site data for this page, and load it again."));
  }
  function go() {
    function missing() {
      if (window.pondappBooted) return;
      stop(say("The app could not be loaded: the network gave no answer, or another one, such as " +
        "a page to sign in. Load the page again."));
    }
    if (!window.pondappPad) {
      missing();
      return;
    }
    var script = document.createElement("script");
    script.src = location.search === "?safe" ? "safe.js" : "boot.js";
    script.onload = script.onerror = missing;
    document.body.appendChild(script);
  }
  // The stopwatch comes first, and is drawn: what follows keeps the processor busy for seconds.
  function goSoon() {
    var gone = false;
    function once() {
      if (!gone) go();
      gone = true;
    }
    requestAnimationFrame(function () { setTimeout(once); });
    setTimeout(once, 200); // a tab behind another draws nothing
  }
  try {
    var request = indexedDB.open("pondapp-trial");
    request.onerror = refused;
    request.onsuccess = function () { request.result.close(); };
    document.addEventListener("DOMContentLoaded", goSoon);
  } catch (_) {
    refused();
  }
})();
