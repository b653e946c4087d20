<?xml version="1.0" encoding="utf-8"?>
<!DOCTYPE TS>
<TS version="2.1" language="de_DE" sourcelanguage="en_GB">
<context>
    <name>Guide</name>
    <message>
        <source>A first forecast</source>
        <translation>Eine erste Vorhersage</translation>
    </message>
    <message>
        <source>Start with a sample, or with the five figures on the first page: how much is stored, how it grows, what a day writes, the size of the second box, the rate of the line. The forecast comes at once.</source>
        <translation>Am Anfang steht ein Beispiel, oder es stehen die fünf Angaben der ersten Seite: wie viel gespeichert ist, wie es wächst, was ein Tag schreibt, die Größe der zweiten Box, die Rate der Leitung. Die Vorhersage kommt sofort.</translation>
    </message>
    <message>
        <source>On the left is everything the site has; choose an item, and its fields are on the right. Each change is answered in the background. Undo takes back any of them.</source>
        <translation>Links steht alles, was der Standort hat; rechts stehen die Felder dessen, was gewählt ist. Jede Änderung wird im Hintergrund beantwortet. Rückgängig nimmt jede zurück.</translation>
    </message>
    <message>
        <source>A quantity is typed with its unit: 12 TB, 1.5 TiB, 100 Mbit/s, 18 ms. What is wrong is said beneath the field, and the forecast waits for it.</source>
        <translation>Eine Größe wird mit ihrer Einheit eingegeben: 12 TB, 1.5 TiB, 100 Mbit/s, 18 ms. Was nicht stimmt, steht unter dem Feld, und die Vorhersage wartet darauf.</translation>
    </message>
    <message>
        <source>A snapshot listing of the real data makes the forecast much better than any typed figure: drop one onto the window.</source>
        <translation>Eine Snapshot-Liste der wirklichen Daten macht die Vorhersage viel besser als jede eingegebene Zahl: einfach auf das Fenster ziehen.</translation>
    </message>
    <message>
        <source>Will it fit?</source>
        <translation>Passt es?</translation>
    </message>
    <message>
        <source>When does each box reach its ceiling, and when is it full? The gauge shows twenty marks: each is one of twenty equally likely futures, where it gets there. Those that do not within the horizon are counted at its end.</source>
        <translation>Wann erreicht jede Box ihre Füllgrenze, und wann ist sie voll? Die Anzeige hat zwanzig Marken: Jede ist einer von zwanzig gleich wahrscheinlichen Verläufen, dort, wo er sie erreicht. Die übrigen werden am Ende des Horizonts gezählt.</translation>
    </message>
    <message>
        <source>“1 in 10: before March” means that one future of ten is there before March. Order by that date, not by the middle one, if being late hurts.</source>
        <translation>„1 von 10: vor März“ heißt, dass einer von zehn Verläufen vor März dort ist. Wo Verspätung weh tut, ist bis zu diesem Datum zu bestellen, nicht bis zum mittleren.</translation>
    </message>
    <message>
        <source>The chart shows the fill of the chosen box. The dark band holds the middle half of all futures at each date, the pale one eight of ten. Dates when the ceiling is reached are counted for each future by itself and not read off the bands.</source>
        <translation>Das Diagramm zeigt die Füllung der gewählten Box. Das dunkle Band hält zu jedem Datum die mittlere Hälfte aller Verläufe, das blasse acht von zehn. Wann die Füllgrenze erreicht ist, wird für jeden Verlauf einzeln gezählt und nicht an den Bändern abgelesen.</translation>
    </message>
    <message>
        <source>Will it arrive?</source>
        <translation>Kommt es an?</translation>
    </message>
    <message>
        <source>The steps beside it show what is left of the line&apos;s rate after all that takes a part of it, and name the one that binds.</source>
        <translation>Die Stufen daneben zeigen, was von der Rate der Leitung bleibt, wenn alles seinen Teil genommen hat, und nennen das, was begrenzt.</translation>
    </message>
    <message>
        <source>Draw an outage onto the chart to see how old the newest copy gets, and whether everything must be sent again.</source>
        <translation>Ein Ausfall, in das Diagramm gezogen, zeigt, wie alt die neueste Kopie wird und ob alles neu gesendet werden muss.</translation>
    </message>
    <message>
        <source>What to buy?</source>
        <translation>Was kaufen?</translation>
    </message>
    <message>
        <source>Each offer is computed on the same futures as the forecast, as if ordered today: how often the box then lasts, when it reaches its ceiling, what it costs until the horizon. The cheapest that lasts often enough is marked.</source>
        <translation>Jedes Angebot wird auf denselben Verläufen gerechnet wie die Vorhersage, als würde es heute bestellt: wie oft die Box dann reicht, wann sie ihre Füllgrenze erreicht, was sie bis zum Horizont kostet. Das günstigste, das oft genug reicht, ist bezeichnet.</translation>
    </message>
    <message>
        <source>Prices are those that were typed. None is looked up.</source>
        <translation>Preise sind die eingegebenen. Keiner wird nachgeschlagen.</translation>
    </message>
    <message>
        <source>How sure?</source>
        <translation>Wie sicher?</translation>
    </message>
    <message>
        <source>What the forecast rests on: the measured points, the forecasts that would have been made in the past beside what then came, what matters most, and what was assumed because nothing was given.</source>
        <translation>Worauf die Vorhersage beruht: die gemessenen Punkte, die Vorhersagen, die früher gemacht worden wären, neben dem, was dann kam, was am meisten zählt, und was angenommen wurde, weil nichts angegeben war.</translation>
    </message>
    <message>
        <source>The longest bar among what matters most is the figure that is worth finding out.</source>
        <translation>Der längste Balken unter dem, was am meisten zählt, ist die Größe, die zu messen sich lohnt.</translation>
    </message>
    <message>
        <source>Report</source>
        <translation>Bericht</translation>
    </message>
    <message>
        <source>What the client gets, as it will print. It can be saved as PDF and as HTML; choose there what goes into it.</source>
        <translation>Was der Kunde bekommt, so wie es gedruckt wird. Es lässt sich als PDF und als HTML speichern; dort ist zu wählen, was hineinkommt.</translation>
    </message>
    <message>
        <source>Words used</source>
        <translation>Verwendete Wörter</translation>
    </message>
    <message>
        <source>How it is computed</source>
        <translation>Wie gerechnet wird</translation>
    </message>
    <message>
        <source>Snapshots hold what was changed or deleted after them. Blocks that are rewritten often are held once, not once a day, so “written in a day × days kept” is too much, often by half. For each dataset a curve says how much of the data dies within a day, a week, a month; it is fitted to the listing, or to the figures that were typed.</source>
        <translation>Snapshots halten, was nach ihnen geändert oder gelöscht wurde. Blöcke, die oft neu geschrieben werden, werden einmal gehalten und nicht einmal am Tag; „am Tag geschrieben × aufbewahrte Tage“ ist darum zu viel, oft um die Hälfte. Für jeden Datensatz sagt eine Kurve, wie viel der Daten in einem Tag, einer Woche, einem Monat überschrieben wird; sie wird der Liste angepasst oder den eingegebenen Zahlen.</translation>
    </message>
    <message>
        <source>Many futures are drawn by chance, 2,000 if nothing else was asked for: of growth, of what is written, and of the events in the site. For each, the fill of each box is followed through time, with the snapshots that its ladder keeps then.</source>
        <translation>Viele Verläufe werden zufällig gezogen, 2.000, wenn nichts anderes verlangt ist: des Wachstums, dessen, was geschrieben wird, und der Ereignisse des Standorts. Für jeden wird die Füllung jeder Box durch die Zeit verfolgt, mit den Snapshots, die ihre Leiter dann aufbewahrt.</translation>
    </message>
    <message>
        <source>Sends follow the calendar of the site&apos;s time zone, night by night, over the rate that the line really gives in its open hours.</source>
        <translation>Übertragungen folgen dem Kalender in der Zeitzone des Standorts, Nacht für Nacht, mit der Rate, die die Leitung in ihren offenen Stunden wirklich gibt.</translation>
    </message>
    <message>
        <source>The same site gives the same answer, each time. Nothing is sent anywhere: the program opens no network connection.</source>
        <translation>Derselbe Standort gibt jedes Mal dieselbe Antwort. Nichts wird irgendwohin gesendet: Das Programm öffnet keine Netzverbindung.</translation>
    </message>
    <message>
        <source>Before you rely on it</source>
        <translation>Zu beachten</translation>
    </message>
    <message>
        <source>Keys</source>
        <translation>Tasten</translation>
    </message>
    <message>
        <source>F1: this guide, at the page in front. Shift+F1: what the field that has the keyboard is for; if there is none, a click then chooses. F6: the next pane. Ctrl+1 to Ctrl+5: the questions. Esc: cancels a forecast.</source>
        <translation>F1: diese Anleitung, bei der vorderen Seite. Umschalt+F1: wozu das Feld da ist, das die Tastatur hat; hat keines sie, wählt ein Klick. F6: der nächste Bereich. Strg+1 bis Strg+5: die Fragen. Esc: bricht eine Vorhersage ab.</translation>
    </message>
    <message>
        <source>In the outline: F2 renames, Ctrl+D duplicates, Alt+Up and Alt+Down move, Delete removes; what depends on an item is named before it goes.</source>
        <translation>In der Gliederung: F2 benennt um, Strg+D verdoppelt, Alt+Auf und Alt+Ab verschieben, Entf entfernt; was von etwas abhängt, wird genannt, bevor es geht.</translation>
    </message>
    <message>
        <source>Units: the View menu chooses between TB (10¹² bytes) and TiB (2⁴⁰ bytes) for what is computed. What was typed stays as it was typed.</source>
        <translation>Einheiten: Das Menü Ansicht wählt zwischen TB (10¹² Byte) und TiB (2⁴⁰ Byte) für Gerechnetes. Eingegebenes bleibt, wie es eingegeben wurde.</translation>
    </message>
    <message>
        <source>A forecast is not a backup.</source>
        <translation>Eine Vorhersage ist keine Datensicherung.</translation>
    </message>
    <message>
        <source>A copy counts when a restore from it has been tried.</source>
        <translation>Eine Kopie zählt erst, wenn eine Wiederherstellung daraus probiert wurde.</translation>
    </message>
    <message>
        <source>Keep one copy offline or unchangeable.</source>
        <translation>Eine Kopie getrennt vom Netz oder unveränderlich aufbewahren.</translation>
    </message>
    <message>
        <source>Electrical and rack work is for qualified people, by the local codes.</source>
        <translation>Arbeiten an der Elektrik und am Schrank gehören in die Hände von Fachleuten und folgen den örtlichen Vorschriften.</translation>
    </message>
    <message>
        <source>Does the line carry each copy in the hours it is open? The week shows the open hours, the usual length of each run, and the length that 19 in 20 runs stay below; late runs are hatched.</source>
        <translation>Trägt die Leitung jede Kopie in den Stunden, in denen sie offen ist? Die Woche zeigt die offenen Stunden, die übliche Länge jedes Laufs und die Länge, unter der 19 von 20 Läufen bleiben; verspätete Läufe sind schraffiert.</translation>
    </message>
</context>
<context>
    <name>Items</name>
    <message>
        <source>A send needs a dataset: add one first.</source>
        <translation>Eine Übertragung braucht einen Datensatz: zuerst einen hinzufügen.</translation>
    </message>
    <message>
        <source>A send needs two boxes: add one first.</source>
        <translation>Eine Übertragung braucht zwei Boxen: zuerst eine hinzufügen.</translation>
    </message>
    <message>
        <source>A send needs a link: add one first.</source>
        <translation>Eine Übertragung braucht eine Leitung: zuerst eine hinzufügen.</translation>
    </message>
    <message>
        <source>An offer needs a box: add one first.</source>
        <translation>Ein Angebot braucht eine Box: zuerst eine hinzufügen.</translation>
    </message>
    <message>
        <source>%1 copy</source>
        <translation>Kopie von %1</translation>
    </message>
    <message>
        <source>It is no longer there.</source>
        <translation>Das gibt es nicht mehr.</translation>
    </message>
    <message>
        <source>A name is needed.</source>
        <translation>Ein Name wird gebraucht.</translation>
    </message>
    <message>
        <source>Another %1 is called “%2”: choose another name.</source>
        <translation>„%2“ heißt schon ein anderer Eintrag (%1): einen anderen Namen wählen.</translation>
    </message>
    <message>
        <source>the send “%1” is removed too</source>
        <translation>die Übertragung „%1“ wird mit entfernt</translation>
    </message>
    <message>
        <source>the send “%1” no longer carries it</source>
        <translation>die Übertragung „%1“ überträgt ihn nicht mehr</translation>
    </message>
    <message>
        <source>the offer “%1” is removed too</source>
        <translation>das Angebot „%1“ wird mit entfernt</translation>
    </message>
    <message>
        <source>the dataset “%1” is left without a home</source>
        <translation>der Datensatz „%1“ hat dann kein Zuhause mehr</translation>
    </message>
    <message>
        <source>dataset</source>
        <translation>Datensatz</translation>
    </message>
    <message>
        <source>Datasets</source>
        <translation>Datensätze</translation>
    </message>
    <message>
        <source>box</source>
        <translation>Box</translation>
    </message>
    <message>
        <source>Boxes</source>
        <translation>Boxen</translation>
    </message>
    <message>
        <source>link</source>
        <translation>Leitung</translation>
    </message>
    <message>
        <source>Links</source>
        <translation>Leitungen</translation>
    </message>
    <message>
        <source>send</source>
        <translation>Übertragung</translation>
    </message>
    <message>
        <source>Sends</source>
        <translation>Übertragungen</translation>
    </message>
    <message>
        <source>offer</source>
        <translation>Angebot</translation>
    </message>
    <message>
        <source>Offers</source>
        <translation>Angebote</translation>
    </message>
    <message>
        <source>site</source>
        <translation>Standort</translation>
    </message>
    <message>
        <source>Site</source>
        <translation>Standort</translation>
    </message>
</context>
<context>
    <name>Numbers</name>
    <message>
        <source>“%1” is not a number, such as 0.25.</source>
        <translation>„%1“ ist keine Zahl, wie etwa 0,25.</translation>
    </message>
    <message>
        <source>“%1” is not a whole number, such as 6.</source>
        <translation>„%1“ ist keine ganze Zahl, wie etwa 6.</translation>
    </message>
    <message>
        <source>Seven numbers are needed, Monday first; here are %1.</source>
        <translation>Sieben Zahlen werden gebraucht, Montag zuerst; hier stehen %1.</translation>
    </message>
</context>
<context>
    <name>QuantityField</name>
    <message>
        <source>A value is needed, such as %1.</source>
        <translation>Ein Wert wird gebraucht, etwa %1.</translation>
    </message>
</context>
<context>
    <name>SmallSite</name>
    <message>
        <source>New site</source>
        <translation>Neuer Standort</translation>
    </message>
    <message>
        <source>here</source>
        <translation>hier</translation>
    </message>
    <message>
        <source>copies</source>
        <translation>Kopien</translation>
    </message>
    <message>
        <source>data</source>
        <translation>Daten</translation>
    </message>
    <message>
        <source>line</source>
        <translation>Leitung</translation>
    </message>
    <message>
        <source>nightly</source>
        <translation>nächtlich</translation>
    </message>
</context>
<context>
    <name>ullage::AgeChart</name>
    <message>
        <source>Age of the newest copy</source>
        <translation>Alter der neuesten Kopie</translation>
    </message>
    <message>
        <source>Nothing computed yet.</source>
        <translation>Noch nichts berechnet.</translation>
    </message>
    <message>
        <source>An outage is drawn on it: %1 from %2.</source>
        <translation>Eingezeichnet ist ein Ausfall: %1 ab %2.</translation>
    </message>
    <message>
        <source>half of the time</source>
        <translation>die Hälfte der Zeit</translation>
    </message>
    <message>
        <source>19 in 20 times</source>
        <translation>19 von 20 Mal</translation>
    </message>
    <message>
        <source>worst</source>
        <translation>schlimmstenfalls</translation>
    </message>
</context>
<context>
    <name>ullage::ArrivePage</name>
    <message>
        <source>&amp;Send</source>
        <translation>&amp;Übertragung</translation>
    </message>
    <message>
        <source>Its week</source>
        <translation>Ihre Woche</translation>
    </message>
    <message>
        <source>What the link lets through</source>
        <translation>Was die Leitung durchlässt</translation>
    </message>
    <message>
        <source>Runs of planned events</source>
        <translation>Läufe geplanter Ereignisse</translation>
    </message>
    <message>
        <source>Assumed for the first copy: %1</source>
        <translation>Für die Erstkopie angenommen: %1</translation>
    </message>
    <message>
        <source>Working out this outage…</source>
        <translation>Dieser Ausfall wird durchgerechnet …</translation>
    </message>
    <message>
        <source>Whether each send is done in time, and how old a copy can get, appears here.</source>
        <translation>Ob jede Übertragung rechtzeitig fertig wird und wie alt eine Kopie werden kann, erscheint hier.</translation>
    </message>
    <message>
        <source>Working out the forecast…</source>
        <translation>Die Vorhersage wird berechnet …</translation>
    </message>
    <message>
        <source>No forecast</source>
        <translation>Keine Vorhersage</translation>
    </message>
    <message>
        <source>The calculation failed. What to mend is said below.</source>
        <translation>Die Berechnung ist fehlgeschlagen. Was zu ändern ist, steht unten.</translation>
    </message>
    <message>
        <source>The calculation was cancelled.</source>
        <translation>Die Berechnung wurde abgebrochen.</translation>
    </message>
    <message>
        <source>No answer yet</source>
        <translation>Noch keine Antwort</translation>
    </message>
    <message>
        <source>Nothing is sent yet</source>
        <translation>Es wird noch nichts übertragen</translation>
    </message>
    <message>
        <source>Add a send from one box to another, over a link, and whether it arrives in time appears here.</source>
        <translation>Eine Übertragung von einer Box zu einer anderen über eine Leitung hinzufügen, dann erscheint hier, ob sie rechtzeitig ankommt.</translation>
    </message>
</context>
<context>
    <name>ullage::ArriveText</name>
    <message>
        <source>“%1” falls behind in %2: more arrives than the line carries</source>
        <translation>„%1“ gerät in Rückstand (Zeit bis dahin: %2): Es kommt mehr, als die Leitung schafft</translation>
    </message>
    <message>
        <source>“%1” falls behind: more arrives than the line carries</source>
        <translation>„%1“ gerät in Rückstand: Es kommt mehr, als die Leitung schafft</translation>
    </message>
    <message>
        <source>“%1” misses its window: %2 runs are late</source>
        <translation>„%1“ verfehlt das Zeitfenster; zu späte Läufe: %2</translation>
    </message>
    <message>
        <source>“%1” arrives: 19 in 20 runs are done within %2</source>
        <translation>„%1“ kommt an: 19 von 20 Läufen dauern höchstens %2</translation>
    </message>
    <message>
        <source>%1 to %2, over %3</source>
        <translation>%1 nach %2, über %3</translation>
    </message>
    <message>
        <source>Each run</source>
        <translation>Jeder Lauf</translation>
    </message>
    <message>
        <source>%1 in %2</source>
        <comment>size, time</comment>
        <translation>%1 in %2</translation>
    </message>
    <message>
        <source>or less in half of all runs; 19 in 20 need at most %1 and %2. Open hours until the deadline: %3.</source>
        <translation>oder weniger in der Hälfte aller Läufe; 19 von 20 brauchen höchstens %1 und %2. Offene Stunden bis zum Termin: %3.</translation>
    </message>
    <message>
        <source>No run</source>
        <translation>Kein Lauf</translation>
    </message>
    <message>
        <source>Every run</source>
        <translation>Jeder Lauf</translation>
    </message>
    <message>
        <source>%1 runs</source>
        <translation>%1 Läufen</translation>
    </message>
    <message>
        <source>Missing the window</source>
        <translation>Zu spät</translation>
    </message>
    <message>
        <source>not done when its hours close or the next run is due.</source>
        <translation>nicht fertig, wenn die offenen Stunden enden oder der nächste Lauf fällig ist.</translation>
    </message>
    <message>
        <source>Age of the newest copy</source>
        <translation>Alter der neuesten Kopie</translation>
    </message>
    <message>
        <source>or less half of the time; 19 in 20 times at most %1. Worst: %2.</source>
        <translation>oder weniger in der Hälfte der Zeit; 19 von 20 Mal höchstens %1. Schlimmstenfalls: %2.</translation>
    </message>
    <message>
        <source>First copy</source>
        <translation>Erstkopie</translation>
    </message>
    <message>
        <source>Not within %1</source>
        <translation>Horizont %1: nicht fertig</translation>
    </message>
    <message>
        <source>to carry %1 over.</source>
        <translation>um %1 zu übertragen.</translation>
    </message>
    <message>
        <source>until a complete copy is there.</source>
        <translation>bis eine vollständige Kopie da ist.</translation>
    </message>
    <message>
        <source>Already there</source>
        <translation>Schon da</translation>
    </message>
    <message>
        <source>the box holds the copy from the start.</source>
        <translation>die Box hält die Kopie von Anfang an.</translation>
    </message>
    <message>
        <source>for %1.</source>
        <translation>für %1.</translation>
    </message>
    <message>
        <source>9 in 10: within %1.</source>
        <translation>9 von 10: höchstens %1.</translation>
    </message>
    <message>
        <source>1 in 10: not within %1.</source>
        <translation>1 von 10: nicht innerhalb des Horizonts (%1).</translation>
    </message>
    <message>
        <source>Longest outage survived</source>
        <translation>Längster überstandener Ausfall</translation>
    </message>
    <message>
        <source>without the link; after that everything is sent again.</source>
        <translation>ohne die Leitung; danach wird alles noch einmal übertragen.</translation>
    </message>
    <message>
        <source>No limit</source>
        <translation>Ohne Grenze</translation>
    </message>
    <message>
        <source>the last sent snapshot is held back, so a send can always go on from it.</source>
        <translation>der zuletzt übertragene Snapshot wird zurückgehalten, also geht es davon immer weiter.</translation>
    </message>
    <message>
        <source>Restoring everything</source>
        <translation>Alles zurückholen</translation>
    </message>
    <message>
        <source>or less in half of all cases, back over the same link; 9 in 10: within %1.</source>
        <translation>oder weniger in der Hälfte aller Fälle, über dieselbe Leitung zurück; 9 von 10: höchstens %1.</translation>
    </message>
    <message>
        <source>%1 to %2, by the clock of %3. Bars run from a run&apos;s start until it is done.</source>
        <translation>%1 bis %2, nach der Uhr von %3. Balken reichen vom Beginn eines Laufs bis zu seinem Ende.</translation>
    </message>
</context>
<context>
    <name>ullage::BacktestChart</name>
    <message>
        <source>Earlier forecasts</source>
        <translation>Frühere Vorhersagen</translation>
    </message>
    <message>
        <source>Nothing computed yet.</source>
        <translation>Noch nichts berechnet.</translation>
    </message>
    <message>
        <source>Drawn are %1 of %2 forecasts; the table has all.</source>
        <translation>Gezeichnet sind %1 von %2 Vorhersagen; die Tabelle hat alle.</translation>
    </message>
    <message>
        <source>forecast then: middle, 8 in 10 within</source>
        <translation>damalige Vorhersage: Mitte, 8 von 10 darin</translation>
    </message>
    <message>
        <source>came, within</source>
        <translation>eingetreten, darin</translation>
    </message>
    <message>
        <source>came, outside</source>
        <translation>eingetreten, außerhalb</translation>
    </message>
</context>
<context>
    <name>ullage::BlockBars</name>
    <message>
        <source>What small blocks cost</source>
        <translation>Was kleine Blöcke kosten</translation>
    </message>
    <message>
        <source>Nothing computed yet.</source>
        <translation>Noch nichts berechnet.</translation>
    </message>
    <message>
        <source>%1, %2</source>
        <comment>dataset, block size</comment>
        <translation>%1, %2</translation>
    </message>
    <message>
        <source>%1 in %2 blocks</source>
        <comment>charge, block size</comment>
        <translation>%1 in Blöcken von %2</translation>
    </message>
</context>
<context>
    <name>ullage::BuyPage</name>
    <message>
        <source>&amp;Box</source>
        <translation>&amp;Box</translation>
    </message>
    <message>
        <source>&amp;Space of</source>
        <translation>&amp;Platz von</translation>
    </message>
    <message>
        <source>Offers side by side</source>
        <translation>Angebote nebeneinander</translation>
    </message>
    <message>
        <source>What to order, and by when, appears here.</source>
        <translation>Was zu bestellen ist und bis wann, erscheint hier.</translation>
    </message>
    <message>
        <source>Working out the forecast…</source>
        <translation>Die Vorhersage wird berechnet …</translation>
    </message>
    <message>
        <source>No forecast</source>
        <translation>Keine Vorhersage</translation>
    </message>
    <message>
        <source>The calculation failed. What to mend is said below.</source>
        <translation>Die Berechnung ist fehlgeschlagen. Was zu ändern ist, steht unten.</translation>
    </message>
    <message>
        <source>The calculation was cancelled.</source>
        <translation>Die Berechnung wurde abgebrochen.</translation>
    </message>
    <message>
        <source>No answer yet</source>
        <translation>Noch keine Antwort</translation>
    </message>
    <message>
        <source>No box to buy for</source>
        <translation>Keine Box, für die zu kaufen wäre</translation>
    </message>
    <message>
        <source>Give a box its drives, or its usable size, and what to order for it appears here.</source>
        <translation>Einer Box ihre Laufwerke oder ihre nutzbare Größe geben, dann erscheint hier, was für sie zu bestellen ist.</translation>
    </message>
    <message>
        <source>None of the offers goes in, so there is nothing to compare.</source>
        <translation>Keines der Angebote passt hinein, also ist nichts zu vergleichen.</translation>
    </message>
    <message>
        <source>%1 as it is</source>
        <translation>%1, wie es ist</translation>
    </message>
    <message>
        <source>with “%1”</source>
        <translation>mit „%1“</translation>
    </message>
    <message>
        <source>Hatched: what a step takes. Filled: what is left after it.</source>
        <translation>Schraffiert: was ein Schritt wegnimmt. Gefüllt: was danach übrig ist.</translation>
    </message>
</context>
<context>
    <name>ullage::BuyTables</name>
    <message>
        <source>%1 (%2)</source>
        <comment>what, unit</comment>
        <translation>%1 (%2)</translation>
    </message>
    <message>
        <source>Offer</source>
        <translation>Angebot</translation>
    </message>
    <message>
        <source>Stands</source>
        <translation>Urteil</translation>
    </message>
    <message>
        <source>Lasts, in 100 futures</source>
        <translation>Reicht, in 100 Verläufen</translation>
    </message>
    <message>
        <source>Days until its ceiling, 1 in 10</source>
        <translation>Tage bis zur Füllgrenze, 1 von 10</translation>
    </message>
    <message>
        <source>… middle</source>
        <translation>… Mitte</translation>
    </message>
    <message>
        <source>… 9 in 10</source>
        <translation>… 9 von 10</translation>
    </message>
    <message>
        <source>Cost in all</source>
        <translation>Kosten insgesamt</translation>
    </message>
    <message>
        <source>Price</source>
        <translation>Preis</translation>
    </message>
    <message>
        <source>Energy</source>
        <translation>Energie</translation>
    </message>
    <message>
        <source>Replacement</source>
        <translation>Neukauf</translation>
    </message>
    <message>
        <source>For a usable TiB in a year</source>
        <translation>Je nutzbarem TiB und Jahr</translation>
    </message>
    <message>
        <source>Usable (%1)</source>
        <translation>Nutzbar (%1)</translation>
    </message>
    <message>
        <source>Runs from</source>
        <translation>Läuft ab</translation>
    </message>
    <message>
        <source>Rebuilding a drive (h)</source>
        <translation>Wiederherstellung eines Laufwerks (h)</translation>
    </message>
    <message>
        <source>Another failure meanwhile (%)</source>
        <translation>Weiterer Ausfall inzwischen (%)</translation>
    </message>
    <message>
        <source>later</source>
        <translation>später</translation>
    </message>
    <message>
        <source>Step</source>
        <translation>Schritt</translation>
    </message>
    <message>
        <source>Takes (TB)</source>
        <translation>Nimmt (TB)</translation>
    </message>
    <message>
        <source>Takes (TiB)</source>
        <translation>Nimmt (TiB)</translation>
    </message>
    <message>
        <source>Leaves (TB)</source>
        <translation>Lässt (TB)</translation>
    </message>
    <message>
        <source>Leaves (TiB)</source>
        <translation>Lässt (TiB)</translation>
    </message>
    <message>
        <source>Dataset</source>
        <translation>Datensatz</translation>
    </message>
    <message>
        <source>Block size (KiB)</source>
        <translation>Blockgröße (KiB)</translation>
    </message>
    <message>
        <source>A stored byte takes</source>
        <translation>Ein gespeichertes Byte belegt</translation>
    </message>
    <message>
        <source>Taken at the end (%1)</source>
        <translation>Am Ende belegt (%1)</translation>
    </message>
    <message>
        <source>Better block size (KiB)</source>
        <translation>Bessere Blockgröße (KiB)</translation>
    </message>
    <message>
        <source>A stored byte would take</source>
        <translation>Ein gespeichertes Byte würde belegen</translation>
    </message>
</context>
<context>
    <name>ullage::BuyText</name>
    <message>
        <source>the cheapest that lasts %1 in %2, %3 in all</source>
        <translation>das günstigste, das %1 lang in %2 reicht, %3 insgesamt</translation>
    </message>
    <message>
        <source>none</source>
        <translation>keine</translation>
    </message>
    <message>
        <source>1 in %1</source>
        <translation>1 von %1</translation>
    </message>
    <message>
        <source>in place of the drives in the box</source>
        <translation>anstelle der Laufwerke in der Box</translation>
    </message>
    <message>
        <source>beside what is in the box</source>
        <translation>neben dem, was in der Box ist</translation>
    </message>
    <message>
        <source>in place of the whole box</source>
        <translation>anstelle der ganzen Box</translation>
    </message>
    <message numerus="yes">
        <source>%n drive(s), in place of those in the box</source>
        <translation>
            <numerusform>%n Laufwerk, anstelle derer in der Box</numerusform>
            <numerusform>%n Laufwerke, anstelle derer in der Box</numerusform>
        </translation>
    </message>
    <message numerus="yes">
        <source>%n drive(s), beside those in the box</source>
        <translation>
            <numerusform>%n Laufwerk, neben denen in der Box</numerusform>
            <numerusform>%n Laufwerke, neben denen in der Box</numerusform>
        </translation>
    </message>
    <message numerus="yes">
        <source>a box with %n drive(s), in place of the old one</source>
        <translation>
            <numerusform>eine Box mit %n Laufwerk, anstelle der alten</numerusform>
            <numerusform>eine Box mit %n Laufwerken, anstelle der alten</numerusform>
        </translation>
    </message>
    <message>
        <source>Rebuilding a drive</source>
        <translation>Wiederherstellung eines Laufwerks</translation>
    </message>
    <message>
        <source>%1 at least</source>
        <translation>mindestens %1</translation>
    </message>
    <message>
        <source>Chance that the other drive of its group fails meanwhile: %1.</source>
        <translation>Wahrscheinlichkeit, dass das andere Laufwerk der Gruppe inzwischen ausfällt: %1.</translation>
    </message>
    <message>
        <source>Chance that one of the %1 other drives of its group fails meanwhile: %2.</source>
        <translation>Wahrscheinlichkeit, dass eines der %1 anderen Laufwerke der Gruppe inzwischen ausfällt: %2.</translation>
    </message>
    <message>
        <source>That is at %1 failing in a year, each by itself; failures cluster, so it is more in truth.</source>
        <translation>Bei %1 Ausfällen im Jahr, jeder für sich; Ausfälle häufen sich, in Wahrheit ist es also mehr.</translation>
    </message>
    <message>
        <source>Such a failure loses the pool.</source>
        <translation>Mit einem solchen Ausfall ist der Pool verloren.</translation>
    </message>
    <message numerus="yes">
        <source>The group survives %n more failure(s).</source>
        <translation>
            <numerusform>Die Gruppe übersteht %n weiteren Ausfall.</numerusform>
            <numerusform>Die Gruppe übersteht %n weitere Ausfälle.</numerusform>
        </translation>
    </message>
    <message>
        <source>The cheapest that holds</source>
        <translation>Das günstigste, das hält</translation>
    </message>
    <message>
        <source>Holds</source>
        <translation>Hält</translation>
    </message>
    <message>
        <source>Outdone</source>
        <translation>Überboten</translation>
    </message>
    <message>
        <source>Does not last</source>
        <translation>Reicht nicht</translation>
    </message>
    <message>
        <source>Does not go in</source>
        <translation>Passt nicht hinein</translation>
    </message>
    <message>
        <source>Nothing needs to be bought for %1: it stays below its ceiling for %2 in %3</source>
        <translation>Für %1 muss nichts gekauft werden: %2 lang unter der Füllgrenze, und zwar in %3</translation>
    </message>
    <message>
        <source>There is no offer for %1</source>
        <translation>Für %1 gibt es kein Angebot</translation>
    </message>
    <message>
        <source>%1 is full now, and there is no offer for it</source>
        <translation>%1 ist jetzt voll, und es gibt kein Angebot dafür</translation>
    </message>
    <message>
        <source>%1 is over its ceiling now, and there is no offer for it</source>
        <translation>%1 ist jetzt über der Füllgrenze, und es gibt kein Angebot dafür</translation>
    </message>
    <message>
        <source>%1 comes to its ceiling around %2, and there is no offer for it</source>
        <translation>%1 erreicht die Füllgrenze etwa im %2, und es gibt kein Angebot dafür</translation>
    </message>
    <message>
        <source>%1 comes to its ceiling within %2 in %3 futures, and there is no offer for it</source>
        <translation>%1 erreicht die Füllgrenze innerhalb des Horizonts (%2; Verläufe: %3), und es gibt kein Angebot dafür</translation>
    </message>
    <message>
        <source>No offer goes into %1</source>
        <translation>Kein Angebot passt in %1</translation>
    </message>
    <message>
        <source>No offer for %1 lasts %2 in %3</source>
        <translation>Kein Angebot für %1 reicht %2 lang in %3</translation>
    </message>
    <message>
        <source>Order %1 at once: %2 is full already</source>
        <translation>%1 sofort bestellen: %2 ist schon voll</translation>
    </message>
    <message>
        <source>Order %1 at once: %2 is over its ceiling already</source>
        <translation>%1 sofort bestellen: %2 ist schon über der Füllgrenze</translation>
    </message>
    <message>
        <source>Order %1 at once: the last safe day was %2</source>
        <translation>%1 sofort bestellen: Der letzte sichere Tag war der %2</translation>
    </message>
    <message>
        <source>Order %1 by %2: %3</source>
        <comment>offer, date, the cheapest that …</comment>
        <translation>%1 bestellen bis zum %2: %3</translation>
    </message>
    <message>
        <source>Buy %1: %2</source>
        <comment>offer, the cheapest that …</comment>
        <translation>%1 kaufen: %2</translation>
    </message>
    <message>
        <source>The offers are compared all the same.</source>
        <translation>Die Angebote werden trotzdem verglichen.</translation>
    </message>
    <message>
        <source>Add an offer to the site, a set of drives or a whole box with its price, and it is compared here.</source>
        <translation>Dem Standort ein Angebot hinzufügen, einen Satz Laufwerke oder eine ganze Box mit Preis, dann wird es hier verglichen.</translation>
    </message>
    <message>
        <source>It is %1.</source>
        <translation>Es ist %1.</translation>
    </message>
    <message>
        <source>%1 futures come to the ceiling before it runs, if it is ordered on %2: it runs from %3.</source>
        <translation>%1 Verläufe erreichen die Füllgrenze, bevor es läuft, wenn es am %2 bestellt wird: Es läuft ab %3.</translation>
    </message>
    <message>
        <source>%1 comes nearest: it lasts in %2.</source>
        <translation>%1 kommt am nächsten: Es reicht in %2.</translation>
    </message>
    <message>
        <source>Why stands at each of them.</source>
        <translation>Der Grund steht bei jedem.</translation>
    </message>
    <message>
        <source>The last safe day to order is not known: give the box a lead time.</source>
        <translation>Der letzte sichere Bestelltag ist nicht bekannt: Der Box eine Lieferzeit geben.</translation>
    </message>
    <message>
        <source>The last safe day to order was %1: since then 1 in 10 futures comes to the ceiling before it runs.</source>
        <translation>Der letzte sichere Bestelltag war der %1: Seither erreicht 1 von 10 Verläufen die Füllgrenze, bevor es läuft.</translation>
    </message>
    <message>
        <source>Ordered after %1, it runs too late in more than 1 in 10 futures.</source>
        <translation>Nach dem %1 bestellt, läuft es in mehr als 1 von 10 Verläufen zu spät.</translation>
    </message>
    <message>
        <source>Something has to be ordered by %1: after that, the ceiling comes before it runs in more than 1 in 10 futures.</source>
        <translation>Bis zum %1 muss etwas bestellt sein: Danach ist die Füllgrenze in mehr als 1 von 10 Verläufen erreicht, bevor es läuft.</translation>
    </message>
    <message>
        <source>%1 has no size yet, so it is not forecast as it is.</source>
        <translation>%1 hat noch keine Größe, wird also nicht vorhergesagt, wie es ist.</translation>
    </message>
    <message>
        <source>If nothing is bought, nothing more fits on %1.</source>
        <translation>Wird nichts gekauft, passt auf %1 nichts mehr.</translation>
    </message>
    <message>
        <source>%1 holds more than its %2 ceiling.</source>
        <translation>%1 ist über der Füllgrenze von %2 belegt.</translation>
    </message>
    <message>
        <source>If nothing is bought, %1 comes to its %2 ceiling in %3, %4 (%5).</source>
        <comment>box, share, time, date, range</comment>
        <translation>Wird nichts gekauft, erreicht %1 die Füllgrenze von %2, Zeit bis dahin %3, %4 (%5).</translation>
    </message>
    <message>
        <source>If nothing is bought, %1 stays below its %2 ceiling for %3 in %4.</source>
        <translation>Wird nichts gekauft, bleibt %1 %3 lang unter der Füllgrenze von %2, und zwar in %4.</translation>
    </message>
    <message>
        <source>It is full in %1, %2, in half of the futures.</source>
        <translation>Voll in der Hälfte der Verläufe, Zeit bis dahin %1, %2.</translation>
    </message>
    <message>
        <source>In no future drawn is it full within %1.</source>
        <translation>In keinem gezogenen Verlauf ist sie innerhalb des Horizonts (%1) voll.</translation>
    </message>
    <message>
        <source>It is full within %1 in %2.</source>
        <translation>Voll innerhalb des Horizonts (%1), und zwar in %2.</translation>
    </message>
    <message>
        <source>Planned and counted: %1, %2.</source>
        <translation>Geplant und eingerechnet: %1, %2.</translation>
    </message>
    <message>
        <source>around %1</source>
        <translation>etwa im %1</translation>
    </message>
    <message>
        <source>not within %1</source>
        <translation>nicht innerhalb des Horizonts (%1)</translation>
    </message>
    <message>
        <source>1 in 10: before %1</source>
        <translation>1 von 10: vor %1</translation>
    </message>
    <message>
        <source>9 in 10: before %1</source>
        <translation>9 von 10: vor %1</translation>
    </message>
    <message>
        <source>1 in 10: later than %1</source>
        <translation>1 von 10: nach %1</translation>
    </message>
    <message>
        <source>%1 costs no more and lasts no less.</source>
        <translation>%1 kostet nicht mehr und reicht nicht seltener.</translation>
    </message>
    <message>
        <source>It does not last, and %1 costs no more and lasts no less.</source>
        <translation>Es reicht nicht, und %1 kostet nicht mehr und reicht nicht seltener.</translation>
    </message>
    <message>
        <source>lasts %1 in %2</source>
        <translation>reicht %1 lang in %2</translation>
    </message>
    <message>
        <source>Comes to its ceiling</source>
        <translation>Erreicht die Füllgrenze</translation>
    </message>
    <message>
        <source>Cost over %1</source>
        <translation>Kosten über %1</translation>
    </message>
    <message numerus="yes">
        <source>Bought %n time(s), by its life.</source>
        <translation>
            <numerusform>%n Mal gekauft, nach der Lebensdauer.</numerusform>
            <numerusform>%n Mal gekauft, nach der Lebensdauer.</numerusform>
        </translation>
    </message>
    <message>
        <source>price %1</source>
        <translation>Preis %1</translation>
    </message>
    <message>
        <source>energy %1</source>
        <translation>Energie %1</translation>
    </message>
    <message>
        <source>replacement %1</source>
        <translation>Neukauf %1</translation>
    </message>
    <message>
        <source>For a usable TiB in a year</source>
        <translation>Je nutzbarem TiB und Jahr</translation>
    </message>
    <message>
        <source>Usable with it</source>
        <translation>Damit nutzbar</translation>
    </message>
    <message>
        <source>of which %1 below the ceiling</source>
        <translation>davon %1 unter der Füllgrenze</translation>
    </message>
    <message>
        <source>Runs from</source>
        <translation>Läuft ab</translation>
    </message>
    <message>
        <source>%1 futures come to the ceiling before.</source>
        <translation>%1 Verläufe erreichen die Füllgrenze vorher.</translation>
    </message>
    <message>
        <source>%1: %2 over %3; at its ceiling %4.</source>
        <translation>%1: %2 über %3; an der Füllgrenze %4.</translation>
    </message>
    <message>
        <source>If nothing is bought: over its ceiling now.</source>
        <translation>Wird nichts gekauft: jetzt über der Füllgrenze.</translation>
    </message>
    <message>
        <source>If nothing is bought: at its ceiling %1.</source>
        <translation>Wird nichts gekauft: an der Füllgrenze %1.</translation>
    </message>
    <message>
        <source>What longer lasting costs</source>
        <translation>Was länger Reichen kostet</translation>
    </message>
    <message>
        <source>%1 costs %2 over %3</source>
        <translation>%1 kostet %2 über %3</translation>
    </message>
    <message>
        <source>%1 costs least, and none lasts longer</source>
        <translation>%1 kostet am wenigsten, und keines reicht länger</translation>
    </message>
    <message>
        <source>%1 costs least; %2 lasts longest, for %3 more</source>
        <translation>%1 kostet am wenigsten; %2 reicht am längsten, für %3 mehr</translation>
    </message>
    <message>
        <source>Mark: middle forecast. Line: from 1 in 10 to 9 in 10 futures. Steps: offers that no other outdoes.</source>
        <translation>Marke: mittlere Vorhersage. Linie: von 1 von 10 bis 9 von 10 Verläufen. Stufen: Angebote, die kein anderes überbietet.</translation>
    </message>
    <message>
        <source>%1 does not go in and is not drawn.</source>
        <translation>%1 passt nicht hinein und ist nicht gezeichnet.</translation>
    </message>
    <message>
        <source>On the labels</source>
        <translation>Auf den Etiketten</translation>
    </message>
    <message>
        <source>Spare drives</source>
        <translation>Ersatzlaufwerke</translation>
    </message>
    <message>
        <source>Partitions, rounding</source>
        <translation>Partitionen, Rundung</translation>
    </message>
    <message>
        <source>Redundancy</source>
        <translation>Redundanz</translation>
    </message>
    <message>
        <source>Kept back</source>
        <translation>Zurückbehalten</translation>
    </message>
    <message>
        <source>Above the %1 ceiling</source>
        <translation>Über der Füllgrenze von %1</translation>
    </message>
    <message>
        <source>%1: %2.</source>
        <translation>%1: %2.</translation>
    </message>
    <message>
        <source>%1: adds %2, %3 are left.</source>
        <translation>%1: dazu %2, %3 bleiben.</translation>
    </message>
    <message>
        <source>%1: takes %2, %3 are left.</source>
        <translation>%1: nimmt %2, %3 bleiben.</translation>
    </message>
    <message>
        <source>Of %1 on the labels, %2 are yours</source>
        <translation>Von %1 auf den Etiketten sind %2 nutzbar</translation>
    </message>
    <message>
        <source>Small blocks cost next to nothing here</source>
        <translation>Kleine Blöcke kosten hier fast nichts</translation>
    </message>
    <message>
        <source>A byte of %1 takes %2 bytes here, in blocks of %3</source>
        <translation>Ein Byte von %1 belegt hier %2 Byte, in Blöcken von %3</translation>
    </message>
    <message>
        <source>%1: a stored byte takes %2 in blocks of %3; %4 at the end of the horizon.</source>
        <translation>%1: Ein gespeichertes Byte belegt %2 in Blöcken von %3; %4 am Ende des Horizonts.</translation>
    </message>
    <message>
        <source>In blocks of %1 it would take %2.</source>
        <translation>In Blöcken von %1 wären es %2.</translation>
    </message>
    <message>
        <source>1.00: a stored byte takes a usable byte.</source>
        <translation>1,00: Ein gespeichertes Byte belegt ein nutzbares Byte.</translation>
    </message>
    <message>
        <source>%1 in blocks of %2 would take %3 instead of %4.</source>
        <translation>%1 in Blöcken von %2 würde %3 statt %4 belegen.</translation>
    </message>
    <message>
        <source>The same drives as %1 would hold %2 more of this data, with %3 usable.</source>
        <translation>Dieselben Laufwerke als %1 würden %2 mehr von diesen Daten fassen, nutzbar %3.</translation>
    </message>
    <message>
        <source>“%1”</source>
        <comment>a name</comment>
        <translation>„%1“</translation>
    </message>
</context>
<context>
    <name>ullage::ChartExport</name>
    <message>
        <source>Save</source>
        <translation>Speichern</translation>
    </message>
    <message>
        <source>%1 was not saved: %2.</source>
        <translation>%1 wurde nicht gespeichert: %2.</translation>
    </message>
    <message>
        <source>PNG (*.png);;SVG (*.svg)</source>
        <translation>PNG (*.png);;SVG (*.svg)</translation>
    </message>
    <message>
        <source>Comma-separated values (*.csv)</source>
        <translation>Kommagetrennte Werte (*.csv)</translation>
    </message>
</context>
<context>
    <name>ullage::ChartSection</name>
    <message>
        <source>Show as table</source>
        <translation>Als Tabelle zeigen</translation>
    </message>
    <message>
        <source>Ctrl+T</source>
        <translation>Ctrl+T</translation>
    </message>
    <message>
        <source>Every number of the chart (%1)</source>
        <translation>Jede Zahl des Bildes (%1)</translation>
    </message>
    <message>
        <source>Copy numbers</source>
        <translation>Zahlen kopieren</translation>
    </message>
    <message>
        <source>Copy as picture</source>
        <translation>Als Bild kopieren</translation>
    </message>
    <message>
        <source>Save picture…</source>
        <translation>Bild speichern…</translation>
    </message>
    <message>
        <source>Export numbers…</source>
        <translation>Zahlen ausgeben…</translation>
    </message>
</context>
<context>
    <name>ullage::ComparisonBar</name>
    <message>
        <source>Rename</source>
        <translation>Umbenennen</translation>
    </message>
    <message>
        <source>Name</source>
        <translation>Name</translation>
    </message>
    <message>
        <source>Com&amp;pared with</source>
        <translation>&amp;Verglichen mit</translation>
    </message>
    <message>
        <source>Compared with</source>
        <translation>Verglichen mit</translation>
    </message>
    <message>
        <source>Differences…</source>
        <translation>Unterschiede…</translation>
    </message>
    <message>
        <source>A table of both values and the change</source>
        <translation>Eine Tabelle mit beiden Werten und der Änderung</translation>
    </message>
    <message>
        <source>Go back to it</source>
        <translation>Dahin zurück</translation>
    </message>
    <message>
        <source>Edits the site to be as it was; this can be undone</source>
        <translation>Macht den Standort wieder, wie er war; das lässt sich rückgängig machen</translation>
    </message>
    <message>
        <source>Rename…</source>
        <translation>Umbenennen…</translation>
    </message>
    <message>
        <source>Drop</source>
        <translation>Verwerfen</translation>
    </message>
    <message>
        <source>Forgets what was kept</source>
        <translation>Vergisst, was behalten wurde</translation>
    </message>
    <message>
        <source>nothing</source>
        <translation>nichts</translation>
    </message>
    <message>
        <source>Differences</source>
        <translation>Unterschiede</translation>
    </message>
</context>
<context>
    <name>ullage::DaysUntilFullGauge</name>
    <message>
        <source>Of 20 futures, %1 reach the ceiling later than %2.</source>
        <translation>Von 20 Verläufen erreichen %1 die Füllgrenze erst nach %2.</translation>
    </message>
    <message>
        <source>Of 20 futures, %1 are full later than %2.</source>
        <translation>Von 20 Verläufen sind %1 erst nach %2 voll.</translation>
    </message>
    <message>
        <source>Days until full</source>
        <translation>Tage, bis die Box voll ist</translation>
    </message>
    <message>
        <source>Days until %1 is full</source>
        <translation>Tage, bis %1 voll ist</translation>
    </message>
    <message>
        <source>By %1, %2 of 20 futures have reached the ceiling.</source>
        <translation>Bis %1 haben %2 von 20 Verläufen die Füllgrenze erreicht.</translation>
    </message>
    <message>
        <source>By %1, %2 of 20 futures are full.</source>
        <translation>Bis %1 sind %2 von 20 Verläufen voll.</translation>
    </message>
</context>
<context>
    <name>ullage::Differences</name>
    <message>
        <source>Figure</source>
        <translation>Wert</translation>
    </message>
    <message>
        <source>Now</source>
        <translation>Jetzt</translation>
    </message>
    <message>
        <source>Change</source>
        <translation>Änderung</translation>
    </message>
    <message>
        <source>not there</source>
        <translation>nicht da</translation>
    </message>
    <message>
        <source>new</source>
        <translation>neu</translation>
    </message>
    <message>
        <source>gone</source>
        <translation>weg</translation>
    </message>
    <message>
        <source>the same</source>
        <translation>gleich</translation>
    </message>
    <message>
        <source>another</source>
        <translation>ein anderer</translation>
    </message>
    <message>
        <source>hardly any</source>
        <translation>kaum eine</translation>
    </message>
    <message>
        <source>not within %1</source>
        <translation>später als %1</translation>
    </message>
    <message>
        <source>%1 later</source>
        <translation>%1 später</translation>
    </message>
    <message>
        <source>%1 sooner</source>
        <translation>%1 früher</translation>
    </message>
    <message>
        <source>%1 more</source>
        <translation>%1 mehr</translation>
    </message>
    <message>
        <source>%1 less</source>
        <translation>%1 weniger</translation>
    </message>
    <message>
        <source>%1 percentage points</source>
        <translation>%1 Prozentpunkte</translation>
    </message>
    <message>
        <source>until its ceiling, 1 in 10 futures</source>
        <translation>bis zur Füllgrenze, 1 von 10 Verläufen</translation>
    </message>
    <message>
        <source>until its ceiling, 5 in 10 futures</source>
        <translation>bis zur Füllgrenze, 5 von 10 Verläufen</translation>
    </message>
    <message>
        <source>until its ceiling, 9 in 10 futures</source>
        <translation>bis zur Füllgrenze, 9 von 10 Verläufen</translation>
    </message>
    <message>
        <source>used at the end, middle</source>
        <translation>belegt am Ende, Mitte</translation>
    </message>
    <message>
        <source>no figure</source>
        <translation>kein Wert</translation>
    </message>
    <message>
        <source>runs that are late</source>
        <translation>Läufe, die zu spät sind</translation>
    </message>
    <message>
        <source>longest outage it can bear</source>
        <translation>längster Ausfall, den sie verträgt</translation>
    </message>
    <message>
        <source>no limit</source>
        <translation>unbegrenzt</translation>
    </message>
    <message>
        <source>chance of lasting</source>
        <translation>Aussicht zu reichen</translation>
    </message>
    <message>
        <source>cost over the horizon</source>
        <translation>Kosten über den Horizont</translation>
    </message>
    <message>
        <source>%1: %2</source>
        <comment>name of what was kept, its headline</comment>
        <translation>%1: %2</translation>
    </message>
    <message>
        <source>Item</source>
        <translation>Gegenstand</translation>
    </message>
</context>
<context>
    <name>ullage::DrillChart</name>
    <message>
        <source>Through an outage</source>
        <translation>Durch einen Ausfall</translation>
    </message>
    <message>
        <source>No outage is drawn.</source>
        <translation>Kein Ausfall ist eingezeichnet.</translation>
    </message>
    <message>
        <source>middle forecast</source>
        <translation>mittlere Vorhersage</translation>
    </message>
    <message>
        <source>up to 19 in 20</source>
        <translation>bis 19 von 20</translation>
    </message>
    <message>
        <source>line down</source>
        <translation>Leitung ausgefallen</translation>
    </message>
    <message>
        <source>catching up, middle forecast</source>
        <translation>Aufholen, mittlere Vorhersage</translation>
    </message>
    <message>
        <source>How old the newest copy gets in the day</source>
        <translation>Wie alt die neueste Kopie an dem Tag wird</translation>
    </message>
    <message>
        <source>What waits at the day&apos;s end</source>
        <translation>Was am Ende des Tages wartet</translation>
    </message>
</context>
<context>
    <name>ullage::DriverBars</name>
    <message>
        <source>%1 · %2 of the spread</source>
        <comment>days, share</comment>
        <translation>%1 · %2 der Streuung</translation>
    </message>
    <message>
        <source>What the day depends on</source>
        <translation>Wovon der Tag abhängt</translation>
    </message>
    <message>
        <source>Nothing computed yet.</source>
        <translation>Noch nichts berechnet.</translation>
    </message>
    <message>
        <source>middle forecast: %1</source>
        <translation>mittlere Vorhersage: %1</translation>
    </message>
    <message>
        <source>middle forecast: not within %1</source>
        <translation>mittlere Vorhersage: nicht innerhalb des Horizonts (%1)</translation>
    </message>
    <message>
        <source>with the input at its low value</source>
        <translation>wenn die Größe niedrig ist</translation>
    </message>
    <message>
        <source>at its high value</source>
        <translation>wenn die Größe hoch ist</translation>
    </message>
    <message>
        <source>not within %1</source>
        <translation>nicht innerhalb des Horizonts (%1)</translation>
    </message>
</context>
<context>
    <name>ullage::FillChart</name>
    <message>
        <source>Date to read</source>
        <translation>Abzulesendes Datum</translation>
    </message>
    <message>
        <source>Drag to read any date</source>
        <translation>Ziehen, um ein Datum abzulesen</translation>
    </message>
    <message>
        <source>Read at</source>
        <translation>Ablesen am</translation>
    </message>
    <message>
        <source>Middle forecast</source>
        <translation>Mittlere Vorhersage</translation>
    </message>
    <message>
        <source>8 in 10 futures</source>
        <translation>8 von 10 Verläufen</translation>
    </message>
    <message>
        <source>Live</source>
        <translation>Aktuell</translation>
    </message>
    <message>
        <source>Held by snapshots</source>
        <translation>Von Snapshots gehalten</translation>
    </message>
    <message>
        <source>Live and &amp;held</source>
        <translation>Aktuell und &amp;gehalten</translation>
    </message>
    <message>
        <source>Show what the middle forecast is made of</source>
        <translation>Zeigen, woraus die mittlere Vorhersage besteht</translation>
    </message>
    <message>
        <source>Show as table</source>
        <translation>Als Tabelle zeigen</translation>
    </message>
    <message>
        <source>Copy</source>
        <translation>Kopieren</translation>
    </message>
    <message>
        <source>Copy as picture</source>
        <translation>Als Bild kopieren</translation>
    </message>
    <message>
        <source>Copy numbers</source>
        <translation>Zahlen kopieren</translation>
    </message>
    <message>
        <source>Ctrl+T</source>
        <translation>Ctrl+T</translation>
    </message>
    <message>
        <source>Every number of the chart (%1)</source>
        <translation>Jede Zahl des Bildes (%1)</translation>
    </message>
    <message>
        <source>No forecast to draw yet</source>
        <translation>Noch keine Vorhersage zu zeichnen</translation>
    </message>
    <message>
        <source>%1 (%2)</source>
        <comment>size, share of usable</comment>
        <translation>%1 (%2)</translation>
    </message>
    <message>
        <source>%1 to %2</source>
        <comment>sizes</comment>
        <translation>%1 bis %2</translation>
    </message>
    <message>
        <source>Read: %1</source>
        <translation>Abgelesen: %1</translation>
    </message>
    <message>
        <source>Show all dates</source>
        <translation>Alle Daten zeigen</translation>
    </message>
    <message>
        <source>Undoes the zooming (0)</source>
        <translation>Hebt die Vergrößerung auf (0)</translation>
    </message>
    <message>
        <source>Save picture…</source>
        <translation>Bild speichern…</translation>
    </message>
    <message>
        <source>Export numbers…</source>
        <translation>Zahlen ausgeben…</translation>
    </message>
</context>
<context>
    <name>ullage::FillPlot</name>
    <message>
        <source>1 in 10 above</source>
        <translation>1 von 10 darüber</translation>
    </message>
    <message>
        <source>middle forecast</source>
        <translation>mittlere Vorhersage</translation>
    </message>
    <message>
        <source>1 in 10 below</source>
        <translation>1 von 10 darunter</translation>
    </message>
    <message>
        <source>ceiling %1</source>
        <translation>Füllgrenze %1</translation>
    </message>
    <message>
        <source>live</source>
        <translation>aktuell</translation>
    </message>
    <message>
        <source>held</source>
        <translation>gehalten</translation>
    </message>
    <message>
        <source>other</source>
        <translation>anderes</translation>
    </message>
    <message>
        <source>full, %1</source>
        <translation>voll, %1</translation>
    </message>
    <message>
        <source>%1 used</source>
        <comment>unit of an axis</comment>
        <translation>%1 belegt</translation>
    </message>
</context>
<context>
    <name>ullage::FillTable</name>
    <message>
        <source>Date</source>
        <translation>Datum</translation>
    </message>
    <message>
        <source>1 in 10 below (%1)</source>
        <translation>1 von 10 darunter (%1)</translation>
    </message>
    <message>
        <source>1 in 4 below (%1)</source>
        <translation>1 von 4 darunter (%1)</translation>
    </message>
    <message>
        <source>Middle (%1)</source>
        <translation>Mitte (%1)</translation>
    </message>
    <message>
        <source>1 in 4 above (%1)</source>
        <translation>1 von 4 darüber (%1)</translation>
    </message>
    <message>
        <source>1 in 10 above (%1)</source>
        <translation>1 von 10 darüber (%1)</translation>
    </message>
    <message>
        <source>Live (%1)</source>
        <translation>Aktuell (%1)</translation>
    </message>
    <message>
        <source>Held (%1)</source>
        <translation>Gehalten (%1)</translation>
    </message>
    <message>
        <source>Other (%1)</source>
        <translation>Anderes (%1)</translation>
    </message>
    <message>
        <source>Usable (%1)</source>
        <translation>Nutzbar (%1)</translation>
    </message>
    <message>
        <source>Fill (%)</source>
        <translation>Belegt (%)</translation>
    </message>
    <message>
        <source>The datasets&apos; own bytes, middle forecast</source>
        <translation>Die eigenen Bytes der Datensätze, mittlere Vorhersage</translation>
    </message>
    <message>
        <source>Held by snapshots alone, middle forecast</source>
        <translation>Nur von Snapshots gehalten, mittlere Vorhersage</translation>
    </message>
    <message>
        <source>Other data stored there, constant</source>
        <translation>Andere dort gespeicherte Daten, gleichbleibend</translation>
    </message>
    <message>
        <source>The box&apos;s usable size then, planned changes made</source>
        <translation>Die dann nutzbare Größe der Box, nach den geplanten Änderungen</translation>
    </message>
    <message>
        <source>Middle forecast ÷ usable size</source>
        <translation>Mittlere Vorhersage ÷ nutzbare Größe</translation>
    </message>
    <message>
        <source>Used</source>
        <translation>Belegt</translation>
    </message>
</context>
<context>
    <name>ullage::FillText</name>
    <message>
        <source>%1 is full now</source>
        <translation>%1 ist jetzt voll</translation>
    </message>
    <message>
        <source>%1 is over its ceiling now</source>
        <translation>%1 ist jetzt über der Füllgrenze</translation>
    </message>
    <message>
        <source>%1 passes its ceiling around %2</source>
        <translation>%1 überschreitet die Füllgrenze etwa im %2</translation>
    </message>
    <message>
        <source>%1 stays below its ceiling for %2 in every future</source>
        <translation>%1 bleibt in jedem Verlauf %2 lang unter der Füllgrenze</translation>
    </message>
    <message>
        <source>%1 stays below its ceiling for %2 in more than 19 of 20 futures</source>
        <translation>%1 bleibt in mehr als 19 von 20 Verläufen %2 lang unter der Füllgrenze</translation>
    </message>
    <message>
        <source>%1 stays below its ceiling for %2 in %3 of 20 futures</source>
        <translation>%1 bleibt in %3 von 20 Verläufen %2 lang unter der Füllgrenze</translation>
    </message>
    <message>
        <source>%1: in the middle %2 used, %3 of usable.</source>
        <translation>%1: in der Mitte %2 belegt, %3 des Nutzbaren.</translation>
    </message>
    <message>
        <source>%1: in the middle %2 used.</source>
        <translation>%1: in der Mitte %2 belegt.</translation>
    </message>
    <message>
        <source>8 in 10 futures between %1 and %2.</source>
        <translation>8 von 10 Verläufen zwischen %1 und %2.</translation>
    </message>
    <message>
        <source>Live %1, held by snapshots %2.</source>
        <translation>Aktuell %1, von Snapshots gehalten %2.</translation>
    </message>
    <message>
        <source>Other data %1.</source>
        <translation>Andere Daten %1.</translation>
    </message>
    <message>
        <source>Usable then: %1.</source>
        <translation>Dann nutzbar: %1.</translation>
    </message>
    <message>
        <source>%1, %2: %3</source>
        <translation>%1, %2: %3</translation>
    </message>
    <message>
        <source>%1: %2; from then on %3 usable, ceiling %4</source>
        <comment>date, what changes, sizes</comment>
        <translation>%1: %2; von da an %3 nutzbar, Füllgrenze %4</translation>
    </message>
    <message>
        <source>Usable %1, ceiling %2.</source>
        <translation>Nutzbar %1, Füllgrenze %2.</translation>
    </message>
    <message>
        <source>%1: %2 %3.</source>
        <translation>%1: %2 %3.</translation>
    </message>
    <message>
        <source>Dark band: half of all futures. Light band: 8 in 10. It is wide where we know less.</source>
        <translation>Dunkles Band: die Hälfte aller Verläufe. Helles Band: 8 von 10. Es ist breit, wo weniger bekannt ist.</translation>
    </message>
</context>
<context>
    <name>ullage::FitPage</name>
    <message>
        <source>All boxes</source>
        <translation>Alle Boxen</translation>
    </message>
    <message>
        <source>Working out the forecast…</source>
        <translation>Die Vorhersage wird berechnet …</translation>
    </message>
    <message>
        <source>How full each box gets, and when, appears here.</source>
        <translation>Wie voll jede Box wird und wann, erscheint hier.</translation>
    </message>
    <message>
        <source>No forecast</source>
        <translation>Keine Vorhersage</translation>
    </message>
    <message>
        <source>The calculation failed. What to mend is said below.</source>
        <translation>Die Berechnung ist fehlgeschlagen. Was zu ändern ist, steht unten.</translation>
    </message>
    <message>
        <source>The calculation was cancelled.</source>
        <translation>Die Berechnung wurde abgebrochen.</translation>
    </message>
    <message>
        <source>No answer yet</source>
        <translation>Noch keine Antwort</translation>
    </message>
    <message>
        <source>No box to forecast</source>
        <translation>Keine Box zum Vorhersagen</translation>
    </message>
    <message>
        <source>Give a box its drives, or its usable size, and the day it fills up appears here.</source>
        <translation>Einer Box ihre Laufwerke oder ihre nutzbare Größe geben, dann erscheint hier der Tag, an dem sie voll wird.</translation>
    </message>
    <message>
        <source>%1 has neither drives nor a usable size, so it is not forecast. Shown instead: %2.</source>
        <translation>%1 hat weder Laufwerke noch eine nutzbare Größe und wird deshalb nicht vorhergesagt. Gezeigt wird stattdessen: %2.</translation>
    </message>
</context>
<context>
    <name>ullage::FrontierChart</name>
    <message>
        <source>What longer lasting costs</source>
        <translation>Was länger Reichen kostet</translation>
    </message>
    <message>
        <source>nothing bought</source>
        <translation>nichts gekauft</translation>
    </message>
    <message>
        <source>Nothing computed yet.</source>
        <translation>Noch nichts berechnet.</translation>
    </message>
    <message>
        <source>years until its ceiling</source>
        <translation>Jahre bis zur Füllgrenze</translation>
    </message>
    <message>
        <source>cost over %1</source>
        <translation>Kosten über %1</translation>
    </message>
    <message>
        <source>cost over %1, in %2</source>
        <translation>Kosten über %1, in %2</translation>
    </message>
    <message>
        <source>later than %1</source>
        <translation>später als %1</translation>
    </message>
</context>
<context>
    <name>ullage::GaugeCard</name>
    <message>
        <source>Box</source>
        <translation>Box</translation>
    </message>
    <message>
        <source>%1, %2</source>
        <comment>status, date</comment>
        <translation>%1, %2</translation>
    </message>
</context>
<context>
    <name>ullage::GaugeText</name>
    <message>
        <source>%1 d</source>
        <comment>days on a track</comment>
        <translation>%1 T</translation>
    </message>
    <message>
        <source>%1 mo</source>
        <comment>months on a track</comment>
        <translation>%1 M</translation>
    </message>
    <message>
        <source>%1 y</source>
        <comment>years on a track</comment>
        <translation>%1 J</translation>
    </message>
    <message>
        <source>now</source>
        <translation>jetzt</translation>
    </message>
    <message>
        <source>within %1 in fewer than 1 of 20 futures</source>
        <translation>über %1 gesehen in weniger als 1 von 20 Verläufen</translation>
    </message>
    <message>
        <source>not within %1 in any future</source>
        <translation>in keinem Verlauf, über %1 gesehen</translation>
    </message>
    <message>
        <source>within %1 in %2 of 20 futures</source>
        <translation>über %1 gesehen in %2 von 20 Verläufen</translation>
    </message>
    <message>
        <source>%1 later</source>
        <translation>%1 später</translation>
    </message>
    <message>
        <source>Each mark: 1 of 20 equally likely futures.
Line: from 1 in 10 to 9 in 10.</source>
        <translation>Jeder Punkt: 1 von 20 gleich wahrscheinlichen Verläufen.
Linie: von 1 von 10 bis 9 von 10.</translation>
    </message>
    <message>
        <source>Ceiling</source>
        <translation>Grenze</translation>
    </message>
    <message>
        <source>Full</source>
        <translation>Voll</translation>
    </message>
    <message>
        <source>already passed</source>
        <translation>schon überschritten</translation>
    </message>
    <message>
        <source>No answer yet</source>
        <translation>Noch keine Antwort</translation>
    </message>
    <message>
        <source>The forecast appears here when it has been computed.</source>
        <translation>Die Vorhersage erscheint hier, sobald sie berechnet ist.</translation>
    </message>
    <message>
        <source>waiting for the forecast</source>
        <translation>wartet auf die Vorhersage</translation>
    </message>
    <message>
        <source>Full now</source>
        <translation>Jetzt voll</translation>
    </message>
    <message>
        <source>Nothing more fits; the %1 ceiling is passed too.</source>
        <translation>Nichts passt mehr hinein; auch die Füllgrenze von %1 ist überschritten.</translation>
    </message>
    <message>
        <source>no room left</source>
        <translation>kein Platz mehr</translation>
    </message>
    <message>
        <source>Over its ceiling now</source>
        <translation>Jetzt über der Füllgrenze</translation>
    </message>
    <message>
        <source>It holds more than %1 of its usable size.</source>
        <translation>Belegt sind mehr als %1 des nutzbaren Platzes.</translation>
    </message>
    <message>
        <source>over %1 now</source>
        <translation>jetzt über %1</translation>
    </message>
    <message>
        <source>to the %1 ceiling, around %2</source>
        <translation>bis zur Füllgrenze von %1, etwa im %2</translation>
    </message>
    <message>
        <source>around %1</source>
        <translation>etwa im %1</translation>
    </message>
    <message>
        <source>Shrinking</source>
        <translation>Schrumpft</translation>
    </message>
    <message>
        <source>It holds less at the end of %1 than today; no sign of the %2 ceiling.</source>
        <translation>Am Ende des Horizonts (%1) ist weniger belegt als heute; die Füllgrenze von %2 ist nicht in Sicht.</translation>
    </message>
    <message>
        <source>no ceiling in sight</source>
        <translation>keine Füllgrenze in Sicht</translation>
    </message>
    <message>
        <source>Not within %1</source>
        <translation>Länger als %1</translation>
    </message>
    <message>
        <source>to the %1 ceiling, in any future</source>
        <translation>bis zur Füllgrenze von %1, in jedem Verlauf</translation>
    </message>
    <message>
        <source>to the %1 ceiling, in most futures</source>
        <translation>bis zur Füllgrenze von %1, in den meisten Verläufen</translation>
    </message>
    <message>
        <source>in any future</source>
        <translation>in jedem Verlauf</translation>
    </message>
    <message>
        <source>in most futures</source>
        <translation>in den meisten Verläufen</translation>
    </message>
    <message>
        <source>1 in 10: before %1</source>
        <translation>1 von 10: vor %1</translation>
    </message>
    <message>
        <source>9 in 10: before %1</source>
        <translation>9 von 10: vor %1</translation>
    </message>
    <message>
        <source>Completely full: %1, around %2</source>
        <translation>Ganz voll: %1, etwa im %2</translation>
    </message>
    <message>
        <source>Completely full: %1</source>
        <translation>Ganz voll: %1</translation>
    </message>
    <message>
        <source>The last safe day to order was %1.</source>
        <translation>Der letzte sichere Bestelltag war der %1.</translation>
    </message>
    <message>
        <source>Order more by %1.</source>
        <translation>Mehr bestellen bis zum %1.</translation>
    </message>
</context>
<context>
    <name>ullage::KeptList</name>
    <message>
        <source>Kept %1</source>
        <translation>Behalten %1</translation>
    </message>
    <message>
        <source>%1 (%2)</source>
        <comment>a name that is taken, a number</comment>
        <translation>%1 (%2)</translation>
    </message>
</context>
<context>
    <name>ullage::LimitChain</name>
    <message>
        <source>Line rate</source>
        <translation>Rate der Leitung</translation>
    </message>
    <message>
        <source>Share of the line</source>
        <translation>Anteil der Leitung</translation>
    </message>
    <message>
        <source>Ethernet framing</source>
        <translation>Ethernet-Rahmen</translation>
    </message>
    <message>
        <source>IP headers</source>
        <translation>IP-Kopfdaten</translation>
    </message>
    <message>
        <source>TCP headers</source>
        <translation>TCP-Kopfdaten</translation>
    </message>
    <message>
        <source>VLAN tag</source>
        <translation>VLAN-Kennung</translation>
    </message>
    <message>
        <source>PPPoE headers</source>
        <translation>PPPoE-Kopfdaten</translation>
    </message>
    <message>
        <source>WireGuard tunnel</source>
        <translation>WireGuard-Tunnel</translation>
    </message>
    <message>
        <source>IPsec ESP tunnel</source>
        <translation>IPsec-ESP-Tunnel</translation>
    </message>
    <message>
        <source>IPsec ESP tunnel in UDP</source>
        <translation>IPsec-ESP-Tunnel in UDP</translation>
    </message>
    <message>
        <source>SSH records</source>
        <translation>SSH-Datensätze</translation>
    </message>
    <message>
        <source>TLS records</source>
        <translation>TLS-Datensätze</translation>
    </message>
    <message>
        <source>Receive window ÷ round trip</source>
        <translation>Empfangsfenster ÷ Umlaufzeit</translation>
    </message>
    <message>
        <source>Packet loss</source>
        <translation>Paketverlust</translation>
    </message>
    <message>
        <source>Cipher</source>
        <translation>Verschlüsselung</translation>
    </message>
    <message>
        <source>Disks</source>
        <translation>Laufwerke</translation>
    </message>
    <message>
        <source>the line&apos;s rate</source>
        <translation>die Rate der Leitung</translation>
    </message>
    <message>
        <source>the receive window</source>
        <translation>das Empfangsfenster</translation>
    </message>
    <message>
        <source>packet loss</source>
        <translation>der Paketverlust</translation>
    </message>
    <message>
        <source>the cipher</source>
        <translation>die Verschlüsselung</translation>
    </message>
    <message>
        <source>the disks</source>
        <translation>die Laufwerke</translation>
    </message>
    <message>
        <source>the open hours</source>
        <translation>die offenen Stunden</translation>
    </message>
    <message>
        <source>While it is open the line carries %1, bound by %2; but its open hours are too few.</source>
        <translation>Solange sie offen ist, schafft die Leitung %1, begrenzt durch: %2; aber sie ist zu wenige Stunden offen.</translation>
    </message>
    <message>
        <source>What binds is %1: %2 are left for the data.</source>
        <translation>Es begrenzt: %1; für die Daten bleiben %2.</translation>
    </message>
    <message>
        <source>With %1 lifted, %2 would bind next, at %3.</source>
        <translation>Ohne diese Grenze (%1) begrenzt als Nächstes: %2, bei %3.</translation>
    </message>
    <message>
        <source>Limits of the link</source>
        <translation>Grenzen der Leitung</translation>
    </message>
    <message>
        <source>Nothing computed yet.</source>
        <translation>Noch nichts berechnet.</translation>
    </message>
    <message>
        <source>%1: %2, this one binds.</source>
        <translation>%1: %2, das begrenzt.</translation>
    </message>
    <message>
        <source>%1: %2.</source>
        <translation>%1: %2.</translation>
    </message>
    <message>
        <source>Limits of the link, in steps</source>
        <translation>Grenzen der Leitung, in Schritten</translation>
    </message>
    <message>
        <source>binds</source>
        <translation>begrenzt</translation>
    </message>
    <message>
        <source>would allow %1</source>
        <translation>würde %1 erlauben</translation>
    </message>
</context>
<context>
    <name>ullage::NumberTable</name>
    <message>
        <source>Copy numbers</source>
        <translation>Zahlen kopieren</translation>
    </message>
</context>
<context>
    <name>ullage::OfferCard</name>
    <message>
        <source>Open this offer</source>
        <translation>Dieses Angebot öffnen</translation>
    </message>
    <message>
        <source>Taken for granted</source>
        <translation>Vorausgesetzt</translation>
    </message>
</context>
<context>
    <name>ullage::OutageFields</name>
    <message>
        <source>Line &amp;down from</source>
        <translation>Leitung aus&amp;gefallen ab</translation>
    </message>
    <message>
        <source>f&amp;or</source>
        <translation>f&amp;ür</translation>
    </message>
    <message>
        <source>First day of the outage</source>
        <translation>Erster Tag des Ausfalls</translation>
    </message>
    <message>
        <source>Days of the outage</source>
        <translation>Tage des Ausfalls</translation>
    </message>
    <message>
        <source>&amp;Take it away</source>
        <translation>&amp;Wegnehmen</translation>
    </message>
    <message>
        <source>&amp;Try this outage</source>
        <translation>Diesen Ausfall &amp;durchrechnen</translation>
    </message>
</context>
<context>
    <name>ullage::OutageText</name>
    <message>
        <source>any length</source>
        <translation>jede Länge</translation>
    </message>
    <message>
        <source>“%1”</source>
        <comment>name of a dataset</comment>
        <translation>„%1“</translation>
    </message>
    <message numerus="yes">
        <source>%n day(s)</source>
        <translation>
            <numerusform>%n Tag</numerusform>
            <numerusform>%n Tage</numerusform>
        </translation>
    </message>
    <message numerus="yes">
        <source>day(s)</source>
        <comment>after a number</comment>
        <translation>
            <numerusform>Tag</numerusform>
            <numerusform>Tage</numerusform>
        </translation>
    </message>
    <message>
        <source>line down for %1</source>
        <translation>Leitung ausgefallen für %1</translation>
    </message>
    <message>
        <source>No complete copy comes to be within the horizon</source>
        <translation>Innerhalb des Horizonts entsteht keine vollständige Kopie</translation>
    </message>
    <message>
        <source>The newest copy is usually %1 old, and %2 at worst</source>
        <translation>Die neueste Kopie ist meist %1 alt, schlimmstenfalls %2</translation>
    </message>
    <message>
        <source>Age of the newest complete copy over time, by four weeks. 19 in 20 times it is at most %1. At its worst it is %2 old, in the four weeks from %3.</source>
        <translation>Alter der neuesten vollständigen Kopie im Lauf der Zeit, je vier Wochen. 19 von 20 Mal ist es höchstens %1. Schlimmstenfalls ist sie %2 alt, in den vier Wochen ab %3.</translation>
    </message>
    <message>
        <source>Four weeks from %1: the newest copy is at most %2 old half of the time, %3 in 19 of 20 times, %4 at worst.</source>
        <translation>Vier Wochen ab %1: Die neueste Kopie ist in der Hälfte der Zeit höchstens %2 alt, in 19 von 20 Mal %3, schlimmstenfalls %4.</translation>
    </message>
    <message>
        <source>What is not on the newest copy would be lost with the source. Draw an outage with the mouse: press on a day and drag. Or choose a day with the arrow keys and press Enter; then Shift and arrows change its length, Ctrl and arrows its date, Escape takes it away.</source>
        <translation>Was nicht auf der neuesten Kopie ist, ginge mit der Quelle verloren. Mit der Maus einen Ausfall einzeichnen: auf einen Tag drücken und ziehen. Oder einen Tag mit den Pfeiltasten wählen und die Eingabetaste drücken; dann ändern Umschalt und Pfeile die Länge, Strg und Pfeile das Datum, Esc nimmt ihn weg.</translation>
    </message>
    <message>
        <source>Without a first copy there is no age of one. See below how it could be made.</source>
        <translation>Ohne Erstkopie gibt es kein Alter davon. Unten steht, wie sie entstehen könnte.</translation>
    </message>
    <message>
        <source>Four weeks from</source>
        <translation>Vier Wochen ab</translation>
    </message>
    <message>
        <source>Half of the time at most (h)</source>
        <translation>Die Hälfte der Zeit höchstens (h)</translation>
    </message>
    <message>
        <source>19 in 20 times at most (h)</source>
        <translation>19 von 20 Mal höchstens (h)</translation>
    </message>
    <message>
        <source>Worst (h)</source>
        <translation>Schlimmstenfalls (h)</translation>
    </message>
    <message>
        <source>With %1 down for %2 from %3 the newest copy gets %4 old</source>
        <translation>Wenn %1 ab %3 ausfällt (Dauer: %2), wird die neueste Kopie %4 alt</translation>
    </message>
    <message>
        <source>When the line is back, %1 are waiting; 19 in 20 times at most %2.</source>
        <translation>Wenn die Leitung wieder da ist, warten %1; 19 von 20 Mal höchstens %2.</translation>
    </message>
    <message>
        <source>All is caught up %1 after that; 19 in 20 times within %2.</source>
        <translation>Bis alles aufgeholt ist, dauert es danach %1; 19 von 20 Mal höchstens %2.</translation>
    </message>
    <message>
        <source>In %1 futures it does not catch up within the horizon.</source>
        <translation>In %1 Verläufen wird innerhalb des Horizonts nicht aufgeholt.</translation>
    </message>
    <message>
        <source>Both ends still share a snapshot then, so that one increment catches up.</source>
        <translation>Beide Seiten haben dann noch einen gemeinsamen Snapshot, also holt ein Inkrement alles auf.</translation>
    </message>
    <message>
        <source>The last snapshot of %1 that both ends shared is gone then in %2 futures: all of it is sent again, %3 in %4.</source>
        <translation>Der letzte gemeinsame Snapshot von %1 ist dann weg (Verläufe: %2): Alles davon wird noch einmal übertragen, %3 in %4.</translation>
    </message>
    <message>
        <source>Until that is done, the box needs %1 for it beside the old copy</source>
        <translation>Bis das erledigt ist, braucht die Box dafür %1 neben der alten Kopie</translation>
    </message>
    <message>
        <source>; it has %1 free, which is too little: the old copy would have to go first.</source>
        <translation>; frei sind %1, das ist zu wenig: Die alte Kopie müsste zuerst weg.</translation>
    </message>
    <message>
        <source>; it has %1 free.</source>
        <translation>; frei sind %1.</translation>
    </message>
    <message>
        <source>The longest outage around that date that ends with one increment: %1.</source>
        <translation>Der längste Ausfall um dieses Datum, der mit einem Inkrement endet: %1.</translation>
    </message>
    <message>
        <source>An outage of any length ends with one increment.</source>
        <translation>Ein Ausfall jeder Länge endet mit einem Inkrement.</translation>
    </message>
    <message>
        <source>With %1: %2.</source>
        <translation>Mit dieser Maßnahme – %1 –: %2.</translation>
    </message>
    <message>
        <source>%1, line down: the newest copy gets %2 old (19 in 20 times at most %3); %4 are waiting at the day&apos;s end (at most %5).</source>
        <translation>%1, Leitung ausgefallen: Die neueste Kopie wird %2 alt (19 von 20 Mal höchstens %3); %4 warten am Ende des Tages (höchstens %5).</translation>
    </message>
    <message>
        <source>%1: the newest copy gets %2 old (19 in 20 times at most %3); %4 are waiting at the day&apos;s end (at most %5).</source>
        <translation>%1: Die neueste Kopie wird %2 alt (19 von 20 Mal höchstens %3); %4 warten am Ende des Tages (höchstens %5).</translation>
    </message>
    <message>
        <source>People go on writing as ever. Drag the edges of the outage, or all of it, to try another one.</source>
        <translation>Es wird geschrieben wie immer. Die Ränder des Ausfalls ziehen, oder ihn ganz, um einen anderen zu probieren.</translation>
    </message>
    <message>
        <source>Day</source>
        <translation>Tag</translation>
    </message>
    <message>
        <source>Line</source>
        <translation>Leitung</translation>
    </message>
    <message>
        <source>Newest copy gets old (h)</source>
        <translation>Neueste Kopie wird so alt (h)</translation>
    </message>
    <message>
        <source>Waiting at its end (%1)</source>
        <translation>Wartet an seinem Ende (%1)</translation>
    </message>
    <message>
        <source>19 in 20 times at most (%1)</source>
        <translation>19 von 20 Mal höchstens (%1)</translation>
    </message>
    <message>
        <source>down</source>
        <translation>ausgefallen</translation>
    </message>
    <message>
        <source>up</source>
        <translation>da</translation>
    </message>
</context>
<context>
    <name>ullage::ReadChart</name>
    <message>
        <source>Read: %1</source>
        <translation>Abgelesen: %1</translation>
    </message>
</context>
<context>
    <name>ullage::ReportPage</name>
    <message>
        <source>Save as &amp;PDF…</source>
        <translation>Als &amp;PDF speichern …</translation>
    </message>
    <message>
        <source>Save as &amp;web page…</source>
        <translation>Als &amp;Webseite speichern …</translation>
    </message>
    <message>
        <source>&amp;Logo…</source>
        <translation>&amp;Logo …</translation>
    </message>
    <message>
        <source>A PNG or JPEG for the first page; none takes it away</source>
        <translation>PNG oder JPEG für die erste Seite; ohne Auswahl wird es entfernt</translation>
    </message>
    <message>
        <source>Pa&amp;per</source>
        <translation>Pa&amp;pier</translation>
    </message>
    <message>
        <source>A4</source>
        <translation>A4</translation>
    </message>
    <message>
        <source>Letter</source>
        <translation>Letter</translation>
    </message>
    <message>
        <source>The pages that a client gets appear here.</source>
        <translation>Hier erscheinen die Seiten, die der Kunde bekommt.</translation>
    </message>
    <message>
        <source>Working out the forecast…</source>
        <translation>Die Vorhersage wird berechnet …</translation>
    </message>
    <message>
        <source>No forecast</source>
        <translation>Keine Vorhersage</translation>
    </message>
    <message>
        <source>The calculation failed. What to mend is said below.</source>
        <translation>Die Berechnung ist fehlgeschlagen. Was zu ändern ist, steht unten.</translation>
    </message>
    <message>
        <source>The calculation was cancelled.</source>
        <translation>Die Berechnung wurde abgebrochen.</translation>
    </message>
    <message>
        <source>No answer yet</source>
        <translation>Noch keine Antwort</translation>
    </message>
    <message>
        <source>%1 was saved.</source>
        <translation>%1 wurde gespeichert.</translation>
    </message>
    <message>
        <source>%1 was not saved: %2.</source>
        <translation>%1 wurde nicht gespeichert: %2.</translation>
    </message>
    <message>
        <source>%1 is no logo: %2.</source>
        <translation>%1 ist kein Logo: %2.</translation>
    </message>
    <message>
        <source>it is empty</source>
        <translation>die Datei ist leer</translation>
    </message>
    <message>
        <source>PDF (*.pdf)</source>
        <translation>PDF (*.pdf)</translation>
    </message>
    <message>
        <source>Web pages (*.html)</source>
        <translation>Webseiten (*.html)</translation>
    </message>
    <message>
        <source>Save the report</source>
        <translation>Bericht speichern</translation>
    </message>
    <message>
        <source>report</source>
        <translation>Bericht</translation>
    </message>
    <message>
        <source>A logo for the first page</source>
        <translation>Ein Logo für die erste Seite</translation>
    </message>
    <message>
        <source>Pictures (*.png *.jpg *.jpeg)</source>
        <translation>Bilder (*.png *.jpg *.jpeg)</translation>
    </message>
    <message>
        <source>La&amp;nguage</source>
        <translation>&amp;Sprache</translation>
    </message>
</context>
<context>
    <name>ullage::ReportPreview</name>
    <message>
        <source>%1 pages. </source>
        <translation>%1 Seiten. </translation>
    </message>
    <message>
        <source>Preview of the report</source>
        <translation>Vorschau des Berichts</translation>
    </message>
</context>
<context>
    <name>ullage::Scale</name>
    <message>
        <source>1 d</source>
        <translation>1 T</translation>
    </message>
    <message>
        <source>1 y</source>
        <translation>1 J</translation>
    </message>
    <message>
        <source>1 month</source>
        <translation>1 Monat</translation>
    </message>
    <message>
        <source>1 h</source>
        <translation>1 h</translation>
    </message>
    <message>
        <source>5 y</source>
        <translation>5 J</translation>
    </message>
    <message>
        <source>1 w</source>
        <translation>1 W</translation>
    </message>
</context>
<context>
    <name>ullage::SendPictures</name>
    <message>
        <source>not within the horizon</source>
        <translation>nicht innerhalb des Horizonts</translation>
    </message>
    <message>
        <source>no run is late</source>
        <translation>kein Lauf ist zu spät</translation>
    </message>
    <message>
        <source>every run is late</source>
        <translation>jeder Lauf ist zu spät</translation>
    </message>
    <message>
        <source>%1 runs are late</source>
        <translation>zu späte Läufe: %1</translation>
    </message>
    <message>
        <source>Over the line</source>
        <translation>Über die Leitung</translation>
    </message>
    <message>
        <source>not within %1</source>
        <translation>nicht innerhalb des Horizonts (%1)</translation>
    </message>
    <message>
        <source>Over the line the copy is not complete within %1.</source>
        <translation>Über die Leitung ist die Kopie nicht innerhalb des Horizonts (%1) vollständig.</translation>
    </message>
    <message>
        <source>complete after %1, in step not within %2</source>
        <translation>vollständig: %1, im Takt nicht innerhalb des Horizonts (%2)</translation>
    </message>
    <message>
        <source>Over the line the copy is complete after %1; the runs that queued behind it are not done within %2.</source>
        <translation>Über die Leitung vollständig, Dauer: %1; die Läufe, die dahinter warten, werden nicht innerhalb des Horizonts (%2) fertig.</translation>
    </message>
    <message>
        <source>complete after %1, in step after %2</source>
        <translation>vollständig: %1, im Takt: %2</translation>
    </message>
    <message>
        <source>Over the line the copy is complete after %1, and the runs that queued behind it are done after %2.</source>
        <translation>Über die Leitung vollständig, Dauer: %1; bis die Läufe fertig sind, die dahinter warten: %2.</translation>
    </message>
    <message>
        <source>Carried by hand</source>
        <translation>Von Hand transportiert</translation>
    </message>
    <message>
        <source>in step after %1</source>
        <translation>im Takt: %1</translation>
    </message>
    <message>
        <source>in step not within %1</source>
        <translation>im Takt nicht innerhalb des Horizonts (%1)</translation>
    </message>
    <message>
        <source>By hand: copying takes %1, the road %2, and what was written meanwhile has caught up after %3.</source>
        <translation>Von Hand: Das Kopieren dauert %1, der Weg %2; bis aufgeholt ist, was inzwischen geschrieben wurde: %3.</translation>
    </message>
    <message>
        <source>By hand: copying takes %1, the road %2; what was written meanwhile has not caught up within %3.</source>
        <translation>Von Hand: Das Kopieren dauert %1, der Weg %2; was inzwischen geschrieben wurde, ist nicht innerhalb des Horizonts (%3) aufgeholt.</translation>
    </message>
    <message>
        <source>Carry the first copy (%1) by hand: that is the sooner way</source>
        <translation>Die Erstkopie (%1) von Hand transportieren: Das ist der schnellere Weg</translation>
    </message>
    <message>
        <source>Send the first copy (%1) over the line: that is the sooner way</source>
        <translation>Die Erstkopie (%1) über die Leitung übertragen: Das ist der schnellere Weg</translation>
    </message>
    <message>
        <source>copying</source>
        <translation>Kopieren</translation>
    </message>
    <message>
        <source>on the road</source>
        <translation>unterwegs</translation>
    </message>
    <message>
        <source>catching up</source>
        <translation>Aufholen</translation>
    </message>
    <message>
        <source>From %1 on, carrying is sooner, with the same changes a day.</source>
        <translation>Ab %1 geht der Transport schneller, bei gleichen Änderungen am Tag.</translation>
    </message>
    <message>
        <source>Over this line no size is so large that carrying would be sooner.</source>
        <translation>Über diese Leitung ist keine Größe so groß, dass der Transport schneller wäre.</translation>
    </message>
    <message>
        <source>Over the line it takes so long that %1 lets go of the snapshot that it starts from; hold the last sent snapshot back.</source>
        <translation>Über die Leitung dauert es so lange, dass %1 den Snapshot verwirft, von dem sie ausgeht; den zuletzt übertragenen Snapshot zurückhalten.</translation>
    </message>
    <message>
        <source>By hand it takes so long that %1 lets go of the snapshot that it starts from; hold the last sent snapshot back.</source>
        <translation>Von Hand dauert es so lange, dass %1 den Snapshot verwirft, von dem sie ausgeht; den zuletzt übertragenen Snapshot zurückhalten.</translation>
    </message>
    <message>
        <source>Way</source>
        <translation>Weg</translation>
    </message>
    <message>
        <source>Copying (days)</source>
        <translation>Kopieren (Tage)</translation>
    </message>
    <message>
        <source>On the road (days)</source>
        <translation>Unterwegs (Tage)</translation>
    </message>
    <message>
        <source>Complete, and in step (days)</source>
        <translation>Vollständig und im Takt (Tage)</translation>
    </message>
    <message>
        <source>over the line</source>
        <translation>über die Leitung</translation>
    </message>
    <message>
        <source>by hand</source>
        <translation>von Hand</translation>
    </message>
    <message>
        <source>Everything</source>
        <translation>Alles</translation>
    </message>
    <message>
        <source>“%1”</source>
        <translation>„%1“</translation>
    </message>
    <message>
        <source>%1, over the line</source>
        <comment>what is restored</comment>
        <translation>%1, über die Leitung</translation>
    </message>
    <message>
        <source>%1; 9 in 10 within %2; %3 binds</source>
        <translation>%1; 9 von 10 höchstens %2; es begrenzt: %3</translation>
    </message>
    <message>
        <source>%1 (%2) over the line&apos;s other direction: %3 or less in half of all cases, 9 in 10 within %4; %5 binds.</source>
        <translation>%1 (%2) in der Gegenrichtung der Leitung: %3 oder weniger in der Hälfte aller Fälle, 9 von 10 höchstens %4; es begrenzt: %5.</translation>
    </message>
    <message>
        <source>%1, by fetching the box</source>
        <comment>what is restored</comment>
        <translation>%1, durch Abholen der Box</translation>
    </message>
    <message>
        <source>%1; %2 takes longest</source>
        <translation>%1; am längsten dauert: %2</translation>
    </message>
    <message>
        <source>the road</source>
        <translation>der Weg</translation>
    </message>
    <message>
        <source>the copying</source>
        <translation>das Kopieren</translation>
    </message>
    <message>
        <source>%1 by fetching the box and copying it beside the source: %2; %3 takes longest.</source>
        <translation>%1 durch Abholen der Box und Kopieren neben der Quelle: %2; am längsten dauert: %3.</translation>
    </message>
    <message>
        <source>Everything is back in %1, over the line</source>
        <translation>Alles zurück über die Leitung: %1</translation>
    </message>
    <message>
        <source>Everything is back in %1 by fetching the box; over the line in %2</source>
        <translation>Alles zurück durch Abholen der Box: %1; über die Leitung: %2</translation>
    </message>
    <message>
        <source>over the line, middle</source>
        <translation>über die Leitung, Mitte</translation>
    </message>
    <message>
        <source>on to 9 in 10</source>
        <translation>bis 9 von 10</translation>
    </message>
    <message>
        <source>fetching the box, middle</source>
        <translation>Abholen der Box, Mitte</translation>
    </message>
    <message>
        <source>The sooner way stands out. Of what there is a year from now, or at the end of the forecast; the line&apos;s other direction counts as always open and free for it.</source>
        <translation>Der schnellere Weg ist hervorgehoben. Gemeint ist, was in einem Jahr da ist, oder am Ende der Vorhersage; die Gegenrichtung der Leitung gilt dafür als immer offen und frei.</translation>
    </message>
    <message>
        <source>What</source>
        <translation>Was</translation>
    </message>
    <message>
        <source>Size (%1)</source>
        <translation>Umfang (%1)</translation>
    </message>
    <message>
        <source>Over the line, half of all cases (h)</source>
        <translation>Über die Leitung, die Hälfte aller Fälle (h)</translation>
    </message>
    <message>
        <source>9 in 10 within (h)</source>
        <translation>9 von 10 höchstens (h)</translation>
    </message>
    <message>
        <source>What binds</source>
        <translation>Was begrenzt</translation>
    </message>
    <message>
        <source>Fetching the box (h)</source>
        <translation>Abholen der Box (h)</translation>
    </message>
    <message>
        <source>What takes longest</source>
        <translation>Was am längsten dauert</translation>
    </message>
    <message>
        <source>everything</source>
        <translation>alles</translation>
    </message>
    <message>
        <source>%1 · %2 of its open hours, 19 in 20 at most %3</source>
        <translation>%1 · %2 der offenen Stunden, 19 von 20 höchstens %3</translation>
    </message>
    <message>
        <source>Runs that start on a %1 carry %2 in %3 (19 in 20 at most %4) and use %5 of the hours open to them (19 in 20 at most %6); %7.</source>
        <translation>Läufe, die am %1 beginnen, übertragen %2 in %3 (19 von 20 höchstens %4) und brauchen %5 der Stunden, die ihnen offenstehen (19 von 20 höchstens %6); %7.</translation>
    </message>
    <message>
        <source>On every weekday all runs are in time; %1 is the fullest</source>
        <translation>An jedem Wochentag sind alle Läufe rechtzeitig; am vollsten ist der %1</translation>
    </message>
    <message>
        <source>On %1 all runs are in time</source>
        <translation>Am %1 sind alle Läufe rechtzeitig</translation>
    </message>
    <message>
        <source>%1 is the worst weekday: %2</source>
        <translation>Am schlechtesten ist der %1: %2</translation>
    </message>
    <message>
        <source>On %1 %2</source>
        <translation>Am %1: %2</translation>
    </message>
    <message>
        <source>share of its open hours, half of the runs</source>
        <translation>Anteil der offenen Stunden, die Hälfte der Läufe</translation>
    </message>
    <message>
        <source>on to 19 in 20</source>
        <translation>bis 19 von 20</translation>
    </message>
    <message>
        <source>How much of the hours open to a run is used until it is done, by the weekday on which it starts, over all weeks. At 100 % there is no hour to spare.</source>
        <translation>Wie viel von den Stunden, die einem Lauf offenstehen, bis zu seinem Ende gebraucht wird, nach dem Wochentag des Beginns, über alle Wochen. Bei 100 % bleibt keine Stunde übrig.</translation>
    </message>
    <message>
        <source>Weekday</source>
        <translation>Wochentag</translation>
    </message>
    <message>
        <source>Late (%)</source>
        <translation>Zu spät (%)</translation>
    </message>
    <message>
        <source>Open hours used, half of the runs (%)</source>
        <translation>Gebrauchte offene Stunden, die Hälfte der Läufe (%)</translation>
    </message>
    <message>
        <source>Open hours used, 19 in 20 (%)</source>
        <translation>Gebrauchte offene Stunden, 19 von 20 (%)</translation>
    </message>
    <message>
        <source>Half of the runs (%1)</source>
        <translation>Die Hälfte der Läufe (%1)</translation>
    </message>
    <message>
        <source>19 in 20 (%1)</source>
        <translation>19 von 20 (%1)</translation>
    </message>
    <message>
        <source>Half of the runs (h)</source>
        <translation>Die Hälfte der Läufe (h)</translation>
    </message>
    <message>
        <source>19 in 20 (h)</source>
        <translation>19 von 20 (h)</translation>
    </message>
    <message>
        <source>It never gets behind: nothing is left when a run&apos;s window closes.</source>
        <translation>Es gibt nie einen Rückstand: Am Ende des Zeitfensters eines Laufs ist nichts übrig.</translation>
    </message>
    <message>
        <source>less than once a year</source>
        <translation>seltener als einmal im Jahr</translation>
    </message>
    <message numerus="yes">
        <source>about %n time(s) a year</source>
        <translation>
            <numerusform>etwa %n Mal im Jahr</numerusform>
            <numerusform>etwa %n Mal im Jahr</numerusform>
        </translation>
    </message>
    <message>
        <source>It gets behind %1. Usually %2 are then left when its window closes, at most %3; it has caught up after %4, at worst after %5.</source>
        <translation>Rückstand entsteht %1. Meist sind dann %2 übrig, höchstens %3; bis er aufgeholt ist, dauert es %4, schlimmstenfalls %5.</translation>
    </message>
    <message>
        <source>On %1 “%2” %3. That run carries %4 in %5 and takes %6; %7.</source>
        <translation>Am %1: „%2“ %3. Dieser Lauf überträgt %4 in %5 und nimmt in Anspruch: %6; %7.</translation>
    </message>
    <message numerus="yes">
        <source>the time of %n run(s)</source>
        <translation>
            <numerusform>die Zeit von %n Lauf</numerusform>
            <numerusform>die Zeit von %n Läufen</numerusform>
        </translation>
    </message>
    <message>
        <source>it is always in time</source>
        <translation>er ist immer rechtzeitig</translation>
    </message>
    <message>
        <source>it is never in time</source>
        <translation>er ist nie rechtzeitig</translation>
    </message>
    <message>
        <source>it is in time in %1 futures</source>
        <translation>rechtzeitig in %1 Verläufen</translation>
    </message>
</context>
<context>
    <name>ullage::SpaceChart</name>
    <message>
        <source>Where the space goes</source>
        <translation>Wohin der Platz geht</translation>
    </message>
    <message>
        <source>Nothing computed yet.</source>
        <translation>Noch nichts berechnet.</translation>
    </message>
    <message>
        <source>%1 %2</source>
        <comment>sign, size</comment>
        <translation>%1 %2</translation>
    </message>
    <message>
        <source>Yours</source>
        <translation>Nutzbar</translation>
    </message>
    <message>
        <source>Yours, below the ceiling: %1, %2 of what the labels say.</source>
        <translation>Nutzbar, unter der Füllgrenze: %1, das sind %2 dessen, was die Etiketten sagen.</translation>
    </message>
</context>
<context>
    <name>ullage::SpanBars</name>
    <message>
        <source>Nothing computed yet.</source>
        <translation>Noch nichts berechnet.</translation>
    </message>
</context>
<context>
    <name>ullage::State</name>
    <message>
        <source>Updating…</source>
        <translation>Wird aktualisiert …</translation>
    </message>
    <message>
        <source>Out of date: cancelled</source>
        <translation>Veraltet: abgebrochen</translation>
    </message>
    <message>
        <source>Out of date: the calculation failed</source>
        <translation>Veraltet: die Berechnung ist fehlgeschlagen</translation>
    </message>
</context>
<context>
    <name>ullage::Status</name>
    <message>
        <source>Fits</source>
        <translation>Passt</translation>
    </message>
    <message>
        <source>Tight</source>
        <translation>Knapp</translation>
    </message>
    <message>
        <source>Overruns</source>
        <translation>Reicht nicht</translation>
    </message>
    <message>
        <source>Note</source>
        <translation>Hinweis</translation>
    </message>
</context>
<context>
    <name>ullage::SurePage</name>
    <message>
        <source>&amp;Dataset</source>
        <translation>&amp;Datensatz</translation>
    </message>
    <message>
        <source>&amp;Box</source>
        <translation>&amp;Box</translation>
    </message>
    <message>
        <source>What was not measured</source>
        <translation>Was nicht gemessen wurde</translation>
    </message>
    <message>
        <source>What the forecast rests on, how earlier ones fared, and what it depends on most appears here.</source>
        <translation>Worauf die Vorhersage beruht, wie es früheren erging und wovon sie am meisten abhängt, erscheint hier.</translation>
    </message>
    <message>
        <source>Working out the forecast…</source>
        <translation>Die Vorhersage wird berechnet …</translation>
    </message>
    <message>
        <source>No forecast</source>
        <translation>Keine Vorhersage</translation>
    </message>
    <message>
        <source>The calculation failed. What to mend is said below.</source>
        <translation>Die Berechnung ist fehlgeschlagen. Was zu ändern ist, steht unten.</translation>
    </message>
    <message>
        <source>The calculation was cancelled.</source>
        <translation>Die Berechnung wurde abgebrochen.</translation>
    </message>
    <message>
        <source>No answer yet</source>
        <translation>Noch keine Antwort</translation>
    </message>
    <message>
        <source>Nothing is forecast yet</source>
        <translation>Noch wird nichts vorhergesagt</translation>
    </message>
    <message>
        <source>Add a dataset, and what is known of its changes appears here.</source>
        <translation>Einen Datensatz hinzufügen, dann erscheint hier, was von seinen Änderungen bekannt ist.</translation>
    </message>
    <message>
        <source>“%1”: %2</source>
        <comment>dataset, sentence</comment>
        <translation>„%1“: %2</translation>
    </message>
    <message>
        <source>There is no dataset of which something could be assumed.</source>
        <translation>Es gibt keinen Datensatz, von dem etwas anzunehmen wäre.</translation>
    </message>
    <message>
        <source>Taken instead of a measurement. Choose one to go to its dataset.</source>
        <translation>Statt einer Messung angenommen. Auswählen, um zum Datensatz zu gehen.</translation>
    </message>
</context>
<context>
    <name>ullage::SureTables</name>
    <message>
        <source>What</source>
        <translation>Was</translation>
    </message>
    <message>
        <source>After (days)</source>
        <translation>Nach (Tage)</translation>
    </message>
    <message>
        <source>1 in 10 below (%1)</source>
        <translation>1 von 10 darunter (%1)</translation>
    </message>
    <message>
        <source>Middle, or mean (%1)</source>
        <translation>Mitte oder Mittel (%1)</translation>
    </message>
    <message>
        <source>1 in 10 above (%1)</source>
        <translation>1 von 10 darüber (%1)</translation>
    </message>
    <message>
        <source>Steps</source>
        <translation>Schritte</translation>
    </message>
    <message>
        <source>measured</source>
        <translation>gemessen</translation>
    </message>
    <message>
        <source>curve, assumed</source>
        <translation>Kurve, angenommen</translation>
    </message>
    <message>
        <source>curve</source>
        <translation>Kurve</translation>
    </message>
    <message>
        <source>curve, extrapolated</source>
        <translation>Kurve, hochgerechnet</translation>
    </message>
    <message>
        <source>Made</source>
        <translation>Gemacht</translation>
    </message>
    <message>
        <source>From snapshots</source>
        <translation>Aus Snapshots</translation>
    </message>
    <message>
        <source>For</source>
        <translation>Für</translation>
    </message>
    <message>
        <source>Days ahead</source>
        <translation>Tage voraus</translation>
    </message>
    <message>
        <source>Middle (%1)</source>
        <translation>Mitte (%1)</translation>
    </message>
    <message>
        <source>Came (%1)</source>
        <translation>Eingetreten (%1)</translation>
    </message>
    <message>
        <source>Within the band</source>
        <translation>Im Band</translation>
    </message>
    <message>
        <source>yes</source>
        <translation>ja</translation>
    </message>
    <message>
        <source>no</source>
        <translation>nein</translation>
    </message>
    <message>
        <source>Input</source>
        <translation>Größe</translation>
    </message>
    <message>
        <source>Days until the ceiling, input low</source>
        <translation>Tage bis zur Füllgrenze, Größe niedrig</translation>
    </message>
    <message>
        <source>Days until the ceiling, input high</source>
        <translation>Tage bis zur Füllgrenze, Größe hoch</translation>
    </message>
    <message>
        <source>Share of the spread (%)</source>
        <translation>Anteil an der Streuung (%)</translation>
    </message>
    <message>
        <source>not within the horizon</source>
        <translation>nicht innerhalb des Horizonts</translation>
    </message>
</context>
<context>
    <name>ullage::SureText</name>
    <message numerus="yes">
        <source>%1 day(s)</source>
        <translation>
            <numerusform>%1 Tag</numerusform>
            <numerusform>%1 Tage</numerusform>
        </translation>
    </message>
    <message>
        <source>assumed, not measured</source>
        <translation>angenommen, nicht gemessen</translation>
    </message>
    <message>
        <source>nothing measured between snapshots</source>
        <translation>nichts zwischen Snapshots gemessen</translation>
    </message>
    <message>
        <source>measured up to %1</source>
        <translation>gemessen bis %1</translation>
    </message>
    <message>
        <source>No turnover curve of “%1”</source>
        <translation>Keine Umschlagkurve von „%1“</translation>
    </message>
    <message>
        <source>What “%1” freed between its snapshots; %2</source>
        <translation>Was „%1“ zwischen seinen Snapshots freigab; %2</translation>
    </message>
    <message>
        <source>After %1 nothing of “%2” has been replaced; %3</source>
        <translation>Über %1 ist nichts von „%2“ ersetzt; %3</translation>
    </message>
    <message>
        <source>After %1 about %2 of “%3” are taken to have been replaced; nothing was measured</source>
        <translation>Über %1 gelten etwa %2 von „%3“ als ersetzt; nichts wurde gemessen</translation>
    </message>
    <message>
        <source>After %1 about %2 of “%3” have been replaced; %4</source>
        <translation>Über %1 sind etwa %2 von „%3“ ersetzt; %4</translation>
    </message>
    <message>
        <source>No listing: nothing was measured of “%1”, and no curve was worked out.</source>
        <translation>Keine Liste: Von „%1“ wurde nichts gemessen und keine Kurve berechnet.</translation>
    </message>
    <message>
        <source>Its listing shows gaps of up to %1, but no curve was worked out.</source>
        <translation>Die Liste zeigt Abstände bis %1, aber keine Kurve wurde berechnet.</translation>
    </message>
    <message>
        <source>Its listing shows no two snapshots between which something could be counted.</source>
        <translation>Die Liste zeigt keine zwei Snapshots, zwischen denen etwas zu zählen wäre.</translation>
    </message>
    <message>
        <source>Measured once over %1: %2 freed.</source>
        <translation>Einmal über %1 gemessen: %2 frei.</translation>
    </message>
    <message>
        <source>Measured %1 times over %2: %3 freed on average, 8 in 10 times between %4 and %5.</source>
        <translation>%1 Mal über %2 gemessen: im Mittel %3 frei, 8 von 10 Mal zwischen %4 und %5.</translation>
    </message>
    <message>
        <source>Curve, after %1: in the middle %2 replaced, 8 in 10 times between %3 and %4.</source>
        <translation>Kurve, Abstand %1: in der Mitte %2 ersetzt, 8 von 10 Mal zwischen %3 und %4.</translation>
    </message>
    <message>
        <source>Assumed.</source>
        <translation>Angenommen.</translation>
    </message>
    <message>
        <source>Extrapolated.</source>
        <translation>Hochgerechnet.</translation>
    </message>
    <message>
        <source>No curve was worked out.</source>
        <translation>Keine Kurve wurde berechnet.</translation>
    </message>
    <message>
        <source>No listing: nothing was measured of “%1”; all of the curve is assumed from the figures given.</source>
        <translation>Keine Liste: Von „%1“ wurde nichts gemessen; die ganze Kurve ist aus den Angaben angenommen.</translation>
    </message>
    <message>
        <source>No curve was worked out; only what was measured is shown.</source>
        <translation>Keine Kurve wurde berechnet; gezeigt ist nur, was gemessen wurde.</translation>
    </message>
    <message>
        <source>The listing shows no gap between snapshots: all of the curve is extrapolated.</source>
        <translation>Die Liste zeigt keinen Abstand zwischen Snapshots: Die ganze Kurve ist hochgerechnet.</translation>
    </message>
    <message>
        <source>Below %1 and beyond %2 nothing was measured: there the curve is extrapolated.</source>
        <translation>Unter %1 und über %2 wurde nichts gemessen: Dort ist die Kurve hochgerechnet.</translation>
    </message>
    <message>
        <source>Beyond %1 nothing was measured: there the curve is extrapolated.</source>
        <translation>Über %1 wurde nichts gemessen: Dort ist die Kurve hochgerechnet.</translation>
    </message>
    <message>
        <source>Across: time from one snapshot to a later one. Up: bytes of the first that the later one no longer holds. Both scales grow by factors. Point at a chart, or use the arrow keys on it, to read its values.</source>
        <translation>Waagerecht: Zeit von einem Snapshot zu einem späteren. Senkrecht: Bytes des ersten, die der spätere nicht mehr hält. Beide Achsen wachsen in Faktoren. Auf ein Bild zeigen oder darin die Pfeiltasten benutzen, um Werte abzulesen.</translation>
    </message>
    <message>
        <source>No earlier forecast of “%1”</source>
        <translation>Keine frühere Vorhersage von „%1“</translation>
    </message>
    <message>
        <source>No earlier forecast of the live bytes of “%1”</source>
        <translation>Keine frühere Vorhersage der aktuellen Bytes von „%1“</translation>
    </message>
    <message>
        <source>No earlier forecast of what “%1” frees</source>
        <translation>Keine frühere Vorhersage dessen, was „%1“ freigibt</translation>
    </message>
    <message>
        <source>Live bytes of “%1”: %2 of %3 that came lay within the forecast&apos;s 80 % band</source>
        <translation>Aktuelle Bytes von „%1“: %2 von %3 eingetretenen lagen im 80-%-Band der Vorhersage</translation>
    </message>
    <message>
        <source>Freed bytes of “%1”: %2 of %3 that came lay within the forecast&apos;s 80 % band</source>
        <translation>Freigegebene Bytes von „%1“: %2 von %3 eingetretenen lagen im 80-%-Band der Vorhersage</translation>
    </message>
    <message>
        <source>No forecast was made from an earlier date of “%1”: that takes a listing long enough to hold what came after it.</source>
        <translation>Von einem früheren Datum aus wurde „%1“ nicht vorhergesagt: Dafür muss eine Liste lang genug sein, um zu halten, was danach kam.</translation>
    </message>
    <message>
        <source>No listing: nothing was measured of “%1”, so there is no past to try a forecast on.</source>
        <translation>Keine Liste: Von „%1“ wurde nichts gemessen, also gibt es keine Vergangenheit, an der sich eine Vorhersage prüfen ließe.</translation>
    </message>
    <message>
        <source>made %1</source>
        <comment>a forecast, date</comment>
        <translation>gemacht %1</translation>
    </message>
    <message numerus="yes">
        <source>from %n snapshot(s)</source>
        <translation>
            <numerusform>aus %n Snapshot</numerusform>
            <numerusform>aus %n Snapshots</numerusform>
        </translation>
    </message>
    <message>
        <source>within the band</source>
        <translation>im Band</translation>
    </message>
    <message>
        <source>below the band</source>
        <translation>unter dem Band</translation>
    </message>
    <message>
        <source>above the band</source>
        <translation>über dem Band</translation>
    </message>
    <message>
        <source>Forecast made %1 for %2, %3 ahead: %4, 8 in 10 times between %5 and %6. Came: %7, %8.</source>
        <translation>Vorhersage vom %1 für %2, %3 voraus: %4, 8 von 10 Mal zwischen %5 und %6. Eingetreten: %7, %8.</translation>
    </message>
    <message>
        <source>Across: time since the forecast was made. Up: change since then.</source>
        <translation>Waagerecht: Zeit seit der Vorhersage. Senkrecht: Änderung seither.</translation>
    </message>
    <message>
        <source>Across: time since the forecast was made. Up: freed since then.</source>
        <translation>Waagerecht: Zeit seit der Vorhersage. Senkrecht: seither frei geworden.</translation>
    </message>
    <message>
        <source>At the last snapshot that each forecast reaches, half of them are off by less than %1 of what came.</source>
        <translation>Beim letzten Snapshot, den jede Vorhersage erreicht, liegt die Hälfte um weniger als %1 des Eingetretenen daneben.</translation>
    </message>
    <message>
        <source>Snapshots thinned since could not be measured, so these forecasts had less to go by than one made on that day.</source>
        <translation>Seither ausgedünnte Snapshots ließen sich nicht messen; diese Vorhersagen hatten also weniger in der Hand als eine an jenem Tag.</translation>
    </message>
    <message>
        <source>Nothing to rank for %1</source>
        <translation>Für %1 ist nichts zu ordnen</translation>
    </message>
    <message>
        <source>When %1 reaches its ceiling depends most on %2</source>
        <translation>Wann %1 die Füllgrenze erreicht, hängt am meisten ab von: %2</translation>
    </message>
    <message>
        <source>not within %1</source>
        <translation>nicht innerhalb des Horizonts (%1)</translation>
    </message>
    <message>
        <source>%1, or %2</source>
        <comment>time, &apos;not within 5 years&apos;</comment>
        <translation>%1, oder %2</translation>
    </message>
    <message>
        <source>%1 to %2</source>
        <comment>times</comment>
        <translation>%1 bis %2</translation>
    </message>
    <message>
        <source>the ceiling is reached in %1</source>
        <translation>Zeit bis zur Füllgrenze %1</translation>
    </message>
    <message>
        <source>the ceiling is not reached within %1</source>
        <translation>die Füllgrenze wird nicht innerhalb des Horizonts (%1) erreicht</translation>
    </message>
    <message>
        <source>%1: at its low value %2; at its high value %3. It makes %4 of the spread.</source>
        <translation>%1: beim niedrigen Wert: %2; beim hohen Wert: %3. Das macht %4 der Streuung.</translation>
    </message>
    <message>
        <source>%1 has reached its ceiling already: no day is left that could depend on anything.</source>
        <translation>%1 hat die Füllgrenze schon erreicht: Kein Tag ist mehr übrig, der von etwas abhängen könnte.</translation>
    </message>
    <message>
        <source>%1 stays below its ceiling for %2 in every future, so there is no day to explain.</source>
        <translation>%1 bleibt in jedem Verlauf %2 lang unter der Füllgrenze, also ist kein Tag zu erklären.</translation>
    </message>
    <message>
        <source>What the day depends on was not worked out for %1.</source>
        <translation>Wovon der Tag abhängt, wurde für %1 nicht berechnet.</translation>
    </message>
    <message>
        <source>In the middle forecast the ceiling is reached in %1.</source>
        <translation>In der mittleren Vorhersage dauert es bis zur Füllgrenze %1.</translation>
    </message>
    <message>
        <source>In the middle forecast the ceiling is not reached within %1.</source>
        <translation>In der mittleren Vorhersage wird die Füllgrenze nicht innerhalb des Horizonts (%1) erreicht.</translation>
    </message>
    <message>
        <source>Each bar: the day with this one input at its low value (1 in 10 lies below) and at its high value (1 in 10 lies above), all others at their middle. Share: how much of the spread over all futures goes with it.</source>
        <translation>Jeder Balken: der Tag, wenn diese eine Größe niedrig ist (1 von 10 liegt darunter) und wenn sie hoch ist (1 von 10 liegt darüber), alle anderen in der Mitte. Anteil: wie viel der Streuung aller Verläufe daran hängt.</translation>
    </message>
    <message>
        <source>“%1”: what happens beyond %2 was not measured but extrapolated.</source>
        <translation>„%1“: Was über %2 hinaus geschieht, ist nicht gemessen, sondern hochgerechnet.</translation>
    </message>
    <message>
        <source>“%1”: no listing, so nothing of its turnover was measured.</source>
        <translation>„%1“: keine Liste, also ist vom Umschlag nichts gemessen.</translation>
    </message>
    <message>
        <source>“%1”: its growth, forecast from earlier dates, missed by more than its spread allowed; so its bands were made %2 times as wide.</source>
        <translation>„%1“: Das Wachstum, von früheren Tagen aus vorhergesagt, lag weiter daneben, als seine Streuung erlaubt; deshalb sind die Bänder %2-mal so breit.</translation>
    </message>
</context>
<context>
    <name>ullage::TimeChart</name>
    <message>
        <source>%1 d</source>
        <comment>days</comment>
        <translation>%1 d</translation>
    </message>
    <message>
        <source>%1 min</source>
        <translation>%1 min</translation>
    </message>
    <message>
        <source>%1 h</source>
        <comment>hours</comment>
        <translation>%1 h</translation>
    </message>
    <message>
        <source>All dates</source>
        <translation>Alle Tage</translation>
    </message>
    <message>
        <source>Undoes the zooming (0)</source>
        <translation>Hebt die Vergrößerung auf (0)</translation>
    </message>
</context>
<context>
    <name>ullage::TurnoverChart</name>
    <message>
        <source>measured mean, 8 in 10 steps within</source>
        <translation>gemessenes Mittel, 8 von 10 Schritten darin</translation>
    </message>
    <message>
        <source>measured once</source>
        <translation>einmal gemessen</translation>
    </message>
    <message>
        <source>not measured: extrapolated</source>
        <translation>nicht gemessen: hochgerechnet</translation>
    </message>
    <message>
        <source>not measured: assumed</source>
        <translation>nicht gemessen: angenommen</translation>
    </message>
    <message>
        <source>Turnover curve</source>
        <translation>Umschlagkurve</translation>
    </message>
    <message>
        <source>Nothing computed yet.</source>
        <translation>Noch nichts berechnet.</translation>
    </message>
    <message>
        <source>1 in 10 above</source>
        <translation>1 von 10 darüber</translation>
    </message>
    <message>
        <source>middle</source>
        <translation>Mitte</translation>
    </message>
    <message>
        <source>1 in 10 below</source>
        <translation>1 von 10 darunter</translation>
    </message>
    <message>
        <source>measured</source>
        <translation>gemessen</translation>
    </message>
    <message>
        <source>extrapolated</source>
        <translation>hochgerechnet</translation>
    </message>
    <message>
        <source>assumed, not measured</source>
        <translation>angenommen, nicht gemessen</translation>
    </message>
</context>
<context>
    <name>ullage::WeekStrips</name>
    <message>
        <source>24:00</source>
        <comment>end of a day</comment>
        <translation>24:00</translation>
    </message>
    <message>
        <source>HH:mm</source>
        <comment>time of day</comment>
        <translation>HH:mm</translation>
    </message>
    <message>
        <source>%1 %2</source>
        <comment>weekday, time</comment>
        <translation>%1 %2</translation>
    </message>
    <message>
        <source>open hours, stronger for a larger share</source>
        <translation>offene Stunden, kräftiger bei größerem Anteil</translation>
    </message>
    <message>
        <source>run, middle forecast</source>
        <translation>Lauf, mittlere Vorhersage</translation>
    </message>
    <message>
        <source>to 19 in 20</source>
        <translation>bis 19 von 20</translation>
    </message>
    <message>
        <source>late</source>
        <translation>zu spät</translation>
    </message>
    <message>
        <source>%1: %2 in %3, done by %4; in 19 of 20 weeks by %5 (%6).</source>
        <translation>%1: %2 in %3, fertig um %4; in 19 von 20 Wochen bis %5 (%6).</translation>
    </message>
    <message>
        <source>Usually late: not done when its hours close or the next run is due.</source>
        <translation>Meist zu spät: nicht fertig, wenn die offenen Stunden enden oder der nächste Lauf fällig ist.</translation>
    </message>
    <message>
        <source>Sometimes late: the slowest runs are not done when their hours close or the next run is due.</source>
        <translation>Manchmal zu spät: Die langsamsten Läufe sind nicht fertig, wenn die offenen Stunden enden oder der nächste Lauf fällig ist.</translation>
    </message>
    <message>
        <source>The week of a send</source>
        <translation>Die Woche einer Übertragung</translation>
    </message>
    <message>
        <source>Nothing computed yet.</source>
        <translation>Noch nichts berechnet.</translation>
    </message>
    <message>
        <source>The link is never open.</source>
        <translation>Die Leitung ist nie offen.</translation>
    </message>
    <message>
        <source>Open %1 to %2 at %3 of the line.</source>
        <translation>Offen von %1 bis %2 mit %3 der Leitung.</translation>
    </message>
    <message>
        <source>the end of Sunday</source>
        <translation>Ende des Sonntags</translation>
    </message>
    <message>
        <source>No run in this week.</source>
        <translation>Kein Lauf in dieser Woche.</translation>
    </message>
    <message>
        <source>%1 runs, of which %2 are usually late.</source>
        <translation>%1 Läufe, davon meist zu spät: %2.</translation>
    </message>
    <message>
        <source>The week of %1</source>
        <translation>Die Woche von %1</translation>
    </message>
    <message>
        <source>Closed.</source>
        <translation>Geschlossen.</translation>
    </message>
</context>
<context>
    <name>ullage::Words</name>
    <message>
        <source>d MMM yyyy</source>
        <comment>date</comment>
        <translation>d. MMM yyyy</translation>
    </message>
    <message>
        <source>d MMM</source>
        <comment>day and month on an axis</comment>
        <translation>d. MMM</translation>
    </message>
    <message numerus="yes">
        <source>about %1 day(s)</source>
        <translation>
            <numerusform>etwa %1 Tag</numerusform>
            <numerusform>etwa %1 Tage</numerusform>
        </translation>
    </message>
    <message numerus="yes">
        <source>%1 day(s)</source>
        <translation>
            <numerusform>%1 Tag</numerusform>
            <numerusform>%1 Tage</numerusform>
        </translation>
    </message>
    <message numerus="yes">
        <source>about %1 month(s)</source>
        <translation>
            <numerusform>etwa %1 Monat</numerusform>
            <numerusform>etwa %1 Monate</numerusform>
        </translation>
    </message>
    <message numerus="yes">
        <source>%1 month(s)</source>
        <translation>
            <numerusform>%1 Monat</numerusform>
            <numerusform>%1 Monate</numerusform>
        </translation>
    </message>
    <message numerus="yes">
        <source>about %1 year(s)</source>
        <translation>
            <numerusform>etwa %1 Jahr</numerusform>
            <numerusform>etwa %1 Jahre</numerusform>
        </translation>
    </message>
    <message numerus="yes">
        <source>%1 year(s)</source>
        <translation>
            <numerusform>%1 Jahr</numerusform>
            <numerusform>%1 Jahre</numerusform>
        </translation>
    </message>
    <message numerus="yes">
        <source>%n year(s)</source>
        <translation>
            <numerusform>%n Jahr</numerusform>
            <numerusform>%n Jahre</numerusform>
        </translation>
    </message>
    <message numerus="yes">
        <source>%n day(s)</source>
        <translation>
            <numerusform>%n Tag</numerusform>
            <numerusform>%n Tage</numerusform>
        </translation>
    </message>
    <message numerus="yes">
        <source>%n month(s)</source>
        <translation>
            <numerusform>%n Monat</numerusform>
            <numerusform>%n Monate</numerusform>
        </translation>
    </message>
    <message>
        <source>under 1 min</source>
        <translation>unter 1 min</translation>
    </message>
    <message>
        <source>%1 min</source>
        <translation>%1 min</translation>
    </message>
    <message>
        <source>%1 h</source>
        <translation>%1 h</translation>
    </message>
    <message>
        <source>%1 d</source>
        <translation>%1 Tage</translation>
    </message>
    <message>
        <source>none</source>
        <translation>keine</translation>
    </message>
    <message>
        <source>all</source>
        <translation>alle</translation>
    </message>
    <message>
        <source>fewer than 1 in 100</source>
        <translation>weniger als 1 von 100</translation>
    </message>
    <message>
        <source>more than 99 in 100</source>
        <translation>mehr als 99 von 100</translation>
    </message>
    <message>
        <source>%1 in 100</source>
        <translation>%1 von 100</translation>
    </message>
    <message>
        <source>all futures drawn</source>
        <translation>allen gezogenen Verläufen</translation>
    </message>
    <message>
        <source>no future drawn</source>
        <translation>keinem gezogenen Verlauf</translation>
    </message>
    <message>
        <source>%1 of 10 futures</source>
        <translation>%1 von 10 Verläufen</translation>
    </message>
    <message>
        <source>%1 of futures</source>
        <comment>a percentage</comment>
        <translation>%1 der Verläufe</translation>
    </message>
    <message>
        <source>%1 (%2)</source>
        <comment>a size in two units</comment>
        <translation>%1 (%2)</translation>
    </message>
    <message>
        <source>MMM yyyy</source>
        <comment>month</comment>
        <translation>MMM yyyy</translation>
    </message>
</context>
<context>
    <name>ullage::ui::AboutDialog</name>
    <message>
        <source>About Ullage</source>
        <translation>Über Ullage</translation>
    </message>
    <message>
        <source>Ullage</source>
        <translation>Ullage</translation>
    </message>
    <message>
        <source>Version %1, with Qt %2</source>
        <translation>Version %1, mit Qt %2</translation>
    </message>
    <message>
        <source>Forecasts how full a copy-on-write storage box gets, when, and whether the line carries its copies.</source>
        <translation>Sagt vorher, wie voll eine Copy-on-Write-Speicherbox wird, wann, und ob die Leitung ihre Kopien schafft.</translation>
    </message>
    <message>
        <source>Free software under the GNU General Public License, version 3 or later (GPL-3.0-or-later). It comes without any warranty.</source>
        <translation>Freie Software unter der GNU General Public License, Version 3 oder neuer (GPL-3.0-or-later). Ohne jede Gewähr.</translation>
    </message>
    <message>
        <source>Before you rely on it</source>
        <translation>Vor dem Verlassen darauf</translation>
    </message>
    <message>
        <source>Built upon</source>
        <translation>Beruht auf</translation>
    </message>
</context>
<context>
    <name>ullage::ui::AnswerRunner</name>
    <message numerus="yes">
        <source>Not enough memory for %Ln futures.</source>
        <translation>
            <numerusform>Nicht genug Speicher für %Ln Verlauf.</numerusform>
            <numerusform>Nicht genug Speicher für %Ln Verläufe.</numerusform>
        </translation>
    </message>
    <message>
        <source>The calculation broke off: %1</source>
        <translation>Die Berechnung brach ab: %1</translation>
    </message>
</context>
<context>
    <name>ullage::ui::BoxForm</name>
    <message>
        <source>Box</source>
        <translation>Box</translation>
    </message>
    <message>
        <source>Name</source>
        <translation>Name</translation>
    </message>
    <message>
        <source>In service from</source>
        <translation>In Betrieb ab</translation>
    </message>
    <message>
        <source>already there</source>
        <translation>schon da</translation>
    </message>
    <message>
        <source>A date, such as 2026-12-01; empty: it is there already.</source>
        <translation>Ein Datum, etwa 2026-12-01; leer: schon da.</translation>
    </message>
    <message>
        <source>Size</source>
        <translation>Größe</translation>
    </message>
    <message>
        <source>unknown: not forecast</source>
        <translation>unbekannt: keine Vorhersage</translation>
    </message>
    <message>
        <source>Ceiling</source>
        <translation>Füllgrenze</translation>
    </message>
    <message>
        <source>The share of the usable size that it should not pass.</source>
        <translation>Der Anteil der nutzbaren Größe, der nicht überschritten werden soll.</translation>
    </message>
    <message>
        <source>Other data there</source>
        <translation>Andere Daten dort</translation>
    </message>
    <message>
        <source>none</source>
        <translation>keine</translation>
    </message>
    <message>
        <source>Stored there besides, and taken to stay as it is.</source>
        <translation>Außerdem dort gespeichert; bleibt nach Annahme, wie es ist.</translation>
    </message>
    <message>
        <source>Buying and speed</source>
        <translation>Kauf und Tempo</translation>
    </message>
    <message>
        <source>Lead time</source>
        <translation>Lieferzeit</translation>
    </message>
    <message>
        <source>From the order to the day it runs, such as 21 d.</source>
        <translation>Von der Bestellung bis zum Betrieb, etwa 21 d.</translation>
    </message>
    <message>
        <source>Disk rate</source>
        <translation>Rate der Laufwerke</translation>
    </message>
    <message>
        <source>no limit</source>
        <translation>ohne Grenze</translation>
    </message>
    <message>
        <source>What its drives read or write over hours, such as 180 MB/s.</source>
        <translation>Was die Laufwerke über Stunden lesen oder schreiben, etwa 180 MB/s.</translation>
    </message>
    <message>
        <source>Planned changes</source>
        <translation>Geplante Änderungen</translation>
    </message>
    <message>
        <source>Changes</source>
        <translation>Änderungen</translation>
    </message>
    <message>
        <source>None: it stays as it is.</source>
        <translation>Keine: Sie bleibt, wie sie ist.</translation>
    </message>
    <message>
        <source>Bays</source>
        <translation>Einschübe</translation>
    </message>
    <message>
        <source>How many drives go in; an offer with more does not.</source>
        <translation>Wie viele Laufwerke hineingehen; ein Angebot mit mehr passt nicht.</translation>
    </message>
    <message>
        <source>Power supply</source>
        <translation>Netzteil</translation>
    </message>
    <message>
        <source>What its supply gives, such as 250 W; an offer that draws more does not go in.</source>
        <translation>Was das Netzteil liefert, etwa 250 W; ein Angebot, das mehr aufnimmt, passt nicht.</translation>
    </message>
</context>
<context>
    <name>ullage::ui::DatasetForm</name>
    <message>
        <source>Dataset</source>
        <translation>Datensatz</translation>
    </message>
    <message>
        <source>Name</source>
        <translation>Name</translation>
    </message>
    <message>
        <source>Lives on</source>
        <translation>Liegt auf</translation>
    </message>
    <message>
        <source>no box of this site</source>
        <translation>keine Box dieses Standorts</translation>
    </message>
    <message>
        <source>Holds</source>
        <translation>Enthält</translation>
    </message>
    <message>
        <source>files</source>
        <translation>Dateien</translation>
    </message>
    <message>
        <source>a volume</source>
        <translation>ein Volume</translation>
    </message>
    <message>
        <source>Block size</source>
        <translation>Blockgröße</translation>
    </message>
    <message>
        <source>The largest block of a file, the exact block of a volume.</source>
        <translation>Der größte Block einer Datei, der genaue Block eines Volumes.</translation>
    </message>
    <message>
        <source>Size as stored</source>
        <translation>Gespeicherte Größe</translation>
    </message>
    <message>
        <source>Compressed, without snapshots. The size before compression follows from the ratio; a listing gives it too.</source>
        <translation>Komprimiert, ohne Snapshots. Die Größe vor der Kompression folgt aus dem Verhältnis; auch eine Liste gibt sie an.</translation>
    </message>
    <message>
        <source>or uncompressed</source>
        <translation>oder unkomprimiert</translation>
    </message>
    <message>
        <source>Before compression; typed instead of the size as stored.</source>
        <translation>Vor der Kompression; statt der gespeicherten Größe angegeben.</translation>
    </message>
    <message>
        <source>Compression ratio</source>
        <translation>Kompressionsverhältnis</translation>
    </message>
    <message>
        <source>Uncompressed size ÷ stored size, 1 or more.</source>
        <translation>Unkomprimierte Größe ÷ gespeicherte Größe, 1 oder mehr.</translation>
    </message>
    <message>
        <source>… its spread</source>
        <translation>… seine Streuung</translation>
    </message>
    <message>
        <source>Relative standard deviation: how far off the ratio may be.</source>
        <translation>Relative Standardabweichung: wie weit das Verhältnis danebenliegen kann.</translation>
    </message>
    <message>
        <source>Growth</source>
        <translation>Wachstum</translation>
    </message>
    <message>
        <source>In a year</source>
        <translation>Im Jahr</translation>
    </message>
    <message>
        <source>A size or a share of what is there, such as 1.6 TB or 20 %. May be negative.</source>
        <translation>Eine Größe oder ein Anteil am Bestand, etwa 1.6 TB oder 20 %. Darf negativ sein.</translation>
    </message>
    <message>
        <source>Relative standard deviation: how far off the figure may be.</source>
        <translation>Relative Standardabweichung: wie weit der Wert danebenliegen kann.</translation>
    </message>
    <message>
        <source>Change</source>
        <translation>Änderung</translation>
    </message>
    <message>
        <source>Written in a day</source>
        <translation>An einem Tag geschrieben</translation>
    </message>
    <message>
        <source>What a daily snapshot adds, growth included: a size or a share.</source>
        <translation>Was ein täglicher Snapshot hinzufügt, Wachstum eingeschlossen: eine Größe oder ein Anteil.</translation>
    </message>
    <message>
        <source>… in a week</source>
        <translation>… in einer Woche</translation>
    </message>
    <message>
        <source>What a weekly snapshot adds; less than seven days, since some blocks are written again.</source>
        <translation>Was ein wöchentlicher Snapshot hinzufügt; weniger als sieben Tage, weil manche Blöcke mehrmals geschrieben werden.</translation>
    </message>
    <message>
        <source>… in 30 days</source>
        <translation>… in 30 Tagen</translation>
    </message>
    <message>
        <source>Relative standard deviation: how far off the figures may be.</source>
        <translation>Relative Standardabweichung: wie weit die Werte danebenliegen können.</translation>
    </message>
    <message>
        <source>Shape of a week</source>
        <translation>Form einer Woche</translation>
    </message>
    <message>
        <source>Seven numbers, Monday first: how much is written on each day, relative.</source>
        <translation>Sieben Zahlen, Montag zuerst: wie viel an jedem Tag geschrieben wird, im Verhältnis.</translation>
    </message>
    <message>
        <source>Snapshots kept</source>
        <translation>Aufbewahrte Snapshots</translation>
    </message>
    <message>
        <source>Ladder</source>
        <translation>Vorhaltung</translation>
    </message>
    <message>
        <source>No snapshot is kept.</source>
        <translation>Kein Snapshot wird aufbewahrt.</translation>
    </message>
    <message>
        <source>Planned events</source>
        <translation>Geplante Ereignisse</translation>
    </message>
    <message>
        <source>Events</source>
        <translation>Ereignisse</translation>
    </message>
    <message>
        <source>On</source>
        <translation>Am</translation>
    </message>
    <message>
        <source>A date, such as 2027-03-01</source>
        <translation>Ein Datum, etwa 2027-03-01</translation>
    </message>
    <message>
        <source>What</source>
        <translation>Was</translation>
    </message>
    <message>
        <source>Size</source>
        <translation>Größe</translation>
    </message>
    <message>
        <source>such as 2.5 TB or 10 %</source>
        <translation>etwa 2.5 TB oder 10 %</translation>
    </message>
    <message>
        <source>Note</source>
        <translation>Bemerkung</translation>
    </message>
    <message>
        <source>None: nothing but steady growth.</source>
        <translation>Keine: nur stetiges Wachstum.</translation>
    </message>
    <message>
        <source>Measured</source>
        <translation>Gemessen</translation>
    </message>
    <message>
        <source>Snapshot listing</source>
        <translation>Liste der Snapshots</translation>
    </message>
    <message>
        <source>a file</source>
        <translation>eine Datei</translation>
    </message>
    <message>
        <source>Choose…</source>
        <translation>Wählen …</translation>
    </message>
    <message>
        <source>Choose a listing</source>
        <translation>Eine Liste wählen</translation>
    </message>
    <message>
        <source>Gives size, growth and change; what is typed above wins over it.</source>
        <translation>Gibt Größe, Wachstum und Änderung; was oben angegeben ist, geht vor.</translation>
    </message>
    <message>
        <source>… of dataset</source>
        <translation>… Datensatz darin</translation>
    </message>
    <message>
        <source>the same name, or the only one</source>
        <translation>derselbe Name, oder der einzige</translation>
    </message>
    <message>
        <source>Longer history</source>
        <translation>Längere Geschichte</translation>
    </message>
    <message>
        <source>Choose a history</source>
        <translation>Eine Geschichte wählen</translation>
    </message>
    <message>
        <source>Times and sizes over a longer while, for the growth.</source>
        <translation>Zeiten und Größen über längere Zeit, für das Wachstum.</translation>
    </message>
    <message>
        <source>… columns</source>
        <translation>… Spalten</translation>
    </message>
    <message>
        <source>as its first row says</source>
        <translation>wie ihre erste Zeile sagt</translation>
    </message>
    <message>
        <source>What each column is, in order: snapshot, taken, unique, live, written; - for one that is not used.</source>
        <translation>Was jede Spalte ist, der Reihe nach: snapshot, taken, unique, live, written; - für eine, die nicht gebraucht wird.</translation>
    </message>
    <message>
        <source>… bad lines</source>
        <translation>… schlechte Zeilen</translation>
    </message>
    <message>
        <source>are an error</source>
        <translation>sind ein Fehler</translation>
    </message>
    <message>
        <source>are left out</source>
        <translation>werden ausgelassen</translation>
    </message>
</context>
<context>
    <name>ullage::ui::Field</name>
    <message>
        <source>%1. %2</source>
        <comment>name of a field, then what it is for</comment>
        <translation>%1. %2</translation>
    </message>
</context>
<context>
    <name>ullage::ui::FindingsList</name>
    <message>
        <source>Findings</source>
        <translation>Befunde</translation>
    </message>
    <message>
        <source>Nothing to say yet.</source>
        <translation>Noch nichts zu sagen.</translation>
    </message>
</context>
<context>
    <name>ullage::ui::FindingsModel</name>
    <message>
        <source>%1: %2</source>
        <translation>%1: %2</translation>
    </message>
</context>
<context>
    <name>ullage::ui::Form</name>
    <message>
        <source>adds</source>
        <translation>nimmt auf</translation>
    </message>
    <message>
        <source>removes</source>
        <translation>gibt ab</translation>
    </message>
    <message>
        <source>rewrites</source>
        <translation>schreibt neu</translation>
    </message>
    <message>
        <source>moves</source>
        <translation>verschiebt</translation>
    </message>
    <message>
        <source>Fold or unfold</source>
        <translation>Ein- oder ausklappen</translation>
    </message>
    <message>
        <source>Row %1: %2</source>
        <translation>Zeile %1: %2</translation>
    </message>
    <message>
        <source>%1: %2</source>
        <translation>%1: %2</translation>
    </message>
    <message>
        <source>A snapshot every</source>
        <translation>Ein Snapshot alle</translation>
    </message>
    <message>
        <source>such as 1 h, 1 d, 1 w, 1 mo</source>
        <translation>etwa 1 h, 1 d, 1 w, 1 mo</translation>
    </message>
    <message>
        <source>Kept</source>
        <translation>Aufbewahrt</translation>
    </message>
    <message>
        <source>a count, such as 24, or a time, such as 26 w</source>
        <translation>eine Anzahl, etwa 24, oder eine Zeit, etwa 26 w</translation>
    </message>
    <message>
        <source>“%1” is neither a count, such as 24, nor a time, such as 26 w.</source>
        <translation>„%1“ ist weder eine Anzahl, etwa 24, noch eine Zeit, etwa 26 w.</translation>
    </message>
    <message>
        <source>none</source>
        <translation>keine</translation>
    </message>
    <message>
        <source>mirror of %1</source>
        <translation>Spiegel aus %1</translation>
    </message>
    <message>
        <source>parity of %1</source>
        <translation>Parität aus %1</translation>
    </message>
    <message>
        <source>Groups</source>
        <translation>Gruppen</translation>
    </message>
    <message>
        <source>how many are alike</source>
        <translation>wie viele gleiche</translation>
    </message>
    <message>
        <source>Drives</source>
        <translation>Laufwerke</translation>
    </message>
    <message>
        <source>in each group</source>
        <translation>in jeder Gruppe</translation>
    </message>
    <message>
        <source>Redundancy</source>
        <translation>Redundanz</translation>
    </message>
    <message>
        <source>Drive</source>
        <translation>Laufwerk</translation>
    </message>
    <message>
        <source>the size on its label, such as 16 TB</source>
        <translation>die Größe auf dem Etikett, etwa 16 TB</translation>
    </message>
    <message>
        <source>“%1” is not groups, such as 1 x 6 x 16 TB, parity-2.</source>
        <translation>„%1“ sind keine Gruppen, wie etwa 1 x 6 x 16 TB, parity-2.</translation>
    </message>
    <message>
        <source>On</source>
        <translation>Am</translation>
    </message>
    <message>
        <source>A date, such as 2027-06-01</source>
        <translation>Ein Datum, etwa 2027-06-01</translation>
    </message>
    <message>
        <source>What</source>
        <translation>Was</translation>
    </message>
    <message>
        <source>swaps</source>
        <translation>tauscht</translation>
    </message>
    <message>
        <source>widens</source>
        <translation>verbreitert</translation>
    </message>
    <message>
        <source>resizes</source>
        <translation>ändert die Größe</translation>
    </message>
    <message>
        <source>adds groups, swaps drives for larger ones, widens parity groups, or resizes what is usable</source>
        <translation>fügt Gruppen hinzu, tauscht Laufwerke gegen größere, verbreitert Paritätsgruppen oder ändert, was nutzbar ist</translation>
    </message>
    <message>
        <source>To</source>
        <translation>Auf</translation>
    </message>
    <message>
        <source>Groups such as 1 x 6 x 16 TB, parity-2; the new drive such as 20 TB; the number of drives in each wider group; the new usable size</source>
        <translation>Gruppen, etwa 1 x 6 x 16 TB, parity-2; das neue Laufwerk, etwa 20 TB; die Zahl der Laufwerke in jeder breiteren Gruppe; die neue nutzbare Größe</translation>
    </message>
    <message>
        <source>Set</source>
        <translation>Satz</translation>
    </message>
    <message>
        <source>Of larger drives and wider groups: 1 is the pool&apos;s first groups, 2 the first further ones, then those added, by date</source>
        <translation>Bei größeren Laufwerken und breiteren Gruppen: 1 sind die ersten Gruppen des Pools, 2 die ersten weiteren, dann die hinzugefügten, nach Datum</translation>
    </message>
    <message>
        <source>Note</source>
        <translation>Bemerkung</translation>
    </message>
    <message>
        <source>Only larger drives and wider groups are of a set.</source>
        <translation>Nur größere Laufwerke und breitere Gruppen gehören zu einem Satz.</translation>
    </message>
    <message>
        <source>Size from</source>
        <translation>Größe aus</translation>
    </message>
    <message>
        <source>its drives</source>
        <translation>ihren Laufwerken</translation>
    </message>
    <message>
        <source>a usable size</source>
        <translation>einer nutzbaren Größe</translation>
    </message>
    <message>
        <source>Usable</source>
        <translation>Nutzbar</translation>
    </message>
    <message>
        <source>What is left for data after redundancy, as the box itself says it.</source>
        <translation>Was nach der Redundanz für Daten bleibt, wie die Box selbst es sagt.</translation>
    </message>
    <message>
        <source>The size on the drive&apos;s label.</source>
        <translation>Die Größe auf dem Etikett des Laufwerks.</translation>
    </message>
    <message>
        <source>Drives in a group</source>
        <translation>Laufwerke in einer Gruppe</translation>
    </message>
    <message>
        <source>Spare drives</source>
        <translation>Ersatzlaufwerke</translation>
    </message>
    <message>
        <source>Further groups</source>
        <translation>Weitere Gruppen</translation>
    </message>
    <message>
        <source>None: all groups are alike.</source>
        <translation>Keine: Alle Gruppen sind gleich.</translation>
    </message>
    <message>
        <source>Drive sector</source>
        <translation>Sektor der Laufwerke</translation>
    </message>
    <message>
        <source>The smallest piece a drive writes: 4 KiB on nearly all of today&apos;s.</source>
        <translation>Das kleinste Stück, das ein Laufwerk schreibt: 4 KiB bei fast allen heutigen.</translation>
    </message>
    <message>
        <source>such as %1</source>
        <translation>etwa %1</translation>
    </message>
</context>
<context>
    <name>ullage::ui::FormPanel</name>
    <message>
        <source>Unnamed</source>
        <translation>Ohne Namen</translation>
    </message>
</context>
<context>
    <name>ullage::ui::GuideWindow</name>
    <message>
        <source>Guide</source>
        <translation>Anleitung</translation>
    </message>
    <message>
        <source>Sections of the guide</source>
        <translation>Abschnitte der Anleitung</translation>
    </message>
</context>
<context>
    <name>ullage::ui::HoursPainter</name>
    <message>
        <source>Drag to open or close hours. Keys: arrows, Shift with arrows, Space.</source>
        <translation>Ziehen öffnet oder schließt Stunden. Tasten: Pfeile, Umschalt mit Pfeilen, Leertaste.</translation>
    </message>
    <message>
        <source>%1 to %2</source>
        <comment>days</comment>
        <translation>%1 bis %2</translation>
    </message>
    <message>
        <source>closed</source>
        <translation>geschlossen</translation>
    </message>
    <message>
        <source>open</source>
        <translation>offen</translation>
    </message>
    <message>
        <source>open, %1 % of the line</source>
        <translation>offen, %1 % der Leitung</translation>
    </message>
    <message>
        <source>%1, %2 to %3: %4</source>
        <comment>days, time, time, state</comment>
        <translation>%1, %2 bis %3: %4</translation>
    </message>
</context>
<context>
    <name>ullage::ui::Import</name>
    <message>
        <source>%1 and %2 more</source>
        <translation>%1 und %2 weitere</translation>
    </message>
    <message>
        <source>snapshot name</source>
        <translation>Name des Snapshots</translation>
    </message>
    <message>
        <source>time taken</source>
        <translation>Zeitpunkt</translation>
    </message>
    <message>
        <source>bytes it alone holds</source>
        <translation>nur von ihm gehaltene Bytes</translation>
    </message>
    <message>
        <source>live bytes</source>
        <translation>aktuelle Bytes</translation>
    </message>
    <message>
        <source>bytes written</source>
        <translation>geschriebene Bytes</translation>
    </message>
    <message>
        <source>not used</source>
        <translation>nicht gebraucht</translation>
    </message>
    <message>
        <source>measured data</source>
        <translation>gemessene Daten</translation>
    </message>
    <message>
        <source>Adds %1, measured by %2.</source>
        <translation>Fügt %1 hinzu, gemessen aus %2.</translation>
    </message>
    <message>
        <source>Measures %1 by %2; the size, growth and change typed there give way.</source>
        <translation>Misst %1 aus %2; die dort eingegebene Größe, das Wachstum und die Änderung entfallen.</translation>
    </message>
    <message numerus="yes">
        <source>%n line(s) of it are left out.</source>
        <translation>
            <numerusform>%n Zeile davon wird ausgelassen.</numerusform>
            <numerusform>%n Zeilen davon werden ausgelassen.</numerusform>
        </translation>
    </message>
    <message>
        <source>The site then begins on %1, the day of the newest snapshot.</source>
        <translation>Der Standort beginnt dann am %1, dem Tag des neuesten Snapshots.</translation>
    </message>
    <message>
        <source>One undo takes it back.</source>
        <translation>Einmal Rückgängig nimmt es zurück.</translation>
    </message>
</context>
<context>
    <name>ullage::ui::ImportDialog</name>
    <message>
        <source>Import a snapshot listing</source>
        <translation>Liste der Snapshots einlesen</translation>
    </message>
    <message>
        <source>What does each column hold? These are its first lines.</source>
        <translation>Was steht in welcher Spalte? Dies sind ihre ersten Zeilen.</translation>
    </message>
    <message>
        <source>Lines that cannot be read</source>
        <translation>Zeilen, die nicht gelesen werden können</translation>
    </message>
    <message>
        <source>&amp;Import</source>
        <translation>&amp;Einlesen</translation>
    </message>
    <message>
        <source>First lines of the listing</source>
        <translation>Erste Zeilen der Liste</translation>
    </message>
    <message>
        <source>Column %1</source>
        <translation>Spalte %1</translation>
    </message>
    <message>
        <source>What %1 holds</source>
        <translation>Was in %1 steht</translation>
    </message>
    <message numerus="yes">
        <source>%n line(s) cannot be read:</source>
        <translation>
            <numerusform>%n Zeile kann nicht gelesen werden:</numerusform>
            <numerusform>%n Zeilen können nicht gelesen werden:</numerusform>
        </translation>
    </message>
    <message numerus="yes">
        <source>&amp;Leave out the %n line(s)</source>
        <translation>
            <numerusform>Die %n Zeile aus&amp;lassen</numerusform>
            <numerusform>Die %n Zeilen aus&amp;lassen</numerusform>
        </translation>
    </message>
    <message numerus="yes">
        <source>and %n more</source>
        <translation>
            <numerusform>und %n weitere</numerusform>
            <numerusform>und %n weitere</numerusform>
        </translation>
    </message>
    <message>
        <source>Datasets of the listing</source>
        <translation>Datensätze der Liste</translation>
    </message>
    <message>
        <source>Dataset</source>
        <translation>Datensatz</translation>
    </message>
    <message>
        <source>Snapshots</source>
        <translation>Snapshots</translation>
    </message>
    <message>
        <source>From</source>
        <translation>Von</translation>
    </message>
    <message>
        <source>To</source>
        <translation>Bis</translation>
    </message>
    <message>
        <source>Live</source>
        <translation>Aktuell</translation>
    </message>
    <message>
        <source>Goes to</source>
        <translation>Wird zu</translation>
    </message>
    <message>
        <source>a new dataset</source>
        <translation>ein neuer Datensatz</translation>
    </message>
    <message>
        <source>Where %1 goes to</source>
        <translation>Wozu %1 wird</translation>
    </message>
    <message>
        <source>Say which column holds: %1.</source>
        <translation>Angeben, in welcher Spalte steht: %1.</translation>
    </message>
    <message>
        <source>Reading the file…</source>
        <translation>Die Datei wird gelesen …</translation>
    </message>
    <message>
        <source>No line can be read like that. Are the columns the right ones?</source>
        <translation>So kann keine Zeile gelesen werden. Sind es die richtigen Spalten?</translation>
    </message>
    <message>
        <source>Tick the datasets that are wanted.</source>
        <translation>Die gewünschten Datensätze ankreuzen.</translation>
    </message>
    <message>
        <source>Some lines cannot be read: mend the file, choose other columns, or leave them out.</source>
        <translation>Einige Zeilen können nicht gelesen werden: die Datei ausbessern, andere Spalten wählen oder die Zeilen auslassen.</translation>
    </message>
    <message>
        <source>One dataset cannot be measured twice: choose another, or a new one.</source>
        <translation>Ein Datensatz kann nicht zweimal gemessen werden: einen anderen oder einen neuen wählen.</translation>
    </message>
</context>
<context>
    <name>ullage::ui::LadderTimeline</name>
    <message>
        <source>every %1</source>
        <translation>alle %1</translation>
    </message>
    <message>
        <source>No snapshot would be there today.</source>
        <translation>Heute wäre kein Snapshot da.</translation>
    </message>
    <message>
        <source>1 snapshot would be there today, %1 old.</source>
        <translation>Heute wäre 1 Snapshot da, %1 alt.</translation>
    </message>
    <message>
        <source>%1 snapshots would be there today, the oldest %2 old.</source>
        <translation>Heute wären %1 Snapshots da, der älteste %2 alt.</translation>
    </message>
    <message>
        <source>Snapshots kept</source>
        <translation>Aufbewahrte Snapshots</translation>
    </message>
    <message>
        <source>now</source>
        <translation>jetzt</translation>
    </message>
    <message>
        <source>1 h</source>
        <translation>1 h</translation>
    </message>
    <message>
        <source>1 d</source>
        <translation>1 d</translation>
    </message>
    <message>
        <source>1 w</source>
        <translation>1 w</translation>
    </message>
    <message>
        <source>1 mo</source>
        <translation>1 mo</translation>
    </message>
    <message>
        <source>1 y</source>
        <translation>1 y</translation>
    </message>
    <message>
        <source>5 y</source>
        <translation>5 y</translation>
    </message>
</context>
<context>
    <name>ullage::ui::LinkForm</name>
    <message>
        <source>Link</source>
        <translation>Leitung</translation>
    </message>
    <message>
        <source>Name</source>
        <translation>Name</translation>
    </message>
    <message>
        <source>Up</source>
        <translation>Aufwärts</translation>
    </message>
    <message>
        <source>The line&apos;s own rate towards the box that receives.</source>
        <translation>Die Rate der Leitung selbst zur empfangenden Box hin.</translation>
    </message>
    <message>
        <source>Down</source>
        <translation>Abwärts</translation>
    </message>
    <message>
        <source>The other direction: what a restore gets.</source>
        <translation>Die Gegenrichtung: was eine Wiederherstellung bekommt.</translation>
    </message>
    <message>
        <source>Round trip</source>
        <translation>Umlaufzeit</translation>
    </message>
    <message>
        <source>There and back, such as 18 ms.</source>
        <translation>Hin und zurück, etwa 18 ms.</translation>
    </message>
    <message>
        <source>Packets lost</source>
        <translation>Verlorene Pakete</translation>
    </message>
    <message>
        <source>The share of packets that never arrive, such as 0.001 %.</source>
        <translation>Der Anteil der Pakete, die nie ankommen, etwa 0.001 %.</translation>
    </message>
    <message>
        <source>Open hours</source>
        <translation>Offene Stunden</translation>
    </message>
    <message>
        <source>Days</source>
        <translation>Tage</translation>
    </message>
    <message>
        <source>such as Mon-Fri or Sat,Sun</source>
        <translation>etwa Mon-Fri oder Sat,Sun</translation>
    </message>
    <message>
        <source>From</source>
        <translation>Von</translation>
    </message>
    <message>
        <source>such as 19:00</source>
        <translation>etwa 19:00</translation>
    </message>
    <message>
        <source>To</source>
        <translation>Bis</translation>
    </message>
    <message>
        <source>such as 06:00; not after “from”: on the next day</source>
        <translation>etwa 06:00; nicht nach „von“: am nächsten Tag</translation>
    </message>
    <message>
        <source>Share</source>
        <translation>Anteil</translation>
    </message>
    <message>
        <source>of the line, such as 80 %</source>
        <translation>an der Leitung, etwa 80 %</translation>
    </message>
    <message>
        <source>Always open, with the whole line.</source>
        <translation>Immer offen, mit der ganzen Leitung.</translation>
    </message>
    <message>
        <source>Wrapped in, outermost last</source>
        <translation>Umhüllt mit, die äußerste zuletzt</translation>
    </message>
    <message>
        <source>Wrappers</source>
        <translation>Umhüllungen</translation>
    </message>
    <message>
        <source>Wrapper</source>
        <translation>Umhüllung</translation>
    </message>
    <message>
        <source>Nothing: TCP straight on the line.</source>
        <translation>Nichts: TCP direkt auf der Leitung.</translation>
    </message>
    <message>
        <source>ESP cipher</source>
        <translation>ESP-Verschlüsselung</translation>
    </message>
    <message>
        <source>AES-GCM, tag of 16 bytes</source>
        <translation>AES-GCM, Prüfsumme von 16 Byte</translation>
    </message>
    <message>
        <source>ChaCha20-Poly1305</source>
        <translation>ChaCha20-Poly1305</translation>
    </message>
    <message>
        <source>AES-CBC with SHA-1</source>
        <translation>AES-CBC mit SHA-1</translation>
    </message>
    <message>
        <source>AES-CBC with SHA-256</source>
        <translation>AES-CBC mit SHA-256</translation>
    </message>
    <message>
        <source>AES-CBC with SHA-512</source>
        <translation>AES-CBC mit SHA-512</translation>
    </message>
    <message>
        <source>What the ESP tunnel encrypts and authenticates with; here only the bytes that it adds count.</source>
        <translation>Womit der ESP-Tunnel verschlüsselt und prüft; hier zählen nur die Bytes, die das hinzufügt.</translation>
    </message>
    <message>
        <source>Outer IP version</source>
        <translation>Äußere IP-Version</translation>
    </message>
    <message>
        <source>as inside</source>
        <translation>wie innen</translation>
    </message>
    <message>
        <source>Of the packets that carry the tunnel, between its two ends.</source>
        <translation>Der Pakete, die den Tunnel tragen, zwischen seinen beiden Enden.</translation>
    </message>
    <message>
        <source>Transport</source>
        <translation>Transport</translation>
    </message>
    <message>
        <source>MTU</source>
        <translation>MTU</translation>
    </message>
    <message>
        <source>Bytes of the outermost IP packet, 576 to 65535.</source>
        <translation>Bytes des äußersten IP-Pakets, 576 bis 65535.</translation>
    </message>
    <message>
        <source>IP version</source>
        <translation>IP-Version</translation>
    </message>
    <message>
        <source>Receive window</source>
        <translation>Empfangsfenster</translation>
    </message>
    <message>
        <source>What may be on its way at a time, such as 6 MiB.</source>
        <translation>Was gleichzeitig unterwegs sein darf, etwa 6 MiB.</translation>
    </message>
    <message>
        <source>Congestion control</source>
        <translation>Überlastregelung</translation>
    </message>
    <message>
        <source>Streams</source>
        <translation>Ströme</translation>
    </message>
    <message>
        <source>Parallel connections of one send.</source>
        <translation>Parallele Verbindungen einer Übertragung.</translation>
    </message>
    <message>
        <source>Sends share it</source>
        <translation>Übertragungen teilen sie</translation>
    </message>
    <message>
        <source>evenly</source>
        <translation>gleichmäßig</translation>
    </message>
    <message>
        <source>in turn</source>
        <translation>nacheinander</translation>
    </message>
    <message>
        <source>When several sends want the line at the same time: all of them at once, or one after the other, in the order in which they began.</source>
        <translation>Wenn mehrere Übertragungen die Leitung zugleich wollen: alle auf einmal oder eine nach der anderen, in der Reihenfolge ihres Beginns.</translation>
    </message>
    <message>
        <source>Week</source>
        <translation>Woche</translation>
    </message>
    <message>
        <source>Drag to open or close hours. Keys: arrows, Shift with arrows, Space.</source>
        <translation>Ziehen öffnet oder schließt Stunden. Tasten: Pfeile, Umschalt mit Pfeilen, Leertaste.</translation>
    </message>
</context>
<context>
    <name>ullage::ui::MainWindow</name>
    <message numerus="yes">
        <source>and %n more.</source>
        <translation>
            <numerusform>und %n weiteres.</numerusform>
            <numerusform>und %n weitere.</numerusform>
        </translation>
    </message>
    <message>
        <source>Unsaved work</source>
        <translation>Nicht gespeicherte Arbeit</translation>
    </message>
    <message>
        <source>Save the changes to this site?</source>
        <translation>Die Änderungen an diesem Standort speichern?</translation>
    </message>
    <message>
        <source>They are lost otherwise.</source>
        <translation>Sonst gehen sie verloren.</translation>
    </message>
    <message>
        <source>Open a site</source>
        <translation>Einen Standort öffnen</translation>
    </message>
    <message>
        <source>Sites (*%1);;All files (*)</source>
        <translation>Standorte (*%1);;Alle Dateien (*)</translation>
    </message>
    <message>
        <source>Import a snapshot listing</source>
        <translation>Eine Snapshot-Liste importieren</translation>
    </message>
    <message>
        <source>%1 was not opened. %2</source>
        <translation>%1 wurde nicht geöffnet. %2</translation>
    </message>
    <message>
        <source>Work on “%1” of %2 was not saved when the program ended.</source>
        <translation>Arbeit an „%1“ vom %2 war nicht gespeichert, als das Programm endete.</translation>
    </message>
    <message>
        <source>Unnamed site</source>
        <translation>Standort ohne Namen</translation>
    </message>
    <message>
        <source>&amp;Recover it</source>
        <translation>&amp;Wiederherstellen</translation>
    </message>
    <message>
        <source>&amp;Discard it</source>
        <translation>&amp;Verwerfen</translation>
    </message>
    <message>
        <source>%1 cannot be used. %2</source>
        <translation>%1 lässt sich nicht verwenden. %2</translation>
    </message>
    <message>
        <source>import of %1</source>
        <translation>Import von %1</translation>
    </message>
    <message>
        <source>%1 was changed by another program since it was read. Nothing was saved.</source>
        <translation>%1 wurde seit dem Lesen von einem anderen Programm geändert. Nichts wurde gespeichert.</translation>
    </message>
    <message>
        <source>&amp;Overwrite it</source>
        <translation>&amp;Überschreiben</translation>
    </message>
    <message>
        <source>Save &amp;as…</source>
        <translation>Speichern &amp;unter …</translation>
    </message>
    <message>
        <source>Save the site</source>
        <translation>Den Standort speichern</translation>
    </message>
    <message>
        <source>None</source>
        <translation>Keine</translation>
    </message>
    <message>
        <source>&amp;Clear</source>
        <translation>&amp;Leeren</translation>
    </message>
    <message>
        <source>The forecast waits for this to be mended: %1</source>
        <translation>Die Vorhersage wartet, bis dies geändert ist: %1</translation>
    </message>
    <message numerus="yes">
        <source>(and %n more)</source>
        <translation>
            <numerusform>(und %n weiteres)</numerusform>
            <numerusform>(und %n weitere)</numerusform>
        </translation>
    </message>
    <message>
        <source>&amp;Show it</source>
        <translation>Zei&amp;gen</translation>
    </message>
    <message>
        <source>&amp;Try again</source>
        <translation>&amp;Noch einmal</translation>
    </message>
    <message>
        <source>There is no forecast. %1</source>
        <translation>Es gibt keine Vorhersage. %1</translation>
    </message>
    <message>
        <source>Updating…</source>
        <translation>Wird aktualisiert …</translation>
    </message>
    <message>
        <source>Out of date: cancelled</source>
        <translation>Veraltet: abgebrochen</translation>
    </message>
    <message>
        <source>The forecast was cancelled; what is shown is of an earlier state.</source>
        <translation>Die Vorhersage wurde abgebrochen; gezeigt wird ein früherer Stand.</translation>
    </message>
    <message>
        <source>&amp;Recalculate</source>
        <translation>Neu &amp;berechnen</translation>
    </message>
    <message>
        <source>Out of date: no forecast</source>
        <translation>Veraltet: keine Vorhersage</translation>
    </message>
    <message>
        <source>Waiting for something to be mended</source>
        <translation>Wartet, bis etwas geändert ist</translation>
    </message>
    <message>
        <source>Up to date, from %1 futures</source>
        <translation>Aktuell, aus %1 Verläufen</translation>
    </message>
    <message>
        <source>Ullage</source>
        <translation>Ullage</translation>
    </message>
    <message>
        <source>%1[*] — Ullage</source>
        <translation>%1[*] — Ullage</translation>
    </message>
    <message>
        <source>Questions</source>
        <translation>Fragen</translation>
    </message>
    <message>
        <source>Progress of the forecast</source>
        <translation>Fortschritt der Vorhersage</translation>
    </message>
    <message>
        <source>Cancel</source>
        <translation>Abbrechen</translation>
    </message>
    <message>
        <source>&amp;File</source>
        <translation>&amp;Datei</translation>
    </message>
    <message>
        <source>&amp;New</source>
        <translation>&amp;Neu</translation>
    </message>
    <message>
        <source>&amp;Open…</source>
        <translation>Ö&amp;ffnen …</translation>
    </message>
    <message>
        <source>Open &amp;recent</source>
        <translation>&amp;Zuletzt geöffnet</translation>
    </message>
    <message>
        <source>&amp;Import a listing…</source>
        <translation>Liste &amp;importieren …</translation>
    </message>
    <message>
        <source>Read &amp;listings again</source>
        <translation>&amp;Listen neu lesen</translation>
    </message>
    <message>
        <source>&amp;Save</source>
        <translation>&amp;Speichern</translation>
    </message>
    <message>
        <source>&amp;Quit</source>
        <translation>&amp;Beenden</translation>
    </message>
    <message>
        <source>&amp;Edit</source>
        <translation>&amp;Bearbeiten</translation>
    </message>
    <message>
        <source>&amp;Undo</source>
        <translation>&amp;Rückgängig</translation>
    </message>
    <message>
        <source>&amp;Redo</source>
        <translation>&amp;Wiederholen</translation>
    </message>
    <message>
        <source>&amp;Cancel the forecast</source>
        <translation>Vorhersage a&amp;bbrechen</translation>
    </message>
    <message>
        <source>&amp;View</source>
        <translation>&amp;Ansicht</translation>
    </message>
    <message>
        <source>&amp;Next pane</source>
        <translation>&amp;Nächster Bereich</translation>
    </message>
    <message>
        <source>&amp;Decimal units (TB)</source>
        <translation>&amp;Dezimale Einheiten (TB)</translation>
    </message>
    <message>
        <source>&amp;Binary units (TiB)</source>
        <translation>&amp;Binäre Einheiten (TiB)</translation>
    </message>
    <message>
        <source>&amp;Theme</source>
        <translation>&amp;Farben</translation>
    </message>
    <message>
        <source>&amp;As the system</source>
        <translation>&amp;Wie das System</translation>
    </message>
    <message>
        <source>&amp;Light</source>
        <translation>&amp;Hell</translation>
    </message>
    <message>
        <source>&amp;Dark</source>
        <translation>&amp;Dunkel</translation>
    </message>
    <message>
        <source>&amp;Reset layout</source>
        <translation>Anordnung &amp;zurücksetzen</translation>
    </message>
    <message>
        <source>&amp;Help</source>
        <translation>&amp;Hilfe</translation>
    </message>
    <message>
        <source>&amp;About Ullage</source>
        <translation>&amp;Über Ullage</translation>
    </message>
    <message>
        <source>Sizes in TB (10¹² bytes)</source>
        <translation>Größen in TB (10¹² Byte)</translation>
    </message>
    <message>
        <source>Sizes in TiB (2⁴⁰ bytes)</source>
        <translation>Größen in TiB (2⁴⁰ Byte)</translation>
    </message>
    <message>
        <source>Lan&amp;guage</source>
        <translation>S&amp;prache</translation>
    </message>
    <message>
        <source>The language changes at the next start.</source>
        <translation>Die Sprache wechselt beim nächsten Start.</translation>
    </message>
    <message>
        <source>%1 was changed by another program. The changes made here are not saved yet.</source>
        <translation>%1 wurde von einem anderen Programm geändert. Die Änderungen hier sind noch nicht gespeichert.</translation>
    </message>
    <message>
        <source>%1 was changed by another program.</source>
        <translation>%1 wurde von einem anderen Programm geändert.</translation>
    </message>
    <message>
        <source>&amp;Read it again</source>
        <translation>Neu &amp;lesen</translation>
    </message>
    <message>
        <source>%1 is open in another window of Ullage. What is saved there is not seen here until it is read again.</source>
        <translation>%1 ist in einem anderen Fenster von Ullage offen. Was dort gespeichert wird, ist hier erst nach neuem Lesen zu sehen.</translation>
    </message>
    <message>
        <source>First look, from %1 futures; more are under way…</source>
        <translation>Erster Blick, aus %1 Verläufen; weitere sind unterwegs…</translation>
    </message>
    <message>
        <source>going back to “%1”</source>
        <translation>Rückkehr zu „%1“</translation>
    </message>
    <message>
        <source>&amp;Keep as comparison</source>
        <translation>Zum &amp;Vergleich behalten</translation>
    </message>
    <message>
        <source>Planned event of</source>
        <translation>Geplantes Ereignis von</translation>
    </message>
    <message>
        <source>%1 is read-only: changes can be tried, and saved to another file.</source>
        <translation>%1 ist schreibgeschützt: Änderungen lassen sich ausprobieren und in eine andere Datei speichern.</translation>
    </message>
    <message>
        <source>%1: planned event</source>
        <translation>%1: geplantes Ereignis</translation>
    </message>
    <message>
        <source>&amp;Guide</source>
        <translation>&amp;Anleitung</translation>
    </message>
    <message>
        <source>&amp;What is this field?</source>
        <translation>&amp;Wozu ist dieses Feld?</translation>
    </message>
    <message>
        <source>&amp;Keep what is here</source>
        <translation>Hiesiges be&amp;halten</translation>
    </message>
    <message>
        <source>The file is empty.</source>
        <translation>Die Datei ist leer.</translation>
    </message>
</context>
<context>
    <name>ullage::ui::MessageBar</name>
    <message>
        <source>Close</source>
        <translation>Schließen</translation>
    </message>
    <message>
        <source>Close the message</source>
        <translation>Die Meldung schließen</translation>
    </message>
</context>
<context>
    <name>ullage::ui::OfferForm</name>
    <message>
        <source>Offer</source>
        <translation>Angebot</translation>
    </message>
    <message>
        <source>Name</source>
        <translation>Name</translation>
    </message>
    <message>
        <source>For the box</source>
        <translation>Für die Box</translation>
    </message>
    <message>
        <source>Goes in</source>
        <translation>Geht hinein</translation>
    </message>
    <message>
        <source>in place of the box&apos;s drives</source>
        <translation>anstelle der Laufwerke der Box</translation>
    </message>
    <message>
        <source>beside the box&apos;s drives</source>
        <translation>neben den Laufwerken der Box</translation>
    </message>
    <message>
        <source>in place of the whole box</source>
        <translation>anstelle der ganzen Box</translation>
    </message>
    <message>
        <source>Price</source>
        <translation>Preis</translation>
    </message>
    <message>
        <source>such as 2150 EUR</source>
        <translation>etwa 2150 EUR</translation>
    </message>
    <message>
        <source>Of all of it, in the site&apos;s currency, which may stand behind the number.</source>
        <translation>Für alles, in der Währung des Standorts, die hinter der Zahl stehen darf.</translation>
    </message>
    <message>
        <source>Power</source>
        <translation>Leistungsaufnahme</translation>
    </message>
    <message>
        <source>What it draws all day, such as 48 W.</source>
        <translation>Was es den ganzen Tag aufnimmt, etwa 48 W.</translation>
    </message>
    <message>
        <source>Life</source>
        <translation>Lebensdauer</translation>
    </message>
    <message>
        <source>For how long it is counted on, such as 5 y.</source>
        <translation>Wie lange damit gerechnet wird, etwa 5 y.</translation>
    </message>
    <message>
        <source>Lead time</source>
        <translation>Lieferzeit</translation>
    </message>
    <message>
        <source>as its box&apos;s</source>
        <translation>wie bei der Box</translation>
    </message>
    <message>
        <source>From the order to the day it runs, such as 21 d.</source>
        <translation>Von der Bestellung bis zum Betrieb, etwa 21 d.</translation>
    </message>
    <message>
        <source>Size</source>
        <translation>Größe</translation>
    </message>
    <message>
        <source>Rebuilding a drive</source>
        <translation>Wiederherstellung eines Laufwerks</translation>
    </message>
    <message>
        <source>Drive rate</source>
        <translation>Rate eines Laufwerks</translation>
    </message>
    <message>
        <source>Of one drive at its fastest, as its sheet says it, such as 260 MB/s.</source>
        <translation>Eines Laufwerks im schnellsten Bereich, wie im Datenblatt, etwa 260 MB/s.</translation>
    </message>
    <message>
        <source>Failing in a year</source>
        <translation>Ausfälle im Jahr</translation>
    </message>
    <message>
        <source>The share of such drives that fail in a year, such as 1.5 %.</source>
        <translation>Der Anteil solcher Laufwerke, der in einem Jahr ausfällt, etwa 1.5 %.</translation>
    </message>
</context>
<context>
    <name>ullage::ui::OutageRunner</name>
    <message>
        <source>The calculation broke off: %1</source>
        <translation>Die Berechnung brach ab: %1</translation>
    </message>
</context>
<context>
    <name>ullage::ui::OutlineModel</name>
    <message>
        <source>To mend</source>
        <translation>Zu ändern</translation>
    </message>
    <message>
        <source>Unnamed site</source>
        <translation>Standort ohne Namen</translation>
    </message>
    <message>
        <source>Something here is to be mended: see its form.</source>
        <translation>Hier ist etwas zu ändern: siehe Formular.</translation>
    </message>
    <message>
        <source>%1, %2</source>
        <translation>%1, %2</translation>
    </message>
    <message>
        <source>name of %1</source>
        <translation>Name: %1</translation>
    </message>
</context>
<context>
    <name>ullage::ui::OutlinePane</name>
    <message>
        <source>Remove</source>
        <translation>Entfernen</translation>
    </message>
    <message>
        <source>&amp;Add</source>
        <translation>&amp;Hinzufügen</translation>
    </message>
    <message>
        <source>Outline of the site</source>
        <translation>Gliederung des Standorts</translation>
    </message>
    <message>
        <source>&amp;Duplicate</source>
        <translation>&amp;Duplizieren</translation>
    </message>
    <message>
        <source>Ctrl+D</source>
        <translation>Ctrl+D</translation>
    </message>
    <message>
        <source>Re&amp;name</source>
        <translation>&amp;Umbenennen</translation>
    </message>
    <message>
        <source>Re&amp;move</source>
        <translation>&amp;Entfernen</translation>
    </message>
    <message>
        <source>Add…</source>
        <translation>Hinzufügen …</translation>
    </message>
    <message>
        <source>Duplicate</source>
        <translation>Duplizieren</translation>
    </message>
    <message>
        <source>new %1</source>
        <translation>neu: %1</translation>
    </message>
    <message>
        <source>copy of %1</source>
        <translation>Kopie: %1</translation>
    </message>
    <message>
        <source>Remove the %1 “%2”?</source>
        <translation>%1 „%2“ entfernen?</translation>
    </message>
    <message>
        <source>removal of %1</source>
        <translation>entfernt: %1</translation>
    </message>
    <message>
        <source>Add a %1</source>
        <translation>Hinzufügen: %1</translation>
    </message>
    <message>
        <source>Alt+Up</source>
        <translation>Alt+Up</translation>
    </message>
    <message>
        <source>Move do&amp;wn</source>
        <translation>Nach &amp;unten</translation>
    </message>
    <message>
        <source>Alt+Down</source>
        <translation>Alt+Down</translation>
    </message>
    <message>
        <source>move of %1</source>
        <translation>Verschieben von %1</translation>
    </message>
    <message>
        <source>Mo&amp;ve up</source>
        <translation>Nach &amp;oben</translation>
    </message>
</context>
<context>
    <name>ullage::ui::QuestionPages</name>
    <message>
        <source>Will it fit?</source>
        <translation>Passt es?</translation>
    </message>
    <message>
        <source>Will it arrive?</source>
        <translation>Kommt es an?</translation>
    </message>
    <message>
        <source>What to buy?</source>
        <translation>Was kaufen?</translation>
    </message>
    <message>
        <source>How sure?</source>
        <translation>Wie sicher?</translation>
    </message>
    <message>
        <source>Report</source>
        <translation>Bericht</translation>
    </message>
</context>
<context>
    <name>ullage::ui::SendForm</name>
    <message>
        <source>Send</source>
        <translation>Übertragung</translation>
    </message>
    <message>
        <source>Name</source>
        <translation>Name</translation>
    </message>
    <message>
        <source>From</source>
        <translation>Von</translation>
    </message>
    <message>
        <source>To</source>
        <translation>Nach</translation>
    </message>
    <message>
        <source>Over</source>
        <translation>Über</translation>
    </message>
    <message>
        <source>Carries</source>
        <translation>Überträgt</translation>
    </message>
    <message>
        <source>Runs</source>
        <translation>Läufe</translation>
    </message>
    <message>
        <source>Starts</source>
        <translation>Beginnt</translation>
    </message>
    <message>
        <source>by the clock</source>
        <translation>nach der Uhr</translation>
    </message>
    <message>
        <source>after each new snapshot</source>
        <translation>nach jedem neuen Snapshot</translation>
    </message>
    <message>
        <source>After each new snapshot: as soon as the box that it comes from has one, taken there or brought there by another send.</source>
        <translation>Nach jedem neuen Snapshot: sobald die Box, von der sie kommt, einen hat, dort gemacht oder von einer anderen Übertragung gebracht.</translation>
    </message>
    <message>
        <source>Every</source>
        <translation>Alle</translation>
    </message>
    <message>
        <source>such as 1 d or 6 h</source>
        <translation>etwa 1 d oder 6 h</translation>
    </message>
    <message>
        <source>First at</source>
        <translation>Zuerst um</translation>
    </message>
    <message>
        <source>Time of the day, in the site&apos;s time zone.</source>
        <translation>Uhrzeit in der Zeitzone des Standorts.</translation>
    </message>
    <message>
        <source>Sends</source>
        <translation>Überträgt</translation>
    </message>
    <message>
        <source>one step to the newest</source>
        <translation>einen Schritt bis zum neuesten</translation>
    </message>
    <message>
        <source>every snapshot between</source>
        <translation>jeden Snapshot dazwischen</translation>
    </message>
    <message>
        <source>Blocks</source>
        <translation>Blöcke</translation>
    </message>
    <message>
        <source>as stored</source>
        <translation>wie gespeichert</translation>
    </message>
    <message>
        <source>uncompressed</source>
        <translation>unkomprimiert</translation>
    </message>
    <message>
        <source>encrypted as stored</source>
        <translation>verschlüsselt wie gespeichert</translation>
    </message>
    <message>
        <source>Stream ratio</source>
        <translation>Kompression des Stroms</translation>
    </message>
    <message>
        <source>If the stream is compressed again on its way: before ÷ after.</source>
        <translation>Wenn der Strom unterwegs noch einmal komprimiert wird: vorher ÷ nachher.</translation>
    </message>
    <message>
        <source>Cipher rate</source>
        <translation>Rate der Verschlüsselung</translation>
    </message>
    <message>
        <source>no limit</source>
        <translation>ohne Grenze</translation>
    </message>
    <message>
        <source>What one core encrypts, in bytes per second, such as 400 MB/s.</source>
        <translation>Was ein Kern verschlüsselt, in Byte je Sekunde, etwa 400 MB/s.</translation>
    </message>
    <message>
        <source>Kept on the receiving box</source>
        <translation>Auf der empfangenden Box aufbewahrt</translation>
    </message>
    <message>
        <source>Ladder</source>
        <translation>Vorhaltung</translation>
    </message>
    <message>
        <source>as the source</source>
        <translation>wie die Quelle</translation>
    </message>
    <message>
        <source>keeps all</source>
        <translation>behält alle</translation>
    </message>
    <message>
        <source>its own</source>
        <translation>eine eigene</translation>
    </message>
    <message>
        <source>Its rungs</source>
        <translation>Ihre Stufen</translation>
    </message>
    <message>
        <source>No snapshot is kept.</source>
        <translation>Kein Snapshot wird aufbewahrt.</translation>
    </message>
    <message>
        <source>Last sent</source>
        <translation>Zuletzt übertragener</translation>
    </message>
    <message>
        <source>expires as the others</source>
        <translation>läuft ab wie die anderen</translation>
    </message>
    <message>
        <source>Holding the last sent snapshot at the source lets any outage end without sending everything again.</source>
        <translation>Hält die Quelle den zuletzt übertragenen Snapshot zurück, endet jeder Ausfall, ohne alles noch einmal zu übertragen.</translation>
    </message>
    <message>
        <source>First copy</source>
        <translation>Erstkopie</translation>
    </message>
    <message>
        <source>Goes</source>
        <translation>Geht</translation>
    </message>
    <message>
        <source>over the link</source>
        <translation>über die Leitung</translation>
    </message>
    <message>
        <source>by courier</source>
        <translation>von Hand</translation>
    </message>
    <message>
        <source>is there already</source>
        <translation>ist schon da</translation>
    </message>
    <message>
        <source>Copy rate</source>
        <translation>Kopierrate</translation>
    </message>
    <message>
        <source>On to the drives that travel, such as 180 MB/s.</source>
        <translation>Auf die Laufwerke, die reisen, etwa 180 MB/s.</translation>
    </message>
    <message>
        <source>Days away</source>
        <translation>Tage unterwegs</translation>
    </message>
    <message>
        <source>From the end of the copy to the drives running at the other end.</source>
        <translation>Vom Ende des Kopierens, bis die Laufwerke am anderen Ende laufen.</translation>
    </message>
    <message>
        <source>Snapshots kept</source>
        <translation>Aufbewahrte Snapshots</translation>
    </message>
    <message>
        <source>held until the next arrives</source>
        <translation>gehalten, bis der nächste ankommt</translation>
    </message>
</context>
<context>
    <name>ullage::ui::SiteDocument</name>
    <message>
        <source>The site has no file yet.</source>
        <translation>Der Standort hat noch keine Datei.</translation>
    </message>
    <message>
        <source>Not saved, since the file could not be opened again before this is mended: %1 (%2)</source>
        <translation>Nicht gespeichert, weil sich die Datei nicht wieder öffnen ließe, bevor dies geändert ist: %1 (%2)</translation>
    </message>
    <message>
        <source>the paths of listings</source>
        <translation>die Pfade der Listen</translation>
    </message>
    <message>
        <source>%1 cannot be read.</source>
        <translation>%1 kann nicht gelesen werden.</translation>
    </message>
    <message>
        <source>%1 is read-only: nothing was saved. The work can be saved to another file.</source>
        <translation>%1 ist schreibgeschützt: Nichts wurde gespeichert. Die Arbeit lässt sich in eine andere Datei speichern.</translation>
    </message>
</context>
<context>
    <name>ullage::ui::SiteForm</name>
    <message>
        <source>Site</source>
        <translation>Standort</translation>
    </message>
    <message>
        <source>Name</source>
        <translation>Name</translation>
    </message>
    <message>
        <source>Prepared for</source>
        <translation>Erstellt für</translation>
    </message>
    <message>
        <source>Prepared by</source>
        <translation>Erstellt von</translation>
    </message>
    <message>
        <source>Forecast</source>
        <translation>Vorhersage</translation>
    </message>
    <message>
        <source>As of</source>
        <translation>Stand</translation>
    </message>
    <message>
        <source>The day from which the forecast looks ahead, such as 2026-11-01.</source>
        <translation>Der Tag, von dem aus die Vorhersage vorausschaut, etwa 2026-11-01.</translation>
    </message>
    <message>
        <source>Horizon</source>
        <translation>Horizont</translation>
    </message>
    <message>
        <source>How far ahead, such as 5 y.</source>
        <translation>Wie weit voraus, etwa 5 y.</translation>
    </message>
    <message>
        <source>Confidence</source>
        <translation>Sicherheit</translation>
    </message>
    <message>
        <source>How sure an answer must be: 90 % means in 9 of 10 futures.</source>
        <translation>Wie sicher eine Antwort sein muss: 90 % heißt in 9 von 10 Verläufen.</translation>
    </message>
    <message>
        <source>Conventions</source>
        <translation>Konventionen</translation>
    </message>
    <message>
        <source>Time zone</source>
        <translation>Zeitzone</translation>
    </message>
    <message>
        <source>Times of day are in this zone, such as Europe/Lisbon.</source>
        <translation>Uhrzeiten gelten in dieser Zone, etwa Europe/Lisbon.</translation>
    </message>
    <message>
        <source>Currency</source>
        <translation>Währung</translation>
    </message>
    <message>
        <source>Energy price</source>
        <translation>Energiepreis</translation>
    </message>
    <message>
        <source>such as 0.32 EUR/kWh</source>
        <translation>etwa 0.32 EUR/kWh</translation>
    </message>
    <message>
        <source>Of a kWh; what offers draw is not paid for without it.</source>
        <translation>Je kWh; ohne ihn kostet nichts, was Angebote aufnehmen.</translation>
    </message>
</context>
<context>
    <name>ullage::ui::StartPage</name>
    <message>
        <source>How long will it last, and will it arrive?</source>
        <translation>Wie lange reicht es, und kommt es an?</translation>
    </message>
    <message>
        <source>Ullage forecasts how full a storage box gets, when, and whether the line carries the nightly copy.</source>
        <translation>Ullage sagt vorher, wie voll eine Speicherbox wird, wann, und ob die Leitung die nächtliche Kopie schafft.</translation>
    </message>
    <message>
        <source>Open</source>
        <translation>Öffnen</translation>
    </message>
    <message>
        <source>&amp;Open a site…</source>
        <translation>Einen Standort ö&amp;ffnen …</translation>
    </message>
    <message>
        <source>&amp;Import a snapshot listing…</source>
        <translation>Eine Snapshot-Liste &amp;importieren …</translation>
    </message>
    <message>
        <source>Recent</source>
        <translation>Zuletzt geöffnet</translation>
    </message>
    <message>
        <source>Samples (invented)</source>
        <translation>Beispiele (erfunden)</translation>
    </message>
    <message>
        <source>Start a small site</source>
        <translation>Einen kleinen Standort anlegen</translation>
    </message>
    <message>
        <source>Five figures give a first answer; all can be changed after.</source>
        <translation>Fünf Zahlen geben eine erste Antwort; alle lassen sich später ändern.</translation>
    </message>
    <message>
        <source>As stored, without snapshots, such as 4 TB.</source>
        <translation>Wie gespeichert, ohne Snapshots, etwa 4 TB.</translation>
    </message>
    <message>
        <source>It grows in a year by</source>
        <translation>Wachstum im Jahr</translation>
    </message>
    <message>
        <source>A size or a share, such as 800 GB or 20 %.</source>
        <translation>Eine Größe oder ein Anteil, etwa 800 GB oder 20 %.</translation>
    </message>
    <message>
        <source>Written in a day</source>
        <translation>An einem Tag geschrieben</translation>
    </message>
    <message>
        <source>A size or a share, such as 14 GB or 0.5 %.</source>
        <translation>Eine Größe oder ein Anteil, etwa 14 GB oder 0.5 %.</translation>
    </message>
    <message>
        <source>Copies go to a box of</source>
        <translation>Kopien gehen auf eine Box mit</translation>
    </message>
    <message>
        <source>Its usable size, such as 12 TB.</source>
        <translation>Ihre nutzbare Größe, etwa 12 TB.</translation>
    </message>
    <message>
        <source>Over a line of</source>
        <translation>Über eine Leitung mit</translation>
    </message>
    <message>
        <source>What the line carries towards the box, such as 100 Mbit/s.</source>
        <translation>Was die Leitung zur Box hin schafft, etwa 100 Mbit/s.</translation>
    </message>
    <message>
        <source>&amp;Start</source>
        <translation>&amp;Anlegen</translation>
    </message>
    <message>
        <source>Data stored today</source>
        <translation>Heute gespeicherte Daten</translation>
    </message>
</context>
<context>
    <name>ullage::ui::TableField</name>
    <message>
        <source>Add</source>
        <translation>Hinzufügen</translation>
    </message>
    <message>
        <source>Remove</source>
        <translation>Entfernen</translation>
    </message>
    <message>
        <source>Up</source>
        <translation>Aufwärts</translation>
    </message>
    <message>
        <source>Down</source>
        <translation>Abwärts</translation>
    </message>
    <message>
        <source>None.</source>
        <translation>Keine.</translation>
    </message>
    <message>
        <source>Row %1, %2: %3</source>
        <translation>Zeile %1, %2: %3</translation>
    </message>
</context>
</TS>
