// Run once while the site is built: a worker reads all modules ahead, and record.py sends what it
// noted.
const worker = new Worker("worker.js", { type: "module" });
const failed = (body) => fetch("failed", { method: "POST", body });
worker.onmessage = ({ data }) => {
  if (data.error) failed(data.error);
};
worker.onerror = (event) => failed(event.message || "a file is missing");
worker.postMessage({ make: true });
