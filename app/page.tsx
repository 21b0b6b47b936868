import { requirePage } from "./access";
import { Board } from "./board/board";
import { boardFilter, type SearchParams } from "./board/board-filter";

export const metadata = { title: "Shift board" };

/**
 * The shift board. It reads stored standings only, in milliseconds, so it comes whole: no placeholder that
 * gives way to rows under somebody's finger.
 */
export default async function BoardPage({ searchParams }: { searchParams: Promise<SearchParams> }) {
  const person = await requirePage("/");
  return <Board filter={boardFilter(await searchParams)} person={person} />;
}
