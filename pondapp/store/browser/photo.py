"""Photos made small enough to be kept in a log: the browser does it, since it can read them."""

import base64
from typing import Any

from pondapp.models.limits import LARGEST_PHOTO
from pondapp.store.key_value_store import StoreError

SIDES = (1024, 720, 480, 320)
"""Longest side, in pixels; less only for a picture of nothing but fine detail."""
QUALITIES = (0.8, 0.6, 0.4)


async def small_photo(data: bytes) -> str:
    """The picture as a small JPEG in base64, without what a camera notes beside it.

    Raises:
        StoreError: It is no picture, or this is no browser.
    """
    try:
        import js
        from pyodide.ffi import JsException, to_js
    except ImportError as error:
        raise StoreError("photos can be added in a browser only") from error

    def plain(**values: Any) -> Any:
        return to_js(values, dict_converter=js.Object.fromEntries)

    try:
        picture = await js.createImageBitmap(js.Blob.new([to_js(data)]))
    except JsException as error:
        raise StoreError("this is no picture that your browser can read") from error
    for longest in SIDES:
        share = min(1.0, longest / max(picture.width, picture.height))
        width, height = (max(1, round(share * side)) for side in (picture.width, picture.height))
        canvas = js.OffscreenCanvas.new(width, height)
        canvas.getContext("2d").drawImage(picture, 0, 0, width, height)
        for quality in QUALITIES:
            blob = await canvas.convertToBlob(plain(type="image/jpeg", quality=quality))
            if blob.size <= LARGEST_PHOTO:
                buffer = await blob.arrayBuffer()
                return base64.b64encode(buffer.to_bytes()).decode()
    raise StoreError("this picture cannot be made small enough")
