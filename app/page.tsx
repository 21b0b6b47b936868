import { requirePage, wallKey } from "./access";
import { Board } from "./board/board";
import { boardFilter, boardPlace, type SearchParams } from "./board/board-filter";
import { Wall } from "./board/wall/wall";
import { words } from "./language/language";

export async function generateMetadata() {
  return { title: (await words()).board.title };
}

/**
 * The shift board. It reads stored standings only, in milliseconds, so it comes whole: no placeholder that
 * gives way to rows under somebody's finger.
 *
 * `/?wall` is the same for a screen on a wall: large, without controls, and open to a screen that has a key.
 */
export default async function BoardPage({ searchParams }: { searchParams: Promise<SearchParams> }) {
  const asked = await searchParams;
  if (asked.wall !== undefined && (await wallKey()))
    return <Wall filter={boardFilter(asked)} stream="/api/wall/news" />;
  const person = await requirePage("/");
  if (asked.wall !== undefined) return <Wall filter={boardFilter(asked)} stream="/api/news" />;
  return <Board filter={boardFilter(asked)} place={boardPlace(asked)} person={person} />;
}
