"""What the kinds of log entries, their choices and their values are called."""

TITLES = {
    "flow": "Flow reading",
    "water_test": "Water test",
    "water_change": "Water change",
    "dose": "Treatment or dose",
    "feed": "Feed",
    "fish": "Fish added or lost",
    "cleaning": "Cleaning",
    "pump_change": "Pump change",
    "photo": "Photo",
    "note": "Note",
}
PARTS = {
    "pump": "Pump and its foam",
    "filter": "Filter",
    "skimmer": "Skimmer",
    "all": "Everything",
}
CHANGES = {"added": "Added", "lost": "Lost"}
# Value of a water test: label, kind of quantity.
WATER_VALUES = {
    "temperature": ("Temperature", "temperature"),
    "ph": ("pH", "number"),
    "ammonia": ("Ammonia", "concentration"),
    "nitrite": ("Nitrite", "concentration"),
    "nitrate": ("Nitrate", "concentration"),
    "general_hardness": ("GH", "hardness"),
    "carbonate_hardness": ("KH", "hardness"),
    "oxygen": ("Oxygen", "concentration"),
    "salt_level": ("Salt", "salt"),
}
