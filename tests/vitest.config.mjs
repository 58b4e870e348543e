import { defineConfig } from "vitest/config";
import { BaseSequencer } from "vitest/node";

/** Test files that take longest, the longest first: a long file that begins last leaves the other cores idle. */
const LONGEST = [
  "outside/floor-optimum.long",
  "generated/floors/shared-floors.long",
  "published/two-sided-lines",
];

class LongestFirst extends BaseSequencer {
  async sort(files) {
    const rankOf = ({ moduleId }) => {
      const at = LONGEST.findIndex((name) => moduleId.endsWith(`/tests/${name}.test.ts`));
      return at < 0 ? LONGEST.length : at;
    };
    return (await super.sort(files)).sort((one, two) => rankOf(one) - rankOf(two));
  }
}

export default defineConfig({
  test: {
    include: ["tests/**/*.test.ts"],
    // Files share the modules that they import.
    isolate: false,
    maxWorkers: "100%",
    // Milliseconds after which a test counts as hung; a limit for slow machines, not a measure.
    testTimeout: 300_000,
    hookTimeout: 300_000,
    // As in bin/linepoise.js, code is compiled later than by itself; a fifth of the processor time of all tests.
    execArgv: process.versions.node.startsWith("20.") ? ["--interrupt-budget=528000"] : [],
    sequence: { sequencer: LongestFirst },
  },
});
