import type { Pairs } from "../stored-text";

const EXPORT = "Export the measurements as CSV, XLSX or QIF results.";
const EXPORTIEREN = "Exportieren Sie die Messungen als CSV, XLSX oder QIF-Ergebnisse.";

/** What a file is that holds no measurements. */
const KINDS: Pairs = [
  [
    "The file is empty: 0 bytes. Export it again.",
    "Die Datei ist leer: 0 Byte. Exportieren Sie sie noch einmal.",
  ],
  [
    "The file is empty: not even a header was found.",
    "Die Datei ist leer: Nicht einmal eine Kopfzeile wurde gefunden.",
  ],
  [
    "The file holds a header and no row below it: nothing was stored.",
    "Die Datei hat eine Kopfzeile und keine Zeile darunter: Nichts wurde gespeichert.",
  ],
  [
    "Cancelled by a person. Nothing of this file was stored.",
    "Von einer Person abgebrochen. Nichts aus dieser Datei wurde gespeichert.",
  ],
  ["The file has no header.", "Die Datei hat keine Kopfzeile."],
  [
    "This is an old spreadsheet (.xls) or a workbook protected by a password. Save it as XLSX without password, or as CSV.",
    "Das ist eine alte Arbeitsmappe (.xls) oder eine mit Kennwort geschützte. Speichern Sie sie als XLSX ohne Kennwort oder als CSV.",
  ],
  [
    `This is a PDF; measurements cannot be read from it. ${EXPORT}`,
    `Das ist ein PDF; Messungen lassen sich daraus nicht lesen. ${EXPORTIEREN}`,
  ],
  [
    `This is a picture ({kind}), not a measurement file. ${EXPORT}`,
    `Das ist ein Bild ({kind}), keine Messdatei. ${EXPORTIEREN}`,
  ],
  [
    "This file is compressed (gzip). Unpack it first.",
    "Diese Datei ist komprimiert (gzip). Entpacken Sie sie zuerst.",
  ],
  [
    "This is an archive (ZIP). Unpack it first; a workbook must be named .xlsx.",
    "Das ist ein Archiv (ZIP). Entpacken Sie es zuerst; der Name einer Arbeitsmappe muss auf .xlsx enden.",
  ],
  ["This is an archive ({kind}). Unpack it first.", "Das ist ein Archiv ({kind}). Entpacken Sie es zuerst."],
  [
    "This is an empty archive: there is nothing to read in it.",
    "Das ist ein leeres Archiv: Es gibt nichts darin zu lesen.",
  ],
  [
    `This is not a text file: it holds zero bytes. ${EXPORT}`,
    `Das ist keine Textdatei: Sie enthält Nullbytes. ${EXPORTIEREN}`,
  ],
  [
    "The file is named .xlsx but is not a workbook. Save it again from the spreadsheet.",
    "Der Name der Datei endet auf .xlsx, sie ist aber keine Arbeitsmappe. Speichern Sie sie aus der Tabellenkalkulation noch einmal.",
  ],
  [
    `This is XML or a web page, and no QIF results document. ${EXPORT}`,
    `Das ist XML oder eine Webseite und kein QIF-Ergebnisdokument. ${EXPORTIEREN}`,
  ],
  [
    `This is JSON, not a table of measurements. ${EXPORT}`,
    `Das ist JSON, keine Tabelle mit Messungen. ${EXPORTIEREN}`,
  ],
  [
    "The same file was brought in before, as intake {id} ({file}), and its rows state no time by which they could be told apart. It adds nothing. Undo that intake first if it was wrong.",
    "Dieselbe Datei wurde schon angenommen, als Annahme {id} ({file}), und ihre Zeilen nennen keine Zeit, an der sie zu unterscheiden wären. Sie fügt nichts hinzu. War jene Annahme falsch, machen Sie sie zuerst rückgängig.",
  ],
  [
    "The file took more than a minute to look at. Save the measurements as CSV and try again.",
    "Die Datei anzusehen dauerte länger als eine Minute. Speichern Sie die Messungen als CSV und versuchen Sie es noch einmal.",
  ],
  ["The file cannot be read: {why}.", "Die Datei lässt sich nicht lesen: {why}."],
];

/** What is wrong with a text file, after "Line 3: ". */
const LINES: Pairs = [
  [
    "the text is not UTF-8 (byte {byte} hex). Save the file as UTF-8, or choose Windows-1252 in the mapping.",
    "Der Text ist nicht UTF-8 (Byte {byte} hex). Speichern Sie die Datei als UTF-8, oder wählen Sie Windows-1252 in der Zuordnung.",
  ],
  [
    "The text is not valid UTF-16: the file is damaged or cut off. Save it as UTF-8.",
    "Der Text ist kein gültiges UTF-16: Die Datei ist beschädigt oder abgeschnitten. Speichern Sie sie als UTF-8.",
  ],
  [
    "a zero byte: this is not a text file, or UTF-16 without its mark. Export it as CSV in UTF-8.",
    "Ein Nullbyte: Das ist keine Textdatei oder UTF-16 ohne Kennung. Exportieren Sie sie als CSV in UTF-8.",
  ],
  [
    "a field is longer than {bytes} bytes. A quote that opens in this row is probably never closed.",
    "Ein Feld ist länger als {bytes} Byte. Vermutlich wird ein Anführungszeichen, das in dieser Zeile öffnet, nie geschlossen.",
  ],
  [
    "a field is longer than {bytes} bytes. Is the separator right?",
    "Ein Feld ist länger als {bytes} Byte. Stimmt das Trennzeichen?",
  ],
  [
    "the row that starts here is longer than {bytes} bytes. Look for a quote that is never closed.",
    "Die Zeile, die hier beginnt, ist länger als {bytes} Byte. Suchen Sie nach einem Anführungszeichen, das nie geschlossen wird.",
  ],
  [
    "the row has more than {columns} columns. Is the separator right?",
    "Die Zeile hat mehr als {columns} Spalten. Stimmt das Trennzeichen?",
  ],
  ["the row has more than {columns} columns.", "Die Zeile hat mehr als {columns} Spalten."],
  [
    'a quote that opens in the row that starts here is never closed. Close it, or double a quote (") that is part of the text.',
    "Ein Anführungszeichen, das in der hier beginnenden Zeile öffnet, wird nie geschlossen. Schließen Sie es, oder verdoppeln Sie Anführungszeichen (U+0022), die zum Text gehören.",
  ],
  [
    "a cell holds {count} characters, at most {most} are read.",
    "Eine Zelle enthält {count} Zeichen, höchstens {most} werden gelesen.",
  ],
  [
    "the {field} column holds more than {count} different texts. Is it mapped to a column of serials, times or values?",
    "Die Spalte „{field}“ enthält mehr als {count} verschiedene Texte. Ist sie einer Spalte mit Seriennummern, Zeiten oder Werten zugeordnet?",
  ],
  [
    "the file names more than {count} features. Is the feature column mapped to a column of serials or values?",
    "Die Datei nennt mehr als {count} Merkmale. Ist die Spalte der Merkmale einer Spalte mit Seriennummern oder Werten zugeordnet?",
  ],
  [
    "the sheet has more than {count} rows. Export the measurements as CSV.",
    "Das Tabellenblatt hat mehr als {count} Zeilen. Exportieren Sie die Messungen als CSV.",
  ],
];

const WORKBOOKS: Pairs = [
  [
    "The workbook is damaged or cut off: it has no directory. Save or copy it again.",
    "Die Arbeitsmappe ist beschädigt oder abgeschnitten: Ihr fehlt das Verzeichnis. Speichern oder kopieren Sie sie noch einmal.",
  ],
  [
    "The workbook is protected by a password. Save it without one.",
    "Die Arbeitsmappe ist mit einem Kennwort geschützt. Speichern Sie sie ohne.",
  ],
  [
    "The workbook is damaged: part “{part}” is doubled or packed in an unknown way. Save it again.",
    "Die Arbeitsmappe ist beschädigt: Der Bestandteil „{part}“ ist doppelt oder auf unbekannte Weise gepackt. Speichern Sie sie noch einmal.",
  ],
  [
    "The workbook is empty or damaged: its directory names no part.",
    "Die Arbeitsmappe ist leer oder beschädigt: Ihr Verzeichnis nennt keinen Bestandteil.",
  ],
  [
    "The workbook is damaged at part “{part}”: its packed bytes are not readable. Save it again.",
    "Die Arbeitsmappe ist am Bestandteil „{part}“ beschädigt: Die gepackten Bytes sind nicht lesbar. Speichern Sie sie noch einmal.",
  ],
  [
    "The workbook is damaged at part “{part}”: its size is not the one that the directory declares. Save it again.",
    "Die Arbeitsmappe ist am Bestandteil „{part}“ beschädigt: Er hat nicht die Größe, die das Verzeichnis angibt. Speichern Sie sie noch einmal.",
  ],
  [
    "The workbook is damaged at part “{part}”. Save or copy it again.",
    "Die Arbeitsmappe ist am Bestandteil „{part}“ beschädigt. Speichern oder kopieren Sie sie noch einmal.",
  ],
  [
    "The workbook is refused unread: it needs the format for more than 4 GB. Export the measurements as CSV.",
    "Die Arbeitsmappe wird ungelesen abgewiesen: Sie braucht das Format für mehr als 4 GB. Exportieren Sie die Messungen als CSV.",
  ],
  [
    "The workbook is refused unread: it holds more than {count} parts. Export the measurements as CSV.",
    "Die Arbeitsmappe wird ungelesen abgewiesen: Sie hat mehr als {count} Bestandteile. Exportieren Sie die Messungen als CSV.",
  ],
  [
    "The workbook is refused unread: it unpacks to more than {bytes} bytes (STEADYREST_MAX_UNPACKED_MB). Export the measurements as CSV.",
    "Die Arbeitsmappe wird ungelesen abgewiesen: Entpackt hat sie mehr als {bytes} Byte (STEADYREST_MAX_UNPACKED_MB). Exportieren Sie die Messungen als CSV.",
  ],
  [
    "The workbook is refused unread: part “{part}” unpacks {packed} bytes to {bytes}, more than {times} times as many. Export the measurements as CSV.",
    "Die Arbeitsmappe wird ungelesen abgewiesen: Der Bestandteil „{part}“ entpackt {packed} Byte zu {bytes}, mehr als dem {times}-Fachen. Exportieren Sie die Messungen als CSV.",
  ],
  [
    "This archive is no workbook with sheets. Export the measurements as XLSX or CSV.",
    "Dieses Archiv ist keine Arbeitsmappe mit Tabellenblättern. Exportieren Sie die Messungen als XLSX oder CSV.",
  ],
  [
    "The workbook is cut off. Save or copy it again.",
    "Die Arbeitsmappe ist abgeschnitten. Speichern oder kopieren Sie sie noch einmal.",
  ],
  [
    "The workbook cannot be read ({why}). Save it again, or export CSV.",
    "Die Arbeitsmappe lässt sich nicht lesen ({why}). Speichern Sie sie noch einmal, oder exportieren Sie CSV.",
  ],
  ["No sheet of the workbook holds anything.", "Kein Tabellenblatt der Arbeitsmappe enthält etwas."],
  [
    "The workbook has no sheet “{sheet}”; it has {sheets}.",
    "Die Arbeitsmappe hat kein Tabellenblatt „{sheet}“; sie hat {sheets}.",
  ],
];

const QIF: Pairs = [
  [
    "The QIF document holds no measured characteristics: it describes a part or a plan. Export the results of an inspection.",
    "Das QIF-Dokument enthält keine gemessenen Merkmale: Es beschreibt ein Teil oder einen Plan. Exportieren Sie die Ergebnisse einer Prüfung.",
  ],
  ["this is not well-formed XML ({why}).", "Das ist kein wohlgeformtes XML ({why})."],
  [
    "the document has a document type declaration. QIF needs none, and entities are not expanded; export it without.",
    "Das Dokument hat eine Dokumenttypdeklaration. QIF braucht keine, und Entitäten werden nicht aufgelöst; exportieren Sie es ohne.",
  ],
  ["this is XML, but “{name}” is no QIF document.", "Das ist XML, aber „{name}“ ist kein QIF-Dokument."],
  ["elements lie more than {depth} deep.", "Elemente liegen mehr als {depth} tief."],
  [
    "the encoding “{name}” is not known. Export the document as UTF-8.",
    "Die Kodierung „{name}“ ist nicht bekannt. Exportieren Sie das Dokument als UTF-8.",
  ],
  [
    "the bytes after this line are not {name}, which the document says it is. Export it again.",
    "Die Bytes nach dieser Zeile sind nicht {name}, wie das Dokument es angibt. Exportieren Sie es noch einmal.",
  ],
  [
    "one thing in the document holds more than {elements} elements or {characters} characters.",
    "Ein Teil des Dokuments enthält mehr als {elements} Elemente oder {characters} Zeichen.",
  ],
  [
    "the document describes more than {count} things. Export fewer parts at a time.",
    "Das Dokument beschreibt mehr als {count} Dinge. Exportieren Sie weniger Teile auf einmal.",
  ],
  [
    "the file states {status} for {value} of “{name}”, which its tolerance says otherwise; the value is taken as it stands.",
    "Die Datei sagt {status} für {value} von „{name}“, ihre Toleranz sagt es anders; der Wert wird angenommen, wie er dasteht.",
  ],
  [
    "the file states a mean of {stated} for “{name}”; its {count} measurements have {mean}. All statistics are computed anew.",
    "Die Datei nennt für „{name}“ den Mittelwert {stated}; ihre {count} Messungen haben {mean}. Alle Kennwerte werden neu berechnet.",
  ],
  [
    "the tolerance of “{name}” contradicts the file's own PASS and FAIL: it calls {lower} and {upper} offsets, and judges as if they were limits. It is taken in without tolerance; state it in the control plan.",
    "Die Toleranz von „{name}“ widerspricht dem PASS und FAIL der Datei selbst: Sie nennt {lower} und {upper} Abmaße und urteilt, als wären es Grenzen. Das Merkmal wird ohne Toleranz angenommen; geben Sie sie im Prüfplan an.",
  ],
  [
    "no time is stated for single measurements; they have {whose}, in the order of the file.",
    "Für einzelne Messungen ist keine Zeit angegeben; sie haben {whose}, in der Folge der Datei.",
  ],
];

/** Why a file was not received. */
const RECEIVED: Pairs = [
  [
    "Nothing received: the server's disk has {room} left, too little for this file. Ask whoever runs the server to make room.",
    "Nichts empfangen: Auf der Platte des Servers sind noch {room} frei, zu wenig für diese Datei. Bitten Sie, wer den Server betreibt, Platz zu schaffen.",
  ],
  [
    "Nothing received: {bytes} of {all} bytes arrived. Send the file again.",
    "Nichts empfangen: {bytes} von {all} Byte kamen an. Senden Sie die Datei noch einmal.",
  ],
  [
    "Nothing received: the server's disk is full. Ask whoever runs the server to make room, then send the file again.",
    "Nichts empfangen: Die Platte des Servers ist voll. Bitten Sie, wer den Server betreibt, Platz zu schaffen, und senden Sie die Datei dann noch einmal.",
  ],
  [
    "Nothing received: the server may only read the folder of its data. Ask whoever runs the server to let it write there, then send the file again.",
    "Nichts empfangen: Der Server darf den Ordner seiner Daten nur lesen. Bitten Sie, wer den Server betreibt, ihm dort das Schreiben zu erlauben, und senden Sie die Datei dann noch einmal.",
  ],
  [
    "Nothing received: the file has more than {size}, the most this server takes. Split it, or have STEADYREST_MAX_UPLOAD_MB raised.",
    "Nichts empfangen: Die Datei hat mehr als {size}; mehr nimmt dieser Server nicht. Teilen Sie sie, oder lassen Sie STEADYREST_MAX_UPLOAD_MB erhöhen.",
  ],
  [
    "Nothing received: the file has {size}, the most this server takes. Split it, or have STEADYREST_MAX_UPLOAD_MB raised.",
    "Nichts empfangen: Die Datei hat {size}, so viel, wie dieser Server höchstens nimmt. Teilen Sie sie, oder lassen Sie STEADYREST_MAX_UPLOAD_MB erhöhen.",
  ],
];

export const FILE_TEXTS: Pairs = [...KINDS, ...LINES, ...WORKBOOKS, ...QIF, ...RECEIVED];
