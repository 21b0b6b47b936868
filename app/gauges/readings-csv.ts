import { csvText } from "../../lib/format/csv";
import type { StudyData } from "../../lib/measurement-systems/study-data";

/** The readings of a study in the layout in which they can be entered again. */
export function readingsCsv(data: StudyData): string {
  switch (data.kind) {
    case "crossed":
      return csvText([
        ["part", "operator", "value"],
        ...data.readings.map(({ part, operator, value }) => [part, operator, value]),
      ]);
    case "type-1":
      return csvText([["value"], ...data.values.map((value) => [value])]);
    case "bias-linearity":
      return csvText([
        ["reference", "value"],
        ...data.readings.map(({ reference, value }) => [reference, value]),
      ]);
    case "setup":
      return csvText([
        ["part", "setup", "value"],
        ...data.readings.map(({ piece, setup, value }) => [piece, setup, value]),
      ]);
  }
}
