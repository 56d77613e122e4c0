// The page of a studio's app: where its parts lie, its service worker, and what it notes about starts without a network.
Object.assign(flet, {
    pyodide: true, noCdn: true, routeUrlStrategy: "hash", webRenderer: "auto",
    pyodideUrl: "./pyodide/pyodide.mjs", canvasKitBaseUrl: "./canvaskit/", fontFallbackBaseUrl: "assets/fonts/",
    entrypointBaseUrl: "./", assetBase: "./",
});

const SCOPE = new URL("./", document.baseURI).href;
const TRIED = "evenload offline " + SCOPE;            // when a start without a network last succeeded
const SWITCH_MS = 40_000;                             // an older worker that was called back is let go after 30 s
const workers = navigator.serviceWorker;
let isShown = false;                                  // from then on somebody may be in the middle of something
let waitedBefore = null;                              // the version that waited when this page was opened

const waitingVersion = async () => {
    const known = await workers?.getRegistration();
    return known?.scope === SCOPE ? known.waiting : null;
};

// A browser asks for these by itself, some time after the page has loaded.
const holdLinks = () => {
    const held = [...document.querySelectorAll('link[rel="icon"], link[rel="manifest"]')].map((link) => [link, link.href]);
    for (const [link] of held) link.href = "data:,";
    return () => { for (const [link, href] of held) link.href = href; };
};

const loaded = () => new Promise((done) => {
    if (document.readyState === "complete") done();
    else addEventListener("load", done, { once: true });
});

// A version downloaded on an earlier visit takes over now, before anything of this one runs, so that no two ever mix.
// If another window is open it says so, and comes at a later start.
const takeNewer = async () => {
    const newer = waitedBefore = await waitingVersion();
    if (!newer || !workers.controller) return;
    // One request while the older worker goes would call it back, and it might stay for minutes: this page wants nothing.
    await loaded();
    workers.addEventListener("controllerchange", () => { if (!isShown) location.reload(); }, { once: true });
    await new Promise((stays) => {
        const reply = new MessageChannel();
        reply.port1.onmessage = stays;
        setTimeout(stays, SWITCH_MS);
        newer.postMessage("hurry", [reply.port2]);
    });
};

const tellNewer = () => { if (workers.controller) dispatchEvent(new Event("evenload-newer")); };
const tellOnceHere = (newer) =>
    newer?.addEventListener("statechange", () => { if (newer.state === "installed") tellNewer(); });

// A private window may have no place for records: then nothing is worth downloading for later either.
const hasPlace = () => navigator.storage?.getDirectory?.().then(() => true, () => false) ?? false;

const keepUpToDate = async () => {
    if (!workers || !(await hasPlace())) return;
    const ours = await workers.register("sw.js", { updateViaCache: "none" });
    // A browser may have found it before it was asked; then it answers only once that one is downloaded, which may be now.
    tellOnceHere(ours.installing);
    if (ours.waiting && ours.waiting !== waitedBefore) tellNewer();
    ours.addEventListener("updatefound", () => tellOnceHere(ours.installing));
    await ours.update();
};

// Whether the server can be reached; no cache answers this method.
const isOffline = () => fetch("version.json", { method: "HEAD", cache: "no-store" }).then(() => false, () => true);

startWatch.awaits("python");
flet.offlineStart = localStorage.getItem(TRIED) ?? "";
const letLinksGo = holdLinks();
flet.versionStays = takeNewer().catch(() => {}).then(letLinksGo);
flet.versionStays.then(keepUpToDate).catch(() => {});  // without a network there is nothing to update
