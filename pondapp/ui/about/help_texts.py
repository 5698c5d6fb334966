"""How the app is used, one page a use, and the words of the trade where they are first met."""

from collections.abc import Mapping
from typing import Literal, NamedTuple

Topic = Literal["measure", "size", "waterfall", "tune", "log", "learned", "what-if", "install"]


class Guide(NamedTuple):
    """One page of help."""

    title: str
    use: str
    """What it is for, in a sentence."""
    steps: tuple[str, ...]
    terms: tuple[tuple[str, str], ...]
    """Words of the trade on these screens, each with what it means."""
    drawn: str
    """What the drawing shows, for those who hear it."""
    start: str
    """Label of the button that leads there."""
    route: str


GUIDES: Mapping[Topic, Guide] = {
    "measure": Guide(
        "Measure a flow",
        "A bucket and your phone tell how much water comes out of an outlet.",
        (
            "Choose the place. At a place of your pond the reading has a target to meet.",
            "Pick a container that takes more than 3 seconds to fill; 10 to 30 are better.",
            "Hold it under the whole flow. Tap when water starts to fall in, and again when it "
            "reaches the mark.",
            "Empty it and do the same three times or more. What scatters gets a wider interval.",
            "Read the verdict, then save it in the log.",
        ),
        (
            ("Flow", "How much water passes in a time, such as litres an hour."),
            (
                "Interval",
                "From where to where the true flow lies, in 95 of 100 cases. More fills and a "
                "larger container make it narrower.",
            ),
            (
                "Wanted range",
                "The least and the most flow that suit a place, with the best one between. A flow "
                "is right when it lies inside in 95 of 100 cases.",
            ),
            (
                "Not decided",
                "The true flow may lie on either side of a limit, or is not known well enough. The "
                "app says what would decide it.",
            ),
            ("Slip", "A fill that does not fit the others. Look at it before you count it."),
        ),
        "Drawing: water falls from a pipe into a bucket with a mark.",
        "Measure a flow",
        "/measure",
    ),
    "size": Guide(
        "Choose a pump",
        "From the water in your pond to filter, waterfall and pump.",
        (
            "Type how much water the pond holds. If you do not know, make a pond and draw its "
            "shape under Water.",
            "Choose the filter, and type how wide the waterfall's lip is if there is one.",
            "Choose the lift. You read which two numbers to look for on a pump's box: for a good "
            "flow, and for the least that will do.",
            "Turn to the other question and type the two numbers of a box in your hand, and your "
            "hose if you have one. You see what it really delivers up there.",
            "Save it as a pond. Then you can compare pumps, hoses and costs.",
        ),
        (
            ("Turnover", "How often all of the pond passes the pump in an hour."),
            (
                "Bog filter",
                "A bed of gravel with plants in it. Water passes it slowly, within 5 to 15 "
                "minutes.",
            ),
            ("High-flow filter", "A box of foam and loose media that takes a fast flow."),
            (
                "Media",
                "What a filter's bacteria grow on, such as foam, gravel or pieces of plastic.",
            ),
            (
                "Skimmer",
                "A box at the edge that draws in the surface of the water, with leaves and dust.",
            ),
            ("Lip", "The edge that a waterfall runs over. Its width sets how much it needs."),
            ("Lift", "How high the outlet stands over the pond's water."),
            (
                "Head",
                "All that the pump works against, as a height of water: the lift, and what hose, "
                "bends and valves take.",
            ),
            ("Bore", "How wide a hose or pipe is inside. Hose is sold by it."),
        ),
        "Drawing: a pump lifts water from a pond through a hose into a bog, and it runs back.",
        "Choose a pump",
        "/size",
    ),
    "waterfall": Guide(
        "Check a waterfall",
        "Whether a flow makes a full sheet over a lip, and how wide a lip it can feed.",
        (
            "Choose a lip of your pond, or type how wide another one is.",
            "Leave the flow empty to see what the lip needs.",
            "Type the flow, or measure it, to see how thick the sheet gets.",
            "If it is too thin, a narrower lip or more flow closes it. Both are worked out.",
        ),
        (
            ("Sheet", "The water that falls from a lip. A full one has no gaps."),
            (
                "Depth over the lip",
                "How high the water stands over the edge, measured a little behind it. A ruler "
                "there tells the flow where no bucket fits.",
            ),
        ),
        "Drawing: water stands behind a lip and falls over it as a sheet.",
        "Check a waterfall",
        "/waterfall",
    ),
    "tune": Guide(
        "Tune the valves",
        "One pump feeds several things. Valves share its water out as planned.",
        (
            "Open your pond, then Tune the valves. Begin with the branch at the top.",
            "Open all valves. Fill the container you have at that branch, and compare its time "
            "with the one to aim for: so far inside what is wanted that three fills can tell.",
            "Turn the valve by as much as the app says, tap Valve turned, and time it again. From "
            "the second turn on, what the last one did tells how far to go.",
            "Go on to the next branch. Each valve changes the others a little, so time the first "
            "one again at the end.",
            "When all are right, save them as tuned. Later readings are held against that.",
        ),
        (
            ("Branch", "A pipe with its valve and all that it feeds."),
            ("T-piece", "A fitting that divides one flow into two branches."),
            ("Main run", "The hose or pipe from the pump to the first T-piece."),
            (
                "Bypass",
                "A way round a filter for the water that is too much for it, such as over the "
                "top of a bog.",
            ),
        ),
        "Drawing: a pipe divides at a T-piece into two branches with a valve each.",
        "To your ponds",
        "/",
    ),
    "log": Guide(
        "Keep the log",
        "Readings, water tests and work done, so that you see a change before the fish do.",
        (
            "Save each reading. It goes into the log of its pond.",
            "Add water tests, water changes and cleanings as you do them.",
            "Look at the charts. A flow that falls says clean the pump or the foam.",
            "Set how often you want to be reminded, under What is due.",
            "Make a backup now and then. The log is on this device and nowhere else.",
        ),
        (
            ("Trend", "How fast a flow rises or falls, with what is known of its readings."),
            (
                "Toxic ammonia",
                "The part of the ammonia in a test that harms fish. It grows with warmth and pH.",
            ),
            (
                "Carbonate hardness",
                "What holds the pH steady. The filter's bacteria use it up; fresh water brings "
                "it back.",
            ),
        ),
        "Drawing: points of a chart fall, then rise again after a cleaning.",
        "To your ponds",
        "/",
    ),
    "learned": Guide(
        "What the readings tell",
        "Each reading corrects what was entered of pump, hoses and valves; all of them together "
        "say what to expect.",
        (
            "Measure at each branch on one day, and again after some weeks.",
            "Put cleanings in the log, and say when a valve was turned: what was read before then "
            "says nothing of how that part is now, and goes on counting for the rest.",
            "Note where a handle stands. Without that, a reading tells of that one setting only.",
            "Look which reading would tell most next.",
        ),
        (
            (
                "From readings",
                "How much of what is known of a number came from readings. The rest is what you "
                "entered, with its usual doubt.",
            ),
            (
                "What buckets cannot tell",
                "Whether a hose takes more than was worked out or its end is higher, and at a "
                "single branch, whether pump or hose took the flow. A weak pump and a narrow main "
                "run look the same. How high the pump still lifts with all ends raised until no "
                "water comes tells them apart.",
            ),
            (
                "Does not fit",
                "A reading that is farther from the others than chance allows. Where nobody can "
                "tell which of two holds, the interval spans both until a third decides. What is "
                "more than the pump can give is left out. All of it stays in the log.",
            ),
        ),
        "Drawing: four points, and a line between them that falls.",
        "To your ponds",
        "/",
    ),
    "what-if": Guide(
        "What if?",
        "Another pump, a wider hose, a valve turned, a warm summer: see what it would do before "
        "you pay for it. Nothing is saved until you apply it.",
        (
            "Touch a part of the picture.",
            "Move its valve, hose, lift or lip, or clog it. The numbers of the whole pond follow.",
            "Compare Now and Then: what the pond does, and what it would do.",
            "Apply it, or start over. Both can be undone.",
        ),
        (
            (
                "What to begin with",
                "The pond as its readings tell, or as it was entered and planned.",
            ),
            (
                "Likely right",
                "All flows here are calculated. Only a bucket tells whether a flow is right.",
            ),
        ),
        "Drawing: a pump lifts water out of a pond into a box.",
        "To your ponds",
        "/",
    ),
    "install": Guide(
        "On the home screen",
        "On the home screen it opens like any other app, also without a network.",
        (
            "Where the browser can install it, Settings has a button for that.",
            "On an iPhone or iPad save a backup first, touch Share in the browser, then Add to "
            "Home Screen. If the app begins empty there, take the backup in.",
            "Once it is installed on a computer, some browsers can open a backup with it from the "
            "folder it lies in. You see what is in it before anything is taken in.",
            "The number on the icon says how many jobs are due. It changes while the app is open, "
            "and not every device shows it.",
        ),
        (),
        "Drawing: a phone with the app among others, and a mark on it.",
        "Settings",
        "/settings",
    ),
}
