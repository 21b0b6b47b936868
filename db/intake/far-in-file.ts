import type { FeatureAsFiled, FileNames, TidyBatch } from "../../lib/intake/batch";
import { type Bounds, FarValues, type NearSpan, nearSpan } from "../../lib/intake/far-values";
import type { KnownUnit } from "../../lib/plan/feature-plan";
import { connectionOf, type Database, once } from "../connection";
import { lengthScale, NO_PART } from "./filed-features";

type Planned = Bounds & { unit: KnownUnit };

/** What is remarked on values of a file that is only looked at: by the control plan, for new features by the file. */
export async function farInFile(
  database: Database,
  { names, batches }: { names: FileNames; batches: Iterable<TidyBatch> },
): Promise<string> {
  const finder = new FarFinder(database, names);
  for (const batch of batches) finder.add(batch);
  return finder.remark();
}

/** The same while a file is being read, batch by batch. */
export class FarFinder {
  private readonly far = new FarValues();
  /** By index of the feature; null where nothing is far. */
  private readonly spans: ({ near: NearSpan; scale: number } | null)[] = [];

  constructor(
    private readonly database: Database,
    private readonly names: FileNames,
  ) {}

  add({ count, feature, value, line }: TidyBatch): void {
    const { features } = this.names;
    const { spans, far } = this;
    while (spans.length < features.length) spans.push(this.spanOf(features[spans.length] as FeatureAsFiled));
    for (let i = 0; i < count; i++) {
      const index = feature[i] as number;
      const span = spans[index] ?? null;
      if (span === null) continue;
      const inPlan = (value[i] as number) * span.scale;
      if (inPlan < span.near.low || inPlan > span.near.high)
        far.add({
          line: line[i] as number,
          feature: (features[index] as FeatureAsFiled).feature,
          value: value[i] as number,
        });
    }
  }

  remark(): string {
    return this.far.remark();
  }

  private spanOf({ part, feature, nominal, lower, upper, unit }: FeatureAsFiled) {
    const number = part === "" ? NO_PART : part;
    const planned = plannedBounds(connectionOf(this.database)).get(number, feature) as Planned | undefined;
    const near = nearSpan(planned ?? { nominal, lower, upper });
    // A length where the plan has an angle is refused, so there is nothing to remark.
    const scale = planned ? lengthScale(unit, planned.unit) : 1;
    return near === null || scale === null ? null : { near, scale };
  }
}

const plannedBounds = once(({ sqlite }) =>
  sqlite.prepare(
    `select ifnull(f.nominal, f.natural_bound) as nominal, f.lower_tolerance as lower, f.upper_tolerance as upper, f.unit
       from feature f join part p on p.id = f.part_id
      where p.id = (select max(id) from part where number = ?) and f.name = ?`,
  ),
);
