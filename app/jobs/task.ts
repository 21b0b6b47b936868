import type { Actor } from "../../db/commands/audit";
import type { Frozen, StatementDraft } from "../../db/commands/statements";
import type { IntakeOutcome, IntakeProgress } from "../../db/intake/import-file";
import type { ModelStudyInput, PlainModelStudy } from "../../lib/capability/models/model-study";
import type { Computed } from "../../lib/computed";
import type { Mapping } from "../../lib/intake/mapping";
import type { IntakePreview } from "../../lib/intake/preview";
import type { Recomputed } from "../../lib/statement/compare";
import type { Language } from "../../lib/words/language";
import type { Share } from "./awaited";

/** Work that would hold up the server's own thread, as plain data that a worker thread is given. */
export type Task =
  | {
      kind: "take file";
      path: string;
      fileName: string;
      /** Dropped by a person, or found in the watched folder. */
      from: "file" | "folder";
      mapping: Mapping;
      /** Of times that state none: the mapping's own zone, else the plant's. */
      zone: string;
      /** Readings per subgroup of features the file brings; null suggests it from the data. */
      subgroupSize: number | null;
      actor: Actor;
    }
  | { kind: "undo"; intakeId: number; actor: Actor }
  | {
      kind: "look";
      path: string;
      fileName: string;
      zone: string;
      mapping: Mapping | null;
      rows: number;
    }
  /** A model fitted with its bootstrap, a second of arithmetic. */
  | { kind: "fit"; input: ModelStudyInput }
  | { kind: "freeze"; draft: StatementDraft; actor: Actor }
  | { kind: "recompute"; statementId: number; language: Language }
  | { kind: "sheet"; statementId: number; form: SheetForm; language: Language };

/** In which form a statement leaves the house. */
export type SheetForm = "a4" | "letter" | "xlsx" | "csv";

export type TaskResult =
  | { kind: "take file"; outcome: IntakeOutcome }
  | { kind: "undo"; done: boolean; message: string }
  | { kind: "look"; preview: IntakePreview }
  | { kind: "fit"; study: Computed<PlainModelStudy> }
  | { kind: "freeze"; frozen: Frozen }
  /** Null when there is no such statement. */
  | { kind: "recompute"; features: Recomputed[] | null; computedBy: string }
  | { kind: "sheet"; bytes: Uint8Array | null };

/** What a worker tells the server. It says `ended` or `refused` once, at last. */
export type WorkerMessage =
  | { say: "begun"; intakeId: number }
  | { say: "progress"; progress: IntakeProgress }
  /** How far work has come that a page waits for. */
  | { say: "share"; share: Share }
  | { say: "ended"; result: TaskResult }
  /** A file that cannot be read at all; `message` is for the person. */
  | { say: "refused"; message: string }
  | { say: "broken"; message: string };
