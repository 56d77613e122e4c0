"""Packs the vectors for whoever writes a reader: the documents, the files, and what they say.

    python -m tests.exchange.vectors_zip FILE.zip        the same bytes each time
"""
from __future__ import annotations

import io
import json
import sys
import zipfile
from pathlib import Path

from tests.exchange import other_reader
from tests.exchange.make_vectors import FOLDER
from tests.exchange.published import HPKE

DOCUMENTS = Path(__file__).parents[2] / "app" / "exchange"
MOMENT = (2026, 1, 1, 0, 0, 0)


def contents() -> dict[str, bytes]:
    """Every file of it by its name."""
    vectors = {path.stem: path.read_bytes() for path in FOLDER.glob("*.vector")}
    read = {name: other_reader.outcome(data) for name, data in vectors.items()}
    return {
        "README.md": (FOLDER / "README.md").read_bytes(),
        **{name: (DOCUMENTS / name).read_bytes() for name in ("PACK.md", "RETURN.md", "REPLY.md")},
        "hpke.json": _json({name: value.hex() for name, value in HPKE.items()}),
        **{f"vectors/{name}.vector": data for name, data in vectors.items()},
        **{f"read/{name}.json": _json(said) for name, (outcome, said) in read.items() if outcome == "ok"},
    }


def packed(files: dict[str, bytes]) -> bytes:
    """A ZIP of them, in the order of their names."""
    out = io.BytesIO()
    with zipfile.ZipFile(out, "w", zipfile.ZIP_DEFLATED) as archive:
        for name in sorted(files):
            archive.writestr(zipfile.ZipInfo(name, MOMENT), files[name], zipfile.ZIP_DEFLATED)
    return out.getvalue()


def _json(value: object) -> bytes:
    return json.dumps(value, ensure_ascii=False, indent=1, sort_keys=True).encode() + b"\n"


def main() -> int:
    """0 when it was written, 2 where no file was named."""
    if len(sys.argv) != 2:
        print("Name the file to write: python -m tests.exchange.vectors_zip FILE.zip", file=sys.stderr)
        return 2
    files = contents()
    Path(sys.argv[1]).write_bytes(packed(files))
    print(f"{sys.argv[1]}: {sum(name.endswith('.vector') for name in files)} vectors")
    return 0


if __name__ == "__main__":
    sys.exit(main())
