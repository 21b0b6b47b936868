import { Suspense } from "react";
import { requirePage } from "./access";
import { Board } from "./board/board";
import { boardFilter, type SearchParams } from "./board/board-filter";
import { LoadingRows } from "./fittings/loading";
import { PageFrame } from "./fittings/page-frame";

export const metadata = { title: "Shift board" };

/** The shift board. */
export default async function BoardPage({ searchParams }: { searchParams: Promise<SearchParams> }) {
  const person = await requirePage("/");
  const filter = boardFilter(await searchParams);
  return (
    <Suspense
      fallback={
        <PageFrame title="Shift board" purpose="What needs a person now, what soon, and what is quiet.">
          <LoadingRows label="The board is being read." />
        </PageFrame>
      }
    >
      <Board filter={filter} person={person} />
    </Suspense>
  );
}
