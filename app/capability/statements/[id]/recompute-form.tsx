"use client";

import { useAnswer } from "../../../fittings/answer";
import { AwaitedWork } from "../../../fittings/awaited-work";
import { Note } from "../../../fittings/note";
import { SubmitButton } from "../../../fittings/submit-button";
import { Table } from "../../../fittings/table";
import { recomputeSigned } from "../actions";
import type { RecomputeAnswer } from "../answers";

const NOT_YET: RecomputeAnswer = { done: false, message: "", features: [] };

/** Asks whether the statement still comes out the same, and shows where it does not. */
export function RecomputeForm({ id }: { id: number }) {
  const [answer, send] = useAnswer(recomputeSigned, NOT_YET);
  const differences = answer.features.flatMap(({ name, differences: found }) =>
    found.map((difference, i) => ({ key: `${name} ${i}`, name, ...difference })),
  );
  return (
    <form action={send}>
      <input type="hidden" name="statement" value={id} />
      {answer.message === "" ? null : <Note kind={answer.done ? "saved" : "remark"}>{answer.message}</Note>}
      {differences.length > 0 ? (
        <Table
          caption="What differs"
          rows={differences}
          rowKey={({ key }) => key}
          columns={[
            { key: "name", head: "Feature", cell: ({ name }) => name },
            { key: "what", head: "What", cell: ({ what }) => what },
            { key: "stated", head: "As signed", cell: ({ stated }) => stated },
            { key: "now", head: "Now", cell: ({ now }) => now },
          ]}
        />
      ) : null}
      <AwaitedWork unit="features recomputed" />
      <SubmitButton kind="plain" working="Recomputing …">
        Recompute now
      </SubmitButton>
    </form>
  );
}
