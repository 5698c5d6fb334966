"""How every way of measuring is shown and entered, by the name under which it is stored."""

from importlib import import_module
from typing import cast

from pondapp.answers.methods.kinds import METHODS
from pondapp.ui.methods.look import AnyLook

LOOKS: dict[str, AnyLook] = {
    kind: cast(AnyLook, import_module(f"pondapp.ui.methods.{kind}").LOOK) for kind in METHODS
}
