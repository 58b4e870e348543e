/** What a shell may complete: a command with its options and the words of its first argument, as help knows them. */
export interface CompletedCommand {
  readonly name: string;
  readonly description: string;
  readonly options: readonly CompletedOption[];
  /** What its first argument may be; empty where it is a file. */
  readonly words: readonly string[];
}

interface CompletedOption {
  /** With its dashes. */
  readonly flag: string;
  readonly description: string;
}

type Script = (commands: readonly CompletedCommand[]) => string;

/**
 * The script of each shell. It holds all that it offers, so that a shell never starts the program to complete a word. Whatever is no
 * command, option or listed word is completed as a file.
 */
export const COMPLETION_SCRIPTS: ReadonlyMap<string, Script> = new Map([
  ["bash", bash],
  ["zsh", zsh],
  ["fish", fish],
  ["powershell", powershell],
]);

function bash(commands: readonly CompletedCommand[]): string {
  const flags = commands.map(({ name, options }) => `    ${name}) flags="${flagsOf(options)}" ;;`);
  const words = withWords(commands).map((each) => `    ${each.name}) words="${each.words.join(" ")}" ;;`);
  return lines(
    "# bash: source <(linepoise completion bash)",
    "_linepoise() {",
    `  local current="\${COMP_WORDS[COMP_CWORD]}" flags="" words=""`,
    `  case "\${COMP_WORDS[1]}" in`,
    ...flags,
    "  esac",
    "  COMPREPLY=()",
    '  if [ "$COMP_CWORD" -eq 1 ]; then',
    `    words="${commands.map(({ name }) => name).join(" ")} --help --version"`,
    '  elif [ "$COMP_CWORD" -eq 2 ]; then',
    `    case "\${COMP_WORDS[1]}" in`,
    ...words.map((line) => `  ${line}`),
    "    esac",
    "  fi",
    '  if [ -n "$words" ]; then',
    '    COMPREPLY=($(compgen -W "$words" -- "$current"))',
    `  elif [ "\${current:0:1}" = "-" ]; then`,
    '    COMPREPLY=($(compgen -W "$flags" -- "$current"))',
    "  fi",
    "}",
    "complete -o default -F _linepoise linepoise",
  );
}

function zsh(commands: readonly CompletedCommand[]): string {
  // A colon parts a word from its description.
  const told = (word: string, description: string) => quotedShell(`${word}:${description}`);
  const flags = commands.map(({ name, options }) => {
    const each = options.map(({ flag, description }) => told(flag, description));
    return `    ${name}) flags=(${each.join(" ")}) ;;`;
  });
  const words = withWords(commands).map((each) => `      ${each.name}) words=(${each.words.join(" ")}) ;;`);
  return lines(
    "#compdef linepoise",
    "# zsh: source <(linepoise completion zsh), after compinit",
    "_linepoise() {",
    "  local -a commands flags choices",
    "  if (( CURRENT == 2 )); then",
    `    commands=(${commands.map(({ name, description }) => told(name, description)).join(" ")})`,
    "    _describe command commands",
    "    return",
    "  fi",
    "  case $words[2] in",
    ...flags,
    "  esac",
    "  if (( CURRENT == 3 )); then",
    "    case $words[2] in",
    ...words.map((line) => line.replace("words=", "choices=")),
    "    esac",
    "  fi",
    "  if (( $#choices )); then",
    "    compadd -a choices",
    "  elif [[ $words[CURRENT] == -* ]]; then",
    "    _describe -o option flags",
    "  else",
    "    _files",
    "  fi",
    "}",
    "compdef _linepoise linepoise",
  );
}

function fish(commands: readonly CompletedCommand[]): string {
  const first = commands.map(
    ({ name, description }) =>
      `complete -c linepoise -n __fish_use_subcommand -f -a ${name} -d ${quotedFish(description)}`,
  );
  const rest = commands.flatMap(({ name, options, words }) => {
    const start = `complete -c linepoise -n '__fish_seen_subcommand_from ${name}'`;
    return [
      ...(words.length === 0 ? [] : [`${start} -f -a '${words.join(" ")}'`]),
      ...options.map(({ flag, description }) => `${start} -l ${flag.slice(2)} -d ${quotedFish(description)}`),
    ];
  });
  return lines("# fish: linepoise completion fish | source", ...first, ...rest);
}

function powershell(commands: readonly CompletedCommand[]): string {
  // Lists of lists come apart there, so that a word and what it means are one text.
  const told = (word: string, description: string) => quotedPowerShell(`${word} ${description}`);
  const first = commands.map(({ name, description }) => told(name, description));
  const flags = commands.map(({ name, options }) => {
    const each = options.map(({ flag, description }) => told(flag, description));
    return `    '${name}' = @(${each.join(", ")})`;
  });
  const words = withWords(commands).map((each) => {
    const listed = each.words.map((word) => told(word, word));
    return `    '${each.name}' = @(${listed.join(", ")})`;
  });
  return lines(
    "# PowerShell: linepoise completion powershell | Out-String | Invoke-Expression",
    "Register-ArgumentCompleter -Native -CommandName linepoise -ScriptBlock {",
    "  param($word, $line, $cursor)",
    `  $commands = @(${first.join(", ")})`,
    "  $flags = @{",
    ...flags,
    "  }",
    "  $words = @{",
    ...words,
    "  }",
    "  $typed = @($line.CommandElements | ForEach-Object { $_.ToString() })",
    "  $at = if ($word -eq '') { $typed.Count } else { $typed.Count - 1 }",
    "  $offered = @()",
    "  if ($at -eq 1) { $offered = $commands }",
    "  elseif ($at -eq 2 -and $words.ContainsKey($typed[1])) { $offered = $words[$typed[1]] }",
    "  elseif ($word -like '-*' -and $flags.ContainsKey($typed[1])) { $offered = $flags[$typed[1]] }",
    '  $offered | Where-Object { $_ -like "$word*" } | ForEach-Object {',
    "    $offer, $told = $_ -split ' ', 2",
    "    [System.Management.Automation.CompletionResult]::new($offer, $offer, 'ParameterValue', $told)",
    "  }",
    "}",
  );
}

const lines = (...all: readonly string[]): string => `${all.join("\n")}\n`;

const withWords = (commands: readonly CompletedCommand[]) => commands.filter(({ words }) => words.length > 0);

const flagsOf = (options: readonly CompletedOption[]): string => options.map(({ flag }) => flag).join(" ");

const quotedShell = (text: string): string => `'${text.replaceAll("'", `'\\''`)}'`;

const quotedFish = (text: string): string => `'${text.replaceAll("\\", "\\\\").replaceAll("'", "\\'")}'`;

const quotedPowerShell = (text: string): string => `'${text.replaceAll("'", "''")}'`;
