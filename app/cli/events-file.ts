import { EVENT_KINDS, type EventKind, type SourceEvent } from "../../lib/drift/measured-part";
import { TimeReader } from "../../lib/intake/times";
import { utc } from "../../lib/intake/zone";
import { SOURCE_KINDS, type SourceKind } from "../../lib/measurements/series";
import { readCsvColumns } from "./csv-columns";
import { Refused } from "./refusal";

const COLUMNS = [{ name: "at" }, { name: "source" }, { name: "event" }, { name: "kind", optional: true }];

/**
 * Source events of a CSV file with the columns at, source, event and, where one code stands for sources of two
 * kinds, kind.
 *
 * @param kindsOf the kinds under which a code appears among the measurements
 * @throws Refused with file, line and column for a row that cannot be taken
 */
export async function readEventsFile(
  file: string,
  kindsOf: (code: string) => readonly SourceKind[],
): Promise<SourceEvent[]> {
  const times = new TimeReader({ format: "iso", decimal: ".", zone: utc });
  const encoder = new TextEncoder();
  return (await readCsvColumns(file, COLUMNS)).map(({ line, cells }) => {
    const [at = "", source = "", event = "", kind = ""] = cells;
    const refuse = (field: string, reason: string) => new Refused({ file, line, field, reason });
    const bytes = encoder.encode(at);
    const time = times.read(bytes, 0, bytes.length);
    if (Number.isNaN(time)) throw refuse("at", `"${at}" is no time as in 2031-03-03T06:00:00Z.`);
    if (source === "") throw refuse("source", "the code of the source is missing.");
    return { at: time, source, event: eventOf(event, refuse), kind: kindOf(kind, source, kindsOf, refuse) };
  });
}

type Refuse = (field: string, reason: string) => Refused;

function eventOf(text: string, refuse: Refuse): EventKind {
  const event = EVENT_KINDS.find((known) => known === text.toLowerCase());
  if (event === undefined) throw refuse("event", `"${text}" is none of ${EVENT_KINDS.join(", ")}.`);
  return event;
}

function kindOf(
  text: string,
  source: string,
  kindsOf: (code: string) => readonly SourceKind[],
  refuse: Refuse,
): SourceKind {
  if (text !== "") {
    const stated = SOURCE_KINDS.find((known) => known === text.toLowerCase());
    if (stated === undefined) throw refuse("kind", `"${text}" is none of ${SOURCE_KINDS.join(", ")}.`);
    return stated;
  }
  const [only, ...more] = kindsOf(source);
  if (only === undefined) {
    throw refuse("source", `no measurement names "${source}"; state its kind in a column "kind".`);
  }
  if (more.length > 0) {
    throw refuse(
      "source",
      `"${source}" is the code of a ${[only, ...more].join(" and a ")}; state which in a column "kind".`,
    );
  }
  return only;
}
