import type { FileNames, Notice, Refusal } from "../../lib/intake/batch";
import { type Actor, BRINGS_IN, record } from "../commands/audit";
import { tell } from "../commands/news";
import { type Connection, once } from "../connection";
import { KnownPlant } from "../measurements/known-plant";
import { refusal } from "../schema";
import type { NewFeatures } from "./filed-features";
import type { Staging } from "./staging";
import { type Stored, storeStaged } from "./store-staged";

/** How measurements came in; kept with each intake. */
export type IntakeKind = "file" | "folder" | "post" | "bench";

export type IntakeCounts = {
  accepted: number;
  refused: number;
  duplicates: number;
  corrections: number;
  late: number;
  signals: number;
  alarms: number;
};

/** More refusals than this are counted but not kept: a file in the wrong layout refuses every row. */
const MOST_REFUSALS_KEPT = 10_000;
const MOST_NOTICES = 200;

/** A day: clocks of machines differ by minutes, and a file that names no zone by hours. */
const CLOCKS_DIFFER_MS = 24 * 60 * 60 * 1000;

function yetToCome({ lastTakenAt, lastLine: line }: Staging): Notice {
  const message =
    `The latest measurement is of ${new Date(lastTakenAt).toISOString()}, which is yet to come by the plant's clock. Look at the ` +
    "clock of the machine or gauge that it comes from: whatever is measured until then counts as late. Undo this intake if that clock is wrong.";
  return { line, message };
}

/** What is refused and remarked on while an intake is read; counts all and keeps as many as anybody will look at. */
export class Remarks {
  readonly refusals: Refusal[] = [];
  readonly notices: Notice[] = [];
  refused = 0;

  refuse(refused: Refusal): void {
    this.refused++;
    if (this.refusals.length < MOST_REFUSALS_KEPT) this.refusals.push(refused);
  }

  notice(notice: Notice): void {
    if (this.notices.length < MOST_NOTICES) this.notices.push(notice);
  }
}

/**
 * Stores what was staged under an intake that the history has already, judges it, and writes down how it ended:
 * the one way in, for files, posts and the bench alike. Inside the caller's transaction.
 *
 * `what` is how the record and the message name it: "file", "request", "sheet".
 */
export function recordIntake(
  connection: Connection,
  {
    id,
    digest,
    staging,
    names,
    newFeatures,
    plant = new KnownPlant(),
    remarks,
    what,
    subject,
    actor,
    endedAt,
    emptyMessage,
    onFeature = () => undefined,
  }: {
    id: number;
    digest: string;
    staging: Staging;
    names: FileNames;
    newFeatures: NewFeatures;
    /** What is known of the plant from before. */
    plant?: KnownPlant | undefined;
    remarks: Remarks;
    what: "file" | "request" | "sheet";
    subject: string;
    actor: Actor;
    endedAt: () => number;
    /** Said when it held no row at all; null when it did. */
    emptyMessage: string | null;
    onFeature?: (done: number, total: number) => void;
  },
): IntakeCounts & { message: string; stored: Stored } {
  const earlier = standingIntakeOf(connection, digest, id);
  const stored = storeStaged(connection, {
    intakeId: id,
    staging,
    names,
    newFeatures,
    plant,
    actor,
    isKnownFile: earlier !== null,
    onFeature,
  });
  for (const refused of stored.refusals) remarks.refuse(refused);
  for (const notice of stored.notices) remarks.notice(notice);
  if (staging.lastTakenAt > actor.at + CLOCKS_DIFFER_MS) remarks.notice(yetToCome(staging));
  for (const refused of remarks.refusals)
    connection.orm
      .insert(refusal)
      .values({ intakeId: id, ...refused })
      .run();

  const { accepted, duplicates, corrections, late, signals, alarms, brought } = stored;
  const message = emptyMessage ?? (sameMessage(earlier, stored, what) || stored.far.remark());
  const outcome = {
    accepted,
    refused: remarks.refused,
    duplicates,
    corrections,
    late,
    signals,
    alarms,
    message,
  };
  endQuery(connection).run({
    ...outcome,
    id,
    digest,
    brought: JSON.stringify(brought),
    notices: JSON.stringify(remarks.notices),
    at: endedAt(),
  });
  record(connection, actor, { action: `${BRINGS_IN} ${what}`, subject, after: { id, ...outcome } });
  tell(connection, { kind: "intake", intakeId: id, featureIds: stored.featureIds });
  return { ...outcome, stored };
}

/** A plain statement: to put drizzle's together took as long as judging ten features. */
const endQuery = once(({ sqlite }) =>
  sqlite.prepare(
    `update intake set accepted = @accepted, refused = @refused, duplicates = @duplicates, corrections = @corrections,
       late = @late, signals = @signals, alarms = @alarms, message = @message, digest = @digest, brought = @brought, notices = @notices,
       state = 'done', ended_at = @at where id = @id`,
  ),
);

/** The first intake of the very same bytes, but for this one, that still stands. */
function standingIntakeOf(connection: Connection, digest: string, id: number): number | null {
  return (standingQuery(connection).get(digest, id) as number | undefined) ?? null;
}

const standingQuery = once(({ sqlite }) =>
  sqlite
    .prepare("select id from intake where digest = ? and state = 'done' and id <> ? order by id limit 1")
    .pluck(),
);

function sameMessage(
  earlier: number | null,
  { accepted, corrections, corrected, duplicates }: Stored,
  what: string,
): string {
  if (accepted + corrections > 0 || duplicates === 0) return "";
  const there = `${duplicates} measurements were there already, nothing was added.`;
  if (earlier === null) return `All ${there}`;
  const kept =
    corrected > 0
      ? ` ${corrected} of them were corrected since and keep the corrected value; undo the intake that corrected them to have this ${what}'s values back.`
      : "";
  return `The same ${what} as intake ${earlier}: all ${there}${kept}`;
}
