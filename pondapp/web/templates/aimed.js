// A touch is meant for what was in sight when the finger came down. One that comes down where
// another screen has just taken that place presses nothing there: nobody sees a screen and touches
// what is on it so soon. A drag still scrolls, and what is the same on both screens hears it.
function aimAtWhatIsSeen() {
  const REACTION = 250; // ms from what is seen to a touch of it
  const DRAG = 18; // pixels; a finger that moves further presses nothing anyway
  const fingers = new Map();
  let screens = 0;
  let seen = -Infinity; // when the screen in front stood on the glass
  let stays = () => false; // whether a place is the same on it as on the one before

  const answer = (kind, { pointerId, pointerType, isPrimary, button, clientX, clientY }, target) =>
    target.dispatchEvent(new PointerEvent(kind, {
      pointerId, pointerType, isPrimary, button, clientX, clientY,
      buttons: kind === "pointerdown" ? 1 : 0, bubbles: true, cancelable: true, composed: true,
    }));
  const stop = (event) => {
    event.stopImmediatePropagation();
    event.preventDefault();
  };
  let pressed = -Infinity; // when a finger was lifted whose press is to be nothing
  const hear = (kind, act) => window.addEventListener(kind, (event) => {
    if (event.isTrusted) act(event, fingers.get(event.pointerId));
  }, true);

  hear("pointerdown", (event) => {
    if (!event.target.closest?.("flutter-view")) return;
    const { clientX: x, clientY: y } = event;
    const late = event.timeStamp < seen + REACTION && !stays(x, y);
    // What is touched may be of a screen that goes before the finger is lifted.
    const going = seen === Infinity ? -1 : screens;
    fingers.set(event.pointerId, { x, y, late, screen: going });
  });
  hear("pointermove", (event, finger) => {
    if (finger && Math.hypot(event.clientX - finger.x, event.clientY - finger.y) > DRAG) {
      fingers.delete(event.pointerId);
    }
  });
  hear("pointercancel", (event) => fingers.delete(event.pointerId));
  hear("pointerup", (event, finger) => {
    fingers.delete(event.pointerId);
    if (finger?.late) {
      pressed = performance.now();
      stop(event);
      answer("pointercancel", event, event.target);
    } else if (finger && finger.screen !== screens && stays(finger.x, finger.y)) {
      // It went: what has come there hears of the touch.
      setTimeout(() => {
        const target = document.elementFromPoint(finger.x, finger.y);
        for (const kind of ["pointerdown", "pointerup"]) answer(kind, event, target);
      });
    }
  });
  hear("click", (event) => {
    if (performance.now() - pressed < 50 && event.target.closest?.("flutter-view")) stop(event);
    pressed = -Infinity;
  });

  // Another screen has been handed over. So much of the window's foot, or of its left side below
  // the bar with the title, is as before.
  return ({ route, foot, side, bar }) => {
    screens += 1;
    stays = (x, y) => y > innerHeight - foot || (x < side && y > bar);
    seen = Infinity; // until it is drawn
    const here = screens;
    const drawn = () => {
      if (here !== screens || seen < Infinity) return;
      seen = performance.now();
      document.documentElement.dataset.screen = route;
    };
    requestAnimationFrame(() => requestAnimationFrame(drawn));
    setTimeout(drawn, 1000); // a tab behind another draws nothing
  };
}

