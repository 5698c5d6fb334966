"""German: answers, units, storage and backups."""

ANSWERS: dict[str, str] = {
    # models/migrate
    "it does not fit format {found}: {reason}": "es passt nicht zum Format {found}: {reason}",
    "it does not say which version of the app's format it has": "es sagt nicht, welche Fassung des App-Formats es hat",
    "it was saved by a newer version of the app (format {found}, known up to {known})": (
        "es wurde von einer neueren Fassung der App gespeichert (Format {found}, bekannt bis "
        "{known})"
    ),
    "there is no way from format {found}": "vom Format {found} führt kein Weg weiter",
    # sizing/accuracy
    "Mostly {part}: {share} % of the doubt.": "Vor allem {part}: {share} % der Unsicherheit.",
    "Mostly how much the fills differ: more than hand and flow explain.": "Vor allem weicht "
    "Füllung von Füllung ab: mehr, als Hand und Durchfluss erklären.",
    "To lessen the doubt, find out why: strike out a fill that went wrong, or wait until the flow "
    "is steady.": "Für weniger Unsicherheit such den Grund: Streich eine misslungene Füllung, "
    "oder warte, bis das Wasser gleichmäßig läuft.",
    "No ruler can halve it. Catch the flow of a part of the lip in a bucket once, or "
    "measure another way beside it.": (
        "Kein Lineal kann sie halbieren. Fang einmal den Durchfluss eines Teils der Kante im "
        "Eimer auf oder miss daneben auf andere Art."
    ),
    "To halve the doubt, better both: {first}, and {second}.": "Um die Unsicherheit zu halbieren, verbessere beides: {first}, und {second}.",
    "To halve the doubt: a container of {volume}.": "Um die Unsicherheit zu halbieren: ein Behälter mit {volume}.",
    "To halve the doubt: a scale good to {half}, or fill in more water each time.": (
        "Um die Unsicherheit zu halbieren: eine Waage, die auf {half} stimmt, oder jedes Mal "
        "mehr Wasser."
    ),
    "To halve the doubt: fill a bucket with this gravel, then pour in water to its top. "
    "That water, as a share of the bucket, is the gaps; know it to within {share} %.": (
        "Um die Unsicherheit zu halbieren: Füll einen Eimer mit diesem Kies und gieß Wasser "
        "bis zum Rand dazu. Dieses Wasser als Anteil des Eimers sind die Lücken; bestimme sie "
        "auf {share} % genau."
    ),
    "To halve the doubt: know the area to within {share} %; measure it at both marks.": (
        "Um die Unsicherheit zu halbieren: Bestimme die Fläche auf {share} % genau; miss sie an "
        "beiden Marken."
    ),
    "To halve the doubt: know the space to within {share} %.": "Um die Unsicherheit zu halbieren: Bestimme den Raum auf {share} % genau.",
    "To halve the doubt: know the width that carries water to within {half}.": "Um die Unsicherheit zu halbieren: Bestimme die wasserführende Breite auf {half} genau.",
    "To halve the doubt: know what it holds to within {half}, say by weighing its water.": (
        "Um die Unsicherheit zu halbieren: Bestimme auf {half} genau, was er fasst, etwa indem "
        "du sein Wasser wiegst."
    ),
    "To halve the doubt: let the level move by {longer}.": "Um die Unsicherheit zu halbieren: Lass den Pegel um {longer} steigen oder fallen.",
    "To halve the doubt: read the depth to within {half}.": "Um die Unsicherheit zu halbieren: Lies die Tiefe auf {half} genau ab.",
    "To halve the doubt: time a bucket or a level beside it.": "Um die Unsicherheit zu halbieren: Stoppe daneben einen Eimer oder einen Pegel.",
    "To halve the doubt: time it over {longer}, or {runs} times in all.": "Um die Unsicherheit zu halbieren: Stoppe über {longer} oder insgesamt {runs}-mal.",
    "To halve the doubt: {runs} fills in all, or a container of {volume}.": (
        "Um die Unsicherheit zu halbieren: insgesamt {runs} Füllungen oder ein Behälter mit "
        "{volume}."
    ),
    "how well it is known what the container holds": "wie genau bekannt ist, was der Behälter fasst",
    "reading the depth": "das Ablesen der Tiefe",
    "reading the level": "das Ablesen des Pegels",
    "starting and stopping by hand": "Starten und Stoppen von Hand",
    "the formula, which is rough for a sheet this thin": "die Formel, die für einen so dünnen Schleier grob ist",
    "the meter": "der Durchflussmesser",
    "the scale": "die Waage",
    "the share of gaps in the gravel": "der Anteil der Lücken im Kies",
    "the size of the space": "die Größe des Raums",
    "the water area": "die Wasserfläche",
    "the width of the lip": "die Breite der Kante",
    # sizing/compare
    "This holds only if both were taken at the same outlet.": "Das gilt nur, wenn beide am selben "
    "Auslauf gemessen wurden.",
    "They agree, so they count together.": "Sie stimmen überein und zählen deshalb zusammen.",
    "They differ by more than their doubt explains: one of them holds a mistake, or the "
    "flow changed in between. Measure again, by either.": (
        "Sie weichen mehr ab, als ihre Unsicherheit erklärt: In einer steckt ein Fehler, "
        "oder der Durchfluss hat sich dazwischen geändert. Miss noch einmal, gleich auf "
        "welche Art."
    ),
    "no target": "kein Ziel",
    # sizing/dates
    "April": "April",
    "August": "August",
    "December": "Dezember",
    "February": "Februar",
    "January": "Januar",
    "July": "Juli",
    "June": "Juni",
    "March": "März",
    "May": "Mai",
    "November": "November",
    "October": "Oktober",
    "September": "September",
    "that day is still to come; today is {today}": "dieser Tag kommt erst noch; heute ist der {today}",
    "there is no such day; write for example {example}": "diesen Tag gibt es nicht; schreib zum Beispiel {example}",
    "write a year from {first} on": "schreib ein Jahr ab {first}",
    "{text} is no date; write for example {example}": "{text} ist kein Datum; schreib zum Beispiel {example}",
    "{text} is no time of day; write for example {example}": "{text} ist keine Uhrzeit; schreib zum Beispiel {example}",
    # sizing/dry
    "A meter stands still at a trickle too: look at the open end to be sure.": (
        "Bei einem Rinnsal steht ein Durchflussmesser auch still: Sieh zur Sicherheit am offenen Ende nach."
    ),
    "Nothing comes; {least} or more is wanted here.": "Es kommt nichts; gewünscht sind hier {least} oder mehr.",
    "See that the pump runs and that the valves on the way are open. Then look for a kink, a "
    "clog or air in the hose.": (
        "Sieh nach, ob die Pumpe läuft und die Ventile auf dem Weg offen sind. Such dann nach "
        "einem Knick, einer Verstopfung oder Luft im Schlauch."
    ),
    "Seen at the open end, not measured: so there is no interval.": (
        "Am offenen Ende gesehen, nicht gemessen: Darum gibt es keinen Bereich."
    ),
    # sizing/due
    "1 day": "1 Tag",
    "Clean pump and foam in {rest}.": "Pumpe und Schaumstoff reinigen, fällig in: {rest}.",
    "Clean pump and foam, and log it: no cleaning is in the log yet.": (
        "Reinige Pumpe und Schaumstoff und trag es ein: Noch steht keine Reinigung im Protokoll."
    ),
    "Clean pump and foam: last done {ago} ago.": "Reinige Pumpe und Schaumstoff: Das letzte Mal ist {ago} her.",
    "Measure a flow in {rest}.": "Durchfluss messen, fällig in: {rest}.",
    "Measure a flow: last done {ago} ago.": "Miss einen Durchfluss: Das letzte Mal ist {ago} her.",
    "Measure a flow: no reading is in the log yet.": "Miss einen Durchfluss: Noch steht keine Messung im Protokoll.",
    "Test the water in {rest}.": "Wasser testen, fällig in: {rest}.",
    "Test the water: last done {ago} ago.": "Teste das Wasser: Das letzte Mal ist {ago} her.",
    "Test the water: no test is in the log yet.": "Teste das Wasser: Noch steht kein Test im Protokoll.",
    "{count} days": "{count} Tage",
    # sizing/example
    "After cleaning the pump": "Nach dem Reinigen der Pumpe",
    "Alder Corner (invented example)": "Erlenwinkel (erfunden)",
    "Bog filter": "Pflanzenfilter",
    "Bucket, 10 L mark": "Eimer, Marke bei 10 L",
    "Filter box": "Filterkasten",
    "First day, pump new": "Erster Tag, Pumpe neu",
    "Goldfish": "Goldfische",
    "Hose clips": "Schlauchschellen",
    "Large one": "Große",
    "Middle one": "Mittlere",
    "Pond": "Teich",
    "Pump": "Pumpe",
    "Slate lip": "Schieferkante",
    "Small one": "Kleine",
    "The fall looks thin": "Der Wasserfall sieht dünn aus",
    "To the bog": "Zweig Pflanzenfilter",
    "To the waterfall": "Zweig Wasserfall",
    "Tub, 40 L": "Wanne, 40 L",
    # sizing/fill
    "meter after": "Zählerstand danach",
    "meter before": "Zählerstand davor",
    "the meter must show more after the filling, {last}, than before, {first}": "nach dem Füllen muss die Wasseruhr mehr zeigen, {last}, als davor, {first}",
    # sizing/flow
    "A fill takes only {time}: use a bigger container.": "Eine Füllung dauert nur {time}: Nimm einen größeren Behälter.",
    "Close this branch's valve a little, then time it again.": "Schließ das Ventil dieses Zweigs ein wenig und stoppe noch einmal.",
    "Fill {number} looks like a slip: strike it out if something went wrong with it.": (
        "Füllung {number} sieht nach einem Ausreißer aus: Streich sie, wenn dabei etwas schiefging."
    ),
    "Leave the valve as it is and save this reading.": "Lass das Ventil, wie es ist, und speichere diese Messung.",
    "Not decided yet: the true flow may lie on either side of the limit.": (
        "Noch nicht entschieden: Der wahre Durchfluss kann auf beiden Seiten der Grenze liegen."
    ),
    "Open this branch's valve, or close another one a little. If it is open already, "
    "unplug the pump and clean it and its foam first.": (
        "Öffne das Ventil dieses Zweigs, oder schließ ein anderes ein wenig. Ist es schon "
        "offen, zieh erst den Stecker der Pumpe und reinige sie und ihren Schaumstoff."
    ),
    "Right: within what is wanted here.": "Stimmt: so, wie hier gewünscht.",
    "Time one more fill.": "Stoppe noch eine Füllung.",
    "Time {count} more fills.": "Stoppe noch {count} Füllungen.",
    "Too little: {gap} more would reach the band.": "Zu wenig: {gap} mehr würden den Bereich erreichen.",
    "Too much: {gap} less would reach the band.": "Zu viel: {gap} weniger würden den Bereich erreichen.",
    # sizing/health_words
    "No water at all.": "Gar kein Wasser.",
    "Nothing comes out at {names}.": "Bei {names} kommt nichts heraus.",
    "See that its valve is open, and look for a kink, a clog or air in the hose. How well the "
    "pump is shows once water comes everywhere.": (
        "Sieh nach, ob das Ventil offen ist, und such nach einem Knick, einer Verstopfung oder "
        "Luft im Schlauch. Wie gut die Pumpe ist, zeigt sich, wenn überall Wasser kommt."
    ),
    "See that the pump is plugged in and runs, that its inlet is under water and free, and that "
    "its valves are open.": (
        "Sieh nach, ob die Pumpe eingesteckt ist und läuft, ob ihr Einlauf unter Wasser und frei "
        "ist und ob die Ventile offen sind."
    ),
    "A little low: {share} % of what it should give here.": "Etwas niedrig: {share} % dessen, was sie hier geben sollte.",
    "A valve was opened since, or the pump was cleaned.": "Seitdem wurde ein Ventil geöffnet oder die Pumpe gereinigt.",
    "All branches fell together: it is the pump, its inlet or the hose up to the T-piece.": (
        "Alle Zweige sind zusammen gesunken: Es liegt an der Pumpe, ihrem Einlauf oder dem "
        "Schlauch bis zum T-Stück."
    ),
    "At {names}: look for clogged foam or gravel, roots, a kink, or a valve that was touched.": (
        "Bei {names}: Such nach verstopftem Schaumstoff oder Kies, Wurzeln, einem Knick oder "
        "einem verstellten Ventil."
    ),
    "Clean it at the next round.": "Reinige sie beim nächsten Rundgang.",
    "Healthy: {share} % of what it should give here.": "Gesund: {share} % dessen, was sie hier geben sollte.",
    "If cleaning changes nothing, the pipes take {missing} more than was entered: "
    "measure the lift again, and look for a kink or a half shut valve.": (
        "Wenn Reinigen nichts ändert, brauchen die Leitungen {missing} mehr als eingegeben: "
        "Miss die Hubhöhe noch einmal und such nach einem Knick oder halb geschlossenen "
        "Ventil."
    ),
    "Less water at {names} than on {day}.": "Weniger Wasser bei {names} als am {day}.",
    "Not decided yet.": "Noch nicht entschieden.",
    "Not decided yet: about {share} % of what it should give here.": "Noch nicht entschieden: etwa {share} % dessen, was sie hier geben sollte.",
    "Nothing lost since {day} that can be told.": "Seit dem {day} nichts Erkennbares verloren.",
    "Only {share} % of what it should give here.": "Nur {share} % dessen, was sie hier geben sollte.",
    "Open every valve for one round of fills: then the pump alone decides. Turn them back after.": (
        "Öffne für eine Runde Füllungen alle Ventile: Dann entscheidet allein die Pumpe. "
        "Dreh sie danach zurück."
    ),
    "Pump, lift or hose are not as entered.": "Pumpe, Hubhöhe oder Schlauch sind nicht wie eingegeben.",
    "The flow is not known well enough.": "Der Durchfluss ist nicht genau genug bekannt.",
    "The pump pushes as it did: something is in the way there.": "Die Pumpe drückt wie zuvor: Dort ist etwas im Weg.",
    "The pump's side has lost flow, and something is in the way at {names} too.": "Die Seite der Pumpe hat verloren, und bei {names} ist außerdem etwas im Weg.",
    "This is what later flows are compared with: time the branches again in some weeks, "
    "and what the pump has lost shows here.": (
        "Damit werden spätere Durchflüsse verglichen: Stoppe die Zweige in einigen Wochen "
        "noch einmal, dann zeigt sich hier, was die Pumpe verloren hat."
    ),
    "Time a fill at every branch: their pattern tells the pump from a blockage.": (
        "Stoppe an jedem Zweig eine Füllung: Ihr Muster unterscheidet die Pumpe von einer "
        "Verstopfung."
    ),
    "Time more fills, or use a bigger container: the flow is not known well yet.": (
        "Stoppe mehr Füllungen oder nimm einen größeren Behälter: Der Durchfluss ist noch "
        "nicht genau bekannt."
    ),
    "To tell pump from hose: raise the end of one hose, all others shut, until no water "
    "comes. A sound pump stops at about {head}, kink or not; a worn one lower.": (
        "Um Pumpe und Schlauch zu unterscheiden: Heb das Ende eines Schlauchs, alle anderen "
        "geschlossen, bis kein Wasser mehr kommt. Eine gesunde Pumpe hört bei etwa {head} "
        "auf, ob Knick oder nicht; eine verschlissene tiefer."
    ),
    "Unplug the pump, clean its inlet, foam and impeller, then measure again.": (
        "Zieh den Stecker der Pumpe, reinige Einlauf, Schaumstoff und Laufrad und miss noch einmal."
    ),
    "Valves may take the rest, so this says nothing of the pump.": "Den Rest können Ventile wegnehmen, daher sagt das nichts über die Pumpe.",
    "What this pump should give here is not known.": "Was diese Pumpe hier geben sollte, ist nicht bekannt.",
    "Whether pump or hose took it, this flow alone does not tell.": "Ob es an Pumpe oder Schlauch liegt, sagt dieser Durchfluss allein nicht.",
    "clean it": "reinigen",
    "cannot be told": "nicht zu sagen",
    "{share} % of the flow on {day}.": "{share} % des Durchflusses vom {day}.",
    "{share} % of what it gives with every valve open.": "{share} % dessen, was sie mit allen Ventilen offen gibt.",
    "{share} % of what it should give here: no wear.": "{share} % dessen, was sie hier geben sollte: kein Verschleiß.",
    # sizing/health
    "{share} % of what it should give here, if lift and hose are as assumed.": "{share} % dessen, was sie hier geben sollte, wenn Hubhöhe und Schlauch so sind wie angenommen.",
    # sizing/lip_setting
    "Choose a pump, or enter its label, to see whether it can.": "Wähl eine Pumpe oder gib ihr Etikett ein, um zu sehen, ob sie es kann.",
    "Set {pump} to about {share} % of its full speed, then measure.": "Stell {pump} auf etwa {share} % der vollen Drehzahl und miss dann.",
    "The pump must give {total} at a head of {head}, all branches together.": "Die Pumpe muss {total} bei {head} Förderhöhe fördern, alle Zweige zusammen.",
    "no branch feeds {lip} yet": "noch speist kein Zweig {lip}",
    "{name} cannot do that.": "{name} kann das nicht.",
    "{pump} should give it with the valve of {branch} about {share} % open. Valves differ: "
    "measure, then turn.": (
        "{pump} sollte es schaffen, wenn das Ventil von {branch} etwa {share} % offen ist. Ventile "
        "sind verschieden: Miss, dann dreh."
    ),
    "{pump} should give it with the valve of {branch} nearly closed: open it a crack, then measure.": (
        "{pump} sollte es mit fast geschlossenem Ventil von {branch} schaffen: Öffne es einen Spaltbreit "
        "und miss dann."
    ),
    "{pump} should give it with the valve of {branch} wide open.": "{pump} sollte es mit ganz offenem Ventil von {branch} schaffen.",
    "{pump} should give it. Fit a valve in its branch ({branch}) to set the flow, then measure.": (
        "{pump} sollte es schaffen. Bau in den Zweig ({branch}) ein Ventil ein, um den Durchfluss "
        "einzustellen, und miss dann."
    ),
    # sizing/log_table
    "Flow ({unit})": "Durchfluss ({unit})",
    "How": "Wie",
    "Note": "Notiz",
    "Place": "Stelle",
    "Taken at": "Gemessen am",
    "Verdict": "Urteil",
    "Wanted from ({unit})": "Gewünscht von ({unit})",
    "Wanted to ({unit})": "Gewünscht bis ({unit})",
    # sizing/methods
    "Nothing comes out": "Es kommt nichts heraus",
    "Bucket and stopwatch": "Eimer und Stoppuhr",
    "Falling level": "Fallender Pegel",
    "Filling a box or bog": "Kasten oder Pflanzenfilter füllen",
    "Flow meter": "Durchflussmesser",
    "Q as shown": "Q wie angezeigt",
    "Clean it once, time the branches, and keep that as the clean pump: what is lost later shows against it.": "Reinige sie einmal, stoppe die Zweige und merke das als saubere Pumpe: Was später fehlt, zeigt sich daran.",
    "Its speed or a valve may take the rest: this says nothing of wear.": "Den Rest können Drehzahl oder Ventil nehmen: Über Verschleiß sagt das nichts.",
    "Not decided: about {share} % of what it should give here.": "Nicht entschieden: etwa {share} % von dem, was sie hier geben sollte.",
    "Turn the pump to full speed first, and open every valve, for one round of fills: then the pump alone decides. Turn them back after.": "Stell die Pumpe zuerst auf volle Drehzahl und öffne jedes Ventil, für eine Runde Füllungen: Dann entscheidet nur die Pumpe. Stell danach alles zurück.",
    "{share} % of what it gives at full speed with every valve open.": "{share} % von dem, was sie bei voller Drehzahl und offenen Ventilen gibt.",
    "What it should give is at full speed.": "Was sie geben sollte, gilt für volle Drehzahl.",
    "Ruler over a lip": "Lineal über der Kante",
    "Weighed bucket": "Gewogener Eimer",
    "flow on the meter": "Durchfluss laut Anzeige",
    # sizing/network
    "Main run": "Hauptleitung",
    "no flow is planned here: add what the pump feeds, or a wish for the whole pond": (
        "hier ist kein Durchfluss geplant: Füg hinzu, was die Pumpe speist, oder einen "
        "Wunsch für den ganzen Teich"
    ),
    # sizing/open_matters
    "An entry of the log is dated in the future and does not count yet.": "Ein Eintrag im Logbuch ist auf die Zukunft datiert und zählt noch nicht.",
    "Every flow is as wanted.": "Jeder Durchfluss ist wie gewünscht.",
    "Measured too long ago: {names}.": "Vor zu langer Zeit gemessen: {names}.",
    "Not measured yet: {names}.": "Noch nicht gemessen: {names}.",
    "Not tested, or too long ago: {names}.": "Nicht getestet oder vor zu langer Zeit: {names}.",
    "The last water test is {age} old, too old to go by.": "Der letzte Wassertest ist zu alt, um danach zu gehen: {age}.",
    "The water was never tested.": "Das Wasser wurde noch nie getestet.",
    "Water: nothing is off in the tests of the last {age}.": "Wasser: In den Tests ist nichts auffällig, der älteste ist so alt: {age}.",
    "Water: nothing is off in the tests of today.": "Wasser: In den Tests von heute ist nichts auffällig.",
    "{name} is enough.": "{name} reicht.",
    "{name} is probably enough: measure to be sure.": "{name} reicht wahrscheinlich: Miss, um sicher zu sein.",
    "{name} is too strong: turn it down, or take a smaller one.": "{name} ist zu stark: Dreh sie herunter oder nimm eine kleinere.",
    "{name} may be too weak: measure to be sure.": "{name} ist vielleicht zu schwach: Miss, um sicher zu sein.",
    "{name} is enough, as measured.": "{name} reicht, wie gemessen.",
    "{name} is too weak.": "{name} ist zu schwach.",
    "{name}: no branch brings it water.": "{name}: Kein Zweig bringt Wasser hin.",
    "{name}: no pump is chosen.": "{name}: Keine Pumpe ist gewählt.",
    "{name}: no water comes out.": "{name}: Es kommt kein Wasser.",
    "{name}: no water comes out. A filter that stands still dies within hours, and then poisons the pond.": "{name}: Es kommt kein Wasser. Ein Filter, der steht, stirbt in Stunden ab und vergiftet dann den Teich.",
    "{name}: whether it is enough is not known yet.": "{name}: Ob sie reicht, ist noch nicht bekannt.",
    "{name}: {flow} is too little.": "{name}: {flow} sind zu wenig.",
    "{name}: {flow} is too much.": "{name}: {flow} sind zu viel.",
    "{name}: {flow}, not decided yet: time more fills.": "{name}: {flow}, noch nicht entschieden: Stoppe weitere Füllungen.",
    # sizing/path
    "Straight return": "Direkter Rücklauf",
    "To {thing}": "Zweig {thing}",
    "{branch}: assuming {length} of hose": "{branch}: {length} Schlauch werden angenommen",
    "{branch}: assuming {lift} of lift": "{branch}: {lift} Hubhöhe werden angenommen",
    "{branch}: assuming {lift} of lift and {length} of hose": (
        "{branch}: {lift} Hubhöhe und {length} Schlauch werden angenommen"
    ),
    "{pump}: its watts are not entered": "{pump}: Watt nicht eingegeben",
    # sizing/path_edits
    "Second pump": "Zweite Pumpe",
    # sizing/pipe_names
    "Hose": "Schlauch",
    "PVC pipe": "PVC-Rohr",
    "PVC pressure pipe": "PVC-Druckrohr",
    "Ribbed hose": "Rippenschlauch",
    "ribbed hose": "Rippenschlauch",
    # sizing/plan
    "{total} is enough for everything": "{total} genügen für alles",
    "{total} is enough, if the lift and hose assumed are so": "{total} genügen, wenn Hubhöhe und Schlauch so sind wie angenommen",
    "{total} would be enough, but it does not arrive": "{total} würden genügen, kommen aber nicht an",
    "What its branches ask for; it can't all work, so see the plan.": "Was seine Zweige verlangen; alles zusammen geht nicht, sieh im Plan nach.",
    "The least that is enough for the whole pond and everything this pump feeds.": "Das Mindeste, das für den ganzen Teich und alles genügt, was diese Pumpe speist.",
    "flow in {name}, at least": "Durchfluss in {name}, mindestens",
    "{pump} cannot bring each branch its share of this plan: {branch} takes {head} of head, {missing} more than the pump makes then": "{pump} kann nicht jedem Zweig seinen Teil dieses Plans bringen: {branch} braucht {head} Förderhöhe, {missing} mehr, als die Pumpe dann schafft",
    "{pump} delivers only about {delivered} up there through its hoses, not the {wanted} of this plan: it takes a wider hose or a stronger pump": "{pump} liefert dort oben durch ihre Schläuche nur etwa {delivered}, nicht die {wanted} dieses Plans: Das braucht einen weiteren Schlauch oder eine stärkere Pumpe",
    "Q = sum of Qi": "Q = Summe der Qi",
    "branches of {name}": "Zweige von {name}",
    "flow of the pump, at least": "Durchfluss der Pumpe, mindestens",
    "number of pumps": "Zahl der Pumpen",
    "volume of {name}": "Volumen von {name}",
    "width of {name}": "Breite von {name}",
    "{pump} cannot lift water by {lift}: choose another pump for it": "{pump} kann das Wasser nicht um {lift} heben: Wähl dafür eine andere Pumpe",
    # sizing/plumbing
    "head at the pump": "Förderhöhe an der Pumpe",
    "head of {name}": "Förderhöhe von {name}",
    # sizing/printed
    "Branch": "Zweig",
    "Feeds": "Speist",
    "Flows": "Durchflüsse",
    "Flows, bands and sizes are worked out from what was entered; measure before you trust "
    "them. Mains and water kill: use a protected outdoor supply, and unplug before hands "
    "go in. Small children drown in centimetres of water.": (
        "Durchflüsse, Bereiche und Größen sind aus den Eingaben errechnet; miss nach, bevor "
        "du ihnen traust. Netzstrom und Wasser töten: Nimm einen geschützten Außenanschluss "
        "und zieh den Stecker, bevor Hände ins Wasser gehen. Kleine Kinder ertrinken in "
        "wenigen Zentimetern Wasser."
    ),
    "How much": "Wie viel",
    "Last measured": "Zuletzt gemessen",
    "Lift": "Hubhöhe",
    "Pipe or hose": "Rohr oder Schlauch",
    "Planned": "Geplant",
    "Planned: {total} in all": "Geplant: {total} insgesamt",
    "Printed {day}": "Gedruckt am {day}",
    "The pond holds {volume}.": "Der Teich fasst {volume}.",
    "To buy": "Zu kaufen",
    "Valve": "Ventil",
    "Wanted": "Gewünscht",
    "What": "Was",
    "back to the pond": "zurück in den Teich",
    "not yet": "noch nicht",
    "pump not chosen yet": "Pumpe noch nicht gewählt",
    "{length} of {size} {kind}": "{length} {kind}, {size}",
    "{low} or more": "{low} oder mehr",
    "{value}, assumed": "{value}, angenommen",
    # sizing/pumped
    "No hose is entered for {names}: one is assumed.": "Für {names} ist kein Schlauch eingegeben: Es wird einer angenommen.",
    "The pump's curve is guessed from its label.": "Die Kennlinie der Pumpe ist aus ihrem Etikett geschätzt.",
    "choose a pump here, and this can be worked out": "wähl hier eine Pumpe, dann lässt sich das ausrechnen",
    # sizing/pumps
    "a price is missing: only its energy is counted": "ein Preis fehlt: Nur der Strom ist gerechnet",
    "all of it": "alles",
    "enter the largest flow and the largest head from its label": "gib den größten Durchfluss und die größte Förderhöhe vom Etikett ein",
    "its price is not entered: only its energy is counted": "ihr Preis ist nicht eingegeben: Nur ihr Strom ist gerechnet",
    "none of your pumps is enough for {what}, or its watts are not known: it takes {flow} "
    "at {head}": (
        "keine deiner Pumpen reicht für {what}, oder ihre Watt sind nicht bekannt: Nötig "
        "sind {flow} bei {head}"
    ),
    "nothing here can rest: each branch feeds a filter or the pond. A waterfall needs a "
    "branch of its own before it can go on a timer.": (
        "hier kann nichts ruhen: Jeder Zweig speist einen Filter oder den Teich. Ein "
        "Wasserfall braucht einen eigenen Zweig, bevor er an eine Zeitschaltuhr kann."
    ),
    "the filters": "die Filter",
    "the waterfall": "den Wasserfall",
    "there is only the waterfall here, so one pump on a timer is enough": "hier gibt es nur den Wasserfall, also reicht eine Pumpe an einer Zeitschaltuhr",
    # sizing/quick
    "High-flow filter": "Durchlauffilter",
    "Waterfall lip": "Wasserfallkante",
    "main run": "Hauptleitung",
    "the hose": "der Schlauch",
    "the pump": "die Pumpe",
    # sizing/rules_behind
    "{number} times an hour": "{number}-mal in der Stunde",
    # sizing/sheet
    "A closed sheet. {full} more makes it full.": "Ein geschlossener Schleier. {full} mehr machen ihn voll.",
    "A full sheet.": "Ein voller Schleier.",
    "A heavy fall that splashes: {gap} less would calm it, or a lip of {width}.": (
        "Ein schwerer Fall, der spritzt: {gap} weniger würden ihn beruhigen, oder eine Kante "
        "von {width}."
    ),
    "Not decided yet: measure the flow more closely.": "Noch nicht entschieden: Miss den Durchfluss genauer.",
    "Too thin: {gap} more closes the sheet, {full} more makes it full.": "Zu dünn: {gap} mehr schließen den Schleier, {full} mehr machen ihn voll.",
    "b_fed = Q / q": "b_voll = Q / q",
    "critical depth": "Grenztiefe",
    "critical depth, any hydraulics textbook": "Grenztiefe, jedes Lehrbuch der Hydraulik",
    "flow per width of lip": "Durchfluss je Breite der Kante",
    "free overfall from a level floor: Rouse": "freier Überfall von einer ebenen Sohle: Rouse",
    "share of it at the edge": "ihr Anteil an der Kante",
    "width of a full sheet": "Breite eines vollen Schleiers",
    # sizing/stock
    "Ammonia from fish that are not fed": "Ammoniak ungefütterter Fische",
    "At night there is likely too little oxygen for these fish; whether the filter is enough is not known yet.": "Nachts gibt es wahrscheinlich zu wenig Sauerstoff für diese Fische; ob der Filter reicht, ist noch nicht bekannt.",
    "At night there is too little oxygen for these fish; whether the filter is enough is not known yet.": "Nachts gibt es zu wenig Sauerstoff für diese Fische; ob der Filter reicht, ist noch nicht bekannt.",
    "In the warmest week, at {heat}: {verdict}": "In der wärmsten Woche, bei {heat}: {verdict}",
    "Only {have} pass the filters; about {need} are needed to keep toxic ammonia below {limit} at pH {ph}.": "Nur {have} gehen durch die Filter; etwa {need} braucht es, um giftiges Ammoniak bei pH {ph} unter {limit} zu halten.",
    "{have} pass the filters; about {need} are needed to keep toxic ammonia below {limit} at pH {ph}.": "{have} gehen durch die Filter; etwa {need} braucht es, um giftiges Ammoniak bei pH {ph} unter {limit} zu halten.",
    "The filter is likely too small for these fish; whether the oxygen is enough is not known yet.": "Der Filter ist wahrscheinlich zu klein für diese Fische; ob der Sauerstoff reicht, ist noch nicht bekannt.",
    "The filter is too small for these fish; whether the oxygen is enough is not known yet.": "Der Filter ist zu klein für diese Fische; ob der Sauerstoff reicht, ist noch nicht bekannt.",
    "Whether filter and oxygen are enough for these fish is not known yet.": "Ob Filter und Sauerstoff für diese Fische reichen, ist noch nicht bekannt.",
    "Whether the filter is enough for these fish is not known yet.": "Ob der Filter für diese Fische reicht, ist noch nicht bekannt.",
    "Whether the oxygen is enough for these fish is not known yet.": "Ob der Sauerstoff für diese Fische reicht, ist noch nicht bekannt.",
    "The bog is {share} of the pond's volume; {least} or more is usual, {heavy} for many fish": "Das Moorbeet ist {share} des Teichvolumens; üblich sind {least} oder mehr, bei vielen Fischen {heavy}",
    "its pump brings no water up there": "die Pumpe bringt kein Wasser hinauf",
    "no water came when it was measured last": "bei der letzten Messung kam kein Wasser",
    "the plan brings it no water": "der Plan bringt kein Wasser hin",
    "{name}: falls {height} with the planned {flow}; measure what it gets": "{name}: fällt {height} mit den geplanten {flow}; miss, was ankommt",
    "{name}: falls {height} with {flow}, less than planned: its pump brings no more": "{name}: fällt {height} mit {flow}, weniger als geplant: Mehr bringt die Pumpe nicht",
    " and ": " und ",
    "At night there is likely too little oxygen for these fish.": "Nachts gibt es wahrscheinlich zu wenig Sauerstoff für diese Fische.",
    "At night there is too little oxygen for these fish.": "Nachts gibt es zu wenig Sauerstoff für diese Fische.",
    "Filter and oxygen are likely too little for these fish.": "Filter und Sauerstoff sind wahrscheinlich zu wenig für diese Fische.",
    "Filter and oxygen are too little for these fish.": "Filter und Sauerstoff sind zu wenig für diese Fische.",
    "Filter, oxygen and fish go together.": "Filter, Sauerstoff und Fische passen zusammen.",
    "Filter, oxygen and fish likely go together, with little to spare.": "Filter, Sauerstoff und Fische passen wahrscheinlich zusammen, mit wenig Reserve.",
    "Open water: {area}": "Offenes Wasser: {area}",
    "The filter is likely too small for these fish.": "Der Filter ist wahrscheinlich zu klein für diese Fische.",
    "The filter is too small for these fish.": "Der Filter ist zu klein für diese Fische.",
    "The water's surface: draw the pond's shape": "Die Wasserfläche: Zeichne die Form des Teichs",
    "give the height of its fall": "gib die Fallhöhe an",
    "give the volume of its media": "gib das Volumen der Füllkörper an",
    "its pump does not run day and night": "die Pumpe läuft nicht Tag und Nacht",
    "{name}: falls {height} with {flow}, as measured last": "{name}: fällt {height} mit {flow}, wie zuletzt gemessen",
    "{name}: no branch brings it water": "{name}: kein Zweig bringt Wasser hin",
    "{name}: {volume} of media": "{name}: {volume} Füllkörper",
    # sizing/targets
    "About {flow} of lip.": "Etwa {flow} Kante.",
    "{flow} takes the pond's water round {times} an hour. Fish and plants want it calmer, {most} at most: a narrower lip or a larger pond would do.": "{flow} wälzen das Wasser des Teichs {times} je Stunde um. Fische und Pflanzen mögen es ruhiger, höchstens {most}: Eine schmalere Kante oder ein größerer Teich würde helfen.",
    "The pond's water {turns} an hour, and enough for the part that needs most.": "Das Wasser des Teichs {turns} je Stunde, und genug für den Teil, der am meisten braucht.",
    "good flow": "guter Durchfluss",
    "flow of {name}, at least": "Durchfluss von {name}, mindestens",
    "By the width of its opening.": "Nach der Breite der Öffnung.",
    "Q = the largest of these": "Q = der größte davon",
    "Q as entered": "Q wie eingegeben",
    "The pond's water {low} to {high} times an hour.": "Das Wasser des Teichs {low}- bis {high}-mal in der Stunde.",
    "Water takes {short} to {long} through the bed; slower is better.": "Das Wasser braucht {short} bis {long} durch das Beet; langsamer ist besser.",
    "What its maker prints, give or take a tenth.": "Was der Hersteller druckt, plus/minus ein Zehntel.",
    "Your own band.": "Dein eigener Bereich.",
    "either way": "nach beiden Seiten",
    "flow that its maker prints": "Durchfluss laut Hersteller",
    "flow that turns the pond over": "Durchfluss, der den Teich umwälzt",
    "{number} times": "{number}-mal",
    # sizing/to_buy
    "A sheet of {length} by {width}.": "Eine Bahn von {length} mal {width}.",
    "Bags of gravel for {filter}": "Säcke Kies für {filter}",
    "Ball valve": "Kugelhahn",
    "Bunches of submerged plants for {basin}": "Bündel Unterwasserpflanzen für {basin}",
    "Foam and loose media.": "Schaumstoff und lose Füllkörper.",
    "For {area}.": "Für {area}.",
    "For the {area} that floating leaves leave open; fewer will do.": (
        "Für die {area}, die Schwimmblätter frei lassen; weniger genügt auch."
    ),
    "Foot valve with strainer and flap": "Fußventil mit Saugkorb und Klappe",
    "Foot valve with strainer and spring": "Fußventil mit Saugkorb und Feder",
    "Gate valve": "Absperrschieber",
    "Globe valve": "Geradsitzventil",
    "Strainer": "Saugkorb oder Siebfilter",
    "Wye": "Y-Stück",
    "Liner for {basin}": "Teichfolie für {basin}",
    "Media for {filter}": "Füllkörper für {filter}",
    "One that gives {flow} at a head of {head}.": "Eine, die {flow} bei {head} Förderhöhe fördert.",
    "Partly assumed: enter what you really need under plumbing.": "Zum Teil angenommen: Gib bei den Leitungen ein, was du wirklich brauchst.",
    "Plants for {filter}": "Pflanzen für {filter}",
    "Underlay for {basin}": "Vlies für {basin}",
    "{mass} in bags of {bag}, or {volume} loose. Washed, of one size.": "{mass} in Säcken zu {bag}, oder {volume} lose. Gewaschen, von einer Größe.",
    "{part}, for {size}": "{part}, für {size}",
    "{what} in all": "{what} insgesamt",
    "Σ = sum of the runs": "Σ = Summe der Leitungen",
    # sizing/trend
    "Nothing came at the last reading: that is no trend.": "Bei der letzten Messung kam nichts: Das ist kein Trend.",
    "One reading of no water is left out.": "Eine Messung ohne Wasser ist ausgelassen.",
    "{count} readings of no water are left out.": "{count} Messungen ohne Wasser sind ausgelassen.",
    "It falls by {change} a month, give or take {give}.": "Er sinkt um {change} im Monat, plus/minus {give}.",
    "It is outside the band by now: clean, then measure again.": "Er liegt inzwischen außerhalb des Bereichs: Reinige und miss noch einmal.",
    "It leaves the band about {month} {year}, at the earliest in {first_month} {first_year}.": (
        "Er verlässt den Bereich etwa im {month} {year}, frühestens im {first_month} {first_year}."
    ),
    "It rises by {change} a month, give or take {give}.": "Er steigt um {change} im Monat, plus/minus {give}.",
    "It stays in the band for {time} or longer.": "Er bleibt im Bereich, für {time} oder länger.",
    "More does no harm here.": "Mehr schadet hier nicht.",
    "Not decided: in a month it may fall by {fall} or rise by {rise}. More readings, or "
    "more fills in each, will tell.": (
        "Nicht entschieden: In einem Monat kann er um {fall} sinken oder um {rise} steigen. "
        "Mehr Messungen oder mehr Füllungen je Messung klären es."
    ),
    "Not decided: {count} of the {needed} readings that a trend needs since the cleaning.": (
        "Nicht entschieden: {count} der {needed} Messungen, die ein Trend seit der Reinigung "
        "braucht."
    ),
    "Not decided: {count} of the {needed} readings that a trend needs.": "Nicht entschieden: {count} der {needed} Messungen, die ein Trend braucht.",
    "steady in the band": "gleichbleibend im Bereich",
    # sizing/tune
    "Nothing comes out; the aim is {aim}.": "Es kommt nichts heraus; das Ziel sind {aim}.",
    "See that the pump runs and that no valve is shut on the way. Then look for a kink, a clog "
    "or air in the hose.": (
        "Sieh nach, ob die Pumpe läuft und kein Ventil auf dem Weg zu ist. Such dann nach einem "
        "Knick, einer Verstopfung oder Luft im Schlauch."
    ),
    "See that the pump runs. Open the ball valve: turn its handle into the line of the hose. If it "
    "is open, look for a kink, a clog or air in the hose.": (
        "Sieh nach, ob die Pumpe läuft. Öffne den Kugelhahn: Dreh den Griff in die Richtung des "
        "Schlauchs. Ist er offen, such nach einem Knick, einer Verstopfung oder Luft im Schlauch."
    ),
    "See that the pump runs. Open the gate valve: turn it anticlockwise. If it is open, look for a "
    "kink, a clog or air in the hose.": (
        "Sieh nach, ob die Pumpe läuft. Öffne den Absperrschieber: Dreh ihn gegen den "
        "Uhrzeigersinn. Ist er offen, such nach einem Knick, einer Verstopfung oder Luft im "
        "Schlauch."
    ),
    "See that the pump runs. This branch has no valve: look for a kink, a clog or air in its hose.": (
        "Sieh nach, ob die Pumpe läuft. Dieser Zweig hat kein Ventil: Such nach einem Knick, einer "
        "Verstopfung oder Luft im Schlauch."
    ),
    "Begin with {name}: with every valve open it would take {before}, and keep it from the "
    "others.": (
        "Beginn mit {name}: Bei ganz offenen Ventilen nähme er {before} und entzöge es den anderen."
    ),
    "Close the ball valve further: turn its handle away from the line of the hose.": "Schließ den Kugelhahn weiter: Dreh den Griff von der Richtung des Schlauchs weg.",
    "Close the gate valve further: turn it clockwise.": "Schließ den Absperrschieber weiter: Dreh ihn im Uhrzeigersinn.",
    "Close this branch's valve further, or put one in.": "Schließ das Ventil dieses Zweigs weiter, oder bau eins ein.",
    "Leave this valve as it is, or close it a little and the others get more: {aim} is "
    "enough here.": (
        "Lass dieses Ventil, wie es ist, oder schließ es ein wenig, dann bekommen die "
        "anderen mehr: {aim} sind hier genug."
    ),
    "Leave this valve as it is.": "Lass dieses Ventil, wie es ist.",
    "More than this pump and these hoses could give was measured at {names}: check what is "
    "entered.": (
        "Bei {names} wurde mehr gemessen, als diese Pumpe und diese Schläuche geben können: "
        "prüfe die Eingaben."
    ),
    "Open the ball valve further: turn its handle towards the line of the hose. If it is "
    "wide open, close another branch's valve instead.": (
        "Öffne den Kugelhahn weiter: Dreh den Griff in die Richtung des Schlauchs. Ist er "
        "ganz offen, schließ stattdessen das Ventil eines anderen Zweigs."
    ),
    "Open the gate valve further: turn it anticlockwise. If it is wide open, close another "
    "branch's valve instead.": (
        "Öffne den Absperrschieber weiter: Dreh ihn gegen den Uhrzeigersinn. Ist er ganz "
        "offen, schließ stattdessen das Ventil eines anderen Zweigs."
    ),
    "Open this branch's valve further. If it is wide open, close another branch's valve instead.": (
        "Öffne das Ventil dieses Zweigs weiter. Ist es ganz offen, schließ stattdessen das "
        "Ventil eines anderen Zweigs."
    ),
    "Right: at the aim of {aim}.": "Stimmt: am Ziel von {aim}.",
    "Right: inside what is wanted here.": "Stimmt: im gewünschten Bereich.",
    "As a rough guide, the valve is about {share} % open then. No two valves are alike: what you "
    "measure decides.": (
        "Als grober Anhalt: Das Ventil ist dann etwa {share} % offen. Kein Ventil ist wie das "
        "andere: Was du misst, entscheidet."
    ),
    "The valve will be nearly closed then: move it by hair's breadths, and time each move.": "Das Ventil ist dann fast geschlossen: Beweg es um Haaresbreite und stoppe jedes Mal.",
    "This branch has no valve of its own: close another branch's a little.": "Dieser Zweig hat kein eigenes Ventil: Schließ das eines anderen Zweigs ein wenig.",
    "This branch has no valve: fit one, or open another branch's.": "Dieser Zweig hat kein Ventil: Bau eins ein, oder öffne das eines anderen Zweigs.",
    "When the others are set it will have risen by about {share} %: time it once more then.": (
        "Wenn die anderen eingestellt sind, ist er um etwa {share} % gestiegen: Stoppe ihn "
        "dann noch einmal."
    ),
    "to do": "zu tun",
    "{name} needs its valve wide open, and still gets only {before} of its {wanted}: the "
    "pump is short of that by this model.": (
        "{name} braucht sein Ventil ganz offen und bekommt doch nur {before} von {wanted}: "
        "So viel fehlt der Pumpe nach dieser Rechnung."
    ),
    "{share} % less than the aim of {aim}.": "{share} % weniger als das Ziel von {aim}.",
    "{share} % more than the aim of {aim}.": "{share} % mehr als das Ziel von {aim}.",
    "{times} times the aim of {aim}.": "Das {times}-fache des Ziels von {aim}.",
    # sizing/volume
    "every width is 0, so there is no water: enter the widths of the pond": "jede Breite ist 0, also ist da kein Wasser: Gib die Breiten des Teichs ein",
    "a shelf at {shelf} lies below the bottom at {bottom}": "eine Stufe bei {shelf} liegt unter dem Boden bei {bottom}",
    "slope and shelves meet before the bottom; make them narrower or the pond shallower": (
        "Neigung und Stufen treffen sich vor dem Boden; mach sie schmaler oder den Teich flacher"
    ),
    # sizing/water_tests
    "Ammonia is {total}: toxic even at pH {ph}. Stop feeding, aerate, change water in portions, and read the pH.": "Ammoniak {total}: giftig selbst bei pH {ph}. Füttere nicht, belüfte, wechsle Wasser in Portionen und miss den pH.",
    "Read the temperature too: this much ammonia is toxic in water of {heat}.": "Miss auch die Temperatur: So viel Ammoniak ist in Wasser von {heat} giftig.",
    "The pH is missing: how toxic {total} of ammonia is cannot be told. Read the pH too.": "Der pH fehlt: Wie giftig {total} Ammoniak sind, lässt sich nicht sagen. Miss auch den pH.",
    "Carbonate hardness": "Karbonathärte",
    "General hardness": "Gesamthärte",
    "Nitrate": "Nitrat",
    "Nitrite": "Nitrit",
    "Oxygen is {oxygen}, below {wanted}: aerate now and do not feed.": "Sauerstoff {oxygen}, unter {wanted}: Belüfte jetzt und füttere nicht.",
    "Oxygen is {oxygen}, {share} of what this water can hold, below {wanted}: aerate now "
    "and do not feed.": (
        "Sauerstoff {oxygen}, {share} dessen, was dieses Wasser hält, unter {wanted}: "
        "belüfte jetzt und füttere nicht."
    ),
    "Oxygen is {oxygen}, {share} of what this water can hold.": "Sauerstoff {oxygen}, {share} dessen, was dieses Wasser hält.",
    "Oxygen is {oxygen}.": "Sauerstoff {oxygen}.",
    "Salt is {value}, above {limit}, the most for a pond with fish in it: change water.": (
        "Salz {value}, über {limit}, dem Höchsten für einen Teich mit Fischen: Wechsle Wasser."
    ),
    "Salt is {value}: plants suffer from {limit} on.": "Salz {value}: Ab {limit} leiden Pflanzen.",
    "Toxic ammonia is {free}, {share} of the total, above {limit}: stop feeding, aerate, "
    "and change water in portions.": (
        "Giftiges Ammoniak {free}, {share} des Ganzen, über {limit}: Füttere nicht, belüfte "
        "und wechsle Wasser in Portionen."
    ),
    "Toxic ammonia is {free}, {share} of the total; up to {limit} is borne.": "Giftiges Ammoniak {free}, {share} des Ganzen; bis {limit} wird vertragen.",
    "Worked out with {value}, the pond's usual temperature.": "Gerechnet mit {value}, der üblichen Temperatur des Teichs.",
    "{name} is {value}, above {limit}: change water and let plants grow.": "{name} {value}, über {limit}: Wechsle Wasser und lass Pflanzen wachsen.",
    "{name} is {value}, above {limit}: feed less, change water in portions, and do not "
    "clean the filter hard.": (
        "{name} {value}, über {limit}: Füttere weniger, wechsle Wasser in Portionen und "
        "reinige den Filter nicht gründlich."
    ),
    "{name} is {value}, above {limit}: the water is very hard; top up with rain water.": "{name} {value}, über {limit}: Das Wasser ist sehr hart; füll mit Regenwasser auf.",
    "{name} is {value}, below {limit}: the pH can fall suddenly, and the filter starves.": "{name} {value}, unter {limit}: Der pH kann plötzlich fallen, und der Filter hungert.",
    "{name} is {value}, below {limit}: the water is very soft.": "{name} {value}, unter {limit}: Das Wasser ist sehr weich.",
    "{name} {value} is high, above {limit}: ammonia is more toxic now; look for algae, "
    "concrete or limestone.": (
        "{name} {value} ist hoch, über {limit}: Ammoniak ist jetzt giftiger; such nach "
        "Algen, Beton oder Kalkstein."
    ),
    "{name} {value} is low, below {limit}: check the carbonate hardness before anything else.": (
        "{name} {value} ist niedrig, unter {limit}: Prüfe vor allem anderen die Karbonathärte."
    ),
    "{value} is warm: do not feed, aerate, and shade the pond.": "{value} sind warm: Füttere nicht, belüfte und beschatte den Teich.",
    # sizing/waterfall
    "flow for a full sheet": "Durchfluss für einen vollen Schleier",
    "heaviest fall": "schwerster Fall",
    "thinnest sheet": "dünnster Schleier",
    "{name}, times the rule": "{name}, mal die Regel",
    # store/backup
    "Another tab or window changed what is here since the file was looked at, so nothing was taken in. "
    "Choose the file again.": (
        "Ein anderer Tab oder ein anderes Fenster hat geändert, was hier ist, seit die Datei angesehen wurde; darum "
        "wurde nichts übernommen. Wähle die Datei noch einmal."
    ),
    "a line of the file is damaged": "eine Zeile der Datei ist beschädigt",
    "a line of the file is too long to be read": "eine Zeile der Datei ist zu lang, um gelesen zu werden",
    "a newer version of the app saved it here": "eine neuere Fassung der App hat es hier gespeichert",
    "the file holds more that is new than can be taken in at once: {most} MB": (
        "die Datei enthält mehr Neues, als sich auf einmal übernehmen lässt: {most} MB"
    ),
    "the file is not complete, so nothing may be removed for its sake": (
        "die Datei ist nicht vollständig, darum darf ihretwegen nichts entfernt werden"
    ),
    "it has no id that can be used": "es hat keine brauchbare Kennung",
    "it has no place on a device": "es hat keinen Platz auf einem Gerät",
    "only here": "nur hier",
    "the file does not say which version of the backup format it has": "die Datei sagt nicht, welche Fassung des Sicherungsformats sie hat",
    "the file holds it twice": "die Datei enthält es zweimal",
    "the file holds more documents than a backup can: {most} are the most": (
        "die Datei enthält mehr Dokumente, als eine Sicherung kann: höchstens {most}"
    ),
    "the file is damaged, or no backup of this app": "die Datei ist beschädigt oder keine Sicherung dieser App",
    "the file is damaged: what was kept as it is cannot be read": "die Datei ist beschädigt: was unverändert aufbewahrt wurde, ist nicht lesbar",
    "the file is damaged: {kind} is no list": "die Datei ist beschädigt: {kind} ist keine Liste",
    "the file is no backup of this app": "die Datei ist keine Sicherung dieser App",
    "the file is no backup of this app: it does not say of when": "die Datei ist keine Sicherung dieser App: Sie sagt nicht, von wann sie ist",
    "the file is no backup of this app: it holds no documents": "die Datei ist keine Sicherung dieser App: Sie enthält keine Dokumente",
    "the file is too large for a backup: {size} MB, where {most} MB is the most": "die Datei ist zu groß für eine Sicherung: {size} MB, höchstens sind es {most} MB",
    "the file was saved by a newer version of the app (format {found}, known up to "
    "{known}); update the app first": (
        "die Datei wurde von einer neueren Fassung der App gespeichert (Format {found}, "
        "bekannt bis {known}); aktualisiere erst die App"
    ),
    "there is no restore to take back": "es gibt keine Wiederherstellung zurückzunehmen",
    "this pond is not on this device": "dieser Teich ist nicht auf diesem Gerät",
    "this version of the app does not know it": "diese Fassung der App kennt es nicht",
    # store/box
    "{key} cannot be used as a key of the storage": "{key} geht nicht als Schlüssel des Speichers",
    "{key} was changed in another tab": "{key} wurde in einem anderen Tab geändert",
    # store/browser_box
    "a newer version of the app is in use here; reload the page": "hier läuft eine neuere Fassung der App; lade die Seite neu",
    "another tab still runs an older version of the app; close it": "in einem anderen Tab läuft noch eine ältere Fassung der App; schließ ihn",
    "the browser does not let this page keep data; check its privacy setting": (
        "der Browser lässt diese Seite keine Daten behalten; prüfe seine Einstellung zum "
        "Datenschutz"
    ),
    "the browser's storage failed: {reason}": "der Speicher des Browsers hat versagt: {reason}",
    "this browser has no storage for the app's data": "dieser Browser hat keinen Speicher für die Daten der App",
    "this device has no room left for the app's data; nothing was saved": "auf diesem Gerät ist kein Platz mehr für die Daten der App; nichts wurde gespeichert",
    "unknown reason": "unbekannter Grund",
    # store/page
    "the app ended while reading it; it is left out, and lies where it was": "die App endete beim Lesen davon; es ist ausgelassen und liegt, wo es war",
    # store/json_text
    "its text is damaged: more than {most} brackets inside one another": "sein Text ist beschädigt: mehr als {most} Klammern ineinander",
    "its text is too large: {size} MB, where {most} MB is the most": "sein Text ist zu groß: {size} MB, höchstens sind es {most} MB",
    # store/documents
    "an id in it is a word of the app itself": "eine Kennung darin ist ein Wort der App selbst",
    "its date is not from {first} to {last}": "sein Datum liegt nicht zwischen {first} und {last}",
    "this is too much text to be kept in one place: {size} MB, where {most} MB is the "
    "most; make it shorter": (
        "das ist zu viel Text für eine Stelle: {size} MB, höchstens sind es {most} MB; kürze ihn"
    ),
    "{reason} (and no copy could be made: {failure})": "{reason} (und es ließ sich keine Kopie anlegen: {failure})",
    "it holds the document {other}": "es enthält das Dokument {other}",
    "its text is damaged": "sein Text ist beschädigt",
    "its text is not a document": "sein Text ist kein Dokument",
    "what was set aside cannot be saved, loaded or deleted as a document": (
        "was beiseitegelegt wurde, lässt sich nicht als Dokument speichern, laden oder löschen"
    ),
    "{key} is left as it is: {reason}": "{key} bleibt, wie es ist: {reason}",
    "{key} is not on this device": "{key} ist nicht auf diesem Gerät",
    # store/folder_box
    "the folder {folder} could not be {done}: {reason}": "der Ordner {folder} ließ sich nicht benutzen ({done}): {reason}",
    # store/photo
    "photos can be added in a browser only": "Fotos lassen sich nur in einem Browser hinzufügen",
    "this is no picture that your browser can read": "Das ist kein Bild, das dein Browser lesen kann",
    "this picture cannot be made small enough": "Dieses Bild lässt sich nicht klein genug machen",
    # store/link
    "the link holds no plan": "der Link enthält keinen Plan",
    "the link holds no plan that can be used: {reason}": "der Link enthält keinen brauchbaren Plan: {reason}",
    "the link is cut off or damaged; ask for it again": "der Link ist abgeschnitten oder beschädigt; bitte noch einmal darum",
    "the link is damaged, or of a newer version of the app": "der Link ist beschädigt oder von einer neueren Fassung der App",
    "the link is too long to be a shared plan": "der Link ist zu lang für einen geteilten Plan",
    "this plan is too large for a code; share the link or a file": "dieser Plan ist zu groß für einen Code; teile den Link oder eine Datei",
    "this plan is too large for a link; share it as a file": "dieser Plan ist zu groß für einen Link; teile ihn als Datei",
    # units
    "% a day": "% am Tag",
    "L/h per cm": "L/h je cm",
    "an hour": "in der Stunde",
    "days": "Tage",
    "ft²": "ft²",
    "cm²": "cm²",
    "in²": "in²",
    "g a day": "g am Tag",
    "g/m² a day": "g/m² am Tag",
    "gal": "gal",
    "gal/h": "gal/h",
    "gal/h per in": "gal/h je in",
    "kg/m³": "kg/m³",
    "lb/ft³": "lb/ft³",
    "m a day": "m am Tag",
    "mg/kg an hour": "mg/kg in der Stunde",
    "mm²/s": "mm²/s",
    "nothing is entered; write for example {example}": "nichts ist eingegeben; schreib zum Beispiel {example}",
    "per L": "je L",
    "per ft": "je ft",
    "per ft²": "je ft²",
    "per gal": "je gal",
    "per kWh": "je kWh",
    "per m": "je m",
    "per m²": "je m²",
    "that is too long to be an amount; write for example {example}": "das ist zu lang für eine Menge; schreib zum Beispiel {example}",
    "{text} can be read two ways: write {whole}{part} or {whole}{mark}{part}": (
        "{text} lässt sich auf zwei Arten lesen: Schreib {whole}{part} oder {whole}{mark}{part}"
    ),
    "{text} divides by nothing": "{text} teilt durch nichts",
    "{text} is below zero; write an amount above zero": "{text} liegt unter null; schreib eine Menge über null",
    "{text} is not an amount; write for example {example}": "{text} ist keine Menge; schreib zum Beispiel {example}",
    "{text} is too much to be real": "{text} ist zu viel, um wahr zu sein",
    "{text} should be a plain number": "{text} sollte eine einfache Zahl sein",
    "{unit} is not a unit that fits here; write for example {example}": "{unit} ist keine Einheit, die hier passt; schreib zum Beispiel {example}",
    "°dH": "°dH",
    "once": "einmal",
    "hose": "Schlauch",
    "ball valve": "Kugelhahn",
    "gate valve": "Absperrschieber",
    "pumps": "Pumpen",
    "branches": "Zweige",
    "things": "Teile",
    "computed": "errechnet",
    "enter its watts to see what it costs": "gib ihre Watt ein, dann siehst du, was sie kostet",
    "lift or hose is only assumed: enter it to be sure": (
        "Höhe oder Schlauch ist nur angenommen: Gib sie ein, dann ist es sicher"
    ),
    "How sure it is that a pump is enough": "Wie sicher es ist, dass eine Pumpe reicht",
    # sizing/evaluation
    "By what a usual small pump that fits would draw.": "Nach dem, was eine übliche kleine Pumpe brauchen würde, die passt.",
    "By {pumps}, and a usual small pump where none fits yet.": "Nach {pumps} und einer üblichen kleinen Pumpe, wo noch keine passt.",
    "By {pumps}.": "Nach {pumps}.",
    "{pump} draws its {power} for either, since it cannot be slowed: only a smaller or an adjustable pump saves the difference.": "{pump} braucht für beides ihre {power}, da sie sich nicht drosseln lässt: Nur eine kleinere oder eine regelbare Pumpe spart den Unterschied.",
    "Only many more fills would halve it.": "Nur viele weitere Füllungen würden ihn halbieren.",
    "To halve the doubt: {runs} fills in all.": "Um den Zweifel zu halbieren: insgesamt {runs} Füllungen.",
    "the flow and the filling, which differ a little each time": "der Durchfluss und das Füllen, die jedes Mal ein wenig anders sind",
    "More fills will not settle it: the flow lies right at a limit. Turn it to about {aim}, then measure again.": "Mehr Füllungen klären das nicht: Der Durchfluss liegt genau an einer Grenze. Stelle ihn auf etwa {aim} und miss noch einmal.",
    "More fills will not settle it: what the container holds is not known well enough. Weigh its water, or turn the flow to about {aim} and measure again.": "Mehr Füllungen klären das nicht: Was das Gefäß fasst, ist nicht genau genug bekannt. Wiege sein Wasser, oder stelle den Durchfluss auf etwa {aim} und miss noch einmal.",
    "Not decided yet: the fills differ by more than they should.": "Noch nicht entschieden: Die Füllungen unterscheiden sich mehr, als sie sollten.",
    "Not decided yet: the flow is only known to {share} % either way.": "Noch nicht entschieden: Der Durchfluss ist nur auf {share} % nach beiden Seiten bekannt.",
    "The fills differ by up to {share} %, more than timing explains: time one more, and see that the pump draws no air.": "Die Füllungen unterscheiden sich um bis zu {share} %, mehr als das Stoppen erklärt: Stoppe noch eine und sieh nach, ob die Pumpe Luft zieht.",
    "These two differ by {share} %: time one more.": "Diese zwei unterscheiden sich um {share} %: Stoppe noch eine.",
    "Time {count} more fills, or turn it to about {aim} and measure again.": "Stoppe noch {count} Füllungen, oder stelle ihn auf etwa {aim} und miss noch einmal.",
    "Time {count} more fills, or use a container of {volume} or more.": "Stoppe noch {count} Füllungen oder nimm ein Gefäß von {volume} oder mehr.",
    "Use a container of {volume} or more: {count} fills of this one would not settle it.": "Nimm ein Gefäß von {volume} oder mehr: {count} Füllungen von diesem würden es nicht klären.",
    "What this branch feeds cannot all be pleased by one flow.": "Was dieser Zweig speist, verträgt sich nicht mit einem einzigen Durchfluss.",
    "Interval from ({unit})": "Bereich von ({unit})",
    "Interval holds (%)": "Bereich trifft zu (%)",
    "Interval to ({unit})": "Bereich bis ({unit})",
    "How much the expected scatter counts": "Wie viel die erwartete Streuung zählt",
    "Expected and seen scatter as one": "Erwartete und gesehene Streuung gemeinsam",
    "Scatter that is expected of a fill": "Streuung, die von einer Füllung erwartet wird",
    "Whether a flow is right": "Ob ein Durchfluss richtig ist",
    "Whether it is in the band by now is not decided: time more fills.": "Ob er jetzt im gewünschten Bereich liegt, ist nicht entschieden: Stoppe mehr Füllungen.",
    "See the flow plan for a way out before you set this valve.": "Sieh im Durchflussplan nach einem Ausweg, bevor du dieses Ventil einstellst.",
    "{length} of {size} hose": "{length} Schlauch, {size}",
    "lift and hose take {head} at {flow}, more than any pump for a pond has: take a wider or shorter hose": (
        "Höhe und Schlauch nehmen bei {flow} {head}, mehr als jede Teichpumpe schafft: Nimm einen weiteren oder kürzeren Schlauch"
    ),
}
