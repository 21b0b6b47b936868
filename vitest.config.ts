import { availableParallelism } from "node:os";
import { defineConfig } from "vitest/config";
import { BaseSequencer, type TestSpecification } from "vitest/node";

/** Files that take longest, measured: begun last, one of them would keep a single core busy at the end. */
const LONG = [
  "app/every-look",
  "app/intake",
  "app/capability",
  "app/statements",
  "app/alarms",
  "app/moments",
  "cli/rebuild",
];

class LongestFirst extends BaseSequencer {
  override async sort(files: TestSpecification[]): Promise<TestSpecification[]> {
    const turn = ({ moduleId }: TestSpecification) => {
      const at = LONG.findIndex((name) => moduleId.endsWith(`tests/${name}.test.ts`));
      return at === -1 ? LONG.length : at;
    };
    return (await super.sort(files)).sort((a, b) => turn(a) - turn(b));
  }
}

/**
 * Two projects: "code" needs no server; "browser" drives the built application in Chromium, each file with a server
 * of its own. A file keeps a browser and a server busy, so no more of them run at once than two cores can serve.
 */
export default defineConfig({
  test: {
    sequence: { sequencer: LongestFirst },
    projects: [
      {
        test: {
          name: "code",
          include: ["tests/**/*.test.{ts,tsx}"],
          exclude: ["tests/app/**"],
          setupFiles: ["tests/quiet.ts", "tests/laws.ts"],
          // Vitest would leave one core idle.
          maxWorkers: availableParallelism(),
          // Files of one worker share their modules: to load them for each file cost a quarter of the processor time.
          isolate: false,
          environment: "node",
          // Against what hangs: programs are started and large laws tried on machines that do other things too.
          testTimeout: 120_000 * Number(process.env.STEADYREST_LAW_TIMES ?? 1),
          hookTimeout: 120_000,
        },
      },
      {
        test: {
          name: "browser",
          include: ["tests/app/**/*.test.{ts,tsx}"],
          environment: "node",
          globalSetup: ["tests/app/server.ts"],
          maxWorkers: 2,
          testTimeout: 120_000,
          hookTimeout: 120_000,
        },
      },
    ],
  },
});
