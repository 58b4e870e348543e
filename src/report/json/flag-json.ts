import type { Obstacle } from "../../answer/balance/obstacle.js";
import type { ChangedResult, LongAnswer, SlowerRate } from "../../answer/long-tasks/long-answer.js";
import type { OffLineFlag } from "../../answer/off-line/off-line-flag.js";
import type { Line } from "../../line/line.js";
import { blockFlagWords } from "../words/block-flag-words.js";
import { hindranceWords } from "../words/hindrance-words.js";
import { longAnswersWords, longAnswerWords } from "../words/long-answer-words.js";
import { obstacleWords } from "../words/obstacle-words.js";
import { shortageJson } from "./no-plan-json.js";
import { numberJson, secondsJson } from "./number-json.js";

/** Something worth looking at beside the line: the sentence that text shows, then its facts. */
export function flagJson(line: Line, flag: OffLineFlag) {
  const common = {
    tasks: flag.tasks,
    joinsAt: flag.joinsAt,
    stationsBefore: flag.stationsBefore,
    stationsAfter: flag.stationsAfter,
    peopleBefore: flag.peopleBefore,
    peopleAfter: flag.peopleAfter,
    outcome: flag.outcome,
  };
  if (flag.kind === "over-limit") {
    const reason = longAnswersWords(line, flag.answers);
    return {
      kind: flag.kind,
      ...common,
      reason,
      answers: flag.answers.map((each) => answerJson(line, flag.peopleBefore, each)),
    };
  }
  return {
    kind: flag.kind,
    ...common,
    reason: blockFlagWords(line, flag),
    freed: flag.freed,
    bench: {
      seconds: secondsJson(flag.bench.work),
      places: flag.bench.places,
      load: numberJson(flag.bench.load),
    },
    isGuess: flag.isGuess,
    isCertain: !flag.isDoubted && flag.outcome === "proved",
  };
}

/** What helps a task that is too long: of every kind its own facts, then people before and after. */
function answerJson(line: Line, peopleBefore: number | null, answer: LongAnswer) {
  const common = { message: longAnswerWords(line, answer), helpsAll: answer.isJoint };
  const then = (result: ChangedResult | null) => resultJson(line, peopleBefore, result);
  switch (answer.kind) {
    case "places": {
      const { places, equipment, everywhere, shorter } = answer;
      return {
        kind: answer.kind,
        ...common,
        placesByTask: places,
        equipment,
        everywhere,
        shorter,
        ...then(answer.result),
      };
    }
    case "no-places":
      return { kind: answer.kind, ...common, placesByTask: answer.places };
    case "equipment":
      return { kind: answer.kind, ...common, equipment: answer.equipment, ...then(answer.result) };
    case "split": {
      const { parts, most, isOfModel, fixedTo, equipment, result } = answer;
      const part = { parts, mostSeconds: secondsJson(most), ofOneModel: isOfModel, fixedTo, equipment };
      return { kind: answer.kind, ...common, ...part, ...then(result) };
    }
    case "too-many-parts":
      return {
        kind: answer.kind,
        ...common,
        parts: answer.parts,
        mostSeconds: secondsJson(answer.most),
        ofOneModel: answer.isOfModel,
      };
    case "bench": {
      const { tasks, joinsAt, places, isGuess, result } = answer;
      const [stations, people] = result?.kind === "plan" ? [result.stations, result.people] : [null, null];
      const obstacles = result?.kind === "no-plan" ? obstaclesJson(line, result.obstacles) : null;
      const size = { stations, peopleBefore, peopleAfter: people, obstacles };
      return { kind: answer.kind, ...common, tasks, joinsAt, places, isGuess, ...size };
    }
    case "no-bench":
      return {
        kind: answer.kind,
        ...common,
        holds: answer.holds.map((each) => ({ kind: each.kind, message: hindranceWords(line, each) })),
      };
    case "overload":
      return {
        kind: answer.kind,
        ...common,
        modelOverload: numberJson(answer.overload),
        ...then(answer.result),
      };
    case "slower": {
      const { lineCycle, outcome, neededBy, rate, result } = answer;
      const pace = { lineCycleSeconds: secondsJson(lineCycle), lineCycleOutcome: outcome, ...rateJson(rate) };
      return { kind: answer.kind, ...common, ...pace, neededBy: neededBy?.task ?? null, ...then(result) };
    }
    default:
      return { kind: answer.kind, ...common };
  }
}

/** People in all, at a time, before and after; nulls where nothing was balanced, or no plan came of it. */
function resultJson(line: Line, peopleBefore: number | null, result: ChangedResult | null) {
  const plan = result?.kind === "plan" ? result : null;
  return {
    stations: plan?.stations ?? null,
    peopleBefore,
    peopleAfter: plan?.people ?? null,
    outcome: plan === null ? null : plan.isProved ? ("proved" as const) : ("found" as const),
    efficiencyAtPace: numberJson(plan?.efficiency ?? null),
    obstacles:
      result?.kind === "no-plan" && result.obstacles !== null ? obstaclesJson(line, result.obstacles) : null,
  };
}

function rateJson(rate: SlowerRate) {
  return rate.kind === "hour"
    ? { unitsPerHour: numberJson(rate.units), units: null, period: null }
    : { unitsPerHour: null, units: numberJson(rate.units), period: rate.demand.period };
}

/** Why there is no plan: the kind of each reason and its clause. */
export const obstaclesJson = ({ unit }: Line, obstacles: readonly Obstacle[]) =>
  obstacles.map((each) => ({
    kind: each.kind,
    message: obstacleWords(unit, each),
    ...(each.kind === "shortage" ? { shortage: shortageJson(each.shortage) } : {}),
  }));
