import { type Finding, lineOf, type SourceFile } from "./source-files";

/** What writes a figure by itself, with a point whatever the plant has chosen. */
const RAW = /\.(toFixed|toPrecision|toLocaleString)\(|Intl\.NumberFormat/g;

/** Files whose figures are no reader's: places in pictures, names of files, input of a machine. */
const NO_READER = [
  /^lib\/format\//, // Where figures are written.
  /^lib\/intake\//, // What is said of a file, of which a program may be the reader.
  /^app\/cli\//, // The shell, where figures keep the point.
  /^app\/fittings\/drawn-chart\.ts$/, // Colours of a saved picture.
  /^app\/jobs\/statement-sheet\//, // Printed statements write figures as their language does, whatever the plant chose.
];

/** Places in a picture and shares of its width are written beside letters of a path or a per cent sign. */
const PLACES = /["'`][MLHV]|viewBox|points=|translate\(/;

/** Figures of pages that are written past lib/format, which knows the plant's marks. */
export function rawFigures(files: readonly SourceFile[]): Finding[] {
  return files
    .filter(({ path }) => /^(app|lib)\/.*\.tsx?$/.test(path) && !NO_READER.some((file) => file.test(path)))
    .flatMap(({ path, text }) =>
      [...text.matchAll(RAW)].flatMap((found) => {
        const line = lineOf(text, found.index);
        const written = text.split("\n")[line - 1] ?? "";
        if (
          PLACES.test(written) ||
          /\bNumber\([^()]*(\([^()]*\))?[^()]*\.to(Fixed|Precision)\(/.test(written)
        )
          return [];
        return [{ path, line, says: `writes a figure by ${found[0]}; lib/format/numbers writes it.` }];
      }),
    );
}

/** Queries whose lengths a reader sees, and where else they may be read as they are stored. */
const STORED: Record<string, readonly RegExp[]> = {
  shiftBoard: [],
  openFlags: [],
  endedFlags: [],
  latestScan: [/^app\/jobs\//],
  featureHistory: [
    /^app\/features\/\[id\]\/actions\.ts$/, // Freezes limits, in the feature's own unit.
    /^app\/capability\/studied\.ts$/, // Computes in it, too; `studyShown` converts.
  ],
};

/** Pages that read lengths past app/shown, and so show them in another unit than the rest. */
export function storedLengths(files: readonly SourceFile[]): Finding[] {
  return files
    .filter(({ path }) => /^app\/.*\.tsx?$/.test(path) && !/^app\/(shown|cli|api)\//.test(path))
    .flatMap(({ path, text }) =>
      Object.entries(STORED).flatMap(([query, but]) => {
        if (but.some((file) => file.test(path))) return [];
        return [...text.matchAll(new RegExp(`\\b${query}\\(`, "g"))].map((found) => ({
          path,
          line: lineOf(text, found.index),
          says: `reads ${query} as it is stored; app/shown reads it for a page.`,
        }));
      }),
    );
}
