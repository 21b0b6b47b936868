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
import { type BoardFilter, type BoardPlace, boardAddress, choicesOf, filterBoard } from "./board-filter";
import { BoardFilterForm } from "./board-filter-form";
import { BOARD_CALM_MS, BOARD_NEWS } from "./board-news";
import { loadGaugesDue } from "./load-gauges";
import { placeFlags } from "./placed-flags";
import { latestOf, placeRows } from "./placed-rows";
import { QuietSection } from "./quiet-section";

/** The three bands of the board, in the order in which a shift lead reads them. */
export async function Board({
  filter,
  place,
  person,
}: {
  filter: BoardFilter;
  place: BoardPlace;
  person: Account;
}) {
  const since = await latestNewsId(await database());
  const { now, zone } = await plant();
  const said = await words();
  const { board } = said;
  const all = await boardShown(await database());
  const shown = filterBoard(all, filter, said.charts.features);
  const bands = placeRows(shown, now);
  const gauges = await loadGaugesDue(shown, { now, zone });
  const flags = await placeFlags(await database(), shown);
  const turned = (page: Partial<BoardPlace>) => boardAddress(filter, { ...place, ...page });
  const facts = { flags, zone, now };

  return (
    <PageFrame
      title={board.title}
      purpose={board.purpose}
      facts={<Facts all={all} shown={shown.length} now={now} />}
      actions={all.length > 0 ? <BoardFilterForm choices={choicesOf(all)} filter={filter} /> : null}
    >
      <FollowNews since={since} kinds={BOARD_NEWS} calmMs={BOARD_CALM_MS} />
      {all.length === 0 ? <EmptyBoard person={person} /> : null}
      {all.length > 0 && shown.length === 0 ? (
        <Note
          kind="empty"
          title={board.filter.nothing}
          actions={<LinkButton href="/">{board.filter.showAll}</LinkButton>}
        >
          {board.filter.passes}
        </Note>
      ) : null}
      {shown.length > 0 ? (
        <>
          <BandSection
            band="act"
            rows={bands.act}
            page={place.act}
            toPage={(act) => turned({ act })}
            {...facts}
          />
          <BandSection
            band="watch"
            rows={bands.watch}
            page={place.watch}
            toPage={(watch) => turned({ watch })}
            gauges={gauges}
            {...facts}
          />
          <QuietSection rows={bands.quiet} place={place} toPlace={turned} zone={zone} now={now} />
        </>
      ) : null}
    </PageFrame>
  );
}

function Facts({ all, shown, now }: { all: readonly BoardRow[]; shown: number; now: number }) {
  const { board, times } = use(words());
  if (all.length === 0) return null;
  const latest = latestOf(all);
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
