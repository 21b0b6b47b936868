import type { ACCESS } from "../../app/access-table";
import type { Finding, SourceFile } from "./source-files";

type Table = { [Section in keyof typeof ACCESS]: Record<string, unknown> };

type Guarded = { section: keyof Table; name: string; path: string; line: number; isGuarded: boolean };

/**
 * Every page, endpoint and server action asks its guard of app/access.ts under its own name, and the table
 * lists exactly those.
 */
export function accessFaults(files: readonly SourceFile[], table: Table): Finding[] {
  const found = files.flatMap(guardedThings);
  const unguarded = found
    .filter(({ isGuarded }) => !isGuarded)
    .map(({ path, line, name }) => ({ path, line, says: `does not ask the guard for "${name}".` }));
  const unlisted = found
    .filter(({ section, name }) => !Object.hasOwn(table[section], name))
    .map(({ path, line, name }) => ({ path, line, says: `is not in ACCESS as "${name}".` }));
  const known = new Set(found.map(({ section, name }) => `${section} ${name}`));
  const stale = (Object.keys(table) as (keyof Table)[]).flatMap((section) =>
    Object.keys(table[section])
      .filter((name) => !known.has(`${section} ${name}`))
      .map((name) => ({ path: "app/access-table.ts", line: 1, says: `lists "${name}", which is nowhere.` })),
  );
  return [...unguarded, ...unlisted, ...stale];
}

function guardedThings({ path, text }: SourceFile): Guarded[] {
  if (!path.startsWith("app/")) return [];
  if (/(^|\/)page\.tsx$/.test(path)) {
    const name = addressOf(path);
    const isGuarded = asks(text, "(requirePage|openPage)", "", name);
    return [{ section: "pages", name, path, line: 1, isGuarded }];
  }
  if (/(^|\/)route\.ts$/.test(path)) {
    return functionsOf(text, "(GET|HEAD|POST|PUT|PATCH|DELETE)").map(({ name: method, body, line }) => {
      const name = `${method} ${addressOf(path)}`;
      return {
        section: "endpoints",
        name,
        path,
        line,
        isGuarded: asks(body, "(requireEndpoint|requireKey|openEndpoint)", "\\w+,\\s*", name),
      };
    });
  }
  if (/^\s*["']use server["']/.test(text)) {
    return functionsOf(text, "(\\w+)").map(({ name, body, line }) => ({
      section: "actions",
      name,
      path,
      line,
      isGuarded: asks(body, "(requireAction|openAction)", "", name),
    }));
  }
  return [];
}

/** "app/plan/features/[id]/page.tsx" is at "/plan/features/[id]"; folders in brackets are no part of it. */
function addressOf(path: string): string {
  const folders = path
    .split("/")
    .slice(1, -1)
    .filter((folder) => !/^\(.*\)$/.test(folder));
  return `/${folders.join("/")}`;
}

function asks(text: string, guard: string, before: string, name: string): boolean {
  const literal = name.replace(/[.*+?^${}()|[\]\\]/g, "\\$&");
  return new RegExp(`\\b${guard}\\(\\s*${before}"${literal}"`).test(text);
}

/** Exported functions with the text up to the next export. */
function functionsOf(text: string, name: string): { name: string; body: string; line: number }[] {
  const heads = [
    ...text.matchAll(new RegExp(`^export\\s+(?:async\\s+)?(?:function|const)\\s+${name}\\b`, "gm")),
  ];
  return heads.map((head) => {
    const rest = text.slice(head.index + head[0].length);
    const end = rest.search(/^export\s/m);
    return {
      name: head[1] ?? "",
      body: end === -1 ? rest : rest.slice(0, end),
      line: text.slice(0, head.index).split("\n").length,
    };
  });
}
