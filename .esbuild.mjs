// Bundles the program into dist/program: what starts it, and each command in files of its own that are loaded when it is called. Beside it
// dist/library, which runs in browsers as well.
import { readdir, readFile, rm, writeFile } from "node:fs/promises";
import { build } from "esbuild";

const folder = process.argv[2] ?? "dist";

const common = {
  bundle: true,
  splitting: true,
  format: "esm",
  minifySyntax: true,
  minifyWhitespace: true,
  // Traces name the lines of src/ by these maps; the text of the sources stays out.
  sourcemap: true,
  sourcesContent: false,
  legalComments: "none",
  metafile: true,
};

await bundle("program", {
  entryPoints: ["src/cli/main.ts", "src/cli/option-thread.ts"],
  platform: "node",
  target: "node20.12",
  // Packages of the older module form ask for Node's own modules by `require`.
  banner: {
    // Under a name of its own, as packages may import the same function.
    js: 'import { createRequire as makeRequireOfBundle } from "node:module"; const require = makeRequireOfBundle(import.meta.url);',
  },
});
await bundle("library", {
  entryPoints: ["src/library.ts"],
  // Fails for whatever asks for a module of Node.
  platform: "browser",
  target: "es2022",
  // For the tests: whose page it is bundles it again, with maps of its own.
  sourcemap: "external",
  alias: { "csv-parse/sync": "csv-parse/browser/esm/sync" },
});

async function bundle(name, options) {
  const outdir = `${folder}/${name}`;
  await rm(outdir, { recursive: true, force: true });
  const { metafile } = await build({ ...common, ...options, outdir });
  await writeFile(`${outdir}/licences.txt`, await licencesOf(Object.keys(metafile.inputs)));
}

/** The licences of the packages that are bundled: each asks to stay with copies of its code. */
async function licencesOf(inputs) {
  const folders = new Set(inputs.map((path) => /^.*node_modules\/(?:@[^/]+\/)?[^/]+/.exec(path)?.[0]));
  folders.delete(undefined);
  const texts = [...folders].sort().map(async (folder) => {
    const { name, version, license } = JSON.parse(await readFile(`${folder}/package.json`, "utf8"));
    const file = (await readdir(folder)).find((each) => /^licen[cs]e/i.test(each));
    const text = file === undefined ? license : (await readFile(`${folder}/${file}`, "utf8")).trim();
    return `${name} ${version}\n\n${text}\n`;
  });
  return (await Promise.all(texts)).join(`\n${"-".repeat(80)}\n\n`);
}
