"""The packed vectors are enough to write a reader with, and say what is in the checkout."""
from __future__ import annotations

import io
import json
import re
import zipfile

from app.domain import errors
from tests.exchange import other_reader
from tests.exchange.make_vectors import FOLDER
from tests.exchange.vectors_zip import contents, packed


def test_a_reader_that_has_the_zip_alone_can_be_judged() -> None:
    """Every vector in it, read as it says, and what it says where it is taken in; the documents beside them."""
    with zipfile.ZipFile(io.BytesIO(packed(contents()))) as archive:
        files = {name: archive.read(name) for name in archive.namelist()}
    vectors = {name: data for name, data in files.items() if name.startswith("vectors/")}
    assert len(vectors) == len(list(FOLDER.glob("*.vector"))) >= 120
    for name, data in vectors.items():
        outcome, said = other_reader.outcome(data)
        assert f"expect: {outcome}\n".encode() in data.partition(b"\n\n")[0] + b"\n"
        beside = files.get(name.replace("vectors/", "read/").replace(".vector", ".json"))
        assert (None if beside is None else json.loads(beside)) == said
    assert {"README.md", "PACK.md", "RETURN.md", "REPLY.md", "hpke.json"} <= files.keys()


def test_its_page_explains_every_line_and_every_refusal_is_in_a_document() -> None:
    """A stranger meets no word that is told nowhere."""
    files = contents()
    lines = {line.partition(b":")[0].decode() for name, data in files.items() if name.endswith(".vector")
             for line in data.partition(b"\n\n")[0].splitlines()}
    explained = set(re.findall(r"`([a-z-]+)`", files["README.md"].decode()))
    assert lines <= explained
    documents = b"".join(files[name] for name in ("PACK.md", "RETURN.md", "REPLY.md")).decode()
    for kind in errors.FileError.__subclasses__():
        assert kind.__name__ in documents, kind.__name__


def test_it_is_the_same_each_time() -> None:
    """Whoever has it can compare."""
    assert packed(contents()) == packed(contents())
