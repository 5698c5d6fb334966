"""The one session of this running app, for components that the router makes."""

from pondapp.ui.session import Session

_held: list[Session] = []


def set_session(session: Session) -> None:
    """Make this the session that all screens share."""
    _held[:] = [session]


def session_now() -> Session:
    """The session that all screens share."""
    return _held[0]
