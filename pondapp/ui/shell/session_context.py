"""The one session of this running app, for components that the router makes."""

import flet as ft

from pondapp.models.pond import Pond
from pondapp.state.session import Session

_held: list[Session] = []


def set_session(session: Session) -> None:
    """Make this the session that all screens share."""
    _held[:] = [session]


def session_now() -> Session:
    """The session that all screens share."""
    return _held[0]


def use_pond() -> Pond | None:
    """The pond that the address of this screen names, if it is on this device."""
    return session_now().ponds.get(ft.use_route_params().get("pond_id", ""))
