<?xml version="1.0" encoding="utf-8"?>
<!DOCTYPE TS>
<TS version="2.1" language="de" sourcelanguage="en">
<context>
    <name>Adding</name>
    <message>
        <source>Uploads (*.csv *.txt *.tsv *.xlsx *.geojson *.json *.gpkg *.toml);;All files (*)</source>
        <extracomment>So many records that differ are shown one by one.</extracomment>
        <translation>Aufnahmedaten (*.csv *.txt *.tsv *.xlsx *.geojson *.json *.gpkg *.toml);;Alle Dateien (*)</translation>
    </message>
    <message>
        <source>Add uploads</source>
        <translation>Aufnahmedaten hinzufügen</translation>
    </message>
    <message>
        <source>Add {names} to {survey}?</source>
        <translation>{names} zu {survey} hinzufügen?</translation>
    </message>
    <message>
        <source>&amp;Add</source>
        <translation>&amp;Hinzufügen</translation>
    </message>
    <message>
        <source>&amp;Open in its place</source>
        <translation>Stattdessen ö&amp;ffnen</translation>
    </message>
    <message>
        <source>Uploads are added to a survey file: choose File, Keep as survey file, first.</source>
        <translation>Aufnahmedaten werden zu einer Inventurdatei hinzugefügt: zuerst Datei, Als Inventurdatei behalten wählen.</translation>
    </message>
    <message>
        <source>new stems {count}</source>
        <translation>neue Stämme {count}</translation>
    </message>
    <message>
        <source>stems gone {count}</source>
        <translation>fehlende Stämme {count}</translation>
    </message>
    <message>
        <source>changed stems {count}</source>
        <translation>geänderte Stämme {count}</translation>
    </message>
    <message>
        <source>changed plot rows {count}</source>
        <translation>geänderte Zeilen von Probeflächen {count}</translation>
    </message>
    <message>
        <source>The upload says otherwise what the survey file has of the same plots and visits: {what} (plots {plots}). Nothing was stored yet. Records that are replaced stay readable as they were.</source>
        <translation>Die Aufnahmedaten sagen es anders als die Inventurdatei über dieselben Probeflächen und Aufnahmen: {what} (Probeflächen {plots}). Noch ist nichts gespeichert. Ersetzte Datensätze bleiben lesbar, wie sie waren.</translation>
    </message>
    <message>
        <source>Sho&amp;w them</source>
        <translation>An&amp;zeigen</translation>
    </message>
    <message>
        <source>&amp;Replace the old ones</source>
        <translation>Die alten &amp;ersetzen</translation>
    </message>
    <message>
        <source>&amp;Keep the old ones</source>
        <translation>Die alten &amp;behalten</translation>
    </message>
</context>
<context>
    <name>CirclesField</name>
    <message>
        <source>radius</source>
        <translation>Radius</translation>
    </message>
    <message>
        <source>dbh from</source>
        <translation>BHD ab</translation>
    </message>
    <message>
        <source>dbh below</source>
        <translation>BHD unter</translation>
    </message>
    <message>
        <source>Radius of the circle</source>
        <translation>Radius des Kreises</translation>
    </message>
    <message>
        <source>Smallest dbh that counts in the circle</source>
        <translation>Kleinster BHD, der in diesem Kreis zählt</translation>
    </message>
    <message>
        <source>From this dbh on stems do not count in the circle</source>
        <translation>Ab diesem BHD zählen Stämme in diesem Kreis nicht mehr</translation>
    </message>
    <message>
        <source>Concentric circles</source>
        <translation>Konzentrische Kreise</translation>
    </message>
    <message>
        <source>A stem counts in the largest circle whose dbh it reaches. Clear a radius to drop its circle.</source>
        <translation>Ein Stamm zählt im größten Kreis, dessen BHD er erreicht. Wer einen Radius leert, entfernt dessen Kreis.</translation>
    </message>
    <message>
        <source>{text} is no number; the circles stay as they were.</source>
        <translation>{text} ist keine Zahl; die Kreise bleiben, wie sie waren.</translation>
    </message>
</context>
<context>
    <name>ColumnsPage</name>
    <message>
        <source>What are these columns?</source>
        <extracomment>Columns of a table that can be chosen for; the rest is kept as it is. First cells of a column that stand beside its heading.</extracomment>
        <translation>Was bedeuten diese Spalten?</translation>
    </message>
    <message>
        <source>Say for each heading which field it is. Below stands what the first rows are then understood as. The files themselves are not changed.</source>
        <translation>Zu jeder Überschrift das Feld angeben. Darunter steht, wie die ersten Zeilen dann verstanden werden. Die Dateien selbst bleiben unverändert.</translation>
    </message>
    <message>
        <source>Tables of the upload</source>
        <translation>Tabellen der Aufnahmedaten</translation>
    </message>
    <message>
        <source>&amp;Use these columns</source>
        <translation>Diese Spalten &amp;verwenden</translation>
    </message>
    <message>
        <source>Read the upload with the columns as they are said here</source>
        <translation>Die Aufnahmedaten mit den hier angegebenen Spalten lesen</translation>
    </message>
    <message>
        <source>&amp;Save the mapping…</source>
        <translation>Zuordnung &amp;speichern…</translation>
    </message>
    <message>
        <source>Write the columns to a settings file; beside the next upload it is found by itself</source>
        <translation>Die Spalten in eine Einstellungsdatei schreiben; neben den nächsten Aufnahmedaten wird sie von selbst gefunden</translation>
    </message>
    <message>
        <source>&amp;Back</source>
        <translation>&amp;Zurück</translation>
    </message>
    <message>
        <source>Leave everything as it was</source>
        <translation>Alles lassen, wie es war</translation>
    </message>
    <message>
        <source>“{heading}” is a known word for {field}. Give {field} to another column to leave this one.</source>
        <translation>„{heading}“ ist ein bekanntes Wort für {field}. {field} einer anderen Spalte geben, um diese frei zu lassen.</translation>
    </message>
    <message>
        <source>{file}: {what}</source>
        <translation>{file}: {what}</translation>
    </message>
    <message>
        <source>No table has stems yet: say which columns are azimuth and distance.</source>
        <translation>Noch hat keine Tabelle Stämme: angeben, welche Spalten Azimut und Distanz sind.</translation>
    </message>
    <message>
        <source>Everything that a map needs has its column.</source>
        <translation>Alles, was eine Karte braucht, hat seine Spalte.</translation>
    </message>
</context>
<context>
    <name>CommandSearch</name>
    <message>
        <source>All commands and their keys</source>
        <translation>Alle Befehle und ihre Tasten</translation>
    </message>
    <message>
        <source>Type what you want to do</source>
        <translation>Tippen Sie, was Sie tun möchten</translation>
    </message>
    <message>
        <source>Find a command</source>
        <translation>Befehl suchen</translation>
    </message>
    <message>
        <source>Commands</source>
        <translation>Befehle</translation>
    </message>
    <message>
        <source>Command</source>
        <translation>Befehl</translation>
    </message>
    <message>
        <source>Keys</source>
        <translation>Tasten</translation>
    </message>
    <message>
        <source>Menu</source>
        <translation>Menü</translation>
    </message>
</context>
<context>
    <name>CrsChooser</name>
    <message>
        <source>Coordinate system of results</source>
        <translation>Koordinatensystem der Ergebnisse</translation>
    </message>
    <message>
        <source>none</source>
        <translation>keiner</translation>
    </message>
    <message>
        <source>Now in force: {name}. Results are given in the system chosen here, and plot coordinates that come without a system of their own are read in it.</source>
        <translation>Jetzt gilt: {name}. Ergebnisse stehen in dem hier gewählten System, und Koordinaten von Probeflächen, die ohne eigenes System kommen, werden darin gelesen.</translation>
    </message>
    <message>
        <source>Only those for use where the plots are</source>
        <translation>Nur solche, die für das Gebiet der Probeflächen gelten</translation>
    </message>
    <message>
        <source>Use it</source>
        <translation>Verwenden</translation>
    </message>
    <message>
        <source>Let the program choose</source>
        <translation>Das Programm wählen lassen</translation>
    </message>
    <message>
        <source>Reading the list…</source>
        <translation>Die Liste wird gelesen…</translation>
    </message>
    <message>
        <source>Choose a row; type a name, a code or a region to find it.</source>
        <translation>Eine Zeile wählen; einen Namen, eine Kennzahl oder ein Gebiet tippen, um sie zu finden.</translation>
    </message>
    <message>
        <source>{name} ({code}). For use in: {area} ({west}° to {east}°, {south}° to {north}°).</source>
        <translation>{name} ({code}). Gilt für: {area} ({west}° bis {east}°, {south}° bis {north}°).</translation>
    </message>
</context>
<context>
    <name>DecidedList</name>
    <message>
        <source>Decided on this plot</source>
        <extracomment>So many lines of the list are seen at most.</extracomment>
        <translation>Auf dieser Probefläche entschieden</translation>
    </message>
    <message>
        <source>Decided on this plot: {count}</source>
        <translation>Auf dieser Probefläche entschieden: {count}</translation>
    </message>
    <message>
        <source>stem {stem}</source>
        <translation>Stamm {stem}</translation>
    </message>
    <message>
        <source>the plot</source>
        <translation>die Probefläche</translation>
    </message>
</context>
<context>
    <name>Deciding</name>
    <message>
        <source>Choose a finding first: N goes to the next one.</source>
        <translation>Zuerst einen Befund wählen: N geht zum nächsten.</translation>
    </message>
    <message>
        <source>There is no such proposal: K keeps the record, R sends the crew, E gives another value.</source>
        <translation>Einen solchen Vorschlag gibt es nicht: K behält den Datensatz, R schickt den Trupp, E gibt einen anderen Wert.</translation>
    </message>
    <message>
        <source>The last decision is not yours: {who}, {when}, {plot}: {what}.</source>
        <translation>Die letzte Entscheidung ist nicht Ihre: {who}, {when}, {plot}: {what}.</translation>
    </message>
    <message>
        <source>Undo it once more to take it back all the same.</source>
        <translation>Noch einmal rückgängig machen nimmt sie trotzdem zurück.</translation>
    </message>
    <message>
        <source>&amp;Undo it</source>
        <translation>&amp;Rückgängig machen</translation>
    </message>
    <message>
        <source>Decisions are kept in a survey file: choose File, Keep as survey file.</source>
        <translation>Entscheidungen stehen in einer Inventurdatei: Datei, Als Inventurdatei behalten.</translation>
    </message>
    <message>
        <source>Stored: {old} was meant to be {new}.</source>
        <translation>Gespeichert: Gemeint war {new} statt {old}.</translation>
    </message>
    <message>
        <source>Stored for {count} findings: {what}.</source>
        <translation>Für {count} Befunde gespeichert: {what}.</translation>
    </message>
    <message>
        <source>{count} have no such proposal and stay as they are.</source>
        <translation>{count} haben keinen solchen Vorschlag und bleiben, wie sie sind.</translation>
    </message>
    <message>
        <source>Each is an entry of its own; Ctrl+Z takes them back one by one.</source>
        <translation>Jede ist ein eigener Eintrag; Strg+Z nimmt sie einzeln zurück.</translation>
    </message>
    <message>
        <source>&amp;Undo these {count}</source>
        <translation>Diese {count} &amp;rückgängig machen</translation>
    </message>
    <message>
        <source>Stored: {new} holds in place of {old}.</source>
        <translation>Gespeichert: {new} gilt statt {old}.</translation>
    </message>
    <message>
        <source>Stored: right as recorded.</source>
        <translation>Gespeichert: richtig wie aufgenommen.</translation>
    </message>
    <message>
        <source>Stored: the crew measures it again.</source>
        <translation>Gespeichert: wird nachgemessen.</translation>
    </message>
    <message>
        <source>Stored: {new} holds, where nothing was recorded.</source>
        <translation>Gespeichert: {new} gilt, wo nichts erfasst war.</translation>
    </message>
    <message>
        <source>Stored: struck; the record is kept as typed and counts nowhere.</source>
        <translation>Gespeichert: gestrichen; der Datensatz bleibt wie eingegeben erhalten und zählt nirgends.</translation>
    </message>
    <message>
        <source>Stored: taken over as a stem of the plot.</source>
        <translation>Gespeichert: als Stamm der Probefläche übernommen.</translation>
    </message>
    <message>
        <source>Undone: entry {entry} by {who}, {place}: {what}.</source>
        <translation>Zurückgenommen: Eintrag {entry} von {who}, {place}: {what}.</translation>
    </message>
    <message>
        <source>Done again: entry {entry} by {who}, {place}: {what}.</source>
        <translation>Gilt wieder: Eintrag {entry} von {who}, {place}: {what}.</translation>
    </message>
    <message>
        <source>Undone: {count} decisions, each with an entry of its own.</source>
        <translation>Rückgängig gemacht: {count} Entscheidungen, jede mit einem eigenen Eintrag.</translation>
    </message>
    <message>
        <source>An earlier moment is shown, at which nothing can be decided. First go back to now.</source>
        <translation>Gezeigt wird ein früherer Stand, an dem nichts entschieden werden kann. Erst zurück zum jetzigen gehen.</translation>
    </message>
    <message>
        <source>Who decides?</source>
        <translation>Wer entscheidet?</translation>
    </message>
    <message>
        <source>Your name, as it shall stand in the journal:</source>
        <translation>Ihr Name, wie er im Journal stehen soll:</translation>
    </message>
    <message>
        <source>Keep as survey file</source>
        <translation>Als Inventurdatei behalten</translation>
    </message>
    <message>
        <source>Survey file (*.gpkg)</source>
        <translation>Inventurdatei (*.gpkg)</translation>
    </message>
    <message>
        <source>There is a file {name} already; choose another name.</source>
        <translation>Eine Datei {name} gibt es schon; wählen Sie einen anderen Namen.</translation>
    </message>
    <message>
        <source>The survey file {name} was made; what is decided from now on is kept in it.</source>
        <translation>Die Inventurdatei {name} wurde angelegt; was von jetzt an entschieden wird, steht darin.</translation>
    </message>
</context>
<context>
    <name>DiagramPicture</name>
    <message>
        <source>Save this diagram…</source>
        <translation>Dieses Diagramm speichern…</translation>
    </message>
</context>
<context>
    <name>DifferenceWindow</name>
    <message>
        <source>Records that differ</source>
        <translation>Datensätze, die sich unterscheiden</translation>
    </message>
</context>
<context>
    <name>EstimatesView</name>
    <message>
        <source>Estimating the survey…</source>
        <translation>Die Inventur wird geschätzt…</translation>
    </message>
</context>
<context>
    <name>FieldPacket</name>
    <message>
        <source>Field packet {name} is in {folder}. Plots with former values: {cold}, blind: {blind}; stems to measure again: {stems}.</source>
        <translation>Feldpaket {name} liegt in {folder}. Probeflächen mit früheren Werten: {cold}, blind: {blind}; nachzumessende Stämme: {stems}.</translation>
    </message>
    <message>
        <source>Without coordinates, so not in the list of plot centres: {plots}.</source>
        <translation>Ohne Koordinaten, daher nicht in der Liste der Mittelpunkte: {plots}.</translation>
    </message>
</context>
<context>
    <name>FindingsPanel</name>
    <message>
        <source>Findings of the plot</source>
        <translation>Befunde der Probefläche</translation>
    </message>
    <message>
        <source>Choosing a finding selects the stem it speaks of.</source>
        <translation>Wer einen Befund wählt, wählt auch den Stamm, von dem er spricht.</translation>
    </message>
    <message>
        <source> (the first {n} are shown)</source>
        <translation> (gezeigt werden die ersten {n})</translation>
    </message>
    <message>
        <source>Findings under the settings before; they are being worked out anew…</source>
        <translation>Befunde unter den vorigen Einstellungen; sie werden neu ermittelt …</translation>
    </message>
    <message>
        <source>No check found anything here. N goes on to what needs a look on other plots.</source>
        <translation>Keine Prüfung hat hier etwas gefunden. Mit N geht es weiter zu dem, was auf anderen Probeflächen anzusehen ist.</translation>
    </message>
    <message>
        <source>No check found anything here, and nothing on the other plots needs a look.</source>
        <translation>Keine Prüfung hat hier etwas gefunden, und auch auf den anderen Probeflächen ist nichts anzusehen.</translation>
    </message>
</context>
<context>
    <name>FindingsTable</name>
    <message>
        <source>All findings</source>
        <translation>Alle Befunde</translation>
    </message>
    <message>
        <source>Each finding of the survey; arrow keys choose one with its plot and stem.</source>
        <translation>Jeder Befund der Inventur; die Pfeiltasten wählen einen mit Probefläche und Stamm.</translation>
    </message>
    <message>
        <source>Working them out anew…</source>
        <translation>Werden neu ermittelt …</translation>
    </message>
</context>
<context>
    <name>Following</name>
    <message>
        <source>{name} can only be read here: everything can be looked at, but nothing is stored. To decide, copy it to a folder of your own.</source>
        <extracomment>So often a survey file is asked whether somebody else wrote into it, milliseconds. So long after the last decision the whole survey is checked again, milliseconds. So often a survey file that cannot be read is tried before it is given up, and seconds between.</extracomment>
        <translation>{name} kann hier nur gelesen werden: alles lässt sich ansehen, aber nichts wird gespeichert. Zum Entscheiden in einen eigenen Ordner kopieren.</translation>
    </message>
    <message>
        <source>Another copy of {name} was put in its place from outside; what it holds is being read.</source>
        <translation>An die Stelle von {name} wurde von außen ein anderer Stand gelegt; was darin steht, wird gelesen.</translation>
    </message>
    <message>
        <source>Decided meanwhile in this file by {names}: {count}, the last at {time}.</source>
        <translation>Inzwischen in dieser Datei entschieden von {names}: {count}, zuletzt {time}.</translation>
    </message>
    <message>
        <source>The settings of this file were changed by somebody else.</source>
        <translation>Die Einstellungen dieser Datei hat jemand anders geändert.</translation>
    </message>
    <message>
        <source>{who} added an upload to this file, {time}.</source>
        <translation>{who} hat dieser Datei Aufnahmedaten hinzugefügt, {time}.</translation>
    </message>
    <message>
        <source>&amp;Read it now</source>
        <translation>&amp;Jetzt lesen</translation>
    </message>
    <message>
        <source>It is being read.</source>
        <translation>Es wird gelesen.</translation>
    </message>
</context>
<context>
    <name>HandbookWindow</name>
    <message>
        <source>Handbook of stemmap</source>
        <translation>Handbuch zu stemmap</translation>
    </message>
    <message>
        <source>&amp;Contents</source>
        <translation>&amp;Inhalt</translation>
    </message>
    <message>
        <source>Back to the top of the handbook</source>
        <translation>Zurück an den Anfang des Handbuchs</translation>
    </message>
    <message>
        <source>Search the handbook</source>
        <translation>Handbuch durchsuchen</translation>
    </message>
    <message>
        <source>&amp;Next place</source>
        <translation>&amp;Nächste Stelle</translation>
    </message>
    <message>
        <source>Go to the next place with these words (Enter)</source>
        <translation>Zur nächsten Stelle mit diesen Worten gehen (Eingabetaste)</translation>
    </message>
    <message>
        <source>Text of the handbook</source>
        <translation>Text des Handbuchs</translation>
    </message>
</context>
<context>
    <name>HistogramView</name>
    <message>
        <source>Histogram of dbh</source>
        <extracomment>More lines than this are never useful in the panel; the command line writes all. Height of the table of strata, from which on it is scrolled.</extracomment>
        <translation>Histogramm des BHD</translation>
    </message>
    <message>
        <source>{low} to {high} cm: {count} stems/ha</source>
        <translation>{low} bis {high} cm: {count} Stämme/ha</translation>
    </message>
    <message>
        <source>dbh, cm</source>
        <translation>BHD, cm</translation>
    </message>
    <message>
        <source>stems/ha</source>
        <translation>Stämme/ha</translation>
    </message>
</context>
<context>
    <name>JournalPanel</name>
    <message>
        <source>Journal</source>
        <translation>Journal</translation>
    </message>
    <message>
        <source>Each decision: who, when, what, why; a row leads to its stem.</source>
        <translation>Jede Entscheidung: wer, wann, was, warum; eine Zeile führt zu ihrem Stamm.</translation>
    </message>
    <message>
        <source>As it was on</source>
        <translation>Stand vom</translation>
    </message>
    <message>
        <source>Drag to see the survey as it was after a decision; nothing is changed by that</source>
        <translation>Ziehen zeigt die Inventur, wie sie nach einer Entscheidung war; geändert wird dadurch nichts</translation>
    </message>
    <message>
        <source>Back to now</source>
        <translation>Zurück zu jetzt</translation>
    </message>
    <message>
        <source>As it was on:</source>
        <translation>Stand vom:</translation>
    </message>
    <message>
        <source>Nothing was decided yet.</source>
        <translation>Noch ist nichts entschieden.</translation>
    </message>
    <message>
        <source>Uploads have no journal. Keep them as a survey file first: File, Keep as survey file.</source>
        <translation>Aufnahmedaten haben kein Journal. Behalten Sie sie zuerst als Inventurdatei: Datei, Als Inventurdatei behalten.</translation>
    </message>
    <message>
        <source>now</source>
        <translation>jetzt</translation>
    </message>
    <message>
        <source>before the first decision</source>
        <translation>vor der ersten Entscheidung</translation>
    </message>
    <message>
        <source>after entry {entry} ({who}, {when})</source>
        <translation>nach Eintrag {entry} ({who}, {when})</translation>
    </message>
</context>
<context>
    <name>LanguageMenu</name>
    <message>
        <source>La&amp;nguage</source>
        <translation>Sp&amp;rache</translation>
    </message>
    <message>
        <source>Like the &amp;system</source>
        <translation>Wie das &amp;System</translation>
    </message>
    <message>
        <source>The window speaks this language from the next start on.</source>
        <translation>Das Fenster spricht diese Sprache vom nächsten Start an.</translation>
    </message>
</context>
<context>
    <name>MainWindow</name>
    <message>
        <source>N next finding, PgDown next plot, wheel zooms, dragging pans</source>
        <extracomment>What the panels are made of, in the order in which it is loaded; each takes a few milliseconds.</extracomment>
        <translation>N nächster Befund, Bild ab nächste Probefläche, Rad zoomt, Ziehen verschiebt</translation>
    </message>
    <message>
        <source>&amp;File</source>
        <translation>&amp;Datei</translation>
    </message>
    <message>
        <source>&amp;View</source>
        <translation>&amp;Ansicht</translation>
    </message>
    <message>
        <source>La&amp;yers</source>
        <translation>&amp;Ebenen</translation>
    </message>
    <message>
        <source>Fill &amp;by</source>
        <translation>Fü&amp;llen nach</translation>
    </message>
    <message>
        <source>True &amp;scale</source>
        <translation>Maßs&amp;tab</translation>
    </message>
    <message>
        <source>&amp;Go</source>
        <translation>&amp;Gehe zu</translation>
    </message>
    <message>
        <source>&amp;Decide</source>
        <translation>&amp;Entscheiden</translation>
    </message>
    <message>
        <source>&amp;Help</source>
        <translation>&amp;Hilfe</translation>
    </message>
    <message>
        <source>Reading…</source>
        <translation>Wird gelesen…</translation>
    </message>
    <message>
        <source>{name} (can only be read)</source>
        <translation>{name} (nur lesbar)</translation>
    </message>
    <message>
        <source>There is no further error or thing to look at.</source>
        <translation>Es gibt keinen weiteren Fehler und nichts weiter zu prüfen.</translation>
    </message>
    <message>
        <source>There is no error or thing to look at before this.</source>
        <translation>Davor gibt es keinen Fehler und nichts zu prüfen.</translation>
    </message>
    <message>
        <source>Choose a finding about a value of a stem first: N goes to the next one.</source>
        <translation>Wählen Sie zuerst einen Befund zu einem Wert eines Stamms: N geht zum nächsten.</translation>
    </message>
    <message>
        <source>This finding is about no single value: K keeps the record, R sends the crew.</source>
        <translation>Dieser Befund betrifft keinen einzelnen Wert: K behält die Aufnahme, R lässt nachmessen.</translation>
    </message>
    <message>
        <source>What was open stays as it was.</source>
        <translation>Was offen war, bleibt, wie es war.</translation>
    </message>
    <message>
        <source>The round goes through the notes too.</source>
        <translation>Der Rundgang geht auch durch die Hinweise.</translation>
    </message>
    <message>
        <source>Drop uploads to add them, which is asked before, or field packets</source>
        <translation>Ablegen: Aufnahmedaten werden nach Rückfrage hinzugefügt, Tabellen von Feldpaketen gleich übernommen</translation>
    </message>
    <message>
        <source>Drop to open in place of this survey, which stays under File, Open recent</source>
        <translation>Loslassen öffnet anstelle dieser Inventur, die unter Datei, Zuletzt geöffnet bleibt</translation>
    </message>
</context>
<context>
    <name>MapPanel</name>
    <message>
        <source>Notes on the map</source>
        <translation>Hinweise zur Karte</translation>
    </message>
    <message>
        <source>Scale of the map on this screen, by the size the screen reports</source>
        <translation>Maßstab der Karte auf diesem Bildschirm, nach der Größe, die er meldet</translation>
    </message>
    <message>
        <source>being checked again…</source>
        <translation>wird neu geprüft …</translation>
    </message>
    <message>
        <source>stratum {name}</source>
        <translation>Stratum {name}</translation>
    </message>
    <message>
        <source>crew {name}</source>
        <translation>Trupp {name}</translation>
    </message>
    <message>
        <source>All plots, selected: {plot}</source>
        <translation>Alle Probeflächen, gewählt: {plot}</translation>
    </message>
    <message>
        <source>No stems were recorded on this plot.</source>
        <translation>Auf dieser Probefläche wurden keine Stämme aufgenommen.</translation>
    </message>
    <message>
        <source>If it is empty, say so in the column plot_status of the plots.</source>
        <translation>Ist sie leer, so sagen Sie es in der Spalte plot_status der Probeflächen.</translation>
    </message>
    <message>
        <source>Set the radius under Settings (Alt+Return).</source>
        <translation>Setzen Sie den Radius unter Einstellungen (Alt+Return).</translation>
    </message>
</context>
<context>
    <name>Outputs</name>
    <message>
        <source>The stems were written to {path} without coordinates: no plot centre is known.</source>
        <extracomment>How long a passing sentence is shown, milliseconds. What is drawn on the map that is copied or saved; the window hands in what its own map shows.</extracomment>
        <translation>Die Stämme wurden ohne Koordinaten nach {path} geschrieben: Kein Mittelpunkt ist bekannt.</translation>
    </message>
    <message>
        <source>The stems were written to {path}, in {crs}.</source>
        <translation>Die Stämme wurden nach {path} geschrieben, in {crs}.</translation>
    </message>
    <message>
        <source>GeoPackage (*.gpkg);;GeoJSON (*.geojson);;CSV (*.csv)</source>
        <translation>GeoPackage (*.gpkg);;GeoJSON (*.geojson);;CSV (*.csv)</translation>
    </message>
    <message>
        <source>Export stems</source>
        <translation>Stämme ausgeben</translation>
    </message>
    <message>
        <source>The plot sheets were written to {path}; print them at 100 %.</source>
        <translation>Die Probeflächenblätter wurden nach {path} geschrieben; mit 100 % drucken.</translation>
    </message>
    <message>
        <source>Plot sheets as PDF</source>
        <translation>Probeflächenblätter als PDF</translation>
    </message>
    <message>
        <source>PDF (*.pdf)</source>
        <translation>PDF (*.pdf)</translation>
    </message>
    <message>
        <source>The map was written to {path}.</source>
        <translation>Die Karte wurde nach {path} geschrieben.</translation>
    </message>
    <message>
        <source>Map as a picture</source>
        <translation>Karte als Bild</translation>
    </message>
    <message>
        <source>PNG (*.png);;SVG (*.svg)</source>
        <translation>PNG (*.png);;SVG (*.svg)</translation>
    </message>
    <message>
        <source>The diagrams were written to {path}.</source>
        <translation>Die Diagramme wurden nach {path} geschrieben.</translation>
    </message>
    <message>
        <source>SVG (*.svg);;PNG (*.png);;CSV (*.csv)</source>
        <translation>SVG (*.svg);;PNG (*.png);;CSV (*.csv)</translation>
    </message>
    <message>
        <source>Save diagrams</source>
        <translation>Diagramme speichern</translation>
    </message>
    <message>
        <source>The report was written to {path}.</source>
        <translation>Der Bericht wurde nach {path} geschrieben.</translation>
    </message>
    <message>
        <source>HTML (*.html);;PDF (*.pdf)</source>
        <translation>HTML (*.html);;PDF (*.pdf)</translation>
    </message>
    <message>
        <source>Report</source>
        <translation>Bericht</translation>
    </message>
    <message>
        <source>The map is on the clipboard: as a picture, as SVG, and its stems as a table.</source>
        <translation>Die Karte ist in der Zwischenablage: als Bild, als SVG, und ihre Stämme als Tabelle.</translation>
    </message>
    <message>
        <source>Select a plot first: the map of one plot is what is copied or saved.</source>
        <translation>Wählen Sie zuerst eine Probefläche: Kopiert oder gespeichert wird die Karte einer Probefläche.</translation>
    </message>
    <message>
        <source>The settings were saved to {path}.</source>
        <translation>Die Einstellungen wurden in {path} gespeichert.</translation>
    </message>
    <message>
        <source>Save settings</source>
        <translation>Einstellungen speichern</translation>
    </message>
    <message>
        <source>Settings (*.toml)</source>
        <translation>Einstellungen (*.toml)</translation>
    </message>
</context>
<context>
    <name>PacketDialog</name>
    <message>
        <source>Field packet</source>
        <translation>Feldpaket</translation>
    </message>
    <message>
        <source>What is &amp;worth a walk, and what was decided to be measured again</source>
        <translation>Was den &amp;Weg wert ist, und was nachzumessen entschieden wurde</translation>
    </message>
    <message>
        <source>&amp;All plots with stems</source>
        <translation>&amp;Alle Probeflächen mit Stämmen</translation>
    </message>
    <message>
        <source>within </source>
        <translation>in </translation>
    </message>
    <message>
        <source> hours of field work</source>
        <translation> Stunden Feldarbeit</translation>
    </message>
    <message>
        <source>Hours of field work</source>
        <translation>Stunden Feldarbeit</translation>
    </message>
    <message>
        <source>So many for each hundred others, drawn by chance: the crew measures them without former values</source>
        <translation>So viele auf je hundert andere, ausgelost: der Trupp misst sie ohne frühere Werte</translation>
    </message>
    <message>
        <source>Another number draws other blind plots; the same one draws the same again</source>
        <translation>Eine andere Zahl lost andere blinde Probeflächen aus; dieselbe wieder dieselben</translation>
    </message>
    <message>
        <source>Plots</source>
        <translation>Probeflächen</translation>
    </message>
    <message>
        <source>&amp;Blind plots beside them</source>
        <translation>&amp;Blinde Probeflächen daneben</translation>
    </message>
    <message>
        <source>D&amp;rawn by number</source>
        <translation>A&amp;usgelost mit der Zahl</translation>
    </message>
    <message>
        <source>&amp;Paper</source>
        <translation>&amp;Papier</translation>
    </message>
    <message>
        <source>F&amp;older</source>
        <translation>&amp;Ordner</translation>
    </message>
    <message>
        <source>The folder is made new. It gets plot sheets, a table to fill in, the plot centres for a satellite receiver and a page to read first. Going out is field work: weather, slope and dead wood decide; the rules of your own organisation come first.</source>
        <translation>Der Ordner wird neu angelegt. Hinein kommen Probeflächenblätter, eine Tabelle zum Ausfüllen, die Mittelpunkte für einen Satellitenempfänger und eine Seite, die zuerst zu lesen ist. Hinausgehen ist Feldarbeit: Wetter, Hang und Totholz entscheiden; die Regeln Ihrer eigenen Organisation gehen vor.</translation>
    </message>
    <message>
        <source>&amp;Make the packet</source>
        <translation>Paket &amp;machen</translation>
    </message>
    <message>
        <source>&amp;Choose…</source>
        <translation>&amp;Wählen…</translation>
    </message>
    <message>
        <source>Choose the folder of the field packet</source>
        <translation>Ordner des Feldpakets wählen</translation>
    </message>
    <message>
        <source>Folder of the field packet</source>
        <translation>Ordner des Feldpakets</translation>
    </message>
    <message>
        <source>A folder that is not there yet is made; one that holds files is refused</source>
        <translation>Ein Ordner, den es noch nicht gibt, wird angelegt; einer mit Dateien darin wird abgelehnt</translation>
    </message>
    <message>
        <source>No folder is named: write a name for the new folder.</source>
        <translation>Kein Ordner ist genannt: einen Namen für den neuen Ordner schreiben.</translation>
    </message>
    <message>
        <source>{folder} holds files already and is left as it is; a packet gets a folder of its own: write another name.</source>
        <translation>{folder} enthält schon Dateien und bleibt, wie er ist; ein Paket bekommt einen eigenen Ordner: einen anderen Namen schreiben.</translation>
    </message>
    <message>
        <source>{folder} is a file: write another name for the folder.</source>
        <translation>{folder} ist eine Datei: einen anderen Namen für den Ordner schreiben.</translation>
    </message>
    <message>
        <source>{survey}_packet_{date}</source>
        <translation>{survey}_Paket_{date}</translation>
    </message>
    <message>
        <source>Where to put the field packet</source>
        <translation>Wohin das Feldpaket kommt</translation>
    </message>
    <message>
        <source>Blind plots in percent</source>
        <translation>Blinde Probeflächen in Prozent</translation>
    </message>
    <message>
        <source>Number by which blind plots are drawn</source>
        <translation>Zahl, mit der blinde Probeflächen ausgelost werden</translation>
    </message>
    <message>
        <source>Paper</source>
        <translation>Papier</translation>
    </message>
    <message>
        <source>none</source>
        <translation>keiner</translation>
    </message>
    <message>
        <source>&amp;The one shown: {plot}</source>
        <translation>&amp;Die gezeigte: {plot}</translation>
    </message>
</context>
<context>
    <name>PlotsPanel</name>
    <message>
        <source>Plots</source>
        <translation>Probeflächen</translation>
    </message>
    <message>
        <source>Each plot and visit with its state; arrow keys choose one.</source>
        <translation>Jede Probefläche und Aufnahme mit ihrem Stand; die Pfeiltasten wählen eine.</translation>
    </message>
</context>
<context>
    <name>Preferences</name>
    <message>
        <source>Preferences</source>
        <extracomment>How the colours are chosen.</extracomment>
        <translation>Voreinstellungen</translation>
    </message>
    <message>
        <source>Like the system</source>
        <translation>Wie das System</translation>
    </message>
    <message>
        <source>Light</source>
        <translation>Hell</translation>
    </message>
    <message>
        <source>Dark</source>
        <translation>Dunkel</translation>
    </message>
    <message>
        <source>&amp;Language</source>
        <translation>&amp;Sprache</translation>
    </message>
    <message>
        <source>&amp;Colours</source>
        <translation>&amp;Farben</translation>
    </message>
    <message>
        <source>Another language is spoken from the next start on.</source>
        <translation>Eine andere Sprache gilt vom nächsten Start an.</translation>
    </message>
    <message>
        <source>Numbers are written like {number}; both comma and point may be typed.</source>
        <translation>Zahlen werden wie {number} geschrieben; Komma und Punkt dürfen beide getippt werden.</translation>
    </message>
</context>
<context>
    <name>Printing</name>
    <message>
        <source>Plot sheets</source>
        <extracomment>Sheets in a preview, which paints all its pages at once while the window waits.</extracomment>
        <translation>Probeflächenblätter</translation>
    </message>
    <message>
        <source>Printing was stopped; pages that the printer has already may still come out.</source>
        <translation>Der Druck wurde angehalten; Seiten, die der Drucker schon hat, können noch herauskommen.</translation>
    </message>
    <message>
        <source>Pages printed: {count}.</source>
        <translation>Gedruckte Seiten: {count}.</translation>
    </message>
    <message>
        <source>Preview of {shown} of {wanted} sheets</source>
        <translation>Vorschau auf {shown} von {wanted} Blättern</translation>
    </message>
    <message>
        <source>Preview of the plot sheets</source>
        <translation>Vorschau der Probeflächenblätter</translation>
    </message>
    <message>
        <source>The paper of the printer is smaller than the sheets, so their edges are cut off; the scale is true.</source>
        <translation>Das Papier des Druckers ist kleiner als die Blätter, darum sind ihre Ränder abgeschnitten; der Maßstab stimmt.</translation>
    </message>
    <message>
        <source>The printer leaves {widest} mm white at an edge, more than the sheets do: what lies there is cut off; the scale is true.</source>
        <translation>Der Drucker lässt an einem Rand {widest} mm weiß, mehr als die Blätter: Was dort liegt, ist abgeschnitten; der Maßstab stimmt.</translation>
    </message>
</context>
<context>
    <name>ReasonLine</name>
    <message>
        <source>Reason:</source>
        <translation>Grund:</translation>
    </message>
    <message>
        <source>Without</source>
        <translation>Ohne</translation>
    </message>
    <message>
        <source>Type it, press Enter, then decide</source>
        <translation>Eingeben, Eingabetaste drücken, dann entscheiden</translation>
    </message>
    <message>
        <source>Reason of the next decision</source>
        <translation>Grund der nächsten Entscheidung</translation>
    </message>
    <message>
        <source>Decide without a reason</source>
        <translation>Ohne Grund entscheiden</translation>
    </message>
</context>
<context>
    <name>RecentMenu</name>
    <message>
        <source>Open &amp;recent</source>
        <translation>&amp;Zuletzt geöffnet</translation>
    </message>
    <message>
        <source>&amp;Forget these</source>
        <translation>&amp;Diese vergessen</translation>
    </message>
    <message>
        <source>Nothing was opened yet</source>
        <translation>Noch wurde nichts geöffnet</translation>
    </message>
</context>
<context>
    <name>Remeasurements</name>
    <message>
        <source>Tables of field packets (*.xlsx *.csv *.txt *.tsv);;All files (*)</source>
        <translation>Tabellen von Feldpaketen (*.xlsx *.csv *.txt *.tsv);;Alle Dateien (*)</translation>
    </message>
    <message>
        <source>Re-measurements</source>
        <translation>Nachmessungen</translation>
    </message>
    <message>
        <source>{names} is the table of a field packet: open the survey file that the crew was sent out from, then take it in there.</source>
        <translation>{names} ist die Tabelle eines Feldpakets: Öffnen Sie die Inventurdatei, aus der der Trupp losgeschickt wurde, und übernehmen Sie die Tabelle dort.</translation>
    </message>
    <message>
        <source>An earlier moment is shown, at which nothing can be taken in. First go back to now.</source>
        <translation>Gezeigt wird ein früherer Zeitpunkt, zu dem nichts übernommen werden kann. Gehen Sie zuerst zu jetzt zurück.</translation>
    </message>
    <message>
        <source>&amp;Take in</source>
        <translation>&amp;Aufnehmen</translation>
    </message>
    <message>
        <source>&amp;Not these</source>
        <translation>&amp;Diese nicht</translation>
    </message>
    <message>
        <source>Sho&amp;w</source>
        <translation>&amp;Zeigen</translation>
    </message>
    <message>
        <source>Values that are in doubt and were measured again alike: {count}.</source>
        <translation>Angezweifelte Werte, die übereinstimmend nachgemessen wurden: {count}.</translation>
    </message>
    <message>
        <source>measured again within the tolerance</source>
        <translation>innerhalb der Toleranz nachgemessen</translation>
    </message>
    <message>
        <source>&amp;Keep these {count}</source>
        <translation>Diese {count} &amp;behalten</translation>
    </message>
    <message>
        <source>Taken in from {names}, {rows}. Findings to decide: {open}.</source>
        <translation>Aufgenommen aus {names}, {rows}. Zu entscheidende Befunde: {open}.</translation>
    </message>
    <message>
        <source>Take {names} into {survey}? For the plots {plots} it holds {rows}. No record changes; findings to decide would then be {open}. Nothing was stored yet.</source>
        <translation>{names} in {survey} aufnehmen? Zu den Probeflächen {plots} sind es {rows}. Kein Datensatz ändert sich; zu entscheidende Befunde wären es dann {open}. Noch ist nichts gespeichert.</translation>
    </message>
    <message>
        <source>within the tolerance {count}</source>
        <translation>innerhalb der Toleranz {count}</translation>
    </message>
    <message>
        <source>beyond the tolerance {count}</source>
        <translation>außerhalb der Toleranz {count}</translation>
    </message>
    <message>
        <source>with a value that was missing {count}</source>
        <translation>mit einem Wert, der fehlte, {count}</translation>
    </message>
    <message>
        <source>found without a value {count}</source>
        <translation>gefunden ohne Wert {count}</translation>
    </message>
    <message>
        <source>not found {count}</source>
        <translation>nicht gefunden {count}</translation>
    </message>
    <message>
        <source>new stems {count}</source>
        <translation>neue Stämme {count}</translation>
    </message>
    <message>
        <source>fitting nothing {count}</source>
        <translation>ohne Zuordnung {count}</translation>
    </message>
    <message>
        <source>written again further down {count}</source>
        <translation>weiter unten noch einmal geschrieben {count}</translation>
    </message>
    <message>
        <source>not filled in {count}</source>
        <translation>nicht ausgefüllt {count}</translation>
    </message>
    <message>
        <source>naming another plot than was printed {count}</source>
        <translation>mit einer anderen als der gedruckten Probefläche {count}</translation>
    </message>
    <message>
        <source>with the values of another row {count}</source>
        <translation>mit den Werten einer anderen Zeile {count}</translation>
    </message>
    <message>
        <source>{count} rows: {parts}</source>
        <translation>{count} Zeilen: {parts}</translation>
    </message>
    <message>
        <source>; among them {parts}</source>
        <translation>; darunter {parts}</translation>
    </message>
</context>
<context>
    <name>RoundCard</name>
    <message>
        <source>Space goes on, Backspace goes back, Esc ends the round.</source>
        <extracomment>Free ground between the ring around a stem and the card.</extracomment>
        <translation>Leertaste geht weiter, Rücktaste geht zurück, Esc beendet den Rundgang.</translation>
    </message>
    <message>
        <source>C corrects, K keeps, R sends the crew.</source>
        <translation>C berichtigt, K behält, R schickt den Trupp.</translation>
    </message>
    <message>
        <source>K keeps, R sends the crew.</source>
        <translation>K behält, R schickt den Trupp.</translation>
    </message>
    <message>
        <source>C strikes the records, K keeps, R sends the crew.</source>
        <translation>C streicht die Datensätze, K behält, R schickt den Trupp.</translation>
    </message>
    <message>
        <source>C strikes the record, K keeps, R sends the crew.</source>
        <translation>C streicht den Datensatz, K behält, R schickt den Trupp.</translation>
    </message>
    <message>
        <source>C corrects, E gives another value, K keeps, R sends the crew.</source>
        <translation>C berichtigt, E gibt einen anderen Wert, K behält, R schickt den Trupp.</translation>
    </message>
    <message>
        <source>E gives another value, K keeps, R sends the crew.</source>
        <translation>E gibt einen anderen Wert, K behält, R schickt den Trupp.</translation>
    </message>
    <message>
        <source>Backspace goes back, Esc ends the round.</source>
        <translation>Rücktaste geht zurück, Esc beendet den Rundgang.</translation>
    </message>
</context>
<context>
    <name>RoundView</name>
    <message>
        <source>No error and nothing to look at was found here.</source>
        <translation>Hier wurde kein Fehler und nichts zu prüfen gefunden.</translation>
    </message>
    <message>
        <source>Space goes on with the next plot, Backspace goes back, Esc ends the round.</source>
        <translation>Leertaste geht weiter zur nächsten Probefläche, Rücktaste geht zurück, Esc beendet den Rundgang.</translation>
    </message>
    <message>
        <source>Looked through</source>
        <translation>Durchgesehen</translation>
    </message>
    <message>
        <source>The round is through: there is nothing further to look at in this survey.</source>
        <translation>Der Rundgang ist zu Ende: In dieser Inventur ist nichts weiter zu prüfen.</translation>
    </message>
    <message>
        <source>Nothing to look at</source>
        <translation>Nichts zu prüfen</translation>
    </message>
    <message>
        <source>No error and nothing to look at was found.</source>
        <translation>Es wurde kein Fehler gefunden und nichts, was zu prüfen wäre.</translation>
    </message>
    <message>
        <source>about the files, finding {finding} of {findings}</source>
        <translation>zu den Dateien, Befund {finding} von {findings}</translation>
    </message>
    <message>
        <source>{plot}: plot {number} of {plots}, finding {finding} of {findings}</source>
        <translation>{plot}: Probefläche {number} von {plots}, Befund {finding} von {findings}</translation>
    </message>
</context>
<context>
    <name>SchemeMenu</name>
    <message>
        <source>&amp;Colours</source>
        <translation>&amp;Farben</translation>
    </message>
    <message>
        <source>Like the &amp;system</source>
        <translation>Wie das &amp;System</translation>
    </message>
    <message>
        <source>&amp;Light</source>
        <translation>&amp;Hell</translation>
    </message>
    <message>
        <source>&amp;Dark</source>
        <translation>&amp;Dunkel</translation>
    </message>
</context>
<context>
    <name>SettingsPanel</name>
    <message>
        <source>Settings</source>
        <extracomment>Keys that matter for one kind of design only. A system may be a text of many lines.</extracomment>
        <translation>Einstellungen</translation>
    </message>
    <message>
        <source>Measurement</source>
        <translation>Messung</translation>
    </message>
    <message>
        <source>Sampling design</source>
        <translation>Stichprobenverfahren</translation>
    </message>
    <message>
        <source>Errors of measurement (standard deviations)</source>
        <translation>Messfehler (Standardabweichungen)</translation>
    </message>
    <message>
        <source>List of settings</source>
        <translation>Liste der Einstellungen</translation>
    </message>
    <message>
        <source>Save settings…</source>
        <translation>Einstellungen speichern…</translation>
    </message>
    <message>
        <source>Write these settings to a file; your uploads are never changed</source>
        <translation>Diese Einstellungen in eine Datei schreiben; die Aufnahmedaten werden nie verändert</translation>
    </message>
    <message>
        <source>As opened</source>
        <translation>Wie geöffnet</translation>
    </message>
    <message>
        <source>Go back to the settings with which the uploads were opened</source>
        <translation>Zurück zu den Einstellungen, mit denen die Aufnahmedaten geöffnet wurden</translation>
    </message>
    <message>
        <source>Choose the coordinate system of the plots and of results by name, code or area of use</source>
        <translation>Das Koordinatensystem der Probeflächen und der Ergebnisse nach Name, Kennzahl oder Gebiet wählen</translation>
    </message>
    <message>
        <source>Coordinates</source>
        <translation>Koordinaten</translation>
    </message>
    <message>
        <source>not said</source>
        <translation>nicht gesagt</translation>
    </message>
    <message>
        <source>{system}…</source>
        <translation>{system}…</translation>
    </message>
    <message>
        <source>Coordinate system: {system}</source>
        <translation>Koordinatensystem: {system}</translation>
    </message>
    <message>
        <source>error of {name} {value}</source>
        <translation>Fehler {name} {value}</translation>
    </message>
    <message>
        <source>All that matters was said in the settings of this survey.</source>
        <translation>In den Einstellungen dieser Inventur ist alles Nötige gesagt.</translation>
    </message>
    <message>
        <source>Assumed, because nobody said otherwise: {list}.</source>
        <translation>Angenommen, weil nichts anderes gesagt ist: {list}.</translation>
    </message>
</context>
<context>
    <name>SheetTab</name>
    <message>
        <source>Headings as typed</source>
        <translation>Überschriften wie eingegeben</translation>
    </message>
    <message>
        <source>Heading as typed</source>
        <translation>Überschrift wie eingegeben</translation>
    </message>
    <message>
        <source>First cells as typed</source>
        <translation>Erste Zellen wie eingegeben</translation>
    </message>
    <message>
        <source>Understood as</source>
        <translation>Verstanden als</translation>
    </message>
    <message>
        <source>The first rows as understood</source>
        <translation>Die ersten Zeilen, wie sie verstanden werden</translation>
    </message>
    <message>
        <source>{n} more columns, without a heading or too many to list, are kept as they are.</source>
        <translation>{n} weitere Spalten, ohne Überschrift oder zu viele zum Aufzählen, bleiben, wie sie sind.</translation>
    </message>
    <message>
        <source>What {heading} is understood as</source>
        <translation>Als was {heading} verstanden wird</translation>
    </message>
    <message>
        <source>Position from the centre</source>
        <translation>Lage vom Mittelpunkt aus</translation>
    </message>
    <message>
        <source>no heading is known yet; choose at least plot, azimuth and distance.</source>
        <translation>noch ist keine Überschrift bekannt; mindestens Probefläche, Azimut und Distanz wählen.</translation>
    </message>
    <message>
        <source>no column for {fields} yet.</source>
        <translation>noch keine Spalte für {fields}.</translation>
    </message>
</context>
<context>
    <name>SheetsDialog</name>
    <message>
        <source>Plot sheets</source>
        <translation>Probeflächenblätter</translation>
    </message>
    <message>
        <source>&amp;Every visit, not only the last</source>
        <translation>&amp;Jede Aufnahme, nicht nur die letzte</translation>
    </message>
    <message>
        <source>Da&amp;y of printing on each sheet</source>
        <translation>&amp;Tag des Drucks auf jedem Blatt</translation>
    </message>
    <message>
        <source>within </source>
        <translation>in </translation>
    </message>
    <message>
        <source> hours of field work</source>
        <translation> Stunden Feldarbeit</translation>
    </message>
    <message>
        <source>Hours of field work</source>
        <translation>Stunden Feldarbeit</translation>
    </message>
    <message>
        <source>Minutes for a walk and for a stem stand in the settings file, [recheck]</source>
        <translation>Wie viele Minuten ein Gang und ein Stamm kosten, steht in der Einstellungsdatei unter [recheck]</translation>
    </message>
    <message>
        <source>Plots</source>
        <translation>Probeflächen</translation>
    </message>
    <message>
        <source>&amp;Paper</source>
        <translation>&amp;Papier</translation>
    </message>
    <message>
        <source>the largest that fits each plot</source>
        <translation>der größte, der zu jeder Probefläche passt</translation>
    </message>
    <message>
        <source>&amp;Scale</source>
        <translation>&amp;Maßstab</translation>
    </message>
    <message>
        <source>Paper</source>
        <translation>Papier</translation>
    </message>
    <message>
        <source>Scale</source>
        <translation>Maßstab</translation>
    </message>
    <message>
        <source>P&amp;rint…</source>
        <translation>D&amp;rucken…</translation>
    </message>
    <message>
        <source>Pre&amp;view</source>
        <translation>&amp;Vorschau</translation>
    </message>
    <message>
        <source>Pa&amp;ge setup…</source>
        <translation>Seite ein&amp;richten…</translation>
    </message>
    <message>
        <source>Paper and tray of the printer, where the system has one</source>
        <translation>Papier und Fach des Druckers, wo das System einen hat</translation>
    </message>
    <message>
        <source>Save as P&amp;DF…</source>
        <translation>Als PD&amp;F speichern…</translation>
    </message>
    <message>
        <source>none</source>
        <translation>keiner</translation>
    </message>
    <message>
        <source>&amp;The one shown: {plot}</source>
        <translation>&amp;Die gezeigte: {plot}</translation>
    </message>
    <message>
        <source>Plots with an &amp;error or something to look at</source>
        <translation>Probeflächen mit einem &amp;Fehler oder etwas zu prüfen</translation>
    </message>
    <message>
        <source>What is &amp;worth a walk: plots on the re-check list, in its order</source>
        <translation>Was sich &amp;lohnt: Probeflächen der Nachprüfliste, in deren Reihenfolge</translation>
    </message>
    <message>
        <source>&amp;All plots</source>
        <translation>&amp;Alle Probeflächen</translation>
    </message>
    <message>
        <source>Sheets: {count}. Print at 100 % (actual size); a bar of 100 mm on each sheet shows whether it was.</source>
        <translation>Blätter: {count}. Mit 100 % (Originalgröße) drucken; ein Balken von 100 mm auf jedem Blatt zeigt, ob es stimmte.</translation>
    </message>
</context>
<context>
    <name>StartPage</name>
    <message>
        <source>Which plots can be trusted?</source>
        <extracomment>Surveys opened lately that the page names; the menu has them all. Width of the page&apos;s column in letters, as is good to read.</extracomment>
        <translation>Welchen Probeflächen kann man trauen?</translation>
    </message>
    <message>
        <source>stemmap reads azimuth, distance and dbh as the crew typed them, maps every stem, and shows which records are doubtful and what they change per hectare.</source>
        <translation>stemmap liest Azimut, Abstand und BHD, wie der Trupp sie getippt hat, kartiert jeden Stamm und zeigt, welche Einträge zweifelhaft sind und was sie je Hektar ändern.</translation>
    </message>
    <message>
        <source>Open the files of one survey together, or drop them here: plots and stems as CSV, XLSX, GeoJSON or GeoPackage, with a settings file if there is one. Uploads are only read.</source>
        <translation>Öffnen Sie die Dateien einer Inventur zusammen, oder ziehen Sie sie hierher: Probeflächen und Stämme als CSV, XLSX, GeoJSON oder GeoPackage, mit einer Einstellungsdatei, wenn es eine gibt. Uploads werden nur gelesen.</translation>
    </message>
    <message>
        <source>Open uploads…</source>
        <translation>Aufnahmedaten öffnen…</translation>
    </message>
    <message>
        <source>Choose the files of plots and stems (Ctrl+O)</source>
        <translation>Die Dateien der Probeflächen und Stämme wählen (Strg+O)</translation>
    </message>
    <message>
        <source>Open the sample survey</source>
        <translation>Beispielinventur öffnen</translation>
    </message>
    <message>
        <source>An invented forest with planted recording errors</source>
        <translation>Ein erfundener Wald mit eingebauten Aufnahmefehlern</translation>
    </message>
    <message>
        <source>Opened lately</source>
        <translation>Zuletzt geöffnet</translation>
    </message>
    <message>
        <source>A file of it is no longer where it was:</source>
        <translation>Eine Datei davon ist nicht mehr, wo sie war:</translation>
    </message>
    <message>
        <source>Reading…</source>
        <translation>Wird gelesen…</translation>
    </message>
    <message>
        <source>Progress</source>
        <translation>Fortschritt</translation>
    </message>
    <message>
        <source>Cancel</source>
        <translation>Abbrechen</translation>
    </message>
    <message>
        <source>Stop reading; nothing is changed</source>
        <translation>Das Lesen abbrechen; nichts wird verändert</translation>
    </message>
</context>
<context>
    <name>StemsTable</name>
    <message>
        <source>Stems</source>
        <extracomment>Plot and visit: of no use while the stems of one plot are shown.</extracomment>
        <translation>Stämme</translation>
    </message>
    <message>
        <source>What was typed for each stem and what is derived from it; arrow keys choose a stem.</source>
        <translation>Was zu jedem Stamm getippt wurde und was daraus folgt; die Pfeiltasten wählen einen Stamm.</translation>
    </message>
    <message>
        <source>All plots</source>
        <translation>Alle Probeflächen</translation>
    </message>
    <message>
        <source>Show the stems of the whole survey, not of the selected plot alone</source>
        <translation>Die Stämme der ganzen Inventur zeigen, nicht nur die der gewählten Probefläche</translation>
    </message>
</context>
<context>
    <name>Storing</name>
    <message>
        <source>Another program is writing into {name}.</source>
        <extracomment>So long the window stands still for another program that is writing. So long it waits then without standing still, and how long it is silent about that.</extracomment>
        <translation>Ein anderes Programm schreibt in {name}.</translation>
    </message>
    <message>
        <source>{who} on the computer {computer} (process {process}) has been writing into {name} since {since}.</source>
        <translation>{who} auf dem Rechner {computer} (Prozess {process}) schreibt seit {since} in {name}.</translation>
    </message>
    <message>
        <source>What you decided is stored as soon as that is done.</source>
        <translation>Ihre Entscheidung wird gespeichert, sobald das fertig ist.</translation>
    </message>
</context>
<context>
    <name>StructurePanel</name>
    <message>
        <source>Spatial structure</source>
        <extracomment>Height over width of a diagram, and its least and most width in the panel.</extracomment>
        <translation>Räumliche Struktur</translation>
    </message>
    <message>
        <source>Save diagrams…</source>
        <translation>Diagramme speichern…</translation>
    </message>
    <message>
        <source>Write the diagrams as SVG or PNG, or their values as CSV</source>
        <translation>Die Diagramme als SVG oder PNG schreiben oder ihre Werte als CSV</translation>
    </message>
    <message>
        <source>Compute</source>
        <translation>Berechnen</translation>
    </message>
    <message>
        <source>Compare the stems with chance</source>
        <translation>Die Stämme mit dem Zufall vergleichen</translation>
    </message>
    <message>
        <source>Comparing the stems with chance…</source>
        <translation>Die Stämme werden mit dem Zufall verglichen…</translation>
    </message>
    <message>
        <source>The comparison was stopped.</source>
        <translation>Der Vergleich wurde abgebrochen.</translation>
    </message>
    <message>
        <source>Not known: {reason}.</source>
        <translation>Nicht bekannt: {reason}.</translation>
    </message>
    <message>
        <source>Compared: {reason}.</source>
        <translation>Verglichen: {reason}.</translation>
    </message>
    <message>
        <source>Stratum {name}: {sentence}</source>
        <translation>Stratum {name}: {sentence}</translation>
    </message>
    <message>
        <source>(none)</source>
        <translation>(keines)</translation>
    </message>
</context>
<context>
    <name>SummaryPanel</name>
    <message>
        <source>Summary</source>
        <translation>Auswertung</translation>
    </message>
    <message>
        <source>Living stems</source>
        <translation>Lebende Stämme</translation>
    </message>
    <message>
        <source>Stratum</source>
        <translation>Stratum</translation>
    </message>
    <message>
        <source>Visit</source>
        <translation>Aufnahme</translation>
    </message>
    <message>
        <source>Plots</source>
        <translation>Probeflächen</translation>
    </message>
    <message>
        <source>Stems/ha</source>
        <translation>Stämme/ha</translation>
    </message>
    <message>
        <source>Recorded, in the sample, and too close to the limit to be decided</source>
        <translation>Aufgenommen, in der Stichprobe, und zu nah an der Grenze für eine Entscheidung</translation>
    </message>
    <message>
        <source>Living stems per hectare</source>
        <translation>Lebende Stämme je Hektar</translation>
    </message>
    <message>
        <source>Basal area</source>
        <translation>Grundfläche</translation>
    </message>
    <message>
        <source>Of living stems, square metres per hectare</source>
        <translation>Der lebenden Stämme, Quadratmeter je Hektar</translation>
    </message>
    <message>
        <source>Mean diameter</source>
        <translation>Mitteldurchmesser</translation>
    </message>
    <message>
        <source>Quadratic mean diameter of living stems</source>
        <translation>Quadratischer Mitteldurchmesser der lebenden Stämme</translation>
    </message>
    <message>
        <source>Dead</source>
        <translation>Tot</translation>
    </message>
    <message>
        <source>Dead stems per hectare and their basal area</source>
        <translation>Tote Stämme je Hektar und ihre Grundfläche</translation>
    </message>
    <message>
        <source>Nearest stem</source>
        <translation>Nächster Stamm</translation>
    </message>
    <message>
        <source>Mean distance from a stem to its nearest stem</source>
        <translation>Mittlerer Abstand eines Stammes zu seinem nächsten Nachbarn</translation>
    </message>
    <message>
        <source>Clark-Evans R</source>
        <translation>Clark-Evans R</translation>
    </message>
    <message>
        <source>1 at random, below clumped, above regular; with Donnelly&apos;s edge correction in the disc</source>
        <translation>1 bei Zufall, darunter geklumpt, darüber regelmäßig; mit der Randkorrektur nach Donnelly im Kreis</translation>
    </message>
    <message>
        <source>Uniform angle</source>
        <translation>Winkelindex</translation>
    </message>
    <message>
        <source>About 0.5 at random, below regular, above clumped</source>
        <translation>Etwa 0,5 bei Zufall, darunter regelmäßig, darüber geklumpt</translation>
    </message>
    <message>
        <source>Mingling</source>
        <translation>Durchmischung</translation>
    </message>
    <message>
        <source>Mean share of the four nearest stems that are of another species</source>
        <translation>Mittlerer Anteil anderer Baumarten unter den vier nächsten Stämmen</translation>
    </message>
    <message>
        <source>Species</source>
        <translation>Baumarten</translation>
    </message>
    <message>
        <source>Stems per hectare by species</source>
        <translation>Stämme je Hektar nach Baumart</translation>
    </message>
    <message>
        <source>m²/ha</source>
        <translation>m²/ha</translation>
    </message>
    <message>
        <source>Strata of the survey</source>
        <translation>Straten der Inventur</translation>
    </message>
    <message>
        <source>Mean ± standard error, each line as a simple random sample of its own</source>
        <translation>Mittel ± Standardfehler, jede Zeile als eigene einfache Zufallsstichprobe</translation>
    </message>
    <message>
        <source>no reason given</source>
        <translation>ohne Angabe von Gründen</translation>
    </message>
    <message>
        <source>not known</source>
        <translation>nicht bekannt</translation>
    </message>
    <message>
        <source>{names} not known: {reason}.</source>
        <translation>{names} nicht bekannt: {reason}.</translation>
    </message>
    <message>
        <source>{n} recorded</source>
        <translation>{n} aufgenommen</translation>
    </message>
    <message>
        <source>{n} recorded, {inside} in, {borderline} borderline</source>
        <translation>{n} aufgenommen, {inside} innerhalb, {borderline} Grenzbäume</translation>
    </message>
    <message>
        <source>none</source>
        <translation>keiner</translation>
    </message>
    <message>
        <source>{stems} stems/ha, {area} m²/ha</source>
        <translation>{stems} Stämme/ha, {area} m²/ha</translation>
    </message>
    <message>
        <source>all</source>
        <translation>alle</translation>
    </message>
    <message>
        <source>last</source>
        <translation>letzte</translation>
    </message>
</context>
<context>
    <name>SurveyPanel</name>
    <message>
        <source>Groups beside the whole survey</source>
        <extracomment>More groups than this are never useful side by side; the command line writes all. Width of the titles of lines and of a column, in letters; what is longer stands in the tool tip. Chosen in place of a group: how well the survey was measured.</extracomment>
        <translation>Gruppen neben der ganzen Inventur</translation>
    </message>
    <message>
        <source>Copy</source>
        <translation>Kopieren</translation>
    </message>
    <message>
        <source>Put all lines into the clipboard, as a spreadsheet takes them</source>
        <translation>Alle Zeilen in die Zwischenablage legen, wie eine Tabellenkalkulation sie nimmt</translation>
    </message>
    <message>
        <source>What the survey tells of its fieldwork</source>
        <translation>Was die Inventur über ihre Feldarbeit sagt</translation>
    </message>
    <message>
        <source>Measured a second time</source>
        <translation>Zum zweiten Mal gemessen</translation>
    </message>
    <message>
        <source>The first {n} of {all} are shown.</source>
        <translation>Die ersten {n} von {all} werden gezeigt.</translation>
    </message>
</context>
<context>
    <name>SystemsTable</name>
    <message>
        <source>Coordinate systems</source>
        <translation>Koordinatensysteme</translation>
    </message>
</context>
<context>
    <name>Uploads</name>
    <message>
        <source>Uploads (*.csv *.txt *.tsv *.xlsx *.geojson *.json *.gpkg *.toml);;All files (*)</source>
        <translation>Aufnahmedaten (*.csv *.txt *.tsv *.xlsx *.geojson *.json *.gpkg *.toml);;Alle Dateien (*)</translation>
    </message>
    <message>
        <source>Open uploads</source>
        <translation>Aufnahmedaten öffnen</translation>
    </message>
</context>
<context>
    <name>ValueLine</name>
    <message>
        <source>Value that holds</source>
        <translation>Wert, der gilt</translation>
    </message>
    <message>
        <source>Reason, if there is one to say</source>
        <translation>Grund, wenn es einen zu sagen gibt</translation>
    </message>
    <message>
        <source>Reason</source>
        <translation>Grund</translation>
    </message>
    <message>
        <source>Store</source>
        <translation>Speichern</translation>
    </message>
    <message>
        <source>Leave it</source>
        <translation>Lassen</translation>
    </message>
    <message>
        <source>No. {stem}, {field}:</source>
        <translation>Nr. {stem}, {field}:</translation>
    </message>
    <message>
        <source>{value} is no number.</source>
        <translation>{value} ist keine Zahl.</translation>
    </message>
</context>
<context>
    <name>Watching</name>
    <message>
        <source>The folder {folder} is no longer watched.</source>
        <extracomment>So often the folder is looked into although nothing was told: folders of other computers tell nothing. Milliseconds. A file is written to its end when it is the same after this time, milliseconds. So many survey files keep their folder, and each so many files that were declined.</extracomment>
        <translation>Der Ordner {folder} wird nicht mehr beobachtet.</translation>
    </message>
    <message>
        <source>Watch a folder for uploads</source>
        <translation>Ordner auf Aufnahmedaten beobachten</translation>
    </message>
    <message>
        <source>The folder {folder} cannot be read just now; it is looked at again.</source>
        <translation>Der Ordner {folder} ist gerade nicht lesbar; es wird wieder nachgesehen.</translation>
    </message>
    <message>
        <source>New in the folder {folder}: {names}. Add to {survey}?</source>
        <translation>Neu im Ordner {folder}: {names}. Zu {survey} hinzufügen?</translation>
    </message>
    <message>
        <source>Back from the field, in the folder {folder}: {names}. Take into {survey}?</source>
        <translation>Aus dem Wald zurück, im Ordner {folder}: {names}. In {survey} übernehmen?</translation>
    </message>
    <message>
        <source>&amp;Add</source>
        <translation>&amp;Hinzufügen</translation>
    </message>
    <message>
        <source>&amp;Choose…</source>
        <translation>Aus&amp;wählen…</translation>
    </message>
    <message>
        <source>&amp;Take in</source>
        <translation>&amp;Übernehmen</translation>
    </message>
    <message>
        <source>&amp;Not these</source>
        <translation>&amp;Diese nicht</translation>
    </message>
</context>
<context>
    <name>WorkStatus</name>
    <message>
        <source>Progress</source>
        <translation>Fortschritt</translation>
    </message>
    <message>
        <source>Cancel</source>
        <translation>Abbrechen</translation>
    </message>
    <message>
        <source>Stop what is being done; nothing is changed</source>
        <translation>Abbrechen, was gerade getan wird; nichts wird verändert</translation>
    </message>
</context>
<context>
    <name>about</name>
    <message>
        <source>&lt;b&gt;stemmap {version}&lt;/b&gt;&lt;br&gt;Checks, maps and summarises stem records of circular forest sample plots.</source>
        <translation>&lt;b&gt;stemmap {version}&lt;/b&gt;&lt;br&gt;Prüft, kartiert und wertet Stammdaten kreisförmiger Probeflächen im Wald aus.</translation>
    </message>
    <message>
        <source>The maps and coordinates are no legal survey. Work in the forest is dangerous: wind, slopes, dead trees and traffic come before any measurement, and local safety rules come before anything printed here.</source>
        <translation>Karten und Koordinaten sind keine amtliche Vermessung. Arbeit im Wald ist gefährlich: Wind, Hänge, tote Bäume und Verkehr gehen jeder Messung vor, und die örtlichen Sicherheitsregeln gehen allem vor, was hier gedruckt wird.</translation>
    </message>
    <message>
        <source>stemmap is under the MIT licence. It uses Qt and PySide6 (LGPL 3; their libraries may be replaced), NumPy, SciPy, pandas, GeoPandas, Shapely, pyproj with PROJ and the EPSG dataset, pyogrio with GDAL, Matplotlib, python-calamine, click and ppigrf, each under its own licence, and the typeface Noto Sans (SIL Open Font Licence).</source>
        <translation>stemmap steht unter der MIT-Lizenz. Es nutzt Qt und PySide6 (LGPL 3; deren Bibliotheken dürfen ausgetauscht werden), NumPy, SciPy, pandas, GeoPandas, Shapely, pyproj mit PROJ und dem EPSG-Datensatz, pyogrio mit GDAL, Matplotlib, python-calamine, click und ppigrf, jeweils unter eigener Lizenz, und die Schrift Noto Sans (SIL Open Font Licence).</translation>
    </message>
    <message>
        <source>About stemmap</source>
        <translation>Über stemmap</translation>
    </message>
</context>
<context>
    <name>backgrounds</name>
    <message>
        <source>Layers and pictures ({endings});;All files (*)</source>
        <translation>Layer und Bilder ({endings});;Alle Dateien (*)</translation>
    </message>
    <message>
        <source>Add background</source>
        <translation>Hintergrund hinzufügen</translation>
    </message>
    <message>
        <source>A background needs plots with coordinates; nothing was added.</source>
        <translation>Ein Hintergrund braucht Probeflächen mit Koordinaten; nichts wurde hinzugefügt.</translation>
    </message>
    <message>
        <source>There are several layers; tick under Layers which are shown.</source>
        <translation>Es gibt mehrere Ebenen; unter Ebenen ankreuzen, welche gezeigt werden.</translation>
    </message>
    <message>
        <source>The map lies in another system now; add the backgrounds again.</source>
        <translation>Die Karte liegt jetzt in einem anderen System; die Hintergründe neu hinzufügen.</translation>
    </message>
</context>
<context>
    <name>columns</name>
    <message>
        <source>leave as it is</source>
        <translation>lassen, wie es ist</translation>
    </message>
    <message>
        <source>not understood</source>
        <translation>nicht verstanden</translation>
    </message>
    <message>
        <source>{m} m east</source>
        <translation>{m} m östlich</translation>
    </message>
    <message>
        <source>{m} m west</source>
        <translation>{m} m westlich</translation>
    </message>
    <message>
        <source>{m} m north</source>
        <translation>{m} m nördlich</translation>
    </message>
    <message>
        <source>{m} m south</source>
        <translation>{m} m südlich</translation>
    </message>
</context>
<context>
    <name>commands</name>
    <message>
        <source>&amp;Open uploads…</source>
        <translation>Aufnahmedaten ö&amp;ffnen…</translation>
    </message>
    <message>
        <source>Choose the files of plots and stems</source>
        <translation>Die Dateien der Probeflächen und Stämme wählen</translation>
    </message>
    <message>
        <source>Open the &amp;sample survey</source>
        <translation>Beispiel&amp;inventur öffnen</translation>
    </message>
    <message>
        <source>An invented forest with planted recording errors</source>
        <translation>Ein erfundener Wald mit eingebauten Aufnahmefehlern</translation>
    </message>
    <message>
        <source>Columns of the &amp;upload…</source>
        <translation>Spalten der A&amp;ufnahmedaten…</translation>
    </message>
    <message>
        <source>Say which column of the files is which field, and see the first rows as understood</source>
        <translation>Angeben, welche Spalte der Dateien welches Feld ist, und sehen, wie die ersten Zeilen verstanden werden</translation>
    </message>
    <message>
        <source>&amp;Export stems…</source>
        <translation>&amp;Stämme ausgeben…</translation>
    </message>
    <message>
        <source>Write all stems with their coordinates for a GIS or a spreadsheet</source>
        <translation>Alle Stämme mit Koordinaten für ein GIS oder eine Tabellenkalkulation schreiben</translation>
    </message>
    <message>
        <source>Wr&amp;ite report…</source>
        <translation>Berich&amp;t schreiben…</translation>
    </message>
    <message>
        <source>Write the results of the survey with diagrams, methods and settings, as HTML or PDF</source>
        <translation>Die Ergebnisse der Inventur mit Diagrammen, Methoden und Einstellungen schreiben, als HTML oder PDF</translation>
    </message>
    <message>
        <source>Write the settings in force to a file of their own</source>
        <translation>Die geltenden Einstellungen in eine eigene Datei schreiben</translation>
    </message>
    <message>
        <source>S&amp;top</source>
        <translation>&amp;Abbrechen</translation>
    </message>
    <message>
        <source>Stop what is being done; nothing is changed</source>
        <translation>Abbrechen, was gerade getan wird; nichts wird verändert</translation>
    </message>
    <message>
        <source>&amp;Quit</source>
        <translation>Bee&amp;nden</translation>
    </message>
    <message>
        <source>Close the program; your files are as they were</source>
        <translation>Das Programm schließen; Ihre Dateien sind, wie sie waren</translation>
    </message>
    <message>
        <source>Show the map at 1:{scale} on this screen, by the size the screen reports</source>
        <extracomment>Denominators of the scales at which the map can be shown true to scale.</extracomment>
        <translation>Die Karte auf diesem Bildschirm in 1:{scale} zeigen, nach der Größe, die er meldet</translation>
    </message>
    <message>
        <source>Zoom &amp;in</source>
        <translation>&amp;Hineinzoomen</translation>
    </message>
    <message>
        <source>Enlarge the map; the wheel does it at the pointer</source>
        <translation>Die Karte vergrößern; das Mausrad tut es am Zeiger</translation>
    </message>
    <message>
        <source>Zoom &amp;out</source>
        <translation>Hina&amp;uszoomen</translation>
    </message>
    <message>
        <source>Reduce the map, from a plot over to all plots</source>
        <translation>Die Karte verkleinern, von einer Probefläche bis zu allen</translation>
    </message>
    <message>
        <source>Fit the plot, or all plots, into the map; a double click does the same</source>
        <translation>Die Probefläche oder alle in die Karte einpassen; ein Doppelklick tut dasselbe</translation>
    </message>
    <message>
        <source>&amp;All plots</source>
        <translation>&amp;Alle Probeflächen</translation>
    </message>
    <message>
        <source>Show all plots at their places; on the map the Home key does it</source>
        <translation>Alle Probeflächen an ihren Orten zeigen; auf der Karte tut es die Taste Pos1</translation>
    </message>
    <message>
        <source>Into t&amp;he plot</source>
        <translation>&amp;In die Probefläche</translation>
    </message>
    <message>
        <source>Show the stems of the selected plot; on the map the Enter key does it</source>
        <translation>Die Stämme der gewählten Probefläche zeigen; auf der Karte tut es die Eingabetaste</translation>
    </message>
    <message>
        <source>&amp;Go to…</source>
        <translation>&amp;Gehe zu…</translation>
    </message>
    <message>
        <source>Type a plot, a stem or coordinates to go there</source>
        <translation>Eine Probefläche, einen Stamm oder Koordinaten tippen, um hinzugehen</translation>
    </message>
    <message>
        <source>&amp;Measure</source>
        <translation>&amp;Messen</translation>
    </message>
    <message>
        <source>Drag from point to point to read distance and grid azimuth; once more ends it</source>
        <translation>Von Punkt zu Punkt ziehen, um Abstand und Gitterazimut zu lesen; noch einmal beendet es</translation>
    </message>
    <message>
        <source>A&amp;dd background…</source>
        <translation>Hintergrun&amp;d hinzufügen…</translation>
    </message>
    <message>
        <source>Remove bac&amp;kgrounds</source>
        <translation>Hintergründe &amp;wegnehmen</translation>
    </message>
    <message>
        <source>Put your own GeoPackage, GeoJSON, GeoTIFF or picture with a world file under the map</source>
        <translation>Eigenes GeoPackage, GeoJSON, GeoTIFF oder ein Bild mit World-Datei unter die Karte legen</translation>
    </message>
    <message>
        <source>Take all files of your own from under the map; the files stay as they are</source>
        <translation>Alle eigenen Dateien unter der Karte wegnehmen; die Dateien bleiben, wie sie sind</translation>
    </message>
    <message>
        <source>What the fill of a stem stands for</source>
        <translation>Wofür die Füllung eines Stammes steht</translation>
    </message>
    <message>
        <source>&amp;Whole plot</source>
        <translation>Ganze &amp;Probefläche</translation>
    </message>
    <message>
        <source>&amp;Print plot sheets…</source>
        <translation>&amp;Probeflächenblätter drucken…</translation>
    </message>
    <message>
        <source>Maps at true scale with lists of stems to measure again: on a printer or as PDF</source>
        <translation>Maßstäbliche Karten mit Listen der Stämme zum Nachmessen: auf einem Drucker oder als PDF</translation>
    </message>
    <message>
        <source>&amp;Copy map</source>
        <translation>&amp;Karte kopieren</translation>
    </message>
    <message>
        <source>Put the map of the plot shown on the clipboard, and its stems as a table</source>
        <translation>Die Karte der gezeigten Probefläche in die Zwischenablage legen, und ihre Stämme als Tabelle</translation>
    </message>
    <message>
        <source>Save &amp;map as a picture…</source>
        <translation>Karte als &amp;Bild speichern…</translation>
    </message>
    <message>
        <source>Write the map of the plot shown as PNG or SVG</source>
        <translation>Die Karte der gezeigten Probefläche als PNG oder SVG schreiben</translation>
    </message>
    <message>
        <source>Sa&amp;ve settings…</source>
        <translation>&amp;Einstellungen speichern…</translation>
    </message>
    <message>
        <source>Start the &amp;round</source>
        <translation>&amp;Rundgang beginnen</translation>
    </message>
    <message>
        <source>Go through what needs a look, plot after plot, with the map as large as the window</source>
        <translation>Durchgehen, was zu prüfen ist, Probefläche für Probefläche, mit der Karte so groß wie das Fenster</translation>
    </message>
    <message>
        <source>Go &amp;on</source>
        <translation>&amp;Weiter</translation>
    </message>
    <message>
        <source>Go to the next finding of the round</source>
        <translation>Zum nächsten Befund des Rundgangs gehen</translation>
    </message>
    <message>
        <source>Go &amp;back</source>
        <translation>&amp;Zurück</translation>
    </message>
    <message>
        <source>Go back to the finding before</source>
        <translation>Zurück zum Befund davor</translation>
    </message>
    <message>
        <source>&amp;End the round</source>
        <translation>Rundgang be&amp;enden</translation>
    </message>
    <message>
        <source>Show all panels again, at the finding reached</source>
        <translation>Wieder alle Bereiche zeigen, beim erreichten Befund</translation>
    </message>
    <message>
        <source>Notes &amp;too</source>
        <translation>&amp;Auch Hinweise</translation>
    </message>
    <message>
        <source>Let the round go through the notes as well, or leave them out again</source>
        <translation>Den Rundgang auch durch die Hinweise führen oder sie wieder auslassen</translation>
    </message>
    <message>
        <source>&amp;Next plot</source>
        <translation>&amp;Nächste Probefläche</translation>
    </message>
    <message>
        <source>Go to the next plot and visit</source>
        <translation>Zur nächsten Probefläche und Aufnahme gehen</translation>
    </message>
    <message>
        <source>&amp;Previous plot</source>
        <translation>&amp;Vorige Probefläche</translation>
    </message>
    <message>
        <source>Go to the plot and visit before</source>
        <translation>Zur Probefläche und Aufnahme davor gehen</translation>
    </message>
    <message>
        <source>Next &amp;finding</source>
        <translation>Nächster &amp;Befund</translation>
    </message>
    <message>
        <source>Go to the next error or thing to look at, over to other plots</source>
        <translation>Zum nächsten Fehler oder zu Prüfenden gehen, auch auf anderen Probeflächen</translation>
    </message>
    <message>
        <source>Previous f&amp;inding</source>
        <translation>V&amp;origer Befund</translation>
    </message>
    <message>
        <source>Go to the error or thing to look at before</source>
        <translation>Zum Fehler oder zu Prüfenden davor gehen</translation>
    </message>
    <message>
        <source>&amp;Settings</source>
        <translation>E&amp;instellungen</translation>
    </message>
    <message>
        <source>Units, north, design and errors of the open survey</source>
        <translation>Einheiten, Nordrichtung, Verfahren und Messfehler der offenen Inventur</translation>
    </message>
    <message>
        <source>&amp;Full screen</source>
        <translation>&amp;Vollbild</translation>
    </message>
    <message>
        <source>Give the window the whole screen, and back</source>
        <translation>Dem Fenster den ganzen Bildschirm geben, und zurück</translation>
    </message>
    <message>
        <source>&amp;Handbook</source>
        <translation>&amp;Handbuch</translation>
    </message>
    <message>
        <source>First steps, keys, formats, formulas with their sources, all checks</source>
        <translation>Erste Schritte, Tasten, Dateien, Formeln mit Quellen, alle Prüfungen (englisch)</translation>
    </message>
    <message>
        <source>&amp;About stemmap</source>
        <translation>Ü&amp;ber stemmap</translation>
    </message>
    <message>
        <source>Version, licences, and what the maps are not</source>
        <translation>Version, Lizenzen, und was die Karten nicht sind</translation>
    </message>
    <message>
        <source>Other &amp;visit</source>
        <translation>Andere A&amp;ufnahme</translation>
    </message>
    <message>
        <source>Show the visit before of the same plot and stem, and at the first one the last</source>
        <translation>Die Aufnahme davor zeigen, gleiche Probefläche und gleicher Stamm, und bei der ersten die letzte</translation>
    </message>
    <message>
        <source>Find a ste&amp;m</source>
        <translation>&amp;Stamm suchen</translation>
    </message>
    <message>
        <source>Look for stems in all plots by number, species or any word, such as plot 20 stem 30</source>
        <translation>Stämme in allen Probeflächen suchen, nach Nummer, Baumart oder jedem Wort, etwa Probefläche 20 Stamm 30</translation>
    </message>
    <message>
        <source>Find fin&amp;dings</source>
        <translation>Befun&amp;de suchen</translation>
    </message>
    <message>
        <source>Look for findings of the whole survey by any word</source>
        <translation>Befunde der ganzen Inventur nach jedem Wort suchen</translation>
    </message>
    <message>
        <source>&amp;Coordinate system…</source>
        <translation>&amp;Koordinatensystem…</translation>
    </message>
    <message>
        <source>Choose the coordinate system of results by name, code or area of use</source>
        <translation>Das Koordinatensystem der Ergebnisse nach Name, Kennzahl oder Gebiet wählen</translation>
    </message>
    <message>
        <source>Col&amp;umns of the table</source>
        <translation>&amp;Spalten der Tabelle</translation>
    </message>
    <message>
        <source>Choose what the table with the focus shows; its headings have the same menu</source>
        <translation>Wählen, was die Tabelle mit dem Fokus zeigt; ihre Überschriften haben dasselbe Menü</translation>
    </message>
    <message>
        <source>&amp;Reset the panels</source>
        <translation>Bereiche &amp;zurücksetzen</translation>
    </message>
    <message>
        <source>Put all panels back where they were at first</source>
        <translation>Alle Bereiche dorthin zurückbringen, wo sie anfangs waren</translation>
    </message>
    <message>
        <source>All &amp;commands and keys</source>
        <translation>Alle B&amp;efehle und Tasten</translation>
    </message>
    <message>
        <source>Find a command by typing, with the key for it</source>
        <translation>Einen Befehl durch Tippen suchen, mit der Taste dafür</translation>
    </message>
    <message>
        <source>&amp;What is this?</source>
        <translation>&amp;Was ist das?</translation>
    </message>
    <message>
        <source>Click on a part of the window to be told what it is for</source>
        <translation>Auf einen Teil des Fensters klicken, um zu erfahren, wozu er dient</translation>
    </message>
    <message>
        <source>Pre&amp;ferences…</source>
        <translation>&amp;Voreinstellungen…</translation>
    </message>
    <message>
        <source>Language and colours of the program</source>
        <translation>Sprache und Farben des Programms</translation>
    </message>
    <message>
        <source>&amp;Keep as survey file…</source>
        <translation>Als Inventur&amp;datei behalten…</translation>
    </message>
    <message>
        <source>Put the uploads into one file that keeps every decision and opens in any GIS</source>
        <translation>Die Uploads in eine Datei legen, die jede Entscheidung behält und sich in jedem GIS öffnet</translation>
    </message>
    <message>
        <source>&amp;Add uploads…</source>
        <translation>Aufnahmedaten &amp;hinzufügen…</translation>
    </message>
    <message>
        <source>Add files of plots and stems to the open survey file; you are asked about what differs</source>
        <translation>Dateien mit Probeflächen und Stämmen zur offenen Inventurdatei hinzufügen; was sich unterscheidet, wird gefragt</translation>
    </message>
    <message>
        <source>&amp;Watch a folder for uploads…</source>
        <translation>Ordner auf Aufnahmedaten beoba&amp;chten…</translation>
    </message>
    <message>
        <source>Files that come into a folder are offered for the survey file; ticked while that is so</source>
        <translation>Dateien, die in einen Ordner kommen, werden für die Inventurdatei angeboten; angehakt, solange das so ist</translation>
    </message>
    <message>
        <source>&amp;Correct as proposed</source>
        <translation>Berichtigen wie &amp;vorgeschlagen</translation>
    </message>
    <message>
        <source>The most probable proposal was meant; what was typed stays in the records</source>
        <translation>Der wahrscheinlichste Vorschlag war gemeint; was getippt wurde, bleibt in den Aufnahmen</translation>
    </message>
    <message>
        <source>Correct: &amp;second proposal</source>
        <translation>Berichtigen: &amp;zweiter Vorschlag</translation>
    </message>
    <message>
        <source>The second proposal was meant</source>
        <translation>Der zweite Vorschlag war gemeint</translation>
    </message>
    <message>
        <source>Correct: &amp;third proposal</source>
        <translation>Berichtigen: &amp;dritter Vorschlag</translation>
    </message>
    <message>
        <source>The third proposal was meant</source>
        <translation>Der dritte Vorschlag war gemeint</translation>
    </message>
    <message>
        <source>&amp;Other value…</source>
        <translation>&amp;Anderer Wert…</translation>
    </message>
    <message>
        <source>Another value than the proposed ones holds</source>
        <translation>Ein anderer als die vorgeschlagenen Werte gilt</translation>
    </message>
    <message>
        <source>&amp;Keep as recorded</source>
        <translation>&amp;Behalten wie aufgenommen</translation>
    </message>
    <message>
        <source>The record is right; the finding stays away until the record changes</source>
        <translation>Die Aufnahme ist richtig; der Befund bleibt weg, bis sich die Aufnahme ändert</translation>
    </message>
    <message>
        <source>Measure a&amp;gain</source>
        <translation>&amp;Nachmessen</translation>
    </message>
    <message>
        <source>Send the crew</source>
        <translation>Den Trupp schicken</translation>
    </message>
    <message>
        <source>Reason o&amp;f the next decision…</source>
        <translation>&amp;Grund der nächsten Entscheidung…</translation>
    </message>
    <message>
        <source>Say why before you decide; decisions without a reason are stored as well</source>
        <translation>Vor dem Entscheiden sagen, warum; auch ohne Grund wird gespeichert</translation>
    </message>
    <message>
        <source>&amp;Undo</source>
        <translation>&amp;Rückgängig</translation>
    </message>
    <message>
        <source>Undo the last decision; the journal keeps both</source>
        <translation>Die letzte Entscheidung zurücknehmen; das Journal behält beides</translation>
    </message>
    <message>
        <source>&amp;Redo</source>
        <translation>&amp;Wiederherstellen</translation>
    </message>
    <message>
        <source>Let the decision that was undone last hold again</source>
        <translation>Die zuletzt zurückgenommene Entscheidung wieder gelten lassen</translation>
    </message>
    <message>
        <source>&amp;Journal</source>
        <translation>&amp;Journal</translation>
    </message>
    <message>
        <source>All decisions: who, when, what, why</source>
        <translation>Alle Entscheidungen: wer, wann, was, warum</translation>
    </message>
    <message>
        <source>&amp;Who decides…</source>
        <translation>Wer &amp;entscheidet…</translation>
    </message>
    <message>
        <source>The name that stands in the journal</source>
        <translation>Der Name, der im Journal steht</translation>
    </message>
    <message>
        <source>Fie&amp;ld packet…</source>
        <translation>Fe&amp;ldpaket…</translation>
    </message>
    <message>
        <source>Send a crew out: plot sheets, a table to fill in, the way to the plots, in one folder</source>
        <translation>Einen Trupp hinausschicken: Probeflächenblätter, eine Tabelle zum Ausfüllen, der Weg zu den Probeflächen, in einem Ordner</translation>
    </message>
    <message>
        <source>Re-measureme&amp;nts…</source>
        <translation>Nach&amp;messungen…</translation>
    </message>
    <message>
        <source>Take in tables of field packets that crews filled in; no record is changed by it</source>
        <translation>Ausgefüllte Tabellen von Feldpaketen übernehmen; keine Aufnahme wird dadurch geändert</translation>
    </message>
</context>
<context>
    <name>crs_chooser</name>
    <message>
        <source>degrees</source>
        <translation>Grad</translation>
    </message>
    <message>
        <source>projected</source>
        <translation>projiziert</translation>
    </message>
    <message>
        <source>name</source>
        <translation>Name</translation>
    </message>
    <message>
        <source>name of the coordinate system</source>
        <translation>Name des Koordinatensystems</translation>
    </message>
    <message>
        <source>code</source>
        <translation>Kennzahl</translation>
    </message>
    <message>
        <source>its code in the EPSG dataset</source>
        <translation>seine Kennzahl im EPSG-Datensatz</translation>
    </message>
    <message>
        <source>kind</source>
        <translation>Art</translation>
    </message>
    <message>
        <source>longitude and latitude in degrees, or easting and northing</source>
        <translation>Länge und Breite in Grad, oder Ostwert und Nordwert</translation>
    </message>
    <message>
        <source>area of use</source>
        <translation>Gebiet</translation>
    </message>
    <message>
        <source>where it may be used</source>
        <translation>wo es gilt</translation>
    </message>
</context>
<context>
    <name>decision_words</name>
    <message>
        <source>corrected as proposed</source>
        <translation>berichtigt wie vorgeschlagen</translation>
    </message>
    <message>
        <source>another value</source>
        <translation>anderer Wert</translation>
    </message>
    <message>
        <source>kept as recorded</source>
        <translation>behalten wie aufgenommen</translation>
    </message>
    <message>
        <source>measure again</source>
        <translation>nachmessen</translation>
    </message>
    <message>
        <source>undone</source>
        <translation>zurückgenommen</translation>
    </message>
    <message>
        <source>done again</source>
        <translation>wiederhergestellt</translation>
    </message>
    <message>
        <source>lost in a damaged file</source>
        <translation>in einer beschädigten Datei verloren</translation>
    </message>
    <message>
        <source>the files</source>
        <translation>die Dateien</translation>
    </message>
    <message>
        <source>plot {plot}</source>
        <translation>Probefläche {plot}</translation>
    </message>
    <message>
        <source>stem {stem}</source>
        <translation>Stamm {stem}</translation>
    </message>
    <message>
        <source>taken over as a stem</source>
        <translation>als Stamm übernommen</translation>
    </message>
    <message>
        <source>struck, counted nowhere</source>
        <translation>gestrichen, zählt nirgends</translation>
    </message>
    <message>
        <source>{label}, {field} {old} → {new}</source>
        <translation>{label}, {field} {old} → {new}</translation>
    </message>
    <message>
        <source>Decided: {what}. {who}, {when}.</source>
        <translation>Entschieden: {what}. {who}, {when}.</translation>
    </message>
    <message>
        <source>Reason: {why}</source>
        <translation>Grund: {why}</translation>
    </message>
</context>
<context>
    <name>difference_window</name>
    <message>
        <source>new in the upload</source>
        <translation>neu in den Aufnahmedaten</translation>
    </message>
    <message>
        <source>no more in the upload</source>
        <translation>nicht mehr in den Aufnahmedaten</translation>
    </message>
    <message>
        <source>changed</source>
        <translation>geändert</translation>
    </message>
    <message>
        <source>what</source>
        <translation>was</translation>
    </message>
    <message>
        <source>plot</source>
        <translation>Plot</translation>
    </message>
    <message>
        <source>visit</source>
        <translation>Aufnahme</translation>
    </message>
    <message>
        <source>stem</source>
        <translation>Stamm</translation>
    </message>
    <message>
        <source>field</source>
        <translation>Feld</translation>
    </message>
    <message>
        <source>survey file</source>
        <translation>Inventurdatei</translation>
    </message>
    <message>
        <source>upload</source>
        <translation>Aufnahmedaten</translation>
    </message>
</context>
<context>
    <name>estimates_view</name>
    <message>
        <source>The survey at visit {visit}</source>
        <translation>Die Inventur bei Aufnahme {visit}</translation>
    </message>
    <message>
        <source>The survey</source>
        <translation>Die Inventur</translation>
    </message>
    <message>
        <source>What its error is made of</source>
        <translation>Woraus ihr Fehler besteht</translation>
    </message>
    <message>
        <source>Change</source>
        <translation>Veränderung</translation>
    </message>
</context>
<context>
    <name>faults</name>
    <message>
        <source>There is not enough memory for this; nothing was changed. Open fewer plots at a time.</source>
        <translation>Dafür reicht der Speicher nicht; nichts wurde verändert. Öffnen Sie weniger Probeflächen auf einmal.</translation>
    </message>
    <message>
        <source>Something went wrong inside the program ({kind}). What was open is kept as it was.</source>
        <translation>Im Programm ist etwas schiefgegangen ({kind}). Was offen war, ist unverändert.</translation>
    </message>
    <message>
        <source>Please report it with the file {path}.</source>
        <translation>Bitte melden Sie es mit der Datei {path}.</translation>
    </message>
</context>
<context>
    <name>findings_table</name>
    <message>
        <source>sentence</source>
        <translation>Satz</translation>
    </message>
    <message>
        <source>what was found</source>
        <translation>was gefunden wurde</translation>
    </message>
    <message>
        <source>severity</source>
        <translation>Schwere</translation>
    </message>
    <message>
        <source>how grave it is</source>
        <translation>wie schwer es wiegt</translation>
    </message>
    <message>
        <source>plot</source>
        <translation>Probefläche</translation>
    </message>
    <message>
        <source>plot as typed</source>
        <translation>Probefläche wie getippt</translation>
    </message>
    <message>
        <source>visit</source>
        <translation>Aufnahme</translation>
    </message>
    <message>
        <source>visit as typed</source>
        <translation>Aufnahme wie getippt</translation>
    </message>
    <message>
        <source>stem</source>
        <translation>Stamm</translation>
    </message>
    <message>
        <source>stem number as typed</source>
        <translation>Stammnummer wie getippt</translation>
    </message>
    <message>
        <source>check</source>
        <translation>Prüfung</translation>
    </message>
    <message>
        <source>kind of doubt</source>
        <translation>Art des Zweifels</translation>
    </message>
    <message>
        <source>stems/ha</source>
        <translation>Stämme/ha</translation>
    </message>
    <message>
        <source>stems per hectare in doubt</source>
        <translation>zweifelhafte Stämme je Hektar</translation>
    </message>
    <message>
        <source>m²/ha</source>
        <translation>m²/ha</translation>
    </message>
    <message>
        <source>basal area in doubt, square metres per hectare</source>
        <translation>zweifelhafte Grundfläche, Quadratmeter je Hektar</translation>
    </message>
    <message>
        <source>worth, %</source>
        <translation>Wert, %</translation>
    </message>
    <message>
        <source>what a second look is worth: by how much the values per hectare of the plot are expected to change, in percent of an average plot, all doubts about the stem or the plot together</source>
        <translation>was ein zweiter Blick wert ist: um wie viel sich die Hektarwerte der Probefläche voraussichtlich ändern, in Prozent einer mittleren Probefläche, alle Zweifel am Stamm oder an der Probefläche zusammen</translation>
    </message>
</context>
<context>
    <name>goto</name>
    <message>
        <source>Plot, plot/stem, or coordinates</source>
        <extracomment>Between two numbers: a semicolon, a comma with a blank, or a blank before a number.</extracomment>
        <translation>Probefläche, Probefläche/Stamm oder Koordinaten</translation>
    </message>
    <message>
        <source>Go to</source>
        <translation>Gehe zu</translation>
    </message>
    <message>
        <source>For example 12, 12/7, /7 for a stem of this plot, 4471200 5324100, or 13.40 E 52.52 N</source>
        <translation>Zum Beispiel 12, 12/7, /7 für einen Stamm dieser Probefläche, 4471200 5324100 oder 13.40 E 52.52 N</translation>
    </message>
    <message>
        <source>Answer</source>
        <translation>Antwort</translation>
    </message>
    <message>
        <source>There is no plot, stem or place “{text}”.</source>
        <translation>Es gibt keine Probefläche, keinen Stamm und keinen Ort „{text}“.</translation>
    </message>
</context>
<context>
    <name>journal_panel</name>
    <message>
        <source>time</source>
        <translation>Zeit</translation>
    </message>
    <message>
        <source>who</source>
        <translation>wer</translation>
    </message>
    <message>
        <source>plot</source>
        <translation>Probefläche</translation>
    </message>
    <message>
        <source>visit</source>
        <translation>Aufnahme</translation>
    </message>
    <message>
        <source>stem</source>
        <translation>Stamm</translation>
    </message>
    <message>
        <source>decision</source>
        <translation>Entscheidung</translation>
    </message>
    <message>
        <source>field</source>
        <translation>Feld</translation>
    </message>
    <message>
        <source>old</source>
        <translation>alt</translation>
    </message>
    <message>
        <source>new</source>
        <translation>neu</translation>
    </message>
    <message>
        <source>why</source>
        <translation>warum</translation>
    </message>
    <message>
        <source>entry</source>
        <translation>Eintrag</translation>
    </message>
    <message>
        <source>number of the entry, from 1 without gaps</source>
        <translation>Nummer des Eintrags, ab 1 ohne Lücken</translation>
    </message>
</context>
<context>
    <name>layers</name>
    <message>
        <source>&amp;Stems</source>
        <translation>&amp;Stämme</translation>
    </message>
    <message>
        <source>The marks of the stems, to scale</source>
        <translation>Die Zeichen der Stämme, maßstäblich</translation>
    </message>
    <message>
        <source>&amp;Numbers</source>
        <translation>&amp;Nummern</translation>
    </message>
    <message>
        <source>Stem numbers; names of plots on the whole survey</source>
        <translation>Stammnummern; Namen der Probeflächen auf der ganzen Inventur</translation>
    </message>
    <message>
        <source>S&amp;pecies</source>
        <translation>Baum&amp;arten</translation>
    </message>
    <message>
        <source>The species in words beside each stem</source>
        <translation>Die Baumart in Worten neben jedem Stamm</translation>
    </message>
    <message>
        <source>&amp;Findings</source>
        <translation>&amp;Befunde</translation>
    </message>
    <message>
        <source>Outlines, letters and where a stem may stand</source>
        <translation>Umrisse, Buchstaben und wo ein Stamm stehen könnte</translation>
    </message>
    <message>
        <source>&amp;Last visit</source>
        <translation>&amp;Letzte Aufnahme</translation>
    </message>
    <message>
        <source>Where the stems stood at the visit before</source>
        <translation>Wo die Stämme bei der Aufnahme davor standen</translation>
    </message>
    <message>
        <source>&amp;Uncertainty</source>
        <translation>&amp;Unsicherheit</translation>
    </message>
    <message>
        <source>Ellipses of two standard deviations of each position</source>
        <translation>Ellipsen von zwei Standardabweichungen jedes Ortes</translation>
    </message>
    <message>
        <source>&amp;Circles</source>
        <translation>&amp;Kreise</translation>
    </message>
    <message>
        <source>Borders of the plot</source>
        <translation>Grenzen der Probefläche</translation>
    </message>
    <message>
        <source>&amp;Borderline zone</source>
        <translation>&amp;Grenzbereich</translation>
    </message>
    <message>
        <source>The ring in which a stem is too close to a border to be decided from the centre</source>
        <translation>Der Ring, in dem ein Stamm zu nah an einer Grenze steht, um vom Mittelpunkt aus entschieden zu werden</translation>
    </message>
    <message>
        <source>P&amp;olar grid</source>
        <translation>P&amp;olarnetz</translation>
    </message>
    <message>
        <source>Rings at round distances and rays of azimuth</source>
        <translation>Ringe in runden Abständen und Strahlen des Azimuts</translation>
    </message>
    <message>
        <source>Pro&amp;jected grid</source>
        <translation>Koordina&amp;tengitter</translation>
    </message>
    <message>
        <source>Lines of round easting and northing with their coordinates</source>
        <translation>Linien runder Ost- und Nordwerte mit ihren Koordinaten</translation>
    </message>
    <message>
        <source>&amp;Hidden ground</source>
        <translation>&amp;Verdeckter Boden</translation>
    </message>
    <message>
        <source>Hatching of the ground that stems hide from the centre</source>
        <translation>Schraffur des Bodens, den Stämme vom Mittelpunkt aus verdecken</translation>
    </message>
    <message>
        <source>O&amp;rder of numbers</source>
        <translation>&amp;Reihenfolge der Nummern</translation>
    </message>
    <message>
        <source>A path from stem to stem by number, in which a break in the order is seen</source>
        <translation>Ein Weg von Stamm zu Stamm nach der Nummer, an dem man einen Bruch der Reihenfolge sieht</translation>
    </message>
    <message>
        <source>B&amp;ackgrounds</source>
        <translation>&amp;Hintergründe</translation>
    </message>
    <message>
        <source>The files of your own under the map</source>
        <translation>Die eigenen Dateien unter der Karte</translation>
    </message>
    <message>
        <source>L&amp;egend</source>
        <translation>L&amp;egende</translation>
    </message>
    <message>
        <source>Show what the marks mean, or give its room to the map</source>
        <translation>Zeigen, was die Zeichen bedeuten, oder den Platz der Karte geben</translation>
    </message>
    <message>
        <source>Species</source>
        <translation>Baumarten</translation>
    </message>
    <message>
        <source>Status</source>
        <translation>Status</translation>
    </message>
    <message>
        <source>dbh</source>
        <translation>BHD</translation>
    </message>
    <message>
        <source>New since the last visit</source>
        <translation>Neu seit der letzten Aufnahme</translation>
    </message>
    <message>
        <source>Finding</source>
        <translation>Befund</translation>
    </message>
    <message>
        <source>Layers</source>
        <translation>Ebenen</translation>
    </message>
    <message>
        <source>Fill by</source>
        <translation>Füllen nach</translation>
    </message>
    <message>
        <source>Stems drawn</source>
        <translation>Stämme gezeichnet</translation>
    </message>
    <message>
        <source>to scale</source>
        <translation>maßstäblich</translation>
    </message>
    <message>
        <source>{factor} times as thick</source>
        <translation>{factor}-mal so dick</translation>
    </message>
    <message>
        <source>Backgrounds</source>
        <translation>Hintergründe</translation>
    </message>
</context>
<context>
    <name>map</name>
    <message>
        <source>no species</source>
        <extracomment>Limits of the dbh classes in centimetres; a stem on a limit is in the class above it. The same on every map.</extracomment>
        <translation>ohne Baumart</translation>
    </message>
    <message>
        <source>living</source>
        <translation>lebend</translation>
    </message>
    <message>
        <source>dead</source>
        <translation>tot</translation>
    </message>
    <message>
        <source>cut</source>
        <translation>entnommen</translation>
    </message>
    <message>
        <source>gone</source>
        <translation>verschwunden</translation>
    </message>
    <message>
        <source>status not understood</source>
        <translation>Status nicht verstanden</translation>
    </message>
    <message>
        <source>dbh not known</source>
        <translation>BHD nicht bekannt</translation>
    </message>
    <message>
        <source>also at the last visit</source>
        <translation>auch bei der letzten Aufnahme</translation>
    </message>
    <message>
        <source>new since the last visit</source>
        <translation>neu seit der letzten Aufnahme</translation>
    </message>
    <message>
        <source>not to be compared</source>
        <translation>nicht zu vergleichen</translation>
    </message>
    <message>
        <source>with an error</source>
        <translation>mit einem Fehler</translation>
    </message>
    <message>
        <source>to look at</source>
        <translation>zu prüfen</translation>
    </message>
    <message>
        <source>with a note</source>
        <translation>mit einem Hinweis</translation>
    </message>
    <message>
        <source>without findings</source>
        <translation>ohne Befunde</translation>
    </message>
    <message>
        <source>dbh below {high:g} cm</source>
        <translation>BHD unter {high:g} cm</translation>
    </message>
    <message>
        <source>dbh {low:g} to below {high:g} cm</source>
        <translation>BHD {low:g} bis unter {high:g} cm</translation>
    </message>
    <message>
        <source>dbh {low:g} cm and more</source>
        <translation>BHD {low:g} cm und mehr</translation>
    </message>
    <message>
        <source>record not understood</source>
        <translation>Eintrag nicht verstanden</translation>
    </message>
    <message>
        <source>in or out of the circle</source>
        <translation>innen oder außen</translation>
    </message>
    <message>
        <source>may be mistyped</source>
        <translation>vielleicht vertippt</translation>
    </message>
    <message>
        <source>diameter</source>
        <translation>Durchmesser</translation>
    </message>
    <message>
        <source>against another measurement</source>
        <translation>gegen eine andere Messung</translation>
    </message>
    <message>
        <source>hidden from the centre</source>
        <translation>vom Mittelpunkt aus verdeckt</translation>
    </message>
    <message>
        <source>error</source>
        <translation>Fehler</translation>
    </message>
    <message>
        <source>note</source>
        <translation>Hinweis</translation>
    </message>
    <message>
        <source>not seen from the centre</source>
        <translation>vom Mittelpunkt aus nicht gesehen</translation>
    </message>
    <message>
        <source>order of numbers, from the ring</source>
        <translation>Reihenfolge der Nummern, vom Ring aus</translation>
    </message>
    <message>
        <source>and {count} more species</source>
        <translation>und {count} weitere Baumarten</translation>
    </message>
    <message>
        <source>out (hollow)</source>
        <translation>außerhalb (hohl)</translation>
    </message>
    <message>
        <source>at the last visit</source>
        <translation>bei der letzten Aufnahme</translation>
    </message>
    <message>
        <source>position, 2 standard deviations</source>
        <translation>Ort, 2 Standardabweichungen</translation>
    </message>
    <message>
        <source>circle, radius {radii} m</source>
        <translation>Kreis, Radius {radii} m</translation>
    </message>
    <message>
        <source>circle on the slope, radius {radii} m</source>
        <translation>Kreis am Hang, Radius {radii} m</translation>
    </message>
    <message>
        <source>borderline zone, ± {width:.2f} m</source>
        <translation>Grenzbereich, ± {width:.2f} m</translation>
    </message>
    <message>
        <source>where it may stand</source>
        <translation>wo er stehen könnte</translation>
    </message>
    <message>
        <source>as typed, before it was decided</source>
        <translation>Ort wie eingegeben</translation>
    </message>
    <message>
        <source>{text} at {distance}</source>
        <extracomment>Characters of the longest number drawn in full. Beyond this many stems only those with findings get a number, and no more than this. Beyond this many stems none gets one: each number is tried against all stems, and there is no room anyway. A line that numbers keep clear of is taken as points this far apart, each with this radius.</extracomment>
        <translation>{text} bei {distance}</translation>
    </message>
    <message>
        <source>{given} counts in degrees, so the plots are shown in {crs}.</source>
        <extracomment>States of a plot, the gravest first. Side of the smallest cells, metres; on the map a cell is at least so many millimetres wide. Bits of a cell&apos;s number along one axis; enough for the whole earth.</extracomment>
        <translation>{given} zählt in Grad, darum sind die Probeflächen in {crs} gezeigt.</translation>
    </message>
    <message>
        <source>The coordinate system of the plots is not known, so there is no map of the whole survey; choose it under Settings.</source>
        <translation>Das Koordinatensystem der Probeflächen ist nicht bekannt, darum gibt es keine Karte der ganzen Inventur; unter Einstellungen wählen.</translation>
    </message>
    <message>
        <source>No plot has coordinates, so there is no map of the whole survey.</source>
        <translation>Keine Probefläche hat Koordinaten, darum gibt es keine Karte der ganzen Inventur.</translation>
    </message>
    <message>
        <source>{names} and {count} more</source>
        <translation>{names} und {count} weitere</translation>
    </message>
    <message>
        <source>Without coordinates, so not on the map: {names}.</source>
        <translation>Ohne Koordinaten, darum nicht auf der Karte: {names}.</translation>
    </message>
    <message>
        <source>with errors</source>
        <extracomment>Sign of a state; together with fill and outline it never leaves a colour alone. Between a mark and its name; the ring around a selected plot finds its place here.</extracomment>
        <translation>mit Fehlern</translation>
    </message>
    <message>
        <source>nothing to look at</source>
        <translation>nichts zu prüfen</translation>
    </message>
    <message>
        <source>without stems</source>
        <translation>ohne Stämme</translation>
    </message>
    <message>
        <source>plots close together</source>
        <translation>mehrere Probeflächen</translation>
    </message>
    <message>
        <source>The plot has no coordinates, so no projected grid is drawn.</source>
        <extracomment>Where no border is known, this many times the middle distance of the stems.</extracomment>
        <translation>Die Probefläche hat keine Koordinaten, darum ist kein Koordinatengitter gezeichnet.</translation>
    </message>
    <message>
        <source>Stems are drawn {factor:g} times as thick as they are.</source>
        <translation>Stämme sind {factor:g}-mal so dick gezeichnet, wie sie sind.</translation>
    </message>
    <message>
        <source>magnetic N</source>
        <translation>magn. N</translation>
    </message>
    <message>
        <source>grid N</source>
        <translation>Gitter-N</translation>
    </message>
    <message>
        <source>true N</source>
        <translation>geogr. N</translation>
    </message>
    <message>
        <source>whole plot</source>
        <translation>ganze Probefläche</translation>
    </message>
    <message>
        <source>Too far out for this map, an arrow at the rim: {names}.</source>
        <translation>Zu weit außen für diese Karte, ein Pfeil am Rand: {names}.</translation>
    </message>
    <message>
        <source>without number</source>
        <translation>ohne Nummer</translation>
    </message>
    <message>
        <source>Not drawn, since azimuth or distance is not known: {names}.</source>
        <translation>Nicht gezeichnet, weil Azimut oder Abstand nicht bekannt ist: {names}.</translation>
    </message>
    <message>
        <source>The plot has more than {most} stems, so none is numbered.</source>
        <translation>Die Probefläche hat mehr als {most} Stämme, darum ist keiner beziffert.</translation>
    </message>
    <message>
        <source>The plot has more than {most} stems, so only those with findings are numbered.</source>
        <translation>Die Probefläche hat mehr als {most} Stämme, darum sind nur die mit Befunden beziffert.</translation>
    </message>
    <message>
        <source>Angle count: each stem has its own limiting distance, so no circle is drawn.</source>
        <translation>Winkelzählprobe: Jeder Stamm hat seinen eigenen Grenzabstand, darum ist kein Kreis gezeichnet.</translation>
    </message>
    <message>
        <source>The plot radius is not known, so no circle is drawn.</source>
        <translation>Der Probeflächenradius ist nicht bekannt, darum ist kein Kreis gezeichnet.</translation>
    </message>
    <message>
        <source>Slope or aspect is not known, so the circle is drawn as on level ground.</source>
        <translation>Hangneigung oder Exposition ist nicht bekannt, darum ist der Kreis wie auf ebenem Boden gezeichnet.</translation>
    </message>
    <message>
        <source>The line of dashes and dots is the edge of the stand; its ticks point out of it.</source>
        <extracomment>Metres from one tick of the edge to the next, and their length; they point out of the stand. Metres beside the edge at which it is asked what lies there.</extracomment>
        <translation>Die Linie aus Strichen und Punkten ist der Bestandesrand; ihre kleinen Striche zeigen hinaus.</translation>
    </message>
    <message>
        <source>The plot centre lies outside the stand.</source>
        <translation>Der Probeflächenmittelpunkt liegt außerhalb des Bestandes.</translation>
    </message>
    <message>
        <source>{percent:.0f} % of the circle lie in the stand; the part stands for itself.</source>
        <translation>{percent:.0f} % des Kreises liegen im Bestand; der Teil steht für sich.</translation>
    </message>
</context>
<context>
    <name>map_canvas</name>
    <message>
        <source>Map</source>
        <extracomment>Plots that can be marked together; more rings would hide each other.</extracomment>
        <translation>Karte</translation>
    </message>
    <message>
        <source>On a plot, left and right arrow keys go from stem to stem clockwise; Home shows all plots, Enter the selected one. The tables show the same.</source>
        <translation>Auf einer Probefläche gehen die Pfeiltasten links und rechts im Uhrzeigersinn von Stamm zu Stamm; Pos1 zeigt alle Probeflächen, die Eingabetaste die gewählte. Die Tabellen zeigen dasselbe.</translation>
    </message>
    <message>
        <source>Drag from point to point to measure; M or Esc ends it.</source>
        <translation>Zum Messen von Punkt zu Punkt ziehen; M oder Esc beendet es.</translation>
    </message>
    <message>
        <source>{distance} m from the centre, grid azimuth {azimuth}</source>
        <translation>{distance} m vom Mittelpunkt, Gitterazimut {azimuth}</translation>
    </message>
    <message>
        <source>easting {easting} m, northing {northing} m ({system})</source>
        <translation>Ostwert {easting} m, Nordwert {northing} m ({system})</translation>
    </message>
    <message>
        <source>{count} stems marked; copy them in the table of stems</source>
        <translation>{count} Stämme markiert; in der Tabelle der Stämme lassen sie sich kopieren</translation>
    </message>
    <message>
        <source>{count} plots marked; copy them in the table of plots</source>
        <translation>{count} Probeflächen markiert; in der Tabelle der Probeflächen lassen sie sich kopieren</translation>
    </message>
    <message>
        <source>{count} plots lie in the box; draw a smaller one, up to {most} can be marked</source>
        <translation>{count} Probeflächen liegen im Rahmen; einen kleineren ziehen, höchstens {most} können markiert werden</translation>
    </message>
</context>
<context>
    <name>map_view</name>
    <message>
        <source>Drawing the map…</source>
        <translation>Die Karte wird gezeichnet…</translation>
    </message>
    <message>
        <source>Choose a plot in the list to see its map.</source>
        <extracomment>A plot of more stems is not described ahead. Free ground between a stem and its ring: one that is selected, and one under the pointer.</extracomment>
        <translation>Wählen Sie in der Liste eine Probefläche, um ihre Karte zu sehen.</translation>
    </message>
</context>
<context>
    <name>measuring</name>
    <message>
        <source>{distance} m, grid azimuth {azimuth}</source>
        <translation>{distance} m, Gitterazimut {azimuth}</translation>
    </message>
</context>
<context>
    <name>message_bar</name>
    <message>
        <source>Dismiss</source>
        <translation>Schließen</translation>
    </message>
    <message>
        <source>Hide this message</source>
        <translation>Diese Meldung ausblenden</translation>
    </message>
    <message>
        <source>Dismiss the message</source>
        <translation>Meldung schließen</translation>
    </message>
    <message>
        <source>Message</source>
        <translation>Meldung</translation>
    </message>
</context>
<context>
    <name>panels</name>
    <message>
        <source>Plots</source>
        <extracomment>To be raised when panels come, go or change their names: an older layout is then no longer restored.</extracomment>
        <translation>Probeflächen</translation>
    </message>
    <message>
        <source>Layers</source>
        <translation>Ebenen</translation>
    </message>
    <message>
        <source>Stems</source>
        <translation>Stämme</translation>
    </message>
    <message>
        <source>All findings</source>
        <translation>Alle Befunde</translation>
    </message>
    <message>
        <source>Survey</source>
        <translation>Inventur</translation>
    </message>
    <message>
        <source>Journal</source>
        <translation>Journal</translation>
    </message>
    <message>
        <source>Findings</source>
        <translation>Befunde</translation>
    </message>
    <message>
        <source>Summary</source>
        <translation>Auswertung</translation>
    </message>
    <message>
        <source>Structure</source>
        <translation>Struktur</translation>
    </message>
    <message>
        <source>Settings</source>
        <translation>Einstellungen</translation>
    </message>
    <message>
        <source>The map shows every stem where its azimuth and distance place it, to scale. Around the circle lies the borderline zone. A letter and an outline stand for a finding, a dashed disc for where a stem may really stand, a small hollow dot for where it stood at the last visit.</source>
        <translation>Die Karte zeigt jeden Stamm maßstäblich dort, wohin ihn Azimut und Abstand stellen. Um den Kreis liegt der Grenzbereich. Ein Buchstabe und ein Umriss stehen für einen Befund, eine gestrichelte Scheibe dafür, wo ein Stamm wirklich stehen könnte, ein kleiner hohler Punkt dafür, wo er bei der letzten Aufnahme stand.</translation>
    </message>
    <message>
        <source>Every plot and visit with its state: what was found, how much of it is left to look at, or that it was looked through. Choose one to see its map.</source>
        <translation>Jede Probefläche und Aufnahme mit ihrem Stand: was gefunden wurde, wie viel davon noch zu prüfen ist, oder dass sie durchgesehen ist. Wählen Sie eine, um ihre Karte zu sehen.</translation>
    </message>
    <message>
        <source>Every stem as it was typed in the forest, and what is derived from it. Nothing typed is ever changed.</source>
        <translation>Jeder Stamm, wie er im Wald getippt wurde, und was daraus folgt. Getipptes wird nie verändert.</translation>
    </message>
    <message>
        <source>What speaks against the records of the selected plot, in sentences. Each is a doubt, not a verdict.</source>
        <translation>Was gegen die Einträge der gewählten Probefläche spricht, in Sätzen. Jeder ist ein Zweifel, kein Urteil.</translation>
    </message>
    <message>
        <source>The findings of the whole survey: sort them, filter them by typing, copy them.</source>
        <translation>Die Befunde der ganzen Inventur: sortieren, durch Tippen filtern, kopieren.</translation>
    </message>
    <message>
        <source>How the survey was measured, crew by crew or day by day: findings, rates of recording errors, last digits, what stems hide from the centre, and how stems were numbered.</source>
        <translation>Wie die Inventur gemessen wurde, Trupp für Trupp oder Tag für Tag: Befunde, Häufigkeit von Aufnahmefehlern, letzte Ziffern, was Stämme vom Mittelpunkt aus verdecken, und wie Stämme nummeriert wurden.</translation>
    </message>
    <message>
        <source>Every decision: who, when, what and why. Choose one to go to its stem, or drag the slider to see the survey as it was then. Entries are only ever added.</source>
        <translation>Jede Entscheidung: wer, wann, was und warum. Eine wählen führt zu ihrem Stamm, der Schieber zeigt die Inventur, wie sie damals war. Einträge kommen immer nur hinzu.</translation>
    </message>
    <message>
        <source>What the selected plot says per hectare, with the reason where a value cannot be known; for the whole survey the estimates of its strata.</source>
        <translation>Was die gewählte Probefläche je Hektar ergibt, mit dem Grund, wo ein Wert nicht bekannt sein kann; für die ganze Inventur die Schätzungen ihrer Straten.</translation>
    </message>
    <message>
        <source>How the stems of the selected plot, or of the whole survey, stand to each other: clumped or regular, how dbh and species mingle, each compared with chance.</source>
        <translation>Wie die Stämme der gewählten Probefläche oder der ganzen Inventur zueinander stehen: geklumpt oder regelmäßig, wie BHD und Baumarten sich mischen, jeweils mit dem Zufall verglichen.</translation>
    </message>
    <message>
        <source>How this survey was measured: units, north, sampling design, errors. A change is computed and shown at once; it is kept when you save the settings.</source>
        <translation>Wie diese Inventur gemessen wurde: Einheiten, Nord, Verfahren, Messfehler. Eine Änderung wird sofort berechnet und gezeigt; sie bleibt, wenn Sie die Einstellungen speichern.</translation>
    </message>
</context>
<context>
    <name>past_bar</name>
    <message>
        <source>Before the first decision. Only to look at: nothing can be decided here.</source>
        <translation>Vor der ersten Entscheidung. Nur zum Ansehen: hier kann nichts entschieden werden.</translation>
    </message>
    <message>
        <source>As it was after entry {entry}, {when}. Only to look at: nothing can be decided here.</source>
        <translation>Stand nach Eintrag {entry}, {when}. Nur zum Ansehen: hier kann nichts entschieden werden.</translation>
    </message>
    <message>
        <source>&amp;Back to now</source>
        <translation>&amp;Zurück zu jetzt</translation>
    </message>
</context>
<context>
    <name>plots_panel</name>
    <message>
        <source>all</source>
        <translation>alle</translation>
    </message>
    <message>
        <source>Plot</source>
        <translation>Probefläche</translation>
    </message>
    <message>
        <source>plot as typed</source>
        <translation>Probefläche wie getippt</translation>
    </message>
    <message>
        <source>Visit</source>
        <translation>Aufnahme</translation>
    </message>
    <message>
        <source>visit as typed</source>
        <translation>Aufnahme wie getippt</translation>
    </message>
    <message>
        <source>State</source>
        <translation>Stand</translation>
    </message>
    <message>
        <source>what was found; the plots with errors come first when sorted</source>
        <translation>was gefunden wurde; sortiert stehen Probeflächen mit Fehlern vorn</translation>
    </message>
    <message>
        <source>Stratum</source>
        <translation>Stratum</translation>
    </message>
    <message>
        <source>Crew</source>
        <translation>Trupp</translation>
    </message>
    <message>
        <source>as typed</source>
        <translation>wie getippt</translation>
    </message>
    <message>
        <source>Date</source>
        <translation>Datum</translation>
    </message>
    <message>
        <source>date of the visit</source>
        <translation>Tag der Aufnahme</translation>
    </message>
    <message>
        <source>Stems</source>
        <translation>Stämme</translation>
    </message>
    <message>
        <source>stems recorded</source>
        <translation>aufgenommene Stämme</translation>
    </message>
    <message>
        <source>Borderline</source>
        <translation>Grenzbäume</translation>
    </message>
    <message>
        <source>living borderline stems</source>
        <translation>lebende Grenzbäume</translation>
    </message>
    <message>
        <source>Stems/ha</source>
        <translation>Stämme/ha</translation>
    </message>
    <message>
        <source>living stems per hectare</source>
        <translation>lebende Stämme je Hektar</translation>
    </message>
    <message>
        <source>m²/ha</source>
        <translation>m²/ha</translation>
    </message>
    <message>
        <source>basal area of living stems, square metres per hectare</source>
        <translation>Grundfläche der lebenden Stämme, Quadratmeter je Hektar</translation>
    </message>
</context>
<context>
    <name>quality</name>
    <message>
        <source>Blind</source>
        <translation>Blind</translation>
    </message>
    <message>
        <source>Former values seen</source>
        <translation>Frühere Werte gesehen</translation>
    </message>
    <message>
        <source>Stems found again</source>
        <translation>Stämme wiedergefunden</translation>
    </message>
    <message>
        <source>Of those that were to be measured again; blind: the crew did not know the former values</source>
        <translation>Von denen, die nachzumessen waren; blind: Der Trupp kannte die früheren Werte nicht</translation>
    </message>
    <message>
        <source>{found} of {asked}</source>
        <translation>{found} von {asked}</translation>
    </message>
    <message>
        <source>Stems added</source>
        <translation>Stämme hinzugekommen</translation>
    </message>
    <message>
        <source>Stems that the second crew found and nobody had recorded</source>
        <translation>Stämme, die der zweite Trupp fand und die niemand aufgenommen hatte</translation>
    </message>
    <message>
        <source>{look}, {field}: {sentence}</source>
        <translation>{look}, {field}: {sentence}</translation>
    </message>
    <message>
        <source>{field}: within tolerance</source>
        <translation>{field}: innerhalb der Toleranz</translation>
    </message>
    <message>
        <source>{field}: the same</source>
        <translation>{field}: gleich</translation>
    </message>
    <message>
        <source>in brackets the range in which the true value lies with a probability of 95 %</source>
        <translation>in Klammern der Bereich, in dem der wahre Wert mit einer Wahrscheinlichkeit von 95 % liegt</translation>
    </message>
    <message>
        <source>Share of the pairs that agree; {interval}. Tolerance: {tolerance}</source>
        <translation>Anteil der Paare, die übereinstimmen; {interval}. Toleranz: {tolerance}</translation>
    </message>
    <message>
        <source>Share of the pairs that agree; {interval}</source>
        <translation>Anteil der Paare, die übereinstimmen; {interval}</translation>
    </message>
    <message>
        <source>{field}: bias</source>
        <translation>{field}: systematische Abweichung</translation>
    </message>
    <message>
        <source>Mean of again minus recorded; {interval}</source>
        <translation>Mittel von nachgemessen minus aufgenommen; {interval}</translation>
    </message>
    <message>
        <source>{field}: standard deviation</source>
        <translation>{field}: Standardabweichung</translation>
    </message>
    <message>
        <source>Of the differences, in which both crews have their part; {interval}</source>
        <translation>Der Unterschiede, an denen beide Trupps ihren Anteil haben; {interval}</translation>
    </message>
    <message>
        <source>{field}: median difference</source>
        <translation>{field}: mittlere Differenz (Median)</translation>
    </message>
    <message>
        <source>Middle of again minus recorded, which a single slip hardly moves; {interval}</source>
        <translation>Median von Nachmessung minus Aufnahme, den ein einzelnes Versehen kaum verschiebt; {interval}</translation>
    </message>
    <message>
        <source>{field}: standard deviation by the median</source>
        <translation>{field}: Standardabweichung über den Median</translation>
    </message>
    <message>
        <source>1.4826 times the median of the absolute deviations from the median difference (Hampel 1974), which a single slip hardly moves; {interval}</source>
        <translation>1,4826 mal der Median der absoluten Abweichungen von der mittleren Differenz (Hampel 1974), den ein einzelnes Versehen kaum verschiebt; {interval}</translation>
    </message>
    <message>
        <source>{field}: gross differences</source>
        <translation>{field}: grobe Differenzen</translation>
    </message>
    <message>
        <source>Differences beyond the tolerance that do not belong to the others by the generalized extreme studentized deviate (Rosner 1983), at a risk of 0.01; bias and standard deviation hold them</source>
        <translation>Differenzen jenseits der Toleranz, die nach dem verallgemeinerten Ausreißertest mit studentisierten Abweichungen (Rosner 1983) nicht zu den anderen gehören, bei einem Risiko von 0,01; Verzerrung und Standardabweichung enthalten sie</translation>
    </message>
    <message>
        <source>{count} of {pairs}</source>
        <translation>{count} von {pairs}</translation>
    </message>
    <message>
        <source>{share} % of {pairs} ({low} to {high})</source>
        <translation>{share} % von {pairs} ({low} bis {high})</translation>
    </message>
    <message>
        <source>{value} {unit} ({low} to {high})</source>
        <translation>{value} {unit} ({low} bis {high})</translation>
    </message>
</context>
<context>
    <name>sentences</name>
    <message>
        <source>Error</source>
        <translation>Fehler</translation>
    </message>
    <message>
        <source>To look at</source>
        <translation>Zu prüfen</translation>
    </message>
    <message>
        <source>Note</source>
        <translation>Hinweis</translation>
    </message>
    <message>
        <source>looked through</source>
        <translation>durchgesehen</translation>
    </message>
    <message>
        <source>1 error</source>
        <translation>1 Fehler</translation>
    </message>
    <message>
        <source>1 note</source>
        <translation>1 Hinweis</translation>
    </message>
    <message>
        <source>no findings</source>
        <translation>keine Befunde</translation>
    </message>
    <message>
        <source>not reached</source>
        <translation>nicht erreicht</translation>
    </message>
    <message>
        <source>non-forest</source>
        <translation>Nichtwald</translation>
    </message>
    <message>
        <source>empty plot</source>
        <translation>leere Probefläche</translation>
    </message>
    <message>
        <source>no stems</source>
        <translation>keine Stämme</translation>
    </message>
    <message>
        <source>no plot data</source>
        <translation>keine Flächendaten</translation>
    </message>
    <message>
        <source>Whole survey</source>
        <translation>Ganze Inventur</translation>
    </message>
    <message>
        <source>Plot {plot}</source>
        <translation>Probefläche {plot}</translation>
    </message>
    <message>
        <source>{plot}, visit {visit}</source>
        <translation>{plot}, Aufnahme {visit}</translation>
    </message>
    <message>
        <source>not known whether in</source>
        <translation>nicht bekannt, ob innerhalb</translation>
    </message>
    <message>
        <source>The map shows dashed where it would stand.</source>
        <translation>Die Karte zeigt gestrichelt, wo er stünde.</translation>
    </message>
    <message>
        <source>Perhaps to be struck{chance}: kept as typed, counted nowhere.</source>
        <translation>Vielleicht zu streichen{chance}: bleibt wie eingegeben erhalten, zählt nirgends.</translation>
    </message>
    <message>
        <source>Perhaps {count} records are to be struck ({chance}): kept as typed, counted nowhere.</source>
        <translation>Vielleicht sind {count} Datensätze zu streichen ({chance}): bleiben wie eingegeben erhalten, zählen nirgends.</translation>
    </message>
    <message>
        <source>The map shows dashed where its stems would then stand.</source>
        <translation>Die Karte zeigt gestrichelt, wo ihre Stämme dann stünden.</translation>
    </message>
    <message>
        <source>distance, m</source>
        <translation>Abstand, m</translation>
    </message>
    <message>
        <source>limiting distance, m</source>
        <translation>Grenzabstand, m</translation>
    </message>
    <message>
        <source>beyond the limit, m</source>
        <translation>jenseits der Grenze, m</translation>
    </message>
    <message>
        <source>dbh, cm</source>
        <translation>BHD, cm</translation>
    </message>
    <message>
        <source>class limit, cm</source>
        <translation>Klassengrenze, cm</translation>
    </message>
    <message>
        <source>probability of the other class</source>
        <translation>Wahrscheinlichkeit der anderen Klasse</translation>
    </message>
    <message>
        <source>probability of being in</source>
        <translation>Wahrscheinlichkeit innerhalb zu sein</translation>
    </message>
    <message>
        <source>file</source>
        <translation>Datei</translation>
    </message>
    <message>
        <source>line</source>
        <translation>Zeile</translation>
    </message>
    <message>
        <source>column</source>
        <translation>Spalte</translation>
    </message>
    <message>
        <source>as typed</source>
        <translation>wie getippt</translation>
    </message>
    <message>
        <source>probability of an error</source>
        <translation>Wahrscheinlichkeit eines Fehlers</translation>
    </message>
    <message>
        <source>last visit</source>
        <translation>letzte Aufnahme</translation>
    </message>
    <message>
        <source>dbh at the last visit, cm</source>
        <translation>BHD bei der letzten Aufnahme, cm</translation>
    </message>
    <message>
        <source>change of dbh, cm</source>
        <translation>Änderung des BHD, cm</translation>
    </message>
    <message>
        <source>change expected from, cm</source>
        <translation>Änderung erwartet von, cm</translation>
    </message>
    <message>
        <source>change expected up to, cm</source>
        <translation>Änderung erwartet bis, cm</translation>
    </message>
    <message>
        <source>stems found at both visits</source>
        <translation>bei beiden Aufnahmen gefundene Stämme</translation>
    </message>
    <message>
        <source>rotation, °</source>
        <translation>Drehung, °</translation>
    </message>
    <message>
        <source>standard error, °</source>
        <translation>Standardfehler, °</translation>
    </message>
    <message>
        <source>shift to the east, m</source>
        <translation>Verschiebung nach Ost, m</translation>
    </message>
    <message>
        <source>shift to the north, m</source>
        <translation>Verschiebung nach Nord, m</translation>
    </message>
    <message>
        <source>standard error, m</source>
        <translation>Standardfehler, m</translation>
    </message>
    <message>
        <source>hidden ground, %</source>
        <translation>verdeckter Boden, %</translation>
    </message>
    <message>
        <source>found at both visits as recorded</source>
        <translation>wie eingetragen bei beiden Aufnahmen gefunden</translation>
    </message>
    <message>
        <source>probability</source>
        <translation>Wahrscheinlichkeit</translation>
    </message>
    <message>
        <source>in</source>
        <translation>innerhalb</translation>
    </message>
    <message>
        <source>over 99 %</source>
        <translation>über 99 %</translation>
    </message>
    <message>
        <source>under 1 %</source>
        <translation>unter 1 %</translation>
    </message>
    <message>
        <source>{percent} %</source>
        <translation>{percent} %</translation>
    </message>
    <message>
        <source>{n} left</source>
        <translation>noch {n}</translation>
    </message>
    <message>
        <source>{n} errors</source>
        <translation>{n} Fehler</translation>
    </message>
    <message>
        <source>{n} to look at</source>
        <translation>{n} zu prüfen</translation>
    </message>
    <message>
        <source>{n} notes</source>
        <translation>{n} Hinweise</translation>
    </message>
    <message>
        <source>out</source>
        <translation>außerhalb</translation>
    </message>
    <message>
        <source>{word}, borderline</source>
        <translation>{word}, Grenzbaum</translation>
    </message>
    <message>
        <source>Stem {label}</source>
        <translation>Stamm {label}</translation>
    </message>
    <message>
        <source>Stem without number</source>
        <translation>Stamm ohne Nummer</translation>
    </message>
    <message>
        <source>dbh {dbh} cm</source>
        <translation>BHD {dbh} cm</translation>
    </message>
    <message>
        <source>no dbh</source>
        <translation>kein BHD</translation>
    </message>
    <message>
        <source>azimuth {azimuth}</source>
        <translation>Azimut {azimuth}</translation>
    </message>
    <message>
        <source>distance {distance} m</source>
        <translation>Abstand {distance} m</translation>
    </message>
    <message>
        <source>stem {stem}</source>
        <translation>Stamm {stem}</translation>
    </message>
    <message>
        <source>a stem</source>
        <translation>ein Stamm</translation>
    </message>
    <message>
        <source>the plot</source>
        <translation>die Probefläche</translation>
    </message>
    <message>
        <source>the survey</source>
        <translation>die Inventur</translation>
    </message>
    <message>
        <source>Perhaps meant: {values}.</source>
        <translation>Vielleicht gemeint: {values}.</translation>
    </message>
    <message>
        <source>Worth {stems} stems/ha, {area} m²/ha.</source>
        <translation>Es geht um {stems} Stämme/ha, {area} m²/ha.</translation>
    </message>
</context>
<context>
    <name>setting_items</name>
    <message>
        <source>Azimuth unit</source>
        <translation>Azimuteinheit</translation>
    </message>
    <message>
        <source>Parts of the full circle in which azimuths were typed</source>
        <translation>Teilung des Vollkreises, in der die Azimute getippt wurden</translation>
    </message>
    <message>
        <source>degree (360)</source>
        <translation>Grad (360)</translation>
    </message>
    <message>
        <source>gon (400)</source>
        <translation>Gon (400)</translation>
    </message>
    <message>
        <source>mil (6400)</source>
        <translation>Strich (6400)</translation>
    </message>
    <message>
        <source>mil (6300)</source>
        <translation>Strich (6300)</translation>
    </message>
    <message>
        <source>mil (6000)</source>
        <translation>Strich (6000)</translation>
    </message>
    <message>
        <source>North</source>
        <translation>Nord</translation>
    </message>
    <message>
        <source>The north from which azimuths were measured</source>
        <translation>Die Nordrichtung, von der aus die Azimute gemessen wurden</translation>
    </message>
    <message>
        <source>grid</source>
        <translation>Gitternord</translation>
    </message>
    <message>
        <source>true</source>
        <translation>geografisch</translation>
    </message>
    <message>
        <source>magnetic</source>
        <translation>magnetisch</translation>
    </message>
    <message>
        <source>Distance</source>
        <translation>Abstand</translation>
    </message>
    <message>
        <source>Whether distances were measured level or along the slope</source>
        <translation>Ob Abstände waagerecht oder schräg gemessen wurden</translation>
    </message>
    <message>
        <source>horizontal</source>
        <translation>waagerecht</translation>
    </message>
    <message>
        <source>along the slope</source>
        <translation>schräg</translation>
    </message>
    <message>
        <source>Distance to</source>
        <translation>Abstand bis</translation>
    </message>
    <message>
        <source>The axis of the stem, or its face towards the centre</source>
        <translation>Zur Stammachse oder zur Stammoberfläche auf der Seite des Mittelpunkts</translation>
    </message>
    <message>
        <source>axis of the stem</source>
        <translation>Stammachse</translation>
    </message>
    <message>
        <source>face of the stem</source>
        <translation>Stammoberfläche</translation>
    </message>
    <message>
        <source>Measured</source>
        <translation>Gemessen</translation>
    </message>
    <message>
        <source>From the plot centre, or standing at each stem</source>
        <translation>Vom Mittelpunkt aus oder an jedem Stamm stehend</translation>
    </message>
    <message>
        <source>from the centre</source>
        <translation>vom Mittelpunkt</translation>
    </message>
    <message>
        <source>at the stem</source>
        <translation>am Stamm</translation>
    </message>
    <message>
        <source>Lengths</source>
        <translation>Längen</translation>
    </message>
    <message>
        <source>Metres and centimetres, or feet and inches</source>
        <translation>Meter und Zentimeter, oder Fuß und Zoll</translation>
    </message>
    <message>
        <source>metre</source>
        <translation>Meter</translation>
    </message>
    <message>
        <source>foot</source>
        <translation>Fuß</translation>
    </message>
    <message>
        <source>not said</source>
        <translation>nicht gesagt</translation>
    </message>
    <message>
        <source>Design</source>
        <translation>Verfahren</translation>
    </message>
    <message>
        <source>The rule by which a stem belongs to the sample</source>
        <translation>Die Regel, nach der ein Stamm zur Stichprobe gehört</translation>
    </message>
    <message>
        <source>one fixed circle</source>
        <translation>ein fester Kreis</translation>
    </message>
    <message>
        <source>concentric circles</source>
        <translation>konzentrische Kreise</translation>
    </message>
    <message>
        <source>angle count</source>
        <translation>Winkelzählprobe</translation>
    </message>
    <message>
        <source>Radius</source>
        <translation>Radius</translation>
    </message>
    <message>
        <source>Of plots that state no radius of their own</source>
        <translation>Der Probeflächen, die keinen eigenen Radius nennen</translation>
    </message>
    <message>
        <source>Circles</source>
        <translation>Kreise</translation>
    </message>
    <message>
        <source>Radius and limits of dbh of each circle</source>
        <translation>Radius und BHD-Grenzen jedes Kreises</translation>
    </message>
    <message>
        <source>Basal area factor</source>
        <translation>Zählfaktor</translation>
    </message>
    <message>
        <source>Basal area per hectare that each counted stem stands for</source>
        <translation>Grundfläche je Hektar, für die jeder gezählte Stamm steht</translation>
    </message>
    <message>
        <source>Largest radius</source>
        <translation>Größter Radius</translation>
    </message>
    <message>
        <source>Beyond it no stem is counted</source>
        <translation>Jenseits davon wird kein Stamm gezählt</translation>
    </message>
    <message>
        <source>none</source>
        <translation>keiner</translation>
    </message>
    <message>
        <source>Smallest dbh</source>
        <translation>Kleinster BHD</translation>
    </message>
    <message>
        <source>Thinner stems do not count</source>
        <translation>Dünnere Stämme zählen nicht</translation>
    </message>
    <message>
        <source>On slopes</source>
        <translation>Am Hang</translation>
    </message>
    <message>
        <source>How the circle was laid out where the ground is steep</source>
        <translation>Wie der Kreis in steilem Gelände angelegt wurde</translation>
    </message>
    <message>
        <source>level distances</source>
        <translation>waagerechte Abstände</translation>
    </message>
    <message>
        <source>same radius on the slope</source>
        <translation>gleicher Radius am Hang</translation>
    </message>
    <message>
        <source>enlarged radius on the slope</source>
        <translation>vergrößerter Radius am Hang</translation>
    </message>
    <message>
        <source>Azimuth</source>
        <translation>Azimut</translation>
    </message>
    <message>
        <source>Standard deviation of an azimuth</source>
        <translation>Standardabweichung eines Azimuts</translation>
    </message>
    <message>
        <source>Standard deviation of a distance</source>
        <translation>Standardabweichung eines Abstands</translation>
    </message>
    <message>
        <source>Distance, share</source>
        <translation>Abstand, Anteil</translation>
    </message>
    <message>
        <source>Added to it, percent</source>
        <translation>Kommt hinzu, Prozent</translation>
    </message>
    <message>
        <source>Vertical angle</source>
        <translation>Höhenwinkel</translation>
    </message>
    <message>
        <source>Standard deviation</source>
        <translation>Standardabweichung</translation>
    </message>
    <message>
        <source>Dbh</source>
        <translation>BHD</translation>
    </message>
    <message>
        <source>Standard deviation of a diameter</source>
        <translation>Standardabweichung eines Durchmessers</translation>
    </message>
    <message>
        <source>Dbh, share</source>
        <translation>BHD, Anteil</translation>
    </message>
    <message>
        <source>Breast height</source>
        <translation>Brusthöhe</translation>
    </message>
    <message>
        <source>How far off breast height is judged from the centre</source>
        <translation>Wie weit die Brusthöhe vom Mittelpunkt aus daneben geschätzt wird</translation>
    </message>
    <message>
        <source>Taper</source>
        <translation>Abholzigkeit</translation>
    </message>
    <message>
        <source>How much thinner a stem is one metre further up</source>
        <translation>Wie viel dünner ein Stamm einen Meter weiter oben ist</translation>
    </message>
    <message>
        <source>Borderline from</source>
        <translation>Grenzbaum ab</translation>
    </message>
    <message>
        <source>A stem is borderline when it is in with a probability between this and one minus this</source>
        <translation>Ein Stamm ist Grenzbaum, wenn er mit einer Wahrscheinlichkeit zwischen dieser und eins minus dieser innerhalb ist</translation>
    </message>
    <message>
        <source>or within</source>
        <translation>oder bis</translation>
    </message>
    <message>
        <source>A stem is borderline when it is this close to its limiting distance</source>
        <translation>Ein Stamm ist Grenzbaum, wenn er seinem Grenzabstand so nahe ist</translation>
    </message>
</context>
<context>
    <name>sheet</name>
    <message>
        <source>blind check</source>
        <extracomment>Right or left edges of the columns as shares of the width, and how they are aligned.</extracomment>
        <translation>Blindkontrolle</translation>
    </message>
    <message>
        <source>empty plot</source>
        <translation>leere Probefläche</translation>
    </message>
    <message>
        <source>non-forest</source>
        <translation>Nichtwald</translation>
    </message>
    <message>
        <source>not reached</source>
        <translation>nicht erreicht</translation>
    </message>
    <message>
        <source>no stems</source>
        <translation>keine Stämme</translation>
    </message>
    <message>
        <source>errors: {count}</source>
        <translation>Fehler: {count}</translation>
    </message>
    <message>
        <source>to look at: {count}</source>
        <translation>zu prüfen: {count}</translation>
    </message>
    <message>
        <source>notes only</source>
        <translation>nur Hinweise</translation>
    </message>
    <message>
        <source>no findings</source>
        <translation>keine Befunde</translation>
    </message>
    <message>
        <source>Contents</source>
        <translation>Inhalt</translation>
    </message>
    <message>
        <source>page {number}</source>
        <translation>Seite {number}</translation>
    </message>
    <message>
        <source>plot</source>
        <translation>Probefläche</translation>
    </message>
    <message>
        <source>visit</source>
        <translation>Aufnahme</translation>
    </message>
    <message>
        <source>state</source>
        <translation>Stand</translation>
    </message>
    <message>
        <source>findings</source>
        <translation>Befunde</translation>
    </message>
    <message>
        <source>page</source>
        <translation>Seite</translation>
    </message>
    <message>
        <source>page {page} of {pages} of this plot</source>
        <extracomment>Scales tried when none is asked for, the largest first; the last ones are for plots of uncommon size. Room between the edge of the paper and everything on it; a printer may leave no wider margin white. What a map shows to those who measure without knowing. Fewer rows of the list than this are not begun under a map.</extracomment>
        <translation>Seite {page} von {pages} dieser Probefläche</translation>
    </message>
    <message>
        <source>page {number} · {of_plot}</source>
        <translation>Seite {number} · {of_plot}</translation>
    </message>
    <message>
        <source>Plot {plot}</source>
        <translation>Probefläche {plot}</translation>
    </message>
    <message>
        <source>{plot}, visit {visit}</source>
        <translation>{plot}, Aufnahme {visit}</translation>
    </message>
    <message>
        <source>stratum {stratum}</source>
        <translation>Stratum {stratum}</translation>
    </message>
    <message>
        <source>measured {date}</source>
        <translation>gemessen am {date}</translation>
    </message>
    <message>
        <source>printed {date}</source>
        <translation>gedruckt am {date}</translation>
    </message>
    <message>
        <source>field packet {packet}</source>
        <translation>Feldpaket {packet}</translation>
    </message>
    <message>
        <source>Print at 100 % (actual size): then this bar is 100 mm long.</source>
        <translation>Mit 100 % (Originalgröße) drucken: dann ist dieser Balken 100 mm lang.</translation>
    </message>
    <message>
        <source>easting {easting:.2f}, northing {northing:.2f} in {crs} ({name})</source>
        <translation>Ostwert {easting:.2f}, Nordwert {northing:.2f} in {crs} ({name})</translation>
    </message>
    <message>
        <source>longitude {lon:.6f}°, latitude {lat:.6f}° (WGS 84)</source>
        <translation>Länge {lon:.6f}°, Breite {lat:.6f}° (WGS 84)</translation>
    </message>
    <message>
        <source>Plot centre: no coordinates are known.</source>
        <translation>Mittelpunkt: Keine Koordinaten bekannt.</translation>
    </message>
    <message>
        <source>Plot centre: {places}.</source>
        <translation>Mittelpunkt: {places}.</translation>
    </message>
    <message>
        <source>degrees</source>
        <translation>Grad</translation>
    </message>
    <message>
        <source>gon</source>
        <translation>Gon</translation>
    </message>
    <message>
        <source>mils (6400 to the circle)</source>
        <translation>Strich (6400 im Vollkreis)</translation>
    </message>
    <message>
        <source>mils (6300 to the circle)</source>
        <translation>Strich (6300 im Vollkreis)</translation>
    </message>
    <message>
        <source>mils (6000 to the circle)</source>
        <translation>Strich (6000 im Vollkreis)</translation>
    </message>
    <message>
        <source>grid north</source>
        <translation>Gitternord</translation>
    </message>
    <message>
        <source>true north</source>
        <translation>geografisch Nord</translation>
    </message>
    <message>
        <source>magnetic north</source>
        <translation>magnetisch Nord</translation>
    </message>
    <message>
        <source>{north} of {crs}</source>
        <translation>{north} von {crs}</translation>
    </message>
    <message>
        <source>Azimuths: {unit}, clockwise from {north}; up on the map is {up}.</source>
        <translation>Azimute: {unit}, im Uhrzeigersinn von {north}; oben auf der Karte ist {up}.</translation>
    </message>
    <message>
        <source>Convergence {angle:+.2f}° (grid north east of true north).</source>
        <translation>Meridiankonvergenz {angle:+.2f}° (Gitternord östlich von geografisch Nord).</translation>
    </message>
    <message>
        <source>Magnetic declination: not known.</source>
        <translation>Missweisung: nicht bekannt.</translation>
    </message>
    <message>
        <source>as stated for the plot</source>
        <translation>zur Probefläche angegeben</translation>
    </message>
    <message>
        <source>as stated in the settings</source>
        <translation>in den Einstellungen angegeben</translation>
    </message>
    <message>
        <source>computed by IGRF-14</source>
        <translation>nach IGRF-14 berechnet</translation>
    </message>
    <message>
        <source>Magnetic declination {angle:+.2f}° ({source}).</source>
        <translation>Missweisung {angle:+.2f}° ({source}).</translation>
    </message>
    <message>
        <source>Magnetic declination {angle:+.2f}° on {date} ({source}).</source>
        <translation>Missweisung {angle:+.2f}° am {date} ({source}).</translation>
    </message>
    <message>
        <source>concentric circles of radius {circles}</source>
        <translation>konzentrische Kreise mit Radius {circles}</translation>
    </message>
    <message>
        <source>angle count with a basal area factor of {factor} {unit}</source>
        <translation>Winkelzählprobe mit Zählfaktor {factor} {unit}</translation>
    </message>
    <message>
        <source>, up to {radius:g} {unit}</source>
        <translation>, bis {radius:g} {unit}</translation>
    </message>
    <message>
        <source>one circle, its radius not known</source>
        <translation>ein Kreis, sein Radius ist nicht bekannt</translation>
    </message>
    <message>
        <source>one circle of radius {radius:.2f} {unit}</source>
        <translation>ein Kreis mit Radius {radius:.2f} {unit}</translation>
    </message>
    <message>
        <source>from dbh {dbh}</source>
        <translation>ab BHD {dbh}</translation>
    </message>
    <message>
        <source>radius held level</source>
        <translation>Radius waagerecht</translation>
    </message>
    <message>
        <source>radius laid along the slope</source>
        <translation>Radius am Hang angelegt</translation>
    </message>
    <message>
        <source>radius enlarged for the slope</source>
        <translation>Radius für den Hang vergrößert</translation>
    </message>
    <message>
        <source>horizontal distances</source>
        <translation>waagerechte Abstände</translation>
    </message>
    <message>
        <source>slope distances</source>
        <translation>Schrägdistanzen</translation>
    </message>
    <message>
        <source>to the axis of the stem</source>
        <translation>bis zur Stammachse</translation>
    </message>
    <message>
        <source>to the face of the stem</source>
        <translation>bis zur Stammoberfläche</translation>
    </message>
    <message>
        <source>Design: {design}; {distance} {to}; dbh at {height}.</source>
        <translation>Verfahren: {design}; {distance} {to}; BHD in {height}.</translation>
    </message>
    <message>
        <source>in with a probability from {low:g} to {high:g}</source>
        <translation>innerhalb mit einer Wahrscheinlichkeit von {low:g} bis {high:g}</translation>
    </message>
    <message>
        <source>, or within {gap:g} m of the limit</source>
        <translation>, oder bis {gap:g} m an der Grenze</translation>
    </message>
    <message>
        <source>Standard errors: azimuth {azimuth:g}°, distance {distance}, dbh {dbh}. Borderline: {rule}.</source>
        <translation>Standardabweichungen: Azimut {azimuth:g}°, Abstand {distance}, BHD {dbh}. Grenzbaum: {rule}.</translation>
    </message>
    <message>
        <source>Measure again: No. {stems}.</source>
        <translation>Neu messen: Nr. {stems}.</translation>
    </message>
    <message>
        <source>Look from a second point for stems that others hide from the centre.</source>
        <translation>Von einem zweiten Punkt aus nach Stämmen suchen, die vom Mittelpunkt aus verdeckt sind.</translation>
    </message>
    <message>
        <source>Blind check: measure every stem anew; what was recorded before is left out on purpose. Tick for each number whether its stem was found, yes or no; write a stem without a number into an empty row and tick new.</source>
        <translation>Blindkontrolle: jeden Stamm neu messen; was früher aufgenommen wurde, ist mit Absicht weggelassen. Zu jeder Nummer ankreuzen, ob ihr Stamm gefunden wurde, ja oder nein; einen Stamm ohne Nummer in eine leere Zeile schreiben und neu ankreuzen.</translation>
    </message>
    <message>
        <source>No. {stem}{species}: {azimuth:.0f}{angle}, {distance:.2f} {length}</source>
        <translation>Nr. {stem}{species}: {azimuth:.0f}{angle}, {distance:.2f} {length}</translation>
    </message>
    <message>
        <source>Is the centre lost? From the middle of each of these stems go so far, level, in this direction: {ways}. Where the three meet is the centre, to about {sd:.2f} m; distances are surer than azimuths.</source>
        <translation>Ist der Mittelpunkt verloren? Von der Mitte jedes dieser Stämme so weit, waagerecht, in diese Richtung gehen: {ways}. Wo sich die drei treffen, ist der Mittelpunkt, auf etwa {sd:.2f} m; Entfernungen sind sicherer als Azimute.</translation>
    </message>
    <message>
        <source>Safety first: look out for storm-damaged and dead trees, hanging branches, steep or wet ground and weather; do not work alone; never look into the beam of a laser. The rules of your employer and of the place come before this sheet. This map is no legal survey.</source>
        <translation>Sicherheit zuerst: auf sturmgeschädigte und tote Bäume, hängende Äste, steilen oder nassen Boden und das Wetter achten; nicht allein arbeiten; nie in den Strahl eines Lasers schauen. Die Regeln des Arbeitgebers und des Ortes gehen diesem Blatt vor. Diese Karte ist keine amtliche Vermessung.</translation>
    </message>
    <message>
        <source>for dbh {least:g} to {most:g} {unit}</source>
        <translation>für BHD {least:g} bis {most:g} {unit}</translation>
    </message>
    <message>
        <source>from dbh {least:g} {unit}</source>
        <translation>ab BHD {least:g} {unit}</translation>
    </message>
    <message>
        <source>as recorded</source>
        <translation>wie aufgenommen</translation>
    </message>
    <message>
        <source>measured again</source>
        <extracomment>Rows without a record, for stems that the record lacks. Width of a column to write into; more where there is room. Width of a box to tick.</extracomment>
        <translation>nachgemessen</translation>
    </message>
    <message>
        <source>found</source>
        <translation>gefunden</translation>
    </message>
    <message>
        <source>doubt</source>
        <translation>Zweifel</translation>
    </message>
    <message>
        <source>remark</source>
        <translation>Bemerkung</translation>
    </message>
    <message>
        <source>tree</source>
        <translation>Baum</translation>
    </message>
    <message>
        <source>stem</source>
        <translation>Stamm</translation>
    </message>
    <message>
        <source>station</source>
        <translation>Standpunkt</translation>
    </message>
    <message>
        <source>azimuth {unit}</source>
        <translation>Azimut {unit}</translation>
    </message>
    <message>
        <source>distance {unit}</source>
        <translation>Abstand {unit}</translation>
    </message>
    <message>
        <source>vertical °</source>
        <translation>Höhenw. °</translation>
    </message>
    <message>
        <source>dbh {unit}</source>
        <translation>BHD {unit}</translation>
    </message>
    <message>
        <source>dbh mm</source>
        <translation>BHD mm</translation>
    </message>
    <message>
        <source>girth {unit}</source>
        <translation>Umfang {unit}</translation>
    </message>
    <message>
        <source>species</source>
        <translation>Baumart</translation>
    </message>
    <message>
        <source>status</source>
        <translation>Status</translation>
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
        <source>new</source>
        <translation>neu</translation>
    </message>
    <message>
        <source>and {count} more, see the window</source>
        <translation>und {count} weitere, siehe Fenster</translation>
    </message>
</context>
<context>
    <name>stem_columns</name>
    <message>
        <source>plot</source>
        <translation>Probefläche</translation>
    </message>
    <message>
        <source>plot as typed</source>
        <translation>Probefläche wie getippt</translation>
    </message>
    <message>
        <source>visit</source>
        <translation>Aufnahme</translation>
    </message>
    <message>
        <source>visit as typed</source>
        <translation>Aufnahme wie getippt</translation>
    </message>
    <message>
        <source>column of the upload that is kept but not used</source>
        <translation>Spalte der Aufnahmedaten, die erhalten bleibt, aber nicht gebraucht wird</translation>
    </message>
    <message>
        <source>living</source>
        <translation>lebend</translation>
    </message>
    <message>
        <source>dead</source>
        <translation>tot</translation>
    </message>
    <message>
        <source>cut</source>
        <translation>entnommen</translation>
    </message>
    <message>
        <source>gone</source>
        <translation>verschwunden</translation>
    </message>
    <message>
        <source>finding</source>
        <translation>Befund</translation>
    </message>
    <message>
        <source>the gravest finding about this stem</source>
        <translation>der schwerste Befund zu diesem Stamm</translation>
    </message>
    <message>
        <source>in or out</source>
        <translation>innen/außen</translation>
    </message>
    <message>
        <source>whether the stem belongs to the sample</source>
        <translation>ob der Stamm zur Stichprobe gehört</translation>
    </message>
    <message>
        <source>distance, m</source>
        <translation>Abstand, m</translation>
    </message>
    <message>
        <source>horizontal distance from the plot centre to the axis of the stem</source>
        <translation>waagerechter Abstand vom Mittelpunkt bis zur Stammachse</translation>
    </message>
    <message>
        <source>limit, m</source>
        <translation>Grenze, m</translation>
    </message>
    <message>
        <source>limiting distance: up to it the stem is in</source>
        <translation>Grenzabstand: bis dahin ist der Stamm innerhalb</translation>
    </message>
    <message>
        <source>in with, %</source>
        <translation>innerh., %</translation>
    </message>
    <message>
        <source>probability that the stem is in, given the errors of measurement</source>
        <translation>Wahrscheinlichkeit, dass der Stamm innerhalb ist, bei den gegebenen Messfehlern</translation>
    </message>
    <message>
        <source>grid azimuth, °</source>
        <translation>Gitterazimut, °</translation>
    </message>
    <message>
        <source>azimuth from the plot centre against grid north, degrees</source>
        <translation>Azimut vom Mittelpunkt gegen Gitternord, Grad</translation>
    </message>
    <message>
        <source>dbh, cm</source>
        <translation>BHD, cm</translation>
    </message>
    <message>
        <source>diameter at breast height, whatever was typed</source>
        <translation>Brusthöhendurchmesser, was immer getippt wurde</translation>
    </message>
    <message>
        <source>stems/ha</source>
        <translation>Stämme/ha</translation>
    </message>
    <message>
        <source>stems per hectare that the stem stands for when it is in</source>
        <translation>Stämme je Hektar, für die der Stamm steht, wenn er innerhalb ist</translation>
    </message>
    <message>
        <source>status</source>
        <translation>Status</translation>
    </message>
    <message>
        <source>what the status typed was understood as</source>
        <translation>wie der getippte Status verstanden wurde</translation>
    </message>
</context>
<context>
    <name>survey</name>
    <message>
        <source>Whole survey</source>
        <translation>Ganze Inventur</translation>
    </message>
    <message>
        <source>The survey alone</source>
        <extracomment>Fewer slips of a kind than this in the whole survey are not worth a line. Chance from which last digits are called even, and stems at the edge enough.</extracomment>
        <translation>Die Inventur allein</translation>
    </message>
    <message>
        <source>Visit by visit</source>
        <translation>Aufnahme für Aufnahme</translation>
    </message>
    <message>
        <source>Crew by crew</source>
        <translation>Trupp für Trupp</translation>
    </message>
    <message>
        <source>Instrument by instrument</source>
        <translation>Gerät für Gerät</translation>
    </message>
    <message>
        <source>Day by day</source>
        <translation>Tag für Tag</translation>
    </message>
    <message>
        <source>not said</source>
        <translation>nicht gesagt</translation>
    </message>
    <message>
        <source>Plots measured</source>
        <translation>Gemessene Probeflächen</translation>
    </message>
    <message>
        <source>A plot counts once for each of its visits</source>
        <translation>Eine Probefläche zählt einmal für jede ihrer Aufnahmen</translation>
    </message>
    <message>
        <source>Stems recorded</source>
        <translation>Aufgenommene Stämme</translation>
    </message>
    <message>
        <source>All records, whether in or out, living or dead</source>
        <translation>Alle Datensätze, ob innerhalb oder außerhalb, lebend oder tot</translation>
    </message>
    <message>
        <source>Findings: {kind}</source>
        <translation>Befunde: {kind}</translation>
    </message>
    <message>
        <source>Errors, things to look at and notes together</source>
        <translation>Fehler, Anzusehendes und Hinweise zusammen</translation>
    </message>
    <message>
        <source>Recording errors in 1,000 stems as this survey itself tells, those too small to be seen included; in brackets the range in which the true rate lies with a probability of 95 %</source>
        <translation>Aufnahmefehler auf 1000 Stämme, wie diese Inventur selbst sie zeigt, auch die zu kleinen, die man nicht sieht; in Klammern der Bereich, in dem die wahre Häufigkeit mit einer Wahrscheinlichkeit von 95 % liegt</translation>
    </message>
    <message>
        <source>Slip: {kind}</source>
        <translation>Versehen: {kind}</translation>
    </message>
    <message>
        <source>Last digits of dbh</source>
        <translation>Letzte Ziffern des BHD</translation>
    </message>
    <message>
        <source>Rounded or guessed diameters end in some digits more often than in others</source>
        <translation>Gerundete oder geschätzte Durchmesser enden auf manche Ziffern öfter als auf andere</translation>
    </message>
    <message>
        <source>Ground hidden from the centre</source>
        <translation>Vom Mittelpunkt aus verdeckter Boden</translation>
    </message>
    <message>
        <source>Share of the circles that stems hide</source>
        <translation>Anteil der Kreise, den Stämme verdecken</translation>
    </message>
    <message>
        <source>Stems missed behind others</source>
        <translation>Hinter anderen übersehene Stämme</translation>
    </message>
    <message>
        <source>Living stems expected to stand wholly hidden, with the range that holds with 95 %</source>
        <translation>Lebende Stämme, die wohl ganz verdeckt stehen, mit dem Bereich, der mit 95 % gilt</translation>
    </message>
    <message>
        <source>Stems in the outermost half metre</source>
        <translation>Stämme im äußersten halben Meter</translation>
    </message>
    <message>
        <source>Too few stems there are a habit, or a circle laid out too small</source>
        <translation>Zu wenige Stämme dort sind eine Gewohnheit oder ein zu klein gezogener Kreis</translation>
    </message>
    <message>
        <source>Plots numbered clockwise</source>
        <translation>Im Uhrzeigersinn nummeriert</translation>
    </message>
    <message>
        <source>Plots numbered counter-clockwise</source>
        <translation>Gegen den Uhrzeigersinn nummeriert</translation>
    </message>
    <message>
        <source>Plots numbered in no order</source>
        <translation>Ohne Ordnung nummeriert</translation>
    </message>
    <message>
        <source>Of the plots with enough stems to tell; each of them once for each visit</source>
        <translation>Von den Probeflächen mit genug Stämmen dafür; jede einmal für jede Aufnahme</translation>
    </message>
    <message>
        <source>Azimuths mistyped</source>
        <translation>Vertippte Azimute</translation>
    </message>
    <message>
        <source>Distances mistyped</source>
        <translation>Vertippte Distanzen</translation>
    </message>
    <message>
        <source>Diameters mistyped</source>
        <translation>Vertippte Durchmesser</translation>
    </message>
    <message>
        <source>Records entered twice</source>
        <translation>Doppelt eingegebene Datensätze</translation>
    </message>
    <message>
        <source>two digits exchanged</source>
        <translation>zwei Ziffern vertauscht</translation>
    </message>
    <message>
        <source>the key beside</source>
        <translation>die Taste daneben</translation>
    </message>
    <message>
        <source>a digit left out</source>
        <translation>eine Ziffer ausgelassen</translation>
    </message>
    <message>
        <source>a digit doubled</source>
        <translation>eine Ziffer verdoppelt</translation>
    </message>
    <message>
        <source>a digit too many</source>
        <translation>eine Ziffer zu viel</translation>
    </message>
    <message>
        <source>decimal point lost or moved</source>
        <translation>Komma verloren oder verschoben</translation>
    </message>
    <message>
        <source>back bearing</source>
        <translation>Rückazimut</translation>
    </message>
    <message>
        <source>azimuth counted the other way round</source>
        <translation>Azimut andersherum gezählt</translation>
    </message>
    <message>
        <source>a quarter of the circle off</source>
        <translation>um einen Viertelkreis daneben</translation>
    </message>
    <message>
        <source>gon for degrees or the reverse</source>
        <translation>Gon statt Grad oder umgekehrt</translation>
    </message>
    <message>
        <source>another unit</source>
        <translation>eine andere Einheit</translation>
    </message>
    <message>
        <source>slope distance for horizontal or the reverse</source>
        <translation>Schrägdistanz statt Horizontalentfernung oder umgekehrt</translation>
    </message>
    <message>
        <source>azimuths of two stems exchanged</source>
        <translation>Azimute zweier Stämme vertauscht</translation>
    </message>
    <message>
        <source>two columns of a record exchanged</source>
        <translation>zwei Spalten eines Datensatzes vertauscht</translation>
    </message>
    <message>
        <source>the line above repeated</source>
        <translation>die Zeile darüber wiederholt</translation>
    </message>
    <message>
        <source>something else</source>
        <translation>etwas anderes</translation>
    </message>
    <message>
        <source>{count} ({share} in 100 stems)</source>
        <translation>{count} ({share} auf 100 Stämme)</translation>
    </message>
    <message>
        <source>{rate} in 1,000 ({low} to {high})</source>
        <translation>{rate} auf 1000 ({low} bis {high})</translation>
    </message>
    <message>
        <source>{percent} %</source>
        <translation>{percent} %</translation>
    </message>
    <message>
        <source>even, of {count} diameters</source>
        <translation>gleichmäßig, bei {count} Durchmessern</translation>
    </message>
    <message>
        <source>{percent} % of {count} end in {digit}, where 10 % would be even</source>
        <translation>{percent} % von {count} enden auf {digit}, 10 % wären gleichmäßig</translation>
    </message>
    <message>
        <source>about {count} ({low} to {high}), {percent} % of all</source>
        <translation>etwa {count} ({low} bis {high}), {percent} % aller</translation>
    </message>
    <message>
        <source>{found}, where {expected} were expected</source>
        <translation>{found}, erwartet waren {expected}</translation>
    </message>
    <message>
        <source>{words}: too few</source>
        <translation>{words}: zu wenige</translation>
    </message>
    <message>
        <source>{count} of {plots}</source>
        <translation>{count} von {plots}</translation>
    </message>
</context>
<context>
    <name>survey_map</name>
    <message>
        <source>{count} plots, {errors} with errors, {others} to look at</source>
        <extracomment>The pointer hits a mark within so many millimetres of its middle. A plot is entered when it fills this share of the map as it would fit, and left below a smaller one.</extracomment>
        <translation>{count} Probeflächen, {errors} mit Fehlern, {others} zu prüfen</translation>
    </message>
    <message>
        <source>The nearest plot is {plot}, {distance} m away.</source>
        <translation>Die nächste Probefläche ist {plot}, {distance} m entfernt.</translation>
    </message>
</context>
<context>
    <name>table_model</name>
    <message>
        <source>as typed</source>
        <extracomment>An en space, half as wide as the letters are high. Texts from this length on may be cut off in their cell and are repeated in the tool tip. Rows from which on they are sorted and filtered off the GUI thread.</extracomment>
        <translation>wie getippt</translation>
    </message>
    <message>
        <source>derived</source>
        <translation>abgeleitet</translation>
    </message>
</context>
<context>
    <name>table_panel</name>
    <message>
        <source>Filter by typing</source>
        <extracomment>Width of a column beside its text, pixels. What is said below the last row.</extracomment>
        <translation>Filtern durch Tippen</translation>
    </message>
    <message>
        <source>Filter</source>
        <translation>Filter</translation>
    </message>
    <message>
        <source>Rows with all these words are shown; a column&apos;s name before a word looks there alone: plot 20 stem 30</source>
        <translation>Gezeigt werden Zeilen mit allen diesen Worten; der Name einer Spalte vor einem Wort sucht nur dort: Probefläche 20 Stamm 30</translation>
    </message>
    <message>
        <source>Nothing here has all these words as they were typed. Esc empties the line.</source>
        <translation>Nichts hier hat alle diese Worte so, wie sie eingegeben wurden. Esc leert die Zeile.</translation>
    </message>
    <message>
        <source>Searching…</source>
        <translation>Wird gesucht…</translation>
    </message>
    <message>
        <source>{shown} of {count}</source>
        <translation>{shown} von {count}</translation>
    </message>
    <message>
        <source>Copy rows</source>
        <translation>Zeilen kopieren</translation>
    </message>
    <message>
        <source>Columns</source>
        <translation>Spalten</translation>
    </message>
</context>
<context>
    <name>work</name>
    <message>
        <source> and </source>
        <translation> und </translation>
    </message>
    <message>
        <source> gon</source>
        <translation> gon</translation>
    </message>
    <message>
        <source> mil</source>
        <translation> Strich</translation>
    </message>
    <message>
        <source> or </source>
        <translation> oder </translation>
    </message>
    <message>
        <source> over strata</source>
        <translation> über Straten</translation>
    </message>
    <message>
        <source> with an error or something to look at</source>
        <translation> mit einem Fehler oder etwas zu prüfen</translation>
    </message>
    <message>
        <source>%1 %2 without a known value left out</source>
        <translation>%1 %2 ohne bekannten Wert ausgelassen</translation>
    </message>
    <message>
        <source>%1 %2/gpx.xsd</source>
        <translation>%1 %2/gpx.xsd</translation>
    </message>
    <message>
        <source>%1 and %2</source>
        <translation>%1 und %2</translation>
    </message>
    <message>
        <source>%1 and %2 are not shown to stand together or to keep apart</source>
        <translation>%1 und %2: Es zeigt sich nicht, dass sie zusammenstehen oder sich meiden</translation>
    </message>
    <message>
        <source>%1 and %2 more</source>
        <translation>%1 und %2 weitere</translation>
    </message>
    <message>
        <source>%1 and its like was read with marked thousands.</source>
        <translation>%1 und Ähnliches wurde mit Tausendertrennzeichen gelesen.</translation>
    </message>
    <message>
        <source>%1 and its like was read with the day first; nothing in the column settles day and month. If that is wrong, write dates as year-month-day.</source>
        <translation>%1 und Ähnliches wurde mit dem Tag zuerst gelesen; nichts in der Spalte klärt Tag und Monat. Wenn das falsch ist, Datum als Jahr-Monat-Tag schreiben.</translation>
    </message>
    <message>
        <source>%1 below the headings holds units or headings and was skipped.</source>
        <translation>%1 unter den Überschriften enthält Einheiten oder Überschriften und wurde übergangen.</translation>
    </message>
    <message>
        <source>%1 cannot be a survey file: its name must end in .gpkg. Nothing was made.</source>
        <translation>%1 kann keine Inventurdatei sein: Ihr Name muss auf .gpkg enden. Nichts wurde angelegt.</translation>
    </message>
    <message>
        <source>%1 cannot be read as a picture; the map stays as it was.</source>
        <translation>%1 kann nicht als Bild gelesen werden; die Karte bleibt, wie sie war.</translation>
    </message>
    <message>
        <source>%1 cannot be read: %2.</source>
        <translation>%1 kann nicht gelesen werden: %2.</translation>
    </message>
    <message>
        <source>%1 cannot be written (%2); choose another place with -o.</source>
        <translation>%1 kann nicht geschrieben werden (%2); einen anderen Ort wählen.</translation>
    </message>
    <message>
        <source>%1 cannot be written: %2. Choose another place.</source>
        <translation>%1 kann nicht geschrieben werden: %2. Einen anderen Ort wählen.</translation>
    </message>
    <message>
        <source>%1 cannot lie under the map: it ends with none of %2.</source>
        <translation>%1 kann nicht unter der Karte liegen: Es endet auf keines von %2.</translation>
    </message>
    <message>
        <source>%1 could not be finished (%2); a file of that name is as it was.</source>
        <translation>%1 konnte nicht fertiggestellt werden (%2); eine Datei dieses Namens ist, wie sie war.</translation>
    </message>
    <message>
        <source>%1 differ from line to line on plot %2 (first in line %3); the first line of each plot holds.</source>
        <translation>%1 unterscheiden sich von Zeile zu Zeile auf Probefläche %2 (zuerst in Zeile %3); die erste Zeile jeder Probefläche gilt.</translation>
    </message>
    <message>
        <source>%1 does not say its coordinate system; it is shown as lying in that of the map.</source>
        <translation>%1 nennt sein Koordinatensystem nicht; es wird gezeigt, als läge es in dem der Karte.</translation>
    </message>
    <message>
        <source>%1 does not say its coordinate system; save it with one.</source>
        <translation>%1 nennt sein Koordinatensystem nicht; mit einem speichern.</translation>
    </message>
    <message>
        <source>%1 does not say where it lies: it is no GeoTIFF and has no world file.</source>
        <translation>%1 sagt nicht, wo es liegt: Es ist kein GeoTIFF und hat keine World-Datei.</translation>
    </message>
    <message>
        <source>%1 errors, %2 warnings and %3 notes.</source>
        <translation>%1 Fehler, %2 Warnungen und %3 Hinweise.</translation>
    </message>
    <message>
        <source>%1 has %2 columns; a table of records has a few dozen, so this is another kind of file or its delimiter was lost.</source>
        <translation>%1 hat %2 Spalten; eine Tabelle mit Aufnahmen hat einige Dutzend, also ist dies eine andere Art Datei, oder ihr Trennzeichen ging verloren.</translation>
    </message>
    <message>
        <source>%1 has %2 rows of %3 columns, more than can be read at once; remove columns without records, lone cells far from the records, or split it.</source>
        <translation>%1 hat %2 Zeilen mit %3 Spalten, mehr als auf einmal gelesen werden kann; Spalten ohne Aufnahmen oder einzelne weit entfernte Zellen entfernen, oder die Datei teilen.</translation>
    </message>
    <message>
        <source>%1 has NUL bytes (first in line %2): it is damaged or no text file; export it again.</source>
        <translation>%1 enthält NUL-Bytes (zuerst in Zeile %2): Die Datei ist beschädigt oder keine Textdatei; neu ausgeben.</translation>
    </message>
    <message>
        <source>%1 has a cell of more than %2 characters in line %3: a quotation mark may not be closed there, or the file is no table of records.</source>
        <translation>%1 hat in Zeile %3 eine Zelle mit mehr als %2 Zeichen: Dort fehlt vielleicht ein schließendes Anführungszeichen, oder die Datei ist keine Tabelle mit Aufnahmen.</translation>
    </message>
    <message>
        <source>%1 has a section [%2] that is not known, and none that is.</source>
        <translation>%1 hat einen Abschnitt [%2], der nicht bekannt ist, und keinen bekannten.</translation>
    </message>
    <message>
        <source>%1 has features whose properties are no table.</source>
        <translation>%1 enthält Objekte, deren Eigenschaften keine Tabelle sind.</translation>
    </message>
    <message>
        <source>%1 has more than %2 corners, so only the first of them are shown.</source>
        <translation>%1 hat mehr als %2 Ecken, darum werden nur die ersten gezeigt.</translation>
    </message>
    <message>
        <source>%1 has more than %2 pixels; cut out the part you need.</source>
        <translation>%1 hat mehr als %2 Bildpunkte; den nötigen Teil ausschneiden.</translation>
    </message>
    <message>
        <source>%1 has no column for the plot; its %2 stems were taken as plot %3.</source>
        <translation>%1 hat keine Spalte für die Probefläche; ihre %2 Stämme wurden als Probefläche %3 genommen.</translation>
    </message>
    <message>
        <source>%1 has no features with properties.</source>
        <translation>%1 enthält keine Objekte mit Eigenschaften.</translation>
    </message>
    <message>
        <source>%1 has no plot</source>
        <translation>%1 hat keine Probefläche</translation>
    </message>
    <message>
        <source>%1 has points and columns of coordinates; the columns %2 were used.</source>
        <translation>%1 hat Punkte und Koordinatenspalten; benutzt wurden die Spalten %2.</translation>
    </message>
    <message>
        <source>%1 holds no places; the map stays as it was.</source>
        <translation>%1 enthält keine Orte; die Karte bleibt, wie sie war.</translation>
    </message>
    <message>
        <source>%1 holds no polygon of a stand; [design] stand needs its outline as an area.</source>
        <translation>%1 enthält kein Polygon eines Bestands; [design] stand braucht den Umriss als Fläche.</translation>
    </message>
    <message>
        <source>%1 holds no records.</source>
        <translation>%1 enthält keine Aufnahmen.</translation>
    </message>
    <message>
        <source>%1 holds no records: it is empty or has headings only.</source>
        <translation>%1 enthält keine Aufnahmen: leer oder nur Überschriften.</translation>
    </message>
    <message>
        <source>%1 holds the upload now; new records: %2.%3</source>
        <translation>%1 enthält jetzt die Aufnahmedaten; neue Datensätze: %2.%3</translation>
    </message>
    <message>
        <source>%1 holds the upload now; stems: %2, visits of plots: %3.</source>
        <translation>%1 enthält jetzt die Aufnahmedaten; Stämme: %2, Aufnahmen von Probeflächen: %3.</translation>
    </message>
    <message>
        <source>%1 holds what could be read from %2: %3 records and %4 decisions.%5 The damaged file was left as it is; keep it.%6</source>
        <translation>%1 enthält, was aus %2 zu lesen war: %3 Datensätze und %4 Entscheidungen.%5 Die beschädigte Datei blieb, wie sie ist; bitte aufheben.%6</translation>
    </message>
    <message>
        <source>%1 in the settings must be a section with keys: [%2].</source>
        <translation>%1 in den Einstellungen muss ein Abschnitt mit Schlüsseln sein: [%2].</translation>
    </message>
    <message>
        <source>%1 is %2, but %3.</source>
        <translation>%1 ist %2, aber %3.</translation>
    </message>
    <message>
        <source>%1 is %2, but must be a number.</source>
        <translation>%1 ist %2, muss aber eine Zahl sein.</translation>
    </message>
    <message>
        <source>%1 is %2, but must be a positive number.</source>
        <translation>%1 ist %2, muss aber eine positive Zahl sein.</translation>
    </message>
    <message>
        <source>%1 is %2, but must be one of %3.</source>
        <translation>%1 ist %2, muss aber eines sein von %3.</translation>
    </message>
    <message>
        <source>%1 is %2, but must be text.</source>
        <translation>%1 ist %2, muss aber Text sein.</translation>
    </message>
    <message>
        <source>%1 is %2; not compared with chance: %3; %4.</source>
        <translation>%1 ist %2; nicht mit dem Zufall verglichen: %3; %4.</translation>
    </message>
    <message>
        <source>%1 is JSON, but no GeoJSON collection of features.</source>
        <translation>%1 ist JSON, aber keine GeoJSON-Sammlung von Objekten.</translation>
    </message>
    <message>
        <source>%1 is a ZIP file, but no XLSX workbook; unpack it or save it as XLSX.</source>
        <translation>%1 ist eine ZIP-Datei, aber keine XLSX-Arbeitsmappe; entpacken oder als XLSX speichern.</translation>
    </message>
    <message>
        <source>%1 is a folder, not a settings file.</source>
        <translation>%1 ist ein Ordner, keine Einstellungsdatei.</translation>
    </message>
    <message>
        <source>%1 is a folder; give the files in it.</source>
        <translation>%1 ist ein Ordner; die Dateien darin angeben.</translation>
    </message>
    <message>
        <source>%1 is a survey file, no upload; add the files that it was made of instead.</source>
        <translation>%1 ist eine Inventurdatei, keine Aufnahmedatei; stattdessen die Dateien hinzufügen, aus denen sie gemacht wurde.</translation>
    </message>
    <message>
        <source>%1 is a survey file, with records and decisions in it; a result is never written over one. Choose another name.</source>
        <translation>%1 ist eine Inventurdatei mit Aufnahmedaten und Entscheidungen; ein Ergebnis wird nie darüber geschrieben. Einen anderen Namen wählen.</translation>
    </message>
    <message>
        <source>%1 is called %2, but is none; export it again, or correct its ending.</source>
        <translation>%1 heißt %2, ist aber keine solche Datei; neu ausgeben oder die Endung berichtigen.</translation>
    </message>
    <message>
        <source>%1 is called a GeoJSON file, but is none; export it again.</source>
        <translation>%1 heißt GeoJSON-Datei, ist aber keine; neu ausgeben.</translation>
    </message>
    <message>
        <source>%1 is damaged or no GeoPackage. Export it again; if it is a survey file, stemmap repair saves what can be read.</source>
        <translation>%1 ist beschädigt oder kein GeoPackage. Geben Sie es neu aus; ist es eine Inventurdatei, so rettet stemmap repair, was lesbar ist.</translation>
    </message>
    <message>
        <source>%1 is damaged or no XLSX workbook (%2); save it again.</source>
        <translation>%1 ist beschädigt oder keine XLSX-Arbeitsmappe (%2); neu speichern.</translation>
    </message>
    <message>
        <source>%1 is empty and was not read.</source>
        <translation>%1 ist leer und wurde nicht gelesen.</translation>
    </message>
    <message>
        <source>%1 is empty: it has no line of text.</source>
        <translation>%1 ist leer: keine Zeile Text.</translation>
    </message>
    <message>
        <source>%1 is empty; export it again.</source>
        <translation>%1 ist leer; neu ausgeben.</translation>
    </message>
    <message>
        <source>%1 is larger than 512 MiB; split it.</source>
        <translation>%1 ist größer als 512 MiB; teilen.</translation>
    </message>
    <message>
        <source>%1 is marked as %2, but is not; save it as UTF-8.</source>
        <translation>%1 ist als %2 gekennzeichnet, ist es aber nicht; als UTF-8 speichern.</translation>
    </message>
    <message>
        <source>%1 is no complete GeoJSON file: it breaks off or is damaged in line %2; export it anew.</source>
        <translation>%1 ist keine vollständige GeoJSON-Datei: Sie bricht ab oder ist in Zeile %2 beschädigt; neu ausgeben.</translation>
    </message>
    <message>
        <source>%1 is no file that could be replaced. Choose another name.</source>
        <translation>%1 ist keine Datei, die ersetzt werden könnte. Einen anderen Namen wählen.</translation>
    </message>
    <message>
        <source>%1 is no ordinary file.</source>
        <translation>%1 ist keine gewöhnliche Datei.</translation>
    </message>
    <message>
        <source>%1 is no readable GeoJSON file; export it again.</source>
        <translation>%1 ist keine lesbare GeoJSON-Datei; neu ausgeben.</translation>
    </message>
    <message>
        <source>%1 is no readable workbook (%2); save it again as XLSX or CSV.</source>
        <translation>%1 ist keine lesbare Arbeitsmappe (%2); neu als XLSX oder CSV speichern.</translation>
    </message>
    <message>
        <source>%1 is no text file; give a CSV, XLSX, GeoJSON or GeoPackage file.</source>
        <translation>%1 ist keine Textdatei; eine CSV-, XLSX-, GeoJSON- oder GeoPackage-Datei angeben.</translation>
    </message>
    <message>
        <source>%1 is no world file: six numbers are expected, one in a line.</source>
        <translation>%1 ist keine World-Datei: Erwartet werden sechs Zahlen, eine je Zeile.</translation>
    </message>
    <message>
        <source>%1 is not a coordinate system for positions on the ground; choose a projected one.</source>
        <translation>%1 ist kein Koordinatensystem für Orte auf der Erde; ein projiziertes wählen.</translation>
    </message>
    <message>
        <source>%1 is not among [sample] strata</source>
        <translation>%1 steht nicht unter [sample] strata</translation>
    </message>
    <message>
        <source>%1 is not written in UTF-8; save it as UTF-8.</source>
        <translation>%1 ist nicht in UTF-8 geschrieben; als UTF-8 speichern.</translation>
    </message>
    <message>
        <source>%1 is spread among the other stems: fewer of its own than by chance within a radius of %2 m</source>
        <translation>%1 ist unter den anderen Stämmen verteilt: weniger eigene als bei Zufall im Umkreis von %2 m</translation>
    </message>
    <message>
        <source>%1 is the same file as %2; it was read once.</source>
        <translation>%1 ist dieselbe Datei wie %2; sie wurde einmal gelesen.</translation>
    </message>
    <message>
        <source>%1 is the table of a field packet; take it in with stemmap remeasured, in the window with File, Re-measurements.</source>
        <translation>%1 ist die Tabelle eines Feldpakets; zu übernehmen mit stemmap remeasured, im Fenster mit Datei, Nachmessungen.</translation>
    </message>
    <message>
        <source>%1 is too large for a settings file.</source>
        <translation>%1 ist zu groß für eine Einstellungsdatei.</translation>
    </message>
    <message>
        <source>%1 is too large for the memory of this machine; split it.</source>
        <translation>%1 ist zu groß für den Speicher dieses Rechners; teilen.</translation>
    </message>
    <message>
        <source>%1 is turned; only pictures with north up can lie under the map.</source>
        <translation>%1 ist gedreht; nur Bilder mit Nord oben können unter der Karte liegen.</translation>
    </message>
    <message>
        <source>%1 is what the result is made from, and stays as it is. Choose another name.</source>
        <translation>Aus %1 entsteht das Ergebnis, und die Datei bleibt, wie sie ist. Einen anderen Namen wählen.</translation>
    </message>
    <message>
        <source>%1 lies in %2, the map in %3; transform the picture first.</source>
        <translation>%1 liegt in %2, die Karte in %3; das Bild zuerst transformieren.</translation>
    </message>
    <message>
        <source>%1 must be a list.</source>
        <translation>%1 muss eine Liste sein.</translation>
    </message>
    <message>
        <source>%1 m² of basal area per hectare, standard error %2 or %3 %; 95 % interval %4 to %5.</source>
        <translation>%1 m² Grundfläche je Hektar, Standardfehler %2 oder %3 %; 95-%-Intervall %4 bis %5.</translation>
    </message>
    <message>
        <source>%1 of %2 differences, %3 and %4, make %5 % of their scatter; without them the bias is %6 %7 and the standard deviation %8 %9.</source>
        <translation>%1 von %2 Differenzen, %3 und %4, machen %5 % ihrer Streuung aus; ohne sie ist die systematische Abweichung %6 %7 und die Standardabweichung %8 %9.</translation>
    </message>
    <message>
        <source>%1 of %2 differences, %3, %4 and %5 more, make %6 % of their scatter; without them the bias is %7 %8 and the standard deviation %9 %10.</source>
        <translation>%1 von %2 Differenzen, %3, %4 und %5 weitere, machen %6 % ihrer Streuung aus; ohne sie ist die systematische Abweichung %7 %8 und die Standardabweichung %9 %10.</translation>
    </message>
    <message>
        <source>%1 on %2 (process %3) has been writing into it since %4</source>
        <translation>%1 auf %2 (Prozess %3) schreibt seit %4 hinein</translation>
    </message>
    <message>
        <source>%1 plots</source>
        <translation>%1 Probeflächen</translation>
    </message>
    <message>
        <source>%1 plots without a known value were left out.</source>
        <translation>%1 Probeflächen ohne bekannten Wert wurden weggelassen.</translation>
    </message>
    <message>
        <source>%1 shows formula errors in %2; these cells were taken as empty. Mend the formulas.</source>
        <translation>%1 zeigt Formelfehler in %2; diese Zellen gelten als leer. Die Formeln berichtigen.</translation>
    </message>
    <message>
        <source>%1 stands in groups among the other stems: more of its own than by chance within a radius of %2 m</source>
        <translation>%1 steht in Gruppen unter den anderen Stämmen: mehr eigene als bei Zufall im Umkreis von %2 m</translation>
    </message>
    <message>
        <source>%1 stems per hectare, standard error %2 or %3 %; 95 % interval %4 to %5.</source>
        <translation>%1 Stämme je Hektar, Standardfehler %2 oder %3 %; 95-%-Intervall %4 bis %5.</translation>
    </message>
    <message>
        <source>%1 stems per hectare; the error is not known: %2.</source>
        <translation>%1 Stämme je Hektar; der Fehler ist nicht bekannt: %2.</translation>
    </message>
    <message>
        <source>%1 stems/ha and %2 m²/ha</source>
        <translation>%1 Stämme/ha und %2 m²/ha</translation>
    </message>
    <message>
        <source>%1 under one inclusion rule on each plot&apos;s last visit, one position a tree</source>
        <translation>%1 unter einer Aufnahmeregel, von jeder Probefläche die letzte Aufnahme, eine Lage je Baum</translation>
    </message>
    <message>
        <source>%1 was not read: it has no heading of plots, stems or stations.</source>
        <translation>%1 wurde nicht gelesen: keine Überschrift von Probeflächen, Stämmen oder Standpunkten.</translation>
    </message>
    <message>
        <source>%1 was not read: it is empty or has headings only.</source>
        <translation>%1 wurde nicht gelesen: leer oder nur Überschriften.</translation>
    </message>
    <message>
        <source>%1 was read as a spreadsheet&apos;s number of a day.</source>
        <translation>%1 wurde als Tageszahl einer Tabellenkalkulation gelesen.</translation>
    </message>
    <message>
        <source>%1 would hardly change it, by less than 1 %.</source>
        <translation>%1 würde ihn kaum ändern, um weniger als 1 %.</translation>
    </message>
    <message>
        <source>%1 would not change it: %2.</source>
        <translation>%1 würde ihn nicht ändern: %2.</translation>
    </message>
    <message>
        <source>%1 would take it to about %2.</source>
        <translation>%1 brächte ihn auf etwa %2.</translation>
    </message>
    <message>
        <source>%1 would unfold to %2 MB; that is no table of records. Save it as CSV.</source>
        <translation>%1 würde sich auf %2 MB entfalten; das ist keine Tabelle mit Aufnahmen. Als CSV speichern.</translation>
    </message>
    <message>
        <source>%1, %2 and %3</source>
        <translation>%1, %2 und %3</translation>
    </message>
    <message>
        <source>%1, %2 stems</source>
        <translation>%1, %2 Stämme</translation>
    </message>
    <message>
        <source>%1, %2 stems on %3 plots</source>
        <translation>%1, %2 Stämme auf %3 Probeflächen</translation>
    </message>
    <message>
        <source>%1, large stems</source>
        <translation>%1, große Stämme</translation>
    </message>
    <message>
        <source>%1, layer %2</source>
        <translation>%1, Layer %2</translation>
    </message>
    <message>
        <source>%1, sheet %2</source>
        <translation>%1, Blatt %2</translation>
    </message>
    <message>
        <source>%1. plot %2%3: %4, stems to measure: %5</source>
        <translation>%1. Probefläche %2%3: %4, zu messende Stämme: %5</translation>
    </message>
    <message>
        <source>%1: %2 and has not finished yet; nothing of this was stored. Try again.</source>
        <translation>%1: %2 und ist noch nicht fertig; hiervon wurde nichts gespeichert. Noch einmal versuchen.</translation>
    </message>
    <message>
        <source>%1: a picture of a map ends in .png or .svg.</source>
        <translation>%1: Ein Bild einer Karte endet auf .png oder .svg.</translation>
    </message>
    <message>
        <source>%1: a plot sheet ends in .pdf, .png or .svg.</source>
        <translation>%1: Ein Probeflächenblatt endet auf .pdf, .png oder .svg.</translation>
    </message>
    <message>
        <source>%1: the name must end in %2.</source>
        <translation>%1: Der Name muss auf %2 enden.</translation>
    </message>
    <message>
        <source>%1; no difference is shown; %2.</source>
        <translation>%1; ein Unterschied zeigt sich nicht; %2.</translation>
    </message>
    <message>
        <source>%1… (%2 characters)</source>
        <translation>%1… (%2 Zeichen)</translation>
    </message>
    <message>
        <source>(%1 to %2)</source>
        <translation>(%1 bis %2)</translation>
    </message>
    <message>
        <source>(beyond the last heading)</source>
        <translation>(hinter der letzten Überschrift)</translation>
    </message>
    <message>
        <source>(no name)</source>
        <translation>(ohne Namen)</translation>
    </message>
    <message>
        <source>, %1 m²/ha</source>
        <translation>, %1 m²/ha</translation>
    </message>
    <message>
        <source>, %1 years</source>
        <translation>, %1 Jahre</translation>
    </message>
    <message>
        <source>, and </source>
        <translation>, und </translation>
    </message>
    <message>
        <source>, visit %1</source>
        <translation>, Aufnahme %1</translation>
    </message>
    <message>
        <source>1 plot without a known value was left out.</source>
        <translation>1 Probefläche ohne bekannten Wert wurde weggelassen.</translation>
    </message>
    <message>
        <source>95 % interval</source>
        <translation>95-%-Intervall</translation>
    </message>
    <message>
        <source>; it fits </source>
        <translation>; dazu passt </translation>
    </message>
    <message>
        <source>; known are %1</source>
        <translation>; bekannt sind %1</translation>
    </message>
    <message>
        <source>; near it: %1</source>
        <translation>; ähnlich: %1</translation>
    </message>
    <message>
        <source>; near them: %1</source>
        <translation>; ähnlich: %1</translation>
    </message>
    <message>
        <source>; the next visit agrees with the one before</source>
        <translation>; die nächste Aufnahme stimmt mit der davor überein</translation>
    </message>
    <message>
        <source>? (line %1)</source>
        <translation>? (Zeile %1)</translation>
    </message>
    <message>
        <source>A check&apos;s slug is lower case with hyphens, not %1.</source>
        <translation>Der Kurzname einer Prüfung besteht aus Kleinbuchstaben und Bindestrichen, nicht %1.</translation>
    </message>
    <message>
        <source>A circle needs a positive radius in metres, not %1.</source>
        <translation>Ein Kreis braucht einen positiven Radius in Metern, nicht %1.</translation>
    </message>
    <message>
        <source>A column of dates holds years only.</source>
        <translation>Eine Datumsspalte enthält nur Jahre.</translation>
    </message>
    <message>
        <source>A column was not recognised.</source>
        <translation>Eine Spalte wurde nicht erkannt.</translation>
    </message>
    <message>
        <source>A column with values has no heading.</source>
        <translation>Eine Spalte mit Werten hat keine Überschrift.</translation>
    </message>
    <message>
        <source>A comma or point may be a decimal mark or a thousands mark.</source>
        <translation>Ein Komma oder Punkt kann Dezimal- oder Tausenderzeichen sein.</translation>
    </message>
    <message>
        <source>A compass twice as exact</source>
        <translation>Ein doppelt so genauer Kompass</translation>
    </message>
    <message>
        <source>A concentric design needs its circles: give circles with radius_m and min_dbh_cm.</source>
        <translation>Konzentrische Kreise müssen angegeben werden: circles mit radius_m und min_dbh_cm.</translation>
    </message>
    <message>
        <source>A dbh class needs a positive width in centimetres, not %1.</source>
        <translation>Eine BHD-Klasse braucht eine positive Breite in Zentimetern, nicht %1.</translation>
    </message>
    <message>
        <source>A design of kind %1 has no circles: set kind to concentric or drop them.</source>
        <translation>Ein Verfahren der Art %1 hat keine Kreise: kind auf concentric setzen oder die Kreise streichen.</translation>
    </message>
    <message>
        <source>A few plots hold much more than the others: allowing for that (Hall 1992) the 95 % interval of basal area is %1 to %2 m² per hectare.</source>
        <translation>Wenige Probeflächen tragen viel mehr als die anderen: Berücksichtigt man das (Hall 1992), reicht das 95-%-Intervall der Grundfläche von %1 bis %2 m² je Hektar.</translation>
    </message>
    <message>
        <source>A few plots hold much more than the others: allowing for that (Hall 1992) the 95 % interval of stems per hectare is %1 to %2.</source>
        <translation>Wenige Probeflächen tragen viel mehr als die anderen: Berücksichtigt man das (Hall 1992), reicht das 95-%-Intervall der Stammzahl je Hektar von %1 bis %2.</translation>
    </message>
    <message>
        <source>A file could not be used.</source>
        <translation>Eine Datei konnte nicht benutzt werden.</translation>
    </message>
    <message>
        <source>A file was given twice.</source>
        <translation>Eine Datei wurde zweimal angegeben.</translation>
    </message>
    <message>
        <source>A first sample of %1 points cannot hold the %2 plots of the second one.</source>
        <translation>Eine erste Stichprobe von %1 Punkten kann die %2 Probeflächen der zweiten nicht enthalten.</translation>
    </message>
    <message>
        <source>A heading can mean two things.</source>
        <translation>Eine Überschrift kann zweierlei bedeuten.</translation>
    </message>
    <message>
        <source>A heading that was asked for is in none of the files.</source>
        <translation>Eine verlangte Überschrift steht in keiner der Dateien.</translation>
    </message>
    <message>
        <source>A layer has both points and columns of coordinates.</source>
        <translation>Ein Layer hat Punkte und Koordinatenspalten.</translation>
    </message>
    <message>
        <source>A page of %1 could not be made; nothing was written.</source>
        <translation>Eine Seite von %1 konnte nicht gemacht werden; nichts wurde geschrieben.</translation>
    </message>
    <message>
        <source>A plot radius of {radius_m:g} was given, but the design is %1, whose own limits hold.</source>
        <translation>Ein Probeflächenradius von {radius_m:g} wurde angegeben, aber das Verfahren ist %1, dessen eigene Grenzen gelten.</translation>
    </message>
    <message>
        <source>A plot that reaches %1 m from its centre fits on %2 at no scale.</source>
        <translation>Eine Probefläche, die %1 m weit reicht, passt in keinem Maßstab auf %2.</translation>
    </message>
    <message>
        <source>A quotation mark is left open in %1, probably in line %2; every line was read by itself. Look at that line and remove the mark.</source>
        <translation>In %1 ist ein Anführungszeichen offen, wohl in Zeile %2; jede Zeile wurde für sich gelesen. Diese Zeile ansehen und das Zeichen entfernen.</translation>
    </message>
    <message>
        <source>A quotation mark was opened and not closed.</source>
        <translation>Ein Anführungszeichen wurde geöffnet und nicht geschlossen.</translation>
    </message>
    <message>
        <source>A rectangle needs its south-west corner first and its north-east corner second, not (%1, %2) and (%3, %4).</source>
        <translation>Ein Rechteck braucht zuerst die Südwestecke und dann die Nordostecke, nicht (%1, %2) und (%3, %4).</translation>
    </message>
    <message>
        <source>A second line of headings was skipped.</source>
        <translation>Eine zweite Überschriftenzeile wurde übergangen.</translation>
    </message>
    <message>
        <source>A sheet or layer was not read.</source>
        <translation>Ein Blatt oder Layer wurde nicht gelesen.</translation>
    </message>
    <message>
        <source>A sheet shows formula errors.</source>
        <translation>Ein Blatt zeigt Formelfehler.</translation>
    </message>
    <message>
        <source>A survey file is damaged.</source>
        <translation>Eine Inventurdatei ist beschädigt.</translation>
    </message>
    <message>
        <source>A survey file is opened alone; add uploads to it with stemmap add or File, Add uploads.</source>
        <translation>Eine Inventurdatei wird allein geöffnet; Aufnahmedaten kommen mit stemmap add oder Datei, Aufnahmedaten hinzufügen hinein.</translation>
    </message>
    <message>
        <source>About %1 stems/ha and %2 m²/ha are expected to be missed behind other stems, told from %3 of %4 plots; a second stand-point would find these at most.</source>
        <translation>Etwa %1 Stämme/ha und %2 m²/ha dürften hinter anderen Stämmen übersehen worden sein, nach %3 von %4 Probeflächen; ein zweiter Standpunkt fände höchstens diese.</translation>
    </message>
    <message>
        <source>Among the other stems: %1</source>
        <translation>Unter den anderen Stämmen: %1</translation>
    </message>
    <message>
        <source>An angle count needs its basal_area_factor.</source>
        <translation>Eine Winkelzählprobe braucht basal_area_factor.</translation>
    </message>
    <message>
        <source>Azimuths cannot be counted from the north of %1: choose a projected system.</source>
        <translation>Azimute können nicht vom Nord von %1 gezählt werden: ein projiziertes System wählen.</translation>
    </message>
    <message>
        <source>Azimuths in %1, clockwise from %2 north. Distances in %3, %4, %5; %6 in %7 at %8 m.</source>
        <translation>Azimute in %1, im Uhrzeigersinn ab %2 Nord. Entfernungen in %3, %4, %5; %6 in %7 in %8 m Höhe.</translation>
    </message>
    <message>
        <source>Basal area changed by %1 m²/ha, standard error %2; no change is shown, for the 95 % interval holds zero.</source>
        <translation>Die Grundfläche änderte sich um %1 m²/ha, Standardfehler %2; eine Veränderung ist nicht erwiesen, denn das 95-%-Intervall enthält null.</translation>
    </message>
    <message>
        <source>Basal area changed by %1 m²/ha, standard error %2; that is more than by the choice of the plots alone.</source>
        <translation>Die Grundfläche änderte sich um %1 m²/ha, Standardfehler %2; das ist mehr als durch die Auswahl der Probeflächen allein.</translation>
    </message>
    <message>
        <source>Basal area changed by %1 m²/ha; whether by chance is not known.</source>
        <translation>Die Grundfläche änderte sich um %1 m²/ha; ob durch Zufall, ist nicht bekannt.</translation>
    </message>
    <message>
        <source>By the design that the settings state: simple random, stratified before or after sampling, clusters by the ratio of means, double sampling for stratification or with regression (Cochran 1977, Sampling Techniques, 3rd ed., chapters 2, 5, 5A, 6, 9A and 12); intervals by Student&apos;s t, 95 %. Plots on a grid are computed as if drawn at random.</source>
        <translation>Nach dem Stichprobenverfahren der Einstellungen: einfach zufällig, stratifiziert vor oder nach der Auswahl, Trakte nach dem Verhältnis der Mittel, zweiphasig zur Stratifizierung oder mit Regression (Cochran 1977, Sampling Techniques, 3. Aufl., Kapitel 2, 5, 5A, 6, 9A und 12); Intervalle nach Students t, 95 %. Probeflächen eines Gitters werden berechnet, als wären sie zufällig gezogen.</translation>
    </message>
    <message>
        <source>By the minutes in the settings a crew takes about %1 hours, %2 on blind plots.</source>
        <translation>Nach den Minuten der Einstellungen braucht ein Trupp etwa %1 Stunden, davon %2 auf blinden Probeflächen.</translation>
    </message>
    <message>
        <source>By the minutes in the settings a crew takes about %1 hours.</source>
        <translation>Nach den Minuten der Einstellungen braucht ein Trupp etwa %1 Stunden.</translation>
    </message>
    <message>
        <source>CRS unit</source>
        <translation>Einheit des Koordinatensystems</translation>
    </message>
    <message>
        <source>Change between visits</source>
        <translation>Veränderung zwischen den Aufnahmen</translation>
    </message>
    <message>
        <source>Choose yes, no or new.</source>
        <translation>Bitte yes (ja), no (nein) oder new (neu) wählen.</translation>
    </message>
    <message>
        <source>Clark-Evans R</source>
        <translation>Clark-Evans R</translation>
    </message>
    <message>
        <source>Clumped or regular: L(r) - r</source>
        <translation>Geklumpt oder regelmäßig: L(r) - r</translation>
    </message>
    <message>
        <source>Clumped: more neighbours than by chance within a radius of %1 m</source>
        <translation>Geklumpt: mehr Nachbarn als bei Zufall im Umkreis von %1 m</translation>
    </message>
    <message>
        <source>Column %1 has no heading; its cells are kept, but not interpreted.</source>
        <translation>Spalte %1 hat keine Überschrift; ihre Zellen bleiben erhalten, werden aber nicht gedeutet.</translation>
    </message>
    <message>
        <source>Column %1 holds years, not days; %2.</source>
        <translation>Spalte %1 enthält Jahre, keine Tage; %2.</translation>
    </message>
    <message>
        <source>Column {column} of {file} is said to be in {stated}, but its values are read in {expected}.</source>
        <translation>Spalte {column} von {file} soll in {stated} sein, aber ihre Werte werden in {expected} gelesen.</translation>
    </message>
    <message>
        <source>Computing positions</source>
        <translation>Positionen werden berechnet</translation>
    </message>
    <message>
        <source>Crew {crew}: {found:.0f} stems stand in the outermost half metre of their circles, where {expected:.0f} were expected.</source>
        <translation>Trupp {crew}: {found:.0f} Stämme stehen im äußersten halben Meter ihrer Kreise, wo {expected:.0f} zu erwarten waren.</translation>
    </message>
    <message>
        <source>Crew {crew}: {percent:.0f} % of {numbers} diameters end in {digit}; equal digits would give 10 %.</source>
        <translation>Trupp {crew}: {percent:.0f} % von {numbers} Durchmessern enden auf {digit}; gleich häufige Ziffern ergäben 10 %.</translation>
    </message>
    <message>
        <source>Curtis&apos;s relative density is %1.</source>
        <translation>Die relative Dichte nach Curtis ist %1.</translation>
    </message>
    <message>
        <source>Curves of all plots</source>
        <translation>Kurven aller Probeflächen</translation>
    </message>
    <message>
        <source>Dates stand as day numbers of a spreadsheet.</source>
        <translation>Datumsangaben stehen als Tageszahlen einer Tabellenkalkulation.</translation>
    </message>
    <message>
        <source>Day and month of a date may be exchanged.</source>
        <translation>Tag und Monat eines Datums können vertauscht sein.</translation>
    </message>
    <message>
        <source>Dbh by species</source>
        <translation>BHD nach Baumart</translation>
    </message>
    <message>
        <source>Decimal points and decimal commas stand in one column.</source>
        <translation>Dezimalpunkte und Dezimalkommas stehen in einer Spalte.</translation>
    </message>
    <message>
        <source>Distance to the nearest stem: G(r)</source>
        <translation>Abstand zum nächsten Stamm: G(r)</translation>
    </message>
    <message>
        <source>Distances twice as exact</source>
        <translation>Eine doppelt so genaue Abstandsmessung</translation>
    </message>
    <message>
        <source>Drawing plot %1</source>
        <translation>Probefläche %1 wird gezeichnet</translation>
    </message>
    <message>
        <source>Fewer pairs of stems than by chance stand %1 m apart</source>
        <translation>Weniger Paare von Stämmen als bei Zufall stehen %1 m auseinander</translation>
    </message>
    <message>
        <source>Fewer stems than by chance have their nearest neighbour nearer than %1 m</source>
        <translation>Weniger Stämme als bei Zufall haben ihren nächsten Nachbarn näher als %1 m</translation>
    </message>
    <message>
        <source>Field packet %1</source>
        <translation>Feldpaket %1</translation>
    </message>
    <message>
        <source>Field packet %1 of %2: plots: %3, stems to measure again: %4.</source>
        <translation>Feldpaket %1 von %2: Probeflächen: %3, nachzumessende Stämme: %4.</translation>
    </message>
    <message>
        <source>Fill in</source>
        <translation>Fill in</translation>
    </message>
    <message>
        <source>For stems the plots tell as much as %1 plots drawn at random would.</source>
        <translation>Für die Stammzahl sagen die Probeflächen so viel wie %1 zufällig gezogene.</translation>
    </message>
    <message>
        <source>From visit %1 to visit %2, %3 plots were measured both times.</source>
        <translation>Von Aufnahme %1 zu Aufnahme %2 wurden %3 Probeflächen beide Male gemessen.</translation>
    </message>
    <message>
        <source>Global, 95 %, by extreme rank length (Myllymäki et al. 2017, Journal of the Royal Statistical Society B 79: 381-404), against as many stems at random in the same circles; for marks, dealt out anew among the stems of each plot. A curve without a pattern leaves its envelope in 5 of 100 cases.</source>
        <translation>Global, 95 %, nach der Länge extremer Ränge (Myllymäki et al. 2017, Journal of the Royal Statistical Society B 79: 381-404), gegen ebenso viele zufällige Stämme in denselben Kreisen; bei Merkmalen unter den Stämmen jeder Probefläche neu verteilt. Eine Kurve ohne Muster verlässt ihre Hülle in 5 von 100 Fällen.</translation>
    </message>
    <message>
        <source>Half of it in basal area is out of reach with more of the %1 alone.</source>
        <translation>Die Hälfte davon in der Grundfläche ist mit mehr %1 allein nicht erreichbar.</translation>
    </message>
    <message>
        <source>Half of it in basal area takes about %1 %2 in all, drawn alike.</source>
        <translation>Die Hälfte davon in der Grundfläche braucht im Ganzen etwa %1 %2, ebenso gezogen.</translation>
    </message>
    <message>
        <source>Hardly a stem stands so near its limiting distance that it may be in or out.</source>
        <translation>Kaum ein Stamm steht so nahe an seinem Grenzabstand, dass er drinnen oder draußen sein kann.</translation>
    </message>
    <message>
        <source>Indices of the four nearest stems</source>
        <translation>Maße der vier nächsten Stämme</translation>
    </message>
    <message>
        <source>K(r) = A / (n (n - 1)) Σ w 1(d ≤ r) over ordered pairs d apart, isotropic edge weights w (Ripley 1976, Journal of Applied Probability 13: 255-266); L = √(K/π). Pooled: Σ n(n-1) K / Σ n(n-1) over plots.</source>
        <translation>K(r) = A / (n (n - 1)) Σ w 1(d ≤ r) über geordnete Paare im Abstand d, isotrope Randgewichte w (Ripley 1976, Journal of Applied Probability 13: 255-266); L = √(K/π). Zusammengefasst: Σ n(n-1) K / Σ n(n-1) über die Probeflächen.</translation>
    </message>
    <message>
        <source>Line %1, column %2: %3</source>
        <translation>Zeile %1, Spalte %2: %3</translation>
    </message>
    <message>
        <source>Lines before the headings were skipped.</source>
        <translation>Zeilen vor den Überschriften wurden übergangen.</translation>
    </message>
    <message>
        <source>Lines have too few or too many cells.</source>
        <translation>Zeilen haben zu wenige oder zu viele Zellen.</translation>
    </message>
    <message>
        <source>Lines name a plot but no stem.</source>
        <translation>Zeilen nennen eine Probefläche, aber keinen Stamm.</translation>
    </message>
    <message>
        <source>Looking into %1</source>
        <translation>%1 wird angesehen</translation>
    </message>
    <message>
        <source>Mark correlation</source>
        <translation>Markenkorrelation</translation>
    </message>
    <message>
        <source>Mean distance to the nearest stem over the one expected, 0.5 √(A/n) + (0.0514 + 0.041/√n) P/n, A area, P perimeter, n stems (Clark &amp; Evans 1954, Ecology 35: 445-453; Donnelly 1978, in Hodder, Simulation studies in archaeology, 91-95).</source>
        <translation>Mittlerer Abstand zum nächsten Stamm durch den erwarteten, 0,5 √(A/n) + (0,0514 + 0,041/√n) P/n, A Fläche, P Umfang, n Stämme (Clark &amp; Evans 1954, Ecology 35: 445-453; Donnelly 1978, in Hodder, Simulation studies in archaeology, 91-95).</translation>
    </message>
    <message>
        <source>Mean product of the dbh of two stems r apart over the squared mean dbh of their plot, kernel of half-width 1 m (Stoyan &amp; Stoyan 1994).</source>
        <translation>Mittleres Produkt der BHD zweier Stämme im Abstand r durch das Quadrat des mittleren BHD ihrer Probefläche, Kern der halben Breite 1 m (Stoyan &amp; Stoyan 1994).</translation>
    </message>
    <message>
        <source>Means, standard errors and intervals</source>
        <translation>Mittel, Standardfehler und Intervalle</translation>
    </message>
    <message>
        <source>More pairs of stems than by chance stand %1 m apart</source>
        <translation>Mehr Paare von Stämmen als bei Zufall stehen %1 m auseinander</translation>
    </message>
    <message>
        <source>More stems lie towards %1° than on the other side; %2.</source>
        <translation>Gegen %1° stehen mehr Stämme als auf der anderen Seite; %2.</translation>
    </message>
    <message>
        <source>More stems than by chance have their nearest neighbour nearer than %1 m</source>
        <translation>Mehr Stämme als bei Zufall haben ihren nächsten Nachbarn näher als %1 m</translation>
    </message>
    <message>
        <source>No distance is shown at which pairs of stems stand more or less often than by chance</source>
        <translation>Es zeigt sich kein Abstand, in dem Paare von Stämmen häufiger oder seltener stehen als bei Zufall</translation>
    </message>
    <message>
        <source>No file has a column for the %1: of no stem %2.</source>
        <translation>Keine Datei hat eine Spalte „%1“: Von keinem Stamm %2.</translation>
    </message>
    <message>
        <source>No file has the heading %1 that was asked for %2; correct the mapping.</source>
        <translation>Keine Datei hat die Überschrift %1, die für %2 verlangt war; die Zuordnung berichtigen.</translation>
    </message>
    <message>
        <source>No file of records was given; give CSV, XLSX, GeoJSON or GeoPackage files.</source>
        <translation>Keine Datei mit Aufnahmen wurde angegeben; CSV-, XLSX-, GeoJSON- oder GeoPackage-Dateien angeben.</translation>
    </message>
    <message>
        <source>No heading of a file is known.</source>
        <translation>Keine Überschrift einer Datei ist bekannt.</translation>
    </message>
    <message>
        <source>No side is shown to hold more stems than another; %1.</source>
        <translation>Keine Seite zeigt mehr Stämme als eine andere; %1.</translation>
    </message>
    <message>
        <source>No stem is recorded in %1; they stand for plots without stems.</source>
        <translation>In %1 ist kein Stamm aufgenommen; sie stehen für Probeflächen ohne Stämme.</translation>
    </message>
    <message>
        <source>No. {stem} has no %1 (line {line}): %2.</source>
        <translation>Nr. {stem} ohne %1 (Zeile {line}): %2.</translation>
    </message>
    <message>
        <source>No. {stem} has no dbh (line {line}); %1.</source>
        <translation>Nr. {stem} hat keinen BHD (Zeile {line}); %1.</translation>
    </message>
    <message>
        <source>No. {stem} is borderline: %1; counted as %2, in with probability {inside_probability:.2f}.</source>
        <translation>Nr. {stem} ist ein Grenzbaum: %1; gezählt als %2, Wahrscheinlichkeit innerhalb zu sein {inside_probability:.2f}.</translation>
    </message>
    <message>
        <source>No. {stem} looks like No. {twin} entered again: {apart_m:.2f} m apart, dbh {dbh_cm:g} cm.</source>
        <translation>Nr. {stem} sieht aus wie Nr. {twin}, noch einmal eingegeben: {apart_m:.2f} m entfernt, BHD {dbh_cm:g} cm.</translation>
    </message>
    <message>
        <source>No. {stem} stands {beyond_m:.2f} m outside its limiting distance of {limiting_distance_m:.2f} m (distance {distance_m:.2f} m); it is not counted.</source>
        <translation>Nr. {stem} steht {beyond_m:.2f} m außerhalb des Grenzabstands von {limiting_distance_m:.2f} m (Abstand {distance_m:.2f} m); nicht gezählt.</translation>
    </message>
    <message>
        <source>No. {stem} was not found when it was to be measured again.</source>
        <translation>Nr. {stem} wurde nicht gefunden, als nachgemessen werden sollte.</translation>
    </message>
    <message>
        <source>No. {stem}: a vertical angle of {text} degrees cannot be; it is not known whether the stem is in.</source>
        <translation>Nr. {stem}: Ein Höhenwinkel von {text} Grad kann nicht sein; es ist nicht bekannt, ob der Stamm innerhalb ist.</translation>
    </message>
    <message>
        <source>No. {stem}: an upper diameter of {upper_cm:.1f} cm over a dbh of {dbh_cm:.1f} cm is a form quotient of {quotient:.2f}; {low:.2f} to {high:.2f} would be ordinary.</source>
        <translation>Nr. {stem}: Ein oberer Durchmesser von {upper_cm:.1f} cm über einem BHD von {dbh_cm:.1f} cm ist ein Formquotient von {quotient:.2f}; gewöhnlich wären {low:.2f} bis {high:.2f}.</translation>
    </message>
    <message>
        <source>No. {stem}: row {row} of packet {packet} fits this stem far better than No. {listed}, on whose line it stands, and was compared so; either the lines or the numbers of the stems were exchanged.</source>
        <translation>Nr. {stem}: Zeile {row} des Feldpakets {packet} passt weit besser zu diesem Stamm als zu Nr. {listed}, auf dessen Zeile sie steht, und wurde so verglichen; entweder wurden die Zeilen oder die Nummern der Stämme vertauscht.</translation>
    </message>
    <message>
        <source>No. {stem}: row {row} of packet {packet} names plot {named}, but was printed for plot {listed} and was compared there.</source>
        <translation>Nr. {stem}: Zeile {row} des Feldpakets {packet} nennt Probefläche {named}, wurde aber für Probefläche {listed} gedruckt und dort verglichen.</translation>
    </message>
    <message>
        <source>No. {stem}: row {row} of packet {packet} was printed for plot {listed}, but names this plot and fits this stem far better; it was compared here.</source>
        <translation>Nr. {stem}: Zeile {row} des Feldpakets {packet} wurde für Probefläche {listed} gedruckt, nennt aber diese Probefläche und passt weit besser zu diesem Stamm; sie wurde hier verglichen.</translation>
    </message>
    <message>
        <source>No. {stem}: the %1 {typed} is in doubt</source>
        <translation>Nr. {stem}: %1 {typed} ist zweifelhaft</translation>
    </message>
    <message>
        <source>No. {stem}: the azimuth {text} lies outside the full circle of 0 to %1 (%2); the stem was not placed.</source>
        <translation>Nr. {stem}: Der Azimut {text} liegt außerhalb des Vollkreises von 0 bis %1 (%2); der Stamm wurde nicht eingezeichnet.</translation>
    </message>
    <message>
        <source>No. {stem}: the dbh %1 by {change_cm:.1f} cm since the last visit, from {last_dbh_cm:.1f} to {dbh_cm:.1f} cm; {low_cm:.1f} to {high_cm:.1f} cm would be ordinary%2.</source>
        <translation>Nr. {stem}: Der BHD %1 seit der letzten Aufnahme um {change_cm:.1f} cm, von {last_dbh_cm:.1f} auf {dbh_cm:.1f} cm; gewöhnlich wären {low_cm:.1f} bis {high_cm:.1f} cm%2.</translation>
    </message>
    <message>
        <source>No. {stem}: the dbh of {dbh_cm:.1f} cm is beyond the instrument, which ends at {max_dbh_cm:.1f} cm.</source>
        <translation>Nr. {stem}: Der BHD von {dbh_cm:.1f} cm geht über das Gerät hinaus, das bei {max_dbh_cm:.1f} cm endet.</translation>
    </message>
    <message>
        <source>No. {stem}: the dbh of {dbh_cm:.1f} cm lies at the class limit of {class_limit_cm:g} cm; with probability {class_change_probability:.2f} it belongs to the other side.</source>
        <translation>Nr. {stem}: Der BHD von {dbh_cm:.1f} cm liegt an der Klassengrenze von {class_limit_cm:g} cm; mit der Wahrscheinlichkeit {class_change_probability:.2f} gehört er auf die andere Seite.</translation>
    </message>
    <message>
        <source>No. {stem}: the design takes no stem of {dbh_cm:.1f} cm; it is not counted.</source>
        <translation>Nr. {stem}: Das Verfahren nimmt keinen Stamm von {dbh_cm:.1f} cm auf; nicht gezählt.</translation>
    </message>
    <message>
        <source>No. {stem}: the diameter was measured at a height of {height_m:g}, not at breast height.</source>
        <translation>Nr. {stem}: Der Durchmesser wurde in einer Höhe von {height_m:g} gemessen, nicht in Brusthöhe.</translation>
    </message>
    <message>
        <source>No. {stem}: the diameter was measured at a height of {height_m:g}, on the last visit at {last_height_m:g}.</source>
        <translation>Nr. {stem}: Der Durchmesser wurde in einer Höhe von {height_m:g} gemessen, bei der letzten Aufnahme in {last_height_m:g}.</translation>
    </message>
    <message>
        <source>No. {stem}: the diameter {text} is not above zero; %1.</source>
        <translation>Nr. {stem}: Der Durchmesser {text} ist nicht größer als null; %1.</translation>
    </message>
    <message>
        <source>No. {stem}: the distance of {distance:g} is %1 at {limit:g}.</source>
        <translation>Nr. {stem}: Der Abstand von {distance:g} ist %1 bei {limit:g}.</translation>
    </message>
    <message>
        <source>No. {stem}: the distance {text} is not above zero; it is not known whether the stem is in.</source>
        <translation>Nr. {stem}: Der Abstand {text} ist nicht größer als null; es ist nicht bekannt, ob der Stamm innerhalb ist.</translation>
    </message>
    <message>
        <source>No. {stem}: the slope distance {distance_m:g} has no vertical angle; it is not known whether the stem is in.</source>
        <translation>Nr. {stem}: Zur Schrägdistanz {distance_m:g} fehlt der Höhenwinkel; es ist nicht bekannt, ob der Stamm innerhalb ist.</translation>
    </message>
    <message>
        <source>No. {stem}: the species was written again as {again}, recorded is {recorded}.</source>
        <translation>Nr. {stem}: Als Baumart wurde beim Nachmessen {again} geschrieben, aufgenommen ist {recorded}.</translation>
    </message>
    <message>
        <source>No. {stem}: the status was written again as {again}, recorded is {recorded}.</source>
        <translation>Nr. {stem}: Als Zustand wurde beim Nachmessen {again} geschrieben, aufgenommen ist {recorded}.</translation>
    </message>
    <message>
        <source>No. {stem}: the two diameters of {first_cm:.1f} and {second_cm:.1f} cm differ by {apart_percent:.0f} %.</source>
        <translation>Nr. {stem}: Die beiden Durchmesser von {first_cm:.1f} und {second_cm:.1f} cm unterscheiden sich um {apart_percent:.0f} %.</translation>
    </message>
    <message>
        <source>No. {stem}: the upper diameter of {upper_cm:.1f} cm is larger than the dbh of {dbh_cm:.1f} cm.</source>
        <translation>Nr. {stem}: Der obere Durchmesser von {upper_cm:.1f} cm ist größer als der BHD von {dbh_cm:.1f} cm.</translation>
    </message>
    <message>
        <source>No. {stem}: the upper diameter of {upper_cm:.1f} cm was measured at {height_m:.1f} m, not above breast height.</source>
        <translation>Nr. {stem}: Der obere Durchmesser von {upper_cm:.1f} cm wurde in {height_m:.1f} m gemessen, nicht über Brusthöhe.</translation>
    </message>
    <message>
        <source>No. {stem}: what was written for the azimuth measured again, {again}, is no azimuth.</source>
        <translation>Nr. {stem}: Was für das nachgemessene Azimut geschrieben wurde, {again}, ist kein Azimut.</translation>
    </message>
    <message>
        <source>No. {stem}: what was written for the dbh measured again, {again}, is no diameter.</source>
        <translation>Nr. {stem}: Was für den nachgemessenen BHD geschrieben wurde, {again}, ist kein Durchmesser.</translation>
    </message>
    <message>
        <source>No. {stem}: what was written for the distance measured again, {again}, is no distance.</source>
        <translation>Nr. {stem}: Was für die nachgemessene Entfernung geschrieben wurde, {again}, ist keine Entfernung.</translation>
    </message>
    <message>
        <source>No. {stem}: with a dbh of {dbh_cm:.1f} cm its circle ends at {limiting_distance_m:.2f} m, but it stands at {distance_m:.2f} m, in a circle that its dbh does not reach; it is not counted.</source>
        <translation>Nr. {stem}: Bei einem BHD von {dbh_cm:.1f} cm endet sein Kreis bei {limiting_distance_m:.2f} m, er steht aber bei {distance_m:.2f} m, in einem Kreis, den sein BHD nicht erreicht; nicht gezählt.</translation>
    </message>
    <message>
        <source>Not compared with chance: %1; %2.</source>
        <translation>Nicht mit dem Zufall verglichen: %1; %2.</translation>
    </message>
    <message>
        <source>Not said, so assumed: {assumed}. Confirm them in the settings.</source>
        <translation>Nicht gesagt, darum angenommen: {assumed}. In den Einstellungen bestätigen.</translation>
    </message>
    <message>
        <source>Of a hundred sentences about plots at random up to five tell of a pattern by chance alone: believe the pooled result before that of a single plot.</source>
        <translation>Von hundert Sätzen über zufällige Probeflächen erzählen bis zu fünf allein durch Zufall von einem Muster: dem Ergebnis aller Probeflächen eher glauben als dem einer einzelnen.</translation>
    </message>
    <message>
        <source>Of the %1 pairs of species that were compared chance alone would make one in twenty stand out</source>
        <translation>Von den %1 verglichenen Paaren von Baumarten fiele allein durch Zufall eines von zwanzig auf</translation>
    </message>
    <message>
        <source>One of %1 differences, %2, makes %3 % of their scatter; without it the bias is %4 %5 and the standard deviation %6 %7.</source>
        <translation>Eine von %1 Differenzen, %2, macht %3 % ihrer Streuung aus; ohne sie ist die systematische Abweichung %4 %5 und die Standardabweichung %6 %7.</translation>
    </message>
    <message>
        <source>Plot centre, blind check.</source>
        <translation>Mittelpunkt, Blindkontrolle.</translation>
    </message>
    <message>
        <source>Plot centre, former values on the sheet.</source>
        <translation>Mittelpunkt, frühere Werte auf dem Blatt.</translation>
    </message>
    <message>
        <source>Regular: fewer neighbours than by chance within a radius of %1 m</source>
        <translation>Regelmäßig: weniger Nachbarn als bei Zufall im Umkreis von %1 m</translation>
    </message>
    <message>
        <source>Safety first: storm-damaged trees, hanging branches, weather; do not work alone; never look into a laser. The rules of your employer and of the place come first.</source>
        <translation>Sicherheit zuerst: Sturmschäden, hängende Äste, Wetter; nicht allein arbeiten; nie in einen Laser blicken. Die Regeln Ihres Arbeitgebers und des Ortes gehen vor.</translation>
    </message>
    <message>
        <source>another program is writing into it</source>
        <translation>ein anderes Programm schreibt hinein</translation>
    </message>
    <message>
        <source>change of the sampling error with half the standard deviation of azimuths</source>
        <translation>Änderung des Stichprobenfehlers mit halber Standardabweichung der Azimute</translation>
    </message>
    <message>
        <source>change of the sampling error with half the standard deviation of distances</source>
        <translation>Änderung des Stichprobenfehlers mit halber Standardabweichung der Abstände</translation>
    </message>
    <message>
        <source>change of the sampling error with one more plot (or cluster) drawn alike</source>
        <translation>Änderung des Stichprobenfehlers mit einer weiteren, ebenso gezogenen Probefläche (oder einem Trakt)</translation>
    </message>
    <message>
        <source>listed</source>
        <translation>gedruckt für</translation>
    </message>
    <message>
        <source>living stems</source>
        <translation>lebende Stämme</translation>
    </message>
    <message>
        <source>living stems of the inner circle</source>
        <translation>lebende Stämme des inneren Kreises</translation>
    </message>
    <message>
        <source>living, dead, cut, gone or struck, as typed</source>
        <translation>lebend, tot, gefällt, verschwunden oder gestrichen, wie eingegeben</translation>
    </message>
    <message>
        <source>no stem</source>
        <translation>kein Stamm</translation>
    </message>
    <message>
        <source>on so few plots a t interval holds the truth less often than it says; skew_low and skew_high are nearer</source>
        <translation>auf so wenigen Probeflächen enthält ein t-Intervall die Wahrheit seltener, als es sagt; skew_low und skew_high liegen näher</translation>
    </message>
    <message>
        <source>perhaps %1 %2%3</source>
        <translation>vielleicht %1 %2%3</translation>
    </message>
    <message>
        <source>perhaps all %1 stems of this visit stand elsewhere</source>
        <translation>vielleicht stehen alle %1 Stämme dieser Aufnahme anderswo</translation>
    </message>
    <message>
        <source>plot %1 stem %2 (%3 %4)</source>
        <translation>Probefläche %1 Stamm %2 (%3 %4)</translation>
    </message>
    <message>
        <source>plot %1 visit %2 stem %3 (%4 %5)</source>
        <translation>Probefläche %1 Aufnahme %2 Stamm %3 (%4 %5)</translation>
    </message>
    <message>
        <source>plot and number</source>
        <translation>Probefläche und Nummer</translation>
    </message>
    <message>
        <source>row of the packet</source>
        <translation>Zeile des Feldpakets</translation>
    </message>
    <message>
        <source>the dbh</source>
        <translation>der BHD</translation>
    </message>
    <message>
        <source>the girth</source>
        <translation>der Umfang</translation>
    </message>
    <message>
        <source>the plot that it names</source>
        <translation>die Probefläche, die sie nennt</translation>
    </message>
    <message>
        <source>the stand edge crosses itself</source>
        <translation>der Bestandesrand kreuzt sich selbst</translation>
    </message>
    <message>
        <source>Pairs of stems by distance: g(r)</source>
        <translation>Paare von Stämmen nach Abstand: g(r)</translation>
    </message>
    <message>
        <source>%1 and %2 keep apart: fewer of the one around the other than by chance within a radius of %3 m</source>
        <translation>%1 und %2 meiden sich: weniger der einen um die andere als bei Zufall im Umkreis von %3 m</translation>
    </message>
    <message>
        <source>%1 and %2 stand together: more of the one around the other than by chance within a radius of %3 m</source>
        <translation>%1 und %2 stehen zusammen: mehr der einen um die andere als bei Zufall im Umkreis von %3 m</translation>
    </message>
    <message>
        <source>Parquet needs the package pyarrow; install it with: python3 -m pip install &apos;stemmap[parquet]&apos;</source>
        <translation>Parquet braucht das Paket pyarrow; einrichten mit: python3 -m pip install &apos;stemmap[parquet]&apos;</translation>
    </message>
    <message>
        <source>Plot %1</source>
        <translation>Probefläche %1</translation>
    </message>
    <message>
        <source>Plot %1 does not fit on %2 at 1:%3; 1:%4 is the largest scale that does.</source>
        <translation>Probefläche %1 passt in 1:%3 nicht auf %2; 1:%4 ist der größte Maßstab, der passt.</translation>
    </message>
    <message>
        <source>Plot {plot} has easting and northing but no known coordinate system; it is drawn around its own centre.</source>
        <translation>Probefläche {plot} hat Ostwert und Nordwert, aber kein bekanntes Koordinatensystem; sie wird um ihren eigenen Mittelpunkt gezeichnet.</translation>
    </message>
    <message>
        <source>Plot {plot} has no coordinates; it is drawn around its own centre.</source>
        <translation>Probefläche {plot} hat keine Koordinaten; sie wird um ihren eigenen Mittelpunkt gezeichnet.</translation>
    </message>
    <message>
        <source>Plot {plot} has no radius; nothing is said per hectare.</source>
        <translation>Probefläche {plot} hat keinen Radius; je Hektar wird nichts gesagt.</translation>
    </message>
    <message>
        <source>Plot {plot} has no stems and no status that says why; it counts nowhere.</source>
        <translation>Probefläche {plot} hat keine Stämme und keinen Status, der sagt, warum; sie zählt nirgends.</translation>
    </message>
    <message>
        <source>Plot {plot} has one coordinate without the other; it is drawn around its own centre.</source>
        <translation>Probefläche {plot} hat nur eine der beiden Koordinaten; sie wird um ihren eigenen Mittelpunkt gezeichnet.</translation>
    </message>
    <message>
        <source>Plot {plot} has stems ({stems}) but no row in the plots table; it is mapped without coordinates.</source>
        <translation>Probefläche {plot} hat Stämme ({stems}), aber keine Zeile in der Tabelle der Probeflächen; sie wird ohne Koordinaten kartiert.</translation>
    </message>
    <message>
        <source>Plot {plot} is said to be {plot_status}, but stems were recorded on it ({stems}).</source>
        <translation>Probefläche {plot} soll {plot_status} sein, aber auf ihr wurden Stämme aufgenommen ({stems}).</translation>
    </message>
    <message>
        <source>Plot {plot}: longitude and latitude lie {apart_m:.0f} m from easting and northing; the former are used.</source>
        <translation>Probefläche {plot}: Länge und Breite liegen {apart_m:.0f} m von Ostwert und Nordwert; benutzt werden Länge und Breite.</translation>
    </message>
    <message>
        <source>Plot {plot}: stems were measured from a station (such as {station}) whose azimuth and distance from the centre no stations table gives; they are not placed ({stems}).</source>
        <translation>Probefläche {plot}: Stämme wurden von einem Standpunkt (etwa {station}) gemessen, dessen Azimut und Abstand vom Mittelpunkt in keiner Tabelle stehen; sie werden nicht eingezeichnet ({stems}).</translation>
    </message>
    <message>
        <source>Plot {plot}: the coordinates lie outside their coordinate system; it is drawn around its own centre.</source>
        <translation>Probefläche {plot}: Die Koordinaten liegen außerhalb ihres Koordinatensystems; sie wird um ihren eigenen Mittelpunkt gezeichnet.</translation>
    </message>
    <message>
        <source>Plot {plot}: the magnetic declination is not known (no place or no date); the map is turned by it.</source>
        <translation>Probefläche {plot}: Die Missweisung ist nicht bekannt (kein Ort oder kein Datum); die Karte ist um sie verdreht.</translation>
    </message>
    <message>
        <source>Plot {plot}: there is no such longitude and latitude; it is drawn around its own centre.</source>
        <translation>Probefläche {plot}: Solche Länge und Breite gibt es nicht; sie wird um ihren eigenen Mittelpunkt gezeichnet.</translation>
    </message>
    <message>
        <source>Plot {plot}: this visit&apos;s azimuths are {turn_deg:.1f} degrees larger than the last visit&apos;s ({pairs} stems found again, standard error {standard_error_deg:.1f}).</source>
        <translation>Probefläche {plot}: Die Azimute dieser Aufnahme sind {turn_deg:.1f} Grad größer als die der letzten ({pairs} Stämme wiedergefunden, Standardfehler {standard_error_deg:.1f}).</translation>
    </message>
    <message>
        <source>Plot {plot}: this visit&apos;s azimuths are {turn_deg:.1f} degrees smaller than the last visit&apos;s ({pairs} stems found again, standard error {standard_error_deg:.1f}).</source>
        <translation>Probefläche {plot}: Die Azimute dieser Aufnahme sind {turn_deg:.1f} Grad kleiner als die der letzten ({pairs} Stämme wiedergefunden, Standardfehler {standard_error_deg:.1f}).</translation>
    </message>
    <message>
        <source>Plot {plot}: this visit&apos;s azimuths lie {turn_deg:.1f} degrees from the last visit&apos;s, as back bearings would ({pairs} stems found again, standard error {standard_error_deg:.1f}).</source>
        <translation>Probefläche {plot}: Die Azimute dieser Aufnahme liegen {turn_deg:.1f} Grad neben denen der letzten, wie es Gegenazimute täten ({pairs} Stämme wiedergefunden, Standardfehler {standard_error_deg:.1f}).</translation>
    </message>
    <message>
        <source>Plot {plot}: this visit&apos;s centre lies {shift_m:.2f} m from the last visit&apos;s, towards {towards_deg:.0f} degrees ({pairs} stems found again, standard error {standard_error_m:.2f} m).</source>
        <translation>Probefläche {plot}: Der Mittelpunkt dieser Aufnahme liegt {shift_m:.2f} m von dem der letzten, in Richtung {towards_deg:.0f} Grad ({pairs} Stämme wiedergefunden, Standardfehler {standard_error_m:.2f} m).</translation>
    </message>
    <message>
        <source>Projecting stems</source>
        <translation>Stämme werden projiziert</translation>
    </message>
    <message>
        <source>Putting the records together</source>
        <translation>Die Aufnahmen werden zusammengeführt</translation>
    </message>
    <message>
        <source>Qt runs already, but not as the %1 that is needed here.</source>
        <translation>Qt läuft schon, aber nicht als das hier nötige %1.</translation>
    </message>
    <message>
        <source>Reading %1</source>
        <translation>%1 wird gelesen</translation>
    </message>
    <message>
        <source>Reading the lines of %1</source>
        <translation>Die Zeilen von %1 werden gelesen</translation>
    </message>
    <message>
        <source>Reading the pixels of %1</source>
        <translation>Die Bildpunkte von %1 werden gelesen</translation>
    </message>
    <message>
        <source>Reading the values of %1</source>
        <translation>Die Werte von %1 werden gelesen</translation>
    </message>
    <message>
        <source>Records %1 of %2 have no point; their place is unknown.</source>
        <translation>Die Aufnahmen %1 von %2 haben keinen Punkt; ihr Ort ist unbekannt.</translation>
    </message>
    <message>
        <source>Records of a layer have no point.</source>
        <translation>Aufnahmen eines Layers haben keinen Punkt.</translation>
    </message>
    <message>
        <source>Settings files lie beside the upload, but none was used.</source>
        <translation>Neben den Aufnahmedaten liegen Einstellungsdateien, aber keine wurde benutzt.</translation>
    </message>
    <message>
        <source>Settings were taken from %1 beside the upload, because none were named.</source>
        <translation>Die Einstellungen wurden aus %1 neben den Aufnahmedaten genommen, weil keine genannt waren.</translation>
    </message>
    <message>
        <source>Settings were taken from a file beside the upload.</source>
        <translation>Die Einstellungen wurden aus einer Datei neben den Aufnahmedaten genommen.</translation>
    </message>
    <message>
        <source>Several settings files were given (%1); give one.</source>
        <translation>Mehrere Einstellungsdateien wurden angegeben (%1); eine angeben.</translation>
    </message>
    <message>
        <source>Sheet %1 of %2 is hidden or holds no cells and was not read.</source>
        <translation>Blatt %1 von %2 ist verborgen oder leer und wurde nicht gelesen.</translation>
    </message>
    <message>
        <source>Stems by azimuth</source>
        <translation>Stämme nach Azimut</translation>
    </message>
    <message>
        <source>Stems from the centre outwards</source>
        <translation>Stämme vom Mittelpunkt nach außen</translation>
    </message>
    <message>
        <source>Stems name no plot.</source>
        <translation>Stämme nennen keine Probefläche.</translation>
    </message>
    <message>
        <source>Summarising</source>
        <translation>Wird ausgewertet</translation>
    </message>
    <message>
        <source>The PDF came out incomplete and was not kept; is the disk full?</source>
        <translation>Das PDF wurde unvollständig und darum nicht behalten; ist die Platte voll?</translation>
    </message>
    <message>
        <source>The azimuth unit %1 is not known: choose one of %2.</source>
        <translation>Die Azimuteinheit %1 ist nicht bekannt: eine wählen von %2.</translation>
    </message>
    <message>
        <source>The azimuth unit is %1, but none of {azimuths} azimuths is above 360: they look like degrees.</source>
        <translation>Die Azimuteinheit ist %1, aber keiner der {azimuths} Azimute ist größer als 360: Sie sehen nach Grad aus.</translation>
    </message>
    <message>
        <source>The azimuth unit is degree, but {beyond_360} of {azimuths} azimuths are above 360: they look like %1.</source>
        <translation>Die Azimuteinheit ist Grad, aber {beyond_360} von {azimuths} Azimuten sind größer als 360: Sie sehen nach %1 aus.</translation>
    </message>
    <message>
        <source>The basal area factor</source>
        <translation>Der Zählfaktor</translation>
    </message>
    <message>
        <source>The character set was assumed.</source>
        <translation>Der Zeichensatz wurde angenommen.</translation>
    </message>
    <message>
        <source>The check %1 has an unknown family or severity.</source>
        <translation>Die Prüfung %1 hat eine unbekannte Familie oder Schwere.</translation>
    </message>
    <message>
        <source>The check %1 is declared twice.</source>
        <translation>Die Prüfung %1 ist zweimal angemeldet.</translation>
    </message>
    <message>
        <source>The check %1 must explain what, why and what to do.</source>
        <translation>Die Prüfung %1 muss erklären, was, warum und was zu tun ist.</translation>
    </message>
    <message>
        <source>The check {name} stopped: {fault}</source>
        <translation>Die Prüfung {name} brach ab: {fault}</translation>
    </message>
    <message>
        <source>The circle of %1 m has an offset that is no place: give offset_azimuth and a non-negative offset_m.</source>
        <translation>Der Kreis von %1 m hat einen Versatz, der kein Ort ist: offset_azimuth und ein nicht negatives offset_m angeben.</translation>
    </message>
    <message>
        <source>The circle of %1 m takes stems from %2 cm to under %3 cm, which is none: correct min_dbh_cm or max_dbh_cm.</source>
        <translation>Der Kreis von %1 m nimmt Stämme von %2 cm bis unter %3 cm auf, also keine: min_dbh_cm oder max_dbh_cm berichtigen.</translation>
    </message>
    <message>
        <source>The coordinate system %1 is not known; write an EPSG code such as EPSG:25832, or leave it out.</source>
        <translation>Das Koordinatensystem %1 ist nicht bekannt; einen EPSG-Code wie EPSG:25832 schreiben oder weglassen.</translation>
    </message>
    <message>
        <source>The coordinate system {text} is not known; write an EPSG code such as EPSG:25832.</source>
        <translation>Das Koordinatensystem {text} ist nicht bekannt; einen EPSG-Code wie EPSG:25832 schreiben.</translation>
    </message>
    <message>
        <source>The design %1 is not known: choose one of %2.</source>
        <translation>Das Verfahren %1 ist nicht bekannt: eines wählen von %2.</translation>
    </message>
    <message>
        <source>The design is an angle count, but no basal_area_factor is given in the settings.</source>
        <translation>Das Verfahren ist eine Winkelzählprobe, aber in den Einstellungen steht kein Zählfaktor (basal_area_factor).</translation>
    </message>
    <message>
        <source>The design is concentric, but no circles are given in the settings.</source>
        <translation>Das Verfahren hat konzentrische Kreise, aber in den Einstellungen stehen keine.</translation>
    </message>
    <message>
        <source>The drawing for %1 could not be made; nothing was written.</source>
        <translation>Die Zeichnung für %1 konnte nicht gemacht werden; nichts wurde geschrieben.</translation>
    </message>
    <message>
        <source>The edge correction &quot;%1&quot; is not known; use &quot;none&quot;, &quot;donnelly&quot; or &quot;cdf&quot;.</source>
        <translation>Die Randkorrektur &quot;%1&quot; ist nicht bekannt; &quot;none&quot;, &quot;donnelly&quot; oder &quot;cdf&quot; benutzen.</translation>
    </message>
    <message>
        <source>The folder %1 cannot be made: %2. Go where you may write.</source>
        <translation>Der Ordner %1 kann nicht angelegt werden: %2. Dorthin gehen, wo Sie schreiben dürfen.</translation>
    </message>
    <message>
        <source>The font %1 cannot be loaded; install stemmap again.</source>
        <translation>Die Schrift %1 kann nicht geladen werden; stemmap neu einrichten.</translation>
    </message>
    <message>
        <source>%1 It lies beside the upload and was not used; the upload was read without it.</source>
        <translation>%1 Sie liegt neben den Aufnahmedaten und wurde nicht verwendet; die Aufnahmedaten wurden ohne sie gelesen.</translation>
    </message>
    <message>
        <source> Its layers for a GIS come with the next decision: %1</source>
        <translation> Ihre Ebenen für ein GIS kommen mit der nächsten Entscheidung: %1</translation>
    </message>
    <message>
        <source>%1 has headings, but no records below them; export it again with its records.</source>
        <translation>%1 hat Überschriften, aber keine Datensätze darunter; noch einmal mit den Datensätzen ausgeben.</translation>
    </message>
    <message>
        <source>%1 has no heading of plots or stems; found %2%3. Say what the columns are: under Columns of the upload in the window, or for example with --map azimuth=HEADING.</source>
        <translation>%1 hat keine Überschrift von Probeflächen oder Stämmen; gefunden wurden %2%3. Angeben, was die Spalten sind: unter Spalten der Aufnahmedaten im Fenster oder zum Beispiel mit --map azimuth=HEADING.</translation>
    </message>
    <message>
        <source>%1 is %2, whatever its name says; %3.</source>
        <translation>%1 ist %2, was auch immer der Name sagt; %3.</translation>
    </message>
    <message>
        <source>%1 is no valid settings file (TOML): %2. Mend that line, or leave the file out.</source>
        <translation>%1 ist keine gültige Einstellungsdatei (TOML): %2. Diese Zeile berichtigen oder die Datei weglassen.</translation>
    </message>
    <message>
        <source>%1 within %2 m and inside the stand, one position a tree</source>
        <translation>%1 innerhalb von %2 m und im Bestand, ein Standort je Baum</translation>
    </message>
    <message>
        <source>%1 within %2 m, one position a tree</source>
        <translation>%1 innerhalb von %2 m, ein Standort je Baum</translation>
    </message>
    <message>
        <source>Columns %1 and %2 (column %3) both claim the field %4; the first was taken, the other is kept beside it. Say which one is meant under Columns of the upload in the window, or with --map %5=HEADING.</source>
        <translation>Die Spalten %1 und %2 (Spalte %3) beanspruchen beide das Feld %4; die erste wurde genommen, die andere bleibt daneben erhalten. Angeben, welche gemeint ist: unter Spalten der Aufnahmedaten im Fenster oder mit --map %5=HEADING.</translation>
    </message>
    <message>
        <source>Edge handling &quot;%1&quot; cannot be done; use &quot;none&quot;, or with distances to the edge &quot;nearest&quot;, &quot;buffer&quot; and its width, or &quot;weighted&quot; and the radii of the plots.</source>
        <translation>Die Randbehandlung &quot;%1&quot; ist nicht möglich; &quot;none&quot; verwenden oder, mit Abständen zum Rand, &quot;nearest&quot;, &quot;buffer&quot; und seine Breite oder &quot;weighted&quot; und die Radien der Probeflächen.</translation>
    </message>
    <message>
        <source>No plot radius was given: set it under Settings in the window, with --radius, or as radius_m in the settings file.</source>
        <translation>Es wurde kein Radius der Probefläche angegeben: unter Einstellungen im Fenster setzen, mit --radius oder als radius_m in der Einstellungsdatei.</translation>
    </message>
    <message>
        <source>No. {stem}: the azimuth was measured again as {again:g}{unit}, recorded is {recorded:g}{unit}; the difference of {difference:+.1f}° is beyond the tolerance of {tolerance:.1f}°, but ordinary errors of both can make it.</source>
        <translation>Nr. {stem}: Das Azimut wurde mit {again:g}{unit} nachgemessen, aufgenommen ist {recorded:g}{unit}; der Unterschied von {difference:+.1f}° liegt über der Toleranz von {tolerance:.1f}°, kann aber von gewöhnlichen Messfehlern beider kommen.</translation>
    </message>
    <message>
        <source>No. {stem}: the azimuth was measured again as {again:g}{unit}, recorded is {recorded:g}{unit}; the difference of {difference:+.1f}° is beyond the tolerance of {tolerance:.1f}°.</source>
        <translation>Nr. {stem}: Das Azimut wurde mit {again:g}{unit} nachgemessen, aufgenommen ist {recorded:g}{unit}; der Unterschied von {difference:+.1f}° liegt über der Toleranz von {tolerance:.1f}°.</translation>
    </message>
    <message>
        <source>No. {stem}: the azimuth was measured again as {again:g}{unit}; none was recorded that can be used.</source>
        <translation>Nr. {stem}: Das Azimut wurde mit {again:g}{unit} nachgemessen; ein brauchbares war nicht aufgenommen.</translation>
    </message>
    <message>
        <source>No. {stem}: the dbh was measured again as {again:g}{unit}, recorded is {recorded:g}{unit}; the difference of {difference:+.1f} cm is beyond the tolerance of {tolerance:.1f} cm, but ordinary errors of both can make it.</source>
        <translation>Nr. {stem}: Der BHD wurde mit {again:g}{unit} nachgemessen, aufgenommen ist {recorded:g}{unit}; der Unterschied von {difference:+.1f} cm liegt über der Toleranz von {tolerance:.1f} cm, kann aber von gewöhnlichen Messfehlern beider kommen.</translation>
    </message>
    <message>
        <source>No. {stem}: the dbh was measured again as {again:g}{unit}, recorded is {recorded:g}{unit}; the difference of {difference:+.1f} cm is beyond the tolerance of {tolerance:.1f} cm.</source>
        <translation>Nr. {stem}: Der BHD wurde mit {again:g}{unit} nachgemessen, aufgenommen ist {recorded:g}{unit}; der Unterschied von {difference:+.1f} cm liegt über der Toleranz von {tolerance:.1f} cm.</translation>
    </message>
    <message>
        <source>No. {stem}: the dbh was measured again as {again:g}{unit}; none was recorded that can be used.</source>
        <translation>Nr. {stem}: Der BHD wurde mit {again:g}{unit} nachgemessen; ein brauchbarer war nicht aufgenommen.</translation>
    </message>
    <message>
        <source>No. {stem}: the distance was measured again as {again:g}{unit}, recorded is {recorded:g}{unit}; the difference of {difference:+.2f} m is beyond the tolerance of {tolerance:.2f} m, but ordinary errors of both can make it.</source>
        <translation>Nr. {stem}: Die Entfernung wurde mit {again:g}{unit} nachgemessen, aufgenommen ist {recorded:g}{unit}; der Unterschied von {difference:+.2f} m liegt über der Toleranz von {tolerance:.2f} m, kann aber von gewöhnlichen Messfehlern beider kommen.</translation>
    </message>
    <message>
        <source>No. {stem}: the distance was measured again as {again:g}{unit}, recorded is {recorded:g}{unit}; the difference of {difference:+.2f} m is beyond the tolerance of {tolerance:.2f} m.</source>
        <translation>Nr. {stem}: Die Entfernung wurde mit {again:g}{unit} nachgemessen, aufgenommen ist {recorded:g}{unit}; der Unterschied von {difference:+.2f} m liegt über der Toleranz von {tolerance:.2f} m.</translation>
    </message>
    <message>
        <source>No. {stem}: the distance was measured again as {again:g}{unit}; none was recorded that can be used.</source>
        <translation>Nr. {stem}: Die Entfernung wurde mit {again:g}{unit} nachgemessen; eine brauchbare war nicht aufgenommen.</translation>
    </message>
    <message>
        <source>On %1 ha these are %2 m² of basal area, standard error %3.</source>
        <translation>Auf %1 ha sind das %2 m² Grundfläche, Standardfehler %3.</translation>
    </message>
    <message>
        <source>On %1 ha these are %2 stems, standard error %3.</source>
        <translation>Auf %1 ha sind das %2 Stämme, Standardfehler %3.</translation>
    </message>
    <message>
        <source>On fewer than 10 plots, so that its interval holds the truth less often than it says: %1.</source>
        <translation>Auf weniger als 10 Probeflächen, so dass das Intervall die Wahrheit seltener enthält, als es sagt: %1.</translation>
    </message>
    <message>
        <source>One method carries the correction, never two: area weight 1 / share of a stem&apos;s own circle inside, mirage, walkthrough (Ducey, Gove &amp; Valentine 2004, Forest Science 50: 427-435) over the share that it covers, or part plots by the ratio of means.</source>
        <translation>Ein Verfahren trägt die Korrektur, nie zwei: Flächengewicht 1 / Anteil des eigenen Kreises eines Stammes im Bestand, Spiegelung, Durchgehen (Ducey, Gove &amp; Valentine 2004, Forest Science 50: 427-435) über den Anteil, den es abdeckt, oder Teilflächen nach dem Verhältnis der Mittel.</translation>
    </message>
    <message>
        <source>Pair correlation, Epanechnikov kernel of half-width 0.15 / √(n/A) (Stoyan &amp; Stoyan 1994, Fractals, random shapes and point fields).</source>
        <translation>Paarkorrelation, Epanechnikow-Kern der halben Breite 0,15 / √(n/A) (Stoyan &amp; Stoyan 1994, Fractals, random shapes and point fields).</translation>
    </message>
    <message>
        <source>Plot {plot}: a crew found a stem that is not recorded and gave it no number: azimuth {azimuth_deg:.1f}°, distance {distance_m:.2f} m, dbh {dbh_cm:.1f} cm.</source>
        <translation>Probefläche {plot}: Ein Trupp fand einen Stamm, der nicht aufgenommen ist, und gab ihm keine Nummer: Azimut {azimuth_deg:.1f}°, Entfernung {distance_m:.2f} m, BHD {dbh_cm:.1f} cm.</translation>
    </message>
    <message>
        <source>Plot {plot}: a crew found a stem that is not recorded, No. {number}: azimuth {azimuth_deg:.1f}°, distance {distance_m:.2f} m, dbh {dbh_cm:.1f} cm.</source>
        <translation>Probefläche {plot}: Ein Trupp fand einen Stamm, der nicht aufgenommen ist, Nr. {number}: Azimut {azimuth_deg:.1f}°, Entfernung {distance_m:.2f} m, BHD {dbh_cm:.1f} cm.</translation>
    </message>
    <message>
        <source>Plot {plot}: the stems shrank since visit {last_visit}, the middle one of {pairs} by {shrank_cm:.1f} cm; the two visits may stand under each other&apos;s date.</source>
        <translation>Probefläche {plot}: Die Stämme wurden seit der Aufnahme {last_visit} dünner, der mittlere von {pairs} um {shrank_cm:.1f} cm; die beiden Aufnahmen stehen vielleicht jeweils unter dem Datum der anderen.</translation>
    </message>
    <message>
        <source>Plots at the stand edge</source>
        <translation>Probeflächen am Bestandesrand</translation>
    </message>
    <message>
        <source>Read me first</source>
        <translation>Read me first</translation>
    </message>
    <message>
        <source>Reineke&apos;s index N (Dq / 25.4)^1.605, Dq quadratic mean diameter, cm (Reineke 1933, Journal of Agricultural Research 46: 627-638), also summed stem by stem (Long &amp; Daniel 1990, Western Journal of Applied Forestry 5: 93-96); relative density G / √Dq (Curtis 1982, Forest Science 28: 92-94).</source>
        <translation>Index nach Reineke N (Dq / 25,4)^1,605, Dq quadratischer Mitteldurchmesser, cm (Reineke 1933, Journal of Agricultural Research 46: 627-638), auch Stamm für Stamm summiert (Long &amp; Daniel 1990, Western Journal of Applied Forestry 5: 93-96); relative Dichte G / √Dq (Curtis 1982, Forest Science 28: 92-94).</translation>
    </message>
    <message>
        <source>Reineke&apos;s index of stand density is %1 per hectare, for stems of 25.4 cm.</source>
        <translation>Der Bestandesdichteindex nach Reineke ist %1 je Hektar, für Stämme von 25,4 cm.</translation>
    </message>
    <message>
        <source>Several settings files lie beside the upload (%1); none was used. Open the right one together with the upload, or name it with --settings.</source>
        <translation>Mehrere Einstellungsdateien liegen neben den Aufnahmedaten (%1); keine wurde verwendet. Die richtige zusammen mit den Aufnahmedaten öffnen oder mit --settings nennen.</translation>
    </message>
    <message>
        <source>Share of stems whose nearest stem is within r, from those nearer to it than to the edge, weighed by the area in which they could be seen so (Hanisch 1984, Statistics 15: 409-412).</source>
        <translation>Anteil der Stämme, deren nächster innerhalb von r steht, aus denen, die ihm näher sind als dem Rand, gewogen mit der Fläche, in der sie so zu sehen wären (Hanisch 1984, Statistics 15: 409-412).</translation>
    </message>
    <message>
        <source>Stand density</source>
        <translation>Bestandesdichte</translation>
    </message>
    <message>
        <source>Stems %1 m apart are more alike in dbh than by chance</source>
        <translation>Stämme im Abstand von %1 m sind im BHD ähnlicher als bei Zufall</translation>
    </message>
    <message>
        <source>Stems %1 m apart differ more in dbh than by chance</source>
        <translation>Stämme im Abstand von %1 m unterscheiden sich im BHD mehr als bei Zufall</translation>
    </message>
    <message>
        <source>Stems and basal area per hectare</source>
        <translation>Stammzahl und Grundfläche je Hektar</translation>
    </message>
    <message>
        <source>Stems near each other are not shown to be more alike or less alike in dbh than others</source>
        <translation>Es zeigt sich nicht, dass nahe Stämme im BHD ähnlicher oder unähnlicher sind als andere</translation>
    </message>
    <message>
        <source>Stems per hectare of the survey are not known: %1.</source>
        <translation>Die Stämme je Hektar der Inventur sind nicht bekannt: %1.</translation>
    </message>
    <message>
        <source>Stems that lived through it grew by %1 m²/ha a year, over %2 years.</source>
        <translation>Stämme, die beide Male lebten, wuchsen um %1 m²/ha im Jahr, in %2 Jahren.</translation>
    </message>
    <message>
        <source>Stems that may be in or out contribute %1 stems/ha and %2 m²/ha to it, where errors add by their squares.</source>
        <translation>Stämme, die drinnen oder draußen sein können, tragen %1 Stämme/ha und %2 m²/ha dazu bei, wobei sich Fehler quadratisch addieren.</translation>
    </message>
    <message>
        <source>Sum over the living stems that are in, each times 10000 / area of the circle it was sampled by, m² (angle count: basal area factor / basal area of the stem).</source>
        <translation>Summe über die lebenden Stämme, die drinnen sind, jeder mal 10000 / Fläche des Kreises, der ihn erfasst, m² (Winkelzählprobe: Zählfaktor / Grundfläche des Stammes).</translation>
    </message>
    <message>
        <source>Summed stem by stem it is %1 per hectare.</source>
        <translation>Stamm für Stamm summiert ist er %1 je Hektar.</translation>
    </message>
    <message>
        <source>That is a bias, not a part of the error: %1 % of the standard error in basal area, and more plots do not lessen it.</source>
        <translation>Das ist eine Verzerrung und kein Teil des Fehlers: %1 % des Standardfehlers der Grundfläche, und mehr Probeflächen verringern sie nicht.</translation>
    </message>
    <message>
        <source>The %1 half of the stems is not shown to be grouped or spread</source>
        <translation>Es zeigt sich nicht, dass die %1 Hälfte der Stämme gruppiert oder verteilt steht</translation>
    </message>
    <message>
        <source>The change is not known: %1.</source>
        <translation>Die Veränderung ist nicht bekannt: %1.</translation>
    </message>
    <message>
        <source>The error of the survey is not known, so that no remedy can be weighed.</source>
        <translation>Der Fehler der Inventur ist nicht bekannt, so dass sich keine Abhilfe abwägen lässt.</translation>
    </message>
    <message>
        <source>The heading %1 %2. The column is kept, but not interpreted; if it is a field, say which one under Columns of the upload in the window, or with --map FIELD=HEADING.</source>
        <translation>Die Überschrift %1 %2. Die Spalte bleibt erhalten, wird aber nicht gedeutet; wenn sie ein Feld ist, angeben, welches: unter Spalten der Aufnahmedaten im Fenster oder mit --map FIELD=HEADING.</translation>
    </message>
    <message>
        <source>The heading %1 was taken as %2; it could also be %3. If so, say it under Columns of the upload in the window, or with --map %4=%5.</source>
        <translation>Die Überschrift %1 wurde als %2 verstanden; sie könnte auch %3 sein. Wenn ja, das angeben: unter Spalten der Aufnahmedaten im Fenster oder mit --map %4=%5.</translation>
    </message>
    <message>
        <source>The headings stand again among the records.</source>
        <translation>Die Überschriften stehen noch einmal zwischen den Aufnahmen.</translation>
    </message>
    <message>
        <source>The headings stand again in %1; skipped.</source>
        <translation>Die Überschriften stehen noch einmal in %1; übergangen.</translation>
    </message>
    <message>
        <source>The headings stand in line %1; what stands above them was skipped.</source>
        <translation>Die Überschriften stehen in Zeile %1; was darüber steht, wurde übergangen.</translation>
    </message>
    <message>
        <source>The inner half of the area holds %1 of %2 stems</source>
        <translation>In der inneren Hälfte der Fläche stehen %1 von %2 Stämmen</translation>
    </message>
    <message>
        <source>The largest radius of an angle count</source>
        <translation>Der größte Radius einer Winkelzählprobe</translation>
    </message>
    <message>
        <source>The letters of %1 were read as Western European (Windows 1252); line %2 reads %3. If that is wrong, save the file as UTF-8.</source>
        <translation>Die Buchstaben von %1 wurden als westeuropäisch (Windows 1252) gelesen; Zeile %2 lautet %3. Wenn das falsch ist, die Datei als UTF-8 speichern.</translation>
    </message>
    <message>
        <source>The measuring heights look like centimetres: half of them are {usual_height_m:g} or more, and breast height is {breast_height_m:g}.</source>
        <translation>Die Messhöhen sehen nach Zentimetern aus: Die Hälfte ist {usual_height_m:g} oder mehr, und die Brusthöhe ist {breast_height_m:g}.</translation>
    </message>
    <message>
        <source>The nearest stem is %1 m away on average, %2 m by chance</source>
        <translation>Der nächste Stamm ist im Mittel %1 m entfernt, bei Zufall %2 m</translation>
    </message>
    <message>
        <source>The paper %1 is not known: choose one of %2.</source>
        <translation>Das Papier %1 ist nicht bekannt: eines wählen von %2.</translation>
    </message>
    <message>
        <source>The picture for %1 could not be made; nothing was written.</source>
        <translation>Das Bild für %1 konnte nicht gemacht werden; nichts wurde geschrieben.</translation>
    </message>
    <message>
        <source>The plot radius</source>
        <translation>Der Probeflächenradius</translation>
    </message>
    <message>
        <source>The polygons of the stand, %1, are not in %2; put the file there or correct [design] stand.</source>
        <translation>Die Polygone des Bestands, %1, sind nicht in %2; die Datei dorthin legen oder [design] stand berichtigen.</translation>
    </message>
    <message>
        <source>The radius of a circle</source>
        <translation>Der Radius eines Kreises</translation>
    </message>
    <message>
        <source>The settings give %1, which the kind &quot;%2&quot; does not use; was &quot;%3&quot; meant?</source>
        <translation>Die Einstellungen nennen %1, was die Art &quot;%2&quot; nicht benutzt; war &quot;%3&quot; gemeint?</translation>
    </message>
    <message>
        <source>The settings have a section [%1] that is not known%2.</source>
        <translation>Die Einstellungen haben einen Abschnitt [%1], der nicht bekannt ist%2.</translation>
    </message>
    <message>
        <source>The slope rule %1 is not known: choose one of %2.</source>
        <translation>Die Hangregel %1 ist nicht bekannt: eine wählen von %2.</translation>
    </message>
    <message>
        <source>The smallest dbh counted</source>
        <translation>Der kleinste gezählte BHD</translation>
    </message>
    <message>
        <source>The standard error is %1 stems/ha and %2 m²/ha; it holds all that plots differ by, doubts about single stems too.</source>
        <translation>Der Standardfehler ist %1 Stämme/ha und %2 m²/ha; er enthält alles, worin Probeflächen sich unterscheiden, auch Zweifel an einzelnen Stämmen.</translation>
    </message>
    <message>
        <source>The status &apos;{text}&apos; (first in {file}, line {line}; stems: {stems}) is not known; counted as living.</source>
        <translation>Der Status „{text}“ (zuerst in {file}, Zeile {line}; Stämme: {stems}) ist nicht bekannt; als lebend gezählt.</translation>
    </message>
    <message>
        <source>The system lacks libraries that drawing needs (%1); nothing was written. On Debian or Ubuntu: %2</source>
        <translation>Dem System fehlen Bibliotheken, die das Zeichnen braucht (%1); nichts wurde geschrieben. Unter Debian oder Ubuntu: %2</translation>
    </message>
    <message>
        <source>The upload</source>
        <translation>Die Aufnahmedaten</translation>
    </message>
    <message>
        <source>There is no display for a window; start stemmap in a desktop session, or see stemmap --help for what works without one.</source>
        <translation>Es gibt keinen Bildschirm für ein Fenster; stemmap in einer Desktopsitzung starten, oder mit stemmap --help sehen, was ohne geht.</translation>
    </message>
    <message>
        <source>There is no file %1; check its name and folder.</source>
        <translation>Es gibt keine Datei %1; Name und Ordner prüfen.</translation>
    </message>
    <message>
        <source>There is no plot %1; there are %2 ...</source>
        <translation>Es gibt keine Probefläche %1; es gibt %2 ...</translation>
    </message>
    <message>
        <source>There is no plot to draw, so %1 was not written.</source>
        <translation>Es gibt keine Probefläche zu zeichnen, darum wurde %1 nicht geschrieben.</translation>
    </message>
    <message>
        <source>There is no plot%1 to draw, so %2 was not written.</source>
        <translation>Es gibt keine Probefläche%1 zu zeichnen, darum wurde %2 nicht geschrieben.</translation>
    </message>
    <message>
        <source>There is no setting %1.</source>
        <translation>Es gibt keine Einstellung %1.</translation>
    </message>
    <message>
        <source>There is no settings file %1; check its name and folder.</source>
        <translation>Es gibt keine Einstellungsdatei %1; Name und Ordner prüfen.</translation>
    </message>
    <message>
        <source>Thick and thin stems are not shown to stand together or to keep apart</source>
        <translation>Es zeigt sich nicht, dass dicke und dünne Stämme zusammenstehen oder sich meiden</translation>
    </message>
    <message>
        <source>Thicker than average are stems that have another at %1 m</source>
        <translation>Dicker als der Durchschnitt sind Stämme, die einen anderen haben bei %1 m</translation>
    </message>
    <message>
        <source>Thinner than average are stems that have another at %1 m</source>
        <translation>Dünner als der Durchschnitt sind Stämme, die einen anderen haben bei %1 m</translation>
    </message>
    <message>
        <source>This is not in the list. Is it right?</source>
        <translation>Das steht nicht in der Liste. Ist es richtig?</translation>
    </message>
    <message>
        <source>Thousands are marked in a column.</source>
        <translation>In einer Spalte sind Tausender gekennzeichnet.</translation>
    </message>
    <message>
        <source>To be known: %1.</source>
        <translation>Zu wissen: %1.</translation>
    </message>
    <message>
        <source>Too few cells in %1; the missing cells are taken as empty.</source>
        <translation>Zu wenige Zellen in %1; die fehlenden gelten als leer.</translation>
    </message>
    <message>
        <source>Too many cells in %1; the surplus is kept under %2, but its earlier cells may stand one column too far to the right. Mend these lines in the file.</source>
        <translation>Zu viele Zellen in %1; das Überzählige ist unter %2 erhalten, aber die Zellen davor können eine Spalte zu weit rechts stehen. Diese Zeilen in der Datei berichtigen.</translation>
    </message>
    <message>
        <source>Transforming %1</source>
        <translation>%1 wird transformiert</translation>
    </message>
    <message>
        <source>Two columns claim the same field.</source>
        <translation>Zwei Spalten beanspruchen dasselbe Feld.</translation>
    </message>
    <message>
        <source>Units stand in the cells of a column.</source>
        <translation>In den Zellen einer Spalte stehen Einheiten.</translation>
    </message>
    <message>
        <source>Usual is a number from %1 to %2.</source>
        <translation>Üblich ist eine Zahl von %1 bis %2.</translation>
    </message>
    <message>
        <source>Values of one plot differ from line to line.</source>
        <translation>Werte einer Probefläche unterscheiden sich von Zeile zu Zeile.</translation>
    </message>
    <message>
        <source>What is hidden behind other stems is not known, so that a second stand-point cannot be weighed.</source>
        <translation>Was hinter anderen Stämmen verborgen ist, ist nicht bekannt, so dass sich ein zweiter Standpunkt nicht abwägen lässt.</translation>
    </message>
    <message>
        <source>What was meant cannot be told.</source>
        <translation>Was gemeint war, ist nicht zu sagen.</translation>
    </message>
    <message>
        <source>Writing %1</source>
        <translation>%1 wird geschrieben</translation>
    </message>
    <message>
        <source>[%1] has a key %2 that is not known%3.</source>
        <translation>[%1] hat einen Schlüssel %2, der nicht bekannt ist%3.</translation>
    </message>
    <message>
        <source>[design] circles: max_dbh_cm must be above min_dbh_cm.</source>
        <translation>[design] circles: max_dbh_cm muss größer als min_dbh_cm sein.</translation>
    </message>
    <message>
        <source>[errors] borderline_probability must be below 0.5.</source>
        <translation>[errors] borderline_probability muss kleiner als 0,5 sein.</translation>
    </message>
    <message>
        <source>[status] %1 stands under %2 and %3.</source>
        <translation>[status] %1 steht unter %2 und %3.</translation>
    </message>
    <message>
        <source>a circle of the design lies apart from the centre</source>
        <translation>ein Kreis des Verfahrens liegt abseits des Mittelpunkts</translation>
    </message>
    <message>
        <source>a compressed file (7z)</source>
        <translation>eine komprimierte Datei (7z)</translation>
    </message>
    <message>
        <source>a compressed file (RAR)</source>
        <translation>eine komprimierte Datei (RAR)</translation>
    </message>
    <message>
        <source>a compressed file (gzip)</source>
        <translation>eine komprimierte Datei (gzip)</translation>
    </message>
    <message>
        <source>a dbh of {dbh_cm:g} cm is far from what is usual</source>
        <translation>ein BHD von {dbh_cm:g} cm ist weit vom Üblichen</translation>
    </message>
    <message>
        <source>a first sample of %1 points cannot hold the %2 plots that have it</source>
        <translation>eine erste Stichprobe von %1 Punkten kann die %2 Probeflächen, die ihn haben, nicht enthalten</translation>
    </message>
    <message>
        <source>a picture (GIF)</source>
        <translation>ein Bild (GIF)</translation>
    </message>
    <message>
        <source>a picture (JPEG)</source>
        <translation>ein Bild (JPEG)</translation>
    </message>
    <message>
        <source>a picture (PNG)</source>
        <translation>ein Bild (PNG)</translation>
    </message>
    <message>
        <source>a stratum has fewer than two plots</source>
        <translation>ein Stratum hat weniger als zwei Probeflächen</translation>
    </message>
    <message>
        <source>after</source>
        <translation>danach</translation>
    </message>
    <message>
        <source>again</source>
        <translation>nachgemessen</translation>
    </message>
    <message>
        <source>an angle count</source>
        <translation>eine Winkelzählprobe</translation>
    </message>
    <message>
        <source>an angle count has no circle whose ground could be hidden</source>
        <translation>eine Winkelzählprobe hat keinen Kreis, dessen Boden verdeckt sein könnte</translation>
    </message>
    <message>
        <source>an angle count has no one inclusion rule for all its stems</source>
        <translation>eine Winkelzählprobe hat keine gemeinsame Auswahlregel für alle Stämme</translation>
    </message>
    <message>
        <source>There is no field %1 to map a heading to%2. The handbook lists all fields.</source>
        <translation>Es gibt kein Feld %1, dem eine Überschrift zugeordnet werden kann%2. Das Handbuch nennt alle Felder.</translation>
    </message>
    <message>
        <source> (probability %1)</source>
        <translation> (Wahrscheinlichkeit %1)</translation>
    </message>
    <message>
        <source> Lost: %1.</source>
        <translation> Verloren: %1.</translation>
    </message>
    <message>
        <source> No coordinates are known of %1 plots, so they are not in %2: %3.</source>
        <translation> Von %1 Probeflächen sind keine Koordinaten bekannt; sie fehlen in %2: %3.</translation>
    </message>
    <message>
        <source> None is missing between them.</source>
        <translation> Dazwischen fehlt keine.</translation>
    </message>
    <message>
        <source> and more</source>
        <translation> und mehr</translation>
    </message>
    <message>
        <source> on the re-check list</source>
        <translation> auf der Nachprüfliste</translation>
    </message>
    <message>
        <source>%1 % of the ground is hidden from the centre; %2 living stems (%3 to %4) may stand unseen: look from a second point.</source>
        <translation>%1 % des Bodens sind vom Mittelpunkt aus verdeckt; %2 lebende Stämme (%3 bis %4) können ungesehen dort stehen: von einem zweiten Punkt aus nachsehen.</translation>
    </message>
    <message>
        <source>%1 (probability %2)</source>
        <translation>%1 (Wahrscheinlichkeit %2)</translation>
    </message>
    <message>
        <source>%1 (probability %2), perhaps those of the last visit</source>
        <translation>%1 (Wahrscheinlichkeit %2), vielleicht die der vorigen Aufnahme</translation>
    </message>
    <message>
        <source>%1 Say --replace to take the new records, or --keep the old ones.</source>
        <translation>%1 Mit --replace gelten die neuen Datensätze, mit --keep die alten.</translation>
    </message>
    <message>
        <source>%1 cannot be below zero, so %2 was not stored.</source>
        <translation>%1 kann nicht unter null sein, daher wurde %2 nicht gespeichert.</translation>
    </message>
    <message>
        <source>%1 cannot be made: %2. Choose another place.</source>
        <translation>%1 kann nicht angelegt werden: %2. Bitte einen anderen Ort wählen.</translation>
    </message>
    <message>
        <source>%1 cannot be read as a vector layer: it is no GeoPackage, shapefile or GeoJSON file; save it again as GeoPackage.</source>
        <translation>%1 kann nicht als Vektorebene gelesen werden: Es ist keine GeoPackage-, Shapefile- oder GeoJSON-Datei; bitte neu als GeoPackage speichern.</translation>
    </message>
    <message>
        <source>%1 cannot be read as a vector layer; save it again as GeoPackage.</source>
        <translation>%1 kann nicht als Vektorebene gelesen werden; bitte neu als GeoPackage speichern.</translation>
    </message>
    <message>
        <source>%1 cannot be written here; copy it to a folder of your own.</source>
        <translation>%1 kann hier nicht beschrieben werden; in einen eigenen Ordner kopieren.</translation>
    </message>
    <message>
        <source>%1 decisions were taken over, each with an entry in the journal.</source>
        <translation>%1 Entscheidungen wurden übernommen, jede mit einem Eintrag im Journal.</translation>
    </message>
    <message>
        <source>%1 holds %2 rows more that crews brought back.</source>
        <translation>%1 enthält %2 weitere Zeilen, die Trupps zurückgebracht haben.</translation>
    </message>
    <message>
        <source>%1 holds a packet already (%2); nothing was written. Name another folder.</source>
        <translation>In %1 liegt schon ein Feldpaket (%2); nichts wurde geschrieben. Bitte einen anderen Ordner nennen.</translation>
    </message>
    <message>
        <source>%1 holds no places.</source>
        <translation>%1 enthält keine Orte.</translation>
    </message>
    <message>
        <source>%1 holds no rows of stems; give the table of the field packet, filled in.</source>
        <translation>%1 enthält keine Zeilen mit Stämmen; bitte die ausgefüllte Tabelle des Feldpakets angeben.</translation>
    </message>
    <message>
        <source>%1 is %2, %3 by chance</source>
        <translation>%1 ist %2, bei Zufall %3</translation>
    </message>
    <message>
        <source>%1 is a survey file; give the table of a packet that a crew filled in.</source>
        <translation>%1 ist eine Inventurdatei; die Tabelle eines Pakets angeben, die ein Trupp ausgefüllt hat.</translation>
    </message>
    <message>
        <source>%1 is damaged; nothing was changed. Keep it, and save what can be read from it with stemmap repair %2.</source>
        <translation>%1 ist beschädigt; nichts wurde geändert. Die Datei aufheben und mit stemmap repair %2 retten, was daraus zu lesen ist.</translation>
    </message>
    <message>
        <source>%1 is neither the number of a journal entry nor a time; write 12, 2026-11-25 or 2026-11-25T16:30.</source>
        <translation>%1 ist weder die Nummer eines Eintrags im Journal noch eine Zeit; 12, 2026-11-25 oder 2026-11-25T16:30 schreiben.</translation>
    </message>
    <message>
        <source>%1 is no decision; say correct, correct=2, keep, recheck or value=X.</source>
        <translation>%1 ist keine Entscheidung; correct, correct=2, keep, recheck oder value=X angeben.</translation>
    </message>
    <message>
        <source>%1 is no number for %2.</source>
        <translation>%1 ist keine Zahl für %2.</translation>
    </message>
    <message>
        <source>%1 is no ordinary file, so no settings file.</source>
        <translation>%1 ist keine gewöhnliche Datei, also keine Einstellungsdatei.</translation>
    </message>
    <message>
        <source>%1 is no survey file of stemmap; nothing was changed.</source>
        <translation>%1 ist keine Inventurdatei von stemmap; nichts wurde geändert.</translation>
    </message>
    <message>
        <source>%1 is no survey file, which keeps what is sent out; make one with stemmap add.</source>
        <translation>%1 ist keine Inventurdatei, die festhält, was hinausgeht; mit stemmap add eine anlegen.</translation>
    </message>
    <message>
        <source>%1 is not known: %2.</source>
        <translation>%1 ist nicht bekannt: %2.</translation>
    </message>
    <message>
        <source>%1 is not shown to be grouped or spread among the other stems</source>
        <translation>%1 steht unter den anderen Stämmen weder erkennbar in Gruppen noch verteilt</translation>
    </message>
    <message>
        <source>%1 is whole, nothing in it is damaged: go on with it. %2 holds the same %3 records and %4 decisions.%5</source>
        <translation>%1 ist unbeschädigt: arbeiten Sie damit weiter. %2 enthält dieselben %3 Datensätze und %4 Entscheidungen.%5</translation>
    </message>
    <message>
        <source>%1 missing</source>
        <translation>%1 fehlen</translation>
    </message>
    <message>
        <source>%1 of %2 stems were found, %3 added.</source>
        <translation>%1 von %2 Stämmen wurden gefunden, %3 kamen hinzu.</translation>
    </message>
    <message>
        <source>%1 plots, %2 visits, %3 stems recorded.</source>
        <translation>%1 Probeflächen, %2 Aufnahmen, %3 Stämme aufgenommen.</translation>
    </message>
    <message>
        <source>%1 record%2 in it (%3) changed</source>
        <translation>%1 Datensätze%2 darin (%3) geändert</translation>
    </message>
    <message>
        <source>%1 simulations, seed %2.</source>
        <translation>%1 Simulationen, Startzahl %2.</translation>
    </message>
    <message>
        <source>%1 stems</source>
        <translation>%1 Stämme</translation>
    </message>
    <message>
        <source>%1 stems on %2 plots</source>
        <translation>%1 Stämme auf %2 Probeflächen</translation>
    </message>
    <message>
        <source>%1 values</source>
        <translation>%1 Werte</translation>
    </message>
    <message>
        <source>%1 was made by a later stemmap (tables of version %2, this one knows up to %3); nothing was changed. Open it with a newer stemmap.</source>
        <translation>%1 wurde von einem neueren stemmap angelegt (Tabellen der Version %2, dieses kennt sie bis %3); nichts wurde geändert. Mit einem neueren stemmap öffnen.</translation>
    </message>
    <message>
        <source>%1 was not changed.</source>
        <translation>%1 wurde nicht geändert.</translation>
    </message>
    <message>
        <source>%1, visit %2</source>
        <translation>%1, Aufnahme %2</translation>
    </message>
    <message>
        <source>%1: each %2 needs at least %3.</source>
        <translation>%1: jedes %2 braucht mindestens %3.</translation>
    </message>
    <message>
        <source>%1: every row is in %2 already; nothing of it was added.</source>
        <translation>%1: Jede Zeile ist schon in %2; nichts davon wurde hinzugefügt.</translation>
    </message>
    <message>
        <source>%1: the records themselves, not measured again; give what a crew filled in.</source>
        <translation>%1: die Aufnahme selbst, nicht noch einmal gemessen; anzugeben ist, was ein Trupp ausgefüllt hat.</translation>
    </message>
    <message>
        <source>%1; %2 as set</source>
        <translation>%1; %2 wie eingestellt</translation>
    </message>
    <message>
        <source>%1; every decision in it could be read.</source>
        <translation>%1; jede Entscheidung darin war zu lesen.</translation>
    </message>
    <message>
        <source>(nothing was said)</source>
        <translation>(nichts wurde gesagt)</translation>
    </message>
    <message>
        <source>, %1 % of what all doubts may move</source>
        <translation>, %1 % dessen, was alle Zweifel bewegen können</translation>
    </message>
    <message>
        <source>1.96 standard deviations of the difference of two measurements, from the errors in the settings</source>
        <translation>1,96 Standardabweichungen des Unterschieds zweier Messungen, aus den Messfehlern der Einstellungen</translation>
    </message>
    <message>
        <source>; the dbh is likelier wrong</source>
        <translation>; eher ist der BHD falsch</translation>
    </message>
    <message>
        <source>; the height is likelier wrong</source>
        <translation>; eher ist die Höhe falsch</translation>
    </message>
    <message>
        <source>A finding is a doubt, not a verdict.</source>
        <translation>Ein Befund ist ein Zweifel, kein Urteil.</translation>
    </message>
    <message>
        <source>A line holds totals.</source>
        <translation>Eine Zeile enthält Summen.</translation>
    </message>
    <message>
        <source>A report ends with .html or .pdf, not as %1 does; choose another name with -o.</source>
        <translation>Ein Bericht endet mit .html oder .pdf, nicht wie %1; mit -o einen anderen Namen wählen.</translation>
    </message>
    <message>
        <source>A stem can be of one kind only in a cross-type K.</source>
        <translation>In einem K zwischen zwei Arten von Stämmen gehört jeder Stamm nur zu einer Art.</translation>
    </message>
    <message>
        <source>A text of %1 characters is no decision; %2 are the most.</source>
        <translation>Ein Text von %1 Zeichen ist keine Entscheidung; höchstens %2 sind möglich.</translation>
    </message>
    <message>
        <source>All plots</source>
        <translation>Alle Probeflächen</translation>
    </message>
    <message>
        <source>All visits</source>
        <translation>Alle Aufnahmen</translation>
    </message>
    <message>
        <source>Another program changed a layer of the survey file.</source>
        <translation>Ein anderes Programm hat eine Ebene der Inventurdatei geändert.</translation>
    </message>
    <message>
        <source>Another program changed records in the survey file.</source>
        <translation>Ein anderes Programm hat Datensätze in der Inventurdatei geändert.</translation>
    </message>
    <message>
        <source>Another program changed the %1 in %2; results come from the records and the decisions alone. Enter what was meant as decisions; what was changed is kept beside the layers that are made anew.</source>
        <translation>Ein anderes Programm hat in %2 geändert: %1. Ergebnisse folgen allein aus Aufnahmedaten und Entscheidungen. Was gemeint war, als Entscheidung eingeben; das Geänderte bleibt neben den neu gemachten Ebenen erhalten.</translation>
    </message>
    <message>
        <source>Another program changed the finding %1 in the survey file, so that it cannot be decided; stemmap repair makes a file with its findings made anew.</source>
        <translation>Ein anderes Programm hat den Befund %1 in der Inventurdatei geändert, sodass er nicht entschieden werden kann; stemmap repair legt eine Datei mit neu erstellten Befunden an.</translation>
    </message>
    <message>
        <source>Another program changed the records of %1 in the survey file: %2. What stands there now is used; to have it as it was typed, add the file again with --replace.</source>
        <translation>Ein anderes Programm hat die Datensätze von %1 in der Inventurdatei geändert: %2. Verwendet wird, was jetzt dort steht; um sie so zu haben, wie sie getippt wurden, die Datei mit --replace noch einmal hinzufügen.</translation>
    </message>
    <message>
        <source>Another program changed the settings in %1, so that they cannot be read: %2.</source>
        <translation>Ein anderes Programm hat die Einstellungen in %1 geändert, sodass sie nicht gelesen werden können: %2.</translation>
    </message>
    <message>
        <source>Bias</source>
        <translation>Systematische Abweichung</translation>
    </message>
    <message>
        <source>Blind looks</source>
        <translation>Blinde Nachmessungen</translation>
    </message>
    <message>
        <source>Blind rows show no former value, on purpose: they tell how well anybody measures. Measure every stem of the plot anew; only the numbers that it may bear are told. Do not look the old values up.</source>
        <translation>Blinde Zeilen (blind) zeigen mit Absicht keinen früheren Wert: sie sagen, wie gut überhaupt gemessen wird. Jeden Stamm der Probefläche neu messen; genannt sind nur die Nummern, die er tragen mag. Die alten Werte nicht nachschlagen.</translation>
    </message>
    <message>
        <source>Breast height is judged from the centre: {height_m:g} m too low makes a dbh {dbh_cm:.2g} cm too thick at a taper of {taper_cm_per_m:g} cm per m; if a crew always does so, its basal area is {percent:.1f} % too large.</source>
        <translation>Die Brusthöhe wird vom Mittelpunkt aus geschätzt: {height_m:g} m zu tief macht einen BHD bei einer Abholzigkeit von {taper_cm_per_m:g} cm je m um {dbh_cm:.2g} cm zu dick; tut ein Trupp das immer, ist seine Grundfläche {percent:.1f} % zu groß.</translation>
    </message>
    <message>
        <source>Change between the visits</source>
        <translation>Veränderung zwischen den Aufnahmen</translation>
    </message>
    <message>
        <source>Check</source>
        <translation>Prüfung</translation>
    </message>
    <message>
        <source>Clark-Evans R (p)</source>
        <translation>Clark-Evans R (p)</translation>
    </message>
    <message>
        <source>Cold rows show the former values. Measure without leaning on them, then write what you measured, also when it is the same.</source>
        <translation>Die anderen Zeilen (cold) zeigen die früheren Werte. Unabhängig davon messen und dann aufschreiben, was gemessen wurde, auch wenn es dasselbe ist.</translation>
    </message>
    <message>
        <source>Columns %1 have no heading; their cells are kept, but not interpreted.</source>
        <translation>Die Spalten %1 haben keine Überschrift; ihre Zellen bleiben erhalten, werden aber nicht gedeutet.</translation>
    </message>
    <message>
        <source>Compared: %1.</source>
        <translation>Verglichen: %1.</translation>
    </message>
    <message>
        <source>Comparing with chance</source>
        <translation>Vergleich mit dem Zufall</translation>
    </message>
    <message>
        <source>Computed as %1, from %2.</source>
        <translation>Berechnet als %1, aus %2.</translation>
    </message>
    <message>
        <source>Coordinates: %1.</source>
        <translation>Koordinaten: %1.</translation>
    </message>
    <message>
        <source>Crew %1</source>
        <translation>Trupp %1</translation>
    </message>
    <message>
        <source>Crew %1 on %2</source>
        <translation>Trupp %1 am %2</translation>
    </message>
    <message>
        <source>Distances need all stems inside the window, each with a position.</source>
        <translation>Abstände brauchen alle Stämme innerhalb des Fensters, jeden mit einer Lage.</translation>
    </message>
    <message>
        <source>Distances to the nearest stem are not shown to differ from chance</source>
        <translation>Die Abstände zum nächsten Stamm weichen nicht erkennbar vom Zufall ab</translation>
    </message>
    <message>
        <source>Drawn by chance (seed %1) from %2 stems that are not on the list, to learn how often nobody doubts what is wrong.</source>
        <translation>Durch Zufall gezogen (Startzahl %1) aus %2 Stämmen, die nicht auf der Liste stehen, um zu erfahren, wie oft Falsches unbezweifelt bleibt.</translation>
    </message>
    <message>
        <source>Entry %1 is no decision, so it cannot be undone; the journal shows them.</source>
        <translation>Eintrag %1 ist keine Entscheidung und kann darum nicht zurückgenommen werden; das Journal zeigt die Entscheidungen.</translation>
    </message>
    <message>
        <source>Entry %1 is not undone, so it cannot be redone.</source>
        <translation>Eintrag %1 ist nicht zurückgenommen und kann darum nicht wiederhergestellt werden.</translation>
    </message>
    <message>
        <source>Entry %1 is undone already.</source>
        <translation>Eintrag %1 ist schon zurückgenommen.</translation>
    </message>
    <message>
        <source>Envelopes</source>
        <translation>Hüllkurven</translation>
    </message>
    <message>
        <source>Every record of it is there already.</source>
        <translation>Jeder Datensatz davon ist schon da.</translation>
    </message>
    <message>
        <source>Field</source>
        <translation>Feld</translation>
    </message>
    <message>
        <source>Field packet %1 is in %2: plots with former values: %3, blind plots: %4, stems to measure again: %5. %6</source>
        <translation>Das Feldpaket %1 liegt in %2: Probeflächen mit früheren Werten: %3, blinde Probeflächen: %4, nachzumessende Stämme: %5. %6</translation>
    </message>
    <message>
        <source>Findings</source>
        <translation>Befunde</translation>
    </message>
    <message>
        <source>From the centre of plot {plot} {hidden_percent:.0f} % of the ground is hidden, the widest part at {sector_from_deg:.0f} to {sector_to_deg:.0f} degrees beyond {sector_beyond_m:.1f} m; about {missed_stems:.0f} living stems ({missed_low:.0f} to {missed_high:.0f}), {missed_percent:.0f} % of all, may stand unseen.</source>
        <translation>Vom Mittelpunkt der Probefläche {plot} aus sind {hidden_percent:.0f} % des Bodens verdeckt, der breiteste Teil bei {sector_from_deg:.0f} bis {sector_to_deg:.0f} Grad jenseits von {sector_beyond_m:.1f} m; etwa {missed_stems:.0f} lebende Stämme ({missed_low:.0f} bis {missed_high:.0f}), {missed_percent:.0f} % von allen, können ungesehen stehen.</translation>
    </message>
    <message>
        <source>Going back is field work: weather, slope and dead wood decide; follow the rules of your own organisation.</source>
        <translation>Zurückgehen ist Feldarbeit: Wetter, Hang und totes Holz entscheiden; es gelten die Regeln der eigenen Organisation.</translation>
    </message>
    <message>
        <source>Half of the stems are thinner than %1 cm, a quarter thinner than %2 cm and a quarter thicker than %3 cm</source>
        <translation>Die Hälfte der Stämme ist dünner als %1 cm, ein Viertel dünner als %2 cm und ein Viertel dicker als %3 cm</translation>
    </message>
    <message>
        <source>Half the squared difference of the dbh of two stems r apart over the variance of dbh on their plot, kernel of half-width 1 m (Stoyan &amp; Stoyan 1994); 1: no relation.</source>
        <translation>Halbes Quadrat des BHD-Unterschieds zweier Stämme im Abstand r durch die Varianz des BHD auf ihrer Probefläche, Kern der halben Breite 1 m (Stoyan &amp; Stoyan 1994); 1: kein Zusammenhang.</translation>
    </message>
    <message>
        <source>How it is made, and source</source>
        <translation>Wie er entsteht, und Quelle</translation>
    </message>
    <message>
        <source>How well the survey was measured</source>
        <translation>Wie gut die Inventur gemessen wurde</translation>
    </message>
    <message>
        <source>Indices of all plots</source>
        <translation>Maße aller Probeflächen</translation>
    </message>
    <message>
        <source>Instrument %1</source>
        <translation>Instrument %1</translation>
    </message>
    <message>
        <source>It cannot be decided whether the stem is in: its distance, dbh or slope is missing.</source>
        <translation>Ob der Stamm dazugehört, lässt sich nicht entscheiden: Entfernung, BHD oder Neigung fehlt.</translation>
    </message>
    <message>
        <source>K(r) of the stems of one kind, or of one kind around the other, against the kinds dealt out anew among the stems of each plot; thick and thin: above and below the median dbh of the plot.</source>
        <translation>K(r) der Stämme einer Art, oder der einen um die andere, gegen die Arten, unter den Stämmen jeder Probefläche neu verteilt; dick und dünn: über und unter dem mittleren BHD (Median) der Probefläche.</translation>
    </message>
    <message>
        <source>L(r) of species and sizes</source>
        <translation>L(r) von Baumarten und Größen</translation>
    </message>
    <message>
        <source>Large stems by themselves</source>
        <translation>Große Stämme für sich</translation>
    </message>
    <message>
        <source>Large stems of the outer circle</source>
        <translation>Große Stämme des äußeren Kreises</translation>
    </message>
    <message>
        <source>Likeness of neighbours: mark variogram of dbh</source>
        <translation>Ähnlichkeit der Nachbarn: Markenvariogramm des BHD</translation>
    </message>
    <message>
        <source>Look</source>
        <translation>Nachmessung</translation>
    </message>
    <message>
        <source>Looks with the former values</source>
        <translation>Nachmessungen mit den früheren Werten</translation>
    </message>
    <message>
        <source>Mark variogram</source>
        <translation>Markenvariogramm</translation>
    </message>
    <message>
        <source>Meaning</source>
        <translation>Bedeutung</translation>
    </message>
    <message>
        <source>Median difference</source>
        <translation>Mittlere Differenz (Median)</translation>
    </message>
    <message>
        <source>Methods</source>
        <translation>Methoden</translation>
    </message>
    <message>
        <source>Neither clumping nor regularity is shown up to %1 m</source>
        <translation>Bis %1 m zeigt sich weder Klumpung noch Regelmäßigkeit</translation>
    </message>
    <message>
        <source>No plot is left to send a crew to.</source>
        <translation>Keine Probefläche ist übrig, zu der ein Trupp geschickt werden könnte.</translation>
    </message>
    <message>
        <source>No relation between dbh and the distance to other stems is shown</source>
        <translation>Zwischen BHD und Abstand zu anderen Stämmen zeigt sich kein Zusammenhang</translation>
    </message>
    <message>
        <source>No. {stem} has azimuth and distance of No. {twin} to the last digit, but a dbh of {dbh_cm:g} cm against {twin_dbh_cm:g} cm: the line above repeated, two stems of one tree, or one entered again.</source>
        <translation>Nr. {stem} hat Azimut und Abstand von Nr. {twin} bis auf die letzte Ziffer, aber einen BHD von {dbh_cm:g} cm gegen {twin_dbh_cm:g} cm: die Zeile darüber wiederholt, zwei Stämme eines Baums oder einer noch einmal eingegeben.</translation>
    </message>
    <message>
        <source>No. {stem} is there twice and looks entered again: {apart_m:.2f} m apart, dbh {dbh_cm:g} cm.</source>
        <translation>Nr. {stem} steht zweimal da und sieht aus wie noch einmal eingetragen: {apart_m:.2f} m auseinander, BHD {dbh_cm:g} cm.</translation>
    </message>
    <message>
        <source>No. {stem} is there twice with the same azimuth and distance, but a dbh of {dbh_cm:g} cm against {twin_dbh_cm:g} cm: the line above repeated, two stems of one tree, or one entered again.</source>
        <translation>Nr. {stem} steht zweimal da mit demselben Azimut und derselben Distanz, aber mit einem BHD von {dbh_cm:g} cm gegen {twin_dbh_cm:g} cm: die Zeile darüber wiederholt, zwei Stämme eines Baums oder einer noch einmal eingetragen.</translation>
    </message>
    <message>
        <source>No. {stem} stands on this visit twice, and line {line} says nothing that line {other_line} does not say; both records are counted.</source>
        <translation>Nr. {stem} steht bei dieser Aufnahme zweimal, und Zeile {line} sagt nichts, was nicht auch Zeile {other_line} sagt; beide Datensätze werden gezählt.</translation>
    </message>
    <message>
        <source>No. {stem} stands on this visit twice, with other values in line {line} than in line {other_line}; both records are counted.</source>
        <translation>Nr. {stem} steht bei dieser Aufnahme zweimal, mit anderen Werten in Zeile {line} als in Zeile {other_line}; beide Datensätze werden gezählt.</translation>
    </message>
    <message>
        <source>No. {stem}: a height of {height_m:.1f} m and a dbh of {dbh_cm:.1f} cm hardly belong together; stems so thick are about {usual_height_m:.1f} m high here%1.</source>
        <translation>Nr. {stem}: Eine Höhe von {height_m:.1f} m und ein BHD von {dbh_cm:.1f} cm gehören kaum zusammen; so dicke Stämme sind hier etwa {usual_height_m:.1f} m hoch%1.</translation>
    </message>
    <message>
        <source>No. {stem}: row {row} of packet {packet} says {said} under found, but values stand beside it; it was compared as found.</source>
        <translation>Nr. {stem}: Zeile {row} des Pakets {packet} sagt {said} unter gefunden, doch stehen Werte daneben; sie wurde als gefunden verglichen.</translation>
    </message>
    <message>
        <source>No. {stem}: row {row} of packet {packet} says {said} under found, which is neither yes, no nor new, and no value stands beside it; nothing follows from it.</source>
        <translation>Nr. {stem}: Zeile {row} des Pakets {packet} sagt {said} unter gefunden, was weder ja, nein noch neu ist, und kein Wert steht daneben; nichts folgt daraus.</translation>
    </message>
    <message>
        <source>No. {stem}: row {row} of packet {packet} says {said} under found, which is neither yes, no nor new; values stand beside it, so it was compared as found.</source>
        <translation>Nr. {stem}: Zeile {row} des Pakets {packet} sagt {said} unter gefunden, was weder ja, nein noch neu ist; Werte stehen daneben, deshalb wurde sie als gefunden verglichen.</translation>
    </message>
    <message>
        <source>No. {stem}: the dbh was measured again as {again:g}{unit}, recorded is {recorded:g}{unit}; one is about {times:g} times the other, as where another unit was meant or the decimal point slipped.</source>
        <translation>Nr. {stem}: Der BHD wurde nachgemessen mit {again:g}{unit}, aufgenommen ist {recorded:g}{unit}; einer ist etwa {times:g}-mal der andere, wie wenn eine andere Einheit gemeint war oder das Komma verrutscht ist.</translation>
    </message>
    <message>
        <source>No. {stem}: the distance was measured again as {again:g}{unit}, recorded is {recorded:g}{unit}; one is about {times:g} times the other, as where another unit was meant or the decimal point slipped.</source>
        <translation>Nr. {stem}: Der Abstand wurde nachgemessen mit {again:g}{unit}, aufgenommen ist {recorded:g}{unit}; einer ist etwa {times:g}-mal der andere, wie wenn eine andere Einheit gemeint war oder das Komma verrutscht ist.</translation>
    </message>
    <message>
        <source>No. {stem}: what was written for the status measured again, {again}, is no status that is known.</source>
        <translation>Nr. {stem}: Was als nachgemessener Status eingetragen ist, {again}, ist kein bekannter Status.</translation>
    </message>
    <message>
        <source>Nobody is named who adds the upload; say it with --who NAME.</source>
        <translation>Es ist nicht gesagt, wer die Aufnahmedaten hinzufügt; mit --who NAME angeben.</translation>
    </message>
    <message>
        <source>Nobody is named who decides; say it with --who NAME.</source>
        <translation>Es ist nicht gesagt, wer entscheidet; mit --who NAME angeben.</translation>
    </message>
    <message>
        <source>Nobody is named who makes the packet; say it with --who NAME.</source>
        <translation>Niemand ist genannt, der das Feldpaket zusammenstellt; mit --who NAME angeben.</translation>
    </message>
    <message>
        <source>Nobody is named who takes this in; say it with --who NAME.</source>
        <translation>Niemand ist genannt, der dies hereinholt; mit --who NAME angeben.</translation>
    </message>
    <message>
        <source>Nothing differs on the plots that the survey file has.</source>
        <translation>Auf den Probeflächen, die in der Inventurdatei stehen, ist nichts anders.</translation>
    </message>
    <message>
        <source>Nothing is told of all plots: %1.</source>
        <translation>Über alle Probeflächen wird nichts gesagt: %1.</translation>
    </message>
    <message>
        <source>Nothing is told: %1.</source>
        <translation>Nichts wird ausgesagt: %1.</translation>
    </message>
    <message>
        <source>Nothing of a survey file can be read in %1; no file was made.</source>
        <translation>In %1 ist nichts von einer Inventurdatei zu lesen; es wurde keine Datei angelegt.</translation>
    </message>
    <message>
        <source>Nothing was added to %1. %2</source>
        <translation>Zu %1 wurde nichts hinzugefügt. %2</translation>
    </message>
    <message>
        <source>One further cluster would take it to about %1.</source>
        <translation>Ein weiterer Trakt brächte ihn auf etwa %1.</translation>
    </message>
    <message>
        <source>One further plot would take it to about %1.</source>
        <translation>Eine weitere Probefläche brächte ihn auf etwa %1.</translation>
    </message>
    <message>
        <source>Only a survey file knows how it was earlier; make one with stemmap add.</source>
        <translation>Nur eine Inventurdatei weiß, wie es früher war; eine mit stemmap add anlegen.</translation>
    </message>
    <message>
        <source>Pairs</source>
        <translation>Paare</translation>
    </message>
    <message>
        <source>Part</source>
        <translation>Teil</translation>
    </message>
    <message>
        <source>Plot</source>
        <translation>Probefläche</translation>
    </message>
    <message>
        <source>Plot {plot}: only {pairs} of {stems} stems are found again, however the map is turned or moved: another plot, or another stand.</source>
        <translation>Probefläche {plot}: Nur {pairs} von {stems} Stämmen werden wiedergefunden, wie auch immer die Karte gedreht oder verschoben wird: eine andere Probefläche oder ein anderer Bestand.</translation>
    </message>
    <message>
        <source>Plot {plot}: several dbh stand under one number at one place (such as No. {number}; records: {records}); they are taken for several stems of one tree, and all are counted.</source>
        <translation>Probefläche {plot}: Mehrere BHD stehen unter einer Nummer an einem Ort (etwa Nr. {number}; Einträge: {records}); sie gelten als mehrere Stämme eines Baums und werden alle gezählt.</translation>
    </message>
    <message>
        <source>Plot {plot}: stems were recorded again on another date of this visit ({records} stems, such as on {date} and {other_date}); both records are counted.</source>
        <translation>Probefläche {plot}: Stämme wurden an einem anderen Tag dieser Aufnahme noch einmal eingetragen ({records} Stämme, etwa am {date} und am {other_date}); beide Einträge werden gezählt.</translation>
    </message>
    <message>
        <source>Plot {plot}: the records show the stems of plot {other_plot}, visit {other_visit} ({pairs} of {stems} found again there, {pairs_here} here), and its records show this plot&apos;s: exchanged?</source>
        <translation>Probefläche {plot}: Die Einträge zeigen die Stämme der Probefläche {other_plot}, Aufnahme {other_visit} ({pairs} von {stems} dort wiedergefunden, {pairs_here} hier), und deren Einträge zeigen die dieser Probefläche: vertauscht?</translation>
    </message>
    <message>
        <source>Plot {plot}: the records show the stems of plot {other_plot}, visit {other_visit} ({pairs} of {stems} found again there, {pairs_here} here): filed under another plot&apos;s number?</source>
        <translation>Probefläche {plot}: Die Einträge zeigen die Stämme der Probefläche {other_plot}, Aufnahme {other_visit} ({pairs} von {stems} dort wiedergefunden, {pairs_here} hier): unter der Nummer einer anderen Probefläche abgelegt?</translation>
    </message>
    <message>
        <source>Plot {plot}: this visit&apos;s azimuths fit the last visit&apos;s when counted the other way round, a full circle less each ({pairs} stems found again then, {pairs_as_recorded} as recorded).</source>
        <translation>Probefläche {plot}: Die Azimute dieser Aufnahme passen zu denen der letzten, wenn sie andersherum gezählt werden, Vollkreis weniger jedes ({pairs} Stämme dann wiedergefunden, {pairs_as_recorded} wie eingetragen).</translation>
    </message>
    <message>
        <source>Plot {plot}: this visit&apos;s azimuths fit the last visit&apos;s when divided by 0.9, as degrees beside gon ({pairs} stems found again then, {pairs_as_recorded} as recorded).</source>
        <translation>Probefläche {plot}: Die Azimute dieser Aufnahme passen zu denen der letzten, wenn sie durch 0,9 geteilt werden, wie Grad neben Gon ({pairs} Stämme dann wiedergefunden, {pairs_as_recorded} wie eingetragen).</translation>
    </message>
    <message>
        <source>Plot {plot}: this visit&apos;s azimuths fit the last visit&apos;s when multiplied by 0.9, as gon beside degrees ({pairs} stems found again then, {pairs_as_recorded} as recorded).</source>
        <translation>Probefläche {plot}: Die Azimute dieser Aufnahme passen zu denen der letzten, wenn sie mit 0,9 malgenommen werden, wie Gon neben Grad ({pairs} Stämme dann wiedergefunden, {pairs_as_recorded} wie eingetragen).</translation>
    </message>
    <message>
        <source>Plot {plot}: this visit&apos;s distances are longer than the last visit&apos;s by half the dbh of each stem, as if measured to the axis beside the face ({pairs} stems).</source>
        <translation>Probefläche {plot}: Die Entfernungen dieser Aufnahme sind um den halben BHD jedes Stammes länger als die der letzten, wie zur Achse gemessen neben zur Vorderseite ({pairs} Stämme).</translation>
    </message>
    <message>
        <source>Plot {plot}: this visit&apos;s distances are shorter than the last visit&apos;s by half the dbh of each stem, as if measured to the face beside the axis ({pairs} stems).</source>
        <translation>Probefläche {plot}: Die Entfernungen dieser Aufnahme sind um den halben BHD jedes Stammes kürzer als die der letzten, wie zur Vorderseite gemessen neben zur Achse ({pairs} Stämme).</translation>
    </message>
    <message>
        <source>Plot {plot}: this visit&apos;s distances are {percent:.1f} % longer than the last visit&apos;s ({pairs} stems).</source>
        <translation>Probefläche {plot}: Die Entfernungen dieser Aufnahme sind {percent:.1f} % länger als die der letzten ({pairs} Stämme).</translation>
    </message>
    <message>
        <source>Plot {plot}: this visit&apos;s distances are {percent:.1f} % shorter than the last visit&apos;s ({pairs} stems).</source>
        <translation>Probefläche {plot}: Die Entfernungen dieser Aufnahme sind {percent:.1f} % kürzer als die der letzten ({pairs} Stämme).</translation>
    </message>
    <message>
        <source>Plot {plot}: this visit&apos;s distances fit the last visit&apos;s when taken as feet beside metres ({pairs} stems).</source>
        <translation>Probefläche {plot}: Die Entfernungen dieser Aufnahme passen zu denen der letzten, wenn sie als Fuß neben Metern gelten ({pairs} Stämme).</translation>
    </message>
    <message>
        <source>Plot {plot}: this visit&apos;s distances fit the last visit&apos;s when taken as measured along the slope ({pairs} stems).</source>
        <translation>Probefläche {plot}: Die Entfernungen dieser Aufnahme passen zu denen der letzten, wenn sie als am Hang entlang gemessen gelten ({pairs} Stämme).</translation>
    </message>
    <message>
        <source>Plot {plot}: this visit&apos;s distances fit the last visit&apos;s when taken as metres beside feet ({pairs} stems).</source>
        <translation>Probefläche {plot}: Die Entfernungen dieser Aufnahme passen zu denen der letzten, wenn sie als Meter neben Fuß gelten ({pairs} Stämme).</translation>
    </message>
    <message>
        <source>Plot {plot}: this visit&apos;s distances fit the last visit&apos;s when those are taken as measured along the slope ({pairs} stems).</source>
        <translation>Probefläche {plot}: Die Entfernungen dieser Aufnahme passen zu denen der letzten, wenn jene als am Hang entlang gemessen gelten ({pairs} Stämme).</translation>
    </message>
    <message>
        <source>Plot {plot}: {beyond_360} of {azimuths} azimuths are above 360, though the azimuth unit is degree: they look like gon.</source>
        <translation>Probefläche {plot}: {beyond_360} von {azimuths} Azimuten liegen über 360, obwohl die Azimuteinheit Grad ist: Sie sehen nach Gon aus.</translation>
    </message>
    <message>
        <source>Plot {plot}: {copied} of {stems} stems carry azimuth and distance of the last visit to the last digit; they were not measured again.</source>
        <translation>Probefläche {plot}: {copied} von {stems} Stämmen tragen Azimut und Abstand der letzten Aufnahme bis auf die letzte Ziffer; sie wurden nicht neu gemessen.</translation>
    </message>
    <message>
        <source>Plot {plot}: {missing} of {stems} stems have no dbh (such as No. {number}); what depends on it is not known for them.</source>
        <translation>Probefläche {plot}: {missing} von {stems} Stämmen haben keinen BHD (etwa Nr. {number}); was von ihm abhängt, ist für sie nicht bekannt.</translation>
    </message>
    <message>
        <source>Plot {plot}: {records} records carry the number of another one of this visit (such as No. {number}): several stems of one tree without numbers of their own, or entered twice; all are counted.</source>
        <translation>Probefläche {plot}: {records} Einträge tragen die Nummer eines anderen dieser Aufnahme (etwa Nr. {number}): mehrere Stämme eines Baums ohne eigene Nummern oder doppelt eingegeben; alle werden gezählt.</translation>
    </message>
    <message>
        <source>Plot {plot}: {records} records say nothing that others under their numbers do not say (such as line {line} after line {other_line}): entered twice; all are counted.</source>
        <translation>Probefläche {plot}: {records} Datensätze sagen nichts, was nicht andere unter ihrer Nummer sagen (etwa Zeile {line} nach Zeile {other_line}): doppelt eingegeben; alle werden gezählt.</translation>
    </message>
    <message>
        <source>Plot {plot}: {stems} diameters were measured at another height than on the last visit, such as at {height_m:g} after {last_height_m:g}; what they changed by is no growth.</source>
        <translation>Probefläche {plot}: {stems} Durchmesser wurden in anderer Höhe gemessen als bei der letzten Aufnahme, etwa bei {height_m:g} nach {last_height_m:g}; ihre Änderung ist kein Zuwachs.</translation>
    </message>
    <message>
        <source>Plots</source>
        <translation>Probeflächen</translation>
    </message>
    <message>
        <source>Plots at the stand edge are corrected by %1. Nothing else is corrected for it.</source>
        <translation>Probeflächen am Bestandesrand werden korrigiert durch %1. Sonst wird dafür nichts korrigiert.</translation>
    </message>
    <message>
        <source>Plots at the stand edge are not corrected: stems inside the stand weigh as they are.</source>
        <translation>Probeflächen am Bestandesrand werden nicht korrigiert: Stämme im Bestand zählen, wie sie sind.</translation>
    </message>
    <message>
        <source>Plots in the order of plot_centres.gpx, those without coordinates last:</source>
        <translation>Probeflächen in der Reihenfolge von plot_centres.gpx, die ohne Koordinaten zuletzt:</translation>
    </message>
    <message>
        <source>Plots measured both times, paired: growth of survivors at their first weight, ingrowth and ongrowth (Martin 1982, Forest Science 28: 110-114, from memory), mortality, removals; the parts add up to the difference.</source>
        <translation>Beide Male gemessene Probeflächen, gepaart: Zuwachs der Überlebenden mit ihrem ersten Gewicht, Einwuchs und Hineinwachsen in den eigenen Kreis (Martin 1982, Forest Science 28: 110-114, aus dem Gedächtnis), Mortalität, Entnahme; die Teile ergeben zusammen den Unterschied.</translation>
    </message>
    <message>
        <source>Printed %1.</source>
        <translation>Gedruckt am %1.</translation>
    </message>
    <message>
        <source>Records that differ were left out, as you said.</source>
        <translation>Abweichende Datensätze wurden weggelassen, wie gewünscht.</translation>
    </message>
    <message>
        <source>Remark</source>
        <translation>Bemerkung</translation>
    </message>
    <message>
        <source>Report on %1</source>
        <translation>Bericht über %1</translation>
    </message>
    <message>
        <source>Report on a survey of sample plots</source>
        <translation>Bericht über eine Inventur mit Probeflächen</translation>
    </message>
    <message>
        <source>Safety first: look out for storm-damaged and dead trees, hanging branches, steep or wet ground and weather; do not work alone, and say where you are and when you will be back; never look into the beam of a laser nor point it at anybody. The rules of your employer and of the place come before this packet. Maps and coordinates are no legal survey.</source>
        <translation>Sicherheit zuerst: auf sturmgeschädigte und tote Bäume, hängende Äste, steilen oder nassen Boden und das Wetter achten; nicht allein arbeiten und sagen, wo man ist und wann man zurück sein wird; nie in den Strahl eines Lasers blicken und ihn auf niemanden richten. Die Regeln Ihres Arbeitgebers und des Ortes gehen diesem Feldpaket vor. Karten und Koordinaten sind keine amtliche Vermessung.</translation>
    </message>
    <message>
        <source>Second-order values need all stems inside the window, each with a position.</source>
        <translation>Werte zweiter Ordnung brauchen alle Stämme innerhalb des Fensters, jeden mit einer Lage.</translation>
    </message>
    <message>
        <source>Settings</source>
        <translation>Einstellungen</translation>
    </message>
    <message>
        <source>Severity</source>
        <translation>Schwere</translation>
    </message>
    <message>
        <source>Somebody else added to %1 meanwhile; nothing was stored. Try again.</source>
        <translation>Inzwischen hat jemand anders zu %1 hinzugefügt; nichts wurde gespeichert. Noch einmal versuchen.</translation>
    </message>
    <message>
        <source>Somebody else took the same into %1 meanwhile; nothing was stored.</source>
        <translation>Jemand anders hat dasselbe inzwischen in %1 geholt; nichts wurde gespeichert.</translation>
    </message>
    <message>
        <source>Spatial structure</source>
        <translation>Räumliche Struktur</translation>
    </message>
    <message>
        <source>Species</source>
        <translation>Baumart</translation>
    </message>
    <message>
        <source>Standard deviation</source>
        <translation>Standardabweichung</translation>
    </message>
    <message>
        <source>Standard deviation by the median</source>
        <translation>Standardabweichung über den Median</translation>
    </message>
    <message>
        <source>Standard error</source>
        <translation>Standardfehler</translation>
    </message>
    <message>
        <source>Stems in</source>
        <translation>Stämme drinnen</translation>
    </message>
    <message>
        <source>Stems were measured a second time. Blind looks, in which the crew did not know the former values, tell how well the survey was measured; a crew that sees the former values agrees with them too easily. Bias is the mean of again minus recorded; both crews have a share in bias and standard deviation. In brackets the 95 % intervals.</source>
        <translation>Stämme wurden ein zweites Mal gemessen. Blinde Nachmessungen, bei denen der Trupp die früheren Werte nicht kannte, zeigen, wie gut die Inventur gemessen wurde; ein Trupp, der die früheren Werte sieht, stimmt mit ihnen zu leicht überein. Die systematische Abweichung ist das Mittel von nachgemessen minus aufgenommen; an ihr und an der Standardabweichung haben beide Trupps ihren Anteil. In Klammern die 95-%-Intervalle.</translation>
    </message>
    <message>
        <source>Stems/ha</source>
        <translation>Stämme/ha</translation>
    </message>
    <message>
        <source>Storing the packet</source>
        <translation>Das Feldpaket wird gespeichert</translation>
    </message>
    <message>
        <source>Strata, each as a simple random sample of its own</source>
        <translation>Straten, jedes als eigene einfache Zufallsstichprobe</translation>
    </message>
    <message>
        <source>Stratification needs the area of every stratum, each a positive number.</source>
        <translation>Stratifizierung braucht die Fläche jedes Stratums, jeweils eine positive Zahl.</translation>
    </message>
    <message>
        <source>Stratum</source>
        <translation>Stratum</translation>
    </message>
    <message>
        <source>Stratum %1</source>
        <translation>Stratum %1</translation>
    </message>
    <message>
        <source>Tahoe forest-health plot protocol, version 1.0, draft of 2026, sections 4.1 and 4.2: azimuth 2°, distance 0.1 ft, dbh 0.1 in for each 20 in</source>
        <translation>Tahoe forest-health plot protocol, Version 1.0, Entwurf von 2026, Abschnitte 4.1 und 4.2: Azimut 2°, Entfernung 0,1 ft, BHD 0,1 in je 20 in</translation>
    </message>
    <message>
        <source>The %1 half of the stems is spread: fewer of its own than by chance within a radius of %2 m</source>
        <translation>Die %1 Hälfte der Stämme ist verteilt: weniger eigene als bei Zufall im Umkreis von %2 m</translation>
    </message>
    <message>
        <source>The %1 half of the stems stands in groups: more of its own than by chance within a radius of %2 m</source>
        <translation>Die %1 Hälfte der Stämme steht in Gruppen: mehr eigene als bei Zufall im Umkreis von %2 m</translation>
    </message>
    <message>
        <source>The budget of %1 hours must not be below zero.</source>
        <translation>Das Zeitbudget von %1 Stunden darf nicht unter null liegen.</translation>
    </message>
    <message>
        <source>The circle of %1 m at %2 lies wholly outside the stand.</source>
        <translation>Der Kreis von %1 m bei %2 liegt ganz außerhalb des Bestands.</translation>
    </message>
    <message>
        <source>The competition by the four nearest stems</source>
        <translation>Die Konkurrenz durch die vier nächsten Stämme</translation>
    </message>
    <message>
        <source>The coordinate system of easting and northing is not known, so {plots} plots are drawn around their own centres: choose it under Settings in the window, or give crs in the settings file.</source>
        <translation>Das Koordinatensystem von Ostwert und Nordwert ist nicht bekannt, darum werden {plots} Probeflächen um ihren eigenen Mittelpunkt gezeichnet: im Fenster unter Einstellungen wählen oder crs in der Einstellungsdatei angeben.</translation>
    </message>
    <message>
        <source>The edge correction %1 is not known; say isotropic, translation or border.</source>
        <translation>Die Randkorrektur %1 ist nicht bekannt; isotropic, translation oder border angeben.</translation>
    </message>
    <message>
        <source>The edge correction %1 is not known; say kaplan_meier, hanisch or none.</source>
        <translation>Die Randkorrektur %1 ist nicht bekannt; kaplan_meier, hanisch oder none angeben.</translation>
    </message>
    <message>
        <source>The finding has no proposal %1: %2.</source>
        <translation>Der Befund hat keinen Vorschlag %1: %2.</translation>
    </message>
    <message>
        <source>The finding is about no single stem, so no value of it can be changed; say keep or recheck.</source>
        <translation>Der Befund betrifft keinen einzelnen Stamm, darum kann kein Wert geändert werden; keep oder recheck angeben.</translation>
    </message>
    <message>
        <source>The finding is about no single value, so none can be given; say keep or recheck.</source>
        <translation>Der Befund betrifft keinen einzelnen Wert, darum kann keiner angegeben werden; keep oder recheck angeben.</translation>
    </message>
    <message>
        <source>The headings %1 %2. Their columns are kept, but not interpreted; if one is a field, say which one under Columns of the upload in the window, or with --map FIELD=HEADING.</source>
        <translation>Die Überschriften %1 %2. Ihre Spalten bleiben erhalten, werden aber nicht gedeutet; wenn eine ein Feld ist, angeben, welches: unter Spalten der Aufnahmedaten im Fenster oder mit --map FIELD=HEADING.</translation>
    </message>
    <message>
        <source>The limiting distance does not fit these records: {beyond} of {stems} stems stand beyond it, in {plots_beyond} of {plots} plots and visits. Set the radius or design that was used; nineteen of twenty stems stand within {within_m:.1f} m.</source>
        <translation>Der Grenzabstand passt nicht zu diesen Einträgen: {beyond} von {stems} Stämmen stehen jenseits davon, auf {plots_beyond} von {plots} Probeflächen und Aufnahmen. Stellen Sie den verwendeten Radius oder das verwendete Verfahren ein; neunzehn von zwanzig Stämmen stehen innerhalb von {within_m:.1f} m.</translation>
    </message>
    <message>
        <source>The mean difference in dbh to the four nearest stems</source>
        <translation>Der mittlere Unterschied im BHD zu den vier nächsten Stämmen</translation>
    </message>
    <message>
        <source>The packet would have %1 rows; name fewer plots, or give --budget-hours.</source>
        <translation>Das Feldpaket hätte %1 Zeilen; weniger Probeflächen nennen oder --budget-hours angeben.</translation>
    </message>
    <message>
        <source>The same by figures that a single slip hardly moves: the median of the differences, and 1.4826 times the median of their absolute deviations from it, which is the standard deviation where they are normally distributed (Hampel 1974). Gross is a difference beyond the tolerance that does not belong to the others by the generalized extreme studentized deviate (Rosner 1983), at a risk of 0.01; no figure leaves it out unless it says so.</source>
        <translation>Dasselbe mit Zahlen, die ein einzelnes Versehen kaum verschiebt: der Median der Differenzen und 1,4826 mal der Median ihrer absoluten Abweichungen davon, was bei normal verteilten Differenzen die Standardabweichung ist (Hampel 1974). Grob ist eine Differenz jenseits der Toleranz, die nach dem verallgemeinerten Ausreißertest mit studentisierten Abweichungen (Rosner 1983) nicht zu den anderen gehört, bei einem Risiko von 0,01; keine Zahl lässt sie weg, wenn sie es nicht sagt.</translation>
    </message>
    <message>
        <source>The share of blind checks is %1, but must lie between 0 and 1.</source>
        <translation>Der Anteil der Blindprüfungen ist %1, muss aber zwischen 0 und 1 liegen.</translation>
    </message>
    <message>
        <source>The share of blind plots is %1, but must lie between 0 and 1.</source>
        <translation>Der Anteil blinder Probeflächen ist %1, muss aber zwischen 0 und 1 liegen.</translation>
    </message>
    <message>
        <source>The share of other species among the four nearest stems</source>
        <translation>Der Anteil anderer Baumarten unter den vier nächsten Stämmen</translation>
    </message>
    <message>
        <source>The share of thinner stems among the four nearest</source>
        <translation>Der Anteil dünnerer Stämme unter den vier nächsten</translation>
    </message>
    <message>
        <source>The stand edge cannot be used: %1.</source>
        <translation>Der Bestandesrand kann nicht verwendet werden: %1.</translation>
    </message>
    <message>
        <source>The survey file cannot take another column: %1. Leave out columns that nobody needs, or begin a new survey file.</source>
        <translation>Die Inventurdatei kann keine weitere Spalte aufnehmen: %1. Spalten weglassen, die niemand braucht, oder eine neue Inventurdatei beginnen.</translation>
    </message>
    <message>
        <source>The survey file has no finding %1; stemmap check lists the findings with their ids.</source>
        <translation>Die Inventurdatei hat keinen Befund %1; stemmap check nennt die Befunde mit ihren Kennungen.</translation>
    </message>
    <message>
        <source>The survey per hectare</source>
        <translation>Die Inventur je Hektar</translation>
    </message>
    <message>
        <source>The thicker half of the stems</source>
        <translation>Die dickere Hälfte der Stämme</translation>
    </message>
    <message>
        <source>The thinner half of the stems</source>
        <translation>Die dünnere Hälfte der Stämme</translation>
    </message>
    <message>
        <source>The uniform angle index</source>
        <translation>Das Winkelmaß</translation>
    </message>
    <message>
        <source>The upload differs from what the survey file has of the same plots and visits: %1 (plots %2).</source>
        <translation>Die Aufnahmedaten weichen von dem ab, was die Inventurdatei von denselben Probeflächen und Aufnahmen hat: %1 (Probeflächen %2).</translation>
    </message>
    <message>
        <source>The values are those of the records as they were checked, with the decisions made so far; maps and coordinates are no legal survey. Whoever goes out to measure again minds weather, deadwood and slopes; the local rules of safety come before anything said here.</source>
        <translation>Die Werte sind die der geprüften Datensätze, mit den bisher getroffenen Entscheidungen; Karten und Koordinaten sind keine amtliche Vermessung. Wer zum Nachmessen hinausgeht, achtet auf Wetter, Totholz und Hänge; die örtlichen Sicherheitsregeln gehen allem vor, was hier steht.</translation>
    </message>
    <message>
        <source>The values below hold the records as they are now, with these doubts.</source>
        <translation>Die Werte unten beruhen auf den Datensätzen, wie sie jetzt sind, mit diesen Zweifeln.</translation>
    </message>
    <message>
        <source>There is a file %1 already; name another one.</source>
        <translation>Es gibt schon eine Datei %1; eine andere nennen.</translation>
    </message>
    <message>
        <source>There is no survey file %1; check its name, or make one with stemmap add.</source>
        <translation>Es gibt keine Inventurdatei %1; den Namen prüfen oder eine mit stemmap add anlegen.</translation>
    </message>
    <message>
        <source>There is nothing to redo: nothing was undone since the last decision.</source>
        <translation>Es gibt nichts wiederherzustellen: Seit der letzten Entscheidung wurde nichts zurückgenommen.</translation>
    </message>
    <message>
        <source>There is nothing to undo: no decision holds.</source>
        <translation>Es gibt nichts zurückzunehmen: Keine Entscheidung gilt.</translation>
    </message>
    <message>
        <source>Thick and thin stems</source>
        <translation>Dicke und dünne Stämme</translation>
    </message>
    <message>
        <source>Thick and thin stems keep apart: fewer of the one around the other than by chance within a radius of %1 m</source>
        <translation>Dicke und dünne Stämme meiden sich: weniger der einen um die anderen als bei Zufall im Umkreis von %1 m</translation>
    </message>
    <message>
        <source>Thick and thin stems stand together: more of the one around the other than by chance within a radius of %1 m</source>
        <translation>Dicke und dünne Stämme stehen zusammen: mehr der einen um die anderen als bei Zufall im Umkreis von %1 m</translation>
    </message>
    <message>
        <source>Thickness of neighbours: mark correlation of dbh</source>
        <translation>Dicke der Nachbarn: Markenkorrelation des BHD</translation>
    </message>
    <message>
        <source>This entry could not be read from the damaged file.</source>
        <translation>Dieser Eintrag war in der beschädigten Datei nicht zu lesen.</translation>
    </message>
    <message>
        <source>Tolerances: %1.</source>
        <translation>Toleranzen: %1.</translation>
    </message>
    <message>
        <source>Too few stems to judge how they lie about the centre; %1.</source>
        <translation>Zu wenige Stämme, um zu beurteilen, wie sie um den Mittelpunkt liegen; %1.</translation>
    </message>
    <message>
        <source>Too few stems to judge how they lie from the centre outwards; %1.</source>
        <translation>Zu wenige Stämme, um zu beurteilen, wie sie vom Mittelpunkt nach außen liegen; %1.</translation>
    </message>
    <message>
        <source>Too few stems to tell of a pattern</source>
        <translation>Zu wenige Stämme, um von einem Muster zu sprechen</translation>
    </message>
    <message>
        <source>Totals stand in %1; skipped.</source>
        <translation>Summen stehen in %1; übergangen.</translation>
    </message>
    <message>
        <source>Two species: %1 and %2</source>
        <translation>Zwei Baumarten: %1 und %2</translation>
    </message>
    <message>
        <source>US Forest Service, Forest Inventory and Analysis National Core Field Guide, volume I, tree data: azimuth 10°, dbh 0.1 in for each 20 in, distance 1 ft (0.2 ft within a foot of the plot&apos;s limit, which is not looked at here); from memory</source>
        <translation>US Forest Service, Forest Inventory and Analysis National Core Field Guide, Band I, Baumdaten: Azimut 10°, BHD 0,1 in je 20 in, Entfernung 1 ft (0,2 ft bis einen Fuß vom Rand der Probefläche, was hier nicht betrachtet wird); aus dem Gedächtnis</translation>
    </message>
    <message>
        <source>Uniform angle (Gadow, Hui &amp; Albert 1998, Centralblatt für das gesamte Forstwesen 115: 1-10), mingling (Gadow 1993, Forst und Holz 48: 602-606) and differentiation 1 - thinner / thicker dbh (Füldner 1995, Strukturbeschreibung von Buchen-Edellaubholz-Mischwäldern; these three from memory), share of thinner neighbours, competition Σ (dbh of neighbour / own dbh) / distance (Hegyi 1974, in Fries, Growth models for tree and stand simulation, 74-90); only stems whose fourth neighbour is nearer than the edge.</source>
        <translation>Winkelmaß (Gadow, Hui &amp; Albert 1998, Centralblatt für das gesamte Forstwesen 115: 1-10), Durchmischung (Gadow 1993, Forst und Holz 48: 602-606) und Differenzierung 1 - dünnerer / dickerer BHD (Füldner 1995, Strukturbeschreibung von Buchen-Edellaubholz-Mischwäldern; diese drei aus dem Gedächtnis), Anteil dünnerer Nachbarn, Konkurrenz Σ (BHD des Nachbarn / eigener BHD) / Abstand (Hegyi 1974, in Fries, Growth models for tree and stand simulation, 74-90); nur Stämme, deren vierter Nachbar näher ist als der Rand.</translation>
    </message>
    <message>
        <source>Value</source>
        <translation>Wert</translation>
    </message>
    <message>
        <source>Visit</source>
        <translation>Aufnahme</translation>
    </message>
    <message>
        <source>Visits of %1</source>
        <translation>Aufnahmen von %1</translation>
    </message>
    <message>
        <source>What comes back is taken in by: stemmap remeasured %1 fill_in.xlsx</source>
        <translation>Was zurückkommt, wird eingelesen mit: stemmap remeasured %1 fill_in.xlsx</translation>
    </message>
    <message>
        <source>What the error is made of and what would mend it</source>
        <translation>Woraus der Fehler besteht und was ihn mindern würde</translation>
    </message>
    <message>
        <source>What was said of how the survey was measured; all else holds as the handbook says.</source>
        <translation>Was darüber gesagt wurde, wie gemessen wurde; alles andere gilt, wie es das Handbuch sagt.</translation>
    </message>
    <message>
        <source>When the mark of a centre is lost: the sheet of a cold plot names three stems around it, with the direction to the centre and the level distance from the middle of each. Lay them off; where the three meet is the centre. If they miss each other by more than half a metre, one stem is not the one that is meant: try another. On a blind plot no stem is told; if you do not find the centre, write that under remark and go on, do not guess it.</source>
        <translation>Wenn die Marke eines Mittelpunkts verloren ist: das Blatt einer nicht blinden Probefläche nennt drei Stämme ringsum, mit der Richtung zum Mittelpunkt und der waagerechten Entfernung von der Mitte jedes Stammes. Diese abtragen; wo sich die drei treffen, ist der Mittelpunkt. Verfehlen sie sich um mehr als einen halben Meter, ist ein Stamm nicht der gemeinte: einen anderen versuchen. Auf einer blinden Probefläche ist kein Stamm genannt; wer den Mittelpunkt nicht findet, schreibt das unter remark und geht weiter, ohne ihn zu raten.</translation>
    </message>
    <message>
        <source>Within tolerance</source>
        <translation>Innerhalb der Toleranz</translation>
    </message>
    <message>
        <source>Work of %1</source>
        <translation>Arbeit vom %1</translation>
    </message>
    <message>
        <source>Write into fill_in.xlsx or fill_in.csv, whichever suits you; one of them is enough. Decimal point or comma, and rows in any order, are all right. Leave packet and row as they are: by them each row is known again.</source>
        <translation>In fill_in.xlsx oder fill_in.csv schreiben, wie es passt; eine von beiden genügt. Dezimalpunkt oder Komma und jede Reihenfolge der Zeilen sind recht. packet und row stehen lassen: daran wird jede Zeile wiedererkannt.</translation>
    </message>
    <message>
        <source>Writing layers</source>
        <translation>Layer werden geschrieben</translation>
    </message>
    <message>
        <source>Writing the table to fill in</source>
        <translation>Die Tabelle zum Ausfüllen wird geschrieben</translation>
    </message>
    <message>
        <source>[sample] strata: each stratum must have its own name.</source>
        <translation>[sample] strata: Jedes Stratum muss einen eigenen Namen haben.</translation>
    </message>
    <message>
        <source>[sample] strata: give each stratum its area_ha, or each the points of the first sample.</source>
        <translation>[sample] strata: jedem Stratum area_ha geben oder jedem die Punkte der ersten Stichprobe.</translation>
    </message>
    <message>
        <source>a Parquet file</source>
        <translation>eine Parquet-Datei</translation>
    </message>
    <message>
        <source>a check stopped with an internal fault</source>
        <translation>eine Prüfung brach mit einem inneren Fehler ab</translation>
    </message>
    <message>
        <source>a circle of the design lies apart from the centre, and a stand edge cuts the plot; that is not corrected</source>
        <translation>ein Kreis des Verfahrens liegt abseits des Mittelpunkts, und ein Bestandesrand schneidet die Probefläche; das wird nicht korrigiert</translation>
    </message>
    <message>
        <source>a stratum has no plot</source>
        <translation>ein Stratum hat keine Probefläche</translation>
    </message>
    <message>
        <source>agree</source>
        <translation>stimmen überein</translation>
    </message>
    <message>
        <source>all</source>
        <translation>alle</translation>
    </message>
    <message>
        <source>along the slope</source>
        <translation>schräg</translation>
    </message>
    <message>
        <source>an angle count has no circle that could be taken in part; take another correction</source>
        <translation>eine Winkelzählprobe hat keinen Kreis, der zum Teil genommen werden könnte; eine andere Korrektur wählen</translation>
    </message>
    <message>
        <source>an old Excel or Word file, or one with a password</source>
        <translation>eine alte Excel- oder Word-Datei oder eine mit Passwort</translation>
    </message>
    <message>
        <source>angle count</source>
        <translation>Winkelzählprobe</translation>
    </message>
    <message>
        <source>another column names the visits, so it is kept beside them</source>
        <translation>eine andere Spalte nennt die Aufnahmen, darum bleibt sie daneben erhalten</translation>
    </message>
    <message>
        <source>anything else</source>
        <translation>alles andere</translation>
    </message>
    <message>
        <source>apart m</source>
        <translation>Entfernung m</translation>
    </message>
    <message>
        <source>apart percent</source>
        <translation>Unterschied %</translation>
    </message>
    <message>
        <source>are no fields of a table of %1</source>
        <translation>sind keine Felder einer Tabelle von %1</translation>
    </message>
    <message>
        <source>are not known</source>
        <translation>sind nicht bekannt</translation>
    </message>
    <message>
        <source>are not known; near them: %1</source>
        <translation>sind nicht bekannt; ähnlich: %1</translation>
    </message>
    <message>
        <source>as recorded</source>
        <translation>wie aufgenommen</translation>
    </message>
    <message>
        <source>aspect</source>
        <translation>Exposition</translation>
    </message>
    <message>
        <source>assumed</source>
        <translation>angenommen</translation>
    </message>
    <message>
        <source>at {distance_m:.2f} m it lies beyond the limiting distance of {limit_m:.2f} m</source>
        <translation>mit {distance_m:.2f} m liegt der Stamm jenseits des Grenzabstands von {limit_m:.2f} m</translation>
    </message>
    <message>
        <source>at {distance_m:.2f} m it stands farther out than the stems of this survey do</source>
        <translation>mit {distance_m:.2f} m steht er weiter außen als die Stämme dieser Inventur</translation>
    </message>
    <message>
        <source>at {distance_m:.2f} m its dbh of {dbh_cm:.1f} cm, close to a class limit, decides</source>
        <translation>bei {distance_m:.2f} m entscheidet sein BHD von {dbh_cm:.1f} cm, nahe einer Klassengrenze</translation>
    </message>
    <message>
        <source>auxiliary</source>
        <translation>Hilfswert</translation>
    </message>
    <message>
        <source>auxiliary_mean and auxiliary_points belong together, and only one of them was said</source>
        <translation>auxiliary_mean und auxiliary_points gehören zusammen, und nur eines davon wurde gesagt</translation>
    </message>
    <message>
        <source>azimuth</source>
        <translation>Azimut</translation>
    </message>
    <message>
        <source>azimuth factor</source>
        <translation>Faktor der Azimute</translation>
    </message>
    <message>
        <source>azimuth outside circle</source>
        <translation>Azimut außerhalb des Vollkreises</translation>
    </message>
    <message>
        <source>azimuth unit</source>
        <translation>Azimuteinheit</translation>
    </message>
    <message>
        <source>azimuth unit doubtful</source>
        <translation>Azimuteinheit zweifelhaft</translation>
    </message>
    <message>
        <source>azimuths</source>
        <translation>Azimute</translation>
    </message>
    <message>
        <source>azimuths decide at the stand edge alone, and that is not weighed here</source>
        <translation>Azimute entscheiden nur am Bestandesrand, und das wird hier nicht abgewogen</translation>
    </message>
    <message>
        <source>azimuths do not decide which stems are in</source>
        <translation>Azimute entscheiden nicht, welche Stämme drinnen sind</translation>
    </message>
    <message>
        <source>back bearing</source>
        <translation>Rückazimut</translation>
    </message>
    <message>
        <source>basal area</source>
        <translation>Grundfläche</translation>
    </message>
    <message>
        <source>basal area m²/ha</source>
        <translation>Grundfläche m²/ha</translation>
    </message>
    <message>
        <source>before</source>
        <translation>davor</translation>
    </message>
    <message>
        <source>below smallest dbh</source>
        <translation>unter kleinstem BHD</translation>
    </message>
    <message>
        <source>beyond</source>
        <translation>jenseits</translation>
    </message>
    <message>
        <source>beyond m</source>
        <translation>jenseits m</translation>
    </message>
    <message>
        <source>blind</source>
        <translation>blind</translation>
    </message>
    <message>
        <source>borderline</source>
        <translation>Grenzbaum</translation>
    </message>
    <message>
        <source>breast height judged</source>
        <translation>Brusthöhe geschätzt</translation>
    </message>
    <message>
        <source>breast height m</source>
        <translation>Brusthöhe m</translation>
    </message>
    <message>
        <source>by</source>
        <translation>nach</translation>
    </message>
    <message>
        <source>by %</source>
        <translation>um %</translation>
    </message>
    <message>
        <source>cases</source>
        <translation>Fälle</translation>
    </message>
    <message>
        <source>cells are written in an unusual way</source>
        <translation>Zellen sind ungewöhnlich geschrieben</translation>
    </message>
    <message>
        <source>centre moved</source>
        <translation>Mittelpunkt verschoben</translation>
    </message>
    <message>
        <source>centre unknown</source>
        <translation>Mittelpunkt unbekannt</translation>
    </message>
    <message>
        <source>centres disagree</source>
        <translation>Mittelpunkte widersprechen sich</translation>
    </message>
    <message>
        <source>change cm</source>
        <translation>Änderung cm</translation>
    </message>
    <message>
        <source>change of what is missed if everything hidden is seen from there: at most this</source>
        <translation>Änderung des Übersehenen, wenn von dort alles Verdeckte gesehen wird: höchstens so viel</translation>
    </message>
    <message>
        <source>changed plot row</source>
        <translation>geänderte Zeile einer Probefläche</translation>
    </message>
    <message>
        <source>changed plot rows</source>
        <translation>geänderte Zeilen von Probeflächen</translation>
    </message>
    <message>
        <source>changed stem</source>
        <translation>geänderter Stamm</translation>
    </message>
    <message>
        <source>changed stems</source>
        <translation>geänderte Stämme</translation>
    </message>
    <message>
        <source>check failed</source>
        <translation>Prüfung fehlgeschlagen</translation>
    </message>
    <message>
        <source>circle does not fit</source>
        <translation>Kreis passt nicht</translation>
    </message>
    <message>
        <source>class change probability</source>
        <translation>Wahrscheinlichkeit der anderen Klasse</translation>
    </message>
    <message>
        <source>class limit cm</source>
        <translation>Klassengrenze cm</translation>
    </message>
    <message>
        <source>closer together than by chance</source>
        <translation>näher beisammen als bei Zufall</translation>
    </message>
    <message>
        <source>cluster</source>
        <translation>Trakt</translation>
    </message>
    <message>
        <source>cluster to which the plot belongs</source>
        <translation>Trakt, zu dem die Probefläche gehört</translation>
    </message>
    <message>
        <source>clusters</source>
        <translation>Trakte</translation>
    </message>
    <message>
        <source>clusters, %1, ratio of means</source>
        <translation>Trakte, %1, Quotient der Mittel</translation>
    </message>
    <message>
        <source>cm</source>
        <translation>cm</translation>
    </message>
    <message>
        <source>cold</source>
        <translation>mit früheren Werten</translation>
    </message>
    <message>
        <source>column %1</source>
        <translation>Spalte %1</translation>
    </message>
    <message>
        <source>column not placed</source>
        <translation>Spalte nicht zugeordnet</translation>
    </message>
    <message>
        <source>column twice</source>
        <translation>Spalte doppelt</translation>
    </message>
    <message>
        <source>column unnamed</source>
        <translation>Spalte ohne Namen</translation>
    </message>
    <message>
        <source>comma</source>
        <translation>Komma</translation>
    </message>
    <message>
        <source>concentric</source>
        <translation>konzentrisch</translation>
    </message>
    <message>
        <source>concentric circles</source>
        <translation>konzentrische Kreise</translation>
    </message>
    <message>
        <source>coordinate system of easting and northing</source>
        <translation>Koordinatensystem von Ostwert und Nordwert</translation>
    </message>
    <message>
        <source>coordinates copied</source>
        <translation>Koordinaten übernommen</translation>
    </message>
    <message>
        <source>copied</source>
        <translation>übernommen</translation>
    </message>
    <message>
        <source>crew</source>
        <translation>Trupp</translation>
    </message>
    <message>
        <source>crosswise diameters disagree</source>
        <translation>gekreuzte Durchmesser widersprechen sich</translation>
    </message>
    <message>
        <source>crowd</source>
        <translation>Gedränge</translation>
    </message>
    <message>
        <source>crs</source>
        <translation>Koordinatensystem</translation>
    </message>
    <message>
        <source>date</source>
        <translation>Datum</translation>
    </message>
    <message>
        <source>date holds years</source>
        <translation>Datum enthält Jahre</translation>
    </message>
    <message>
        <source>date order assumed</source>
        <translation>Datumsfolge angenommen</translation>
    </message>
    <message>
        <source>date serial</source>
        <translation>Datum als Zahl</translation>
    </message>
    <message>
        <source>day</source>
        <translation>Tag</translation>
    </message>
    <message>
        <source>day of the measurement</source>
        <translation>Tag der Messung</translation>
    </message>
    <message>
        <source>dbh</source>
        <translation>BHD</translation>
    </message>
    <message>
        <source>dbh at class limit</source>
        <translation>BHD an Klassengrenze</translation>
    </message>
    <message>
        <source>dbh beyond instrument</source>
        <translation>BHD jenseits des Geräts</translation>
    </message>
    <message>
        <source>dbh change</source>
        <translation>BHD-Änderung</translation>
    </message>
    <message>
        <source>dbh cm</source>
        <translation>BHD cm</translation>
    </message>
    <message>
        <source>dbh cross</source>
        <translation>BHD über Kreuz</translation>
    </message>
    <message>
        <source>dbh diff.</source>
        <translation>BHD-Unt.</translation>
    </message>
    <message>
        <source>dbh missing</source>
        <translation>BHD fehlt</translation>
    </message>
    <message>
        <source>dbh mm</source>
        <translation>BHD mm</translation>
    </message>
    <message>
        <source>dbh, cm</source>
        <translation>BHD, cm</translation>
    </message>
    <message>
        <source>decimal mark</source>
        <translation>Dezimalzeichen</translation>
    </message>
    <message>
        <source>decimal mark ambiguous</source>
        <translation>Dezimalzeichen mehrdeutig</translation>
    </message>
    <message>
        <source>decimal marks mixed</source>
        <translation>Dezimalzeichen gemischt</translation>
    </message>
    <message>
        <source>decimal point</source>
        <translation>Dezimalzeichen</translation>
    </message>
    <message>
        <source>decimal points (%1) and decimal commas (%2) stand side by side; each cell was read by its own mark.</source>
        <translation>Punkte (%1) und Kommas (%2) stehen nebeneinander als Dezimalzeichen; jede Zelle wurde nach ihrem eigenen Zeichen gelesen.</translation>
    </message>
    <message>
        <source>declination</source>
        <translation>Missweisung</translation>
    </message>
    <message>
        <source>declination unknown</source>
        <translation>Missweisung unbekannt</translation>
    </message>
    <message>
        <source>degree</source>
        <translation>Grad</translation>
    </message>
    <message>
        <source>degrees</source>
        <translation>Grad</translation>
    </message>
    <message>
        <source>design missing</source>
        <translation>Verfahren fehlt</translation>
    </message>
    <message>
        <source>diameter at breast height</source>
        <translation>Brusthöhendurchmesser</translation>
    </message>
    <message>
        <source>diameter at breast height in millimetres</source>
        <translation>Brusthöhendurchmesser in Millimetern</translation>
    </message>
    <message>
        <source>diameter higher up the stem</source>
        <translation>Durchmesser weiter oben am Stamm</translation>
    </message>
    <message>
        <source>diameters</source>
        <translation>Durchmesser</translation>
    </message>
    <message>
        <source>difference</source>
        <translation>Unterschied</translation>
    </message>
    <message>
        <source>digit</source>
        <translation>Ziffer</translation>
    </message>
    <message>
        <source>digit added</source>
        <translation>Ziffer zu viel</translation>
    </message>
    <message>
        <source>digit doubled</source>
        <translation>Ziffer doppelt</translation>
    </message>
    <message>
        <source>digit missing</source>
        <translation>Ziffer fehlt</translation>
    </message>
    <message>
        <source>digits heaped</source>
        <translation>Ziffern gehäuft</translation>
    </message>
    <message>
        <source>direction from the plot centre</source>
        <translation>Richtung vom Mittelpunkt</translation>
    </message>
    <message>
        <source>direction in which the ground falls</source>
        <translation>Richtung, in die der Boden fällt</translation>
    </message>
    <message>
        <source>distance</source>
        <translation>Abstand</translation>
    </message>
    <message>
        <source>distance beyond instrument</source>
        <translation>Abstand jenseits des Geräts</translation>
    </message>
    <message>
        <source>distance factor</source>
        <translation>Faktor der Entfernungen</translation>
    </message>
    <message>
        <source>distance from the plot centre</source>
        <translation>Abstand vom Mittelpunkt</translation>
    </message>
    <message>
        <source>distance m</source>
        <translation>Abstand m</translation>
    </message>
    <message>
        <source>distance not positive</source>
        <translation>Abstand nicht positiv</translation>
    </message>
    <message>
        <source>distance r, m</source>
        <translation>Abstand r, m</translation>
    </message>
    <message>
        <source>distances scaled alike</source>
        <translation>Entfernungen gemeinsam länger oder kürzer</translation>
    </message>
    <message>
        <source>distances unlike last visit</source>
        <translation>Entfernungen anders als bei der letzten Aufnahme</translation>
    </message>
    <message>
        <source>doppelt erfasst</source>
        <translation>doppelt erfasst</translation>
    </message>
    <message>
        <source>double sampling for stratification</source>
        <translation>zweiphasige Stichprobe zur Stratifizierung</translation>
    </message>
    <message>
        <source>double sampling with regression on the auxiliary value</source>
        <translation>zweiphasige Stichprobe mit Regression auf den Hilfswert</translation>
    </message>
    <message>
        <source>doubt</source>
        <translation>Zweifel</translation>
    </message>
    <message>
        <source>easting</source>
        <translation>Ostwert</translation>
    </message>
    <message>
        <source>easting of the plot centre in its coordinate system</source>
        <translation>Ostwert des Mittelpunkts in seinem Koordinatensystem</translation>
    </message>
    <message>
        <source>edge</source>
        <translation>Rand</translation>
    </message>
    <message>
        <source>elevation</source>
        <translation>Höhe ü. M.</translation>
    </message>
    <message>
        <source>elevation of the plot centre</source>
        <translation>Höhe des Mittelpunkts</translation>
    </message>
    <message>
        <source>empty row for a new stem</source>
        <translation>leere Zeile für einen neuen Stamm</translation>
    </message>
    <message>
        <source>encoding assumed</source>
        <translation>Zeichensatz angenommen</translation>
    </message>
    <message>
        <source>entered twice</source>
        <translation>doppelt eingegeben</translation>
    </message>
    <message>
        <source>error</source>
        <translation>Fehler</translation>
    </message>
    <message>
        <source>exchanged</source>
        <translation>vertauscht</translation>
    </message>
    <message>
        <source>expected</source>
        <translation>erwartet</translation>
    </message>
    <message>
        <source>expected to be missed behind other stems: a bias, not in the sampling error</source>
        <translation>voraussichtlich hinter anderen Stämmen übersehen: eine Verzerrung, nicht im Stichprobenfehler enthalten</translation>
    </message>
    <message>
        <source>export it as CSV or GeoPackage</source>
        <translation>als CSV oder GeoPackage ausgeben</translation>
    </message>
    <message>
        <source>false</source>
        <translation>falsch</translation>
    </message>
    <message>
        <source>farther apart than by chance</source>
        <translation>weiter auseinander als bei Zufall</translation>
    </message>
    <message>
        <source>feet</source>
        <translation>Fuß</translation>
    </message>
    <message>
        <source>fewer than 10 stems are expected there</source>
        <translation>dort werden weniger als 10 Stämme erwartet</translation>
    </message>
    <message>
        <source>fewer than three plots</source>
        <translation>weniger als drei Probeflächen</translation>
    </message>
    <message>
        <source>fewer than two clusters</source>
        <translation>weniger als zwei Trakte</translation>
    </message>
    <message>
        <source>file</source>
        <translation>Datei</translation>
    </message>
    <message>
        <source>file twice</source>
        <translation>Datei doppelt</translation>
    </message>
    <message>
        <source>file unusable</source>
        <translation>Datei unbrauchbar</translation>
    </message>
    <message>
        <source>findings</source>
        <translation>Befunde</translation>
    </message>
    <message>
        <source>first cm</source>
        <translation>erster cm</translation>
    </message>
    <message>
        <source>fits nothing</source>
        <translation>passt zu nichts</translation>
    </message>
    <message>
        <source>for some stems it cannot be decided whether they are in (distance, dbh or slope is missing)</source>
        <translation>für einige Stämme ist nicht zu entscheiden, ob sie innerhalb sind (Abstand, BHD oder Hangneigung fehlt)</translation>
    </message>
    <message>
        <source>form quotient unlikely</source>
        <translation>Formquotient unwahrscheinlich</translation>
    </message>
    <message>
        <source>formula errors</source>
        <translation>Formelfehler</translation>
    </message>
    <message>
        <source>found</source>
        <translation>gefunden</translation>
    </message>
    <message>
        <source>found: yes when the stem stands or lies there; no when it is not there, and say under remark what you saw; new for a stem that no row names: write it into an empty row of its plot. An empty row may stay empty.</source>
        <translation>found: yes (ja), wenn der Stamm dort steht oder liegt; no (nein), wenn er nicht da ist, und unter remark, was zu sehen war; new (neu) für einen Stamm, den keine Zeile nennt: ihn in eine leere Zeile seiner Probefläche schreiben. Eine leere Zeile darf leer bleiben.</translation>
    </message>
    <message>
        <source>free</source>
        <translation>frei</translation>
    </message>
    <message>
        <source>free ground</source>
        <translation>der freie Platz</translation>
    </message>
    <message>
        <source>free text</source>
        <translation>freier Text</translation>
    </message>
    <message>
        <source>ft</source>
        <translation>ft</translation>
    </message>
    <message>
        <source>geometry beside columns</source>
        <translation>Geometrie neben Spalten</translation>
    </message>
    <message>
        <source>geometry missing</source>
        <translation>Geometrie fehlt</translation>
    </message>
    <message>
        <source>girth</source>
        <translation>Umfang</translation>
    </message>
    <message>
        <source>girth at breast height</source>
        <translation>Umfang in Brusthöhe</translation>
    </message>
    <message>
        <source>girth cm</source>
        <translation>Umfang cm</translation>
    </message>
    <message>
        <source>give the table it was made from</source>
        <translation>die Tabelle angeben, aus der sie entstand</translation>
    </message>
    <message>
        <source>give the table itself</source>
        <translation>die Tabelle selbst angeben</translation>
    </message>
    <message>
        <source>gon</source>
        <translation>Gon</translation>
    </message>
    <message>
        <source>gon and degree</source>
        <translation>Gon und Grad</translation>
    </message>
    <message>
        <source>gone</source>
        <translation>verschwunden</translation>
    </message>
    <message>
        <source>gons</source>
        <translation>Gon</translation>
    </message>
    <message>
        <source>grew</source>
        <translation>wuchs</translation>
    </message>
    <message>
        <source>grid</source>
        <translation>Gitter</translation>
    </message>
    <message>
        <source>grid azimuth, degrees</source>
        <translation>Gitterazimut, Grad</translation>
    </message>
    <message>
        <source>grown cm</source>
        <translation>Zuwachs cm</translation>
    </message>
    <message>
        <source>growth</source>
        <translation>Zuwachs</translation>
    </message>
    <message>
        <source>has a first line far too long for headings</source>
        <translation>hat eine erste Zeile, die für Überschriften viel zu lang ist</translation>
    </message>
    <message>
        <source>heading ambiguous</source>
        <translation>Überschrift mehrdeutig</translation>
    </message>
    <message>
        <source>heading unit contradicts</source>
        <translation>Einheit der Überschrift widerspricht</translation>
    </message>
    <message>
        <source>headings repeated</source>
        <translation>Überschriften wiederholt</translation>
    </message>
    <message>
        <source>headings unknown</source>
        <translation>Überschriften unbekannt</translation>
    </message>
    <message>
        <source>height</source>
        <translation>Höhe</translation>
    </message>
    <message>
        <source>height at which the diameter was measured</source>
        <translation>Höhe, in der der Durchmesser gemessen wurde</translation>
    </message>
    <message>
        <source>height m</source>
        <translation>Höhe m</translation>
    </message>
    <message>
        <source>height of the tree</source>
        <translation>Baumhöhe</translation>
    </message>
    <message>
        <source>height of the upper diameter</source>
        <translation>Höhe des oberen Durchmessers</translation>
    </message>
    <message>
        <source>height unlike dbh</source>
        <translation>Höhe passt nicht zum BHD</translation>
    </message>
    <message>
        <source>hidden percent</source>
        <translation>verdeckt %</translation>
    </message>
    <message>
        <source>hidden share</source>
        <translation>verdeckter Anteil</translation>
    </message>
    <message>
        <source>high</source>
        <translation>obere Grenze</translation>
    </message>
    <message>
        <source>high cm</source>
        <translation>obere Grenze cm</translation>
    </message>
    <message>
        <source>horizontal</source>
        <translation>waagerecht</translation>
    </message>
    <message>
        <source>impossible</source>
        <translation>unmöglich</translation>
    </message>
    <message>
        <source>in</source>
        <translation>innerhalb</translation>
    </message>
    <message>
        <source>inches</source>
        <translation>Zoll</translation>
    </message>
    <message>
        <source>ingrowth</source>
        <translation>Einwuchs</translation>
    </message>
    <message>
        <source>inside probability</source>
        <translation>Wahrscheinlichkeit innerhalb zu sein</translation>
    </message>
    <message>
        <source>instrument</source>
        <translation>Gerät</translation>
    </message>
    <message>
        <source>instrument used</source>
        <translation>benutztes Gerät</translation>
    </message>
    <message>
        <source>is empty: it has no line of text</source>
        <translation>ist leer: keine Zeile Text</translation>
    </message>
    <message>
        <source>is not a field of a table of %1</source>
        <translation>ist kein Feld einer Tabelle von %1</translation>
    </message>
    <message>
        <source>is not known</source>
        <translation>ist nicht bekannt</translation>
    </message>
    <message>
        <source>is not known; near it: %1</source>
        <translation>ist nicht bekannt; ähnlich: %1</translation>
    </message>
    <message>
        <source>it breaks the order of the numbers: {typed} stands between {before} and {after}</source>
        <translation>er bricht die Folge der Nummern: {typed} steht zwischen {before} und {after}</translation>
    </message>
    <message>
        <source>it cannot be opened; check the folder and your rights to it.</source>
        <translation>sie kann nicht geöffnet werden; den Ordner und die Rechte daran prüfen.</translation>
    </message>
    <message>
        <source>it cannot be written here; copy it to a folder of your own.</source>
        <translation>sie kann hier nicht beschrieben werden; in einen eigenen Ordner kopieren.</translation>
    </message>
    <message>
        <source>it fits %1</source>
        <translation>dazu passt %1</translation>
    </message>
    <message>
        <source>it has %1</source>
        <translation>er hat %1</translation>
    </message>
    <message>
        <source>it has no place on the map</source>
        <translation>er hat keinen Ort auf der Karte</translation>
    </message>
    <message>
        <source>it has none; say value=X, keep or recheck</source>
        <translation>er hat keinen; value=X, keep oder recheck angeben</translation>
    </message>
    <message>
        <source>it is known whether it is in</source>
        <translation>ist bekannt, ob er innerhalb ist</translation>
    </message>
    <message>
        <source>it is needed on three plots or more, and not the same on all of them</source>
        <translation>er wird auf drei oder mehr Probeflächen gebraucht und darf nicht überall gleich sein</translation>
    </message>
    <message>
        <source>it is not known whether it is in</source>
        <translation>es ist nicht bekannt, ob er innerhalb ist</translation>
    </message>
    <message>
        <source>it is not known whether the stand edge cuts the plot, for its centre is not known</source>
        <translation>ob der Bestandesrand die Probefläche schneidet, ist nicht bekannt, denn ihr Mittelpunkt ist nicht bekannt</translation>
    </message>
    <message>
        <source>it was used all the same</source>
        <translation>er wurde trotzdem benutzt</translation>
    </message>
    <message>
        <source>it would stand in No. {neighbour}</source>
        <translation>der Stamm stünde in Nr. {neighbour}</translation>
    </message>
    <message>
        <source>its basal area is not known</source>
        <translation>die Grundfläche ist nicht bekannt</translation>
    </message>
    <message>
        <source>its dbh changed by {grown_cm:+.1f} cm since the last visit</source>
        <translation>sein BHD änderte sich seit der letzten Aufnahme um {grown_cm:+.1f} cm</translation>
    </message>
    <message>
        <source>large </source>
        <translation>große </translation>
    </message>
    <message>
        <source>larger</source>
        <translation>größer</translation>
    </message>
    <message>
        <source>last</source>
        <translation>letzte</translation>
    </message>
    <message>
        <source>last dbh cm</source>
        <translation>letzter BHD cm</translation>
    </message>
    <message>
        <source>last digits</source>
        <translation>letzte Ziffern</translation>
    </message>
    <message>
        <source>last height m</source>
        <translation>letzte Höhe m</translation>
    </message>
    <message>
        <source>last visit</source>
        <translation>letzte Aufnahme</translation>
    </message>
    <message>
        <source>lat</source>
        <translation>Breite</translation>
    </message>
    <message>
        <source>latitude of the plot centre, WGS 84</source>
        <translation>Breite des Mittelpunkts, WGS 84</translation>
    </message>
    <message>
        <source>layer %1</source>
        <translation>Ebene %1</translation>
    </message>
    <message>
        <source>layer edited</source>
        <translation>Ebene bearbeitet</translation>
    </message>
    <message>
        <source>layers %1</source>
        <translation>Ebenen %1</translation>
    </message>
    <message>
        <source>level</source>
        <translation>waagerecht</translation>
    </message>
    <message>
        <source>limit</source>
        <translation>Grenze</translation>
    </message>
    <message>
        <source>limit m</source>
        <translation>Grenze m</translation>
    </message>
    <message>
        <source>limiting distance m</source>
        <translation>Grenzabstand m</translation>
    </message>
    <message>
        <source>line</source>
        <translation>Zeile</translation>
    </message>
    <message>
        <source>line %1</source>
        <translation>Zeile %1</translation>
    </message>
    <message>
        <source>line above</source>
        <translation>Zeile darüber</translation>
    </message>
    <message>
        <source>lines</source>
        <translation>Zeilen</translation>
    </message>
    <message>
        <source>lines %1%2</source>
        <translation>Zeilen %1%2</translation>
    </message>
    <message>
        <source>lines before headings</source>
        <translation>Zeilen vor den Überschriften</translation>
    </message>
    <message>
        <source>lines ragged</source>
        <translation>Zeilen ungleich lang</translation>
    </message>
    <message>
        <source>lines without stem</source>
        <translation>Zeilen ohne Stamm</translation>
    </message>
    <message>
        <source>living stems of %1 %2 and more in the outer circle</source>
        <translation>lebende Stämme ab %1 %2 im äußeren Kreis</translation>
    </message>
    <message>
        <source>living stems of %1 to %2 %3 in the outer circle</source>
        <translation>lebende Stämme von %1 bis %2 %3 im äußeren Kreis</translation>
    </message>
    <message>
        <source>living stems of the outer circle</source>
        <translation>lebende Stämme des äußeren Kreises</translation>
    </message>
    <message>
        <source>log likelihood gain</source>
        <translation>Gewinn der logarithmierten Likelihood</translation>
    </message>
    <message>
        <source>lon</source>
        <translation>Länge</translation>
    </message>
    <message>
        <source>longer than the instrument measures, which ends</source>
        <translation>länger, als das Gerät misst, das endet</translation>
    </message>
    <message>
        <source>longitude of the plot centre, WGS 84</source>
        <translation>Länge des Mittelpunkts, WGS 84</translation>
    </message>
    <message>
        <source>look</source>
        <translation>Blick</translation>
    </message>
    <message>
        <source>look from a second point for stems that others hide</source>
        <translation>von einem zweiten Punkt nach Stämmen sehen, die andere verdecken</translation>
    </message>
    <message>
        <source>low</source>
        <translation>untere Grenze</translation>
    </message>
    <message>
        <source>low cm</source>
        <translation>untere Grenze cm</translation>
    </message>
    <message>
        <source>magnetic</source>
        <translation>magnetisch</translation>
    </message>
    <message>
        <source>magnetic declination, east positive</source>
        <translation>Missweisung, Ost positiv</translation>
    </message>
    <message>
        <source>mapped heading missing</source>
        <translation>zugeordnete Überschrift fehlt</translation>
    </message>
    <message>
        <source>max dbh cm</source>
        <translation>größter BHD cm</translation>
    </message>
    <message>
        <source>meant</source>
        <translation>gemeint</translation>
    </message>
    <message>
        <source>measured</source>
        <translation>gemessen</translation>
    </message>
    <message>
        <source>measured again</source>
        <translation>nachgemessen</translation>
    </message>
    <message>
        <source>measured, empty, non-forest or not reached</source>
        <translation>aufgenommen, leer, Nichtwald oder nicht erreicht</translation>
    </message>
    <message>
        <source>measurement height</source>
        <translation>Messhöhe</translation>
    </message>
    <message>
        <source>measurement height changed</source>
        <translation>Messhöhe geändert</translation>
    </message>
    <message>
        <source>measurement height unusual</source>
        <translation>Messhöhe ungewöhnlich</translation>
    </message>
    <message>
        <source>measurement missing</source>
        <translation>Messung fehlt</translation>
    </message>
    <message>
        <source>metres</source>
        <translation>Metern</translation>
    </message>
    <message>
        <source>mils</source>
        <translation>Strich</translation>
    </message>
    <message>
        <source>mils, 6000 to the circle</source>
        <translation>Strich, 6000 im Kreis</translation>
    </message>
    <message>
        <source>mils, 6300 to the circle</source>
        <translation>Strich, 6300 im Kreis</translation>
    </message>
    <message>
        <source>mils, 6400 to the circle</source>
        <translation>Strich, 6400 im Kreis</translation>
    </message>
    <message>
        <source>mirrored</source>
        <translation>gespiegelt</translation>
    </message>
    <message>
        <source>missed high</source>
        <translation>übersehen höchstens</translation>
    </message>
    <message>
        <source>missed low</source>
        <translation>übersehen mindestens</translation>
    </message>
    <message>
        <source>missed percent</source>
        <translation>übersehen %</translation>
    </message>
    <message>
        <source>missed stems</source>
        <translation>übersehene Stämme</translation>
    </message>
    <message>
        <source>missing</source>
        <translation>fehlend</translation>
    </message>
    <message>
        <source>mistyped</source>
        <translation>vertippt</translation>
    </message>
    <message>
        <source>mm</source>
        <translation>mm</translation>
    </message>
    <message>
        <source>more than 5000 stems on one plot</source>
        <translation>mehr als 5000 Stämme auf einer Probefläche</translation>
    </message>
    <message>
        <source>more than 600 stems; comparing them with chance would take too long</source>
        <translation>mehr als 600 Stämme; der Vergleich mit dem Zufall würde zu lange dauern</translation>
    </message>
    <message>
        <source>more than half of the differences are the same</source>
        <translation>mehr als die Hälfte der Differenzen sind gleich</translation>
    </message>
    <message>
        <source>mortality</source>
        <translation>Mortalität</translation>
    </message>
    <message>
        <source>most</source>
        <translation>häufigste</translation>
    </message>
    <message>
        <source>must be above zero</source>
        <translation>muss größer als null sein</translation>
    </message>
    <message>
        <source>must not be below zero</source>
        <translation>darf nicht kleiner als null sein</translation>
    </message>
    <message>
        <source>name</source>
        <translation>Name</translation>
    </message>
    <message>
        <source>name or number of the sample plot</source>
        <translation>Name oder Nummer der Probefläche</translation>
    </message>
    <message>
        <source>named</source>
        <translation>genannt</translation>
    </message>
    <message>
        <source>neighbour</source>
        <translation>Nachbar</translation>
    </message>
    <message>
        <source>neighbouring key</source>
        <translation>Nachbartaste</translation>
    </message>
    <message>
        <source>neighbours are more alike in dbh than by chance</source>
        <translation>Nachbarn sind im BHD ähnlicher als bei Zufall</translation>
    </message>
    <message>
        <source>neighbours differ more in dbh than by chance</source>
        <translation>Nachbarn unterscheiden sich im BHD mehr als bei Zufall</translation>
    </message>
    <message>
        <source>net</source>
        <translation>netto</translation>
    </message>
    <message>
        <source>new stem</source>
        <translation>neuer Stamm</translation>
    </message>
    <message>
        <source>new stems</source>
        <translation>neue Stämme</translation>
    </message>
    <message>
        <source>new stems that came in because their own circle has grown to reach them</source>
        <translation>neue Stämme, die hereinkamen, weil ihr eigener Kreis gewachsen ist und sie erreicht</translation>
    </message>
    <message>
        <source>new stems where they would have been in already at the smallest dbh</source>
        <translation>neue Stämme dort, wo sie schon mit dem kleinsten BHD dabei gewesen wären</translation>
    </message>
    <message>
        <source>nicht erreicht</source>
        <translation>nicht erreicht</translation>
    </message>
    <message>
        <source>no diameter is finer than whole centimetres</source>
        <translation>kein Durchmesser ist feiner als ganze Zentimeter</translation>
    </message>
    <message>
        <source>no difference is shown</source>
        <translation>ein Unterschied zeigt sich nicht</translation>
    </message>
    <message>
        <source>no findings</source>
        <translation>keine Befunde</translation>
    </message>
    <message>
        <source>no order</source>
        <translation>keine Ordnung</translation>
    </message>
    <message>
        <source>no part of the circle lies inside the stand</source>
        <translation>kein Teil des Kreises liegt im Bestand</translation>
    </message>
    <message>
        <source>no plot has a value per hectare</source>
        <translation>keine Probefläche hat einen Hektarwert</translation>
    </message>
    <message>
        <source>no plot has enough stems under one inclusion rule</source>
        <translation>keine Probefläche hat genug Stämme unter einer Auswahlregel</translation>
    </message>
    <message>
        <source>no plot radius was given</source>
        <translation>es wurde kein Probeflächenradius angegeben</translation>
    </message>
    <message>
        <source>no plot with a known value</source>
        <translation>keine Probefläche mit bekanntem Wert</translation>
    </message>
    <message>
        <source>no record could be weighed against others</source>
        <translation>kein Datensatz ließ sich gegen andere abwägen</translation>
    </message>
    <message>
        <source>no stem has its four neighbours nearer than the edge</source>
        <translation>bei keinem Stamm sind die vier Nachbarn näher als der Rand</translation>
    </message>
    <message>
        <source>no stem has its four neighbours, with species and dbh, nearer than the edge</source>
        <translation>kein Stamm hat seine vier Nachbarn, mit Baumart und BHD, näher als den Rand</translation>
    </message>
    <message>
        <source>no stem is near enough to its limit</source>
        <translation>kein Stamm ist nahe genug an seiner Grenze</translation>
    </message>
    <message>
        <source>no stem is nearer to its neighbour than to the edge</source>
        <translation>kein Stamm ist seinem Nachbarn näher als dem Rand</translation>
    </message>
    <message>
        <source>no stems</source>
        <translation>keine Stämme</translation>
    </message>
    <message>
        <source>no stems were uploaded and the plot is not said to be empty</source>
        <translation>es kamen keine Stämme, und die Probefläche ist nicht als leer bezeichnet</translation>
    </message>
    <message>
        <source>non forest</source>
        <translation>Nichtwald</translation>
    </message>
    <message>
        <source>non forêt</source>
        <translation>Nichtwald</translation>
    </message>
    <message>
        <source>northing</source>
        <translation>Nordwert</translation>
    </message>
    <message>
        <source>northing of the plot centre in its coordinate system</source>
        <translation>Nordwert des Mittelpunkts in seinem Koordinatensystem</translation>
    </message>
    <message>
        <source>not accessible</source>
        <translation>nicht zugänglich</translation>
    </message>
    <message>
        <source>not filled in</source>
        <translation>nicht ausgefüllt</translation>
    </message>
    <message>
        <source>not found</source>
        <translation>nicht gefunden</translation>
    </message>
    <message>
        <source>not known</source>
        <translation>nicht bekannt</translation>
    </message>
    <message>
        <source>not known: %1.</source>
        <translation>nicht bekannt: %1.</translation>
    </message>
    <message>
        <source>not reached</source>
        <translation>nicht erreicht</translation>
    </message>
    <message>
        <source>not told</source>
        <translation>nicht zu sagen</translation>
    </message>
    <message>
        <source>note</source>
        <translation>Hinweis</translation>
    </message>
    <message>
        <source>nothing was measured twice</source>
        <translation>nichts wurde zweimal gemessen</translation>
    </message>
    <message>
        <source>nothing: stems inside the stand weigh as they are</source>
        <translation>nichts: Stämme im Bestand zählen, wie sie sind</translation>
    </message>
    <message>
        <source>number</source>
        <translation>Zahl</translation>
    </message>
    <message>
        <source>number of stems</source>
        <translation>Zahl der Stämme</translation>
    </message>
    <message>
        <source>number of the stem</source>
        <translation>Nummer des Stammes</translation>
    </message>
    <message>
        <source>number of the tree; stems of one tree may share a position</source>
        <translation>Nummer des Baumes; Stämme eines Baumes dürfen einen Ort teilen</translation>
    </message>
    <message>
        <source>numbers</source>
        <translation>Zahlen</translation>
    </message>
    <message>
        <source>occurrence</source>
        <translation>Vorkommen</translation>
    </message>
    <message>
        <source>of stems in and living both times, at the weight of the first visit</source>
        <translation>der Stämme, die beide Male dabei und lebend sind, mit dem Gewicht der ersten Aufnahme</translation>
    </message>
    <message>
        <source>on no plot can it be known what is hidden</source>
        <translation>auf keiner Probefläche ist bekannt, was verdeckt ist</translation>
    </message>
    <message>
        <source>on no plot do all stems of the pattern have a dbh</source>
        <translation>auf keiner Probefläche haben alle Stämme des Musters einen BHD</translation>
    </message>
    <message>
        <source>on no plot do all stems of the pattern have a dbh, and different ones</source>
        <translation>auf keiner Probefläche haben alle Stämme des Musters einen BHD, und verschiedene</translation>
    </message>
    <message>
        <source>on one or two plots no interval holds the truth as often as it says</source>
        <translation>bei einer oder zwei Probeflächen enthält kein Intervall den wahren Wert so oft, wie es angibt</translation>
    </message>
    <message>
        <source>one measurement of one plot, named as typed: a date, a year, a cycle</source>
        <translation>eine Messung einer Probefläche, benannt wie getippt: ein Datum, ein Jahr, ein Durchgang</translation>
    </message>
    <message>
        <source>one pair tells no standard deviation</source>
        <translation>ein Paar sagt nichts über die Standardabweichung</translation>
    </message>
    <message>
        <source>one plot has no sampling error</source>
        <translation>eine einzige Probefläche hat keinen Stichprobenfehler</translation>
    </message>
    <message>
        <source>one stand point</source>
        <translation>ein Standpunkt</translation>
    </message>
    <message>
        <source>ongrowth</source>
        <translation>in den eigenen Kreis gewachsen</translation>
    </message>
    <message>
        <source>only %1 pairs: the intervals are wide</source>
        <translation>nur %1 Paare: Die Intervalle sind weit</translation>
    </message>
    <message>
        <source>only stems whose fourth neighbour is nearer than the edge</source>
        <translation>nur Stämme, deren vierter Nachbar näher ist als der Rand</translation>
    </message>
    <message>
        <source>order of numbers</source>
        <translation>Reihenfolge der Nummern</translation>
    </message>
    <message>
        <source>other date</source>
        <translation>anderer Tag</translation>
    </message>
    <message>
        <source>other line</source>
        <translation>andere Zeile</translation>
    </message>
    <message>
        <source>other plot</source>
        <translation>andere Probefläche</translation>
    </message>
    <message>
        <source>other unit</source>
        <translation>andere Einheit</translation>
    </message>
    <message>
        <source>other visit</source>
        <translation>andere Aufnahme</translation>
    </message>
    <message>
        <source>others</source>
        <translation>andere</translation>
    </message>
    <message>
        <source>out</source>
        <translation>außerhalb</translation>
    </message>
    <message>
        <source>outermost half metre</source>
        <translation>äußerster halber Meter</translation>
    </message>
    <message>
        <source>outside circle</source>
        <translation>außerhalb des Kreises</translation>
    </message>
    <message>
        <source>own unit</source>
        <translation>eigene Einheit</translation>
    </message>
    <message>
        <source>p</source>
        <translation>p</translation>
    </message>
    <message>
        <source>p &lt; %1</source>
        <translation>p &lt; %1</translation>
    </message>
    <message>
        <source>p = %1</source>
        <translation>p = %1</translation>
    </message>
    <message>
        <source>packet</source>
        <translation>Feldpaket</translation>
    </message>
    <message>
        <source>pairs</source>
        <translation>Paare</translation>
    </message>
    <message>
        <source>pairs as recorded</source>
        <translation>Paare wie eingetragen</translation>
    </message>
    <message>
        <source>pairs here</source>
        <translation>Paare hier</translation>
    </message>
    <message>
        <source>part plots weigh like whole ones in the change</source>
        <translation>Teilflächen zählen in der Änderung wie ganze</translation>
    </message>
    <message>
        <source>per ha</source>
        <translation>je ha</translation>
    </message>
    <message>
        <source>per hour</source>
        <translation>je Stunde</translation>
    </message>
    <message>
        <source>percent</source>
        <translation>Prozent</translation>
    </message>
    <message>
        <source>perhaps %1 records are to be struck</source>
        <translation>vielleicht sind %1 Datensätze zu streichen</translation>
    </message>
    <message>
        <source>plot</source>
        <translation>Probefläche</translation>
    </message>
    <message>
        <source>plot column missing</source>
        <translation>Spalte der Probefläche fehlt</translation>
    </message>
    <message>
        <source>plot columns contradict</source>
        <translation>Flächenspalten widersprechen sich</translation>
    </message>
    <message>
        <source>plot in another unit</source>
        <translation>Probefläche in anderer Einheit</translation>
    </message>
    <message>
        <source>plot mirrored</source>
        <translation>Probefläche gespiegelt</translation>
    </message>
    <message>
        <source>plot not described</source>
        <translation>Probefläche nicht beschrieben</translation>
    </message>
    <message>
        <source>plot rotated</source>
        <translation>Probefläche verdreht</translation>
    </message>
    <message>
        <source>plot row twice</source>
        <translation>Flächenzeile doppelt</translation>
    </message>
    <message>
        <source>plot status</source>
        <translation>Flächenstatus</translation>
    </message>
    <message>
        <source>plot status contradicted</source>
        <translation>Flächenstatus widersprochen</translation>
    </message>
    <message>
        <source>plot unlike last visit</source>
        <translation>Probefläche anders als letzte Aufnahme</translation>
    </message>
    <message>
        <source>plot value impossible</source>
        <translation>Flächenwert unmöglich</translation>
    </message>
    <message>
        <source>plot without stems</source>
        <translation>Probefläche ohne Stämme</translation>
    </message>
    <message>
        <source>plots</source>
        <translation>Probeflächen</translation>
    </message>
    <message>
        <source>plots beyond</source>
        <translation>Probeflächen mit Stämmen jenseits</translation>
    </message>
    <message>
        <source>plots rotated alike</source>
        <translation>Probeflächen gemeinsam gedreht</translation>
    </message>
    <message>
        <source>png</source>
        <translation>png</translation>
    </message>
    <message>
        <source>point</source>
        <translation>Punkt</translation>
    </message>
    <message>
        <source>point from which the stem was measured</source>
        <translation>Punkt, von dem aus der Stamm gemessen wurde</translation>
    </message>
    <message>
        <source>point x</source>
        <translation>Punkt x</translation>
    </message>
    <message>
        <source>point y</source>
        <translation>Punkt y</translation>
    </message>
    <message>
        <source>polar</source>
        <translation>polar</translation>
    </message>
    <message>
        <source>probability</source>
        <translation>Wahrscheinlichkeit</translation>
    </message>
    <message>
        <source>quadrant</source>
        <translation>Quadrant</translation>
    </message>
    <message>
        <source>quote unclosed</source>
        <translation>Anführungszeichen offen</translation>
    </message>
    <message>
        <source>quotient</source>
        <translation>Quotient</translation>
    </message>
    <message>
        <source>radius</source>
        <translation>Radius</translation>
    </message>
    <message>
        <source>radius m</source>
        <translation>Radius m</translation>
    </message>
    <message>
        <source>radius not used</source>
        <translation>Radius nicht benutzt</translation>
    </message>
    <message>
        <source>radius of this plot&apos;s circle</source>
        <translation>Radius dieser Probefläche</translation>
    </message>
    <message>
        <source>random</source>
        <translation>zufällig</translation>
    </message>
    <message>
        <source>rate</source>
        <translation>Häufigkeit</translation>
    </message>
    <message>
        <source>recheck</source>
        <translation>nachmessen</translation>
    </message>
    <message>
        <source>record struck</source>
        <translation>Datensatz gestrichen</translation>
    </message>
    <message>
        <source>recorded</source>
        <translation>aufgenommen</translation>
    </message>
    <message>
        <source>records</source>
        <translation>Einträge</translation>
    </message>
    <message>
        <source>records edited</source>
        <translation>Datensätze bearbeitet</translation>
    </message>
    <message>
        <source>records of another plot</source>
        <translation>Einträge einer anderen Probefläche</translation>
    </message>
    <message>
        <source>remark</source>
        <translation>Bemerkung</translation>
    </message>
    <message>
        <source>remeasured</source>
        <translation>nachgemessen</translation>
    </message>
    <message>
        <source>removals</source>
        <translation>Entnahme</translation>
    </message>
    <message>
        <source>result moves</source>
        <translation>Ergebnis ändert sich</translation>
    </message>
    <message>
        <source>rotation deg</source>
        <translation>Drehung °</translation>
    </message>
    <message>
        <source>row</source>
        <translation>Zeile</translation>
    </message>
    <message>
        <source>said</source>
        <translation>gesagt</translation>
    </message>
    <message>
        <source>save it as XLSX or CSV</source>
        <translation>als XLSX oder CSV speichern</translation>
    </message>
    <message>
        <source>second cm</source>
        <translation>zweiter cm</translation>
    </message>
    <message>
        <source>second diameter, measured crosswise</source>
        <translation>zweiter Durchmesser, über Kreuz gemessen</translation>
    </message>
    <message>
        <source>second diameter, measured crosswise, in millimetres</source>
        <translation>zweiter Durchmesser, über Kreuz gemessen, in Millimetern</translation>
    </message>
    <message>
        <source>second heading line</source>
        <translation>zweite Überschriftenzeile</translation>
    </message>
    <message>
        <source>second visit less first</source>
        <translation>zweite Aufnahme weniger erste</translation>
    </message>
    <message>
        <source>sector beyond m</source>
        <translation>Sektor jenseits m</translation>
    </message>
    <message>
        <source>sector from deg</source>
        <translation>Sektor von °</translation>
    </message>
    <message>
        <source>sector to deg</source>
        <translation>Sektor bis °</translation>
    </message>
    <message>
        <source>settings assumed</source>
        <translation>Einstellungen angenommen</translation>
    </message>
    <message>
        <source>settings found</source>
        <translation>Einstellungen gefunden</translation>
    </message>
    <message>
        <source>settings undecided</source>
        <translation>Einstellungen unentschieden</translation>
    </message>
    <message>
        <source>share</source>
        <translation>Anteil</translation>
    </message>
    <message>
        <source>share of stems</source>
        <translation>Anteil der Stämme</translation>
    </message>
    <message>
        <source>share of the area, from the centre</source>
        <translation>Anteil der Fläche, vom Mittelpunkt aus</translation>
    </message>
    <message>
        <source>sheet ignored</source>
        <translation>Blatt übergangen</translation>
    </message>
    <message>
        <source>shift east m</source>
        <translation>Verschiebung Ost m</translation>
    </message>
    <message>
        <source>shift m</source>
        <translation>Verschiebung m</translation>
    </message>
    <message>
        <source>shift north m</source>
        <translation>Verschiebung Nord m</translation>
    </message>
    <message>
        <source>shorter than the instrument measures, which begins</source>
        <translation>kürzer, als das Gerät misst, das beginnt</translation>
    </message>
    <message>
        <source>shrank</source>
        <translation>schrumpfte</translation>
    </message>
    <message>
        <source>shrank cm</source>
        <translation>dünner geworden um cm</translation>
    </message>
    <message>
        <source>simple random sampling</source>
        <translation>einfache Zufallsstichprobe</translation>
    </message>
    <message>
        <source>size</source>
        <translation>Größe</translation>
    </message>
    <message>
        <source>slip kinds</source>
        <translation>Arten der Versehen</translation>
    </message>
    <message>
        <source>slips</source>
        <translation>Versehen</translation>
    </message>
    <message>
        <source>slope</source>
        <translation>Hangneigung</translation>
    </message>
    <message>
        <source>slope of the ground</source>
        <translation>Hangneigung</translation>
    </message>
    <message>
        <source>smaller</source>
        <translation>kleiner</translation>
    </message>
    <message>
        <source>some standing stems have no place or no dbh</source>
        <translation>einige stehende Stämme haben keinen Ort oder keinen BHD</translation>
    </message>
    <message>
        <source>some stems that are in have no dbh</source>
        <translation>einige Stämme innerhalb haben keinen BHD</translation>
    </message>
    <message>
        <source>species</source>
        <translation>Baumart</translation>
    </message>
    <message>
        <source>species keep to themselves</source>
        <translation>Baumarten bleiben unter sich</translation>
    </message>
    <message>
        <source>species mix more than by chance</source>
        <translation>Baumarten mischen sich mehr als bei Zufall</translation>
    </message>
    <message>
        <source>spreads</source>
        <translation>Streuungen</translation>
    </message>
    <message>
        <source>standard error</source>
        <translation>Standardfehler</translation>
    </message>
    <message>
        <source>standard error deg</source>
        <translation>Standardfehler °</translation>
    </message>
    <message>
        <source>standard error from stems that may be in or out, by the errors of the settings</source>
        <translation>Standardfehler aus Stämmen, die drinnen oder draußen sein können, nach den Messfehlern der Einstellungen</translation>
    </message>
    <message>
        <source>standard error m</source>
        <translation>Standardfehler m</translation>
    </message>
    <message>
        <source>standard error of the mean; what plots differ by holds the doubts below already</source>
        <translation>Standardfehler des Mittels; die Unterschiede der Probeflächen enthalten die Zweifel darunter schon</translation>
    </message>
    <message>
        <source>standing dead</source>
        <translation>stehend tot</translation>
    </message>
    <message>
        <source>standing live</source>
        <translation>stehend lebend</translation>
    </message>
    <message>
        <source>station</source>
        <translation>Standpunkt</translation>
    </message>
    <message>
        <source>station unknown</source>
        <translation>Standpunkt unbekannt</translation>
    </message>
    <message>
        <source>stations</source>
        <translation>Standpunkten</translation>
    </message>
    <message>
        <source>status</source>
        <translation>Status</translation>
    </message>
    <message>
        <source>status unknown</source>
        <translation>Status unbekannt</translation>
    </message>
    <message>
        <source>std. error</source>
        <translation>Std.-Fehler</translation>
    </message>
    <message>
        <source>stem</source>
        <translation>Stamm</translation>
    </message>
    <message>
        <source>stem number twice</source>
        <translation>Stammnummer doppelt</translation>
    </message>
    <message>
        <source>stem that is gone</source>
        <translation>Stamm, der fehlt</translation>
    </message>
    <message>
        <source>stem without plot</source>
        <translation>Stamm ohne Probefläche</translation>
    </message>
    <message>
        <source>stems</source>
        <translation>Stämmen</translation>
    </message>
    <message>
        <source>stems missing at edge</source>
        <translation>Stämme fehlen am Rand</translation>
    </message>
    <message>
        <source>stems no longer in or not recorded again, as a loss; numbers tell which stem is which</source>
        <translation>Stämme, die nicht mehr dabei sind oder nicht wieder aufgenommen wurden, als Verlust; die Nummern sagen, welcher Stamm welcher ist</translation>
    </message>
    <message>
        <source>stems outside the circle are not recorded to a margin</source>
        <translation>Stämme außerhalb des Kreises werden nicht bis zu einem festen Abstand aufgenommen</translation>
    </message>
    <message>
        <source>stems per ha</source>
        <translation>Stämme je ha</translation>
    </message>
    <message>
        <source>stems stand evenly around each other</source>
        <translation>Stämme stehen gleichmäßig umeinander</translation>
    </message>
    <message>
        <source>stems stand in groups</source>
        <translation>Stämme stehen in Gruppen</translation>
    </message>
    <message>
        <source>stems that are gone</source>
        <translation>Stämme, die fehlen</translation>
    </message>
    <message>
        <source>stems that are in have no place, and a stand edge cuts the plot</source>
        <translation>Stämme, die dabei sind, haben keine Lage, und ein Bestandesrand schneidet die Probefläche</translation>
    </message>
    <message>
        <source>stems that died, as a loss</source>
        <translation>abgestorbene Stämme, als Verlust</translation>
    </message>
    <message>
        <source>stems that were cut, as a loss</source>
        <translation>gefällte Stämme, als Verlust</translation>
    </message>
    <message>
        <source>stems were measured from other points too</source>
        <translation>Stämme wurden auch von anderen Punkten aus gemessen</translation>
    </message>
    <message>
        <source>stems with plots</source>
        <translation>Stämmen mit Probeflächen</translation>
    </message>
    <message>
        <source>stop</source>
        <translation>Halt</translation>
    </message>
    <message>
        <source>stratified after sampling</source>
        <translation>nach der Aufnahme stratifiziert</translation>
    </message>
    <message>
        <source>stratified sampling</source>
        <translation>stratifizierte Stichprobe</translation>
    </message>
    <message>
        <source>stratum</source>
        <translation>Stratum</translation>
    </message>
    <message>
        <source>stratum %1, so that the plots were taken as one sample</source>
        <translation>Stratum %1, darum wurden die Probeflächen als eine Stichprobe genommen</translation>
    </message>
    <message>
        <source>stratum to which the plot belongs</source>
        <translation>Stratum, zu dem die Probefläche gehört</translation>
    </message>
    <message>
        <source>stronger than by chance</source>
        <translation>stärker als bei Zufall</translation>
    </message>
    <message>
        <source>survey file damaged</source>
        <translation>Inventurdatei beschädigt</translation>
    </message>
    <message>
        <source>survivors that another circle samples now, or whose place to the stand edge was measured anew</source>
        <translation>Überlebende, die jetzt ein anderer Kreis erfasst oder deren Lage zum Bestandesrand neu gemessen wurde</translation>
    </message>
    <message>
        <source>svg</source>
        <translation>svg</translation>
    </message>
    <message>
        <source>systematic</source>
        <translation>systematisch</translation>
    </message>
    <message>
        <source>systematic sampling, computed as simple random</source>
        <translation>systematische Stichprobe, wie eine einfache Zufallsstichprobe berechnet</translation>
    </message>
    <message>
        <source>taper cm per m</source>
        <translation>Abholzigkeit, cm je m</translation>
    </message>
    <message>
        <source>text</source>
        <translation>Text</translation>
    </message>
    <message>
        <source>texts</source>
        <translation>Texte</translation>
    </message>
    <message>
        <source>that is fewer than the outer half</source>
        <translation>das sind weniger als in der äußeren Hälfte</translation>
    </message>
    <message>
        <source>that is more than the outer half</source>
        <translation>das sind mehr als in der äußeren Hälfte</translation>
    </message>
    <message>
        <source>that the sizes of strata are a sample too is not in the error of clusters</source>
        <translation>dass auch die Größen der Straten eine Stichprobe sind, ist im Fehler der Trakte nicht enthalten</translation>
    </message>
    <message>
        <source>the %1 in %2 and its like was taken as a %3, but nothing settles it. If that is wrong, save the file with another decimal mark.</source>
        <translation>das %1 in %2 und Ähnlichem wurde als %3 genommen, aber nichts klärt es. Wenn das falsch ist, die Datei mit anderem Dezimalzeichen speichern.</translation>
    </message>
    <message>
        <source>the area: the part of the circle inside, and the ratio of means for the survey</source>
        <translation>die Fläche: der Teil des Kreises im Bestand, und für die Inventur der Quotient der Mittel</translation>
    </message>
    <message>
        <source>the auxiliary value is the same on all plots</source>
        <translation>der Hilfswert ist auf allen Probeflächen gleich</translation>
    </message>
    <message>
        <source>the auxiliary value was not used: %1</source>
        <translation>der Hilfswert wurde nicht verwendet: %1</translation>
    </message>
    <message>
        <source>the circle has no radius, so that no share of it can be told</source>
        <translation>der Kreis hat keinen Radius, darum lässt sich kein Anteil angeben</translation>
    </message>
    <message>
        <source>the circle was laid out on the slope, and a stand edge cuts it; that is not corrected</source>
        <translation>der Kreis wurde am Hang ausgelegt, und ein Bestandesrand schneidet ihn; das wird nicht korrigiert</translation>
    </message>
    <message>
        <source>the circle was laid out on the slope; on the map it is no circle</source>
        <translation>der Kreis wurde am Hang angelegt; auf der Karte ist er kein Kreis</translation>
    </message>
    <message>
        <source>the circles or the basal area factor of the design were not given</source>
        <translation>Kreise oder Zählfaktor des Verfahrens wurden nicht angegeben</translation>
    </message>
    <message>
        <source>the database says %1; nothing of this was stored, everything before is whole.</source>
        <translation>die Datenbank meldet %1; davon wurde nichts gespeichert, alles Frühere ist heil.</translation>
    </message>
    <message>
        <source>the design takes no stem of {dbh_cm:g} cm</source>
        <translation>das Verfahren nimmt keinen Stamm von {dbh_cm:g} cm auf</translation>
    </message>
    <message>
        <source>the disk failed at the last step: this may be stored or not, everything before is whole. Check the disk, then look what is there.</source>
        <translation>der Datenträger versagte beim letzten Schritt: dies ist vielleicht gespeichert, vielleicht nicht, alles davor ist unversehrt. Den Datenträger prüfen, dann nachsehen, was da ist.</translation>
    </message>
    <message>
        <source>the disk failed; nothing of this was stored, everything before is whole. Check the disk.</source>
        <translation>der Datenträger hat versagt; davon wurde nichts gespeichert, alles Frühere ist heil. Den Datenträger prüfen.</translation>
    </message>
    <message>
        <source>the disk is full; nothing of this was stored, everything before is whole.</source>
        <translation>der Datenträger ist voll; davon wurde nichts gespeichert, alles Frühere ist heil.</translation>
    </message>
    <message>
        <source>the last class also holds what is thicker: %1 more</source>
        <translation>die letzte Klasse enthält auch, was dicker ist: %1 weitere</translation>
    </message>
    <message>
        <source>the last visit</source>
        <translation>die letzte Aufnahme</translation>
    </message>
    <message>
        <source>the last visit has no stem there</source>
        <translation>die letzte Aufnahme hat dort keinen Stamm</translation>
    </message>
    <message>
        <source>the line above has the same</source>
        <translation>die Zeile darüber hat dasselbe</translation>
    </message>
    <message>
        <source>the machine has too little memory for it.</source>
        <translation>der Rechner hat zu wenig Speicher dafür.</translation>
    </message>
    <message>
        <source>the order</source>
        <translation>die Folge der Nummern</translation>
    </message>
    <message>
        <source>the packet got no number</source>
        <translation>das Feldpaket bekam keine Nummer</translation>
    </message>
    <message>
        <source>the place is known</source>
        <translation>ist der Ort bekannt</translation>
    </message>
    <message>
        <source>the plot centre lies outside the stand</source>
        <translation>der Mittelpunkt der Probefläche liegt außerhalb des Bestands</translation>
    </message>
    <message>
        <source>the plot is not forest</source>
        <translation>die Probefläche ist kein Wald</translation>
    </message>
    <message>
        <source>the plot was not reached</source>
        <translation>die Probefläche wurde nicht erreicht</translation>
    </message>
    <message>
        <source>the plots are weighed by strata or taken in clusters already</source>
        <translation>die Probeflächen werden schon nach Straten gewogen oder in Trakten genommen</translation>
    </message>
    <message>
        <source>the plots lie on a grid and are computed as if drawn at random: the error is mostly told too large, and too small where the grid follows a pattern of the ground</source>
        <translation>die Probeflächen liegen auf einem Raster und werden wie zufällig gezogen berechnet: der Fehler wird meist zu groß angegeben, und zu klein, wo das Raster einem Muster des Geländes folgt</translation>
    </message>
    <message>
        <source>the polygons of the stand were not found</source>
        <translation>die Polygone des Bestands wurden nicht gefunden</translation>
    </message>
    <message>
        <source>the radius of the design holds</source>
        <translation>es gilt der Radius des Verfahrens</translation>
    </message>
    <message>
        <source>the species of the stems or of their neighbours is missing</source>
        <translation>die Baumart der Stämme oder ihrer Nachbarn fehlt</translation>
    </message>
    <message>
        <source>the stand edge bends within reach of the plot, where the mirage is not exact; take another correction</source>
        <translation>der Bestandesrand knickt in Reichweite der Probefläche, wo die Spiegelung nicht genau ist; eine andere Korrektur wählen</translation>
    </message>
    <message>
        <source>the stems were measured at the stem, not from the centre</source>
        <translation>die Stämme wurden am Stamm gemessen, nicht vom Mittelpunkt</translation>
    </message>
    <message>
        <source>the stems: each counts once more for every reflected plot centre that reaches it</source>
        <translation>die Stämme: jeder zählt einmal mehr für jeden gespiegelten Mittelpunkt, der ihn erreicht</translation>
    </message>
    <message>
        <source>the stems: each counts twice when as far again behind it is outside, over the share so covered</source>
        <translation>die Stämme: jeder zählt doppelt, wenn ebenso weit hinter ihm außerhalb ist, geteilt durch den so abgedeckten Anteil</translation>
    </message>
    <message>
        <source>the stems: each weighs 1 / share of its own inclusion zone inside the stand</source>
        <translation>die Stämme: jeder zählt 1 / Anteil seines eigenen Auswahlbereichs im Bestand</translation>
    </message>
    <message>
        <source>the unit in %1 and its like was left out of the number.</source>
        <translation>die Einheit in %1 und Ähnlichem wurde aus der Zahl weggelassen.</translation>
    </message>
    <message>
        <source>the upload got no number</source>
        <translation>die Aufnahmedaten bekamen keine Nummer</translation>
    </message>
    <message>
        <source>there are fewer than 50 diameters</source>
        <translation>es gibt weniger als 50 Durchmesser</translation>
    </message>
    <message>
        <source>there is no azimuth {typed}</source>
        <translation>einen Azimut {typed} gibt es nicht</translation>
    </message>
    <message>
        <source>these are too few to judge by</source>
        <translation>das sind zu wenige, um zu urteilen</translation>
    </message>
    <message>
        <source>these stems are thicker than their neighbours</source>
        <translation>diese Stämme sind dicker als ihre Nachbarn</translation>
    </message>
    <message>
        <source>these stems are thinner than their neighbours</source>
        <translation>diese Stämme sind dünner als ihre Nachbarn</translation>
    </message>
    <message>
        <source>they name the visits</source>
        <translation>sie benennen die Aufnahmen</translation>
    </message>
    <message>
        <source>thick</source>
        <translation>dickere</translation>
    </message>
    <message>
        <source>thick × thin</source>
        <translation>dick × dünn</translation>
    </message>
    <message>
        <source>thin</source>
        <translation>dünnere</translation>
    </message>
    <message>
        <source>this form has no test of its own</source>
        <translation>diese Form hat keine eigene Prüfung</translation>
    </message>
    <message>
        <source>thousands mark</source>
        <translation>Tausendertrennzeichen</translation>
    </message>
    <message>
        <source>times</source>
        <translation>Faktor</translation>
    </message>
    <message>
        <source>times average</source>
        <translation>mal Durchschnitt</translation>
    </message>
    <message>
        <source>times chance</source>
        <translation>mal Zufall</translation>
    </message>
    <message>
        <source>to the axis of the stem</source>
        <translation>bis zur Stammachse</translation>
    </message>
    <message>
        <source>to the face of the stem</source>
        <translation>bis zur Stammoberfläche</translation>
    </message>
    <message>
        <source>told by order</source>
        <translation>an der Reihenfolge zu erkennen</translation>
    </message>
    <message>
        <source>tolerance</source>
        <translation>Toleranz</translation>
    </message>
    <message>
        <source>too few stems</source>
        <translation>zu wenige Stämme</translation>
    </message>
    <message>
        <source>too few stems on every plot</source>
        <translation>zu wenige Stämme auf jeder Probefläche</translation>
    </message>
    <message>
        <source>totals skipped</source>
        <translation>Summen übergangen</translation>
    </message>
    <message>
        <source>towards deg</source>
        <translation>Richtung °</translation>
    </message>
    <message>
        <source>transposed</source>
        <translation>vertauscht</translation>
    </message>
    <message>
        <source>tree</source>
        <translation>Baum</translation>
    </message>
    <message>
        <source>tree species, as typed</source>
        <translation>Baumart, wie getippt</translation>
    </message>
    <message>
        <source>true</source>
        <translation>geografisch</translation>
    </message>
    <message>
        <source>turn deg</source>
        <translation>Drehung °</translation>
    </message>
    <message>
        <source>twin</source>
        <translation>Doppel</translation>
    </message>
    <message>
        <source>twin dbh cm</source>
        <translation>BHD des anderen, cm</translation>
    </message>
    <message>
        <source>two columns</source>
        <translation>zwei Spalten</translation>
    </message>
    <message>
        <source>typed</source>
        <translation>getippt</translation>
    </message>
    <message>
        <source>unit</source>
        <translation>Einheit</translation>
    </message>
    <message>
        <source>unit in cells</source>
        <translation>Einheit in Zellen</translation>
    </message>
    <message>
        <source>unpack it first</source>
        <translation>zuerst auspacken</translation>
    </message>
    <message>
        <source>upper cm</source>
        <translation>oberer cm</translation>
    </message>
    <message>
        <source>upper diameter</source>
        <translation>oberer Durchmesser</translation>
    </message>
    <message>
        <source>upper diameter above dbh</source>
        <translation>oberer Durchmesser über BHD</translation>
    </message>
    <message>
        <source>upper height</source>
        <translation>Höhe des oberen Durchmessers</translation>
    </message>
    <message>
        <source>usual height m</source>
        <translation>übliche Höhe m</translation>
    </message>
    <message>
        <source>value not understood</source>
        <translation>Wert nicht verstanden</translation>
    </message>
    <message>
        <source>values exchanged with another row</source>
        <translation>Werte mit einer anderen Zeile vertauscht</translation>
    </message>
    <message>
        <source>vertical angle</source>
        <translation>Höhenwinkel</translation>
    </message>
    <message>
        <source>vertical angle missing</source>
        <translation>Höhenwinkel fehlt</translation>
    </message>
    <message>
        <source>vertical angle of a slope distance, up positive</source>
        <translation>Höhenwinkel einer Schrägdistanz, aufwärts positiv</translation>
    </message>
    <message>
        <source>visit</source>
        <translation>Aufnahme</translation>
    </message>
    <message>
        <source>visits</source>
        <translation>Aufnahmen</translation>
    </message>
    <message>
        <source>visits exchanged</source>
        <translation>Aufnahmen vertauscht</translation>
    </message>
    <message>
        <source>warning</source>
        <translation>Warnung</translation>
    </message>
    <message>
        <source>weaker than by chance</source>
        <translation>schwächer als bei Zufall</translation>
    </message>
    <message>
        <source>weight</source>
        <translation>Gewicht</translation>
    </message>
    <message>
        <source>what L(r) shows</source>
        <translation>was L(r) zeigt</translation>
    </message>
    <message>
        <source>what a larger first sample tells of the plot too</source>
        <translation>was eine größere erste Stichprobe auch von der Probefläche sagt</translation>
    </message>
    <message>
        <source>who</source>
        <translation>wer</translation>
    </message>
    <message>
        <source>who measured</source>
        <translation>wer gemessen hat</translation>
    </message>
    <message>
        <source>within m</source>
        <translation>innerhalb, m</translation>
    </message>
    <message>
        <source>worth %1 stems/ha</source>
        <translation>es geht um %1 Stämme/ha</translation>
    </message>
    <message>
        <source>written again later</source>
        <translation>später noch einmal geschrieben</translation>
    </message>
    <message>
        <source>wrong with</source>
        <translation>falsch mit</translation>
    </message>
    <message>
        <source>{copied} of {stems} stems on {visits} visits carry azimuth and distance of the last visit to the last digit; they were not measured again.</source>
        <translation>{copied} von {stems} Stämmen aus {visits} Aufnahmen tragen Azimut und Abstand der letzten Aufnahme bis auf die letzte Ziffer; sie wurden nicht neu gemessen.</translation>
    </message>
    <message>
        <source>{distance_m:.2f} m against a limiting distance of {limiting_distance_m:.2f} m</source>
        <translation>{distance_m:.2f} m bei einem Grenzabstand von {limiting_distance_m:.2f} m</translation>
    </message>
    <message>
        <source>{file}, line {line} (plot {named}, No. {number}) fits no row of a packet and no stem; it is kept, and nothing follows from it.</source>
        <translation>{file}, Zeile {line} (Probefläche {named}, Nr. {number}) passt zu keiner Zeile eines Feldpakets und zu keinem Stamm; sie ist aufgehoben, und nichts folgt daraus.</translation>
    </message>
    <message>
        <source>{file}, line {line}: &apos;{text}&apos; in the column %1 cannot be; %2.</source>
        <translation>{file}, Zeile {line}: „{text}“ in der Spalte %1 kann nicht sein; %2.</translation>
    </message>
    <message>
        <source>{file}, line {line}: &apos;{text}&apos; in the column %1 is no %2; it was left out.</source>
        <translation>{file}, Zeile {line}: „{text}“ in der Spalte %1 ist nicht zu lesen (erwartet: %2); es wurde weggelassen.</translation>
    </message>
    <message>
        <source>{file}, line {line}: a stem record names no plot; it is kept and counted nowhere.</source>
        <translation>{file}, Zeile {line}: Ein Stamm nennt keine Probefläche; er bleibt erhalten und zählt nirgends.</translation>
    </message>
    <message>
        <source>{file}, line {line}: plot {plot} stands in the plots table again; the first row is used.</source>
        <translation>{file}, Zeile {line}: Probefläche {plot} steht noch einmal in der Tabelle der Probeflächen; die erste Zeile wird benutzt.</translation>
    </message>
    <message>
        <source>{file}, line {line}: the status &apos;{text}&apos; strikes its record, which is kept and counted nowhere (records struck in this file: {records}).</source>
        <translation>{file}, Zeile {line}: Der Status „{text}“ streicht seinen Datensatz; er bleibt erhalten und zählt nirgends (gestrichene Datensätze in dieser Datei: {records}).</translation>
    </message>
    <message>
        <source>{meant} and {typed} stand each in the column of the other</source>
        <translation>{meant} und {typed} stehen jeweils in der Spalte des anderen</translation>
    </message>
    <message>
        <source>{meant} is the dbh of a stem with a girth of {typed}</source>
        <translation>{meant} ist der BHD eines Stammes mit einem Umfang von {typed}</translation>
    </message>
    <message>
        <source>{meant} is {typed} a quarter of the circle on</source>
        <translation>{meant} ist {typed} einen Viertelkreis weiter</translation>
    </message>
    <message>
        <source>{meant} is {typed} counted the other way round</source>
        <translation>{meant} ist {typed} andersherum gezählt</translation>
    </message>
    <message>
        <source>{meant} is {typed} made horizontal, or along the slope, as the other distances are</source>
        <translation>{meant} ist {typed}, auf horizontal oder schräg umgerechnet, wie die anderen Entfernungen</translation>
    </message>
    <message>
        <source>{meant} is {typed} read from the other end</source>
        <translation>{meant} ist {typed} vom anderen Ende gelesen</translation>
    </message>
    <message>
        <source>{meant} is {typed} taken for another unit</source>
        <translation>{meant} ist {typed} in einer anderen Einheit genommen</translation>
    </message>
    <message>
        <source>{meant} is {typed} taken for the other unit of the circle</source>
        <translation>{meant} ist {typed} in der anderen Kreiseinheit genommen</translation>
    </message>
    <message>
        <source>{meant} is {typed} with the digit that was left out</source>
        <translation>{meant} ist {typed} mit der ausgelassenen Ziffer</translation>
    </message>
    <message>
        <source>{meant} is {typed} with the key beside</source>
        <translation>{meant} ist {typed} mit der Taste daneben</translation>
    </message>
    <message>
        <source>{meant} is {typed} with the point where it belongs</source>
        <translation>{meant} ist {typed} mit dem Komma, wo es hingehört</translation>
    </message>
    <message>
        <source>{meant} is {typed} with two digits exchanged</source>
        <translation>{meant} ist {typed} mit zwei vertauschten Ziffern</translation>
    </message>
    <message>
        <source>{meant} is {typed} without a digit too many</source>
        <translation>{meant} ist {typed} ohne eine Ziffer zu viel</translation>
    </message>
    <message>
        <source>{meant} is {typed} without the doubled digit</source>
        <translation>{meant} ist {typed} ohne die doppelte Ziffer</translation>
    </message>
    <message>
        <source>{meant} stands with another stem, which has {typed} in its turn</source>
        <translation>{meant} steht bei einem anderen Stamm, der dafür {typed} hat</translation>
    </message>
    <message>
        <source>{stems} of {measured} diameters were not measured at the breast height of {breast_height_m:g}.</source>
        <translation>{stems} von {measured} Durchmessern wurden nicht in der Brusthöhe von {breast_height_m:g} gemessen.</translation>
    </message>
    <message>
        <source>{stems} stems on {visits} visits were measured from stations (such as {station}) whose azimuth and distance from the centre no stations table gives; they are not placed.</source>
        <translation>{stems} Stämme aus {visits} Aufnahmen wurden von Standpunkten (etwa {station}) gemessen, deren Azimut und Abstand vom Mittelpunkt in keiner Standpunkttabelle stehen; sie haben keinen Ort.</translation>
    </message>
    <message>
        <source>{texts} different status texts of {stems} stems are not known; they are counted as living.</source>
        <translation>{texts} verschiedene Statustexte von {stems} Stämmen sind nicht bekannt; sie werden als lebend gezählt.</translation>
    </message>
    <message>
        <source>{typed} is not written as the other values are</source>
        <translation>{typed} ist anders geschrieben als die übrigen Werte</translation>
    </message>
    <message>
        <source>{who}: azimuths are {size:.1f} degrees larger than at the last visits, on {agree} of {plots} plots.</source>
        <translation>{who}: Die Azimute sind {size:.1f} Grad größer als bei den letzten Aufnahmen, auf {agree} von {plots} Probeflächen.</translation>
    </message>
    <message>
        <source>{who}: azimuths are {size:.1f} degrees smaller than at the last visits, on {agree} of {plots} plots.</source>
        <translation>{who}: Die Azimute sind {size:.1f} Grad kleiner als bei den letzten Aufnahmen, auf {agree} von {plots} Probeflächen.</translation>
    </message>
    <message>
        <source>{who}: distances are {size:.1f} % longer than at the last visits, on {agree} of {plots} plots.</source>
        <translation>{who}: Die Entfernungen sind {size:.1f} % länger als bei den letzten Aufnahmen, auf {agree} von {plots} Probeflächen.</translation>
    </message>
    <message>
        <source>{who}: distances are {size:.1f} % shorter than at the last visits, on {agree} of {plots} plots.</source>
        <translation>{who}: Die Entfernungen sind {size:.1f} % kürzer als bei den letzten Aufnahmen, auf {agree} von {plots} Probeflächen.</translation>
    </message>
    <message>
        <source>{who}: none of {azimuths} azimuths is above 360, though the azimuth unit is gon: they look like degrees.</source>
        <translation>{who}: Keines von {azimuths} Azimuten liegt über 360, obwohl die Azimuteinheit Gon ist: Sie sehen nach Grad aus.</translation>
    </message>
    <message>
        <source>{who}: {beyond_360} of {azimuths} azimuths are above 360, though the azimuth unit is degree: they look like gon.</source>
        <translation>{who}: {beyond_360} von {azimuths} Azimuten liegen über 360, obwohl die Azimuteinheit Grad ist: Sie sehen nach Gon aus.</translation>
    </message>
</context>
</TS>
