"""Ids: of documents that are made here, and those that stand for what is not there."""

import uuid

NO_POND = "none"  # where readings without a pond lie
OUTLET = "outlet"  # the one place where there is no pond


def new_id() -> str:
    """An identifier that no other device will make."""
    return uuid.uuid4().hex
