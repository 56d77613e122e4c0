// node web_sizes.mjs FOLDER: what each engine's browser keeps of an app, as JSON. The choice is the service worker's own.
import { readFile } from "node:fs/promises";
import { promisify } from "node:util";
import vm from "node:vm";
import zlib from "node:zlib";

const QUALITY = 9;                                    // of brotli, 11 being the slowest: hosts reach it without waiting
const LARGE_WINDOW = 24;
const compress = promisify(zlib.brotliCompress);
const BLINK = { userAgent: "Mozilla/5.0 Chrome/150.0", userAgentData: {} };
const OTHER = { userAgent: "Mozilla/5.0 Version/26.0 Safari/605.1.15" };
const [folder] = process.argv.slice(2);

const kept = async (navigator) => {
    const script = await readFile(`${folder}/sw.js`, "utf-8");
    const self = { registration: { scope: "http://localhost/" }, addEventListener() {} };
    const world = { self, navigator, WebAssembly: { validate: () => true }, Intl: { v8BreakIterator: navigator === BLINK } };
    const [parts, others] = vm.runInNewContext(`${script}\n;[PARTS, others]`, world);
    return ["sw.js", ...Object.keys(parts).filter((path) => !others.test(path))];
};

const seen = new Map();
const sizes = async (path) => {
    if (!seen.has(path)) {
        const data = await readFile(`${folder}/${path}`);
        const params = { [zlib.constants.BROTLI_PARAM_QUALITY]: QUALITY, [zlib.constants.BROTLI_PARAM_LGWIN]: LARGE_WINDOW,
                         [zlib.constants.BROTLI_PARAM_SIZE_HINT]: data.length };
        seen.set(path, { raw: data.length, brotli: Math.min(data.length, (await compress(data, { params })).length) });
    }
    return seen.get(path);
};

const told = {};
for (const [engine, navigator] of [["Blink", BLINK], ["other", OTHER]]) {
    const paths = await kept(navigator), found = [];
    for (const path of paths) found.push([path, await sizes(path)]);
    found.sort((a, b) => b[1].brotli - a[1].brotli);
    const sum = (what) => found.reduce((total, [, size]) => total + size[what], 0);
    told[engine] = { files: paths.length, raw: sum("raw"), brotli: sum("brotli"),
                     largest: found.slice(0, 8).map(([path, size]) => [path, size.raw, size.brotli]) };
}
console.log(JSON.stringify(told));
