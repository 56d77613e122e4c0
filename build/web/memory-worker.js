// Loads Python and what every start needs, beside the page and while nobody waits, and keeps the memory of it all.
import { isKept, keep } from "./memory.mjs";
import { fetchParts, layParts } from "./parts.mjs";

// Everything that is found by its path is laid anew at each start; only what was loaded from there stays.
const AHEAD = `
import gc
import sys
paths = list(sys.path)
sys.path[:0] = ["__pypackages__", "lib.zip"]
gc.disable()
import pyodide.http, runpy, traceback
import app.web
from app.main import load_ahead
load_ahead()
sys.path[:] = paths
del app, gc, load_ahead, paths, pyodide, runpy, sys, traceback
`;

const make = async () => {
    if (await isKept()) return;
    const parts = fetchParts();
    const { loadPyodide } = await import("./pyodide/pyodide.mjs");
    const python = await loadPyodide({ _makeSnapshot: true });
    await layParts(python, parts);
    python.runPython(AHEAD);
    await keep(python.makeMemorySnapshot());
};

make().then(() => postMessage("kept"), (error) => postMessage(String(error)));
