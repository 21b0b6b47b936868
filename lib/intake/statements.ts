import type { KnownUnit } from "../plan/feature-plan";
import type { FeatureAsFiled, Notice } from "./batch";
import type { DecimalMark, MappedColumn } from "./mapping";
import type { Scale } from "./numbers";
import { decimalFault, isMeasurable, quoted, readDecimal } from "./numbers";
import { type FileUnit, keptUnit, readUnit, scaleBetween } from "./units";
import { UnreadableFile } from "./unreadable-file";

/** Longest text taken for a part, a feature, a piece or a source; longer ones are a column mapped wrongly. */
export const LONGEST_NAME = 200;

/** Columns in which a row says what its feature is, as texts. */
export const STATED_COLUMNS = [
  "part",
  "feature",
  "nominal",
  "lower_tolerance",
  "upper_tolerance",
  "unit",
  "length",
  "expansion",
] as const satisfies readonly MappedColumn[];
export type Stated = Record<(typeof STATED_COLUMNS)[number], string>;

/** What a row's statement about its feature comes to: the feature and how to bring its value into its unit. */
export type Statement =
  | { ok: true; feature: number; scale: Scale | null }
  | { ok: false; field: MappedColumn; reason: string };

type Numbers = Pick<FeatureAsFiled, "nominal" | "lower" | "upper" | "length" | "expansion">;

/**
 * The features of one file, as stated first, and what later rows state about them.
 *
 * A row that states other limits or another unit of the same kind is taken, its numbers brought into the unit
 * stated first, and told once a feature as a notice. Which limits are right is not for a file to decide.
 */
export class FiledFeatures {
  readonly features: FeatureAsFiled[] = [];
  private readonly byName = new Map<string, number>();
  private readonly toldUnit = new Set<number>();
  private readonly toldNumbers = new Set<number>();
  private readonly encoder = new TextEncoder();

  constructor(
    private readonly decimal: DecimalMark,
    private readonly most: number,
    private readonly tell: (notice: Notice) => void,
  ) {}

  state(stated: Stated, line: number): Statement {
    const { part, feature } = stated;
    if (feature === "") return refuse("feature", "The feature is empty: name what was measured.");
    if (feature.length > LONGEST_NAME) return refuse("feature", tooLong("feature", feature));
    if (part.length > LONGEST_NAME) return refuse("part", tooLong("part", part));

    const unit = stated.unit === "" ? null : readUnit(stated.unit);
    if (stated.unit !== "" && unit === null) {
      return refuse(
        "unit",
        `The unit ${quoted(stated.unit)} is not known. Use mm, in or deg (µm is read too).`,
      );
    }
    const name = JSON.stringify([part, feature]);
    const index = this.byName.get(name);
    const known = index === undefined ? null : (this.features[index] as FeatureAsFiled);
    const kept = known ? known.unit : unit && keptUnit(unit);
    if (known && kept === null && unit !== null) {
      const reason = `The row states ${stated.unit}, but line ${known.firstLine} states no unit for this feature. State the unit in every row.`;
      return refuse("unit", reason);
    }
    const scale = unit === null || kept === null ? null : scaleBetween({ from: unit, to: kept });
    if (scale === "none") {
      const reason = `The row states ${stated.unit}, but line ${known?.firstLine} states ${kept} for this feature. A length and an angle cannot be the same feature.`;
      return refuse("unit", reason);
    }

    const numbers = this.numbers(stated, scale);
    if ("reason" in numbers) return numbers;
    if (numbers.lower !== null && numbers.upper !== null && numbers.lower >= numbers.upper) {
      const reason =
        numbers.lower === numbers.upper
          ? `Both tolerance limits are ${stated.upper_tolerance}. Leave them empty where the feature has no tolerance.`
          : `The lower tolerance limit ${stated.lower_tolerance} lies above the upper one, ${stated.upper_tolerance}. Correct or exchange them.`;
      return refuse("lower_tolerance", reason);
    }
    if (known && index !== undefined) {
      this.compare({ index, known, unit, spelling: stated.unit, numbers, line });
      return { ok: true, feature: index, scale };
    }
    return { ok: true, feature: this.add({ name, part, feature, unit, kept, numbers, line }), scale };
  }

  private numbers(stated: Stated, scale: Scale | null): Numbers | (Statement & { ok: false }) {
    const found: Numbers = { nominal: null, lower: null, upper: null, length: null, expansion: null };
    const wanted = [
      ["nominal", "nominal", scale],
      ["lower", "lower_tolerance", scale],
      ["upper", "upper_tolerance", scale],
      ["length", "length", null],
      ["expansion", "expansion", null],
    ] as const;
    for (const [key, column, change] of wanted) {
      const text = stated[column];
      if (text === "") continue;
      const bytes = this.encoder.encode(text);
      const number = readDecimal(bytes, 0, bytes.length, this.decimal, change);
      if (!isMeasurable(number))
        return { ok: false, field: column, reason: decimalFault(text, this.decimal) };
      found[key] = number;
    }
    return found;
  }

  private add(found: {
    name: string;
    part: string;
    feature: string;
    unit: FileUnit | null;
    kept: KnownUnit | null;
    numbers: Numbers;
    line: number;
  }): number {
    if (this.features.length >= this.most) {
      throw new UnreadableFile(
        "too-many-names",
        found.line,
        `the file names more than ${this.most.toLocaleString("en-US")} features. Is the feature column mapped to a column of serials or values?`,
      );
    }
    const { part, feature, unit, kept, numbers, line } = found;
    const index = this.features.length;
    this.features.push({ part, feature, ...numbers, unit: kept, firstLine: line });
    this.byName.set(found.name, index);
    if (unit === "µm")
      this.tell({ line, message: `${titled(part, feature)}: µm are kept as mm (1 µm = 0.001 mm).` });
    const { nominal, lower, upper } = numbers;
    if (nominal !== null && ((lower !== null && nominal < lower) || (upper !== null && nominal > upper))) {
      const limits = `${lower ?? "none"} to ${upper ?? "none"}`;
      const message = `${titled(part, feature)}: the nominal ${nominal} lies outside its tolerance limits (${limits}). Limits are absolute, not deviations from nominal.`;
      this.tell({ line, message });
    }
    return index;
  }

  private compare(row: {
    index: number;
    known: FeatureAsFiled;
    unit: FileUnit | null;
    spelling: string;
    numbers: Numbers;
    line: number;
  }): void {
    const { index, known, unit, numbers, line } = row;
    const name = titled(known.part, known.feature);
    if (unit !== known.unit && !(unit === "µm" && known.unit === "mm") && !this.toldUnit.has(index)) {
      this.toldUnit.add(index);
      const message =
        unit === null
          ? `${name}: no unit here; ${known.unit} is taken, as line ${known.firstLine} states.`
          : `${name}: values in ${row.spelling} are converted to ${known.unit}, the unit of line ${known.firstLine} (1 in = 25.4 mm exactly).`;
      this.tell({ line, message });
    }
    if (this.toldNumbers.has(index)) return;
    for (const key of ["nominal", "lower", "upper", "length", "expansion"] as const) {
      const stated = numbers[key];
      if (stated === null || stated === known[key]) continue;
      this.toldNumbers.add(index);
      const words = {
        nominal: "nominal",
        lower: "lower tolerance limit",
        upper: "upper tolerance limit",
        length: "length",
        expansion: "expansion",
      };
      const first = known[key] === null ? "none" : known[key];
      const message = `${name}: this row states ${words[key]} ${stated}, line ${known.firstLine} states ${first}. The measurement is taken, the first statement stands.`;
      this.tell({ line, message });
      return;
    }
  }
}

function refuse(field: MappedColumn, reason: string): Statement & { ok: false } {
  return { ok: false, field, reason };
}

function titled(part: string, feature: string): string {
  return part === "" ? feature : `${part} ${feature}`;
}

/** Why a text is too long to be a name, as a sentence. */
export function tooLong(what: string, text: string): string {
  return `The text for ${what} has ${text.length} characters, at most ${LONGEST_NAME} are taken: ${quoted(text)}. Is another column meant?`;
}
