"""What water passes, by kind: its mark, what it is called, and what is asked about it."""

import flet as ft

ICONS = {
    "bog": ft.Icons.GRASS,
    "high_flow": ft.Icons.FILTER_ALT,
    "lip": ft.Icons.WATER,
    "jet": ft.Icons.SHOWER,
    "skimmer": ft.Icons.BLUR_LINEAR,
    "pump": ft.Icons.CYCLONE,
}
TITLES = {
    "bog": "Bog filter",
    "high_flow": "High-flow filter",
    "lip": "Waterfall lip",
    "jet": "Jet",
    "skimmer": "Skimmer",
}
WHAT = {
    "bog": "A slow bed of gravel with plants in it",
    "high_flow": "A fast box of foam and loose media",
    "lip": "The edge that a waterfall runs over",
    "jet": "A jet, spitter or fountain",
    "skimmer": "Draws in the surface, with leaves and dust",
}
VALVES = {"none": "No valve", "ball": "Ball valve", "gate": "Gate valve"}
