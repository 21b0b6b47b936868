/** The demo's files for a newcomer to take in. They lie in seed/files. */
export const FILES_TO_TRY = ["line-b-friday.csv", "cell-a-friday.csv", "cell-a-saturday.csv"] as const;
