/**
 * Whether to write colours; decided here and nowhere else. NO_COLOR (not empty) wins over everything. Then FORCE_COLOR:
 * 0 or false for none, anything else but empty for colours even in a pipe. Otherwise a terminal that is not dumb.
 */
export function decideColour(
  env: Readonly<Record<string, string | undefined>>,
  isTerminal: boolean,
): boolean {
  const { NO_COLOR: none = "", FORCE_COLOR: force = "", TERM: terminal } = env;
  if (none !== "") return false;
  if (force !== "") return force !== "0" && force !== "false";
  return isTerminal && terminal !== "dumb";
}
