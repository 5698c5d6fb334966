// Stands where the client looks for an animation runtime that this app does not use, so that
// nothing is asked of another host. The client waits for this promise in the background only.
globalThis.RiveNative = () => new Promise(() => {});
