"""Fixed values that no setting changes, each with its source."""

GRAVITY = 9.80665
"""Standard acceleration of free fall [m/s2]. Source: CGPM 1901, resolution 3; NIST SP 330."""

ZERO_CELSIUS = 273.15
"""0 degrees Celsius [K]. Source: BIPM SI Brochure, 9th ed., section 2.3.1."""

COLDEST, WARMEST = ZERO_CELSIUS, ZERO_CELSIUS + 40.0
"""Coldest and warmest water of a pond [K] for which the formulas answer."""

HOUR = 3600.0
"""One hour [s]. Source: BIPM SI Brochure, 9th ed., table 8."""

DAY = 86400.0
"""One day [s]. Source: BIPM SI Brochure, 9th ed., table 8."""
