<?xml version="1.0" encoding="utf-8"?>
<!DOCTYPE TS>
<TS version="2.1" language="de" sourcelanguage="en">
<context>
    <name></name>
    <message>
        <source>Plots</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Findings</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Summary</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Settings</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Recorded, in the sample, and too close to the limit to be decided</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Stems/ha</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Living stems per hectare</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Basal area</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Of living stems, square metres per hectare</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Mean diameter</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Quadratic mean diameter of living stems</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Dead</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Dead stems per hectare and their basal area</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Nearest stem</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Mean distance from a stem to its nearest stem</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Clark-Evans R</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>1 at random, below clumped, above regular; with Donnelly&apos;s edge correction in the disc</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Uniform angle</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>About 0.5 at random, below regular, above clumped</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Mingling</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Mean share of the four nearest stems that are of another species</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Species</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Stems per hectare by species</source>
        <translation type="unfinished"></translation>
    </message>
</context>
<context>
    <name>CirclesField</name>
    <message>
        <source>radius</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>dbh from</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>dbh below</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Concentric circles</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>A stem counts in the largest circle whose dbh it reaches. Clear a radius to drop its circle.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{text} is no number; the circles stay as they were.</source>
        <translation type="unfinished"></translation>
    </message>
</context>
<context>
    <name>FindingsPanel</name>
    <message>
        <source>Findings of the plot</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Choosing a finding selects the stem it speaks of.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source> (the first {n} are shown)</source>
        <translation type="unfinished"></translation>
    </message>
</context>
<context>
    <name>HistogramView</name>
    <message>
        <source>Histogram of dbh</source>
        <extracomment>More lines than this are never useful in the panel; the command line writes all.</extracomment>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{low} to {high} cm: {count} stems/ha</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>dbh, cm</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>stems/ha</source>
        <translation type="unfinished"></translation>
    </message>
</context>
<context>
    <name>MainWindow</name>
    <message>
        <source>N next finding, PgDown next plot, wheel zooms, middle button pans</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>&amp;File</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>&amp;View</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>&amp;Go</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>&amp;Help</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>&amp;Colours</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Like the &amp;system</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>&amp;Light</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>&amp;Dark</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Uploads (*.csv *.txt *.tsv *.xlsx *.geojson *.json *.gpkg *.toml);;All files (*)</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Open uploads</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Reading…</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>There is no further error or thing to look at.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>There is no error or thing to look at before this.</source>
        <translation type="unfinished"></translation>
    </message>
</context>
<context>
    <name>MapCanvas</name>
    <message>
        <source>Map of the plot</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Left and right arrow keys go from stem to stem clockwise; the table of stems shows the same.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{distance} m from the centre, grid azimuth {azimuth}°</source>
        <translation type="unfinished"></translation>
    </message>
</context>
<context>
    <name>MapPanel</name>
    <message>
        <source>Notes on the map</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>stratum {name}</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>crew {name}</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>No stems were recorded on this plot.</source>
        <translation type="unfinished"></translation>
    </message>
</context>
<context>
    <name>MapView</name>
    <message>
        <source>Drawing the map…</source>
        <extracomment>Millimetres of the letter body that are as high as the window&apos;s own letters. Milliseconds for which the map of another plot is still shown while the new one is being described.</extracomment>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Choose a plot in the list to see its map.</source>
        <translation type="unfinished"></translation>
    </message>
</context>
<context>
    <name>MessageBar</name>
    <message>
        <source>Dismiss</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Hide this message</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Dismiss the message</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Message</source>
        <translation type="unfinished"></translation>
    </message>
</context>
<context>
    <name>Outputs</name>
    <message>
        <source>The stems were written to {path} without coordinates: no plot centre is known.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The stems were written to {path}, in {crs}.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>GeoPackage (*.gpkg);;GeoJSON (*.geojson);;CSV (*.csv)</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Export stems</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The plot sheets were written to {path}; print them at 100 %.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Plot sheets as PDF</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>PDF (*.pdf)</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The settings were saved to {path}.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Save settings</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Settings (*.toml)</source>
        <translation type="unfinished"></translation>
    </message>
</context>
<context>
    <name>PlotsModel</name>
    <message>
        <source>Plot</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Visit</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>State</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>all</source>
        <translation type="unfinished"></translation>
    </message>
</context>
<context>
    <name>PlotsPanel</name>
    <message>
        <source>Plots</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Each plot and visit with its state; arrow keys choose one.</source>
        <translation type="unfinished"></translation>
    </message>
</context>
<context>
    <name>SettingsPanel</name>
    <message>
        <source>Settings</source>
        <extracomment>Keys that matter for one kind of design only.</extracomment>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Measurement</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Sampling design</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Errors of measurement (standard deviations)</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>List of settings</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Save settings…</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Write these settings to a file; your uploads are never changed</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>As opened</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Go back to the settings with which the uploads were opened</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>error of {name} {value}</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>All that matters was said in the settings of this survey.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Assumed, because nobody said otherwise: {list}.</source>
        <translation type="unfinished"></translation>
    </message>
</context>
<context>
    <name>StartPage</name>
    <message>
        <source>Which plots can be trusted?</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Open the files of one survey: plots and stems as CSV, XLSX, GeoJSON or GeoPackage, with a settings file if there is one. Or drop them here. Your files are only read.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Open uploads…</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Choose the files of plots and stems (Ctrl+O)</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Open the sample survey</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>An invented forest with planted recording errors</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Reading…</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Progress</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Cancel</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Stop reading; nothing is changed</source>
        <translation type="unfinished"></translation>
    </message>
</context>
<context>
    <name>StemsTable</name>
    <message>
        <source>Stems of the plot</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>What was typed for each stem and what is derived from it; arrow keys choose a stem.</source>
        <translation type="unfinished"></translation>
    </message>
</context>
<context>
    <name>SummaryPanel</name>
    <message>
        <source>Summary</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Living stems</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Stratum</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Visit</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Plots</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Stems/ha</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>m²/ha</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Strata of the survey</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Mean ± standard error, simple random sampling</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>no reason given</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>not known</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{names} not known: {reason}.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{n} recorded</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{n} recorded, {inside} in, {borderline} borderline</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>none</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{stems} stems/ha, {area} m²/ha</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>all</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>last</source>
        <translation type="unfinished"></translation>
    </message>
</context>
<context>
    <name>WorkStatus</name>
    <message>
        <source>Progress</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Cancel</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Stop what is being done; nothing is changed</source>
        <translation type="unfinished"></translation>
    </message>
</context>
<context>
    <name>about</name>
    <message>
        <source>&lt;b&gt;stemmap {version}&lt;/b&gt;&lt;br&gt;Checks, maps and summarises stem records of circular forest sample plots.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The maps and coordinates are no legal survey. Work in the forest is dangerous: wind, slopes, dead trees and traffic come before any measurement, and local safety rules come before anything printed here.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>stemmap is under the MIT licence. It uses Qt and PySide6 (LGPL 3; their libraries may be replaced), NumPy, SciPy, pandas, GeoPandas, Shapely, pyproj with PROJ and the EPSG dataset, pyogrio with GDAL, Matplotlib, python-calamine, click and ppigrf, each under its own licence, and the typeface Noto Sans (SIL Open Font Licence).</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>About stemmap</source>
        <translation type="unfinished"></translation>
    </message>
</context>
<context>
    <name>commands</name>
    <message>
        <source>&amp;Open uploads…</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Choose the files of plots and stems</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Open the &amp;sample survey</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>An invented forest with planted recording errors</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>&amp;Export stems…</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Write all stems with their coordinates for a GIS or a spreadsheet</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>&amp;Plot sheets as PDF…</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Write a map of each plot at true scale</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Save se&amp;ttings…</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Write the settings in force to a file of their own</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>S&amp;top</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Stop what is being done; nothing is changed</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>&amp;Quit</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Close the program; your files are as they were</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Zoom &amp;in</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Enlarge the map; the wheel does it at the pointer</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Zoom &amp;out</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Reduce the map</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>&amp;Whole plot</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Fit the plot into the map; a double click does the same</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>&amp;Legend</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Show what the marks mean, or give its room to the map</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>&amp;Next plot</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Go to the next plot and visit</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>&amp;Previous plot</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Go to the plot and visit before</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Next &amp;finding</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Go to the next error or thing to look at, over to other plots</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Previous f&amp;inding</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Go to the error or thing to look at before</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>&amp;Settings</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Units, north, design and errors of the open survey</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>&amp;Full screen</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Give the window the whole screen, and back</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>&amp;About stemmap</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Version, licences, and what the maps are not</source>
        <translation type="unfinished"></translation>
    </message>
</context>
<context>
    <name>faults</name>
    <message>
        <source>There is not enough memory for this; nothing was changed. Open fewer plots at a time.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Something went wrong inside the program ({kind}). What was open is kept as it was.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Please report it with the file {path}.</source>
        <translation type="unfinished"></translation>
    </message>
</context>
<context>
    <name>owner</name>
    <message>
        <source>as typed</source>
        <extracomment>An en space, half as wide as the letters are high. Texts from this length on may be cut off in their cell and are repeated in the tool tip.</extracomment>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>derived</source>
        <translation type="unfinished"></translation>
    </message>
</context>
<context>
    <name>sentences</name>
    <message>
        <source>Error</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>To look at</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Note</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>1 error</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>%n errors</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>%n to look at</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>1 note</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>%n notes</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>no findings</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>not reached</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>non-forest</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>empty plot</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>no stems</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>no plot data</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Whole survey</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Plot {plot}</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{plot}, visit {visit}</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>not known whether in</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>in</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>out</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{word}, borderline</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Stem {label}</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Stem without number</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>dbh {dbh} cm</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>no dbh</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>azimuth {azimuth}</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>distance {distance} m</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>stem {stem}</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>a stem</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>the plot</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>the survey</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Perhaps meant: {values}.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Worth {stems} stems/ha, {area} m²/ha.</source>
        <translation type="unfinished"></translation>
    </message>
</context>
<context>
    <name>setting_items</name>
    <message>
        <source>Azimuth unit</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Parts of the full circle in which azimuths were typed</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>degree (360)</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>gon (400)</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>mil (6400)</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>mil (6300)</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>mil (6000)</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>North</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The north from which azimuths were measured</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>grid</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>true</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>magnetic</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Distance</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Whether distances were measured level or along the slope</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>horizontal</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>along the slope</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Distance to</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The axis of the stem, or its face towards the centre</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>axis of the stem</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>face of the stem</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Measured</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>From the plot centre, or standing at each stem</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>from the centre</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>at the stem</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Lengths</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Metres and centimetres, or feet and inches</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>metre</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>foot</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>not said</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Design</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The rule by which a stem belongs to the sample</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>one fixed circle</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>concentric circles</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>angle count</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Radius</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Of plots that state no radius of their own</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Circles</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Radius and limits of dbh of each circle</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Basal area factor</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Basal area per hectare that each counted stem stands for</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Largest radius</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Beyond it no stem is counted</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>none</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Smallest dbh</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Thinner stems do not count</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>On slopes</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>How the circle was laid out where the ground is steep</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>level distances</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>same radius on the slope</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>enlarged radius on the slope</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Azimuth</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Standard deviation of an azimuth</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Standard deviation of a distance</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Distance, share</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Added to it, percent</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Vertical angle</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Standard deviation</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Dbh</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Standard deviation of a diameter</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Dbh, share</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Borderline from</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>A stem is borderline when it is in with a probability between this and one minus this</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>or within</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>A stem is borderline when it is this close to its limiting distance</source>
        <translation type="unfinished"></translation>
    </message>
</context>
<context>
    <name>stem_columns</name>
    <message>
        <source>column of the upload that is kept but not used</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>living</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>dead</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>cut</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>gone</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>finding</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>the gravest finding about this stem</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>in or out</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>whether the stem belongs to the sample</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>distance, m</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>horizontal distance from the plot centre to the axis of the stem</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>limit, m</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>limiting distance: up to it the stem is in</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>in with, %</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>probability that the stem is in, given the errors of measurement</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>grid azimuth, °</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>azimuth from the plot centre against grid north, degrees</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>dbh, cm</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>diameter at breast height, whatever was typed</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>stems/ha</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>stems per hectare that the stem stands for when it is in</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>status</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>what the status typed was understood as</source>
        <translation type="unfinished"></translation>
    </message>
</context>
<context>
    <name>work</name>
    <message>
        <source> (declination %1°)</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source> and </source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source> and %1 more</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source> of %1</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source> or </source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>%1 %2 without a known value left out</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>%1 It lies beside the upload and was not used.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>%1 and %2 more</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>%1 and its like was read with marked thousands.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>%1 and its like was read with the day first; nothing in the column settles day and month. If that is wrong, write dates as year-month-day.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>%1 at %2 %3</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>%1 below the headings holds units or headings and was skipped.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>%1 cannot be read: %2.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>%1 cannot be written (%2); choose another place with -o.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>%1 cannot be written: %2. Choose another place.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>%1 could not be finished (%2); a file of that name is as it was.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>%1 differ from line to line on plot %2 (first in line %3); the first line of each plot holds.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>%1 has %2 columns; a table of records has a few dozen, so this is another kind of file or its delimiter was lost.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>%1 has %2 rows of %3 columns, more than can be read at once; remove columns without records, lone cells far from the records, or split it.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>%1 has NUL bytes (first in line %2): it is damaged or no text file; export it again.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>%1 has a cell of more than %2 characters in line %3: a quotation mark may not be closed there, or the file is no table of records.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>%1 has features whose properties are no table.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>%1 has headings, but no records below them.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>%1 has no column for the plot; its %2 stems were taken as plot %3.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>%1 has no features with properties.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>%1 has no heading of plots or stems; found %2%3. Say what the columns are, for example with --map azimuth=HEADING.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>%1 has points and columns of coordinates; the columns %2 were used.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>%1 holds no records.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>%1 holds no records: it is empty or has headings only.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>%1 in the settings must be a section with keys: [%2].</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>%1 is %2, but %3.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>%1 is %2, but must be a number.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>%1 is %2, but must be a positive number.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>%1 is %2, but must be one of %3.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>%1 is %2, but must be text.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>%1 is %2, whatever its name says.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>%1 is JSON, but no GeoJSON collection of features.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>%1 is a ZIP file, but no XLSX workbook; unpack it or save it as XLSX.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>%1 is a folder, not a settings file.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>%1 is a folder; give the files in it.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>%1 is called %2, but is none; export it again, or correct its ending.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>%1 is called a GeoJSON file, but is none; export it again.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>%1 is damaged or no GeoPackage (%2); export it again.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>%1 is damaged or no XLSX workbook (%2); save it again.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>%1 is empty and was not read.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>%1 is empty: it has no line of text.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>%1 is empty; export it again.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>%1 is larger than 512 MiB; split it.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>%1 is marked as %2, but is not; save it as UTF-8.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>%1 is no complete GeoJSON file: it breaks off or is damaged in line %2; export it anew.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>%1 is no file that could be replaced. Choose another name.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>%1 is no ordinary file.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>%1 is no readable GeoJSON file; export it again.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>%1 is no readable workbook (%2); save it again as XLSX or CSV.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>%1 is no text file; give a CSV, XLSX, GeoJSON or GeoPackage file.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>%1 is no valid settings file (TOML): %2.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>%1 is not a coordinate system for positions on the ground; choose a projected one.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>%1 is not written in UTF-8; save it as UTF-8.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>%1 is the same file as %2; it was read once.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>%1 is too large for a settings file.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>%1 is too large for the memory of this machine; split it.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>%1 more columns are not known and were kept uninterpreted.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>%1 must be a list.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>%1 shows formula errors in %2; these cells were taken as empty. Mend the formulas.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>%1 was not read: it has no heading of plots, stems or stations.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>%1 was not read: it is empty or has headings only.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>%1 was read as a spreadsheet&apos;s number of a day.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>%1 would unfold to %2 MB; that is no table of records. Save it as CSV.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>%1, layer %2</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>%1, radius %2 m</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>%1, sheet %2</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>%1: a plot sheet ends in .pdf, .png or .svg.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>%1: each circle needs at least radius_m.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>%1: the name must end in %2.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>%1… (%2 characters)</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>(%1 to %2)</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>(beyond the last heading)</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>, %1 m²/ha</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>, visit %1</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>; known are %1</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>; near it: %1</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>; near them: %1</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>? (line %1)</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>A check&apos;s slug is lower case with hyphens, not %1.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>A circle needs a positive radius in metres, not %1.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>A column of dates holds years only.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>A column was not recognised.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>A column with values has no heading.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>A comma or point may be a decimal mark or a thousands mark.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>A concentric design needs its circles: give circles with radius_m and min_dbh_cm.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>A dbh class needs a positive width in centimetres, not %1.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>A design of kind %1 has no circles: set kind to concentric or drop them.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>A file could not be used.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>A file was given twice.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>A heading can mean two things.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>A heading that was asked for is in none of the files.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>A layer has both points and columns of coordinates.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>A page of %1 could not be made; nothing was written.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>A plot radius of {radius_m:g} was given, but the design is %1, whose own limits hold.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>A plot that reaches %1 m from its centre fits on %2 at no scale.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>A quotation mark is left open in %1, probably in line %2; every line was read by itself. Look at that line and remove the mark.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>A quotation mark was opened and not closed.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>A rectangle needs its south-west corner first and its north-east corner second, not (%1, %2) and (%3, %4).</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>A second line of headings was skipped.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>A sheet or layer was not read.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>A sheet shows formula errors.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>An angle count needs its basal_area_factor.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Angle count: each stem has its own limiting distance, so no circle is drawn.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Azimuth ticks: %1, clockwise from %2 north%3. Up on the map is %4%5.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Azimuths cannot be counted from the north of %1: choose a projected system.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>CRS unit</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Column %1 has no heading; its cells are kept, but not interpreted.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Column %1 holds years, not days; %2.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Column {column} of {file} is said to be in {stated}, but its values are read in {expected}.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Columns %1 and %2 (column %3) both claim the field %4; the first was taken, the other is kept beside it. Say which one is meant with --map %5=HEADING.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Computing positions</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Dates stand as day numbers of a spreadsheet.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Day and month of a date may be exchanged.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Decimal points and decimal commas stand in one column.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Drawing plot %1</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Edge handling &quot;%1&quot; cannot be done; use &quot;none&quot;, or &quot;nearest&quot; with distances to the edge.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Line %1, column %2: %3</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Lines before the headings were skipped.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Lines have too few or too many cells.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Lines name a plot but no stem.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Looking into %1</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>No file has a column for the %1: of no stem %2.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>No file has the heading %1 that was asked for %2; correct the mapping.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>No file of records was given; give CSV, XLSX, GeoJSON or GeoPackage files.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>No plot radius was given: set it (--radius, or radius_m in the settings).</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>No stem is recorded in %1; they stand for plots without stems.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>No. {stem} has no %1 (line {line}): %2.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>No. {stem} has no dbh (line {line}); %1.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>No. {stem} is borderline: %1; counted as %2, in with probability {inside_probability:.2f}.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>No. {stem} stands on this visit again (line {line}); both records are counted.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>No. {stem} stands {beyond_m:.2f} m outside its limiting distance of {limiting_distance_m:.2f} m (distance {distance_m:.2f} m); it is not counted.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>No. {stem}: a vertical angle of {text} degrees cannot be; it is not known whether the stem is in.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>No. {stem}: the azimuth {text} lies outside the full circle of 0 to %1 (%2); the stem was not placed.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>No. {stem}: the dbh of {dbh_cm:.1f} cm lies at the class limit of {class_limit_cm:g} cm; with probability {class_change_probability:.2f} it belongs to the other side.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>No. {stem}: the design takes no stem of {dbh_cm:.1f} cm; it is not counted.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>No. {stem}: the diameter {text} is not above zero; %1.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>No. {stem}: the distance {text} is not above zero; it is not known whether the stem is in.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>No. {stem}: the slope distance {distance_m:g} has no vertical angle; it is not known whether the stem is in.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>No. {stem}: with a dbh of {dbh_cm:.1f} cm its circle ends at {limiting_distance_m:.2f} m, but it stands at {distance_m:.2f} m, in a circle that its dbh does not reach; it is not counted.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Not drawn, since azimuth or distance is not known: %1%2.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Not said, so assumed: {assumed}. Confirm them in the settings.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Parquet needs the package pyarrow; install it with: python3 -m pip install &apos;stemmap[parquet]&apos;</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Plot %1</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Plot %1 does not fit on %2 at 1:%3; 1:%4 is the largest scale that does.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Plot {plot} has easting and northing but no known coordinate system; it is drawn around its own centre.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Plot {plot} has no coordinates; it is drawn around its own centre.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Plot {plot} has no radius; nothing is said per hectare.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Plot {plot} has no stems and no status that says why; it counts nowhere.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Plot {plot} has one coordinate without the other; it is drawn around its own centre.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Plot {plot} has stems ({stems}) but no row in the plots table; it is mapped without coordinates.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Plot {plot} is said to be {plot_status}, but stems were recorded on it ({stems}).</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Plot {plot}: longitude and latitude lie {apart_m:.0f} m from easting and northing; the former are used.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Plot {plot}: stems were measured from a station (such as {station}) whose azimuth and distance from the centre no stations table gives; they are not placed ({stems}).</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Plot {plot}: the coordinates lie outside their coordinate system; it is drawn around its own centre.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Plot {plot}: the magnetic declination is not known (no place or no date); the map is turned by it.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Plot {plot}: there is no such longitude and latitude; it is drawn around its own centre.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Post-stratification needs the area of every stratum, each a positive number.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Projecting stems</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Putting the records together</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Qt runs already, but not as the %1 that is needed here.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Reading %1</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Reading the lines of %1</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Reading the values of %1</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Records %1 of %2 have no point; their place is unknown.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Records of a layer have no point.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Safety first: look out for dead trees, hanging branches, steep or wet ground and weather, and do not work alone. The rules of your employer and of the place come before this sheet. This map is no legal survey.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Settings files lie beside the upload, but none was used.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Settings were taken from %1 beside the upload, because none were named.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Settings were taken from a file beside the upload.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Several settings files lie beside the upload (%1); none was used. Name one with --settings.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Several settings files were given (%1); give one.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Sheet %1 of %2 is hidden or holds no cells and was not read.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Slope or aspect is not known, so the circle is drawn as on level ground.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Stems name no plot.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Summarising</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The azimuth unit %1 is not known: choose one of %2.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The azimuth unit is %1, but none of {azimuths} azimuths is above 360: they look like degrees.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The azimuth unit is degree, but {beyond_360} of {azimuths} azimuths are above 360: they look like %1.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The basal area factor</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The character set was assumed.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The check %1 has an unknown family or severity.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The check %1 is declared twice.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The check %1 must explain what, why and what to do.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The check {name} stopped: {fault}</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The circle of %1 m has an offset that is no place: give offset_azimuth and a non-negative offset_m.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The circle of %1 m takes stems from %2 cm to under %3 cm, which is none: correct min_dbh_cm or max_dbh_cm.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The coordinate system %1 is not known; write an EPSG code such as EPSG:25832, or leave it out.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The coordinate system {text} is not known; write an EPSG code such as EPSG:25832.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The design %1 is not known: choose one of %2.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The design is an angle count, but no basal_area_factor is given in the settings.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The design is concentric, but no circles are given in the settings.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The drawing for %1 could not be made; nothing was written.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The edge correction &quot;%1&quot; is not known; use &quot;none&quot;, &quot;donnelly&quot; or &quot;cdf&quot;.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The folder %1 cannot be made: %2. Go where you may write.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The font %1 cannot be loaded; install stemmap again.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The heading %1 %2. The column is kept, but not interpreted; if it is a field, say which one with --map FIELD=HEADING.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The heading %1 was taken as %2; it could also be %3. If so, say it with --map %4=%5.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The headings stand again among the records.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The headings stand again in %1; skipped.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The headings stand in line %1; what stands above them was skipped.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The largest radius of an angle count</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The letters of %1 were read as Western European (Windows 1252); line %2 reads %3. If that is wrong, save the file as UTF-8.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The paper %1 is not known: choose one of %2.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The picture for %1 could not be made; nothing was written.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The plot has more than %1 stems, so only those with findings are numbered.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The plot radius</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The plot radius is not known, so no circle is drawn.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The radius of a circle</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The settings give %1, which the kind &quot;%2&quot; does not use; was &quot;%3&quot; meant?</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The settings have a section [%1] that is not known%2.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The slope rule %1 is not known: choose one of %2.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The smallest dbh counted</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The status &apos;{text}&apos; (first in {file}, line {line}; stems: {stems}) is not known; counted as living.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The system lacks libraries that drawing needs (%1); nothing was written. On Debian or Ubuntu: %2</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The upload</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>There is no display for a window; start stemmap in a desktop session, or see stemmap --help for what works without one.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>There is no field %1 to map a heading to%2.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>There is no file %1; check its name and folder.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>There is no plot %1; there are %2 ...</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>There is no plot to draw, so %1 was not written.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>There is no setting %1.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>There is no settings file %1; check its name and folder.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>This bar is 100 mm long when printed at 100 % (actual size).</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Thousands are marked in a column.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Too far out for this map, an arrow at the rim: %1.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Too few cells in %1; the missing cells are taken as empty.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Too many cells in %1; the surplus is kept under %2, but its earlier cells may stand one column too far to the right. Mend these lines in the file.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Two columns claim the same field.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Units stand in the cells of a column.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Values of one plot differ from line to line.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Writing %1</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>[%1] has a key %2 that is not known%3.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>[design] circles: max_dbh_cm must be above min_dbh_cm.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>[errors] borderline_probability must be below 0.5.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>[status] %1 stands under %2 and %3.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>a Parquet file; export it as CSV or GeoPackage</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>a compressed file (7z)</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>a compressed file (RAR)</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>a compressed file (gzip)</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>a picture (GIF)</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>a picture (JPEG)</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>a picture (PNG)</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>a stratum has fewer than two plots</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>against the last visit</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>an angle count</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>an angle count has no one inclusion rule for all its stems</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>an old Excel or Word file, or one with a password; save it as XLSX or CSV</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>and %1 more species</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>another column names the visits, so it is kept beside them</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>at the last visit</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>at {distance_m:.2f} m its dbh of {dbh_cm:.1f} cm, close to a class limit, decides</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>azimuth</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>azimuth unit</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>basal area</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>basal area m²/ha</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>borderline zone, ± %1 m</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>cells are written in an unusual way</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>circle on the slope</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>cluster to which the plot belongs</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>column %1</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>concentric circles</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>coordinate system of easting and northing</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>date</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>day of the measurement</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>dbh not known</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>decimal mark</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>decimal points (%1) and decimal commas (%2) stand side by side; each cell was read by its own mark.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>degree</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>degrees</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>diameter at breast height</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>diameter at breast height in millimetres</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>diameter higher up the stem</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>direction from the plot centre</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>direction in which the ground falls</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>distance</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>distance from the plot centre</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>easting of the plot centre in its coordinate system</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>elevation of the plot centre</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>for some stems it cannot be decided whether they are in (distance, dbh or slope is missing)</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>free text</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>girth at breast height</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>gon</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>gons</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>grid</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>grid N</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>grid north</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>has a first line far too long for headings</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>height at which the diameter was measured</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>height of the tree</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>height of the upper diameter</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>hidden from the centre</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>in</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>in or out of the circle</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>instrument used</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>is empty: it has no line of text</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>is not a field of a table of %1</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>is not known</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>is not known; near it: %1</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>it has no place on the map</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>it is known whether it is in</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>it is not known whether it is in</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>it was used all the same</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>its basal area is not known</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>latitude of the plot centre, WGS 84</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>living stems within %1 m, one position a tree</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>living, dead, cut or gone, as typed</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>longitude of the plot centre, WGS 84</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>magnetic</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>magnetic N</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>magnetic declination, east positive</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>magnetic north</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>may be mistyped</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>measured %1</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>measured, empty, non-forest or not reached</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>mils</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>mils (6000 to the circle)</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>mils (6300 to the circle)</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>mils (6400 to the circle)</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>must be above zero</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>must not be below zero</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>name or number of the sample plot</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>nicht erreicht</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>no findings</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>no plot radius was given</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>no plot with a known value</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>no species: %1</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>no stem has its four neighbours nearer than the edge</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>no stems</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>no stems were uploaded and the plot is not said to be empty</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>non forest</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>non forêt</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>northing of the plot centre in its coordinate system</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>not accessible</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>not found</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>not known</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>not reached</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>number</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>number of the stem</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>number of the tree; stems of one tree may share a position</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>one measurement of one plot, named as typed: a date, a year, a cycle</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>one plot has no sampling error</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>only stems whose fourth neighbour is nearer than the edge</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>out</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>out (hollow)</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>per ha</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>perhaps %1 %2 (probability %3)</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>plot</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>plots</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>point from which the stem was measured</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>point x</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>point y</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>radius of this plot&apos;s circle</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>record not understood</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>second diameter, measured crosswise</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>second diameter, measured crosswise, in millimetres</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>simple random sampling</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>slope of the ground</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>some stems that are in have no dbh</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>standing dead</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>standing live</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>stations</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>stem</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>stems</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>stems outside the circle are not recorded to a margin</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>stems per ha</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>stems with plots</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>stratum %1</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>stratum to which the plot belongs</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>the %1 in %2 and its like was taken as a %3, but nothing settles it. If that is wrong, save the file with another decimal mark.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>the circle was laid out on the slope; on the map it is no circle</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>the circles or the basal area factor of the design were not given</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>the place is known</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>the plot is not forest</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>the plot was not reached</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>the radius of the design holds</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>the species of the stems or of their neighbours is missing</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>the unit in %1 and its like was left out of the number.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>they name the visits</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>thousands mark</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>to look at</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>too few stems</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>tree species, as typed</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>true</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>true N</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>true north</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>vertical angle of a slope distance, up positive</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>visit %1</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>what cannot be seen from the centre is not computed yet</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>where it may stand</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>who measured</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>whole plot</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>without number</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>worth %1 stems/ha</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{distance_m:.2f} m against a limiting distance of {limiting_distance_m:.2f} m</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{file}, line {line}: &apos;{text}&apos; in the column %1 cannot be; %2.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{file}, line {line}: &apos;{text}&apos; in the column %1 is no %2; it was left out.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{file}, line {line}: a stem record names no plot; it is kept and counted nowhere.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{file}, line {line}: plot {plot} stands in the plots table again; the first row is used.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{texts} different status texts of {stems} stems are not known; they are counted as living.</source>
        <translation type="unfinished"></translation>
    </message>
</context>
</TS>
