/** Import directions. Each rule says why, for the person who just broke it. */

const { builtinModules } = require("node:module");

/** What each folder of src may import besides itself. Anything absent is forbidden. */
const mayImport = {
  findings: [],
  time: ["findings"],
  table: ["time", "findings"],
  line: ["time", "findings"],
  study: ["table", "line", "time", "findings"],
  "import-tables": ["table", "line", "time", "findings"],
  plan: ["line", "time", "findings"],
  solve: ["plan", "line", "time"],
  simulate: ["study", "plan", "line", "time", "findings"],
  benches: ["solve", "plan", "line", "time", "findings"],
  "report/words": ["simulate", "study", "answer", "benches", "solve", "plan", "line", "time", "findings"],
  answer: ["report/words", "benches", "solve", "plan", "line", "time", "findings"],
  report: [
    "simulate",
    "study",
    "import-tables",
    "table",
    "answer",
    "benches",
    "solve",
    "plan",
    "line",
    "time",
    "findings",
  ],
  commands: [
    "report",
    "simulate",
    "study",
    "import-tables",
    "table",
    "answer",
    "benches",
    "solve",
    "plan",
    "line",
    "time",
    "findings",
  ],
  library: [
    "report",
    "simulate",
    "study",
    "import-tables",
    "table",
    "answer",
    "benches",
    "solve",
    "plan",
    "line",
    "time",
    "findings",
  ],
  // Threads of their own work out options and run simulations.
  cli: ["commands", "answer", "simulate", "report", "findings", "benchmark"],
  benchmark: ["solve", "plan", "line", "time", "findings"],
};

/** The one home of each outside package. */
const homes = {
  yaml: "^src/(line|plan)/",
  "pure-rand": "^src/simulate/",
  zod: "^src/(line|plan|study)/",
  commander: "^src/(cli|commands)/",
  chalk: "^src/report/terminal/",
  "cli-table3": "^src/report/terminal/",
  "string-width": "^src/(findings|report/(terminal|html))/",
  "fastest-levenshtein": "^src/findings/",
  "csv-parse": "^src/table/",
  "csv-stringify": "^src/table/",
  "write-excel-file": "^src/table/",
  "read-excel-file": "^src/table/",
};

const directions = Object.entries(mayImport).map(([folder, allowed]) => ({
  name: `from-${folder.replace("/", "-")}`,
  comment: `Data flows one way: ${folder}/ may import ${allowed.join("/, ") || "nothing of ours"}${allowed.length ? "/" : ""}. Move the code to the layer that owns it, or pass the value in.`,
  severity: "error",
  from: {
    path: `^src/${folder}${folder === "library" ? "[./]" : "/"}${folder === "report" ? "(?!words/)" : ""}`,
  },
  to: { path: "^src/", pathNot: `^src/(${[folder, ...allowed].join("|")})/` },
}));

const packageHomes = Object.entries(homes).map(([name, home]) => ({
  name: `home-of-${name}`,
  comment: `${name} has one home (${home}), so that it can be exchanged or upgraded in one place.`,
  severity: "error",
  from: { path: "^src/", pathNot: home },
  to: { path: `node_modules/${name}/` },
}));

module.exports = {
  forbidden: [
    ...directions,
    ...packageHomes,
    {
      name: "reports-compute-nothing",
      comment:
        "A report that computes a measure is a second definition of it, and English is made from facts alone: report/ takes types from anywhere below and functions only from its own, findings/ and time/show-*. Put the figure into the answer as a fact.",
      severity: "error",
      from: { path: "^src/report/" },
      to: {
        path: "^src/",
        pathNot: "^src/(report|findings)/|^src/time/show-",
        dependencyTypesNot: ["type-only"],
      },
    },
    {
      name: "files-and-process-only-in-cli",
      comment:
        "Only cli/ touches files and the process, so that every other part runs the same in a test, in the library and in a browser.",
      severity: "error",
      from: { path: "^src/", pathNot: "^src/cli/" },
      to: { dependencyTypes: ["core"] },
    },
    {
      name: "library-touches-no-process",
      comment:
        "Who imports linepoise gets functions of texts, in a browser too: nothing that the library reaches knows files, the process, the command line or the terminal. Move what it needs to a layer below them.",
      severity: "error",
      from: { path: "^src/library\\.ts$" },
      to: {
        path: `^src/(cli|commands|report/terminal)/|node_modules/(commander|chalk|cli-table3)/|^(node:)?(${builtinModules.join("|")})$`,
        reachable: true,
      },
    },
    {
      name: "rules-stand-alone",
      comment: "A balancing rule only ranks; it never leans on another rule. Share through solve/ instead.",
      severity: "error",
      from: { path: "^src/solve/rules/(?!register)" },
      to: { path: "^src/solve/rules/(?!rule\\.ts$)" },
    },
    {
      name: "verifier-shares-nothing-with-solvers",
      comment: "The verifier must not repeat a solver's mistake, so plan/ imports nothing from solve/.",
      severity: "error",
      from: { path: "^src/plan/" },
      to: { path: "^src/solve/" },
    },
    {
      name: "solve-makes-no-english",
      comment:
        "Solvers hand out facts: kinds, exact numbers, tasks by number or id. Sentences are made from them in report/words, findings in answer/; so solve/ takes nothing from report/, findings/ or time/show-*.",
      severity: "error",
      from: { path: "^src/solve/" },
      to: { path: "^src/(report|findings)/|^src/time/show-" },
    },
    {
      name: "search-knows-no-line",
      comment: "The search works on whole numbers only; names and units stay outside it.",
      severity: "error",
      from: { path: "^src/solve/(search|bounds)/" },
      to: { path: "^src/(line|plan|time)/" },
    },
    {
      name: "improvement-knows-no-search",
      comment: "The search may begin with plans that solve/improve makes, never the other way round.",
      severity: "error",
      from: { path: "^src/solve/improve/" },
      to: { path: "^src/solve/search/" },
    },
    {
      name: "bin-only-starts-the-cli",
      comment: "bin/ hands over streams and arguments and sets the exit status; everything else is in src/.",
      severity: "error",
      from: { path: "^bin/" },
      to: { path: "^(src|dist)/", pathNot: "^(src/cli|dist/program)/" },
    },
    {
      name: "product-never-imports-tests",
      comment: "Tests know the product, never the other way round.",
      severity: "error",
      from: { path: "^(src|bin)/" },
      to: { path: "^tests/" },
    },
    {
      name: "no-development-packages",
      comment:
        "A user's install has no packages: those that src/ uses have a home above and are bundled, with their licences. Give a new one its home, and its reason in DEVELOPERS.md.",
      severity: "error",
      from: { path: "^(src|bin)/" },
      to: {
        dependencyTypes: ["npm", "npm-dev", "npm-no-pkg", "npm-unknown"],
        pathNot: `node_modules/(${Object.keys(homes).join("|")})/`,
      },
    },
    {
      name: "no-circles",
      comment: "Two modules that need each other are one module, or miss a third.",
      severity: "error",
      from: {},
      to: { circular: true },
    },
    {
      name: "no-orphans",
      comment: "A module that nobody imports is dead.",
      severity: "error",
      from: { orphan: true, path: "^src/", pathNot: "^src/(library|cli/(main|benchmark-main))\\.ts$" },
      to: {},
    },
    {
      name: "resolvable",
      comment:
        "An import that does not resolve is a missing file or package; dist/ is there once it is built.",
      severity: "error",
      from: {},
      to: { couldNotResolve: true, pathNot: "^(\\.\\./)+dist/" },
    },
  ],
  options: {
    doNotFollow: { path: "node_modules" },
    exclude: { path: "(^dist/|^tests/.*/planted/)" },
    tsConfig: { fileName: "tsconfig.json" },
    tsPreCompilationDeps: true,
    enhancedResolveOptions: {
      exportsFields: ["exports"],
      conditionNames: ["import", "require", "node", "default"],
    },
  },
};
