import { plantMetrics } from "../../../db/queries/metrics";
import { EXPOSITION_TYPE, expositionText, type Metric } from "../../../lib/format/exposition";
import { requireKey } from "../../access";
import { database } from "../../database";
import { listJobs } from "../../jobs/jobs";

/** Figures for a monitoring system, which shows a key. They name no person and no part. */
export async function GET(request: Request): Promise<Response> {
  const key = await requireKey(request, "GET /api/metrics");
  if (key instanceof Response) return key;
  const plant = await plantMetrics(await database(), { now: Date.now() });
  const { user, system } = process.cpuUsage();
  const jobs = listJobs();
  const waiting = jobs.filter(({ state }) => state === "waiting").length;
  const running = jobs.filter(({ state }) => state === "running").length;
  const metrics: Metric[] = [
    gauge("steadyrest_alarms_open", "Alarms that are not closed, by state.", byState(plant.openAlarms)),
    gauge("steadyrest_intakes", "Files and posts taken in, by how they ended.", byState(plant.intakes)),
    gauge("steadyrest_measurements", "Measurements kept.", one(plant.measurements)),
    gauge("steadyrest_features", "Features of the control plan.", one(plant.features)),
    gauge("steadyrest_record_lines", "Lines of the record.", one(plant.recordLines)),
    gauge("steadyrest_sessions_open", "Sessions that have not ended.", one(plant.sessions)),
    gauge("steadyrest_database_bytes", "Size of the database without its log.", one(plant.databaseBytes)),
    gauge("steadyrest_jobs", "Long work in this process, by state.", byState({ waiting, running })),
    {
      name: "process_cpu_seconds_total",
      help: "Time this process has spent on a processor, in seconds.",
      type: "counter",
      samples: one((user + system) / 1e6),
    },
    gauge("process_resident_memory_bytes", "Memory of this process.", one(process.memoryUsage.rss())),
    gauge(
      "process_start_time_seconds",
      "When this process started, in seconds since 1970.",
      one(Math.round(Date.now() / 1000 - process.uptime())),
    ),
  ];
  return new Response(expositionText(metrics), {
    headers: { "content-type": EXPOSITION_TYPE, "cache-control": "no-store" },
  });
}

function gauge(name: string, help: string, samples: Metric["samples"]): Metric {
  return { name, help, type: "gauge", samples };
}

function one(value: number): Metric["samples"] {
  return [{ value }];
}

function byState(counts: Record<string, number>): Metric["samples"] {
  return Object.entries(counts).map(([state, value]) => ({ labels: { state }, value }));
}
