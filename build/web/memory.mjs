// Python's memory with everything loaded that a start needs, kept by this browser: a later start takes it up instead of
// loading all of that again. It is made here, by `memory-worker.js`, and never comes over the network.

const VERSION = "/*VERSION*/";                        // of every part that Python is made of
const HERE = new URL("./", import.meta.url).href;
const STORE = "evenload " + HERE;                     // the service worker's, which drops what is of another version
const KEY = HERE + "memory.bin?hash=" + VERSION;

const store = () => globalThis.caches?.open(STORE);   // none where the page is not trusted

export const isKept = async () => (await (await store())?.match(KEY)) !== undefined;
export const keep = async (memory) => (await store()).put(KEY, new Response(memory));
const drop = async () => (await store())?.delete(KEY);

// Python's own loader copies a memory only into one that is already as large.
const asLarge = (code) => async (settings) => {
    const made = await (await code).default(settings);
    made.growMemory(settings.INITIAL_MEMORY);
    return made;
};

// What `loadPyodide` needs for Python out of the kept memory; null if there is none. `failed`: the last start from it was
// never shown, so this one loads everything, and the memory is made anew.
export const findKept = async (failed) => {
    if (failed) await drop();
    const kept = await (await store())?.match(KEY);
    if (!kept) return null;
    const indexURL = HERE + "pyodide/", code = import(indexURL + "pyodide.asm.mjs");
    code.catch(() => {});                             // told when it is awaited
    return { indexURL, createPyodideModule: asLarge(code), _loadSnapshot: new Uint8Array(await kept.arrayBuffer()) };
};

// Python as `loadPyodide` gives it. `kept`: what `findKept` promised.
export const loadKept = async (loadPyodide, options, kept) => {
    try {
        const found = await kept;
        if (found) return await loadPyodide({ ...options, ...found });
    } catch (error) {
        console.warn("Python is loaded anew:", error);
        await drop().catch(() => {});
    }
    return loadPyodide(options);
};
