// Keeps the app for offline use and offers new versions.
function keeperOf({ say, name, renderer, kept }) {
  const root = document.documentElement;
  const updates = new BroadcastChannel(name("update"));
  const bar = document.getElementById("bar");
  let waiting = null;
  const restart = () => waiting && waiting.postMessage("take over");
  window.pondappUpdate = { ready: false, restart };
  updates.onmessage = ({ data }) => { if (data === "restart") restart(); };
  const barRestart = document.getElementById("bar-restart");
  const barLater = document.getElementById("bar-later");
  const sayBar = () => {
    barRestart.textContent = say("New version: restart");
    barLater.textContent = say("Later");
  };
  barRestart.onclick = restart;
  barLater.onclick = () => { bar.hidden = true; };

  function offer(registration) {
    if (!registration.waiting || !navigator.serviceWorker.controller) return;
    waiting = registration.waiting;
    window.pondappUpdate.ready = true;
    updates.postMessage("ready");
    document.getElementById("bar-text").hidden = true;
    sayBar();
    bar.hidden = false;
  }

  function follow(registration) {
    const newcomer = registration.installing;
    if (newcomer) newcomer.addEventListener("statechange", () => {
      root.dataset.update = newcomer.state;
      offer(registration);
    });
  }

  async function keepOffline() {
    if (!navigator.serviceWorker) {
      root.dataset.offline = "impossible";
      return;
    }
    let hasOne = Boolean(navigator.serviceWorker.controller);
    let reloading = false;
    navigator.serviceWorker.addEventListener("controllerchange", () => {
      const first = !hasOne; // it only takes a page that is already its own
      hasOne = true;
      if (first || reloading) return;
      reloading = true;
      location.reload();
    });
    try {
      const registration = await navigator.serviceWorker.register(
        `sw.js?${renderer}`, { updateViaCache: "none" });
      follow(registration);
      registration.addEventListener("updatefound", () => follow(registration));
      offer(registration);
      await navigator.serviceWorker.ready;
      root.dataset.offline = "ready";
      kept();
      document.addEventListener("visibilitychange", () => {
        if (document.visibilityState === "visible") registration.update().catch(() => {});
      });
    } catch (error) {
      // Offline with a version already kept, this is normal; the kept one goes on working.
      root.dataset.offline = hasOne ? "ready" : "refused";
      console.info(`not kept for offline use: ${error.message}`);
    }
  }

  return { keepOffline, sayBar };
}

