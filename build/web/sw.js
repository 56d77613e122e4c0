// Keeps every part of this version, each under its hash, and answers from what it kept. A newer version downloads only
// what differs, waits until no window shows this one, and only then takes its place.
const PARTS = /*PARTS*/{};                            // path: first 32 digits of its SHA-256
const SCOPE = self.registration.scope;
const STORE = "evenload " + SCOPE;                    // another studio may live on the same host
const POLICY = "/*POLICY*/";

const hex = (bytes) => [...new Uint8Array(bytes)].map((byte) => byte.toString(16).padStart(2, "0")).join("");
const keyOf = (path) => new URL(path + "?hash=" + PARTS[path], SCOPE).href;
const pathOf = (url) => {
    if (!url.startsWith(SCOPE)) return null;
    return decodeURIComponent(new URL(url).pathname.slice(new URL(SCOPE).pathname.length)) || "index.html";
};

// The same choice as the client's loader makes; if it makes another, what it asks for is kept when it asks.
const blink = navigator.userAgentData !== undefined || /Chrome\//.test(navigator.userAgent);
const collects = WebAssembly.validate(new Uint8Array([0, 97, 115, 109, 1, 0, 0, 0, 1, 5, 1, 95, 1, 120, 0]));
const others = blink && collects
    ? (Intl.v8BreakIterator ? /^main\.dart\.js$|^canvaskit\/(?!skwasm\.)/ : /^main\.dart\.js$|^canvaskit\/(?!skwasm)/)
    : /^main\.dart\.(wasm|mjs)$|^canvaskit\/(?!canvaskit\.)/;

const isKept = async (store, path) => (await store.match(keyOf(path))) !== undefined;

const fetchPart = async (store, path) => {
    const answer = await fetch(new URL(path, SCOPE), { cache: "no-cache" });
    if (!answer.ok) throw new Error(`${path}: HTTP ${answer.status}`);
    const body = await answer.arrayBuffer();
    if (!hex(await crypto.subtle.digest("SHA-256", body)).startsWith(PARTS[path])) throw new Error(`${path} differs`);
    const headers = { "content-type": answer.headers.get("content-type") || "application/octet-stream" };
    // a worker obeys the policy that comes with its own script and not the page's
    if (/(-worker\.js|\.html)$/.test(path)) headers["content-security-policy"] = POLICY;
    const part = new Response(body, { headers });
    await store.put(keyOf(path), part.clone());
    return part;
};

const install = async () => {
    const store = await caches.open(STORE);
    const asked = new Set((await store.keys()).map((request) => pathOf(request.url)));   // of an older version too
    for (const path of Object.keys(PARTS)) {
        const wanted = asked.has(path) || !others.test(path);
        if (wanted && !(await isKept(store, path))) await fetchPart(store, path);
    }
};

const takeOver = async () => {
    const store = await caches.open(STORE), now = new Set(Object.keys(PARTS).map(keyOf));
    for (const request of await store.keys()) if (!now.has(request.url)) await store.delete(request);
    await self.clients.claim();
};

const answer = async (path) => {
    const store = await caches.open(STORE);
    return (await store.match(keyOf(path))) ?? fetchPart(store, path);
};

// A window asks for the newer version before it starts. It gets it only if no other window shows the older one.
const hurry = async (asking, reply) => {
    const windows = await self.clients.matchAll({ type: "window", includeUncontrolled: true });
    if (windows.some((one) => pathOf(one.url) === "index.html" && one.id !== asking)) reply.postMessage("later");
    else await self.skipWaiting();
};

self.addEventListener("install", (event) => event.waitUntil(install()));
self.addEventListener("activate", (event) => event.waitUntil(takeOver()));
self.addEventListener("message", (event) => {
    if (event.data === "hurry") event.waitUntil(hurry(event.source.id, event.ports[0]));
});
self.addEventListener("fetch", (event) => {
    if (event.request.method !== "GET") return;
    const path = pathOf(event.request.url);
    if (path !== null && path in PARTS) event.respondWith(answer(path));
});
