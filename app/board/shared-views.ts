import "server-only";
import { latestNewsId } from "../../db/queries/news";
import { writtenWith } from "../../lib/format/marks";
import { database } from "../database";
import { words } from "../language/language";
import { plant } from "../plant";
import { type BoardFilter, type BoardPlace, boardAddress } from "./board-filter";
import { boardView, narrowed, type ReadBoard, readBoard } from "./board-view";
import { onceOf, sharedReads } from "./shared-reads";

const readAfter = sharedReads<ReadBoard, string>(readBoard);

/** What the board of an address shows as JSON, read after the news with this id and at most some seconds ago. */
export async function sharedView({
  filter,
  place,
  after,
}: {
  filter: BoardFilter;
  place: BoardPlace;
  after: number;
}): Promise<string> {
  const { spoken } = await plant();
  const latest = await latestNewsId(await database());
  const { read, made } = readAfter({ after, latest });
  return onceOf(made, `${spoken} ${boardAddress(filter, place)}`, async () => {
    const [here, said] = [await plant(), await words()];
    const narrow = await narrowed(await read, { filter, plant: here, words: said });
    return JSON.stringify(writtenWith(here.marks, () => boardView(narrow, place, said)));
  });
}
