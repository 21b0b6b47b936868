import { parseAst } from "vitest/node";
import { type Finding, lineOf, type SourceFile } from "./source-files";

/** Anything of the syntax tree: what the checks do not ask for stays unknown. */
type Node = { type: string; start: number; end: number } & Record<string, unknown>;

/** Attributes that reach a reader, whatever they hold. */
const SAID = new Set(
  "title label aria-label aria-description placeholder alt purpose hint legend caption head working fault".split(
    " ",
  ),
);

/** Attributes and properties that no reader sees. */
const UNSEEN = new Set(
  "className does media style d viewBox points href id name key type autoComplete transform strokeDasharray width accept sizes".split(
    " ",
  ),
);

/** Functions that speak English unless they are given words, and how many arguments they then have. */
const SPEAKING: Record<string, number> = {
  momentIn: 3,
  shortMomentIn: 3,
  dayIn: 3,
  exactMomentIn: 3,
  agoWords: 3,
  durationWords: 2,
  calendarDayWords: 2,
  toleranceWords: 3,
  calibrationWords: 2,
  datedSentence: 3,
  nameOf: 2,
  runWords: 2,
  counted: 3,
  problemWords: 3,
  testWords: 2,
  gateOutcome: 2,
  indexMayBeCalled: 3,
  fractionWords: 2,
  pWords: 2,
  cautions: 2,
  chartWords: 2,
};

/** The program's own name, and what is typed letter by letter or compared with; none of it is translated. */
const NAMES = new Set([
  "Steadyrest",
  "npm run cli -- set-up",
  "Nothing saved: ",
  "in force",
  "looked at",
  "turned away",
  "to map",
  "take file",
  "steadyrest bench",
  "SHA-256",
  "/api/v1/measurements",
  "STEADYREST_WATCH=/some/folder",
  "piece",
  "take back",
  "steadyrest alarm call",
  "given up",
  "not provable",
  "does not conform",
  "NIST/SEMATECH e-Handbook 1.3.5.2",
]);

/** Two words after each other: no identifier, class name or address looks like that. */
const PROSE = /\p{L}{2,}[,;:]? \p{L}/u;

/** Texts that a page says by itself instead of taking them from lib/words. */
export function untranslated({ path, text }: SourceFile): Finding[] {
  const findings: Finding[] = [];
  const tell = (node: Node, says: string) => {
    findings.push({ path, line: lineOf(text, node.start), says });
  };
  const visit = (node: Node) => {
    switch (node.type) {
      case "ImportDeclaration":
      case "ThrowStatement":
        return;
      case "ExpressionStatement":
        if (typeof node.directive === "string") return;
        break;
      case "JSXText":
        if (/\p{L}{2,}/u.test(String(node.value)) && !NAMES.has(String(node.value).trim()))
          tell(node, `says "${short(node.value)}" itself.`);
        return;
      case "JSXAttribute": {
        const name = String((node.name as Node).name);
        const value = node.value as Node | null;
        if (SAID.has(name) && value?.type === "Literal" && /\p{L}{2,}/u.test(String(value.value)))
          tell(node, `says ${name}="${short(value.value)}" itself.`);
        else if (value && !UNSEEN.has(name)) visit(value);
        return;
      }
      case "Property":
        if (UNSEEN.has(String((node.key as Node).name))) return;
        break;
      case "CallExpression": {
        const name = String((node.callee as Node).name);
        const wanted = SPEAKING[name];
        if (wanted !== undefined && (node.arguments as Node[]).length < wanted)
          tell(node, `calls ${name} without the words of the page's language.`);
        break;
      }
      case "Literal":
        if (typeof node.value === "string" && PROSE.test(node.value) && !NAMES.has(node.value))
          tell(node, `says "${short(node.value)}" itself.`);
        return;
      case "TemplateElement":
        if (PROSE.test(String((node.value as { raw: string }).raw)) && !NAMES.has(rawOf(node)))
          tell(node, `says "${short((node.value as { raw: string }).raw)}" itself.`);
        return;
    }
    for (const [key, child] of Object.entries(node)) {
      if (key === "type" || key === "start" || key === "end") continue;
      for (const each of Array.isArray(child) ? child : [child]) if (isNode(each)) visit(each);
    }
  };
  visit(parseAst(text, { lang: path.endsWith("x") ? "tsx" : "ts" }) as unknown as Node);
  return findings;
}

function rawOf({ value }: Node): string {
  return (value as { raw: string }).raw.trim();
}

function isNode(value: unknown): value is Node {
  return typeof value === "object" && value !== null && typeof (value as Node).type === "string";
}

function short(text: unknown): string {
  return String(text).replace(/\s+/g, " ").trim().slice(0, 60);
}

export type Leaf = { path: string[]; value: unknown };

/** Every text of a catalogue with the names that lead to it. */
export function leaves(catalogue: object, path: string[] = []): Leaf[] {
  return Object.entries(catalogue).flatMap(([name, value]) =>
    typeof value === "object" && value !== null
      ? leaves(value, [...path, name])
      : [{ path: [...path, name], value }],
  );
}

/** Texts that nothing says: neither they nor what holds them is asked for by name, and nothing looks them up. */
export function unusedWords(catalogue: object, files: readonly SourceFile[]): string[] {
  const said = files.map(({ text }) => text).join("\n");
  const asked = new Set([...said.matchAll(/[.{,]\s*(\w+)/g)].map(([, name]) => name));
  const lookedUp = new Set([...said.matchAll(/(\w+)\[(?!")/g)].map(([, name]) => name));
  // Refusals and states are named by their code, in quotes.
  const named = new Set([...said.matchAll(/"(\w+(?:-\w+)+)"/g)].map(([, name]) => name));
  return leaves(catalogue)
    .filter(({ path }) => /^\w/.test(path.at(-1) ?? ""))
    .filter(
      ({ path }) =>
        !asked.has(path.at(-1)) &&
        !named.has(path.at(-1)) &&
        !path.slice(0, -1).some((name) => lookedUp.has(name)),
    )
    .map(({ path }) => path.join("."));
}
