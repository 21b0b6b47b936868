"use client";

import type { Words } from "../../../../lib/words/words";
import { useAnswer } from "../../../fittings/answer";
import { AwaitedWork } from "../../../fittings/awaited-work";
import { Note } from "../../../fittings/note";
import { SubmitButton } from "../../../fittings/submit-button";
import { Table } from "../../../fittings/table";
import { recomputeSigned } from "../actions";
import type { RecomputeAnswer } from "../answers";

type FormWords = Pick<
  Words["statements"]["recomputed"],
  "caption" | "heads" | "unit" | "working" | "recompute"
>;

const NOT_YET: RecomputeAnswer = { done: false, message: "", features: [] };

/** Asks whether the statement still comes out the same, and shows where it does not. */
export function RecomputeForm({ id, words }: { id: number; words: FormWords }) {
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
          caption={words.caption}
          rows={differences}
          rowKey={({ key }) => key}
          columns={[
            { key: "name", head: words.heads.feature, cell: ({ name }) => name },
            { key: "what", head: words.heads.what, cell: ({ what }) => what },
            { key: "stated", head: words.heads.stated, cell: ({ stated }) => stated },
            { key: "now", head: words.heads.now, cell: ({ now }) => now },
          ]}
        />
      ) : null}
      <AwaitedWork unit={words.unit} />
      <SubmitButton kind="plain" working={words.working}>
        {words.recompute}
      </SubmitButton>
    </form>
  );
}
