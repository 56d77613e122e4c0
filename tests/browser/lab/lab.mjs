// The worker of the lab: the same parts laid in the same places as the app's own worker, then any code that is asked.
import { loadPyodide } from "./pyodide/pyodide.mjs";
import { fetchParts, layParts } from "./parts.mjs";
import * as storeFiles from "./opfs_fs.mjs";

const parts = fetchParts();
const started = (async () => {
  const pyodide = await loadPyodide();
  pyodide.registerJsModule("flet_js", { documentUrl: new URL("./", self.location.href).href, args: {} });
  pyodide.registerJsModule("store_files", storeFiles);
  await layParts(pyodide, parts);
  pyodide.runPython("import sys; sys.path[1:1] = ['lib.zip', '__pypackages__']");
  return pyodide;
})();
let turn = started;
self.onmessage = ({ data: { number, code } }) => {
  turn = turn.then(async () => {
    const pyodide = await started;
    try {
      await pyodide.runPythonAsync(code);
      self.postMessage({ number, answer: pyodide.globals.get("answer") });
    } catch (error) {
      self.postMessage({ number, error: String(error) });
    }
  });
};
