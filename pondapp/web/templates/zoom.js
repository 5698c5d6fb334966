// The reader may zoom with two fingers. The screen's program would take what is left in sight for a
// smaller window and draw itself anew in its corner: it is told of the whole window instead.
function keepWholeWhenZoomed(root) {
  const seen = window.visualViewport;
  if (!seen) return;
  const { width, height, scale } = Object.getOwnPropertyDescriptors(VisualViewport.prototype);
  const zoom = () => scale.get.call(seen);
  const whole = (side) => () => {
    const shown = side.get.call(seen);
    return zoom() === 1 ? shown : Math.round(shown * zoom());
  };
  Object.defineProperties(seen, {
    width: { get: whole(width) }, height: { get: whole(height) }, scale: { get: () => 1 },
  });
  // Two wet fingers on the stopwatch are no zoom, but what is zoomed can be made small again there.
  seen.addEventListener("resize", () => root.toggleAttribute("data-zoomed", zoom() > 1));
}

