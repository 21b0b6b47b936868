import { use } from "react";
import type { Account } from "../../db/queries/accounts";
import type { BoardRow } from "../../db/queries/board";
import { latestNewsId } from "../../db/queries/news";
import { agoWords } from "../../lib/format/times";
import { mayOpen } from "../access";
import { database } from "../database";
import { LinkButton } from "../fittings/controls";
import { FollowNews } from "../fittings/follow-news";
import { Note } from "../fittings/note";
import { PageFrame } from "../fittings/page-frame";
import { words } from "../language/language";
import { plant } from "../plant";
import { boardShown } from "../shown/lengths";
import { BandSection } from "./band-section";
import { type BoardFilter, filterBoard } from "./board-filter";
import { BoardFilterForm } from "./board-filter-form";
import { BOARD_CALM_MS, BOARD_NEWS } from "./board-news";
import { loadGaugesDue } from "./load-gauges";
import { placeFlags } from "./placed-flags";
import { placeRows } from "./placed-rows";
import { QuietSection } from "./quiet-section";

/** The three bands of the board, in the order in which a shift lead reads them. */
export async function Board({ filter, person }: { filter: BoardFilter; person: Account }) {
  const since = await latestNewsId(await database());
  const { now, zone } = await plant();
  const said = await words();
  const { board } = said;
  const all = await boardShown(await database());
  const { placed, bands } = placeRows(filterBoard(all, filter), now, said);
  const gauges = await loadGaugesDue(placed, { now, zone });
  const flags = await placeFlags(await database(), placed);
  const isFiltered = placed.length < all.length;

  return (
    <PageFrame
      title={board.title}
      purpose={board.purpose}
      facts={<Facts all={all} shown={placed.length} now={now} />}
      actions={all.length > 0 ? <BoardFilterForm rows={all} filter={filter} /> : null}
    >
      <FollowNews since={since} kinds={BOARD_NEWS} calmMs={BOARD_CALM_MS} />
      {all.length === 0 ? <EmptyBoard person={person} /> : null}
      {isFiltered && placed.length === 0 ? (
        <Note
          kind="empty"
          title={board.filter.nothing}
          actions={<LinkButton href="/">{board.filter.showAll}</LinkButton>}
        >
          {board.filter.passes}
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
  const { board, times } = use(words());
  if (all.length === 0) return null;
  const latest = Math.max(0, ...all.map(({ standing }) => standing?.lastAt ?? 0));
  return (
    <>
      <span>{shown === all.length ? board.features(all.length) : board.shown(shown, all.length)}</span>
      <span>{latest === 0 ? board.noMeasurements : board.latest(agoWords(latest, now, times))}</span>
    </>
  );
}

function EmptyBoard({ person }: { person: Account }) {
  const { empty } = use(words()).board;
  const mayPlan = mayOpen(person, "/plan/parts/new");
  return (
    <Note
      kind="empty"
      title={empty.title}
      actions={
        <>
          {mayPlan ? (
            <LinkButton href="/intake" kind="main">
              {empty.takeIn}
            </LinkButton>
          ) : null}
          <LinkButton href="/plan">{mayPlan ? empty.byHand : empty.seePlan}</LinkButton>
        </>
      }
    >
      {mayPlan ? empty.mayPlan : empty.mayNot}
    </Note>
  );
}
