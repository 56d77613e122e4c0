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
const asLarge = (indexURL) => async (settings) => {
    const { default: make } = await import(indexURL + "pyodide.asm.mjs");
    const made = await make(settings);
    made.growMemory(settings.INITIAL_MEMORY);
    return made;
};

// Python as `loadPyodide` gives it, out of the kept memory if there is one. `failed`: the last start from it was never
// shown, so this one loads everything, and the memory is made anew.
export const loadKept = async (loadPyodide, options, failed) => {
    try {
        if (failed) await drop();
        const kept = await (await store())?.match(KEY);
        if (kept) {
            const _loadSnapshot = new Uint8Array(await kept.arrayBuffer()), indexURL = HERE + "pyodide/";
            return await loadPyodide({ ...options, indexURL, _loadSnapshot, createPyodideModule: asLarge(indexURL) });
        }
    } catch (error) {
        console.warn("Python is loaded anew:", error);
        await drop().catch(() => {});
    }
    return loadPyodide(options);
};
