// What Python needs besides itself: fetched while it loads, laid into its files before it runs anything.

const bytesOf = async (name) => {
    // where no service worker stands between, no part of an older version may come from the browser's own cache
    const answer = await fetch(name, { cache: "no-cache" });
    if (!answer.ok) throw new Error(`${name}: HTTP ${answer.status}`);
    return new Uint8Array(await answer.arrayBuffer());
};

const unzipped = async (name) => {
    const plain = new Blob([await bytesOf(name)]).stream().pipeThrough(new DecompressionStream("gzip"));
    return new Uint8Array(await new Response(plain).arrayBuffer());
};

const wordAt = (bytes, from, most) => {
    const end = bytes.indexOf(0, from);
    return new TextDecoder().decode(bytes.subarray(from, end < 0 || end > from + most ? from + most : end));
};

// A ustar archive of plain files, into Python's file system.
const unpack = (FS, bytes, where) => {
    for (let at = 0; at + 512 <= bytes.length && bytes[at]; ) {
        const ahead = wordAt(bytes, at + 345, 155);
        const path = `${where}/${ahead ? ahead + "/" : ""}${wordAt(bytes, at, 100)}`;
        const size = parseInt(wordAt(bytes, at + 124, 12), 8);
        FS.mkdirTree(path.slice(0, path.lastIndexOf("/")));
        FS.writeFile(path, bytes.subarray(at + 512, at + 512 + size));
        at += 512 + Math.ceil(size / 512) * 512;
    }
};

export const fetchParts = () => {
    const parts = [unzipped("app.bin"), unzipped("native.bin"), unzipped("brand.bin"), bytesOf("lib.zip")];
    parts.forEach((part) => part.catch(() => {}));   // told when they are awaited
    return parts;
};

export const layParts = async (pyodide, parts) => {
    const [app, native, brand, lib] = await Promise.all(parts);
    const home = pyodide.FS.cwd();
    unpack(pyodide.FS, app, home);
    unpack(pyodide.FS, native, `${home}/__pypackages__`);
    unpack(pyodide.FS, brand, `${home}/brand`);
    pyodide.FS.writeFile(`${home}/lib.zip`, lib);
};
