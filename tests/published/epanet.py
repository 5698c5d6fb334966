"""A pump, a main run and three branches, as EPANET's network and as the core's circuit."""

import warnings
from typing import Any

from pondapp.core.hydraulics.network import Outlet, PipeNetwork
from pondapp.core.hydraulics.pump_curve import LabelCurve
from pondapp.core.hydraulics.run import Run

NU = 1.022e-6  # m2/s; EPANET's own water
ROUGHNESS = 1.5e-6  # m
MAIN = (0.05, 2.0, 2.0)  # m, m, -: bore, length and minor loss of the main run

Branch = tuple[float, float, float, float]  # bore [m], length [m], minor loss [-], lift [m]


def network(branches: tuple[Branch, ...], head: float, most: float) -> Any:
    """The network for wntr; head [m] at no flow, flow [m3/s] at no head."""
    with warnings.catch_warnings():  # its dependencies are deprecated; it doubts our roughness
        warnings.simplefilter("ignore")
        import wntr

        net = wntr.network.WaterNetworkModel()
        net.options.hydraulic.headloss = "D-W"
    net.options.time.duration = 0
    # The third point lies on the same parabola, so that both pumps are one.
    net.add_curve("c", "HEAD", [(0.0, head), (most / 2, 0.75 * head), (most, 0)])
    net.add_reservoir("pond", 0.0)
    net.add_junction("outside")
    net.add_junction("tee")
    net.add_pump("pump", "pond", "outside", "HEAD", "c")
    # wntr takes D-W roughness in metres.
    bore, length, k = MAIN
    net.add_pipe("main", "outside", "tee", length, bore, ROUGHNESS, k)
    for number, (bore, length, k, lift) in enumerate(branches):
        net.add_reservoir(f"r{number}", lift)
        net.add_pipe(f"b{number}", "tee", f"r{number}", length, bore, ROUGHNESS, k)
    return net


def circuit(
    branches: tuple[Branch, ...], head: float, most: float
) -> tuple[PipeNetwork, LabelCurve]:
    """The same for the core; each outlet is called like its pipe."""
    outlets = tuple(
        Outlet(f"b{number}", Run(length, bore, ROUGHNESS / bore, k), lift)
        for number, (bore, length, k, lift) in enumerate(branches)
    )
    bore, length, k = MAIN
    return PipeNetwork(Run(length, bore, ROUGHNESS / bore, k), outlets), LabelCurve(head, most, 2.0)
