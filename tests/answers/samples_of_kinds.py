"""One invented feature of each kind, for tests that go over all of them."""

from pondapp.models.circuit import (
    BogFilter,
    Feature,
    HighFlowFilter,
    Jet,
    Lip,
    Skimmer,
)

SAMPLES: dict[str, Feature] = {
    sample.kind: sample
    for sample in (
        BogFilter(id="one", name="Reed bed", bed_volume_m3=0.25),
        HighFlowFilter(id="one", name="Barrel", media_volume_m3=0.06),
        Lip(id="one", name="Slate", width_m=0.4, fall_m=0.8),
        Jet(id="one", name="Frog", flow_m3_s=2e-4),
        Skimmer(id="one", name="Mouth", opening_m=0.2),
    )
}
