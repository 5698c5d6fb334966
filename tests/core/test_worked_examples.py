"""The notebook's cells still print what the notebook shows."""

import contextlib
import io
import json
from pathlib import Path

NOTEBOOK = Path(__file__).with_name("worked_examples.ipynb")


def test_every_cell_prints_what_the_notebook_shows() -> None:
    cells = json.loads(NOTEBOOK.read_text(encoding="utf-8"))["cells"]
    names: dict[str, object] = {}
    shown = 0
    for cell in (cell for cell in cells if cell["cell_type"] == "code"):
        printed = io.StringIO()
        with contextlib.redirect_stdout(printed):
            exec("".join(cell["source"]), names)
        expected = "".join(line for output in cell["outputs"] for line in output["text"])
        assert printed.getvalue() == expected
        shown += bool(expected)
    assert shown >= 3
