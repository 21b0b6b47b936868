import { use } from "react";
import type { Account } from "../../db/queries/accounts";
import type { Words } from "../../lib/words/words";
import { mayOpen } from "../access";
import { LinkButton } from "../fittings/controls";
import { Note } from "../fittings/note";
import { PageFrame } from "../fittings/page-frame";
import { words } from "../language/language";
import { plant } from "../plant";
import { type BoardFilter, type BoardPlace, boardAddress } from "./board-filter";
import { boardView, narrowed, readBoard } from "./board-view";
import { Bands, type BandWords, BoardActions, BoardFacts, FollowedBoard } from "./followed-board";

/** What needs a person now; the address says which features, and how far their pages are turned. */
export async function Board({
  filter,
  place,
  person,
}: {
  filter: BoardFilter;
  place: BoardPlace;
  person: Account;
}) {
  const said = await words();
  const { board } = said;
  const narrow = await narrowed(await readBoard(), { filter, plant: await plant(), words: said });
  const { all, shown } = narrow;

  return (
    <FollowedBoard made={boardView(narrow, place, said)} address={boardAddress(filter, place)}>
      <PageFrame
        title={board.title}
        purpose={board.purpose}
        facts={all.length > 0 ? <BoardFacts /> : null}
        actions={
          all.length > 0 ? (
            <BoardActions filter={filter} words={{ ...board.filter, kinds: said.trade.sources }} />
          ) : null
        }
      >
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
        {shown.length > 0 ? <Bands words={bandWords(said)} /> : null}
      </PageFrame>
    </FollowedBoard>
  );
}

function bandWords({ board, figures }: Words): BandWords {
  const { bands, quiet, key, suspected, wasSuspected, latestFrom, ppkAtLeast, measured, since } = board;
  return {
    act: { title: bands.act.title, words: bands.act.words },
    watch: { title: bands.watch.title, words: bands.watch.words },
    quiet: { title: quiet.title, heads: quiet.heads },
    row: {
      key,
      suspected,
      wasSuspected,
      latestFrom,
      ppkAtLeast,
      measured,
      since,
      notComputed: figures.notComputed,
    },
  };
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
