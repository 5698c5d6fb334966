"""How each source of the app was looked at, and what came of it.

Outcomes: "verified" - the numbers were compared with what the document, a copy of it or a library
that cites it prints; "corrected" - likewise, and a number or its credit was wrong; "follows" - a
definition or arithmetic, nothing to look up; "not checked" - the reader is told that it is a rule
of thumb or named from memory. Row numbers are those of check_values.csv.
"""

VERIFIED: dict[str, tuple[str, str]] = {
    "ASME B36.10M nominal bore, as in fluids 1.3.1": (
        "verified", "all nine bores equal nearest_pipe(NPS, schedule 40) of fluids 1.3.1"),
    "AWWA disinfection field guide, table 7-2, at pH 7": (
        "verified", "1.9, 1.61 and 2.5 read in a copy of the table at what-when-how.com"),
    "US limit for tap water, 4.0 mg/L of chlorine or chloramine, as in COMAR 26.04.01.23": (
        "verified", "both printed there as 4.0 mg/L as Cl2, after 40 CFR 141.65, not seen"),
    "Am. J. Phys. 87 (2019) 110, abstract: 4304 hand times": (
        "verified", "the abstract prints N(0, 0.10²) s for start and stop by hand"),
    "Benson and Krause 1984, Limnol. Oceanogr. 29, 620-632": (
        "verified", "all five coefficients in two independent codes and at SWAT+; gsw to 5e-4"),
    "Benson and Krause 1984, eq. 24, as in Standard Methods 4500-O": (
        "verified", "form printed as eq. 24 at rdrr.io; coefficients of vapour and second virial "
        "term equal in four public codes; credit was Standard Methods alone"),
    "Brett and Zala 1975, J. Fish. Res. Board Can. 32, 2479: unfed fish": (
        "verified",
        "abstract read: starved sockeye of 29 g at 15 °C give off about 8.2 mg N/kg an hour, "
        "the most of the app's range; the two smaller rates are rules of thumb",
    ),
    "Boyd, Oxygen demand of aquaculture feed": (
        "verified", "1.25 kg of oxygen per kg of feed, printed at globalseafood.org"),
    "Crane TP-410: 420 or 75 f_T in a bore of 41 mm, as in fluids 1.3.1": (
        "verified", "rows 1012 and 1013; a handbook prints 15 for any foot valve"),
    "Darcy-Weisbach with Colebrook's friction factor": (
        "verified", "fluids, EPANET and measured pipes, test_hydraulics_against_libraries.py"),
    "Emerson et al. 1975, J. Fish. Res. Board Can. 32, 2379, as quoted": (
        "verified", "form at the CRAN page of AmmoniaConcentration, which misprints 2727.92; "
        "2729.92 in a rice pond model's code; a printed table agrees to 3.5 % (rows 354 to 369)"),
    "Engineering Fluid Mechanics (bookboon.com), table 2.1": (
        "verified", "strainer 2.0 read there; row 1009"),
    "FAO Fisheries Technical Paper 589 (2014), table 4.1, as copied in public data": (
        "verified", "ranges of five media as read in a copy of the table for rows 380 to 384"),
    "Fulton's condition factor of 1.2 to 2.4, carp and goldfish": (
        "not checked", "printed: 0.8 to 1.6 for wild cyprinids, above 2.0 'quite normal' for carp"),
    "Fulton's condition factor: mass over length cubed": (
        "verified", "100 m / L³ in grams and centimetres, in a dictionary and a German guide"),
    "GUM propagation with a meter good to 0.05 g/L: 7 %": (
        "follows", "√2 · 0.05 / 1.0 = 7.1 %"),
    "H = H0 (1 - (Q/Qmax)^n) through the label's two numbers, n between straight (1) and "
    "parabola (2): an estimate": ("not checked", "a label prints two points; an estimate says so"),
    "ISO 9906:1999, class 2: flow ± 8 %, head ± 5 % (read in a lexicon of pump terms)": (
        "verified", "the lexicon prints 8 and 5 % for class 2 of the older edition"),
    "a hundred cases, evenly over what is not known (H. Weyl, Math. Ann. 77 (1916) 313-352)": (
        "verified", "zbmath.org tells the theorem for multiples of several irrational numbers"),
    "set so that intervals of simulated fills hold, for flows that vary by 0 to 3 %": (
        "follows", "tests/bench/coverage.py prints the simulation; no real fills were fitted"),
    "printed curves of small pumps, straight to parabola": (
        "not checked", "no collection of such curves was found"),
    "ISO 4064-1:2014, class 2 at usual flows, as quoted": (
        "verified", "±2 % in the upper zone of class 2, quoted by a maker's guide to the standard"),
    "JCGM 100:2008, 4.2 (mean of repeats)": (
        "verified", "heading at iso.org; mean and its deviation at physics.nist.gov (type A)"),
    "JCGM 100:2008, 4.3 and 5.1.2 (container, combination)": (
        "verified", "5.1.2 read at iso.org; 1.5/√3 for a rectangle in a guide for chemists, E.1; "
        "the credit said 4.3.7, whose text was not seen"),
    "JCGM 100:2008, 5.1, and NIST TN 1297 (propagation)": (
        "verified", "the heading of 5.1 at iso.org, the law itself in NIST TN 1297, section 5"),
    "JCGM 100:2008, 5.1.2 (each part's share of the variance)": (
        "verified", "5.1.2 with its note read at iso.org"),
    "JCGM 100:2008, 5.1.2, for products of powers": (
        "corrected", "5.1.2 and 5.1.3 read at iso.org; the credit said 5.1.6, not seen"),
    "JCGM 100:2008, 5.1.2 (independent parts add as squares)": (
        "verified", "5.1.2 read at iso.org; row 47"),
    "JCGM 100:2008, H.3.6 and G.3 (pooled scatter), as for a prior": (
        "not checked", "clause not seen; pooling: IUPAC Gold Book P04758; integrated in tests"),
    "law of propagation, JCGM 100:2008, 5.2.2": (
        "not checked", "clause not seen; with independent inputs it is 5.1.2, read at iso.org"),
    "least squares with what was entered as prior (Gauss-Newton; any textbook of inverse "
    "problems)": (
        "follows", "the least of a sum of squares; tests recover known circuits from their flows"),
    "this project's own choice, checked by simulation": (
        "follows", "tests/bench/coverage.py prints what it does to the intervals"),
    "JCGM 106:2012, 7.2 to 7.5 and 8.3 (conformance probability)": (
        "not checked", "title seen at scribd.com, no clause; rows 505 to 508, and scipy"),
    "JCGM 101:2008, 6.4 (t and rectangular, added exactly)": (
        "not checked", "title and scope seen, clause 6.4 was not; coverage is simulated in tests"),
    "FAO Irrigation and Drainage Paper 56 (1998), eq. 11": (
        "verified", "form and example 3 at ncl.ucar.edu: 1.705 and 3.075 kPa; rows 1025 to 1027"),
    "Carrier's formula as in ASHRAE Transactions 104 (1998), pt. 1A: swimming pools": (
        "verified", "printed in its abstract, in feet and pounds; rows 1029, 1030"),
    "ASHRAE Transactions 104 (1998), pt. 1A: undisturbed pools give off 74 % of the formula": (
        "verified", "the abstract prints 74 %; row 1031"),
    "a bucket in the same air loses what the air takes": (
        "not checked", "a habit of the trade; ratio and its range are rules"),
    "JCGM 100:2008, 4.3.7 and 5.1.2 (levels, ratio, combination)": (
        "verified", "as for 4.3 and 5.1.2 of the same guide"),
    "NOAA Technical Report NWS 33 (1982), annual, class A pan": (
        "not checked", "its companion NWS 34 was found, no print of 0.7 was"),
    "Rehbock, limits after Blevins, as coded in fluids 1.3.1": (
        "verified", "random heads against the library; rows 74 to 80"),
    "Timmons and Ebeling, Recirculating Aquaculture": (
        "not checked", "0.16 · 0.8 · 0.8 · 0.9 = 0.092; the book's own line was not seen"),
    "UF/IFAS fact sheet VM 86: baths of 5 to 10 g/L last hours only": (
        "verified", "'0.5 to 1.0 percent salt … for several hours' in a copy at dph.nl"),
    "US EPA 832-R-93-008 (1993), media of subsurface wetlands": (
        "not checked", "opening read at scribd.com, not the table; measuring beats it"),
    "a bore narrowed to four fifths, by Rennels, Borda and Carnot": (
        "verified", "fluids 1.3.1, rows 1014 to 1016; a printed table has 0.18 and 0.16"),
    "a drawn tube's roughness; printed values are from 0 to 1.5 µm": (
        "verified", "0.0 for plastic, 1.5e-6 m for drawn tubing at lmnoeng.com"),
    "a pond trade's feeding chart by temperature": (
        "not checked", "a habit of the trade, told as one; rows 393 to 398"),
    "aeration of a fall by Butts and Evans (1983), as in SWAT+, 7:3.5.12": (
        "corrected", "formula equal to the one printed; it was credited to a report not seen"),
    "affinity laws: flow ~ speed, head ~ speed², power ~ speed³": (
        "verified", "Crane's worked example 7-33, as read for rows 296 to 298"),
    "arithmetic": ("follows", "no table behind it"),
    "carp at 20 °C, doubling about every 10 °C": (
        "not checked", "a study of crucian carp prints a growth of 1.75 for 10 °C"),
    "common practice, no source": ("not checked", "habits of the trade, told as such"),
    "connectedwater.gov.au, volumetric flow: at least 3 s": (
        "verified", "'takes at least 3 seconds to fill' and more than three readings, read there"),
    "light of a long lamp spread over rings around it, taken up on its way, water well mixed": (
        "follows", "geometry and absorption; tests/core/filters/test_uv_lamp.py adds up rings"),
    "oxygen in a well mixed pond: use against what the surface brings": (
        "follows", "mass balance; tests/core/stock integrates it step by step"),
    "conservation of heat in a well mixed pond": (
        "follows", "m1 (T1 - T) = m2 (T - T2); two worked school problems, rows 1023 and 1024"),
    "conservation of mass in a well mixed pond": ("follows", "mass balance"),
    "conservation of the ammonia's mass": ("follows", "mass balance"),
    "conservation of the salt's mass": ("follows", "mass balance"),
    "critical depth, any hydraulics textbook": (
        "verified", "(q²/g)^(1/3) in a worked examination of San Diego State University; row 116"),
    "engineeringtoolbox.com, minor loss coefficients of pipes": (
        "corrected", "all read; a gate valve three quarters shut is 17 there, not 24 as it stood"),
    "filters in warm water: 0.2 to 1.0 g/m2/d": (
        "not checked", "no print of the range was found in the two works it was credited to"),
    "flow is volume over time (definition)": ("follows", "definition; rows 27 to 29"),
    "free overfall from a level floor: Rouse": (
        "not checked", "Rouse (1936) is named for it in three papers; 0.715 was in no excerpt"),
    "garden ponds at 10 °C: 0.05 to 0.2 g/m2/d": ("not checked", "no document was found"),
    "geometric between a cold and a warm rate per area": ("not checked", "this project's own way"),
    "geometry of the sloping side": ("follows", "Pythagoras; row 470"),
    "hose is sold by its bore: EN ISO 1307:2008, limits of each size": (
        "verified", "all eleven printed sizes lie inside the limits that a hose maker's table "
        "gives after the standard; nominal sizes are 12.5, 31.5 and 76 for 13, 32 and 75 mm"),
    "lmnoeng.com, table of loss coefficients": ("verified", "read; rows 220 to 223 and 1004"),
    "loss of a fitting, K v² / 2g; any textbook of hydraulics": (
        "verified", "printed above both tables of coefficients; row 233"),
    "mass balance of the reaction, standard atomic weights": ("follows", "rows 457 to 466"),
    "outside diameter less two walls: DIN 8062, 16 bar up to 25 mm, above it 10 bar": (
        "corrected", "a chart of DIN 8062: 32 mm has 1.8 mm of wall, so a bore of 28.4, not 28.0; "
        "20 to 90 mm agree; 110 mm has 4.2 mm in shops (EN ISO 1452), 5.3 in the chart"),
    "oxygen use of carp at 20 °C, 100 to 400 mg/kg/h": (
        "not checked", "crucian carp, abstract: a formula gives 62 at 500 g and 133 at 10 g"),
    "printed points, joined without a bump (Fritsch and Carlson)": (
        "verified", "scipy's PchipInterpolator to 1e-9, test_hydraulics_against_libraries.py"),
    "prismoidal rule of earthwork; University of Regina, a worked pond": (
        "corrected", "formula in an irrigation text, worked pond in row 6; the handbook it was "
        "credited to was found without the page"),
    "quality of water times shape of fall, 0.46 to 1.89, as in SWAT+": (
        "corrected", "a is 0.65 to 1.8 and b 0.7 to 1.05 there: 0.46 to 1.89, not 0.5 to 1.8"),
    "range of plastic media in an aquaculture standard, as quoted": (
        "verified", "100 to 1000 m²/m³, as read for row 385"),
    "sharp edge or free jet; agreed by Crane, Idelchik and Blevins": (
        "verified", "fluids 1.3.1, entrance_sharp and exit_normal; rows 236 to 241"),
    "small submersible pond pumps, 10 to 35 %": ("not checked", "no official figure was found"),
    "standard atmosphere of ICAO and the US (1976), as in fluids 1.3.1": (
        "verified", "fluids to 1e-6; 288.15 K, 6.5 K/km and 34.163195 K/km in several codes"),
    "table as in chemical engineers' handbooks, seen in a copy": (
        "verified", "two copies agree in every number; gate valve a quarter open is 24 there"),
    "the same head at a T-piece for all its branches; flows add": (
        "verified", "EPANET on four circuits, test_hydraulics_against_libraries.py"),
    "transfer in proportion to what is missing from saturation": ("follows", "definition"),
    "two O2 for each nitrogen, standard atomic weights": ("follows", "rows 350, 352"),
    "two thiosulfate for one chlorine; an analytical support note: 7.0": (
        "verified", "7.0004 by atomic weights, 7.0 as read for row 461"),
    "two to three times the loss of a smooth bore": (
        "not checked", "no test of pond hose was found"),
    "typical coefficients for water networks, seen in a copy": (
        "verified", "45° wye 0.30 and 0.50; rows 1010, 1011"),
    "volume is mass over density (definition)": ("follows", "definition; row 65"),
    "Ergun, Chem. Eng. Prog. 48 (1952) 89, as coded in fluids 1.3.1": (
        "verified", "packed_bed.Ergun in four cases; rows 310 to 315"),
    "Manning's formula, as coded in fluids 1.3.1; n after Chow (1959)": (
        "verified", "V_Manning to 1e-9, and three worked examinations; rows 497 to 504, 1401 on"),
    "Chow, Open-Channel Hydraulics (1959), as coded in fluids 1.3.1": (
        "verified", "least, normal and most n of three beds in fluids 1.3.1, test_channel.py"),
    "Chow (1959) for cement mortar, taken for liner with folds": (
        "not checked", "the table has no liner; mortar is 0.011 to 0.015 in it"),
    "R. I. Ferguson, Water Resour. Res. 43 (2007) W05427, as coded in public programs": (
        "not checked", "the paper's abstract was read; its formula and 6.5 and 2.5 stand in a "
        "public program, and another one has 5.5 and 2.2"),
    "weighted least squares, as in numpy": (
        "verified", "numpy.polyfit with weights, test_measuring_against_libraries.py"),
    "weighted mean, inverse squares of the uncertainties": (
        "verified", "printed with 1/s² as the weight at ns.ph.liv.ac.uk"),
}  # fmt: skip

# A number that stands in a formula's module, what is printed, and how it was looked at.
CONSTANTS: dict[str, tuple[object, str]] = {
    "base.constants.GRAVITY": (9.80665, "exact: CGPM 1901; scipy.constants.g"),
    "base.constants.ZERO_CELSIUS": (273.15, "exact: SI Brochure; scipy.constants.zero_Celsius"),
    "stock.air.SEA_LEVEL_PRESSURE": (101325.0, "exact: scipy.constants.atm"),
    "dosing.molar_masses.HYDROGEN": (1.00794e-3, "IUPAC 2007, in the abstract of the 2009 report"),
    "dosing.molar_masses.CARBON": (12.0107e-3, "IUPAC 2007, table at zanotowane.pl and as above"),
    "dosing.molar_masses.NITROGEN": (14.0067e-3, "IUPAC 2007, as hydrogen"),
    "dosing.molar_masses.OXYGEN": (15.9994e-3, "IUPAC 2007, as hydrogen"),
    "dosing.molar_masses.SODIUM": (
        22.98976928e-3,
        "named from memory; 22.98977 is printed in 1995",
    ),
    "dosing.molar_masses.SULFUR": (32.065e-3, "IUPAC 2007, as hydrogen"),
    "dosing.molar_masses.CHLORINE": (35.453e-3, "IUPAC 2007, as carbon"),
    "dosing.molar_masses.CALCIUM": (40.078e-3, "IUPAC 2007, as carbon"),
    "hydraulics.water._GAS_CONSTANT": (461.51805, "IAPWS SR6-08 in the code of iapws 1.5.5"),
    "hydraulics.water._CONSTANT": (1.93763157e-2, "likewise, with the other eleven; row by row"),
    "spillway.sheet.BRINK_SHARE": (0.715, "named from memory (Rouse)"),
    "spillway.channel.DEEP_SHARE": (6.5, "a1 in a public program, after Ferguson (2007)"),
    "spillway.channel.SHALLOW_SHARE": (2.5, "a2 likewise"),
    "stock.oxygen.SALT_ADDS": (0.75, "rounded; gsw 3.6 gives 0.73 for sea water at 20 °C"),
    "hydraulics.friction.ROUGHEST": (0.05, "upper edge of Moody's chart"),
    "stock.air._EARTH_RADIUS": (6356766.0, "nominal radius in codes of the standard atmosphere"),
}
