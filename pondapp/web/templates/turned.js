// Keeps the field in hand in sight where the window becomes lower, as when a phone is turned: the
// client scrolls to it with the next key only, and from outside it scrolls for a wheel only.
function keepFieldInSight() {
  const EDGE = 80; // pixels at both ends: the title above, the four places below
  const LOOKS = [100, 300, 700, 1500]; // ms after the turn: Python lays the screen out anew
  let waiting = [];
  const stop = () => waiting.splice(0).forEach(clearTimeout);
  const look = () => {
    const field = document.activeElement;
    const view = field?.closest("flutter-view");
    if (!view || !field.matches("input, textarea")) return;
    const { left, top, bottom, width } = field.getBoundingClientRect();
    const low = (visualViewport?.height ?? innerHeight) - EDGE;
    const deltaY = bottom > low ? Math.min(bottom - low, top - EDGE) : Math.min(0, top - EDGE);
    if (!deltaY) return;
    view.dispatchEvent(new WheelEvent("wheel", {
      deltaY, clientX: left + width / 2, clientY: low / 2, bubbles: true, cancelable: true,
    }));
  };
  window.addEventListener("resize", () => {
    stop();
    waiting = LOOKS.map((after) => setTimeout(look, after));
  });
  for (const kind of ["pointerdown", "wheel"]) { // somebody scrolls by hand
    window.addEventListener(kind, (event) => { if (event.isTrusted) stop(); },
      { capture: true, passive: true });
  }
}
