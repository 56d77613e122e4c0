// A start out of a kept memory that was never shown is not tried again; see `page.js`.
const MEMORY_TRIED = "evenload memory " + SCOPE;
// Starts Python while the client is still loading; what it says first waits here until the client connects.
function beginPython() {
    const begun = { said: [], worker: new Worker("python-worker.js", { type: "module" }) };
    begun.worker.onmessage = (event) => begun.said.push(event.data);
    // a word that is not this one is the error that Python ended with
    begun.worker.addEventListener("message", ({ data }) => { if (typeof data === "string" && data !== "initialized") startWatch.fail(); });
    begun.worker.addEventListener("error", startWatch.fail);
    const memoryFailed = localStorage.getItem(MEMORY_TRIED) !== null;
    localStorage.setItem(MEMORY_TRIED, "");
    begun.worker.postMessage({
        pyodideUrl: flet.pyodideUrl,
        args: { script: "import entry\n", offline: flet.offlineStart, memoryFailed },
        documentUrl: _documentUrl,
        appPackageUrl: "",
        micropipIncludePre: false,
        pythonModuleName: "begin",
    });
    return begun;
}
let _begun = null;
// nothing is fetched, and no store opened, before it is certain that this version stays; the client waits for it too
flet.versionStays.then(() => { _begun = beginPython(); });
