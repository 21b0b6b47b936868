import type { Account } from "../../db/queries/accounts";
import { type BoardRow, shiftBoard } from "../../db/queries/board";
import { latestNewsId } from "../../db/queries/news";
import { counted } from "../../lib/format/numbers";
import { agoWords } from "../../lib/format/times";
import { mayOpen } from "../access";
import { database } from "../database";
import { LinkButton } from "../fittings/controls";
import { FollowNews } from "../fittings/follow-news";
import { Note } from "../fittings/note";
import { PageFrame } from "../fittings/page-frame";
import { plant } from "../plant";
import { BandSection } from "./band-section";
import { type BoardFilter, filterBoard } from "./board-filter";
import { BoardFilterForm } from "./board-filter-form";
import { loadGaugesDue } from "./load-gauges";
import { placeFlags } from "./placed-flags";
import { placeRows } from "./placed-rows";
import { QuietSection } from "./quiet-section";

/** Fifty boards on a busy line: measurements alone move a strip by one tick, and that can wait a little. */
const CALM_MS = 20_000;

/** The three bands of the board, in the order in which a shift lead reads them. */
export async function Board({ filter, person }: { filter: BoardFilter; person: Account }) {
  const since = await latestNewsId(await database());
  const { now, zone } = await plant();
  const all = await shiftBoard(await database());
  const { placed, bands } = placeRows(filterBoard(all, filter), now);
  const gauges = await loadGaugesDue(placed, { now, zone });
  const flags = await placeFlags(await database(), placed);
  const isFiltered = placed.length < all.length;

  return (
    <PageFrame
      title="Shift board"
      purpose="What needs a person now, what soon, and what is quiet."
      facts={<Facts all={all} shown={placed.length} now={now} />}
      actions={all.length > 0 ? <BoardFilterForm rows={all} filter={filter} /> : null}
    >
      <FollowNews since={since} kinds={["alarm", "intake", "feature", "drift"]} calmMs={CALM_MS} />
      {all.length === 0 ? <EmptyBoard person={person} /> : null}
      {isFiltered && placed.length === 0 ? (
        <Note
          kind="empty"
          title="No feature passes this filter"
          actions={<LinkButton href="/">Show all</LinkButton>}
        >
          A source passes where it made or measured the latest pieces of a feature.
        </Note>
      ) : null}
      {placed.length > 0 ? (
        <>
          <BandSection band="act" rows={bands.get("act") ?? []} flags={flags} zone={zone} now={now} />
          <BandSection
            band="watch"
            rows={bands.get("watch") ?? []}
            flags={flags}
            gauges={gauges}
            zone={zone}
            now={now}
          />
          <QuietSection rows={bands.get("quiet") ?? []} zone={zone} now={now} />
        </>
      ) : null}
    </PageFrame>
  );
}

function Facts({ all, shown, now }: { all: readonly BoardRow[]; shown: number; now: number }) {
  if (all.length === 0) return null;
  const latest = Math.max(0, ...all.map(({ standing }) => standing?.lastAt ?? 0));
  return (
    <>
      <span>
        {shown === all.length
          ? counted(all.length, "feature")
          : `${shown} of ${counted(all.length, "feature")} shown`}
      </span>
      <span>{latest === 0 ? "No measurements yet" : `Latest measurement ${agoWords(latest, now)}`}</span>
    </>
  );
}

function EmptyBoard({ person }: { person: Account }) {
  const mayPlan = mayOpen(person, "/plan/parts/new");
  return (
    <Note
      kind="empty"
      title="No features yet"
      actions={
        <>
          {mayPlan ? (
            <LinkButton href="/intake" kind="main">
              Take in a measurement file
            </LinkButton>
          ) : null}
          <LinkButton href="/plan">{mayPlan ? "Enter a part by hand" : "See the control plan"}</LinkButton>
        </>
      }
    >
      {mayPlan
        ? "The board fills by itself once measurements arrive: drop a file on Intake, which brings its parts and features along, or enter them in the control plan first."
        : "The board fills by itself once an engineer has taken in the first measurement file."}
    </Note>
  );
}
