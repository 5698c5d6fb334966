"""How a stream is shown and entered."""

import flet as ft

from pondapp.models.base import limits_of
from pondapp.models.circuit import Stream
from pondapp.ui.features.look import Choice, FeatureLook
from pondapp.ui.parts.form import Form, QuantityField

POOLS = "pools"
OF_POOLS = (
    QuantityField("pool_length", "Length of a pool, along the stream", "length",
                  limits_of(Stream, "pool_length_m"), needed=True),
    QuantityField("pool_width", "Width of a pool", "length", limits_of(Stream, "pool_width_m"),
                  needed=True),
    QuantityField("pool_depth", "Depth of a pool, up to the edge of its weir", "width",
                  limits_of(Stream, "pool_depth_m"), needed=True),
    QuantityField("weir", "Width of a weir", "width", limits_of(Stream, "weir_width_m"),
                  needed=True),
)  # fmt: skip
FORM = Form(
    (
        QuantityField("stream_length", "Length of the stream", "length",
                      limits_of(Stream, "length_m"), needed=True),
        QuantityField("stream_width", "Width of its water", "width", limits_of(Stream, "width_m"),
                      needed=True),
        QuantityField("stream_fall", "How far it falls", "width", limits_of(Stream, "fall_m"),
                      "From its source down to the pond's water", needed=True),
        QuantityField(POOLS, "Number of pools", "number", limits_of(Stream, "pools"),
                      "Each held by a weir of stones; leave empty without pools"),
        *OF_POOLS,
        QuantityField("freeboard", "Pond's rim above its water", "width",
                      limits_of(Stream, "freeboard_m"),
                      "To see whether the pond overflows when the pump stops"),
        QuantityField("inlet_depth", "Water over the pump's inlet", "width",
                      limits_of(Stream, "inlet_depth_m"),
                      "To see whether the pump runs dry when it starts"),
    )
)  # fmt: skip
BED = Choice(
    "stream_bed", "bed", "What its water runs over",
    (("liner", "Smooth liner"), ("gravel", "Gravel"), ("cobbles", "Cobbles"),
     ("boulders", "Large stones")),
)  # fmt: skip
LOOK = FeatureLook(
    ft.Icons.WAVES,
    "A bed that water runs down, with or without pools",
    FORM,
    choices=(BED,),
    only_with={one.key: POOLS for one in OF_POOLS},
)
