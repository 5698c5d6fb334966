// What the device's system has to do with the app: it may be installed, is handed files,
// and shows a number on its icon. Python hears of it once it asks.
function systemOf({ tell }) {
  const opened = []; // files, until Python asks
  let listens = false;
  const open = (file) => {
    if (listens) tell({ opened: file });
    else opened.push(file);
  };
  const installing = () => {
    const own = matchMedia("(display-mode: standalone), (display-mode: minimal-ui)").matches;
    if (own || navigator.standalone) return "no"; // it is installed
    if (window.pondappInstall) return "ask";
    // Phones and tablets whose browsers have a place for it in their own menu, and never offer it.
    return "standalone" in navigator && navigator.maxTouchPoints > 1 ? "menu" : "no";
  };
  for (const event of ["beforeinstallprompt", "appinstalled"]) {
    window.addEventListener(event, () => {
      if (event === "appinstalled") window.pondappInstall = null;
      if (listens) tell({ installing: installing() });
    });
  }

  // A page that is loaded again is handed once more what it was opened with.
  const again = performance.getEntriesByType("navigation")[0]?.type === "reload";
  window.launchQueue?.setConsumer(async ({ targetURL, files = [] }) => {
    if (!listens && again) return;
    // A page that has just begun was led there by its address.
    const { hash, search } = new URL(targetURL || location.href);
    const there = hash || window.pondappShared(search);
    if (listens && there.length > 1) location.hash = there;
    for (const handle of files) open(await handle.getFile());
  });
  return {
    async system() {
      listens = true;
      setTimeout(() => opened.splice(0).forEach(open));
      return installing();
    },
    async install() {
      const offer = window.pondappInstall;
      if (!offer) return "impossible";
      window.pondappInstall = null; // it can be used once
      await offer.prompt();
      await offer.userChoice;
      return installing();
    },
    async badge({ count }) {
      if (!navigator.setAppBadge) return "impossible";
      await (count ? navigator.setAppBadge(count) : navigator.clearAppBadge());
      return "done";
    },
  };
}

