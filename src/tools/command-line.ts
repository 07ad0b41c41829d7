/** A command's words, read by node's own reader; what cannot be read is refused in a sentence, with how the command is written. */
import { parseArgs, type ParseArgsConfig } from "node:util";

type OptionsOf = NonNullable<ParseArgsConfig["options"]>;

/** How a command is written, and the words that it takes beside its options: none, or as many as it likes. */
interface Command<Options extends OptionsOf> {
  readonly usage: string;
  readonly options: Options;
  readonly takesWords?: boolean;
}

/** @throws Error that says which word is wrong and how the command is written */
export function readCommand<Options extends OptionsOf>(
  words: readonly string[],
  { usage, options, takesWords = false }: Command<Options>,
) {
  try {
    const { values, positionals } = parseArgs({
      args: [...words],
      options,
      allowPositionals: takesWords,
      strict: true,
    });
    return { values, positionals: positionals as readonly string[] };
  } catch (error) {
    throw new Error(`${reasonOf(error)}\n${usage}`, { cause: error });
  }
}

function reasonOf(error: unknown): string {
  const { code = "", message } = error as NodeJS.ErrnoException;
  const [, word = "This"] = /'(-{0,2}[^' ]+)/.exec(message) ?? [];
  switch (code) {
    case "ERR_PARSE_ARGS_UNKNOWN_OPTION":
    case "ERR_PARSE_ARGS_UNEXPECTED_POSITIONAL":
      return `${word} is not known.`;
    case "ERR_PARSE_ARGS_INVALID_OPTION_VALUE":
      return `${word} ${message.includes("does not take") ? "takes no value" : "needs a value"}.`;
    default:
      return message;
  }
}

interface Limits {
  readonly otherwise: number;
  readonly least?: number;
  readonly most?: number;
  /** False where a share or the like may be given. */
  readonly whole?: boolean;
}

/**
 * The number that an option holds.
 * @param name as it is typed, such as `--port`
 * @throws Error that says what is accepted
 */
export function numberOf(
  name: string,
  value: string | undefined,
  { otherwise, least = 1, most = Infinity, whole = true }: Limits,
): number {
  if (value === undefined) return otherwise;
  const number = value.trim() === "" ? NaN : Number(value);
  if (number >= least && number <= most && (!whole || Number.isInteger(number))) return number;
  const range = most === Infinity ? `from ${String(least)}` : `from ${String(least)} to ${String(most)}`;
  throw new Error(`${name} takes a ${whole ? "whole " : ""}number ${range}, not ${value}.`);
}
