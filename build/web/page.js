// What only the page can ask of the browser: that the store be kept, how it was opened, whether a newer version waits.
// Told to Python's worker over a channel that no other app of this host uses.
const MEMORY_LATER_MS = 8_000;                        // by then the other screens are loaded
const pageParts = new URL("./", document.baseURI).pathname.split("/").filter(Boolean);
const pageFolder = ["evenload", ...pageParts.map((part) => encodeURIComponent(part).replaceAll("_", "%5F"))].join("_");
const pageChannel = new BroadcastChannel("page:" + pageFolder);
let newerCame = false, newerWanted = false;

const tellPage = async () => pageChannel.postMessage({
    kept: await (navigator.storage?.persisted?.() ?? false),
    home: matchMedia("(display-mode: standalone)").matches || navigator.standalone === true,
    offline: localStorage.getItem(TRIED) ?? "",
    newer: !!(await waitingVersion()),
    uses: (await navigator.storage?.estimate?.())?.usage ?? 0,
    asks: await wouldAsk(),
    voice: !!ownVoice("en"),
});
// Firefox alone puts this question to the person; the others decide by themselves.
const isFirefox = CSS.supports("-moz-appearance", "none");
const wouldAsk = async () => isFirefox && await navigator.permissions?.query({ name: "persistent-storage" })
    .then(({ state }) => state === "prompt", () => false);
const askToKeep = () => navigator.storage?.persist?.().then(tellPage, tellPage);
const noteOffline = async () => {
    if (!(await isOffline())) return;
    localStorage.setItem(TRIED, new Date().toISOString());
    tellPage();
};
// Only for one that came while this page was open: what waited before may be kept waiting by another window.
const startNewer = () => { if (newerCame && newerWanted) location.reload(); };
// Beside a session nothing else may need the processor, so this is given up and left to another start.
const isTraining = () => location.hash.startsWith("#/play");
const keepMemory = async () => {
    if (!workers) return;
    await workers.ready;
    await new Promise((later) => setTimeout(later, MEMORY_LATER_MS));
    if (isTraining()) return;
    const maker = new Worker("memory-worker.js", { type: "module" });
    const end = () => { clearInterval(watch); maker.terminate(); tellPage(); };
    const watch = setInterval(() => { if (isTraining()) end(); }, 250);
    maker.onmessage = maker.onerror = end;
};

pageChannel.onmessage = ({ data }) => {
    if (data === "tell") tellPage();
    // any other word is told by a Python that stands; what is not a word, by another page
    else if (typeof data === "string") { localStorage.removeItem(MEMORY_TRIED); startWatch.came("python"); }
    if (data === "shown") {
        isShown = true;
        newerWanted = false;
        noteOffline();
        keepMemory();
        if (!isFirefox) askToKeep();
    }
    // the person was told that the browser will ask, and said yes to that
    if (data === "keep") askToKeep();
    // Python cannot open the records, which a newer version wrote; nothing runs here that could be disturbed
    if (data === "newer wanted") { newerWanted = true; startNewer(); }
};
addEventListener("evenload-newer", () => { newerCame = true; tellPage(); startNewer(); });
