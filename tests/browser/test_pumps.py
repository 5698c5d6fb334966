"""From a pond to a chosen pump on the built site, its numbers those of the core called directly."""

import re

from phones import VOLUME, Phone, choose, go, open_app, open_step, press, shows, type_into
from playwright.sync_api import Page, expect

from pondapp import units, words
from pondapp.answers.plumbing.network import LineNetwork, network_of
from pondapp.answers.plumbing.path import lines_of
from pondapp.answers.plumbing.path_edits import with_branch
from pondapp.answers.pond import WorkedPond
from pondapp.answers.pumps.pumps import answers_for
from pondapp.core.hydraulics.energy import costs
from pondapp.core.hydraulics.network import operating_point
from pondapp.core.hydraulics.pump_curve import LabelCurve
from pondapp.models.circuit import Pipe, Pump
from pondapp.ui.pond.new_pond import read_new_pond

POND = {"name": "Test hollow", "volume": "1000", "bog": "100", "lip": "30"}
FIELDS = (("Name of the pond", "name"), (VOLUME, "volume"), ("Bog filter", "bog"),
          ("Waterfall lip", "lip"))  # fmt: skip
PUMP = (("Name", "Trout"), ("Flow", "9000"), ("Head", "5"), ("Power", "95"),
        ("Price", "149"))  # fmt: skip


def save_pond(page: Page) -> str:
    """Save the pond that is typed, and return its route."""
    shows(page, "The pond holds")
    press(page, "Save the pond")
    shows(page, "No readings yet")
    return str(page.evaluate("location.hash.slice(1)"))


def circuit_as_typed() -> LineNetwork:
    """The same pond and the same hose, without the screens."""
    pond = read_new_pond(POND, "metric", "p").pond
    assert pond is not None
    lip = next(b for b in lines_of(pond)[0].branches if b.name == "To Waterfall lip")
    hose = Pipe(series="hose, mm", size="32 mm", length_m=6, fittings={"elbow_90": 2})
    pond = with_branch(pond, lip.id, pipe=hose, lift_m=1.2)
    return network_of(pond, pond.lines[0], WorkedPond(pond).planned.flows)


def test_from_a_pond_to_a_chosen_pump(phone: Phone, site_address: str) -> None:
    network = circuit_as_typed()
    curve = LabelCurve(5.0, 9000 / 3.6e6)
    point = operating_point(curve, network.circuit, network.viscosity)
    pump = Pump(id="t", name="Trout", max_flow_m3_s=9000 / 3.6e6, max_head_m=5.0, power_w=95)
    span = answers_for(network, [pump])[0].span
    rules = network.rules.pumps
    money = costs(149, 95, rules.running_time, rules.tariff, rules.cost_years)

    page = phone.start()
    open_app(page, f"{site_address}#/new")
    choose(page, "I know the volume")
    for label, key in FIELDS:
        type_into(page, label, POND[key])
    pond_route = save_pond(page)

    open_step(page, "Hose, lift and fittings")
    press(page, "Change: To Waterfall lip")
    type_into(page, "Lift", "1,2")
    type_into(page, "Length", "6")
    choose(page, "32 mm")
    for _ in range(2):
        press(page, "One more: Elbow 90°", exact=True)
    shows(page, "2 of Elbow 90°")
    press(page, "Save this run")
    shows(page, "6 m of 32 mm hose")
    shows(page, units.show(network.needs.head, "head", "metric"))

    go(page, f"{pond_route}/pumps/new")
    for label, text in PUMP:
        type_into(page, label, text)
    gives = units.show_range(*span, "flow", "metric")
    wanted = units.show(network.needs.flow, "flow", "metric")
    shows(page, words.ungrouped(f"Gives {gives} here; {wanted} wanted"))
    page.wait_for_timeout(500)
    phone.kill()

    page = phone.start()  # nothing typed was lost
    open_app(page, f"{site_address}#{pond_route}/pumps/new")
    shows(page, words.ungrouped(f"Gives {gives} here; {wanted} wanted"))
    cost, total = units.by_month_and_year(money.per_year), units.about_money(money.total)
    shows(page, words.ungrouped(f"95 W: {cost}; {total} with its price over 5 years"))
    press(page, "Add this pump")
    press(page, "Choose Trout")
    shows(page, "Your choice")
    press(page, "Show the curve of Trout")
    shows(page, "Chart of Trout: its curve meets that of the pipes at")
    shows(page, words.ungrouped(units.show(point.flow, "flow", "metric")))

    go(page, "/settings")
    choose(page, re.compile("^US"))
    go(page, f"{pond_route}/pumps")
    shows(page, words.ungrouped(units.show_range(*span, "flow", "us")))
    shows(page, "Your choice")
    assert phone.strangers(site_address) == []


def test_a_wrong_number_is_answered_beside_its_field(used_phone: Phone, site_address: str) -> None:
    page = used_phone.page
    open_app(page, f"{site_address}#/new")
    type_into(page, "Name of the pond", "Test hollow")
    choose(page, "I know the volume")
    type_into(page, VOLUME, "1000")
    pond_route = save_pond(page)
    go(page, f"{pond_route}/pumps/new")
    type_into(page, "Flow", "3000")
    type_into(page, "Head", "wet")
    shows(page, "is not an amount")
    expect(page.get_by_role("button", name="Add this pump")).to_be_disabled()
    type_into(page, "Head", "3")
    shows(page, "enter its watts")
    expect(page.get_by_role("button", name="Add this pump")).to_be_enabled()
