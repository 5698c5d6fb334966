// What a test does to the page, and how it learns that the app has taken it.
"use strict";
(() => {
  const PAUSE = 30; // ms, and a frame: a busy machine takes longer by itself
  const LOOKS = 3; // equal ones in a row: it stays so
  const MOST = 100; // looks until something is tried again

  const pause = () => new Promise((done) => setTimeout(() => {
    const late = setTimeout(done, 1000); // a tab behind another draws no frames
    requestAnimationFrame(() => { clearTimeout(late); done(); });
  }, PAUSE));

  const comesTrue = async (check, inARow = 1) => {
    let found = 0;
    for (let look = 0; look < MOST && found < inARow; look += 1) {
      if (look) await pause();
      found = check() ? found + 1 : 0;
    }
    return found === inARow;
  };

  const boxOf = (control) => {
    const { left, top, width, height } = control.getBoundingClientRect();
    return [left, top, width, height].join();
  };

  const READ = new TextDecoder("utf-8");
  const PRESSED = /name.(click|change|view_pop)/;

  // Until nothing more is sent: what a key said late is not taken for the answer to a press.
  const quiet = () => {
    let before = -1;
    return comesTrue(() => {
      const same = hands.sent.length === before;
      before = hands.sent.length;
      return same;
    }, LOOKS);
  };

  const hands = {
    sent: [], // messages to Python, as far as they can be read: what the app takes of a deed

    // What Flutter makes of a touch while its tree is in use: an action of this very control.
    async click(control) {
      await comesTrue(() => control.isConnected && control.hasAttribute("flt-tappable"));
      await quiet();
      hands.sent = [];
      control.click();
    },

    // The same; whether the app has taken it.
    async press(control) {
      await hands.click(control);
      return comesTrue(() => hands.sent.some((told) => PRESSED.test(told)));
    },

    // Take a field in hand; what it held, or null.
    async take(field) {
      hands.sent = [];
      field.focus();
      if (!await comesTrue(() => document.activeElement === field, LOOKS)) return null;
      return field.value;
    },

    // Whether the field in hand holds a text, for good, and all of it was told.
    holds(field, text) {
      return comesTrue(() => document.activeElement === field && field.value === text &&
        hands.sent.some((told) => told.includes(`value`) && told.includes(text)), LOOKS);
    },

    // The middle of a control that stands still with nothing over it.
    async middle(control) {
      let before = "";
      const still = () => {
        const same = boxOf(control) === before;
        before = boxOf(control);
        return same;
      };
      if (!await comesTrue(still, LOOKS)) return null;
      const box = control.getBoundingClientRect();
      const [x, y] = [box.left + box.width / 2, box.top + box.height / 2];
      return control.contains(document.elementFromPoint(x, y)) ? [x, y] : null;
    },
  };
  window.hands = hands;
  window.Worker = class extends Worker {
    postMessage(data, ...more) {
      if (data instanceof Uint8Array) hands.sent.push(READ.decode(data));
      super.postMessage(data, ...more);
    }
  };
})();
