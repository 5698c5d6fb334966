"""One invented feature of each kind, for tests that go over all of them."""

from pondapp.models.circuit import (
    BogFilter,
    Feature,
    HighFlowFilter,
    Jet,
    Lip,
    OwnFilter,
    Skimmer,
    Stream,
)

SAMPLES: dict[str, Feature] = {
    sample.kind: sample
    for sample in (
        BogFilter(id="one", name="Reed bed", bed_volume_m3=0.25),
        HighFlowFilter(id="one", name="Barrel", media_volume_m3=0.06),
        Lip(id="one", name="Slate", width_m=0.4, fall_m=0.8),
        Jet(id="one", name="Frog", flow_m3_s=2e-4),
        Skimmer(id="one", name="Mouth", opening_m=0.2),
        Stream(
            id="one",
            name="Brook",
            length_m=6.0,
            width_m=0.5,
            fall_m=0.4,
            bed="cobbles",
            pools=2,
            pool_length_m=0.8,
            pool_width_m=1.0,
            pool_depth_m=0.25,
            weir_width_m=0.3,
            freeboard_m=0.08,
            inlet_depth_m=0.6,
        ),
        OwnFilter(id="one", name="Tower of jars", flow_m3_s=2e-4),
    )
}
