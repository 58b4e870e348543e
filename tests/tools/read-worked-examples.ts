import { readFileSync } from "node:fs";
import { parse } from "yaml";

/** Where a worked example was published. */
export interface Source {
  readonly author: string;
  readonly title: string;
  readonly chapter: string;
}

export interface ExampleTask {
  readonly id: string;
  readonly time: number;
  readonly after: readonly string[];
}

/** What a balancing rule gives on an example; times in the example's unit, shares as fractions, as printed in the source. */
export interface RuleAnswer {
  readonly rule: string;
  readonly status: string;
  readonly ties: string;
  readonly stations: readonly (readonly string[])[];
  readonly loads: readonly number[];
  readonly "efficiency-at-limit": number;
  readonly "efficiency-at-longest": number;
  readonly "delay-at-limit": number;
  readonly idle: number;
  readonly "smoothness-at-longest": number;
}

export interface Figure {
  readonly value: number;
  readonly status: string;
}

export interface Figures {
  readonly status: string;
  readonly of: Readonly<Record<string, number>>;
}

/** A line with a station limit and the published or computed answers; times in `unit`. */
export interface BalancingExample {
  readonly id: string;
  readonly title: string;
  readonly source: Source;
  readonly unit: "s" | "min";
  readonly limit: number;
  readonly tasks: readonly ExampleTask[];
  readonly expected: {
    readonly "work-content": number;
    readonly bound: number;
    readonly "least-stations": Figure;
    readonly "least-limit": Figure;
    readonly weights: Figures;
    readonly followers: Figures;
    readonly columns: Figures;
    readonly "least-stations-by-limit"?: Figures;
    readonly "least-limit-by-stations"?: Figures;
    readonly rules: readonly RuleAnswer[];
  };
}

export interface TaktExample {
  readonly id: string;
  readonly source: Source;
  readonly status: string;
  readonly given: {
    readonly "shift-minutes": number;
    readonly shifts: number;
    readonly "breaks-minutes": readonly number[];
    readonly "days-per-week"?: number;
    readonly "weeks-per-year"?: number;
    readonly demand: string;
  };
  readonly expected: { readonly "available-seconds-per-shift": number; readonly "takt-seconds": number };
}

export interface WorkedExamples {
  readonly balancing: readonly BalancingExample[];
  readonly "weight-definitions": {
    readonly source: Source;
    readonly unit: "s";
    readonly tasks: readonly ExampleTask[];
    readonly weights: Figures;
    readonly "longest-path": Figures;
  };
  readonly "measures-from-loads": {
    readonly source: Source;
    readonly cases: readonly {
      readonly loads: readonly number[];
      readonly limit: number;
      readonly "efficiency-at-limit": number;
      readonly "delay-at-limit": number;
      readonly idle: number;
      readonly "smoothness-at-limit": number;
    }[];
  };
  readonly "pace-from-yearly-demand": {
    readonly source: Source;
    readonly cases: readonly {
      readonly name: string;
      readonly "demand-per-year": number;
      readonly "shifts-per-week": number;
      readonly "weeks-per-year": number;
      readonly "hours-per-shift": number;
      readonly uptime: number;
      readonly "repositioning-seconds": number;
      readonly expected: {
        readonly "rate-per-hour": number;
        readonly "line-cycle-minutes": number;
        readonly "service-minutes": number;
      };
    }[];
  };
  readonly takt: readonly TaktExample[];
  readonly "time-units": {
    readonly source: Source;
    readonly cases: readonly {
      readonly status: string;
      readonly seconds: number;
      readonly written: readonly string[];
    }[];
  };
  readonly "time-study": {
    readonly "standard-times": readonly {
      readonly id: string;
      readonly source: Source;
      readonly allowance: { readonly share: number; readonly of: "job" | "shift" };
      readonly elements: readonly {
        readonly readings: readonly number[];
        readonly marked?: readonly number[];
        readonly rating: number;
      }[];
      readonly expected: {
        readonly observed: readonly number[];
        readonly deviation?: readonly number[];
        readonly normal?: readonly number[];
        readonly standard?: readonly number[];
        readonly "total-normal"?: number;
        readonly "total-standard": number;
        readonly "total-standard-of-shift"?: number;
        readonly "pieces-in-480"?: number;
        readonly "needed-by-t"?: number;
        readonly "needed-by-z"?: number;
        readonly t?: number;
      };
    }[];
    readonly "readings-needed": readonly {
      readonly source: Source;
      readonly quantile: number;
      readonly deviation?: number;
      readonly mean?: number;
      readonly readings?: readonly number[];
      readonly share?: number;
      readonly error?: number;
      readonly needed: number;
    }[];
    readonly allowances: {
      readonly source: Source;
      readonly parts: Readonly<Record<string, number>>;
      readonly total: number;
    };
  };
  readonly scrap: {
    readonly source: Source;
    readonly given: { readonly "good-units": number; readonly scrap: readonly number[] };
    readonly expected: {
      readonly "into-op1": number;
      readonly "rounded-up": number;
      readonly "rolled-yield": number;
    };
  };
  readonly "parallel-units": {
    readonly source: Source;
    readonly cases: readonly {
      readonly status: string;
      /** Exact numbers as text. */
      readonly standard: string;
      readonly efficiency: string;
      readonly reliability: string;
      readonly quantity: number;
      readonly available: number;
      readonly expected: { readonly exact: number; readonly whole: number };
    }[];
  };
  readonly "learning-curves": readonly {
    readonly id: string;
    readonly source: Source;
    readonly by: "unit" | "average";
    /** As a line file has it. */
    readonly share: string;
    readonly first: number;
    readonly tolerance: number;
    readonly expected: {
      readonly units?: Readonly<Record<string, number>>;
      readonly totals?: Readonly<Record<string, number>>;
      readonly means?: Readonly<Record<string, number>>;
      readonly blocks?: readonly { readonly from: number; readonly to: number; readonly total: number }[];
    };
  }[];
}

const path = new URL("../../shared/worked-examples.yaml", import.meta.url);

/** The published worked examples of `shared/worked-examples.yaml`. */
export function readWorkedExamples(): WorkedExamples {
  return parse(readFileSync(path, "utf8")) as WorkedExamples;
}

/** Author, title and chapter in one line, to stand beside the name of a test. */
export function citation(source: Source): string {
  return `${source.author}, ${source.title}, ${source.chapter}`;
}
