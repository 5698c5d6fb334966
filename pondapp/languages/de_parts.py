"""German: what several screens share."""

PARTS: dict[str, str] = {
    # ui/parts/assumed
    "Assumed so far": "Bisher angenommen",
    "{assumed}; tap to enter": "{assumed}; zum Eingeben antippen",
    # ui/app
    "Close": "Schließen",
    "Something went wrong in the app": "In der App ist etwas schiefgegangen",
    "That did not work": "Das ging nicht",
    "What you saved is safe. {error}": "Was du gespeichert hast, ist sicher. {error}",
    # ui/parts/again
    "Back to what is saved": "Zurück zum Gespeicherten",
    "Take what is saved now": "Das Gespeicherte nehmen",
    "what is saved was changed meanwhile, in another tab or on another screen. Saving puts what you typed in its place.": "Das Gespeicherte wurde inzwischen geändert, in einem anderen Tab oder auf einer anderen Seite. Speicherst du, tritt an seine Stelle, was du geschrieben hast.",
    "Back to what was saved.": "Zurück zum Gespeicherten.",
    "Draft from {when}, not used yet.": "Entwurf von {when}, noch nicht verwendet.",
    # ui/parts/answers
    "about {flow}": "etwa {flow}",
    "Good at {good}; the plan gives its {aim}.": "Gut bei {good}; der Plan gibt: {aim}.",
    "least {least}, good {good}": "mindestens {least}, gut {good}",
    "least {least}, good {good}, most {most}": "mindestens {least}, gut {good}, höchstens {most}",
    "Seen at the open end": "Am offenen Ende gesehen",
    "The flow meter stands still": "Der Durchflussmesser steht still",
    "no water": "kein Wasser",
    "{least} to {most}": "{least} bis {most}",
    "under {least}": "unter {least}",
    "fl oz": "fl oz",
    "{method}: give or take {share}": "{method}: plus/minus {share}",
    "{method}: {head} over {width} of lip": "{method}: {head} über {width} Kante",
    "{place} wants": "{place} braucht",
    "{time} (struck out)": "{time} (gestrichen)",
    # ui/parts/cautions
    "chlorine and chloramine in tap water kill fish, and so does too much salt or "
    "medicine. Check the label and what your fish and plants stand before anything goes in.": (
        "Chlor und Chloramin im Leitungswasser töten Fische, zu viel Salz oder Arznei "
        "ebenso. Lies das Etikett und prüfe, was deine Fische und Pflanzen vertragen, bevor "
        "etwas hineinkommt."
    ),
    "mains and water kill. Use an RCD/GFCI-protected outdoor supply, unplug before hands "
    "go in, and leave mains work to a licensed electrician under your local rules.": (
        "Netzstrom und Wasser töten. Nimm einen Außenanschluss mit Fehlerstromschutz "
        "(FI/RCD), zieh den Stecker, bevor Hände ins Wasser gehen, und überlass Arbeiten am "
        "Netz einer Elektrofachkraft nach den Vorschriften deines Landes."
    ),
    "small children drown in centimetres of water, and a trench fills with rain. Fence or "
    "grid the pond from the first day of digging, and never leave them alone beside it.": (
        "Kleine Kinder ertrinken in wenigen Zentimetern Wasser, und ein Graben füllt sich "
        "mit Regen. Sichere den Teich vom ersten Spatenstich an mit Zaun oder Gitter und "
        "lass Kinder nie allein daneben."
    ),
    "stone and wet gravel are heavier than they look. Share the load or use a barrow, and "
    "lift close to the body with bent knees.": (
        "Steine und nasser Kies sind schwerer, als sie aussehen. Teilt die Last oder nehmt "
        "eine Schubkarre, und hebt nah am Körper mit gebeugten Knien."
    ),
    # ui/parts/change
    "Undo the last change": "Letzte Änderung zurücknehmen",
    # ui/parts/chart
    "Chart: {what}. {count} values from {first} to {last}, between {low} and {high}; the "
    "last is {now}.": (
        "Diagramm: {what}. {count} Werte von {first} bis {last}, zwischen {low} und {high}; "
        "der letzte ist {now}."
    ),
    "Cleaned on {days}.": "Gereinigt am {days}.",
    "Tinted: what is wanted.": "Getönt: was gewünscht ist.",
    "Wanted: at most {high}.": "Gewünscht: höchstens {high}.",
    "Wanted: {low} or more.": "Gewünscht: {low} oder mehr.",
    "Wanted: {low} to {high}.": "Gewünscht: {low} bis {high}.",
    "cleaned": "gereinigt",
    "{some} of {all} values are drawn.": "{some} von {all} Werten sind gezeichnet.",
    "{value} ({low} to {high})": "{value} ({low} bis {high})",
    # ui/parts/compared
    "Both together": "Beide zusammen",
    "{method}, at this place": "{method}, an dieser Stelle",
    # ui/parts/counter
    "One fewer: {what}": "Weniger: {what}",
    "One more: {what}": "Mehr: {what}",
    "{count} of {what}": "{count}-mal {what}",
    # ui/parts/fields
    "Write a name of at most {most} letters": "Schreib einen Namen mit höchstens {most} Zeichen",
    "Write an amount of at least {least}": "Schreib eine Menge von mindestens {least}",
    "Write an amount of at most {most}": "Schreib eine Menge von höchstens {most}",
    "{text} is nothing; write an amount above zero": "{text} ist nichts; schreib eine Menge über null",
    # ui/parts/files
    "{name} could not be read": "{name} war nicht lesbar",
    # ui/parts/fills
    "The app was started again while this fill ran. Its time will be by this device's clock.": "Die App wurde neu gestartet, während diese Füllung lief. Ihre Zeit kommt von der Uhr des Geräts.",
    "What is typed here is from {when}.": "Was hier steht, ist von {when}.",
    "1 fill from {when}.": "1 Füllung von {when}.",
    "{count} fills from {when}.": "{count} Füllungen von {when}.",
    "Go on": "Weitermachen",
    "Start over": "Neu beginnen",
    "Started over.": "Neu begonnen.",
    "This device slept, its clock was set, or the app was started again while the fill ran. By the clock it took {time}; if the clock was set, that is wrong.": "Das Gerät schlief, seine Uhr wurde gestellt oder die App wurde neu gestartet, während die Füllung lief. Nach der Uhr dauerte sie {time}; wurde die Uhr gestellt, stimmt das nicht.",
    "Count it": "Zählen",
    "Don't count it": "Nicht zählen",
    "The valve was not turned: count them": "Das Ventil wurde nicht gedreht: mitzählen",
    "Before the turn, not counted: {times}": "Vor dem Drehen, nicht gezählt: {times}",
    "I turned the valve: new fills": "Ich habe das Ventil gedreht: neue Füllungen",
    # ui/parts/earlier
    "no pond": "kein Teich",
    "a pond that is gone": "ein Teich, den es nicht mehr gibt",
    "note: {note}": "Notiz: {note}",
    "Until {when}: {what}": "Bis {when}: {what}",
    "What it was before": "Was vorher hier stand",
    # ui/parts/reading_fields
    "Write an amount, or delete the reading": "Schreib einen Wert oder lösche die Messung",
    "These amounts do not fit together": "Diese Werte passen nicht zusammen",
    "Time of fill {number}": "Zeit der Füllung {number}",
    "{container}, as measured": "{container}, wie gemessen",
    # ui/parts/where_fields
    "Which pond": "Welcher Teich",
    "Which place": "Welche Stelle",
    "Where: {where}": "Wo: {where}",
    # ui/parts/draft
    "an earlier day": "einem früheren Tag",
    "today, {time}": "heute, {time}",
    "yesterday, {time}": "gestern, {time}",
    "This fill is not counted: it ran for over a day, or this device's clock was set.": "Diese Füllung zählt nicht: Sie lief über einen Tag lang, oder die Uhr des Geräts wurde gestellt.",
    "Add a container": "Behälter hinzufügen",
    "Add or remove containers": "Behälter hinzufügen oder entfernen",
    "Add the bucket or tub that you will fill first.": "Füg den Eimer oder die Wanne hinzu, die du zuerst füllst.",
    "Add this time": "Diese Zeit hinzufügen",
    "Aim for {time} in {container}.": "Ziel: {time} in {container}.",
    "Anything from {span} is fine.": "Alles in {span} ist in Ordnung.",
    "Container": "Behälter",
    "Or type a fill time": "Oder eine Füllzeit tippen",
    "Strike fill {number}": "Füllung {number} streichen",
    "Take fill {number} back": "Füllung {number} zurücknehmen",
    "Cancel this fill": "Diese Füllung abbrechen",
    "Write a time of at most a day": "Schreib eine Zeit von höchstens einem Tag",
    "{longest} or less is fine.": "{longest} oder weniger ist in Ordnung.",
    # ui/parts/incoming
    "The file is damaged or cut off. What is left of it can be added to what is here; nothing can be replaced by it.": (
        "Die Datei ist beschädigt oder abgeschnitten. Was von ihr übrig ist, lässt sich zu dem, was hier ist, "
        "hinzufügen; ersetzen lässt sich damit nichts."
    ),
    "The file was changed since the app wrote it.": "Die Datei wurde geändert, seit die App sie schrieb.",
    "{most} photos are the most on one device. The {count} oldest of the file find no room here and stay in the file only.": (
        "Höchstens {most} Fotos passen auf ein Gerät. Die {count} ältesten der Datei finden hier keinen Platz und "
        "bleiben nur in der Datei."
    ),
    "Add to what is here": "Zu dem, was hier ist, hinzufügen",
    "How should it be taken in": "Wie soll sie übernommen werden",
    "It becomes as in the file: what is only on this device is removed.": "Es wird wie in der Datei: was nur auf diesem Gerät ist, wird entfernt.",
    "Not readable here": "Hier nicht lesbar",
    "Nothing is removed. Where both differ, the file's version is taken.": "Nichts wird entfernt. Wo sich beide unterscheiden, gilt die Fassung der Datei.",
    "Other entries of the log": "Andere Einträge des Protokolls",
    "Ponds": "Teiche",
    "Readings": "Messungen",
    "Replace what is here": "Ersetzen, was hier ist",
    "Saved {when}": "Gespeichert {when}",
    "The rest of the file can be taken in.": "Der Rest der Datei lässt sich übernehmen.",
    "This pond becomes as in the file. Your other ponds stay.": "Dieser Teich wird wie in der Datei. Deine anderen Teiche bleiben.",
    "What a newer app wrote is kept as it is; the rest of the file can be taken in.": (
        "Was eine neuere App geschrieben hat, bleibt, wie es ist; der Rest der Datei lässt "
        "sich übernehmen."
    ),
    "and {count} more": "und {count} weitere",
    "different here: {count}": "hier anders: {count}",
    "new: {count}": "neu: {count}",
    "only on this device: {count}": "nur auf diesem Gerät: {count}",
    "the same: {count}": "gleich: {count}",
    # ui/parts/keeping
    "Nothing is kept here": "Hier wird nichts gespeichert",
    "You can measure and size up, but what you enter is gone once this page is closed.": "Du kannst messen und planen, aber was du eingibst, ist weg, sobald diese Seite geschlossen wird.",
    "A backup file survives all of these, and a lost phone.": "Eine Sicherungsdatei übersteht das alles, auch den Verlust des Handys.",
    "A private window forgets everything when it is closed.": "Ein privates Fenster vergisst alles, wenn es geschlossen wird.",
    "Clearing the browser's history with its site data, or removing the app, deletes your ponds.": (
        "Wer den Verlauf des Browsers samt Website-Daten löscht oder die App entfernt, "
        "löscht deine Teiche."
    ),
    "On an iPhone or iPad, Safari clears what a site has kept after seven days of use "
    "without a visit to it; on the home screen the app is spared.": (
        "Auf iPhone und iPad löscht Safari, was eine Website gespeichert hat, nach sieben "
        "Nutzungstagen ohne einen Besuch; eine App auf dem Home-Bildschirm ist davon ausgenommen."
    ),
    "Ponds: {ponds}, readings: {readings}, other log entries: {entries}": (
        "Teiche: {ponds}, Messungen: {readings}, andere Einträge: {entries}"
    ),
    "Save a backup": "Sicherung speichern",
    "The browser has promised to keep it.": "Der Browser hat versprochen, sie zu behalten.",
    "The browser may clear it when this device runs out of space.": "Der Browser darf sie löschen, wenn der Speicher dieses Geräts knapp wird.",
    "What can take it away": "Was sie auslöschen kann",
    "{count} entries of your logs are on this device only.": (
        "{count} Einträge deiner Protokolle sind nur auf diesem Gerät."
    ),
    "{used} MB of about {limit} MB in use.": "{used} MB von etwa {limit} MB belegt.",
    # ui/parts/kinds
    "A fast box of foam and loose media": "Ein schneller Kasten mit Schaumstoff und losen Füllkörpern",
    "A jet, spitter or fountain": "Eine Düse, ein Wasserspeier oder eine Fontäne",
    "A slow bed of gravel with plants in it": "Ein langsames Kiesbeet mit Pflanzen darin",
    "Draws in the surface, with leaves and dust": "Zieht die Oberfläche ein, mit Laub und Staub",
    "Jet": "Düse",
    "No valve": "Kein Ventil",
    "Skimmer": "Skimmer",
    "The edge that a waterfall runs over": "Die Kante, über die ein Wasserfall läuft",
    # ui/parts/layout
    "Caution: {what}": "Vorsicht: {what}",
    "No such pond": "Kein solcher Teich",
    "This pond is not on this device.": "Dieser Teich ist nicht auf diesem Gerät.",
    # ui/parts/leaving
    "Delete this pond": "Diesen Teich löschen",
    "Look round an example pond": "Sieh dich in einem Beispielteich um",
    "Remove the example pond": "Den Beispielteich entfernen",
    "{pond} is deleted, with its readings.": "{pond} ist gelöscht, mit den Messungen.",
    "{pond} was not deleted: another tab or window works on it.": "{pond} wurde nicht gelöscht: Ein anderer Tab oder ein anderes Fenster arbeitet daran.",
    # ui/parts/log_words
    "What words do not tell": "Was Worte nicht sagen",
    "Added": "Dazugekommen",
    "Ammonia": "Ammoniak",
    "Another pump, or work on the one in place": "Eine andere Pumpe oder Arbeit an der vorhandenen",
    "Anything else": "Alles andere",
    "By bucket, scale, level, ruler or meter": "Mit Eimer, Waage, Pegel, Lineal oder Durchflussmesser",
    "Cleaning": "Reinigung",
    "Fish added or lost": "Fische dazu oder verloren",
    "Flow reading": "Durchflussmessung",
    "How many came or went": "Wie viele kamen oder gingen",
    "How much the fish were given": "Wie viel die Fische bekamen",
    "How much was let out and replaced": "Wie viel abgelassen und ersetzt wurde",
    "Lost": "Verloren",
    "Oxygen": "Sauerstoff",
    "Pump and its foam": "Pumpe und ihr Schaumstoff",
    "Pump change": "Pumpenwechsel",
    "Pump, filter, skimmer; trends start over": "Pumpe, Filter, Skimmer; der Verlauf beginnt neu",
    "Salt": "Salz",
    "Salt, bacteria, medicine, anything from a bottle": "Salz, Bakterien, Arznei, alles aus einer Flasche",
    "Temperature": "Temperatur",
    "Temperature, pH, ammonia and the rest": "Temperatur, pH, Ammoniak und der Rest",
    "Treatment or dose": "Behandlung oder Zugabe",
    "Water change": "Wasserwechsel",
    "Water test": "Wassertest",
    "as wanted": "wie gewünscht",
    "too much": "zu viel",
    "{place}: no fill counts": "{place}: keine Füllung zählt",
    # ui/parts/method_drawing
    "Drawing: a full bucket stands on a scale.": "Zeichnung: Ein voller Eimer steht auf einer Waage.",
    "Drawing: a pipe over a bucket; no water comes out of it.": "Zeichnung: Ein Rohr über einem Eimer; es kommt kein Wasser heraus.",
    "Drawing: a pipe with a flow meter in it.": "Zeichnung: ein Rohr mit einem Durchflussmesser darin.",
    "Drawing: a ruler stands in the water behind a lip that water falls over.": "Zeichnung: Ein Lineal steht im Wasser hinter einer Kante, über die Wasser fällt.",
    "Drawing: water falls from a pipe into a bucket with a mark.": "Zeichnung: Wasser fällt aus einem Rohr in einen Eimer mit einer Marke.",
    "Drawing: water is drawn from a basin; its level falls from one mark to another.": (
        "Zeichnung: Wasser wird aus einem Becken gezogen; der Pegel fällt von einer Marke "
        "zur anderen."
    ),
    "Drawing: water runs into a box; its level rises from one mark to another.": (
        "Zeichnung: Wasser läuft in einen Kasten; der Pegel steigt von einer Marke zur anderen."
    ),
    # ui/parts/method_fields
    "Across the water": "Quer über das Wasser",
    "Box": "Kasten",
    "Container, empty": "Behälter, leer",
    "Depth over the lip": "Tiefe über der Kante",
    "Each mark may be off by": "Jede Marke kann danebenliegen um",
    "From mark to mark": "Von Marke zu Marke",
    "Gaps in the gravel": "Lücken im Kies",
    "Gravel in it?": "Kies darin?",
    "How far the level falls": "Wie weit der Pegel fällt",
    "I know it": "Ich weiß es",
    "Length of the water": "Länge des Wassers",
    "Lip above the bottom behind it": "Kante über dem Boden dahinter",
    "Outside, gravel and all": "Außen, samt Kies",
    "Round": "Rund",
    "Space between the marks": "Raum zwischen den Marken",
    "The area may be off by": "Die Fläche kann danebenliegen um",
    "The basin or box": "Das Becken oder der Kasten",
    "The box or bed": "Der Kasten oder das Beet",
    "The depth may be off by": "Die Tiefe kann danebenliegen um",
    "The gaps may be off by": "Die Lücken können danebenliegen um",
    "The meter may be off by": "Der Durchflussmesser kann danebenliegen um",
    "The meter shows": "Der Durchflussmesser zeigt",
    "The scale may be off by": "Die Waage kann danebenliegen um",
    "The share of the bed that water fills": "Der Anteil des Beets, den Wasser füllt",
    "The space may be off by": "Der Raum kann danebenliegen um",
    "The width may be off by": "Die Breite kann danebenliegen um",
    "Water area": "Wasserfläche",
    "Weight of fill {number}, container and all": "Gewicht von Füllung {number}, samt Behälter",
    "Width of the water": "Breite des Wassers",
    "Width that carries water": "Breite, die Wasser führt",
    "{amount} if left empty": "{amount}, wenn leer gelassen",
    # ui/parts/method_words
    "For a place that stays dry.": "Für eine Stelle, die trocken bleibt.",
    "Let the pump run for some minutes: a long hose fills slowly.": "Lass die Pumpe ein paar Minuten laufen: Ein langer Schlauch füllt sich langsam.",
    "Look at the open end, or hold a hand under it.": "Sieh am offenen Ende nach oder halte eine Hand darunter.",
    "Catch the whole flow in the container.": "Fang den ganzen Durchfluss im Behälter auf.",
    "For a big flow into a box or bog that you can empty first.": (
        "Für einen großen Durchfluss in einen Kasten oder Pflanzenfilter, den du vorher "
        "leeren kannst."
    ),
    "For a container without a mark.": "Für einen Behälter ohne Marke.",
    "For a flow that no bucket can catch: what the pump draws from a basin.": "Für einen Durchfluss, den kein Eimer fasst: was die Pumpe aus einem Becken zieht.",
    "For a pipe with a meter in it.": "Für ein Rohr mit einem Durchflussmesser darin.",
    "For most outlets: quick, and good to a few percent.": "Für die meisten Ausläufe: schnell und auf wenige Prozent genau.",
    "Hold a ruler upright behind the lip, about four times the depth back from it.": (
        "Halte ein Lineal senkrecht hinter die Kante, etwa das Vierfache der Tiefe davon entfernt."
    ),
    "Lead the return elsewhere, so that nothing runs into this basin.": "Leite den Rücklauf woanders hin, sodass nichts in dieses Becken läuft.",
    "Let the box or bed run down to a lower mark.": "Lass den Kasten oder das Beet bis zu einer unteren Marke leerlaufen.",
    "Nothing to catch and nothing to time, but the roughest of all.": "Nichts aufzufangen und nichts zu stoppen, aber das ungenaueste Verfahren.",
    "Tap when water starts to fall in, and again when it reaches the mark.": "Tippe, wenn Wasser hineinzulaufen beginnt, und noch einmal, wenn es die Marke erreicht.",
    "Tap when it passes the lower mark": "Tippe, wenn es die untere Marke erreicht",
    "Tap when it passes the upper mark": "Tippe, wenn es die obere Marke erreicht",
    "Tap when water starts to fall in": "Tippe, wenn Wasser hineinzulaufen beginnt",
    "Tap when the level passes the upper mark": "Tippe, wenn der Pegel die obere Marke erreicht",
    "Tap when the water passes the lower mark": "Tippe, wenn das Wasser die untere Marke erreicht",
    "Tap when the water reaches the mark": "Tippe, wenn das Wasser die Marke erreicht",
    "Tap when you take it away": "Tippe, wenn du ihn wegnimmst",
    "Read how high the water stands over the lip's edge.": "Lies ab, wie hoch das Wasser über der Kante steht.",
    "Then weigh it full.": "Wieg ihn dann voll.",
    "Time the level from one mark down to another.": "Stoppe, wie lange der Pegel von einer Marke zur anderen fällt.",
    "Time the rise to an upper mark, with nothing running out.": "Stoppe den Anstieg bis zu einer oberen Marke, ohne dass etwas ausläuft.",
    "Wait until the meter stands still.": "Warte, bis die Anzeige ruhig steht.",
    "Weigh the container empty. Time how long you hold it under the flow.": "Wieg den Behälter leer. Stoppe, wie lange du ihn unter das Wasser hältst.",
    "Write what it shows, and how far its maker says it may be off.": "Schreib, was er zeigt und wie weit er laut Hersteller danebenliegen kann.",
    "a pump that runs dry is damaged: stop before the water is down to its inlet.": (
        "Eine Pumpe, die trocken läuft, nimmt Schaden: Hör auf, bevor das Wasser bis zu "
        "ihrem Einlauf gesunken ist."
    ),
    # ui/parts/moment_fields
    "Date": "Datum",
    "Pick the day": "Den Tag aussuchen",
    # ui/parts/navigate
    "Undo": "Rückgängig",
    # ui/parts/on_path
    "Bypass?": "Umleitung?",
    "A new branch": "Ein neuer Zweig",
    "A new branch from {pump}": "Ein neuer Zweig von {pump}",
    "All water passes {thing}.": "Alles Wasser läuft durch {thing}.",
    "Fed by": "Gespeist von",
    "May water run over its top?": "Darf Wasser über den Rand laufen?",
    "Move it nearer to the pump": "Näher an die Pumpe rücken",
    "Water may go round {thing}.": "Wasser darf um {thing} herumlaufen.",
    "{branch}, from {pump}": "{branch}, von {pump}",
    "{thing} is moved.": "{thing} ist umgehängt.",
    "{thing} is nearer to the pump.": "{thing} liegt näher an der Pumpe.",
    # ui/parts/path_drawing
    "Dry": "Trocken",
    "A way round it, for what is too much": "Eine Umgehung für das, was zu viel ist",
    "Back to the pond": "Zurück in den Teich",
    "Main run: {pipe}": "Hauptleitung: {pipe}",
    "Measured": "Gemessen",
    "Not decided yet": "Noch nicht entschieden",
    "Too long ago": "Zu lange her",
    "Not measured yet": "Noch nicht gemessen",
    "On no branch yet": "Noch an keinem Zweig",
    "Runs {hours} hours a day": "Läuft {hours} Stunden am Tag",
    "T-piece: the water divides into {count} branches": "T-Stück: Das Wasser teilt sich in {count} Zweige",
    "The pond holds {volume}": "Der Teich fasst {volume}",
    "The water path: {ways}, and back to the pond.": "Der Wasserweg: {ways}, und zurück in den Teich.",
    "Too much": "Zu viel",
    "from {pump} through {branches}": "von {pump} durch {branches}",
    "rests": "ruht",
    "up {height}": "hinauf {height}",
    "{flow} is led round it": "{flow} laufen daran vorbei",
    "{flow} runs over its top": "{flow} laufen über den Rand",
    # ui/parts/pond_drawing
    "Above: seen from above. Below: cut through, with the water line. To scale.": "Oben: von oben gesehen. Unten: durchgeschnitten, mit der Wasserlinie. Maßstäblich.",
    "Drawing to scale. From above: {length} long, {width} wide. Cut through: {depth} deep.": (
        "Maßstäbliche Zeichnung. Von oben: {length} lang, {width} breit. Im Schnitt: {depth} tief."
    ),
    "Shelves below the water line: {depths}.": "Stufen unter der Wasserlinie: {depths}.",
    "The cut is drawn {times} times as deep.": "Der Schnitt ist {times}-mal so tief gezeichnet.",
    # ui/parts/photo
    "It is made smaller, which takes some seconds, and kept on this device and in your backups "
    "only.": (
        "Es wird verkleinert, was ein paar Sekunden dauert, und bleibt nur auf diesem Gerät und in "
        "deinen Sicherungen."
    ),
    "Photo": "Foto",
    "Take another photo": "Ein anderes Foto nehmen",
    "Take or choose a photo": "Foto aufnehmen oder aussuchen",
    "{most} photos are the most on one device. Delete one first.": "Höchstens {most} Fotos passen auf ein Gerät. Lösch erst eines.",
    # ui/parts/pump_answer
    "{size} would take {head} less here and {at_pump} less at the pump.": "{size} würde hier {head} weniger nehmen und an der Pumpe {at_pump} weniger.",
    "Turned down by so much, the pump takes {money} a year less.": "Um so viel gedrosselt, braucht die Pumpe {money} im Jahr weniger.",
    "That is {money} a year less, but only with a smaller pump: yours would give more water instead.": "Das sind {money} im Jahr weniger, aber nur mit einer kleineren Pumpe: Deine gäbe stattdessen mehr Wasser.",
    "With a pump chosen for it that is {money} a year less.": "Mit einer passend gewählten Pumpe sind das {money} im Jahr weniger.",
    "Gives {gives} here; {wanted} wanted": "Gibt hier {gives}; gewünscht {wanted}",
    "Not known yet": "Noch nicht bekannt",
    "Turned down to {share} of its speed.": "Gedrosselt auf {share} der Drehzahl.",
    "{watts}: {yearly} a year, {total} with its price over {years} years": "{watts}: {yearly} im Jahr, {total} mit dem Preis in {years} Jahren",
    # ui/parts/pump_chart
    "Chart of {name}: its curve meets that of the pipes at {settles}. Wanted: {wanted}.": (
        "Diagramm zu {name}: Die Kennlinie trifft die der Leitungen bei {settles}. "
        "Gewünscht: {wanted}."
    ),
    "Chart of {name}: its curve stays below that of the pipes. Wanted: {wanted}.": (
        "Diagramm zu {name}: Die Kennlinie bleibt unter der der Leitungen. Gewünscht: {wanted}."
    ),
    "Flow, {unit}": "Durchfluss, {unit}",
    "Head, {unit}": "Förderhöhe, {unit}",
    "The same pump turned down": "Dieselbe Pumpe, gedrosselt",
    "What the pipes take, valves open": "Was die Leitungen brauchen, Ventile offen",
    "Where it settles at full speed": "Wo sie sich bei voller Drehzahl einpendelt",
    "{flow} at {head}": "{flow} bei {head}",
    # ui/parts/readings
    "Every fill was struck out.": "Alle Füllungen sind gestrichen.",
    # ui/parts/run_answer
    "Friction along its length": "Reibung über die Länge",
    "Hose, inch": "Schlauch, Zoll",
    "Hose, mm": "Schlauch, mm",
    "Outlet and T-piece": "Auslauf und T-Stück",
    "PVC pipe, mm outside": "PVC-Rohr, mm außen",
    "PVC pipe, schedule 40": "PVC-Rohr, Schedule 40",
    "Ribbed hose, inch": "Rippenschlauch, Zoll",
    "Ribbed hose, mm": "Rippenschlauch, mm",
    "Takes": "Braucht",
    "Valve, fully open": "Ventil, ganz offen",
    "{flow} planned, at {speed}": "{flow} geplant, mit {speed}",
    "{length} of {size} {series}": "{length} {series}, {size}",
    "{pipe}, assumed": "{pipe}, angenommen",
    "{size} would take {head} less here, but nothing less at the pump: {neediest} sets its head.": (
        "{size} bräuchte hier {head} weniger, an der Pumpe aber nichts weniger: {neediest} "
        "gibt ihre Förderhöhe vor."
    ),
    # ui/parts/shopping_line
    "Fittings and valves": "Formteile und Ventile",
    "Hose and pipe": "Schlauch und Rohr",
    "Plants": "Pflanzen",
    "Total of what has a price: {sum}": "Summe dessen, was einen Preis hat: {sum}",
    "Your own lines": "Deine eigenen Zeilen",
    # ui/parts/stopwatch
    "Start": "Start",
    "Stop": "Stopp",
    "The time runs": "Die Zeit läuft",
    # ui/parts/tuning
    "{then} then, no water now": "Damals {then}, jetzt kein Wasser",
    "Which pump": "Welche Pumpe",
    "published, seen": "veröffentlicht, gesehen",
    "Hide the working: {number}": "Rechenweg ausblenden: {number}",
    "Show the working: {number}": "Rechenweg zeigen: {number}",
    "rule of thumb, not checked": "Faustregel, nicht geprüft",
    "named from memory, not checked": "aus dem Gedächtnis genannt, nicht geprüft",
    "your own number": "deine eigene Zahl",
    # ui/cleared
    "Leave it deleted": "Gelöscht lassen",
    "Save it again": "Wieder speichern",
    "Saved again: {count} documents.": "Wieder gespeichert: {count} Dokumente.",
    "Somebody, or the browser, deleted what this app keeps here. It still has {count} documents in hand: ponds, log entries, what is half done. Once this page is closed they are gone too.": (
        "Jemand oder der Browser hat gelöscht, was diese App hier behält. Sie hat noch {count} "
        "Dokumente in der Hand: Teiche, Protokolleinträge, Angefangenes. Sobald diese Seite "
        "geschlossen wird, sind auch sie weg."
    ),
    "What was kept here is gone": "Was hier lag, ist weg",
    # ui/session
    "Another tab or window changed {what} a moment ago, so nothing was saved here. Look at what is saved now, then save again.": "Ein anderer Tab oder ein anderes Fenster hat eben {what} geändert, darum wurde hier nichts gespeichert. Sieh dir an, was jetzt gespeichert ist, und speichere dann noch einmal.",
    "Another tab or window saved something of {what} a moment ago, so it was not deleted. Look at it, then delete it again.": "Ein anderer Tab oder ein anderes Fenster hat eben etwas von {what} gespeichert, deshalb wurde es nicht gelöscht. Sieh es dir an und lösche es dann noch einmal.",
    "Bucket, 9 L mark": "Eimer, Marke bei 9 L",
    "the log": "das Protokoll",
    "the settings": "die Einstellungen",
    "Gives {gives} or more here; {wanted} wanted": (
        "Gibt hier {gives} oder mehr; gewünscht {wanted}"
    ),
    "May be too weak": "Vielleicht zu schwach",
    "Probably enough": "Reicht wahrscheinlich",
    "Too strong": "Zu stark",
    "Too weak": "Zu schwach",
    "Gives nothing at {end}; {wanted} wanted": "Gibt nichts bei {end}; gewünscht {wanted}",
    "{span} ({share} interval)": "{span} ({share}-Bereich)",
    "Its fills cannot tell for sure whether that is right: use a container of {volume} or more.": "Seine Füllungen können nicht sicher sagen, ob das stimmt: Nimm ein Gefäß von {volume} oder mehr.",
    "Three fills of it cannot tell for sure whether that is right: time {count}, or use a container of {volume} or more.": "Drei Füllungen davon können nicht sicher sagen, ob das stimmt: Stoppe {count} oder nimm ein Gefäß von {volume} oder mehr.",
    "Three fills of it cannot tell for sure whether that is right: time {count}.": "Drei Füllungen davon können nicht sicher sagen, ob das stimmt: Stoppe {count}.",
    "What is wanted is so narrow that no bucket can tell for sure whether a flow is right. Weigh the water of each fill, and time many.": "Was gewünscht ist, ist so eng, dass kein Eimer sicher sagen kann, ob ein Durchfluss stimmt. Wiege das Wasser jeder Füllung und stoppe viele.",
    "{flow} give or take {half} ({share} interval)": "{flow} plus oder minus {half} ({share}-Bereich)",
    "{then} then, {now} now: no change that can be told ({span}, a {holds} interval)": "{then} damals, {now} jetzt: keine Änderung, die sich sagen lässt ({span}, {holds}-Bereich)",
    "{then} then, {now} now: {share} of it ({span}, a {holds} interval)": "{then} damals, {now} jetzt: {share} davon ({span}, {holds}-Bereich)",
    "{worst}, and 1 more": "{worst}, und 1 weiteres",
    "{worst}, and {count} more": "{worst}, und {count} weitere",
    "What is right": "Was in Ordnung ist",
    "{count} more, and what is right": "{count} weitere, und was in Ordnung ist",
    "Danger": "Gefahr",
    "Not right": "Nicht in Ordnung",
}
