"""The screens: words, layout and events; no arithmetic."""
