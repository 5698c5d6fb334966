"""A pond's plan as the end of a link, and back: packed, bounded, and never run.

The text is a version digit and base64url of the packed document. It stands behind the "#" of the
address, which a browser does not send to any server.
"""

import base64
import binascii
import io
import json
import zlib
from typing import Any

from pondapp.core.base.errors import PondError
from pondapp.models.limits import FINEST_CODE, LARGEST_PLAN, LONGEST_LINK
from pondapp.models.pond import Pond
from pondapp.store.documents import own_id, read_text, reason_of
from pondapp.store.json_text import parsed
from pondapp.store.key_value_store import StoreError

ROUTE = "/shared"

VERSION = "1"
# Words that every plan has, so that a short one packs well. A link of version 1 is unpacked with
# exactly these bytes: never change them, add a version.
WORDS = (
    b'"prices":{},"ticked":[],"left_out":[],"own":[]}"kind":"ellipse","kind":"circle","kind":'
    b'"l_shape","cut_length_m":,"cut_width_m":"kind":"offsets","spacing_m":,"widths_m":["kind":'
    b'"corners","points_m":[["kind":"rectangle","shelves":[{"depth_m":,"width_m":'
    b'"grown_length_m":"count":1,"length_m":"max_flow_m3_s":,"max_head_m":,"power_w":,"price":null'
    b',"adjustable":false,"points":[["kind":"jet","flow_m3_s":"kind":"skimmer","opening_m":'
    b'"kind":"high_flow","media_volume_m3":"band":{"low_m3_s":,"target_m3_s":,"high_m3_s":'
    b'"pump_id":null,"main":null,"hours_per_day":24.0,"branches":[{"id":"","name":"","pipe":{'
    b'"series":"","size":"","length_m":,"fittings":{}},"lift_m":0.0,"valve":"none","feeds":["'
    b'"],"bypass":[]}]}],"pumps":[{"id":"","name":"'
    b'{"schema_version":1,"id":"","name":"","water":{"kind":"drawn","basins":[{"id":"","name":"'
    b'Pond","outline":{"depth_m":,"side_slope":0.0,"shelves":[]}]},{"kind":"typed","volume_m3":'
    b'},"measured_volume":null,"water_temperature_c":18.0,"altitude_m":0.0,"fish":[],'
    b'"feed_kg_day":null,"fed":[{"id":"bog","name":"Bog filter","band":null,"kind":"bog",'
    b'"bed_volume_m3":0.1},{"id":"lip","name":"Waterfall","band":null,"kind":"lip","width_m":0.3,'
    b'"fall_m":null}],"lines":[],"pumps":[],"assumptions":{},"shopping":{}}'
)


class TooLong(StoreError):
    """The plan does not fit into a link or a code."""


def packed(pond: Pond) -> str:
    """The plan as text for a link; TooLong if it is too much for one."""
    squeeze = zlib.compressobj(9, wbits=-15, zdict=WORDS)
    data = squeeze.compress(_lean(pond).encode()) + squeeze.flush()
    text = VERSION + base64.urlsafe_b64encode(data).decode().rstrip("=")
    if len(text) > LONGEST_LINK:
        raise TooLong("this plan is too large for a link; share it as a file")
    return text


def unpacked(text: str) -> Pond:
    """The plan in the text; StoreError if it holds none, whatever else it is."""
    if len(text) > LONGEST_LINK:
        raise StoreError("the link is too long to be a shared plan")
    if not text.startswith(VERSION):
        raise StoreError("the link is damaged, or of a newer version of the app")
    try:
        data = base64.b64decode(
            text[1:] + "=" * (-len(text[1:]) % 4), altchars=b"-_", validate=True
        )
        loosen = zlib.decompressobj(wbits=-15, zdict=WORDS)
        plain = loosen.decompress(data, LARGEST_PLAN + 1)
        if not loosen.eof or loosen.unused_data or len(plain) > LARGEST_PLAN:
            raise ValueError("not whole")
        plan = parsed(plain.decode())
    except (binascii.Error, zlib.error, ValueError, StoreError) as error:
        raise StoreError("the link is cut off or damaged; ask for it again") from error
    pond_id = plan.get("id") if isinstance(plan, dict) else None
    if not isinstance(pond_id, str):
        raise StoreError("the link holds no plan")
    pond_id = own_id(pond_id)
    try:
        return read_text("pond", pond_id, Pond, json.dumps({**plan, "id": pond_id}))
    except PondError as error:
        raise StoreError("the link holds no plan that can be used: {reason}",
                         reason=reason_of(error)) from error  # fmt: skip


def link(pond: Pond, app_address: str) -> str:
    """The address that opens the plan in the app."""
    return f"{app_address}#{ROUTE}/{packed(pond)}"


def same_plan(one: Pond, other: Pond) -> bool:
    """Whether two ponds are the same but for what a link leaves out."""
    own = {name: getattr(other, name) for name in ("shopping", "reminders", "past")}
    return one.model_copy(update=own) == other


def code(address: str) -> bytes:
    """A picture (PNG) of the QR code of an address; TooLong if phones would not read it well."""
    import segno  # only when somebody shares: the first screen does not wait for it
    from segno import DataOverflowError

    try:
        made = segno.make(address, error="l", micro=False, boost_error=False)
    except DataOverflowError as error:
        raise TooLong("this plan is too large for a code; share the link or a file") from error
    if int(made.version) > FINEST_CODE:
        raise TooLong("this plan is too large for a code; share the link or a file")
    picture = io.BytesIO()
    made.save(picture, kind="png", scale=6, border=4)
    return picture.getvalue()


def _lean(pond: Pond) -> str:
    """What the receiver needs: not what the sender ticked off, paid and plans, nor what was."""
    own: Any = {"shopping": True, "reminders": True, "past": True}
    sent = {**own, "lines": {"__all__": {"pumps_before", "rebuilt_at"}}}
    plan: dict[str, Any] = pond.model_dump(mode="json", exclude=sent, exclude_none=True)
    return json.dumps(plan, separators=(",", ":"), ensure_ascii=False)
