// node compile.mjs PYODIDE_DIR ROOT: byte-compiles every .py under ROOT with the Python that will run it, in its place.
// The .pyc stands where the .py stood, which is where Python looks for it when there is no source.
const [pyodideDir, root] = process.argv.slice(2);
const { pathToFileURL } = await import("node:url");
const { loadPyodide } = await import(pathToFileURL(pyodideDir + "/pyodide.mjs").href);
const python = await loadPyodide({ indexURL: pyodideDir + "/" });
python.mountNodeFS("/root_of_all", root);
python.runPython(`
import os
import py_compile

done = 0
for folder, _, names in os.walk("/root_of_all"):
    for name in sorted(names):
        if name.endswith(".py"):
            place = os.path.join(folder, name)
            # unchecked: there is no source to compare with, and nothing is looked up at start
            py_compile.compile(place, cfile=place + "c", dfile=place.removeprefix("/root_of_all/"), doraise=True,
                               invalidation_mode=py_compile.PycInvalidationMode.UNCHECKED_HASH)
            os.remove(place)
            done += 1
print(f"{done} files byte-compiled")
`);
