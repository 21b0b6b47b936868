import type { Pairs } from "../stored-text";

/** Why a cell is no number. */
const NUMBERS: Pairs = [
  ["The cell is empty: a number was expected.", "Die Zelle ist leer: Hier gehört eine Zahl hin."],
  [
    "The value is empty: nothing was measured, or another column is meant.",
    "Der Wert ist leer: Es wurde nichts gemessen, oder eine andere Spalte ist gemeint.",
  ],
  [
    "“{text}” is a formula without a stored result. Let the spreadsheet calculate, then save it again.",
    "„{text}“ ist eine Formel ohne gespeichertes Ergebnis. Lassen Sie die Tabellenkalkulation rechnen und speichern Sie noch einmal.",
  ],
  [
    "“{text}” is an error value of a spreadsheet, not a number. Correct the cell.",
    "„{text}“ ist ein Fehlerwert einer Tabellenkalkulation, keine Zahl. Berichtigen Sie die Zelle.",
  ],
  [
    "“{text}” holds separators between thousands. Write the digits without them.",
    "„{text}“ enthält Tausendertrennzeichen. Schreiben Sie die Ziffern ohne sie.",
  ],
  [
    "“{text}” is hexadecimal. Write it as a decimal number.",
    "„{text}“ ist hexadezimal. Schreiben Sie eine Dezimalzahl.",
  ],
  [
    "“{text}” is not a finite number. Leave the row out if nothing was measured.",
    "„{text}“ ist keine endliche Zahl. Lassen Sie die Zeile weg, wenn nichts gemessen wurde.",
  ],
  [
    "“{text}” begins with a typographic minus. Write a hyphen-minus (-).",
    "„{text}“ beginnt mit einem typografischen Minus. Schreiben Sie einen Bindestrich (-).",
  ],
  [
    "“{text}” holds text after the number. Keep the number alone; a unit belongs in its own column.",
    "„{text}“ enthält Text nach der Zahl. Die Zahl muss allein stehen; die Einheit gehört in eine eigene Spalte.",
  ],
  [
    "“{text}” is larger than anything that can be measured. Correct the cell.",
    "„{text}“ ist größer als alles, was sich messen lässt. Berichtigen Sie die Zelle.",
  ],
  ["“{text}” is not a number.", "„{text}“ ist keine Zahl."],
  [
    "“{text}” holds “{other}”, but the decimal mark of this mapping is “{mark}”. Change the decimal mark, and write the digits without separators between thousands.",
    "„{text}“ enthält „{other}“, das Dezimalzeichen dieser Zuordnung ist aber „{mark}“. Ändern Sie das Dezimalzeichen, und schreiben Sie die Ziffern ohne Tausendertrennzeichen.",
  ],
  [
    "“{text}” holds “{other}”, but the decimal mark of this mapping is “{mark}”. Change the decimal mark if it is one.",
    "„{text}“ enthält „{other}“, das Dezimalzeichen dieser Zuordnung ist aber „{mark}“. Ändern Sie das Dezimalzeichen, wenn es eines ist.",
  ],
  [
    "“{text}” holds “{other}”, but the decimal mark of this mapping is “{mark}”. Change the decimal mark if it is one, or write it as {digits} if “{again}” separates thousands.",
    "„{text}“ enthält „{other}“, das Dezimalzeichen dieser Zuordnung ist aber „{mark}“. Ändern Sie das Dezimalzeichen, wenn es eines ist, oder schreiben Sie {digits}, wenn „{again}“ Tausender trennt.",
  ],
  [
    "A part temperature of {text} °C is outside {least} to {most} °C. Is it in another unit, or another column?",
    "Eine Teiletemperatur von {text} °C liegt nicht zwischen {least} und {most} °C. Steht sie in einer anderen Einheit oder in einer anderen Spalte?",
  ],
];

/** Why a cell is no time. */
const TIMES: Pairs = [
  [
    "The time is empty: write when the piece was measured, or map no time column.",
    "Die Zeit ist leer: Schreiben Sie, wann das Teil gemessen wurde, oder ordnen Sie keine Zeitspalte zu.",
  ],
  [
    "“{text}” is a formula or an error value of a spreadsheet, not a time. Correct the cell.",
    "„{text}“ ist eine Formel oder ein Fehlerwert einer Tabellenkalkulation, keine Zeit. Berichtigen Sie die Zelle.",
  ],
  [
    "“{text}” may be day first or month first. Choose the date format in the mapping, or write it as 2024-01-31 14:05.",
    "„{text}“ kann mit dem Tag oder mit dem Monat beginnen. Wählen Sie das Datumsformat in der Zuordnung, oder schreiben Sie es wie 2024-01-31 14:05.",
  ],
  [
    "“{text}” looks like the serial date of a spreadsheet. Choose that date format in the mapping.",
    "„{text}“ sieht aus wie die Tageszahl einer Tabellenkalkulation. Wählen Sie dieses Datumsformat in der Zuordnung.",
  ],
  [
    "“{text}” is not a time between {first} and {last}. Write it like {example}.",
    "„{text}“ ist keine Zeit zwischen {first} und {last}. Schreiben Sie sie wie {example}.",
  ],
  [
    "The date is empty: write on which day the piece was measured.",
    "Das Datum ist leer: Schreiben Sie, an welchem Tag das Teil gemessen wurde.",
  ],
  [
    "“{text}” holds more than a date, and another column is mapped for the time of day. Map one of the two, or write the date alone.",
    "„{text}“ enthält mehr als ein Datum, und für die Uhrzeit ist eine andere Spalte zugeordnet. Ordnen Sie eine von beiden zu, oder schreiben Sie das Datum allein.",
  ],
  [
    "“{text}” is not a date between {first} and {last}. Write it like {example}.",
    "„{text}“ ist kein Datum zwischen {first} und {last}. Schreiben Sie es wie {example}.",
  ],
  [
    "The time of day is empty: write when on that day the piece was measured.",
    "Die Uhrzeit ist leer: Schreiben Sie, wann an diesem Tag das Teil gemessen wurde.",
  ],
  [
    "“{text}” is not a time of day. Write it like 14:05:00 or 2:05 PM.",
    "„{text}“ ist keine Uhrzeit. Schreiben Sie sie wie 14:05:00 oder 2:05 PM.",
  ],
  [
    "The first time of the mapping is unreadable. {rest}",
    "Die erste Zeit der Zuordnung ist nicht lesbar. {rest}",
  ],
];

/** Why a row is refused, or what was taken of it otherwise than it stands. */
const ROWS: Pairs = [
  [
    "The row has {count} fields, the header {columns}. Look for a separator too many or too few, or a text that needs quotes.",
    "Die Zeile hat {count} Felder, die Kopfzeile {columns}. Suchen Sie nach einem Trennzeichen zu viel oder zu wenig oder nach einem Text, der Anführungszeichen braucht.",
  ],
  [
    'Text follows a closing quote. Double a quote (") that is part of the text, or take the quotes away.',
    "Nach einem schließenden Anführungszeichen folgt Text. Verdoppeln Sie Anführungszeichen (U+0022), die zum Text gehören, oder nehmen Sie sie weg.",
  ],
  [
    "None of the value columns holds a value in this row.",
    "Keine der Wertespalten hat in dieser Zeile einen Wert.",
  ],
  ["The feature is empty: name what was measured.", "Das Merkmal ist leer: Nennen Sie, was gemessen wurde."],
  [
    "The text for {field} has {count} characters, at most {most} are taken: “{text}”. Is another column meant?",
    "Der Text für „{field}“ hat {count} Zeichen, höchstens {most} werden angenommen: „{text}“. Ist eine andere Spalte gemeint?",
  ],
  [
    "The unit “{text}” is not known. Use mm, in or deg (µm is read too).",
    "Die Einheit „{text}“ ist nicht bekannt. Verwenden Sie mm, in oder deg (auch µm wird gelesen).",
  ],
  [
    "The row states {unit}, but line {line} states no unit for this feature. State the unit in every row.",
    "Die Zeile nennt {unit}, Zeile {line} aber keine Einheit für dieses Merkmal. Nennen Sie die Einheit in jeder Zeile.",
  ],
  [
    "The row states {unit}, but line {line} states {kept} for this feature. A length and an angle cannot be the same feature.",
    "Die Zeile nennt {unit}, Zeile {line} aber {kept} für dieses Merkmal. Eine Länge und ein Winkel können nicht dasselbe Merkmal sein.",
  ],
  [
    "Both tolerance limits are {limit}. Leave them empty where the feature has no tolerance.",
    "Beide Toleranzgrenzen sind {limit}. Lassen Sie sie leer, wenn das Merkmal keine Toleranz hat.",
  ],
  [
    "The lower tolerance limit {low} lies above the upper one, {high}. Correct or exchange them.",
    "Die untere Toleranzgrenze {low} liegt über der oberen, {high}. Berichtigen oder vertauschen Sie sie.",
  ],
  ["{name}: µm are kept as mm (1 µm = 0.001 mm).", "{name}: µm werden als mm gespeichert (1 µm = 0,001 mm)."],
  [
    "{name}: the nominal {nominal} lies outside its tolerance limits ({lower} to {upper}). Limits are absolute, not deviations from nominal.",
    "{name}: Das Nennmaß {nominal} liegt außerhalb seiner Toleranzgrenzen ({lower} bis {upper}). Toleranzgrenzen sind absolut, keine Abmaße.",
  ],
  [
    "{name}: no unit here; {unit} is taken, as line {line} states.",
    "{name}: Hier steht keine Einheit; {unit} wird angenommen, wie in Zeile {line} angegeben.",
  ],
  [
    "{name}: values in {text} are converted to {unit}, the unit of line {line} (1 in = 25.4 mm exactly).",
    "{name}: Werte in {text} werden in {unit} umgerechnet, die Einheit von Zeile {line} (1 in = genau 25,4 mm).",
  ],
  [
    "{name}: this row states {quantity} {text}, line {line} states {none}. The measurement is taken, the first statement stands.",
    "{name}: Diese Zeile nennt {quantity} {text}, Zeile {line}: {none}. Die Messung wird angenommen, die erste Angabe gilt.",
  ],
  [
    "The same piece, feature and time as line {line}, with another value ({value} instead of {first}). The first was taken. If the piece was measured twice, give the readings different times.",
    "Teil, Merkmal und Zeit wie in Zeile {line}, aber ein anderer Wert ({value} statt {first}). Der erste wurde angenommen. Wurde das Teil zweimal gemessen, geben Sie den Ablesungen verschiedene Zeiten.",
  ],
  [
    "“{feature}” is entered as counts on a {chart} chart, for every row says on how many it was found. Choose another chart in the control plan if that is not so.",
    "„{feature}“ ist als Anzahl auf einer {chart}-Karte eingetragen, denn jede Zeile nennt ihren Prüfumfang. Wählen Sie im Prüfplan eine andere Karte, wenn das nicht stimmt.",
  ],
  [
    "The number inspected is {text}: it is above 0, at most {most}. Leave it empty where it is the plan's own size.",
    "Der Prüfumfang ist {text}: Er liegt über 0 und ist höchstens {most}. Lassen Sie ihn leer, wo er der des Prüfplans ist.",
  ],
  [
    "The control plan charts counts, and {value} is no whole number from 0 on.",
    "Der Prüfplan führt Anzahlen, und {value} ist keine ganze Zahl ab 0.",
  ],
  [
    "The control plan has {count} pieces looked at, and {value} nonconforming are more than that.",
    "Laut Prüfplan werden {count} Teile geprüft, und {value} fehlerhafte sind mehr.",
  ],
  [
    "{count} pieces were inspected, and {value} nonconforming are more than that.",
    "{count} Teile wurden geprüft, und {value} fehlerhafte sind mehr.",
  ],
  [
    "On how many it was found is not stated, and the control plan has no usual number. Map the column of the number inspected, or enter a usual one in the plan.",
    "An wie vielen gezählt wurde, ist nicht angegeben, und der Prüfplan nennt keine übliche Zahl. Ordnen Sie die Spalte des Prüfumfangs zu, oder geben Sie im Prüfplan eine übliche Zahl ein.",
  ],
  [
    "The control plan counts among always {count} pieces, and this row has {inspected}. An np chart takes one size: choose p in the plan for sizes that vary.",
    "Der Prüfplan zählt immer unter {count} Teilen, und diese Zeile hat {inspected}. Eine np-Karte hat einen Umfang: Wählen Sie im Prüfplan p für wechselnde Umfänge.",
  ],
  [
    "The control plan counts on always {count} units, and this row has {inspected}. A c chart takes one size: choose u in the plan for sizes that vary.",
    "Der Prüfplan zählt immer an {count} Einheiten, und diese Zeile hat {inspected}. Eine c-Karte hat einen Umfang: Wählen Sie im Prüfplan u für wechselnde Umfänge.",
  ],
  [
    "Nonconforming pieces are counted among a whole number of them, at most {most}, and this row has {inspected}.",
    "Fehlerhafte Teile werden unter einer ganzen Zahl von ihnen gezählt, höchstens {most}, und diese Zeile hat {inspected}.",
  ],
  [
    "The file measures “{feature}” in {unit}, the control plan in {planned}. Correct the one that is wrong.",
    "Die Datei misst „{feature}“ in {unit}, der Prüfplan in {planned}. Berichtigen Sie, was falsch ist.",
  ],
  [
    "{count} values lie more than {widths} tolerance widths from nominal, in rows {rows}: likely another unit or a misplaced decimal. They are stored as they are.",
    "{count} Werte liegen mehr als {widths} Toleranzbreiten vom Nennmaß entfernt, in den Zeilen {rows}: wahrscheinlich eine andere Einheit oder ein verrutschtes Komma. Sie werden gespeichert, wie sie sind.",
  ],
  [
    "{count} values lie more than {widths} tolerance widths from nominal, the first in rows {rows}: likely another unit or a misplaced decimal. They are stored as they are.",
    "{count} Werte liegen mehr als {widths} Toleranzbreiten vom Nennmaß entfernt, die ersten in den Zeilen {rows}: wahrscheinlich eine andere Einheit oder ein verrutschtes Komma. Sie werden gespeichert, wie sie sind.",
  ],
  [
    "1 value lies more than {widths} tolerance widths from nominal, in row {rows}: likely another unit or a misplaced decimal. It is stored as it is.",
    "1 Wert liegt mehr als {widths} Toleranzbreiten vom Nennmaß entfernt, in Zeile {rows}: wahrscheinlich eine andere Einheit oder ein verrutschtes Komma. Er wird gespeichert, wie er ist.",
  ],
  [
    "The latest measurement is of {time}, which is yet to come by the plant's clock. Look at the clock of the machine or gauge that it comes from: whatever is measured until then counts as late. Undo this intake if that clock is wrong.",
    "Die letzte Messung ist von {time}, und so weit ist die Uhr des Werks noch nicht. Sehen Sie nach der Uhr der Maschine oder des Messmittels, von dem sie kommt: Was bis dahin gemessen wird, gilt als verspätet. Machen Sie diese Annahme rückgängig, wenn jene Uhr falsch geht.",
  ],
  [
    "No unit is stated for “{feature}”: its values are kept as they are. Set the unit in the control plan.",
    "Für „{feature}“ ist keine Einheit angegeben: Die Werte werden gespeichert, wie sie sind. Setzen Sie die Einheit im Prüfplan.",
  ],
  [
    "The file gives “{feature}” the {quantity} {value}, the control plan {none}. The plan stands; change it there if the drawing has changed.",
    "Die Datei nennt für „{feature}“ {quantity} {value}, der Prüfplan: {none}. Der Prüfplan gilt; ändern Sie ihn dort, wenn sich die Zeichnung geändert hat.",
  ],
];

/** What a mapping lacks, and what the suggested one leaves open. */
const MAPPINGS: Pairs = [
  [
    "The file has no column “{column}”. Choose another column for {field}.",
    "Die Datei hat keine Spalte „{column}“. Wählen Sie eine andere Spalte für „{field}“.",
  ],
  [
    "The header names “{column}” {count} times, so {field} is ambiguous. Give the columns different names in the file.",
    "Die Kopfzeile nennt „{column}“ {count}-mal; „{field}“ ist also nicht eindeutig. Geben Sie den Spalten in der Datei verschiedene Namen.",
  ],
  [
    "The decimal mark and the separator are both a comma. Change one.",
    "Dezimalzeichen und Trennzeichen sind beide ein Komma. Ändern Sie eines.",
  ],
  [
    "A time column is mapped, so no first time may be given. Take one away.",
    "Eine Zeitspalte ist zugeordnet, also darf keine erste Zeit angegeben sein. Nehmen Sie eines von beiden weg.",
  ],
  [
    "A column is mapped for the time of day, and none for the date. Choose the column of dates.",
    "Für die Uhrzeit ist eine Spalte zugeordnet, für das Datum keine. Wählen Sie die Spalte mit dem Datum.",
  ],
  [
    "Date and time of day are mapped to the same column, “{column}”. Choose another one, or none, for the time of day.",
    "Datum und Uhrzeit sind derselben Spalte zugeordnet, „{column}“. Wählen Sie für die Uhrzeit eine andere oder keine.",
  ],
  [
    "The seconds between two rows must be a number of at least 0.",
    "Die Sekunden zwischen zwei Zeilen müssen eine Zahl von mindestens 0 sein.",
  ],
  [
    "No column holds the value. Choose the column with the measured values.",
    "Keine Spalte enthält den Wert. Wählen Sie die Spalte mit den Messwerten.",
  ],
  [
    "Nothing names the feature. Choose its column, or write its name if the file holds only one.",
    "Nichts nennt das Merkmal. Wählen Sie seine Spalte, oder schreiben Sie seinen Namen, wenn die Datei nur eines enthält.",
  ],
  [
    "No column holds values. Choose the columns with measured values.",
    "Keine Spalte enthält Werte. Wählen Sie die Spalten mit Messwerten.",
  ],
  [
    "The wide layout has one {field} for each value column, so no column of its own.",
    "Im breiten Aufbau hat jede Wertespalte ihre eigene Angabe „{field}“, also gibt es dafür keine Spalte.",
  ],
  [
    "Column “{column}” has no feature name. Write one.",
    "Spalte „{column}“ hat keinen Merkmalsnamen. Schreiben Sie einen.",
  ],
  [
    "Two columns are mapped to the feature “{feature}”. Give them different names.",
    "Zwei Spalten sind dem Merkmal „{feature}“ zugeordnet. Geben Sie ihnen verschiedene Namen.",
  ],
  [
    "The file has no header: its first row, “{text}”, holds measurements. Put a row above it that names the columns (feature, value, …).",
    "Die Datei hat keine Kopfzeile: Ihre erste Zeile, „{text}“, enthält Messungen. Setzen Sie eine Zeile darüber, die die Spalten nennt (Merkmal, Wert, …).",
  ],
  [
    "Each row seems to hold one piece with {count} measured {features}: check which columns are features, and state their tolerance limits.",
    "Jede Zeile scheint ein Teil mit {count} gemessenen {features} zu enthalten: Prüfen Sie, welche Spalten Merkmale sind, und geben Sie deren Toleranzgrenzen an.",
  ],
  [
    "No column names the feature: choose one, or write the name of the only feature.",
    "Keine Spalte nennt das Merkmal: Wählen Sie eine, oder schreiben Sie den Namen des einzigen Merkmals.",
  ],
  [
    "No column of values was recognised: choose it.",
    "Keine Spalte mit Werten wurde erkannt: Wählen Sie sie.",
  ],
  [
    "No column of times was recognised: the rows are taken in the order of the file.",
    "Keine Spalte mit Zeiten wurde erkannt: Die Zeilen werden in der Folge der Datei angenommen.",
  ],
  [
    "The column “{column}” states no time: the rows are taken in the order of the file.",
    "Die Spalte „{column}“ nennt keine Zeit: Die Zeilen werden in der Folge der Datei angenommen.",
  ],
  [
    "The column “{column}” holds times of day and is read together with the date in “{date}”: check it.",
    "Die Spalte „{column}“ enthält Uhrzeiten und wird zusammen mit dem Datum in „{date}“ gelesen: Prüfen Sie das.",
  ],
  [
    "The tolerance columns seem to hold deviations from nominal. Tolerance limits are absolute here, so the columns are left out: write absolute limits into the file, or set them in the plan.",
    "Die Toleranzspalten scheinen Abmaße zu enthalten. Toleranzgrenzen sind hier absolut, die Spalten bleiben also weg: Schreiben Sie absolute Grenzen in die Datei, oder setzen Sie sie im Prüfplan.",
  ],
  [
    "Dates like “{text}” may be day first or month first, and no row tells. Day first is suggested: check it.",
    "Daten wie „{text}“ können mit dem Tag oder dem Monat beginnen, und keine Zeile verrät es. Vorgeschlagen ist der Tag zuerst: Prüfen Sie das.",
  ],
];

export const ROW_TEXTS: Pairs = [...NUMBERS, ...TIMES, ...ROWS, ...MAPPINGS];
