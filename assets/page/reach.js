// What lets everybody reach the app: the page may be enlarged, the tree that screen readers read is switched on where
// it is wanted, and the app's parts become landmarks in it. The client alone does none of these.
const reach = (() => {
    const WANTED = "flutter.screen_reader";           // where the app keeps the setting for its page
    const LOOK_MS = 1_000;
    const LANDMARKS = { main: "main", navigation: "navigation" };

    // The client forbids enlarging, by its own line in the page and by taking every gesture for itself.
    const letEnlarge = () => {
        for (const line of document.querySelectorAll('meta[name="viewport"]')) {
            if (/user-scalable|maximum-scale/.test(line.content)) line.content = "width=device-width, initial-scale=1";
        }
    };
    const style = document.createElement("style");
    style.textContent = "body, flutter-view { touch-action: pinch-zoom !important; }";

    const placeholder = () => document.querySelector("flt-semantics-placeholder");
    const isOn = () => document.querySelector("flt-semantics-host flt-semantics") !== null;
    // On a phone the client wants the pointer to go down and up in the middle of its hidden button.
    const switchOn = () => {
        const button = placeholder();
        if (!button || isOn()) return;
        const box = button.getBoundingClientRect();
        const where = { bubbles: true, clientX: box.left + box.width / 2, clientY: box.top + box.height / 2,
                        pointerType: "touch" };
        for (const kind of ["pointerdown", "pointerup", "click"]) {
            button.dispatchEvent(new (kind === "click" ? MouseEvent : PointerEvent)(kind, where));
        }
    };
    const isWanted = () => localStorage.getItem(WANTED) === "true";
    const nameLandmarks = () => {
        for (const part of document.querySelectorAll("[flt-semantics-identifier]")) {
            const role = LANDMARKS[part.getAttribute("flt-semantics-identifier")];
            if (role && part.getAttribute("role") !== role) part.setAttribute("role", role);
        }
    };

    document.head.append(style);
    letEnlarge();
    new MutationObserver(letEnlarge).observe(document.head, { childList: true, subtree: true, attributeFilter: ["content"] });
    // Whoever comes to the hidden button by a screen reader or by the keyboard need not press it.
    addEventListener("focusin", (event) => { if (event.target === placeholder()) switchOn(); });
    const looking = setInterval(() => {
        if (isWanted()) switchOn();
        if (!isOn()) return;
        clearInterval(looking);
        nameLandmarks();
        new MutationObserver(nameLandmarks).observe(document.querySelector("flt-semantics-host"), {
            subtree: true, childList: true, attributeFilter: ["flt-semantics-identifier", "role"] });
    }, LOOK_MS);
    return { switchOn };
})();
