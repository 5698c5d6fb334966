"""A stream: a bed that water runs down to the pond, with or without pools on its way."""

from collections.abc import Iterator, Sequence
from functools import partial

from pondapp.answers.care.severity import Severity
from pondapp.answers.features.kind import FeatureKind, Site, Size, Told
from pondapp.answers.shopping.needed import Needed
from pondapp.core.assumptions import Assumptions
from pondapp.core.base.errors import OutOfRange, PondError
from pondapp.core.base.messages import Amount, Message, Range, Value, counted, phrase
from pondapp.core.base.working import COMMON_PRACTICE, Step, Term
from pondapp.core.filters.bands import FlowBand
from pondapp.core.materials.gravel import gravel_order
from pondapp.core.spillway.channel import BEDS, ChannelFlow, channel_flow
from pondapp.core.spillway.run_back import Pools, StreamWater, stream_water
from pondapp.core.stock.span import NOTHING, Span
from pondapp.core.volume.liner import LinerSize, stream_sheet
from pondapp.models.circuit import Stream

NARROWEST, WIDEST = 0.1, 5.0  # m; beyond these nobody builds one
RANGE = "{range}"
HALF = 0.5  # of the pond's water, below which its fish must not be left; common practice
HAIR = 1e-3  # m of a level, that nobody sees


def pools_of(stream: Stream) -> Pools | None:
    """Its pools, all of one size; None has none, or their size is not entered yet."""
    sizes = (stream.pool_length_m, stream.pool_width_m, stream.pool_depth_m, stream.weir_width_m)
    if not stream.pools or None in sizes:
        return None
    length, width, depth, weir = (size or 0.0 for size in sizes)
    return Pools(stream.pools, length, width, depth, weir)


def running(stream: Stream, flow: float) -> ChannelFlow:
    """How a flow [m3/s] runs down it.

    Raises:
        OutOfRange: It falls more than it is long.
    """
    if stream.fall_m >= stream.length_m:
        raise OutOfRange(
            "{name} falls {fall} on {length}: that is a waterfall, so enter it as a lip",
            name=stream.name,
            fall=Amount(stream.fall_m, "width"),
            length=Amount(stream.length_m, "m"),
        )
    return channel_flow(flow, stream.width_m, stream.fall_m / stream.length_m, BEDS[stream.bed])


def layer_of(stream: Stream, rules: Assumptions) -> float:
    """Thickness of its layer of stones [m]."""
    return BEDS[stream.bed].stone * rules.waterfalls.stream_layers


def water_of(stream: Stream, flow: float, rules: Assumptions) -> StreamWater:
    """The water of it at a flow [m3/s].

    Raises:
        PondError: Its sizes do not go together, or water makes no sheet over its weirs.
    """
    channel = running(stream, flow)
    return stream_water(channel, stream.length_m, layer_of(stream, rules), pools_of(stream))


def sheet_of(stream: Stream, rules: Assumptions) -> LinerSize:
    """The sheet of liner that it needs."""
    pools = pools_of(stream)
    wide = max(stream.width_m, pools.width) if pools else stream.width_m
    count, deep = (pools.count, pools.depth) if pools else (0, 0.0)
    edge, overlap = rules.waterfalls.stream_edge, rules.materials.liner_overlap
    return stream_sheet(stream.length_m, wide, edge, count, deep, overlap)


def _span(span: Span, unit: str) -> dict[str, Value]:
    """What goes into a sentence with {range} in it."""
    return {"range": Range(span.low, span.high, unit)}


def _worked_out_for(flow: float, stream: Stream, site: Site) -> Told:
    """Which flow all the rest follows from."""
    words = "Up to {flow}, as measured"
    remark = None
    if flow > site.measured.get(stream.id, 0.0):
        words = "{flow}, as planned"
        remark = Message(
            "Less was measured."
            if stream.id in site.measured
            else "No reading says how much flows now."
        )
    return Told("Worked out for", Message(words, {"flow": Amount(flow, "m3/s")}), remark)


class _Stream(FeatureKind[Stream]):
    stored = Stream
    title = "Stream"
    outlet = "end of the stream"
    aim = "good"
    symbol = "run"
    rules = (
        "waterfalls.stream_flow_min",
        "waterfalls.stream_flow_target",
        "waterfalls.stream_flow_max",
    )
    planner = "lip"
    size = Size(
        field="width_m",
        label="width of {name}",
        unit="width",
        least=NARROWEST,
        most=lambda _pond, _volume: WIDEST,
    )

    def band(self, stream: Stream, _volume: float, rules: Assumptions, /) -> FlowBand:
        per_width = rules.waterfalls
        low, target, high = (
            stream.width_m * each
            for each in (
                per_width.stream_flow_min,
                per_width.stream_flow_target,
                per_width.stream_flow_max,
            )
        )
        if not low <= target <= high:
            raise OutOfRange("the least, best and most flow per width are out of order")
        return FlowBand(low, target, high)

    def rule(self, _stream: Stream, _volume: float, rules: Assumptions, /) -> Message:
        per_width = rules.waterfalls.stream_flow_target
        return Message("About {flow} of its width.", {"flow": Amount(per_width, "m2/s")})

    def steps(self, stream: Stream, volume: float, rules: Assumptions, /) -> tuple[Step, ...]:
        band = self.band(stream, volume, rules)
        width = Term("b", "width of the stream", stream.width_m, "width")
        found = [("least flow", band.low), ("best flow", band.target)]
        if band.high is not None:
            found.append(("most flow", band.high))
        return tuple(
            Step(
                Term("Q", name, flow, "m3/s"),
                "Q = q b",
                (Term("q", phrase("{name} per width", name=name), flow / stream.width_m, "m2/s"),
                 width),
                COMMON_PRACTICE,
            )
            for name, flow in found
        )  # fmt: skip

    def stock_words(
        self, _all: Sequence[Stream], _volume: float, _rules: Assumptions, /
    ) -> Message:
        return Message(
            "A stream brings air and its stones carry bacteria; how much nobody measured, so "
            "nothing of it is counted here"
        )

    def fall(self, stream: Stream, /) -> float | None:
        return stream.fall_m

    def open_water(self, stream: Stream, /) -> float:
        pools = pools_of(stream)
        if pools is None:
            return stream.length_m * stream.width_m
        bed = max(0.0, stream.length_m - pools.count * pools.length)
        return bed * stream.width_m + pools.count * pools.length * pools.width

    def told(self, stream: Stream, site: Site, rules: Assumptions, /) -> Iterator[Told]:
        flow = site.most(stream.id)
        yield _worked_out_for(flow, stream, site)
        channel = running(stream, flow)
        yield Told(
            "How deep its water is",
            Message(RANGE, _span(channel.depth, "small")),
            channel.warning,
            working=channel.steps,
        )
        yield Told("How fast it runs", Message(RANGE, _span(channel.speed, "m/s")))
        if stream.pools and pools_of(stream) is None:
            words = Message("Enter how large the pools are, and how wide their weirs.")
            yield Told("", words, severity="unknown")
            return
        water = water_of(stream, flow, rules)
        yield Told("Time on its way", Message(RANGE, _span(water.time, "s")), working=water.steps)
        yield Told(
            "Runs back when the pump stops",
            Message(RANGE, _span(water.returning, "m3")),
            Message("What the hoses hold comes on top of it."),
        )
        yield from self._rim(site, rules)
        yield Told(
            "The first start takes",
            Message(RANGE, _span(water.filling, "m3")),
            Message("Later starts take what ran back: the pools stay full."),
        )
        yield from self._inlet(site, rules)
        yield Told(
            "What it does for the water",
            Message("Not counted"),
            Message(
                "Water that runs over stones takes up air, and bacteria live on them; how much "
                "that is nobody measured for a stream like this, so no filter may be smaller for "
                "it."
            ),
        )

    def _all(self, site: Site) -> tuple[Stream, ...]:
        """All streams of the pond: when the power fails they stop together."""
        return tuple(one for one in site.fed if isinstance(one, Stream))

    def _all_measured(self, site: Site) -> bool:
        """Whether no flow of a stream is only planned."""
        return all(one.id in site.measured for one in self._all(site))

    def _level(self, site: Site, rules: Assumptions, *, back: bool) -> Span:
        """How far the pond rises when all streams stop, or sinks when they start [m]."""
        waters = [water_of(one, site.most(one.id), rules) for one in self._all(site)]
        total = NOTHING
        for water in waters:
            total = total.plus(water.returning if back else water.filling)
        return total.times(1.0 / (site.surface or 1.0))

    def _rim(self, site: Site, rules: Assumptions) -> Iterator[Told]:
        """Whether the pond overflows when the pump stops."""
        if site.surface is None:
            draw = Message("Draw the pond to see how far it rises and sinks.")
            yield Told("", draw, severity="unknown")
            return
        try:
            rise = self._level(site, rules, back=True)
        except PondError as problem:  # of another stream
            yield Told("", problem.message, severity="unknown")
            return
        if rise.high < HAIR:
            words = "The pond rises and sinks by less than {hair}."
            yield Told("", Message(words, {"hair": Amount(HAIR, "small")}))
            return
        rims = [one.freeboard_m for one in self._all(site) if one.freeboard_m]
        values = _span(rise, "small") | ({"rim": Amount(min(rims), "small")} if rims else {})
        severity: Severity = "wrong"
        if not rims:
            severity = "unknown"
            words = "The pond rises by {range}: enter how much higher its rim is."
        elif rise.high < min(rims) and not self._all_measured(site):
            severity = "unknown"
            words = (
                "As planned the pond rises by {range}, below its rim, {rim} up: measure "
                "what flows, since more water rises higher."
            )
        elif rise.high < min(rims):
            severity = "right"
            words = "The pond rises by {range} and stays below its rim, {rim} up."
        elif rise.low >= min(rims):
            words = (
                "The pond rises by {range} and overflows its rim, {rim} up: keep its water "
                "lower, or let fewer stones or pools hold it."
            )
        else:
            words = (
                "The pond rises by {range} and may overflow its rim, {rim} up: stop the "
                "pump once and look, or keep its water lower."
            )
        yield Told("", Message(words, values), severity=severity)

    def _inlet(self, site: Site, rules: Assumptions) -> Iterator[Told]:
        """Whether the pump runs dry at the first start."""
        try:
            taken = NOTHING
            for one in self._all(site):
                taken = taken.plus(water_of(one, site.most(one.id), rules).filling)
        except PondError:  # told at the rim
            return
        if site.volume is not None and taken.high >= HALF * site.volume:
            words = (
                "The first start takes {range}, and the pond holds {volume}: fill the "
                "stream by a hose first, or the pump runs dry and the fish are left without water."
            )
            values = _span(taken, "m3") | {"volume": Amount(site.volume, "m3")}
            # One that was measured has run since, and holds its water until it is emptied.
            ran = self._all_measured(site)
            yield Told("", Message(words, values), severity="unknown" if ran else "danger")
            return
        if site.surface is None:
            return
        sink = self._level(site, rules, back=False)
        if sink.high < HAIR:  # told at the rim
            return
        inlets = [one.inlet_depth_m for one in self._all(site) if one.inlet_depth_m]
        values = _span(sink, "small") | ({"inlet": Amount(min(inlets), "small")} if inlets else {})
        severity: Severity = "wrong"
        if not inlets:
            severity = "unknown"
            words = (
                "The pond sinks by {range} at the first start: enter how much water stands "
                "over the pump's inlet."
            )
        elif sink.high < min(inlets) and not self._all_measured(site):
            severity = "unknown"
            words = (
                "As planned the pond sinks by {range} at the first start; {inlet} stands "
                "over the pump's inlet: measure what flows, since more water sinks it deeper."
            )
        elif sink.high < min(inlets):
            severity = "right"
            words = (
                "The pond sinks by {range} at the first start; {inlet} stands over the "
                "pump's inlet. Where the sides slope it sinks more: fill it up as it runs."
            )
        else:
            words = (
                "The pond sinks by {range} at the first start, and only {inlet} stands "
                "over the pump's inlet: it may run dry. Fill the stream by a hose first, or set "
                "the pump deeper."
            )
        yield Told("", Message(words, values), severity=severity)

    def to_buy(self, stream: Stream, rules: Assumptions, /) -> Iterator[Needed]:
        sheet = sheet_of(stream, rules)
        remark = Message(
            "A sheet of {length} by {width}.",
            {"length": Amount(sheet.length, "m"), "width": Amount(sheet.width, "m")},
        )
        for key, words in (("liner", "Liner for {basin}"), ("underlay", "Underlay for {basin}")):
            yield Needed(
                f"{key}.{stream.id}", "liner", Message(words, {"basin": stream.name}), sheet.area,
                "m2", remark=remark, working=sheet.steps,
            )  # fmt: skip
        layer = layer_of(stream, rules)
        if not layer:
            return
        materials = rules.materials
        order = gravel_order(
            stream.length_m * stream.width_m * layer,
            materials.gravel_bulk_density,
            materials.bag_mass,
            materials.gravel_spare,
        )
        yield Needed(
            f"gravel.{stream.id}",
            "liner",
            Message("Bags of stones for {stream}", {"stream": stream.name}),
            float(order.bags),
            remark=Message(
                "{mass} in bags of {bag}, or {volume} loose: a layer of {layer}, of stones of "
                "about {stone}.",
                {
                    "mass": Amount(order.mass, "kg"),
                    "bag": Amount(order.bag_mass, "kg"),
                    "volume": Amount(order.volume, "m3"),
                    "layer": Amount(layer, "width"),
                    "stone": Amount(BEDS[stream.bed].stone, "width"),
                },
            ),
            working=partial(_stones_steps, stream, layer, order.steps()),
            counted=counted(
                "{count} bag of stones for {stream}",
                "{count} bags of stones for {stream}",
                order.bags,
                {"stream": stream.name},
            ),
        )


def _stones_steps(stream: Stream, layer: float, order: tuple[Step, ...]) -> tuple[Step, ...]:
    """The working of the stones."""
    volume = Term("Vb", "volume of the bed", stream.length_m * stream.width_m * layer, "m3")
    inputs = (
        Term("l", "length of the stream", stream.length_m, "m"),
        Term("b", "width of the stream", stream.width_m, "width"),
        Term("d", "layer of stones", layer, "width"),
    )
    return (Step(volume, "Vb = l b d", inputs, COMMON_PRACTICE), *order)


KIND = _Stream()
