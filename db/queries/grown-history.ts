import { firstAtOrAfter, sliced } from "../../lib/measurements/order";
import type { MeasurementSeries } from "../../lib/measurements/series";
import { connectionOf, type Database, once } from "../connection";
import { waitingReader } from "../measurements/arrivals";
import { settledCount, tails } from "../measurements/store";
import { givenOf, type HistoryMark } from "./history";
import { latestNewsId } from "./news";

/** Whether any news of a feature's measurements tell of more than later ones that came. */
const changedStatement = once(({ sqlite }) =>
  sqlite
    .prepare(
      `select 1 from news left join intake on intake.id = json_extract(news.detail, '$.intakeId')
         where news.id > @after and news.kind = 'intake'
           and (json_type(news.detail, '$.featureIds') = 'null'
                or exists (select 1 from json_each(news.detail, '$.featureIds') where value = @feature))
           and (intake.id is null or intake.state <> 'done' or intake.late > 0 or intake.corrections > 0)
         limit 1`,
    )
    .pluck(),
);

/**
 * What was measured of a feature since a mark of its history, with a later mark; null when anything else happened to the
 * history, or when not all of it came after what is known.
 *
 * That nothing was corrected or taken back and nothing came late, the intakes say; that what is known is still there, the
 * measurements of its last moment and the number of all. Reads the feature's last blocks and what waits.
 *
 * @param known the whole history as it was at the mark; its values are not looked at
 */
export async function measuredSince(
  database: Database,
  { id, mark, known }: { id: number; mark: HistoryMark; known: MeasurementSeries },
): Promise<{ measured: MeasurementSeries; mark: HistoryMark } | null> {
  const connection = connectionOf(database);
  const news = await latestNewsId(database);
  if (known.count === 0 || givenOf(connection, id) !== mark.given) return null;
  if (changedStatement(connection).get({ after: mark.news, feature: id }) !== undefined) return null;

  const waiting = waitingReader(connection);
  const lastAt = known.takenAt[known.count - 1] as number;
  const since = tails(connection, waiting)(id, lastAt);
  const first = firstAtOrAfter(known, lastAt);
  const again = known.count - first;
  for (let i = 0; i < again; i++) {
    if (since.intake[i] !== known.intake[first + i] || since.line[i] !== known.line[first + i]) return null;
  }
  const measured = sliced(since, again, since.count);
  const stored = settledCount(connection, id) + waiting(id).count;
  return stored === known.count + measured.count ? { measured, mark: { given: mark.given, news } } : null;
}
