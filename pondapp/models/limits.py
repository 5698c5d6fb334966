"""Every limit of what is stored and of what is taken in from outside, in one place.

A limit is either far above what a pond can need, so that only damage and malice meet it, or it is
told to the user before anything is lost.
"""

from datetime import UTC, datetime

# ---- text from outside: files, links, scanned codes, and what is stored
DEEPEST = 64
"""Brackets inside brackets. A pond needs 8; the browser's Python dies of some thousands."""
LARGEST_DOCUMENT = 4_000_000
"""Letters of one document: a photo with all that it was before its corrections."""
LONGEST_LINK = 12_000
"""Letters of a plan in a link; messengers and browsers take several times as many."""
LARGEST_PLAN = 400_000
"""Bytes of a plan once unpacked; a packed text of a few letters can unpack to gigabytes."""
FINEST_CODE = 25
"""Version of the finest QR code that phones read from another phone's screen."""

# ---- backups
MOST_DOCUMENTS = 500_000
"""In one file: a reading every hour for fifty years; more than that no file is begun."""
LARGEST_FILE = 1_000_000_000
"""Bytes of a file, which is written and read piece by piece; more than that no file is begun."""
MOST_TAKEN_IN = 300_000_000
"""Letters that are taken in at once; of a file with more that is new, the rest the next time."""
LARGEST_LINE = 64_000_000
"""Bytes of one line of it: a damaged text that makes a longer one stays on its device."""
LARGEST_FIRST_FORMAT = 150_000_000
"""Bytes of a file of the first format, which can only be read whole."""

# ---- what a log holds
MOST_FILLS = 100
"""Of one reading, at one setting of the valve."""
MOST_TURNS = 30
"""Of a valve in one visit, of which what was timed before stays in sight: the newest."""
MOST_PAST = 200
"""Former versions of a pond that are known by their marks, when two devices are compared."""
MOST_PHOTOS = 100
"""On one device: each of them is read with the log of its pond."""
LARGEST_PHOTO = 90_000
"""Bytes of a photo once it is made small."""
MOST_EARLIER = 20
"""Corrections of one item that stay in sight: the first and the newest."""
FIRST_YEAR = 1990
"""Of a date that is typed."""
EARLIEST = datetime(1970, 1, 1, tzinfo=UTC)
"""Of a moment that is stored: a clock that was never set begins here."""
LATEST = datetime(2200, 1, 1, tzinfo=UTC)
"""Of a moment that is stored. Near the year 9999 a change of time zone has no result."""

# ---- what is typed and only counted with
LEAST_JET = 10 / 3.6e6
"""Of a jet [m3/s]: the smallest solar fountain takes ten times as much."""
NARROWEST_HOSE, WIDEST_HOSE = 0.003, 0.3
"""Inside [m]: from air line to the widest that anybody carries."""
LONGEST_SIDE, LONGEST_RISE = 100.0, 10.0
"""Of a box, a tub or a basin in which a flow is measured [m]."""
LONGEST_FILLING = 3e6
"""Of a pond by a hose [s]: five weeks."""
MOST_SALT = 1e5
"""Put into a pond to measure its volume [kg]."""
SALTIEST, WORST_SALT_METER = 40.0, 5.0
"""What a salt meter shows, and may be off by [kg/m3]: saltier than the sea."""
LAST_OF_METER = 1e9
"""What a water meter shows [m3]."""

# ---- ids
LONGEST_ID = 64
RESERVED = frozenset({"none", "outlet", "new"})
"""Words of the app itself: readings without a pond lie under "none"."""
RESERVED_START = "new-"

# ---- what is timed
MOST_FILLS = 100
"""Of one setting of the valve, in one reading."""

# ---- a water path
MOST_PUMPS = 30
"""To choose from."""
MOST_LINES = 6
MOST_BRANCHES = 12
"""Of one line."""
MOST_FEATURES = 40

# ---- the care of a pond
MOST_REMINDERS = 100
