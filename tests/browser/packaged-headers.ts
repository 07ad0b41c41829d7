/** The headers that a package's own file `_headers` gives a path, as a static host reads it: all rules that fit count. */
import { readFileSync } from "node:fs";
import path from "node:path";

export interface HeaderRule {
  readonly pattern: string;
  readonly headers: readonly (readonly [name: string, value: string])[];
}

export function headerRules(text: string): readonly HeaderRule[] {
  return text
    .trimEnd()
    .split(/\n(?! )/)
    .map((block) => {
      const [pattern = "", ...lines] = block.split("\n");
      return {
        pattern,
        headers: lines.map((line) => {
          const [, name = "", value = ""] = /^ {2}([^:]+): (.*)$/.exec(line) ?? [];
          return [name, value] as const;
        }),
      };
    });
}

/** @throws Error where two rules give one header: a host would send both. */
export function headersAt(rules: readonly HeaderRule[], pathname: string): Record<string, string> {
  const found = rules
    .filter(({ pattern }) => (pattern.endsWith("*") ? pathname.startsWith(pattern.slice(0, -1)) : pathname === pattern))
    .flatMap(({ headers }) => headers);
  const names = found.map(([name]) => name);
  const twice = names.find((name, index) => names.indexOf(name) !== index);
  if (twice !== undefined) throw new Error(`${pathname} gets ${twice} twice.`);
  return Object.fromEntries(found);
}

export function packagedRules(folder: string): readonly HeaderRule[] {
  return headerRules(readFileSync(path.join(folder, "_headers"), "utf8"));
}
