import type { Cell } from "../cells";
import { UnreadableFile } from "../unreadable-file";
import { numberOrNull, type Requirement, requirementOf, statedOtherwise } from "./tolerance";
import { childAt, textAt, textsOf, type XmlRecord } from "./xml-record";

/*
 * A QIF results document (ISO 23952) as rows of the tidy measurement file.
 *
 * Everything in it refers to something else by number, and may do so before that is written: a measurement names
 * its item, the item its nominal, the nominal its definition; the results of a piece name the piece after its
 * measurements. So a document is read twice: first what is referred to (`learn`), then the measurements
 * (`rowOf`), which may be any number.
 */

export const QIF_COLUMNS = [
  "piece",
  "taken_at",
  "part",
  "feature",
  "nominal",
  "lower_tolerance",
  "upper_tolerance",
  "unit",
  "value",
  "lot",
  "fixture",
  "machine",
  "gauge",
  "operator",
] as const;

/** More things than this to refer to are no inspection of a part, and would fill the memory. */
const MOST_RECORDS = 500_000;

/** What one run of measurements says of itself: on which piece, when, by what. */
type Results = { component: string; operator: string; at: string; device: string };

/** A mean that the document states of some of its measurements, and what they come to. */
type StatedAverage = { line: number; text: string; count: number; sum: number; itemId: string };

type Item = { name: string; kind: string; nominal: string; definition: string; devices: string[] };

type ReadRequirement = Requirement & {
  /** How often the file's own PASS and FAIL contradict each reading of the tolerance. */
  against: { limits: number; ifLimits: number };
};

export type QifRow = { line: number; cells: Cell[]; notices: string[] };

const MEASUREMENT = /^(.+)Characteristic(Measurement|Actual)$/;
const DEFINITION = /^(.+)CharacteristicDefinition$/;
const NOMINAL = /CharacteristicNominal$/;
const ITEM = /CharacteristicItem$/;
const STATISTICS = /CharacteristicStats$/;
const RESULTS = new Set(["MeasurementResults", "MeasurementsResults"]);
/** Parts of a run of measurements that may be long and say nothing of it. */
const LONG_PARTS = new Set(["MeasuredFeatures", "MeasuredCharacteristics", "FeatureActuals", "Annotations"]);
const LEARNED = new Set([
  "InspectionTraceability",
  "MeasurementDevice",
  "ManufacturingProcess",
  "ActualComponent",
]);

/** Whether an element is worth being handed to `learn` whole. */
export function isLearned(name: string, parent: string): boolean {
  if (RESULTS.has(parent)) return !LONG_PARTS.has(name);
  if (name === "Part" || name === "Component" || name === "AsmPath")
    return parent === `${name}Set` || parent === `${name}s`;
  if (name === "Version") return parent === "QIFDocument";
  if (name === "LinearUnit" || name === "AngularUnit") return parent === "PrimaryUnits";
  return (
    LEARNED.has(name) ||
    (DEFINITION.test(name) && parent === "CharacteristicDefinitions") ||
    (NOMINAL.test(name) && parent === "CharacteristicNominals") ||
    (ITEM.test(name) && parent === "CharacteristicItems") ||
    (STATISTICS.test(name) && parent === "CharacteristicsStats")
  );
}

export function isMeasurement(name: string): boolean {
  return MEASUREMENT.test(name);
}

/** Whether an element holds the results of one run, so that what stands in it belongs together. */
export function isResults(name: string): boolean {
  return RESULTS.has(name);
}

export class QifDocument {
  private readonly definitions = new Map<string, XmlRecord>();
  private readonly nominals = new Map<string, XmlRecord>();
  private readonly items = new Map<string, Item>();
  private readonly components = new Map<string, XmlRecord>();
  private readonly processes = new Map<string, XmlRecord>();
  private readonly devices = new Map<string, string>();
  private readonly parts = new Map<string, string>();
  private readonly partOfComponent = new Map<string, string>();
  private readonly lastOfPath = new Map<string, string>();
  private readonly results = new Map<string, Results>();
  private readonly requirements = new Map<string, ReadRequirement>();
  private readonly averages: StatedAverage[] = [];
  private readonly averagesOf = new Map<string, StatedAverage[]>();
  private readonly rowsAt = new Map<string, number>();
  private readonly told = new Set<string>();
  private linearUnit = "";
  private angularUnit = "";
  private createdAt = "";
  private preparedAt = "";
  private records = 0;

  /** Takes one thing that others refer to; `results` is the number of the run it stands in, or empty. */
  learn(record: XmlRecord, results: string): void {
    if (++this.records > MOST_RECORDS) {
      throw new UnreadableFile(
        "too-many-names",
        record.line,
        `the document describes more than ${MOST_RECORDS.toLocaleString("en-US")} things. Export fewer parts at a time.`,
      );
    }
    if (results !== "") {
      this.learnOfResults(record, results);
      return;
    }
    const id = record.attributes.id ?? "";
    const { name } = record;
    if (name === "LinearUnit") this.linearUnit ||= textAt(record, "UnitName");
    else if (name === "AngularUnit") this.angularUnit ||= textAt(record, "UnitName");
    else if (name === "Version") this.createdAt ||= textAt(record, "TimeCreated");
    else if (name === "InspectionTraceability") this.preparedAt ||= textAt(record, "ReportPreparationDate");
    else if (name === "MeasurementDevice") this.devices.set(id, deviceName(record));
    else if (name === "ManufacturingProcess") this.processes.set(id, record);
    else if (name === "Part") this.parts.set(id, partName(record));
    else if (name === "Component") this.partOfComponent.set(id, textAt(record, "Part", "Id"));
    else if (name === "AsmPath") this.lastOfPath.set(id, textsOf(record, "Id").at(-1) ?? "");
    else if (name === "ActualComponent") this.components.set(id, record);
    else if (DEFINITION.test(name)) this.definitions.set(id, record);
    else if (NOMINAL.test(name)) this.nominals.set(id, record);
    else if (ITEM.test(name)) this.items.set(id, itemOf(record));
    else if (STATISTICS.test(name)) this.learnAverage(record);
  }

  private learnOfResults(record: XmlRecord, id: string): void {
    const run = this.results.get(id) ?? { component: "", operator: "", at: "", device: "" };
    this.results.set(id, run);
    if (record.name === "ActualComponentIds" || record.name === "ActualComponentId")
      run.component ||= textsOf({ ...record, children: [record] }, "Id")[0] ?? record.text.trim();
    run.at ||= firstOf(record, ["InspectionEnd", "InspectionStart"]);
    run.operator ||= operatorOf(record);
    run.device ||= textsOf(record, "MeasurementDeviceId")[0] ?? "";
  }

  private learnAverage(record: XmlRecord): void {
    const text = textAt(record, "ValueStats", "Average", "Value");
    const ids = childAt(record, "MeasuredIds") ?? childAt(record, "ActualIds");
    if (text === "" || ids === null) return;
    const average = { line: record.line, text, count: 0, sum: 0, itemId: "" };
    this.averages.push(average);
    for (const id of textsOf(ids, "Id"))
      this.averagesOf.set(id, [...(this.averagesOf.get(id) ?? []), average]);
  }

  /** Counts what the file states of a measurement, so that contradictions show; before any `rowOf`. */
  weigh(measurement: XmlRecord): void {
    const value = numberOrNull(textAt(measurement, "Value"));
    const itemId = textAt(measurement, "CharacteristicItemId");
    for (const average of this.averagesOf.get(measurement.attributes.id ?? "") ?? []) {
      average.count++;
      average.sum += value ?? Number.NaN;
      average.itemId = itemId;
    }
    const requirement = this.requirementOf(itemId);
    if (value === null || requirement === null || requirement.ifLimits === null) return;
    const status = statusOf(measurement);
    if (statedOtherwise(value, status, requirement.limits)) requirement.against.limits++;
    if (statedOtherwise(value, status, requirement.ifLimits)) requirement.against.ifLimits++;
  }

  /** The measurement as a row of `QIF_COLUMNS`, with what a person should know about it. */
  rowOf(measurement: XmlRecord, results: string): QifRow {
    const notices: string[] = [];
    const itemId = textAt(measurement, "CharacteristicItemId");
    const item = this.items.get(itemId);
    const run = this.results.get(results);
    const componentId = textAt(measurement, "ActualComponentId") || (run?.component ?? "");
    const component = this.components.get(componentId) ?? null;
    const process =
      this.processes.get(
        textAt(measurement, "ManufacturingProcessId") ||
          (component ? (textsOf(component, "ManufacturingProcessId")[0] ?? "") : ""),
      ) ?? null;
    const device =
      textsOf(measurement, "Id").find((id) => this.devices.has(id)) ??
      item?.devices.find((id) => this.devices.has(id)) ??
      run?.device ??
      "";

    const value = textAt(measurement, "Value");
    const limits = this.limitsFor(itemId, item?.name ?? itemId, notices);
    const number = numberOrNull(value);
    const status = statusOf(measurement);
    if (number !== null && statedOtherwise(number, status, limits)) {
      notices.push(
        `the file states ${status} for ${value} of “${item?.name}”, which its tolerance says otherwise; the value is taken as it stands.`,
      );
    }
    const cells: Cell[] = [
      component ? textAt(component, "SerialNumber") || textsOf(component, "SampleNumber")[0] || "" : "",
      this.timeOf(measurement, component, run, notices),
      this.partOf(component),
      item?.name ?? "",
      this.requirementOf(itemId)?.nominal ?? null,
      limits.lower,
      limits.upper,
      this.unitOf(measurement, item?.kind ?? ""),
      value,
      component ? (textsOf(component, "LotNumber")[0] ?? "") : "",
      component ? (textsOf(component, "FixtureId")[0] ?? "") : "",
      process ? textAt(process, "MachineIdentifier") : "",
      this.devices.get(device) ?? "",
      run?.operator || (component ? operatorOf(component) : ""),
    ];
    return { line: measurement.line, cells, notices };
  }

  /** Where the document's own statistics are not those of its measurements; they are never taken over. */
  remarks(): { line: number; message: string }[] {
    return this.averages.flatMap(({ line, text, count, sum, itemId }) => {
      const mean = sum / count;
      const stated = numberOrNull(text);
      if (stated === null || !Number.isFinite(mean)) return [];
      if (Math.abs(mean - stated) <= 1e-6 * Math.max(Math.abs(mean), Math.abs(stated))) return [];
      const name = this.items.get(itemId)?.name ?? itemId;
      return [
        {
          line,
          message: `the file states a mean of ${text} for “${name}”; its ${count} measurements have ${mean.toPrecision(12)}. All statistics are computed anew.`,
        },
      ];
    });
  }

  private requirementOf(itemId: string): ReadRequirement | null {
    const known = this.requirements.get(itemId);
    if (known) return known;
    const item = this.items.get(itemId);
    const nominal = item ? (this.nominals.get(item.nominal) ?? null) : null;
    const definition = this.definitions.get(
      (nominal && textAt(nominal, "CharacteristicDefinitionId")) || (item?.definition ?? ""),
    );
    if (!item || !definition) return null;
    const requirement = {
      ...requirementOf(item.kind, definition, nominal),
      against: { limits: 0, ifLimits: 0 },
    };
    this.requirements.set(itemId, requirement);
    return requirement;
  }

  private limitsFor(itemId: string, name: string, notices: string[]) {
    const requirement = this.requirementOf(itemId);
    if (requirement === null) return { lower: null, upper: null };
    const { limits, ifLimits, against } = requirement;
    if (ifLimits === null || against.limits === 0 || against.ifLimits >= against.limits) return limits;
    this.tellOnce(
      `tolerance ${itemId}`,
      `the tolerance of “${name}” contradicts the file's own PASS and FAIL: it calls ${ifLimits.lower ?? "none"} and ${ifLimits.upper ?? "none"} offsets, and judges as if they were limits. It is taken in without tolerance; state it in the control plan.`,
      notices,
    );
    return { lower: null, upper: null };
  }

  /**
   * When a measurement was taken: its own time, else that of its piece, of its run, of the report, of the
   * document. Those further away are shared by many rows, which then follow one another by a millisecond, so
   * that their order in the file stays and one item measured twice stays two measurements.
   */
  private timeOf(
    measurement: XmlRecord,
    component: XmlRecord | null,
    run: Results | undefined,
    notices: string[],
  ): string {
    const own = textAt(measurement, "TimeStamp");
    if (own !== "") return own;
    const found: [what: string, time: string][] = [
      [
        "the time of the piece's inspection",
        component ? firstOf(component, ["InspectionEnd", "InspectionStart"]) : "",
      ],
      ["the time of the inspection", run?.at ?? ""],
      ["the date of the report", this.preparedAt],
      ["the time at which the document was created", this.createdAt],
    ];
    const [what, time] = found.find(([, text]) => text !== "") ?? ["", ""];
    if (time === "") return "";
    this.tellOnce(
      `time ${what}`,
      `no time is stated for single measurements; they have ${what}, in the order of the file.`,
      notices,
    );
    const rows = this.rowsAt.get(time) ?? 0;
    this.rowsAt.set(time, rows + 1);
    return laterBy(time, rows);
  }

  private tellOnce(key: string, words: string, notices: string[]): void {
    if (this.told.has(key)) return;
    this.told.add(key);
    notices.push(words);
  }

  private partOf(component: XmlRecord | null): string {
    const path = component ? this.lastOfPath.get(textAt(component, "AsmPathId")) : undefined;
    const named = this.parts.get((path !== undefined && this.partOfComponent.get(path)) || "");
    return named ?? (this.parts.size === 1 ? ([...this.parts.values()][0] ?? "") : "");
  }

  private unitOf(measurement: XmlRecord, kind: string): string {
    const { attributes } = childAt(measurement, "Value") ?? measurement;
    if (/^Angle/.test(kind)) return attributes.angularUnit ?? this.angularUnit;
    return attributes.linearUnit ?? this.linearUnit;
  }
}

function itemOf(record: XmlRecord): Item {
  return {
    name: textAt(record, "Name") || textAt(record, "CharacteristicDesignator", "Designator"),
    kind: record.name.replace(ITEM, ""),
    nominal: textAt(record, "CharacteristicNominalId"),
    definition: textAt(record, "CharacteristicDefinitionId"),
    devices: textsOf(childAt(record, "MeasurementDeviceIds") ?? { ...record, children: [] }, "Id"),
  };
}

function statusOf(measurement: XmlRecord): string {
  return textAt(measurement, "Status", "CharacteristicStatusEnum");
}

function deviceName(record: XmlRecord): string {
  return textAt(record, "SerialNumber") || textAt(record, "Name") || textAt(record, "ModelNumber");
}

/** What a drawing calls the part; the versions of the standard name it differently. */
function partName(record: XmlRecord): string {
  const names = ["PartNumber", "ModelNumber", "Name"];
  return (
    names.map((name) => textAt(record, name)).find((text) => text !== "") ?? textAt(record, "Header", "Name")
  );
}

function firstOf(record: XmlRecord, names: readonly string[]): string {
  for (const name of names) {
    const text = record.name === name ? record.text.trim() : textsOf(record, name)[0];
    if (text) return text;
  }
  return "";
}

function operatorOf(record: XmlRecord): string {
  const operator = record.name === "InspectionOperator" ? record : findRecord(record, "InspectionOperator");
  return operator
    ? textsOf({ ...operator, children: [operator] }, "Name")[0] ||
        operator.text.trim() ||
        textAt(operator, "Name")
    : "";
}

function findRecord(record: XmlRecord, name: string): XmlRecord | null {
  for (const child of record.children) {
    const found = child.name === name ? child : findRecord(child, name);
    if (found) return found;
  }
  return null;
}

const XML_TIME = /^(\d{4}-\d\d-\d\dT\d\d:\d\d:\d\d)(\.\d+)?(Z|[+-]\d\d:\d\d)?$/;

/** A time of XML so many milliseconds later, its zone as written; other texts stay as they are. */
export function laterBy(time: string, ms: number): string {
  const [, wall, fraction = "", zone = ""] = XML_TIME.exec(time) ?? [];
  if (wall === undefined || ms === 0) return time;
  const at = Date.parse(`${wall}Z`) + Math.floor(Number(`0${fraction}`) * 1000) + ms;
  return new Date(at).toISOString().slice(0, -1) + zone;
}
