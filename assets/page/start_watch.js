// Watches the start from outside: if no page comes up, it says so in a sentence, with a button that tries again.
// It needs nothing of the client or of Python, since one of them may be what does not start. The sentences stand in
// the page (`not_started.html`), shown by what is told here.
const startWatch = (() => {
    const AFTER_ERROR_MS = 5_000;                     // an error may be harmless: then the page comes up all the same
    const STILL_MS = 60_000;                          // nothing was loaded for so long
    const LOOK_MS = 1_000;
    let stirred = performance.now(), failedAt = Infinity;
    const missing = new Set(["frame"]);               // what has still to come

    const show = (how) => {
        const notice = document.getElementById("not-started");
        if (!notice || notice.dataset.how === how) return;
        notice.dataset.how = how;
        notice.hidden = !how;
        if (how) document.getElementById("start-again")?.focus();
    };
    const look = () => {
        const now = performance.now();
        if (missing.size === 0) return;
        if (document.hidden) stir();                  // nothing is drawn of a page that nobody sees
        if (now - failedAt > AFTER_ERROR_MS) show("failed");
        else if (now - stirred > STILL_MS) show("slow");
    };
    const stir = () => { stirred = performance.now(); };
    const fail = () => { if (missing.size) failedAt = Math.min(failedAt, performance.now()); };
    const came = (what) => {
        stir();
        missing.delete(what);
        if (missing.size) return;
        clearInterval(looking);
        loaded.disconnect();
        show("");
    };

    const loaded = new PerformanceObserver(stir);
    loaded.observe({ type: "resource" });
    const looking = setInterval(look, LOOK_MS);
    addEventListener("error", (event) => {
        // of what was not loaded only our own scripts count
        const source = event.target?.src;
        if (!source || source.startsWith(location.origin)) fail();
    }, true);
    addEventListener("unhandledrejection", fail);
    addEventListener("flutter-first-frame", () => came("frame"), { once: true });
    addEventListener("click", (event) => { if (event.target.id === "start-again") location.reload(); });
    return { awaits: (what) => missing.add(what), came, fail };
})();
