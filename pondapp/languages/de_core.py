"""German: what the core says, and the working of its numbers."""

CORE: dict[str, str] = {
    # core/circuit/answer
    "Qd = max(Qt, sum of d Qmin)": "Qd = max(Qt, Summe der d Qmin)",
    "all pumps, mean of a day": "alle Pumpen, Tagesmittel",
    "flow in {name}": "Durchfluss in {name}",
    "flow of {name}": "Durchfluss von {name}",
    "least for the whole pond": "mindestens für den ganzen Teich",
    "least from {name}, mean of a day": "mindestens von {name}, Tagesmittel",
    "round {name}": "um {name} herum",
    "sum over the branches": "Summe über die Zweige",
    "there is no branch called {name}": "es gibt keinen Zweig namens {name}",
    "there is no pump called {name}": "es gibt keine Pumpe namens {name}",
    "there is nothing called {name}": "es gibt nichts namens {name}",
    "through {name}": "durch {name}",
    # core/circuit/bounds
    "good flow for {name}": "guter Durchfluss für {name}",
    "greatest of the flows in order": "der größte der Durchflüsse hintereinander",
    "least for {name}": "mindestens für {name}",
    "least from {name}": "mindestens von {name}",
    "least in {name}": "mindestens in {name}",
    "most for {name}": "höchstens für {name}",
    "most in {name}": "höchstens in {name}",
    "smallest of the most flows in order": "kleinster der größten Durchflüsse der Reihe nach",
    # core/circuit/clashes
    "on the branch {branch}, {thirsty} needs {low} for its good flow and {tight} can take at most {high}": "im Zweig {branch} braucht {thirsty} {low} für seinen guten Durchfluss, und {tight} verträgt höchstens {high}",
    "on the branch {branch}, {thirsty} needs at least {low} and {tight} can take at most {high}": "im Zweig {branch} braucht {thirsty} mindestens {low}, und {tight} verträgt höchstens {high}",
    "what {pump} feeds needs at least {low}, and it delivers at most {most}": "was {pump} speist, braucht mindestens {low}, und sie liefert höchstens {most}",
    "the whole pond asks for {turnover}, and no more than {most} can pass without flooding "
    "something or asking too much of a pump": (
        "der ganze Teich verlangt {turnover}, und mehr als {most} geht nicht, ohne etwas zu "
        "überfluten oder eine Pumpe zu überfordern"
    ),
    "{want} needs water round the clock, and {pump} runs only {duty} of the day": "{want} braucht rund um die Uhr Wasser, und {pump} läuft nur {duty} des Tages",
    # core/circuit/model
    "good flow of {name}": "guter Durchfluss von {name}",
    "least flow for the whole pond": "kleinster Durchfluss für den ganzen Teich",
    "least flow of {name}": "kleinster Durchfluss von {name}",
    "most flow of {name}": "größter Durchfluss von {name}",
    "share of the day that {name} runs": "Anteil des Tages, den {name} läuft",
    "size of {name}": "Größe von {name}",
    "the water path has no pump": "der Wasserweg hat keine Pumpe",
    "two {what} are called {name}: give one of them another name": (
        "zweimal derselbe Name ({what}): {name}; gib einem davon einen anderen Namen"
    ),
    "{branch} has a bypass round {name}, which is not on it": "{branch} hat eine Umgehung um {name}, das nicht daran liegt",
    "{pump} feeds no branch": "{pump} speist keinen Zweig",
    # core/circuit/planner
    "share of the day that a waterfall runs": "Anteil des Tages, den ein Wasserfall läuft",
    # core/circuit/split
    "the whole pond asks for {turnover}; everything in the branches together needs only {least}": "der ganze Teich verlangt {turnover}; alles in den Zweigen zusammen braucht nur {least}",
    "together they need at least {least}, as the mean of a day: {names}": "zusammen brauchen sie mindestens {least}, im Mittel eines Tages: {names}",
    "nothing on the water path asks for water": "nichts am Wasserweg verlangt Wasser",
    # core/circuit/ways_out
    "let {things} have the least that is sufficient in place of the good flow: {less} less": "gib {things} das Mindeste, das genügt, statt des guten Durchflusses: {less} weniger",
    "let {thing} have its least flow, {least}, in place of its good flow, {good}": "gib {thing} den Mindestdurchfluss, {least}, statt des guten, {good}",
    "branch of the second pump": "Zweig der zweiten Pumpe",
    "second pump": "zweite Pumpe",
    "straight return": "direkter Rücklauf",
    "branch of {name}": "Zweig für {name}",
    "feed {things} from {new} with {own}, {duty} of the day; {old} then delivers {rest}": "speise {things} von {new} mit {own}, {duty} des Tages; {old} fördert dann {rest}",
    "feed {things} from {new} with {own}; {old} then delivers {rest}": "speise {things} von {new} mit {own}; {old} fördert dann {rest}",
    "give {thing} a branch of its own with {own}; {branch} then has {rest}, and {pump} "
    "delivers {all}": (
        "gib {thing} einen eigenen Zweig mit {own}; {branch} hat dann {rest}, und {pump} "
        "fördert {all}"
    ),
    "give {thing} a volume of at least {size}, {change} more": "gib {thing} ein Volumen von mindestens {size}, {change} mehr",
    "give {thing} a volume of at most {size}, {change} less": "gib {thing} ein Volumen von höchstens {size}, {change} weniger",
    "lead the water of {first} on through {second}: {flow} serves both": "führ das Wasser von {first} weiter durch {second}: {flow} reichen für beide",
    "lead the water of {first} on through {second}: {flow} serves both, with up to {past} "
    "led round {things}": (
        "führ das Wasser von {first} weiter durch {second}: {flow} reichen für beide, mit "
        "bis zu {past} um {things} herum"
    ),
    "lead {past} from {pump} straight back to the pond by a T-piece and valve": "führ {past} von {pump} mit T-Stück und Ventil direkt in den Teich zurück",
    "lead {past} from {pump} straight back to the pond by a T-piece and valve, and put a "
    "stronger pump in its place: one that delivers {flow} there": (
        "führ {past} von {pump} mit T-Stück und Ventil direkt in den Teich zurück, und "
        "setz eine stärkere Pumpe an ihren Platz: eine, die dort {flow} fördert"
    ),
    "lead {past} past {thing} by a T-piece and valve, so that {through} runs over it": "führ {past} mit T-Stück und Ventil an {thing} vorbei, sodass {through} darüberlaufen",
    "let the whole pond be content with {flow}, {missing} less": "lass den ganzen Teich mit {flow} zufrieden sein, {missing} weniger",
    "let {past} run over the top of {thing}, so that {through} passes it": "lass {past} über den Rand von {thing} laufen, sodass {through} hindurchgehen",
    "let {pump} run {duty} of the day instead of {before}": "lass {pump} {duty} des Tages laufen statt {before}",
    "make {thing} at least {size} wide, {change} wider": "mach {thing} mindestens {size} breit, {change} breiter",
    "make {thing} at most {size} wide, {change} narrower": "mach {thing} höchstens {size} breit, {change} schmaler",
    "put a stronger pump in the place of {pump}: one that delivers {flow} there": "setz eine stärkere Pumpe an den Platz von {pump}: eine, die dort {flow} fördert",
    "run {pump} round the clock, with {flow}": "lass {pump} rund um die Uhr laufen, mit {flow}",
    "stir the pond with {pump}: {flow} straight back": "wälz den Teich mit {pump} um: {flow} direkt zurück",
    # core/dosing/dechlorinator
    "a bottled conditioner has its own strength: its label goes before any sum done here": (
        "ein Mittel aus der Flasche hat seine eigene Stärke: Das Etikett gilt vor jeder "
        "Rechnung hier"
    ),
    "ammonia nitrogen set free": "freigesetzter Ammoniak-Stickstoff",
    "chloramine, counted as chlorine": "Chloramin, als Chlor gezählt",
    "chlorine in it": "Chlor darin",
    "chlorine in the tap water": "Chlor im Leitungswasser",
    "dechlorinator": "Entchlorungsmittel",
    "dechlorinator over chlorine": "Entchlorungsmittel je Chlor",
    "dose on the label": "Dosis laut Etikett",
    "mass balance of the reaction, standard atomic weights": "Massenbilanz der Reaktion, Standard-Atomgewichte",
    "pond volume": "Teichvolumen",
    "rise of ammonia nitrogen in the pond": "Anstieg des Ammoniak-Stickstoffs im Teich",
    "tap water": "Leitungswasser",
    "tap water added": "zugegebenes Leitungswasser",
    "the chloramine leaves {freed} of ammonia nitrogen, {rise} in the whole pond, for the "
    "filter to take out; test the water the day after": (
        "das Chloramin hinterlässt {freed} Ammoniak-Stickstoff, {rise} im ganzen Teich, die "
        "der Filter abbauen muss; teste das Wasser am Tag danach"
    ),
    "water in the pond": "Wasser im Teich",
    "water on the label": "Wasser laut Etikett",
    "water to treat": "zu behandelndes Wasser",
    "ΔTAN = mN / V": "ΔTAN = mN / V",
    # core/dosing/evaporation
    "E from the weather": "E aus dem Wetter",
    "Linacre 1977, Agric. Meteorol. 18, 409-424, abstract": "Linacre 1977, Agric. Meteorol. 18, 409-424, Zusammenfassung",
    "Q = (Es - E) A, not below 0": "Q = (Es - E) A, nicht unter 0",
    "a fall or a stream loses more by splash and wind; nobody can compute it": (
        "ein Wasserfall oder Bachlauf verliert mehr durch Spritzer und Wind; das kann "
        "niemand ausrechnen"
    ),
    "air temperature": "Lufttemperatur",
    "altitude": "Höhe über dem Meer",
    "dew point": "Taupunkt",
    "evaporation": "Verdunstung",
    "evaporation explains no more than {most} of the {drop}; stop the pump for a day: if "
    "the level then holds, look at the fall, stream and hoses, else at the liner": (
        "Verdunstung erklärt nicht mehr als {most} von {drop}; stell die Pumpe einen Tag ab: "
        "Hält sich dann der Pegel, such an Wasserfall, Bachlauf und Schläuchen, sonst an der "
        "Folie"
    ),
    "evaporation of the pan": "Verdunstung der Messwanne",
    "evaporation of the year": "Verdunstung des Jahres",
    "fall of the level": "Absinken des Pegels",
    "fall of the level seen": "beobachtetes Absinken des Pegels",
    "latitude": "geografische Breite",
    "most that evaporates": "höchste Verdunstung",
    "open surface": "offene Oberfläche",
    "open water": "offenes Wasser",
    "pond over pan": "Teich gegenüber Messwanne",
    "share of the month": "Anteil des Monats",
    "the air alone may have taken the {drop}": "die Luft allein kann {drop} genommen haben",
    "time": "Zeit",
    "water lost": "verlorenes Wasser",
    "water unexplained": "ungeklärtes Wasser",
    # core/dosing/salt
    "above {caution} of salt plants suffer, a planted bog too; check your species": "über {caution} Salz leiden Pflanzen, auch ein Pflanzenfilter; prüfe deine Arten",
    "most salt": "höchster Salzgehalt",
    "salt from which plants suffer": "Salz, ab dem Pflanzen leiden",
    "salt now": "Salz jetzt",
    "salt to add": "zuzugebendes Salz",
    "salt wanted": "gewünschtes Salz",
    "the water holds {before} of salt, more than the {wanted} wanted; salt does not go "
    "away by itself: change {share} of the water for fresh water": (
        "das Wasser enthält {before} Salz, mehr als die gewünschten {wanted}; Salz verschwindet "
        "nicht von selbst: Wechsle {share} des Wassers gegen frisches"
    ),
    "{wanted} of salt is more than {most}: a bath of hours under watch, in a vessel of its "
    "own, and not a pond": (
        "{wanted} Salz sind mehr als {most}: ein Bad von Stunden unter Aufsicht, in einem "
        "eigenen Gefäß, und kein Teich"
    ),
    # core/dosing/water_change
    "at {share} a time it takes more than {most} changes; change more at a time": "mit {share} je Wechsel wären mehr als {most} Wechsel nötig; wechsle mehr auf einmal",
    "concentration at the end": "Konzentration am Ende",
    "concentration at the start": "Konzentration am Anfang",
    "concentration in the fresh water": "Konzentration im frischen Wasser",
    "concentration wanted": "gewünschte Konzentration",
    "conservation of mass in a well mixed pond": "Erhaltung der Masse in einem gut gemischten Teich",
    "fresh water": "frisches Wasser",
    "fresh water for all changes": "frisches Wasser für alle Wechsel",
    "largest share to change at once": "größter Anteil für einen Wechsel",
    "n = ln((Cg - Cf) / (C0 - Cf)) / ln(1 - x), rounded up": "n = ln((Cg - Cf) / (C0 - Cf)) / ln(1 - x), aufgerundet",
    "number of changes": "Zahl der Wechsel",
    "share changed each time": "Anteil je Wechsel",
    "share of the water changed": "gewechselter Anteil des Wassers",
    "the fresh water itself holds {fresh}; changing water never brings the pond below "
    "that, and {goal} is wanted": (
        "das frische Wasser enthält selbst {fresh}; Wasserwechsel bringen den Teich nie "
        "darunter, und gewünscht sind {goal}"
    ),
    "{share} at once is a shock for fish; keep to {most} and let days pass between": (
        "{share} auf einmal sind ein Schock für Fische; bleib bei {most} und lass Tage dazwischen"
    ),
    # core/errors
    "{name} is not a number": "{name}: keine Zahl",
    "{name} is {value}; it must be above zero": "{name}: {value}; es muss über null sein",
    "{name} is {value}; it must not be below zero": "{name}: {value}; es darf nicht unter null sein",
    "{name} is {value}; it must be above {low}": "{name}: {value}; es muss über {low} sein",
    "{name} is {value}; it must be at least {low}": "{name}: {value}; es muss mindestens {low} sein",
    "{name} is {value}; it must be at most {high}": "{name}: {value}; es darf höchstens {high} sein",
    # core/filters/bands
    "best and longest time through the bog": "beste und längste Zeit durch den Pflanzenfilter",
    "bog volume": "Volumen des Pflanzenfilters",
    "least and wanted turnover of the filter": "kleinste und gewünschte Umwälzung des Filters",
    "retention time": "Verweilzeit",
    "shortest and best time through the bog": "kürzeste und beste Zeit durch den Pflanzenfilter",
    "turnover": "Umwälzung",
    "{name}: {smaller} must not be more than {larger}": "{name}: {smaller} darf nicht mehr als {larger} sein",
    # core/filters/bed
    "area of the bed": "Fläche des Beets",
    "density as it lies": "Dichte, wie er liegt",
    "density of the stone": "Dichte des Steins",
    "depth of the gravel": "Tiefe des Kieses",
    "flow through the bed": "Durchfluss durch das Beet",
    "grain size": "Korngröße",
    "porosity": "Lückenanteil",
    "volume of the bed": "Volumen des Beets",
    "volume of the bucket": "Volumen des Eimers",
    "water that went in": "Wasser, das hineinging",
    # core/filters/bed_loss
    "Ergun, Chem. Eng. Prog. 48 (1952) 89, as printed with fluids 1.3.1": "Ergun, Chem. Eng. Prog. 48 (1952) 89, wie bei fluids 1.3.1 gedruckt",
    "density of the water": "Dichte des Wassers",
    "flow per area of bed": "Durchfluss je Fläche des Beets",
    "gravel of {grain} already holds the water up by {head} when clean: use coarser "
    "gravel, a larger bed or less flow": (
        "Kies von {grain} staut das Wasser schon sauber um {head}: Nimm gröberen Kies, ein "
        "größeres Beet oder weniger Durchfluss"
    ),
    "gravity": "Fallbeschleunigung",
    "loss as a height of water": "Verlust als Wasserhöhe",
    "loss worth a caution": "Verlust, der eine Warnung wert ist",
    "pressure loss": "Druckverlust",
    "the formula was fitted for Reynolds numbers from {low} to {high}; here it is {here}, "
    "so the loss is rough": (
        "die Formel wurde für Reynolds-Zahlen von {low} bis {high} angepasst; hier ist sie "
        "{here}, der Verlust also grob"
    ),
    "upflow velocity": "Aufströmgeschwindigkeit",
    "viscosity of the water": "Zähigkeit des Wassers",
    # core/filters/bog
    "best flow": "bester Durchfluss",
    "best time": "beste Zeit",
    "bog volume as a share of the pond's": "Volumen des Pflanzenfilters als Anteil des Teichs",
    "least flow": "kleinster Durchfluss",
    "longest time": "längste Zeit",
    "most flow": "größter Durchfluss",
    "outside volume of the bed": "Außenvolumen des Beets",
    "retention time is volume over flow (definition)": "Verweilzeit ist Volumen durch Durchfluss (Definition)",
    "share of the pond's volume": "Anteil am Teichvolumen",
    "share of water in the bed": "Anteil des Wassers im Beet",
    "shortest time": "kürzeste Zeit",
    "time by the rule": "Zeit nach der Regel",
    "time that the water takes": "Zeit, die das Wasser braucht",
    "{what} through the bed": "{what} durch das Beet",
    # core/filters/high_flow
    "largest pond for this filter": "größter Teich für diesen Filter",
    "most flow of the filter": "größter Durchfluss des Filters",
    "the most that the filter takes": "das Meiste, was der Filter verträgt",
    "this filter takes {flow}: enough for {largest}, not for {pond}": "dieser Filter verträgt {flow}: genug für {largest}, nicht für {pond}",
    "turnovers per time": "Umwälzungen je Zeit",
    # core/filters/skimmer
    "flow": "Durchfluss",
    "flow per width": "Durchfluss je Breite",
    "the least, best and most flow per width are out of order": "kleinster, bester und größter Durchfluss je Breite sind nicht in der Reihenfolge",
    "width of the opening": "Breite der Öffnung",
    "{name} per width": "{name} je Breite",
    # core/filters/turnover
    "flow through the pump": "Durchfluss durch die Pumpe",
    # core/hydraulics/bores
    "ASME B36.10M nominal bore, as in fluids 1.3.1": "ASME B36.10M Nennweite, wie in fluids 1.3.1",
    "hose is sold by its bore: EN ISO 1307:2008, limits of each size": "Schlauch wird nach seinem Innendurchmesser verkauft: EN ISO 1307:2008, Grenzen jeder Größe",
    "outside diameter less two walls: DIN 8062, 16 bar up to 25 mm, above it 10 bar": "Außendurchmesser weniger zwei Wände: DIN 8062, bis 25 mm 16 bar, darüber 10 bar",
    "the widest size of {series} is {widest}; {bore} is wanted: lay two side by side": (
        "die weiteste Größe von {series} ist {widest}; gewünscht ist {bore}: Leg zwei nebeneinander"
    ),
    "there is no series of sizes called {series}": "es gibt keine Größenreihe namens {series}",
    "there is no size {name} in {series}": "es gibt keine Größe {name} in {series}",
    "wanted bore": "gewünschter Innendurchmesser",
    # core/hydraulics/candidates
    "enough, and the cheapest over {years} years: {total}": "genug, und über {years} Jahre die günstigste: {total}",
    "enough, but costs {more} more over {years} years": "genug, kostet aber über {years} Jahre {more} mehr",
    "it would turn {share} of its power into flow; small pumps reach {usual}: check its "
    "watts and curve": (
        "sie würde {share} ihrer Leistung in Durchfluss verwandeln; kleine Pumpen erreichen "
        "{usual}: Prüfe Watt und Kennlinie"
    ),
    "power of {name}": "Leistung von {name}",
    "price of {name}": "Preis von {name}",
    "two pumps are called {name}": "zwei Pumpen heißen {name}",
    "{power} cannot be right: the water alone takes {useful}; read its label again": "{power} können nicht stimmen: Allein das Wasser nimmt {useful} auf; lies das Etikett noch einmal",
    # core/hydraulics/energy
    "efficiency": "Wirkungsgrad",
    "energy costs in a year": "Stromkosten im Jahr",
    "energy in a year": "Strom im Jahr",
    "head": "Förderhöhe",
    "power": "Leistung",
    "power from the mains": "Leistung aus dem Netz",
    "price of energy": "Strompreis",
    "price of the pump": "Preis der Pumpe",
    "purchase and energy": "Kauf und Strom",
    "running time in a year": "Laufzeit im Jahr",
    "the water gets {useful}, more than the pump's {power}: watts, flow or head are wrong": (
        "das Wasser bekommt {useful}, mehr als {power} der Pumpe: Watt, Durchfluss oder "
        "Förderhöhe stimmen nicht"
    ),
    "years": "Jahre",
    # core/hydraulics/fittings
    "Ball valve, open": "Kugelhahn, offen",
    "Check valve with a flap": "Rückschlagventil mit Klappe",
    "Check valve with a spring": "Rückschlagventil mit Feder",
    "Coupling or union": "Muffe oder Verschraubung",
    "Elbow 45°, threaded": "Winkel 45°, mit Gewinde",
    "Foot valve with strainer and flap, clean": "Fußventil mit Saugkorb und Klappe, sauber",
    "Foot valve with strainer and spring, clean": "Fußventil mit Saugkorb und Feder, sauber",
    "Globe valve, open": "Geradsitzventil, offen",
    "US EPA 832-R-93-008 (1993), media of subsurface wetlands": "US EPA 832-R-93-008 (1993), Füllungen von Pflanzenkläranlagen",
    "Crane TP-410: 420 or 75 f_T in a bore of 41 mm, as in fluids 1.3.1": "Crane TP-410: 420 oder 75 f_T bei 41 mm Innendurchmesser, wie in fluids 1.3.1",
    "Engineering Fluid Mechanics (bookboon.com), table 2.1": "Engineering Fluid Mechanics (bookboon.com), Tabelle 2.1",
    "a bore narrowed to four fifths, by Rennels, Borda and Carnot": "auf vier Fünftel verengt, nach Rennels, Borda und Carnot",
    "typical coefficients for water networks, seen in a copy": "übliche Beiwerte für Wassernetze, in einer Abschrift gesehen",
    "Hose tail": "Schlauchtülle",
    "Reducer from one size wider": "Reduzierung von der nächstgrößeren Weite",
    "Strainer, clean": "Saugkorb oder Siebfilter, sauber",
    "T-piece, straight through, threaded": "T-Stück, geradeaus, mit Gewinde",
    "Union, threaded": "Verschraubung mit Gewinde",
    "Widening to the next size": "Erweiterung auf die nächste Weite",
    "Wye 45°, into the branch": "Y-Stück 45°, in den Abzweig",
    "Wye 45°, straight through": "Y-Stück 45°, geradeaus",
    "Elbow 45°": "Winkel 45°",
    "Elbow 90°": "Winkel 90°",
    "Elbow 90°, flanged": "Winkel 90°, geflanscht",
    "Elbow 90°, threaded": "Winkel 90°, mit Gewinde",
    "Gate valve, open": "Absperrschieber, offen",
    "Inlet with a sharp edge": "Einlauf mit scharfer Kante",
    "Long bend 90°": "Bogen 90°, weit",
    "Long bend 90°, threaded": "Bogen 90°, weit, mit Gewinde",
    "Outlet into open water or air": "Auslauf in offenes Wasser oder Luft",
    "T-piece, into the branch": "T-Stück, in den Abzweig",
    "T-piece, into the branch, threaded": "T-Stück, in den Abzweig, mit Gewinde",
    "T-piece, straight through": "T-Stück, geradeaus",
    "bore": "Innendurchmesser",
    "bore of the branch": "Innendurchmesser des Zweigs",
    "bore of the run": "Innendurchmesser der Leitung",
    "engineeringtoolbox.com, minor loss coefficients of pipes": "engineeringtoolbox.com, Verlustbeiwerte von Rohren",
    "equivalent length over bore": "gleichwertige Länge durch Innendurchmesser",
    "as new it may give {low} to {high} here, as far as is known: that leaves open whether it is worn; points of its printed curve tell more": "neu kann sie hier {low} bis {high} geben, soweit bekannt: Das lässt offen, ob sie nachgelassen hat; Punkte der gedruckten Kennlinie verraten mehr",
    "lmnoeng.com, table of loss coefficients": "lmnoeng.com, Tabelle von Verlustbeiwerten",
    "narrow bore": "enger Innendurchmesser",
    "number of parts ({part})": "Zahl der Teile ({part})",
    "share of the branch in the flow": "Anteil des Zweigs am Durchfluss",
    "sharp edge or free jet; agreed by Crane, Idelchik and Blevins": "scharfe Kante oder freier Strahl; einig bei Crane, Idelchik und Blevins",
    "table as in chemical engineers' handbooks, seen in a copy": "Tabelle wie in Handbüchern der Verfahrenstechnik, in einer Abschrift gesehen",
    "there is no fitting called {key}": "es gibt kein Formteil namens {key}",
    "wide bore": "weiter Innendurchmesser",
    # core/hydraulics/friction
    "Reynolds number": "Reynolds-Zahl",
    "relative roughness": "relative Rauheit",
    # core/hydraulics/lost_flow
    "H_t = largest of z + h(Q_b)": "H_t = größtes von z + h(Q_b)",
    "every valve is closed: there is nothing to compare": "jedes Ventil ist geschlossen: Es gibt nichts zu vergleichen",
    "head at the T-piece as {name} tells it": "Förderhöhe am T-Stück, wie {name} sie zeigt",
    "head at the T-piece, the highest told": "Förderhöhe am T-Stück, die höchste gezeigte",
    "head there by the pump as it was": "Förderhöhe dort mit der Pumpe, wie sie war",
    "pump side": "Pumpenseite",
    "share of the pump's speed that is left": "Anteil der Drehzahl, der geblieben ist",
    "these flows do not fit this pump at all: check its curve, the lifts and the hoses": (
        "diese Durchflüsse passen gar nicht zu dieser Pumpe: Prüfe Kennlinie, Hubhöhen und "
        "Schläuche"
    ),
    "uncertainty of the flow of {name}": "Unsicherheit des Durchflusses von {name}",
    "{name} was not measured, or is not there": "{name} wurde nicht gemessen oder ist nicht da",
    # core/hydraulics/network
    "H of the pump's curve at Q": "H der Kennlinie der Pumpe bei Q",
    "even at full speed the pump does not give {flow} at {head}": "auch bei voller Drehzahl fördert die Pumpe nicht {flow} bei {head}",
    "every valve is closed: the pump runs against a wall; open one": "jedes Ventil ist geschlossen: Die Pumpe läuft gegen eine Wand; öffne eins",
    "flow of the pump": "Durchfluss der Pumpe",
    "h(Q_b) = H_b - z, 0 if below 0": "h(Q_b) = H_b - z, 0 wenn unter 0",
    "head at the first T-piece": "Förderhöhe am ersten T-Stück",
    "head at the start of {name}": "Förderhöhe am Anfang von {name}",
    "head of the pipes": "Förderhöhe der Leitungen",
    "head of the pump": "Förderhöhe der Pumpe",
    "head the pipes take": "Förderhöhe, die die Leitungen brauchen",
    "head the valve of {name} must take": "Förderhöhe, die das Ventil von {name} nehmen muss",
    "lift of {name}": "Hubhöhe von {name}",
    "lift or head at the end of {name}": "Hubhöhe oder Förderhöhe am Ende von {name}",
    "loss coefficient of the valve of {name}": "Verlustbeiwert des Ventils von {name}",
    "loss in the main run": "Verlust in der Hauptleitung",
    "no flow is given for {name}": "für {name} ist kein Durchfluss angegeben",
    "no flow is wanted anywhere": "nirgends ist ein Durchfluss gewünscht",
    "n² H_full(Q / n) = H": "n² H_voll(Q / n) = H",
    "share of full speed": "Anteil der vollen Drehzahl",
    "slowest setting": "langsamste Stufe",
    "speed of the water": "Geschwindigkeit des Wassers",
    "the main run": "die Hauptleitung",
    "this pump is too weak: it lifts water {head} at most, and {name} ends {lift} above the pond; "
    "take a pump that lifts more, or let it end lower": (
        "diese Pumpe ist zu schwach: Sie hebt Wasser höchstens {head} hoch, und {name} endet "
        "{lift} über dem Teich; nimm eine, die höher hebt, oder lass es tiefer enden"
    ),
    "the pump is too weak: at {flow} it makes {given}, and {name} takes {need} with its "
    "valve open; {missing} are missing": (
        "die Pumpe ist zu schwach: Bei {flow} bringt sie {given}, und {name} braucht {need} "
        "mit offenem Ventil; es fehlen {missing}"
    ),
    "the pump would run at {flow}, before the start of its known curve at {start}: open a "
    "valve, or add points of the curve": (
        "die Pumpe liefe bei {flow}, vor dem Anfang ihrer bekannten Kennlinie bei {start}: "
        "Öffne ein Ventil oder ergänze Punkte der Kennlinie"
    ),
    "the pump would run at {flow}, beyond the end of its known curve at {end}: throttle a "
    "valve, or add points of the curve": (
        "die Pumpe liefe bei {flow}, hinter dem Ende ihrer bekannten Kennlinie bei {end}: "
        "Drossle ein Ventil oder ergänze Punkte der Kennlinie"
    ),
    "the same head at a T-piece for all its branches; flows add": "an einem T-Stück dieselbe Förderhöhe für alle Zweige; Durchflüsse addieren sich",
    "there is no end called {name}": "es gibt kein Ende namens {name}",
    "total flow": "gesamter Durchfluss",
    "two branches are called {name}": "zwei Zweige heißen {name}",
    "valve loss of {name}": "Ventilverlust von {name}",
    "wanted flow": "gewünschter Durchfluss",
    "wanted flow of {name}": "gewünschter Durchfluss von {name}",
    "{flow} at {head} is off the known part of the pump's curve: add points of it": "{flow} bei {head} liegen außerhalb des bekannten Teils der Kennlinie: Ergänze Punkte",
    "{flow} does not fit through these branches: open a valve or take a wider hose": (
        "{flow} passen nicht durch diese Zweige: Öffne ein Ventil oder nimm einen weiteren Schlauch"
    ),
    "{flow} is wanted in all; the pump's known curve goes from {start} to {end}": (
        "gewünscht sind insgesamt {flow}; die bekannte Kennlinie der Pumpe reicht von "
        "{start} bis {end}"
    ),
    "{name} leads nowhere: it has no branch": "{name} führt nirgends hin: kein Zweig",
    "{name} needs a length or a fitting: nothing holds the water back": "{name} braucht eine Länge oder ein Formteil: Nichts hält das Wasser zurück",
    "{name} stays dry: its end is {lift} up, and the head there is only {head}; throttle "
    "the others or lower it": (
        "{name} bleibt trocken: Das Ende liegt {lift} hoch, und dort beträgt die Förderhöhe "
        "nur {head}; drossle die anderen oder leg es tiefer"
    ),
    # core/hydraulics/pump_condition
    "H_new of the pump's curve at Q": "H_neu der Kennlinie der Pumpe bei Q",
    "as expected": "wie erwartet",
    "flow of the pump as new": "Durchfluss der Pumpe im Neuzustand",
    "head not accounted for": "ungeklärte Förderhöhe",
    "head of the pump as new at Q": "Förderhöhe der neuen Pumpe bei Q",
    "head the pipes as entered take at Q": "Förderhöhe, die die Leitungen wie eingegeben bei Q brauchen",
    "measured flow": "gemessener Durchfluss",
    "measured over predicted flow": "gemessener durch vorhergesagten Durchfluss",
    "not decided": "nicht entschieden",
    "n² H_new(Q / n) = H": "n² H_neu(Q / n) = H",
    "share below which a pump is worn": "Anteil, unter dem eine Pumpe verschlissen ist",
    "share of the curve that is left": "Anteil der Kennlinie, der geblieben ist",
    "the flow is a little low, {share} of a new pump's: clean it at the next round": (
        "der Durchfluss ist etwas niedrig, {share} dessen einer neuen Pumpe: Reinige sie "
        "beim nächsten Rundgang"
    ),
    "the flow is {share} of what was predicted: the lift is less or the hose wider than "
    "entered, or the pump better than its label": (
        "der Durchfluss ist {share} des vorhergesagten: Die Hubhöhe ist kleiner oder der "
        "Schlauch weiter als eingegeben, oder die Pumpe besser als ihr Etikett"
    ),
    "the measured flow is too uncertain to tell: measure more fills or a longer one": (
        "der gemessene Durchfluss ist zu unsicher für ein Urteil: Miss mehr Füllungen oder "
        "eine längere"
    ),
    "the pump gives what it should: {share} of the predicted flow": "die Pumpe gibt, was sie soll: {share} des vorhergesagten Durchflusses",
    "the pump gives {share} of the flow it would as new: unplug it, clean inlet, foam "
    "and impeller and measure again; if that changes nothing, the pipes take {missing} "
    "more than was entered: look for a kink, a half shut valve or more lift": (
        "die Pumpe gibt {share} des Durchflusses einer neuen: Zieh den Stecker, reinige "
        "Einlauf, Schaumstoff und Laufrad und miss noch einmal; ändert das nichts, brauchen die "
        "Leitungen {missing} mehr als eingegeben: Such nach einem Knick, einem halb "
        "geschlossenen Ventil oder mehr Hubhöhe"
    ),
    "{measured} was measured where the pump as new gives {predicted}: that is no wear; "
    "check the pump's curve, the lift and the hoses as entered": (
        "gemessen wurden {measured}, wo die neue Pumpe {predicted} gibt: Das ist kein "
        "Verschleiß; prüfe Kennlinie, Hubhöhe und Schläuche, wie eingegeben"
    ),
    "ΔH = H_new - H": "ΔH = H_neu - H",
    # core/hydraulics/pump_curve
    "a pump's curve needs at least 3 points; there are {count}": "die Kennlinie einer Pumpe braucht mindestens 3 Punkte; es sind {count}",
    "affinity laws: flow ~ speed, head ~ speed², power ~ speed³": (
        "Affinitätsgesetze: Durchfluss ~ Drehzahl, Förderhöhe ~ Drehzahl², Leistung ~ Drehzahl³"
    ),
    "flow of a point": "Durchfluss eines Punkts",
    "head of a point": "Förderhöhe eines Punkts",
    "largest flow of the pump": "größter Durchfluss der Pumpe",
    "largest head of the pump": "größte Förderhöhe der Pumpe",
    "printed points, joined without a bump (Fritsch and Carlson)": "gedruckte Punkte, ohne Buckel verbunden (Fritsch und Carlson)",
    "H = H0 (1 - (Q/Qmax)^n) through the label's two numbers, n between straight (1) and parabola (2): an estimate": (
        "H = H0 (1 - (Q/Qmax)^n) durch die zwei Zahlen des Etiketts, n zwischen Gerade (1) und Parabel (2): eine Schätzung"
    ),
    "bend of the curve": "Krümmung der Kennlinie",
    "the head must fall as the flow rises: {h1} at {q1} follows {h0} at {q0}": (
        "die Förderhöhe muss fallen, wenn der Durchfluss steigt: {h1} bei {q1} folgt auf "
        "{h0} bei {q0}"
    ),
    # core/hydraulics/run
    "Darcy-Weisbach with Colebrook's friction factor": "Darcy-Weisbach mit der Reibungszahl von Colebrook",
    "a run needs a length or a fitting: nothing holds the water back": "eine Leitung braucht eine Länge oder ein Formteil: Nichts hält das Wasser zurück",
    "f on the curve that joins 64/Re and Colebrook": "f auf der Kurve, die 64/Re und Colebrook verbindet",
    "fastest water allowed": "höchste erlaubte Fließgeschwindigkeit",
    "friction factor": "Reibungszahl",
    "head to lose": "verfügbare Verlusthöhe",
    "kinematic viscosity": "kinematische Zähigkeit",
    "length": "Länge",
    "length of the run": "Länge der Leitung",
    "loss along the wall": "Verlust an der Wand",
    "loss coefficient of the valve": "Verlustbeiwert des Ventils",
    "loss in fittings": "Verlust in Formteilen",
    "loss of a fitting, K v² / 2g; any textbook of hydraulics": "Verlust eines Formteils, K v² / 2g; jedes Lehrbuch der Hydraulik",
    "loss of the run": "Verlust der Leitung",
    "sum of loss coefficients": "Summe der Verlustbeiwerte",
    "the water is between calm and turbulent here, so the loss of {loss} is rough": "das Wasser ist hier zwischen ruhig und verwirbelt, der Verlust von {loss} also grob",
    "the water runs at {here}, faster than {limit}: a bore of {bore} would do": (
        "das Wasser läuft mit {here}, schneller als {limit}: Ein Innendurchmesser von {bore} "
        "würde reichen"
    ),
    # core/hydraulics/solve
    "the balance could not be found: the numbers jump too wildly": "das Gleichgewicht war nicht zu finden: Die Zahlen springen zu wild",
    "there is no balance between the two limits that were tried": "zwischen den beiden versuchten Grenzen gibt es kein Gleichgewicht",
    # core/hydraulics/tuning
    "a branch divides again: set the valves behind it apart": "ein Zweig teilt sich noch einmal: Stell die Ventile dahinter für sich ein",
    "even with its valve wide open {name} gets only {most}: close another branch a little": (
        "selbst mit ganz offenem Ventil bekommt {name} nur {most}: Schließ einen anderen "
        "Zweig ein wenig"
    ),
    "h(Q_b) = H_t - z, 0 if below 0": "h(Q_b) = H_t - z, 0 wenn unter 0",
    "head at the T-piece": "Förderhöhe am T-Stück",
    "no flow was measured": "kein Durchfluss wurde gemessen",
    "{what} of {name}": "{what} von {name}",
    # core/hydraulics/valves
    "opening of the valve": "Öffnung des Ventils",
    "the valve would be less than {share} open, where its setting is guesswork: open it a "
    "crack and measure, or take a smaller hose": (
        "das Ventil wäre weniger als {share} offen, wo seine Stellung Glückssache ist: Öffne "
        "es einen Spalt und miss, oder nimm einen engeren Schlauch"
    ),
    "there is no valve of the kind {kind}": "es gibt kein Ventil der Art {kind}",
    "wanted loss coefficient": "gewünschter Verlustbeiwert",
    # core/hydraulics/water
    "water temperature": "Wassertemperatur",
    # core/materials/gravel
    "bags": "Säcke",
    "gravel to order": "zu bestellender Kies",
    "gravel to spare": "Kies als Reserve",
    "n = m / mb, rounded up": "n = m / mb, aufgerundet",
    "share to spare": "Anteil als Reserve",
    "weight of a bag": "Gewicht eines Sacks",
    "weight of a volume of gravel": "Gewicht je Volumen Kies",
    "weight of the gravel": "Gewicht des Kieses",
    # core/materials/liner
    "Liner": "Folie",
    "Underlay": "Vlies",
    # core/materials/plants
    "N = n A, rounded up": "N = n A, aufgerundet",
    "area of the water": "Fläche des Wassers",
    "area to plant": "zu bepflanzende Fläche",
    "least share in shade": "kleinster Anteil im Schatten",
    "most share in shade": "größter Anteil im Schatten",
    "plants": "Pflanzen",
    "plants per area": "Pflanzen je Fläche",
    "the least share in shade is more than the most": "der kleinste Anteil im Schatten ist größer als der größte",
    "{name} area in shade": "{name} Fläche im Schatten",
    "{name} share in shade": "{name} Anteil im Schatten",
    # core/materials/shopping
    "C = sum of the lines": "C = Summe der Zeilen",
    "cost of all that has a price": "Kosten dessen, was einen Preis hat",
    "price": "Preis",
    "quantity": "Menge",
    "{count} of {all} lines have no price yet; the total leaves them out": "{count} von {all} Zeilen haben noch keinen Preis; die Summe lässt sie aus",
    # core/measuring/budget
    "JCGM 100:2008, 5.1.2 (each part's share of the variance)": "JCGM 100:2008, 5.1.2 (Anteil jedes Teils an der Varianz)",
    "relative standard uncertainty": "relative Standardunsicherheit",
    "share = u(part)² / u²": "Anteil = u(Teil)² / u²",
    "share of {name}": "Anteil von: {name}",
    "there is no uncertainty to look at": "es gibt keine Unsicherheit zu betrachten",
    # core/measuring/estimate
    "JCGM 100:2008, 5.1.2, for products of powers": "JCGM 100:2008, 5.1.2, für Produkte von Potenzen",
    "coverage": "Überdeckung",
    "nothing was measured": "nichts wurde gemessen",
    "standard uncertainty": "Standardunsicherheit",
    "standard uncertainty of the {what}": "Standardunsicherheit: {what}",
    "u = Q √(Σ (power × u(x) / x)²)": "u = Q √(Σ (Potenz × u(x) / x)²)",
    # core/measuring/other_methods
    "density of the air": "Dichte der Luft",
    "density of the weights": "Dichte der Gewichte",
    "drop of the level": "Absinken des Pegels",
    "filling time": "Füllzeit",
    "head over the lip": "Überfallhöhe an der Kante",
    "mass of the empty container": "Masse des leeren Behälters",
    "mass of the full container": "Masse des vollen Behälters",
    "space that was filled": "gefüllter Raum",
    "the scale is too rough to weigh {water} of water": "die Waage ist zu grob, um {water} Wasser zu wiegen",
    "tolerance of the area": "Toleranz der Fläche",
    "tolerance of the head": "Toleranz der Überfallhöhe",
    "tolerance of the level": "Toleranz des Pegels",
    "tolerance of the porosity": "Toleranz des Lückenanteils",
    "tolerance of the scale": "Toleranz der Waage",
    "tolerance of the volume": "Toleranz des Volumens",
    "tolerance of the width": "Toleranz der Breite",
    "truth of the formula": "Richtigkeit der Formel",
    "uncertainty of the formula": "Unsicherheit der Formel",
    "uncertainty of the time": "Unsicherheit der Zeit",
    "uncertainty on a thin sheet": "Unsicherheit bei dünnem Schleier",
    "volume": "Volumen",
    "volume is mass over density (definition)": "Volumen ist Masse durch Dichte (Definition)",
    "volume of the container": "Volumen des Behälters",
    "water area": "Wasserfläche",
    "weight of the empty container": "Gewicht des leeren Behälters",
    "weight of the full container": "Gewicht des vollen Behälters",
    "width of the lip": "Breite der Kante",
    # core/measuring/pooling
    "These flows differ by {times} times what their uncertainties explain: one of them "
    "holds a mistake, or the flow changed in between": (
        "Diese Durchflüsse weichen um das {times}-fache dessen ab, was ihre Unsicherheiten "
        "erklären: In einem steckt ein Fehler, oder der Durchfluss hat sich dazwischen "
        "geändert"
    ),
    "each flow needs its uncertainty": "jeder Durchfluss braucht seine Unsicherheit",
    "flow of all together": "Durchfluss aller zusammen",
    "flow {number}": "Durchfluss {number}",
    "its standard uncertainty {number}": "seine Standardunsicherheit {number}",
    "stretch of the uncertainties": "Streckung der Unsicherheiten",
    "there is no flow to pool": "es gibt keinen Durchfluss zum Zusammenfassen",
    "weighted mean, inverse squares of the uncertainties": "gewichtetes Mittel, Kehrwerte der Quadrate der Unsicherheiten",
    # core/measuring/repeats
    "degrees of freedom": "Freiheitsgrade",
    "mean time": "mittlere Zeit",
    "number of times": "Zahl der Zeiten",
    "scatter of one time": "Streuung einer Zeit",
    "time {number}": "Zeit {number}",
    "u(t) = s / √n × (Student's t for ν) / (normal factor)": "u(t) = s / √n × (Students t für ν) / (Normalfaktor)",
    "uncertainty of the mean time": "Unsicherheit der mittleren Zeit",
    # core/measuring/runs_needed
    "mean fill time": "mittlere Füllzeit",
    "most fills": "größte Zahl von Füllungen",
    "number of fills": "Zahl der Füllungen",
    "reaction scatter": "Streuung der Reaktion",
    "scatter": "Streuung",
    "wanted uncertainty": "gewünschte Unsicherheit",
    # core/measuring/slips
    "a slip shows only among three or more fills": "ein Ausreißer zeigt sich erst unter drei oder mehr Füllungen",
    "chance of a false alarm": "Wahrscheinlichkeit eines falschen Alarms",
    # core/measuring/student_t
    "bound": "Grenze",
    "half width": "halbe Breite",
    "scale": "Skala",
    # core/measuring/timed_flow
    "JCGM 100:2008, 4.2 (mean of repeats)": "JCGM 100:2008, 4.2 (Mittel von Wiederholungen)",
    "JCGM 100:2008, 4.3 and 5.1.2 (container, combination)": "JCGM 100:2008, 4.3.7 und 5.1 (Behälter, Zusammensetzung)",
    "JCGM 101:2008, 6.4 (t and rectangular, added exactly)": "JCGM 101:2008, 6.4 (t und Rechteck, genau addiert)",
    "U holds the share p of s/√n × Student's t plus a × rectangular": "U enthält den Anteil p von s/√n × Students t plus a × Rechteck",
    "V as marked or weighed": "V wie markiert oder gewogen",
    "fill time": "Füllzeit",
    "fill {number}": "Füllung {number}",
    "flow is volume over time (definition)": "Durchfluss ist Volumen durch Zeit (Definition)",
    "half width of its tolerance": "halbe Breite der Toleranz",
    "half width of the interval": "halbe Breite des Bereichs",
    "scatter of one fill": "Streuung einer Füllung",
    "time at least one fill": "stoppe mindestens eine Füllung",
    "a trend needs at least three readings": "ein Trend braucht mindestens drei Messungen",
    "all readings were taken at one time; a trend needs them apart": "alle Messungen sind von einem Zeitpunkt; ein Trend braucht sie auseinander",
    "change of the flow per time": "Änderung des Durchflusses je Zeit",
    "each time needs its flow and its uncertainty": "jeder Zeitpunkt braucht seinen Durchfluss und dessen Unsicherheit",
    "end of the band": "Ende des Bereichs",
    "flow on the line at that time": "Durchfluss auf der Geraden zu dieser Zeit",
    "number of readings": "Zahl der Messungen",
    "standard uncertainty of m": "Standardunsicherheit von m",
    "time of the reading": "Zeitpunkt der Messung",
    "weighted least squares, as in numpy": "gewichtete kleinste Quadrate, wie in numpy",
    "weighted mean of the times": "gewichtetes Mittel der Zeiten",
    # core/measuring/uncertainty
    "reading": "Messwert",
    "scatter needs at least two readings": "Streuung braucht mindestens zwei Messwerte",
    "there is no uncertainty to combine": "es gibt keine Unsicherheit zusammenzusetzen",
    # core/measuring/verdict
    "least wanted flow": "kleinster gewünschter Durchfluss",
    "most wanted flow": "größter gewünschter Durchfluss",
    "each fill needs its weight": "jede Füllung braucht ihr Gewicht",
    "time and weigh at least one fill": "stoppe und wieg mindestens eine Füllung",
    # core/spillway/band
    "multiple for the heaviest fall": "Vielfaches für den schwersten Fall",
    "share for the thinnest sheet": "Anteil für den dünnsten Schleier",
    # core/spillway/sheet
    "thickness at the edge": "Dicke an der Kante",
    "width of the sheet": "Breite des Schleiers",
    "{flow} over a lip of {width} is a film thinner than {thin}, not a sheet": "{flow} über eine Kante von {width} sind ein Film, dünner als {thin}, kein Schleier",
    "{flow} over a lip of {width} would stand higher than {thick} behind it": "{flow} über eine Kante von {width} stünden dahinter höher als {thick}",
    # core/spillway/weirs
    "Ackers, as coded in fluids 1.3.1": "Ackers, wie in fluids 1.3.1 programmiert",
    "EPA SWMM Reference Manual Vol. II, 6.3.2, after Francis": "EPA SWMM Reference Manual, Band II, 6.3.2, nach Francis",
    "EPA SWMM Reference Manual Vol. II, table 6-2": "EPA SWMM Reference Manual Vol. II, Tabelle 6-2",
    "Kindsvater and Carter, as coded in fluids 1.3.1": "Kindsvater und Carter, wie in fluids 1.3.1 programmiert",
    "Rehbock, limits after Blevins, as coded in fluids 1.3.1": "Rehbock, Grenzen nach Blevins, wie in fluids 1.3.1 programmiert",
    "ends that draw the sheet in": "Enden, die den Schleier einziehen",
    "flow over the lip": "Durchfluss über die Kante",
    "head over height of the lip": "Überfallhöhe durch Höhe der Kante",
    "head over width": "Überfallhöhe durch Breite",
    "height of the lip over the bottom": "Höhe der Kante über dem Boden",
    "share of the channel's width": "Anteil an der Breite des Gerinnes",
    "the head": "die Überfallhöhe",
    "the height of the lip": "die Höhe der Kante",
    "the width": "die Breite",
    "{name} is {value}; this formula was tested from {limit} up, so take the result as a "
    "rough one": (
        "{name}: {value}; diese Formel wurde ab {limit} geprüft, nimm das Ergebnis also als Näherung"
    ),
    "{name} is {value}; this formula was tested up to {limit}, so take the result as a rough one": (
        "{name}: {value}; diese Formel wurde bis {limit} geprüft, nimm das Ergebnis also als Näherung"
    ),
    # core/stock/ammonia
    "Emerson et al. 1975, J. Fish. Res. Board Can. 32, 2379, as quoted": "Emerson et al. 1975, J. Fish. Res. Board Can. 32, 2379, wie zitiert",
    "NH3-N = f TAN": "NH3-N = f TAN",
    "TANmax = L / f": "TANmax = L / f",
    "acid constant of ammonium": "Säurekonstante des Ammoniums",
    "ammonia given off": "abgegebenes Ammoniak",
    "ammonia nitrogen from protein": "Ammoniak-Stickstoff aus Eiweiß",
    "ammonia to hold": "zu haltendes Ammoniak",
    "conservation of the ammonia's mass": "Erhaltung der Masse des Ammoniaks",
    "f = 1 / (1 + 10^(pKa - pH))": "f = 1 / (1 + 10^(pKa - pH))",
    "feed": "Futter",
    "flow through the filter": "Durchfluss durch den Filter",
    "limit of the un-ionised": "Grenze des freien Ammoniaks",
    "limit of un-ionised ammonia": "Grenze des freien Ammoniaks",
    "pH of the water": "pH des Wassers",
    "pKa = 0.09018 + 2729.92 / T": "pKa = 0,09018 + 2729,92 / T",
    "protein in the feed": "Eiweiß im Futter",
    "share removed in one pass": "in einem Durchgang abgebauter Anteil",
    "total ammonia": "gesamtes Ammoniak",
    "total ammonia nitrogen": "gesamter Ammoniak-Stickstoff",
    "total at the limit": "gesamt an der Grenze",
    "un-ionised ammonia is {free}, above {limit}: stop feeding, aerate, and change {share} "
    "of the water for water free of ammonia and chlorine, in portions": (
        "freies Ammoniak {free}, über {limit}: Füttere nicht, belüfte und wechsle {share} "
        "des Wassers gegen solches ohne Ammoniak und Chlor, in Portionen"
    ),
    "un-ionised ammonia nitrogen": "freier Ammoniak-Stickstoff",
    "un-ionised share": "freier Anteil",
    # core/stock/balance
    "add {volume} of media of that kind, with the same flow through them; bacteria take "
    "weeks to grow on them": (
        "füg {volume} Füllkörper dieser Art hinzu, mit demselben Durchfluss; Bakterien "
        "brauchen Wochen, um darauf zu wachsen"
    ),
    "air pump": "Luftpumpe",
    "alkalinity used up": "verbrauchte Alkalinität",
    "all fish": "alle Fische",
    "ammonia nitrogen given off": "abgegebener Ammoniak-Stickstoff",
    "an air pump whose stones dissolve {mass} of oxygen in an hour": "eine Luftpumpe, deren Steine {mass} Sauerstoff in der Stunde lösen",
    "feed {rest} in a day and no more than that, instead of {feed}": "füttere {rest} am Tag und nicht mehr, statt {feed}",
    "fewer fish": "weniger Fische",
    "find a home for {mass} of fish, about {count} of middle size, and feed the others "
    "that much less": (
        "such ein Zuhause für {mass} Fisch, etwa {count} von mittlerer Größe, und füttere "
        "die anderen um so viel weniger"
    ),
    "less feed": "weniger Futter",
    "let {flow} more run over the fall, day and night": "lass {flow} mehr über den Wasserfall laufen, Tag und Nacht",
    "likely enough": "wahrscheinlich genug",
    "likely too little": "wahrscheinlich zu wenig",
    "more flow": "mehr Durchfluss",
    "more media": "mehr Füllkörper",
    "oxygen for the filter": "Sauerstoff für den Filter",
    "oxygen for the fish": "Sauerstoff für die Fische",
    "oxygen use": "Sauerstoffverbrauch",
    "too little": "zu wenig",
    "two O2 for each nitrogen, standard atomic weights": "zwei O2 je Stickstoff, Standard-Atomgewichte",
    "water this warm and this high up holds {full} of oxygen at the most, less than the "
    "{wanted} wanted: shade it, and do not feed until it is cooler": (
        "so warmes Wasser in dieser Höhe hält höchstens {full} Sauerstoff, weniger als die "
        "gewünschten {wanted}: Beschatte es und füttere nicht, bis es kühler ist"
    ),
    "{feed} in a day is more than these fish eat at this temperature ({most} at the most); "
    "what they leave rots and makes ammonia too": (
        "{feed} am Tag sind mehr, als diese Fische bei dieser Temperatur fressen (höchstens "
        "{most}); was sie übrig lassen, fault und macht auch Ammoniak"
    ),
    # core/stock/biomass
    "B = sum of n m": "B = Summe der n m",
    "Fulton's condition factor: mass over length cubed": "Fultons Konditionsfaktor: Masse durch Länge hoch drei",
    "fish of that length": "Fische dieser Länge",
    "length of a fish": "Länge eines Fischs",
    "mass of a fish": "Masse eines Fischs",
    "mass of a fish over its length cubed": "Masse eines Fischs durch Länge hoch drei",
    "mass over length cubed": "Masse durch Länge hoch drei",
    "number of fish": "Zahl der Fische",
    # core/stock/feed
    "do not feed: above {limit} the water holds too little oxygen for it": "füttere nicht: Über {limit} hält das Wasser dafür zu wenig Sauerstoff",
    "do not feed: below {limit} fish hardly digest": "füttere nicht: Unter {limit} verdauen Fische kaum",
    "feed little or nothing until {limit}, and then wheat germ": "füttere wenig oder nichts bis {limit}, und dann Weizenkeime",
    "feed once a day, of medium protein, until {limit}": "füttere einmal am Tag, mittleres Eiweiß, bis {limit}",
    "feed once a day, wheat germ, until {limit}": "füttere einmal am Tag, Weizenkeime, bis {limit}",
    "feed over mass of fish": "Futter durch Masse der Fische",
    "feed two or three times a day, no more than is gone in minutes, up to {limit}": (
        "füttere zwei- oder dreimal am Tag, nicht mehr, als in Minuten gefressen ist, bis {limit}"
    ),
    "mass of all fish": "Masse aller Fische",
    "temperatures of the feeding chart: {lower} must not be above {upper}": "Temperaturen der Fütterungstabelle: {lower} darf nicht über {upper} liegen",
    # core/stock/nitrification
    "FAO Fisheries Technical Paper 589 (2014), table 4.1, as copied in public data": (
        "FAO Fisheries Technical Paper 589 (2014), Tabelle 4.1, wie in öffentlichen Daten "
        "abgeschrieben"
    ),
    "ammonia": "Ammoniak",
    "ammonia nitrogen per area of media": "Ammoniak-Stickstoff je Oberfläche der Füllkörper",
    "ammonia nitrogen the filters take out": "Ammoniak-Stickstoff, den die Filter abbauen",
    "ammonia per area of media": "Ammoniak je Oberfläche der Füllkörper",
    "area of all media": "Oberfläche aller Füllkörper",
    "area of the media over their volume": "Oberfläche der Füllkörper durch ihr Volumen",
    "expanded clay": "Blähton",
    "geometric between a cold and a warm rate per area": "geometrisch zwischen einer kalten und einer warmen Rate je Fläche",
    "limestone gravel": "Kalksteinkies",
    "plastic bottle caps": "Flaschendeckel aus Kunststoff",
    "plastic filter media": "Füllkörper aus Kunststoff",
    "range of plastic media in an aquaculture standard, as quoted": "Spanne für Füllkörper aus Kunststoff in einer Norm der Fischzucht, wie zitiert",
    "volcanic gravel, pumice": "Vulkankies, Bims",
    "volcanic gravel, tuff": "Vulkankies, Tuff",
    "volume of the media": "Volumen der Füllkörper",
    "warm less cold water of the filter's rates": "warmes minus kaltes Wasser der Filterraten",
    # core/stock/oxygen
    "Benson and Krause 1984, Limnol. Oceanogr. 29, 620-632": "Benson und Krause 1984, Limnol. Oceanogr. 29, 620-632",
    "Cs = C0 p (1 - u/p) (1 - θ p) / ((1 - u) (1 - θ)), p in atm": "Cs = C0 p (1 - u/p) (1 - θ p) / ((1 - u) (1 - θ)), p in atm",
    "standard atmosphere of ICAO and the US (1976), as in fluids 1.3.1": "Normatmosphäre der ICAO und der USA (1976), wie in fluids 1.3.1",
    "Benson and Krause 1984, eq. 24, as in Standard Methods 4500-O": "Benson und Krause 1984, Gl. 24, wie in Standard Methods 4500-O",
    "aeration of a fall by Butts and Evans (1983), as in SWAT+, 7:3.5.12": "Belüftung an einem Fall nach Butts und Evans (1983), wie in SWAT+, 7:3.5.12",
    "aeration factor of the fall": "Belüftungsfaktor des Wasserfalls",
    "exchange at the surface": "Austausch an der Oberfläche",
    "flow over the fall": "Durchfluss über den Wasserfall",
    "gain of the water in one fall": "Gewinn des Wassers in einem Fall",
    "height of the fall": "Fallhöhe",
    "ln C0 = polynomial in 1/T": "ln C0 = Polynom in 1/T",
    "oxygen by the fall": "Sauerstoff durch den Wasserfall",
    "oxygen by the surface": "Sauerstoff durch die Oberfläche",
    "oxygen supply": "Sauerstoffangebot",
    "oxygen to keep": "zu haltender Sauerstoff",
    "pressure of the air": "Luftdruck",
    "salt in the water": "Salz im Wasser",
    "saturation at 1 atm": "Sättigung bei 1 atm",
    "saturation here": "Sättigung hier",
    "transfer in proportion to what is missing from saturation": "Übergang im Verhältnis zu dem, was zur Sättigung fehlt",
    # core/stock/respiration
    "carp at 20 °C, doubling about every 10 °C": "Karpfen bei 20 °C, Verdopplung etwa je 10 °C",
    # core/stock/span
    "a range must rise from least to most and start at 0 or above, not {low}, {likely}, {high}": (
        "eine Spanne muss vom Kleinsten zum Größten steigen und bei 0 oder darüber beginnen, "
        "nicht {low}, {likely}, {high}"
    ),
    "a range that reaches down to 0 cannot divide": "durch eine Spanne, die bis 0 reicht, lässt sich nicht teilen",
    # core/volume/basin
    "V = sum of the basins": "V = Summe der Becken",
    "V = sum of the layers": "V = Summe der Schichten",
    "a basin needs at least one layer of water": "ein Becken braucht mindestens eine Schicht Wasser",
    "area at its bottom": "Fläche an ihrem Boden",
    "area at its top": "Fläche an ihrer Oberseite",
    "area half way down": "Fläche auf halber Höhe",
    "computed volume": "errechnetes Volumen",
    "difference worth a word": "Unterschied, der ein Wort wert ist",
    "give a basin or a measured volume": "gib ein Becken oder ein gemessenes Volumen an",
    "its depth": "seine Tiefe",
    "layer {number} is wider at its top, {below}, than the floor above it, {above}: is the "
    "bank really undercut?": (
        "Schicht {number} ist oben weiter, {below}, als der Boden darüber, {above}: Ist das "
        "Ufer wirklich unterhöhlt?"
    ),
    "measured volume": "gemessenes Volumen",
    "the measured volume counts": "das gemessene Volumen gilt",
    "the pond was measured as {measured} but its dimensions give {computed}: check the "
    "depth and the slope of the sides; the measured volume is used": (
        "der Teich wurde mit {measured} gemessen, aber seine Maße ergeben {computed}: Prüfe "
        "Tiefe und Neigung der Seiten; das gemessene Volumen gilt"
    ),
    "water in basin {number}": "Wasser in Becken {number}",
    "water in layer {number}": "Wasser in Schicht {number}",
    "water in the basin": "Wasser im Becken",
    "water in the pond, computed": "Wasser im Teich, errechnet",
    "water in the pond, measured": "Wasser im Teich, gemessen",
    # core/volume/fill_methods
    "JCGM 100:2008, 5.1, and NIST TN 1297 (propagation)": "JCGM 100:2008, 5.1, und NIST TN 1297 (Fortpflanzung)",
    "conservation of the salt's mass": "Erhaltung der Masse des Salzes",
    "flow after": "Durchfluss danach",
    "flow before": "Durchfluss davor",
    "its uncertainty": "seine Unsicherheit",
    "mass of the salt": "Masse des Salzes",
    "rise of the salt": "Anstieg des Salzes",
    "rise wanted": "gewünschter Anstieg",
    "salt added": "zugegebenes Salz",
    "salt after": "Salz danach",
    "salt before": "Salz davor",
    "the rise of {rise} is lost in the meter's own uncertainty of {doubt}": "der Anstieg von {rise} geht in der Unsicherheit des Messgeräts von {doubt} unter",
    "the salt rose by {rise} only; a rise of {wanted} gives a surer volume, if fish and "
    "plants bear it": (
        "das Salz stieg nur um {rise}; ein Anstieg von {wanted} gibt ein sichereres Volumen, "
        "wenn Fische und Pflanzen es vertragen"
    ),
    "the volume of {volume} is known no better than by about {share} of itself": "das Volumen von {volume} ist nicht besser als auf etwa {share} bekannt",
    "u(V) by propagation of the inputs' own": "u(V) durch Fortpflanzung der Unsicherheiten der Eingaben",
    "uncertainty of the mass": "Unsicherheit der Masse",
    "uncertainty of the meter": "Unsicherheit des Messgeräts",
    # core/volume/layers
    "area at the bottom": "Fläche am Boden",
    "area at the top": "Fläche oben",
    "area at the water": "Fläche am Wasser",
    "area further down": "Fläche weiter unten",
    "depth": "Tiefe",
    "depth of the first area": "Tiefe der ersten Fläche",
    "depth of the next area": "Tiefe der nächsten Fläche",
    "depth of the water": "Tiefe des Wassers",
    "diameter": "Durchmesser",
    "give at least two areas, and a depth for each": "gib mindestens zwei Flächen an, jede mit ihrer Tiefe",
    "prismoidal rule of earthwork; University of Regina, a worked pond": "Prismenregel des Erdbaus; University of Regina, ein gerechneter Teich",
    "set-back of the side": "Einzug der Seite",
    "sides that come in by {set_back} of the depth meet at {meet}, above the bottom at {depth}": (
        "Seiten, die um {set_back} der Tiefe nach innen kommen, treffen sich bei {meet}, "
        "über dem Boden bei {depth}"
    ),
    # core/volume/liner
    "area of the sheet": "Fläche der Bahn",
    "geometry of the sloping side": "Geometrie der geneigten Seite",
    "greatest depth": "größte Tiefe",
    "length at the rim": "Länge am Rand",
    "length of the pond": "Länge des Teichs",
    "length of the sheet": "Länge der Bahn",
    "overlap of the liner": "Überstand der Folie",
    "overlap on each side": "Überstand an jeder Seite",
    "set-back per depth": "Einzug je Tiefe",
    "width at the rim": "Breite am Rand",
    "width of the pond": "Breite des Teichs",
    # core/volume/outline
    "distance that the sides move in": "Strecke, um die die Seiten nach innen rücken",
    "an outline needs at least three corners": "ein Umriss braucht mindestens drei Ecken",
    "corner {first} and the next one are the same point": "Ecke {first} und die nächste sind derselbe Punkt",
    "distance between the widths": "Abstand zwischen den Breiten",
    "number of corners": "Zahl der Ecken",
    "place of a corner": "Ort einer Ecke",
    "the outline crosses itself: the side after corner {first} meets the side after corner "
    "{second}; enter the corners in order round the edge": (
        "der Umriss kreuzt sich: Die Seite nach Ecke {first} trifft die Seite nach Ecke "
        "{second}; gib die Ecken der Reihe nach um den Rand ein"
    ),
    "the outline encloses no area": "der Umriss schließt keine Fläche ein",
    "the outline runs back on itself at corner {at}": "der Umriss läuft bei Ecke {at} auf sich selbst zurück",
    "this rule needs at least {least} widths": "diese Regel braucht mindestens {least} Breiten",
    "width of the outline": "Breite des Umrisses",
    # core/volume/plan_shapes
    "length of the missing corner": "Länge der fehlenden Ecke",
    "length round the edge": "Länge um den Rand",
    "the missing corner must be smaller than the rectangle on both sides": "die fehlende Ecke muss auf beiden Seiten kleiner als das Rechteck sein",
    "width": "Breite",
    "width of the missing corner": "Breite der fehlenden Ecke",
    # core/volume/soundings
    "all depths are 0: there is no water": "alle Tiefen sind 0: Da ist kein Wasser",
    "area of a cut": "Fläche eines Schnitts",
    "area times mean depth: Virginia Department of Wildlife Resources, pond size": "Fläche mal mittlere Tiefe: Virginia Department of Wildlife Resources, Teichgröße",
    "mean of {count} depths": "Mittel aus {count} Tiefen",
    "no depth is from near the edge: right for upright sides, too much for others": "keine Tiefe ist vom Rand: richtig bei senkrechten Seiten, zu viel bei anderen",
    "take the depth at three places or more": "nimm die Tiefe an drei oder mehr Stellen",
    # core/working
    "arithmetic": "Rechnung",
    "common practice, no source": "Erfahrungswert, ohne Quelle",
    "entered by you": "von dir eingegeben",
    "least": "kleinste",
    "most": "größte",
    "a valve has to hold that back": "ein Ventil muss das zurückhalten",
    "it may be too weak: enough in about {cases} of 100 likely cases": (
        "sie könnte zu schwach sein: Sie reicht in etwa {cases} von 100 möglichen Fällen"
    ),
    "its printed points begin at {end}: add one below {flow}": (
        "ihre gedruckten Punkte beginnen bei {end}: Gib einen unter {flow} dazu"
    ),
    "its printed points end at {end}: add one beyond {flow}": (
        "ihre gedruckten Punkte enden bei {end}: Gib einen über {flow} dazu"
    ),
    "less sure, but {more} cheaper over {years} years": (
        "weniger sicher, aber {more} billiger in {years} Jahren"
    ),
    "probably enough, and the cheapest of these over {years} years: {total}": (
        "reicht wahrscheinlich, und davon die billigste über {years} Jahre: {total}"
    ),
    "probably enough, but costs {more} more over {years} years": (
        "reicht wahrscheinlich, kostet aber {more} mehr in {years} Jahren"
    ),
    "take a smaller one, or fit a valve": "nimm eine kleinere, oder bau ein Ventil ein",
    "too strong: even turned down it gives {gives} where {flow} are wanted; {remedy}": (
        "zu stark: Auch gedrosselt gibt sie {gives}, gewünscht sind {flow}; {remedy}"
    ),
    "too strong: it gives {gives} or more where {flow} are wanted; {remedy}": (
        "zu stark: Sie gibt {gives} oder mehr, gewünscht sind {flow}; {remedy}"
    ),
    "too weak for the lift: at no flow it reaches {reach}, and {head} are needed": (
        "zu schwach für die Höhe: Ohne Durchfluss schafft sie {reach}, nötig sind {head}"
    ),
    "too weak for {name}: {head} are needed, and the other branches take the water first": (
        "zu schwach für {name}: Nötig sind {head}, und die anderen Zweige nehmen das Wasser vorher"
    ),
    "too weak: {missing} short of the {flow} that are wanted": (
        "zu schwach: Es fehlen {missing} zu den gewünschten {flow}"
    ),
    "a branch divides again: the odds of that are not worked out": (
        "ein Zweig teilt sich noch einmal: Dafür wird keine Wahrscheinlichkeit berechnet"
    ),
    "a hundred cases, evenly over what is not known (H. Weyl, Math. Ann. 77 (1916) 313-352)": (
        "hundert Fälle, gleichmäßig über das verteilt, was nicht bekannt ist (H. Weyl, Math. Ann. 77 (1916) 313-352)"
    ),
    "cases tried": "durchgerechnete Fälle",
    "doubt of the lift of {name}": "Zweifel an der Höhe von {name}",
    "doubt of the loss of {name}": "Zweifel am Verlust von {name}",
    "p = cases with H(Q) above the head that the pipes take / N": (
        "p = Fälle, in denen H(Q) über dem liegt, was die Leitungen nehmen / N"
    ),
    "share of the cases in which it is enough": "Anteil der Fälle, in denen sie reicht",
    "only its label is known, not its curve: points of its printed curve make this surer": (
        "nur ihr Etikett ist bekannt, nicht ihre Kennlinie: Punkte der gedruckten Kennlinie machen das sicherer"
    ),
    "share of the power that is kept": "Anteil der Leistung, der bleibt",
    "container over the one in use": "Gefäß im Verhältnis zum benutzten",
    "JCGM 100:2008, 5.1.2 (independent parts add as squares)": "JCGM 100:2008, 5.1.2 (unabhängige Anteile addieren sich als Quadrate)",
    "JCGM 100:2008, H.3.6 and G.3 (pooled scatter), as for a prior": "JCGM 100:2008, H.3.6 und G.3 (gemeinsame Streuung), wie für Vorwissen",
    "chance of a surprise": "Wahrscheinlichkeit einer Überraschung",
    "degrees of freedom it is worth": "Freiheitsgrade, die sie wert ist",
    "earlier fills here against that": "frühere Füllungen hier im Vergleich dazu",
    "this project's own choice, checked by simulation": "eigene Wahl dieses Projekts, durch Simulation geprüft",
    "w = ν0, or ν0 (s0 / s1)² if s1 is larger": "w = ν0, oder ν0 (s0 / s1)², wenn s1 größer ist",
    "of which count here": "wovon hier zählen",
    "scatter expected of one fill": "erwartete Streuung einer Füllung",
    "scatter of a start and stop": "Streuung von Start und Stopp",
    "scatter of earlier fills": "Streuung früherer Füllungen",
    "scatter of these fills": "Streuung dieser Füllungen",
    "variation from fill to fill": "Schwankung von Füllung zu Füllung",
    "weight of the expected scatter": "Gewicht der erwarteten Streuung",
    "limit": "Grenze",
    "ratio of variances": "Verhältnis der Varianzen",
    "JCGM 106:2012, 7.2 to 7.5 and 8.3 (conformance probability)": "JCGM 106:2012, 7.2 bis 7.5 und 8.3 (Wahrscheinlichkeit der Übereinstimmung)",
    "chance that is asked for": "verlangte Wahrscheinlichkeit",
    "chance that it is less than wanted": "Wahrscheinlichkeit, dass es weniger ist als gewünscht",
    "chance that it is more than wanted": "Wahrscheinlichkeit, dass es mehr ist als gewünscht",
    "chance that the flow lies in the band": "Wahrscheinlichkeit, dass der Durchfluss im gewünschten Bereich liegt",
    "decided if P ≥ P0 and w ≤ w0": "entschieden, wenn P ≥ P0 und w ≤ w0",
    "half width of the interval over the flow": "halbe Breite des Bereichs durch den Durchfluss",
    "the most of that": "das Höchste davon",
    "widest interval": "breitester Bereich",
    "odds": "Wahrscheinlichkeit",
    "size of a large pond": "Größe eines großen Teichs",
    "P = F protein x nitrogen share, and no less than Pu": "P = F Eiweiß x Stickstoffanteil, und nicht weniger als Pu",
    "ammonia nitrogen of unfed fish": "Ammoniakstickstoff ungefütterter Fische",
    "f by temperature from the chart, in proportion between the middles of its steps": "f nach Temperatur aus der Tabelle, anteilig zwischen den Mitten ihrer Stufen",
    "below {limit} a filter's bacteria all but rest: do not count on it": "unter {limit} ruhen die Bakterien eines Filters fast: Rechne nicht mit ihm",
}
