import { basename } from "node:path";
import type { Database } from "../../../db/connection";
import { FarFinder } from "../../../db/intake/far-in-file";
import { type IntakeOutcome, type IntakeProgress, importFile } from "../../../db/intake/import-file";
import { previewFile, readMeasurementFile } from "../../../db/intake/read-file";
import { mappingByName, mappingFor } from "../../../db/queries/intakes";
import { plantSettings } from "../../../db/queries/settings";
import { counted, whole } from "../../../lib/format/numbers";
import type { Mapping } from "../../../lib/intake/mapping";
import { UnreadableFile } from "../../../lib/intake/unreadable-file";
import { untimedStart } from "../../../lib/intake/untimed";
import { zoneTable } from "../../../lib/intake/zone";
import { mostUnpackedBytes } from "../../jobs/unpacked-limit";
import { withDatabase } from "../database";
import { readableFile } from "../given-file";
import { printJson } from "../output";
import { progressLine } from "../progress-line";
import { Refused, WrongUsage } from "../refusal";
import { defineVerb } from "../verb";

type Result = Omit<IntakeOutcome, "state" | "id"> & { state: IntakeOutcome["state"] | "looked at" };

export const verb = defineVerb({
  help: `intake FILE…   bring measurement files (CSV, XLSX, QIF results) into the database, as the Intake page does

  --mapping NAME  read with the mapping saved under that name; without it the mapping saved for the
                  layout is used, else one is suggested from the header
  --subgroup N    readings per subgroup of features that are new; without it the data suggest it
  --dry-run       read and check, store nothing
  --json          {"files":[{"file","digest","accepted","refused","duplicates","signals","alarms"}]}

Rows that cannot be taken are kept as refusals and shown on the Intake page; they never stop a file. A file
that cannot be read at all is refused with the reason, and nothing of it is stored; the others are taken, and
the exit code is 1.
`,
  options: {
    mapping: { type: "string" },
    subgroup: { type: "string" },
    "dry-run": { type: "boolean" },
    json: { type: "boolean" },
  },
  async run({ values, positionals }) {
    if (positionals.length === 0) throw new WrongUsage("intake needs at least one file.");
    const subgroupSize = sizeFrom(values.subgroup);
    const refusals: Refused[] = [];
    const results = await withDatabase(async (database) => {
      const taken: Result[] = [];
      for (const name of positionals) {
        const given = {
          name,
          mappingName: values.mapping,
          subgroupSize,
          dryRun: values["dry-run"] ?? false,
        };
        try {
          taken.push(await takeFile(database, given));
        } catch (error) {
          if (!(error instanceof Refused)) throw error;
          refusals.push(error);
        }
      }
      return taken;
    });
    if (results.length > 0) print(results, values.json ?? false);
    const last = refusals.pop();
    for (const refusal of refusals) process.stderr.write(`${refusal.message}\n`);
    if (last) throw last;
  },
});

function print(results: readonly Result[], asJson: boolean): void {
  if (!asJson) {
    for (const result of results) process.stdout.write(`${inWords(result)}\n`);
    return;
  }
  for (const { file, message } of results) if (message) process.stderr.write(`${file}: ${message}\n`);
  printJson({
    files: results.map(({ file, digest, accepted, refused, duplicates, signals, alarms }) => ({
      file,
      digest,
      accepted,
      refused,
      duplicates,
      signals,
      alarms,
    })),
  });
}

function sizeFrom(text: string | undefined): number | null {
  if (text === undefined) return null;
  const size = Number(text);
  if (!Number.isInteger(size) || size < 1 || size > 1000)
    throw new WrongUsage(`--subgroup takes 1 to 1000, not "${text}".`);
  return size;
}

async function takeFile(
  database: Database,
  given: { name: string; mappingName: string | undefined; subgroupSize: number | null; dryRun: boolean },
): Promise<Result> {
  const path = await readableFile(given.name);
  const file = { path, name: basename(path) };
  const { zone: zoneName, clock } = await plantSettings(database);
  const zone = zoneTable(zoneName);
  // The demo's clock stands still, for the shell as for the pages.
  const at = clock ?? Date.now();
  try {
    const mapping = untimedStart(await mappingOf(database, file, { ...given, zone }), at);
    const fileZone = mapping.zone ? zoneTable(mapping.zone) : zone;
    if (given.dryRun) return await look(database, file, { mapping, zone: fileZone });
    const progress = progressLine();
    const outcome = await importFile(database, {
      path,
      fileName: file.name,
      mapping,
      zone: fileZone,
      newFeatures: { subgroupSize: given.subgroupSize },
      actor: { accountId: null, at },
      mostUnpackedBytes: mostUnpackedBytes(),
      onProgress: (step) => progress.show(`${file.name}: ${progressWords(step)}`),
    });
    progress.end();
    if (outcome.state === "failed") throw new Refused({ file: given.name, reason: outcome.message });
    const { id: _, ...rest } = outcome;
    return rest;
  } catch (error) {
    if (error instanceof UnreadableFile) throw new Refused({ file: given.name, reason: error.message });
    throw error;
  }
}

async function mappingOf(
  database: Database,
  file: { path: string; name: string },
  {
    name,
    mappingName,
    zone,
  }: { name: string; mappingName: string | undefined; zone: ReturnType<typeof zoneTable> },
): Promise<Mapping> {
  if (mappingName !== undefined) {
    const saved = await mappingByName(database, mappingName);
    if (!saved) throw new Refused({ file: name, reason: `there is no saved mapping "${mappingName}".` });
    return saved.mapping;
  }
  const preview = await previewFile(file, {
    zone,
    mapping: null,
    rows: 0,
    endsWithMapping: true,
    mostUnpackedBytes: mostUnpackedBytes(),
  });
  const saved = await mappingFor(database, preview.fingerprint);
  const mapping = saved?.mapping ?? preview.mapping;
  const [problem] = saved ? [] : preview.problems;
  if (problem) throw new Refused({ file: name, field: problem.field, reason: problem.message });
  return mapping;
}

async function look(
  database: Database,
  file: { path: string; name: string },
  { mapping, zone }: { mapping: Mapping; zone: ReturnType<typeof zoneTable> },
): Promise<Result> {
  let far: FarFinder | null = null;
  const { digest, counts } = await readMeasurementFile(
    file,
    mapping,
    {
      zone,
      mostUnpackedBytes: mostUnpackedBytes(),
      onNames: (names) => {
        far = new FarFinder(database, names);
      },
    },
    {
      batch: (batch) => far?.add(batch),
      refusal: ({ line, field, reason }) =>
        process.stderr.write(`${file.name}, line ${line}, field "${field}": ${reason}\n`),
      notice: ({ line, message }) => process.stderr.write(`${file.name}, line ${line}: ${message}\n`),
    },
  );
  const message = (far as FarFinder | null)?.remark() ?? "";
  const none = { duplicates: 0, corrections: 0, late: 0, signals: 0, alarms: 0, message };
  return {
    file: file.name,
    digest,
    state: "looked at",
    accepted: counts.accepted,
    refused: counts.refused,
    ...none,
  };
}

function progressWords(progress: IntakeProgress): string {
  if (progress.step === "storing") return `storing feature ${progress.done} of ${progress.total}`;
  const share = progress.total > 0 ? ` (${Math.floor((100 * progress.done) / progress.total)} %)` : "";
  return `${progress.rows} rows read${share}`;
}

function inWords({
  file,
  state,
  accepted,
  refused,
  duplicates,
  corrections,
  signals,
  alarms,
  message,
}: Result): string {
  const parts = [
    `${counted(accepted, "measurement")} ${state === "looked at" ? "could be taken" : "stored"}`,
    `${counted(refused, "row")} refused`,
    `${whole(duplicates)} there already`,
    corrections > 0 ? `${counted(corrections, "value")} corrected` : "",
    counted(signals, "signal"),
    counted(alarms, "alarm"),
  ];
  return `${file}: ${parts.filter(Boolean).join(", ")}.${message ? ` ${message}` : ""}`;
}
