import type { TouchedFeature } from "../../../db/queries/intakes";
import type { Job } from "../../jobs/job";
import type { Look } from "../look";

/**
 * A file on the desk, from the moment it is dropped until it is cleared away.
 *
 * sending → looked at → job (waiting, running, ended). One that cannot be read is turned away, and one whose
 * job failed or was cancelled can be looked at and taken in again.
 */
export type DeskItem = { key: string; name: string; bytes: number } & (
  | { stage: "queued" }
  | { stage: "opening"; id: string }
  | { stage: "sending"; share: number }
  | { stage: "turned away"; message: string }
  | { stage: "looked at"; id: string; look: Look; message: string }
  | { stage: "job"; id: string; look: Look | null; job: Job; touched: TouchedFeature[] | null }
);

type Change =
  | { do: "add"; items: DeskItem[] }
  | { do: "set"; item: DeskItem }
  | { do: "clear"; key: string }
  | { do: "jobs"; jobs: readonly Job[] };

export function changeDesk(items: DeskItem[], change: Change): DeskItem[] {
  switch (change.do) {
    case "add":
      return [...items, ...change.items];
    case "set":
      return items.map((item) => (item.key === change.item.key ? change.item : item));
    case "clear":
      return items.filter(({ key }) => key !== change.key);
    case "jobs": {
      const byId = new Map(change.jobs.map((job) => [job.id, job]));
      return items.map((item) => {
        const job = item.stage === "job" ? byId.get(item.job.id) : undefined;
        return item.stage === "job" && job ? { ...item, job } : item;
      });
    }
  }
}

export function isRunning(item: DeskItem): boolean {
  return item.stage === "job" && (item.job.state === "waiting" || item.job.state === "running");
}
