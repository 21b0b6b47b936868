/** The demo's files for a newcomer to take in, and what each shows. They lie in seed/files. */
export const FILES_TO_TRY = [
  { name: "line-b-friday.csv", shows: "recognised by its header, ready at once" },
  {
    name: "cell-a-friday.csv",
    shows: "one measurement a row under headers never seen before; three rows are bad",
  },
  { name: "cell-a-saturday.csv", shows: "one piece a row, a column for each feature, decimal commas" },
] as const;
