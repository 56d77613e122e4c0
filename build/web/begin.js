// Starts Python while the client is still loading; what it says first waits here until the client connects.
function beginPython() {
    const begun = { said: [], worker: new Worker("python-worker.js", { type: "module" }) };
    begun.worker.onmessage = (event) => begun.said.push(event.data);
    begun.worker.postMessage({
        pyodideUrl: flet.pyodideUrl,
        args: { script: "import entry\n", offline: flet.offlineStart },
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
