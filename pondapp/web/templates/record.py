"""Runs in the browser's Python while the site is built, as what is read ahead.

It sends the texts that dataclasses have compiled meanwhile.
"""

import dataclasses
import json
import runpy

import js

texts: list[str] = []


def noted(text: str, *names: dict[str, object]) -> None:
    """Run a text and remember it."""
    texts.append(text)
    exec(text, *names)


vars(dataclasses).update(exec=noted)
runpy.run_module("read_ahead")
answer = js.XMLHttpRequest.new()
answer.open("POST", "compiled.bin", False)
answer.send(json.dumps(sorted(set(texts))))
