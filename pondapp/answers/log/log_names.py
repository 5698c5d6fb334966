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
# Value of a water test: label, kind of quantity, smallest and largest that the field takes.
WATER_VALUES = {
    "temperature": ("Temperature", "temperature", 271.15, 318.15),
    "ph": ("pH", "number", 0.0, 14.0),
    "ammonia": ("Ammonia", "concentration", 0.0, 0.1),
    "nitrite": ("Nitrite", "concentration", 0.0, 0.1),
    "nitrate": ("Nitrate", "concentration", 0.0, 1.0),
    "general_hardness": ("GH", "hardness", 0.0, 5.0),
    "carbonate_hardness": ("KH", "hardness", 0.0, 5.0),
    "oxygen": ("Oxygen", "concentration", 0.0, 0.1),
    "salt_level": ("Salt", "salt", 0.0, 100.0),
}
