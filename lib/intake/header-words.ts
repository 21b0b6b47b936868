import type { MappedColumn } from "./mapping";

/** Header words of shops for the columns of the tidy file, letters and digits only; earlier ones win. Common practice, no source. */
export const HEADER_WORDS: Readonly<Record<MappedColumn | "piece", readonly string[]>> = {
  piece: [
    "piece",
    "pieceid",
    "serial",
    "serialnumber",
    "serialno",
    "sn",
    "partserial",
    "pieceno",
    "piecenumber",
    "seriennummer",
    "workpiece",
  ],
  taken_at: [
    "takenat",
    "measuredat",
    "timestamp",
    "datetime",
    "dateandtime",
    "measurementtime",
    "date",
    "time",
    "measurementdate",
    "datum",
    "messdatum",
    "zeit",
    "datumzeit",
  ],
  part: [
    "part",
    "partnumber",
    "partno",
    "partname",
    "pn",
    "article",
    "drawing",
    "drawingnumber",
    "teil",
    "teilenummer",
  ],
  feature: [
    "feature",
    "featurename",
    "characteristic",
    "characteristicname",
    "char",
    "dimension",
    "dimensionname",
    "measurand",
    "merkmal",
  ],
  nominal: ["nominal", "nominalvalue", "nom", "sollwert", "soll", "nennmass", "nennwert"],
  lower_tolerance: [
    "lowertolerance",
    "lowertolerancelimit",
    "lowerspecificationlimit",
    "lowerspeclimit",
    "lowerlimit",
    "lsl",
    "ltl",
    "untergrenze",
  ],
  upper_tolerance: [
    "uppertolerance",
    "uppertolerancelimit",
    "upperspecificationlimit",
    "upperspeclimit",
    "upperlimit",
    "usl",
    "utl",
    "obergrenze",
  ],
  unit: ["unit", "units", "uom", "unitofmeasure", "einheit"],
  value: [
    "value",
    "measuredvalue",
    "measurement",
    "measured",
    "actual",
    "actualvalue",
    "reading",
    "result",
    "istwert",
    "messwert",
    "ist",
  ],
  lot: ["lot", "lotnumber", "lotno", "lotid", "batch", "batchnumber", "batchno", "charge", "heat", "los"],
  fixture: ["fixture", "fixtureid", "fixtureno", "fixturenumber", "pallet", "nest", "vorrichtung"],
  tool: ["tool", "toolid", "toolno", "toolnumber", "cutter", "werkzeug"],
  machine: ["machine", "machineid", "machineno", "machinenumber", "machinename", "spindle", "maschine"],
  gauge: [
    "gauge",
    "gage",
    "gaugeid",
    "gageid",
    "gaugenumber",
    "gagenumber",
    "instrument",
    "cmm",
    "equipment",
    "messmittel",
  ],
  operator: [
    "operator",
    "operatorid",
    "operatorname",
    "inspector",
    "measuredby",
    "appraiser",
    "prufer",
    "bediener",
  ],
  setup: ["setup", "setupid", "setupnumber", "aufspannung"],
  part_temp_c: ["parttempc", "parttemp", "parttemperature", "parttemperaturec"],
  subgroup: ["subgroup", "subgroupid", "subgroupno", "subgroupnumber", "stichprobe"],
  length: ["length", "lengthmm", "expansionlength", "measuredlength"],
  expansion: ["expansion", "expansioncoefficient", "cte", "thermalexpansion", "alpha"],
};

/** Header words of the time of day that stands beside a column of dates. */
export const CLOCK_WORDS: readonly string[] = [
  "time",
  "timeofday",
  "clock",
  "clocktime",
  "measurementtime",
  "measuringtime",
  "uhrzeit",
  "zeit",
  "messzeit",
];

/** Header words of columns that only count or number the rows. */
export const COUNTER_WORDS: readonly string[] = [
  "no",
  "nr",
  "index",
  "row",
  "line",
  "id",
  "count",
  "n",
  "seq",
  "sequence",
];

/** A header text by its letters and digits alone, without a unit in brackets: "Upper Tolerance [mm]" is "uppertolerance". */
export function headerWord(text: string): string {
  return text
    .normalize("NFD")
    .replace(/\p{M}/gu, "")
    .toLowerCase()
    .replace(/[[(](mm|in|inch|deg|µm|um)[\])]/g, "")
    .replace(/[^a-z0-9]/g, "");
}
