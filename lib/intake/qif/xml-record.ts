/** A small piece of an XML document, as it stands there; names without their prefix. */
export type XmlRecord = {
  name: string;
  /** Physical line where it begins. */
  line: number;
  attributes: Readonly<Record<string, string>>;
  children: XmlRecord[];
  text: string;
};

/** The first child of this name, followed down the path; null where there is none. */
export function childAt(record: XmlRecord, ...path: readonly string[]): XmlRecord | null {
  let at: XmlRecord | undefined = record;
  for (const name of path) at = at?.children.find((child) => child.name === name);
  return at ?? null;
}

/** The text at the end of a path without surrounding blanks; empty where there is none. */
export function textAt(record: XmlRecord, ...path: readonly string[]): string {
  return childAt(record, ...path)?.text.trim() ?? "";
}

/** The texts of all records of this name, at any depth. */
export function textsOf(record: XmlRecord, name: string): string[] {
  return record.children.flatMap((child) =>
    child.name === name ? [child.text.trim()] : textsOf(child, name),
  );
}
