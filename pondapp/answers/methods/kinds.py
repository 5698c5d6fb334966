"""Every way of measuring, by the name under which its readings are stored.

The stored classes are the list: the kind of each names the module here that describes it.
"""

from importlib import import_module
from typing import cast

from pondapp.answers.methods.method import AnyMethod
from pondapp.models.reading import METHODS as STORED

METHODS: dict[str, AnyMethod] = {
    kind: cast(AnyMethod, import_module(f"pondapp.answers.methods.{kind}").KIND) for kind in STORED
}
BUCKET, NOTHING = "bucket", "nothing"
"""The way to begin with, and the one for a place that stays dry."""
