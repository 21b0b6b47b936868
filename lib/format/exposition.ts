export type Metric = {
  name: string;
  help: string;
  type: "counter" | "gauge";
  /** One value, or one for each value of a label. */
  samples: readonly { labels?: Readonly<Record<string, string>>; value: number }[];
};

/** Media type of the format below. */
export const EXPOSITION_TYPE = "text/plain; version=0.0.4; charset=utf-8";

/**
 * Metrics in the line-based text exposition format, version 0.0.4, that general monitoring systems read: a line
 * of help, a line of type, and one line a sample, each ended by a line feed. In help a backslash and a line
 * feed are escaped, in the value of a label the quotation mark too (from memory).
 */
export function expositionText(metrics: readonly Metric[]): string {
  return metrics
    .map(({ name, help, type, samples }) => {
      const lines = samples.map(
        ({ labels = {}, value }) => `${name}${labelText(labels)} ${numberText(value)}`,
      );
      return [`# HELP ${name} ${escaped(help)}`, `# TYPE ${name} ${type}`, ...lines].join("\n");
    })
    .map((block) => `${block}\n`)
    .join("");
}

function labelText(labels: Readonly<Record<string, string>>): string {
  const pairs = Object.entries(labels).map(
    ([key, value]) => `${key}="${escaped(value).replaceAll('"', '\\"')}"`,
  );
  return pairs.length === 0 ? "" : `{${pairs.join(",")}}`;
}

function escaped(text: string): string {
  return text.replaceAll("\\", "\\\\").replaceAll("\n", "\\n");
}

function numberText(value: number): string {
  if (Number.isNaN(value)) return "NaN";
  if (Number.isFinite(value)) return String(value);
  return value > 0 ? "+Inf" : "-Inf";
}
