import { ByteDictionary } from "./byte-dictionary";
import type { ColumnPlan, ValueSource } from "./column-plan";
import type { FieldRow } from "./csv";
import { Field, JoinedField } from "./field";
import type { FiledFeatures, Stated, Statement } from "./statements";

/** Ends each text of a statement: a byte that UTF-8 never holds. */
const STATEMENT_END = 0xff;

/** Distinct statements kept in reach. Only a file that states new limits in every row gets there. */
const MOST_STATEMENTS = 65_536;

/**
 * What rows state about their features. Nearly every row states what one before it did, to the byte: such a row is
 * answered from its bytes, and `FiledFeatures` reads the rest.
 */
export class RowStatements {
  private readonly field = new Field();
  private readonly joined = new JoinedField();
  private readonly texts = new ByteDictionary();
  /** By number of the statement's text and, in the wide layout, of the value column. */
  private readonly statements: (Statement | undefined)[] = [];

  constructor(
    private readonly filed: FiledFeatures,
    private readonly plan: Pick<ColumnPlan, "values" | "stated" | "statedSpan">,
  ) {}

  /** The number of what this row states, the same for the same bytes. */
  numberOf(row: FieldRow): number {
    const { field, joined } = this;
    const span = this.plan.statedSpan;
    if (span !== null && row.isPlain) {
      return this.numberOfText(row.bytes, row.starts[span.first] as number, row.ends[span.last] as number);
    }
    joined.clear();
    for (const { source } of this.plan.stated) {
      if (field.moveTo(row, source)) joined.append(field);
      joined.byte(STATEMENT_END);
    }
    return this.numberOfText(joined.bytes, 0, joined.length);
  }

  /** What the row, whose number is given, states about the feature of a value column. */
  of(row: FieldRow, number: number, wanted: ValueSource, column: number): Statement {
    const at = number * this.plan.values.length + column;
    const known = this.statements[at];
    if (known !== undefined) return known;
    const stated: Stated = {
      part: "",
      feature: "",
      nominal: "",
      lower_tolerance: "",
      upper_tolerance: "",
      unit: "",
      length: "",
      expansion: "",
    };
    const { field } = this;
    for (const { column: name, source } of this.plan.stated)
      stated[name] = field.moveTo(row, source) ? field.text() : "";
    const statement = this.filed.state({ ...stated, ...wanted.stated }, row.line);
    while (this.statements.length < at) this.statements.push(undefined);
    this.statements[at] = statement;
    return statement;
  }

  private numberOfText(bytes: Uint8Array, start: number, end: number): number {
    const { texts } = this;
    const known = texts.find(bytes, start, end);
    if (known !== -1) return known;
    if (texts.size * this.plan.values.length >= MOST_STATEMENTS) {
      texts.clear();
      this.statements.length = 0;
    }
    return texts.add(bytes, start, end);
  }
}
