// Does what only a page may ask of the browser, for Python in its worker.
function answerPython({ name, tab, spoken, arrived }) {
  const asked = new BroadcastChannel(name("page"));
  const asShared = ({ title, text, url, name, data }) => {
    const shared = { title };
    if (text) shared.text = text;
    if (url) shared.url = url;
    const type = name?.endsWith(".ics") ? "text/calendar" : "application/json";
    if (data) shared.files = [new File([data], name, { type })];
    return shared;
  };
  const { python } = window.pondappPad;
  const heard = (presses) => asked.postMessage({ tab, presses });
  // The client counts the steps of its history; its first one is never given up.
  const { pushState } = history;
  const instead = new Set(); // addresses of screens
  history.pushState = (...how) => {
    const change = instead.delete(String(how[2]).split("#")[1]) ? history.replaceState : pushState;
    change.apply(history, how);
  };
  // Back does not lead from one screen of a pond that is gone to the next of it: such steps are
  // skipped, but for the first, before which there is nothing of the app.
  let ponds = null; // ids of those that are there; null until Python says so
  const isGone = () => {
    const found = /^#\/(?:pond|measure)\/([^/]+)/.exec(location.hash);
    return ponds !== null && found !== null && found[1] !== "none" && !ponds.has(found[1]);
  };
  window.addEventListener("popstate", (event) => {
    if ((event.state?.serialCount ?? 0) === 0 || !isGone()) return;
    event.stopImmediatePropagation(); // the client goes on with the step after these
    history.back();
  }, true);
  const abilities = {
    async ponds({ ponds: ids }) { // one has come or gone
      ponds = new Set(JSON.parse(ids));
      return "done";
    },
    ...systemOf({ tell: (what) => asked.postMessage({ tab, ...what }) }),
    async instead({ route }) { // this screen, once it is opened, takes the step of the one before
      if ((history.state?.serialCount ?? 0) > 0) instead.add(route);
      setTimeout(() => instead.delete(route), 10_000);
      return "done";
    },
    async arrived(edges) { // another screen, after what draws it
      arrived(edges);
      return "done";
    },
    async speak({ language }) { // its first screen stands, in this language
      spoken(language);
      return "done";
    },
    async presses({ ponds: ids }) { // made before Python was there, and from now on all others
      ponds = new Set(JSON.parse(ids));
      return python.begin({ ponds: [...ponds], heard });
    },
    async pad({ state }) {
      python.show(JSON.parse(state));
      return "done";
    },
    async stale({ ponds }) {
      python.stale(JSON.parse(ponds));
      return "done";
    },
    async cover({ on }) {
      python.cover(on);
      return "done";
    },
    async taken({ ids }) { // presses that are saved with what they are of
      python.taken(JSON.parse(ids));
      return "done";
    },
    async motion() {
      return matchMedia("(prefers-reduced-motion: reduce)").matches ? "reduced" : "free";
    },
    async persist() {
      if (!navigator.storage || !navigator.storage.persist) return "impossible";
      return await navigator.storage.persist() ? "done" : "refused";
    },
    async show({ data }) { // a page of our own making, for the browser's own way to print
      const address = URL.createObjectURL(new Blob([data], { type: "text/html" }));
      return window.open(address) ? "done" : "impossible";
    },
    async save({ name, data }) { // a Blob: it lies with the browser, not in Python's memory
      const link = document.createElement("a");
      link.href = URL.createObjectURL(data);
      link.download = name;
      link.click();
      setTimeout(() => URL.revokeObjectURL(link.href), 60000);
      return "done";
    },
    async share(values) {
      const shared = asShared(values);
      if (!navigator.share || (navigator.canShare && !navigator.canShare(shared))) {
        return "impossible";
      }
      try {
        await navigator.share(shared);
        return "done";
      } catch (error) {
        return error.name === "AbortError" ? "cancelled" : "impossible";
      }
    },
  };
  asked.onmessage = async ({ data }) => {
    if (data.tab !== tab || !Object.hasOwn(abilities, data.ask)) return; // of another tab
    let answer = "impossible";
    try {
      answer = await abilities[data.ask](data);
    } catch (error) {
      console.info(`${data.ask}: ${error.message}`);
    }
    asked.postMessage({ tab, answers: data.number, answer });
  };

  // A picked file goes to Python as it lies on the device, to be read in pieces. The client, which
  // would read it whole, is handed an empty one of its name.
  const files = Object.getOwnPropertyDescriptor(HTMLInputElement.prototype, "files");
  const click = HTMLInputElement.prototype.click;
  HTMLInputElement.prototype.click = function () {
    if (this.type === "file") {
      const empty = () => {
        const [picked] = files.get.call(this);
        const handed = new DataTransfer();
        if (picked) {
          asked.postMessage({ tab, picked });
          handed.items.add(new File([], picked.name));
        }
        return handed.files;
      };
      Object.defineProperty(this, "files", { get: empty, configurable: true });
    }
    click.call(this);
  };
}

