import { partedWeightings } from "../bounds/parted-weightings.js";
import { stationsAfterEach } from "../bounds/tails.js";
import { allWeightings, tightestWeightings, type Weighting } from "../bounds/weightings.js";
import { ceilingDivision } from "../bounds/whole-numbers.js";
import { type Aim, type Cost, isCheaper } from "../cost.js";
import type { TaskRules } from "../station/task-rules.js";
import type { FilledStation } from "../work.js";
import { addTask, hasTask } from "./bit-sets.js";
import { EmptyPositions } from "./empty-positions.js";
import { Exchanges } from "./exchanges.js";
import type { ForcedIdle } from "./forced-idle.js";
import { FullLoads } from "./full-loads.js";
import { Headroom } from "./headroom.js";
import type { Instance } from "./instance.js";
import { LearnedWeightings } from "./learned-weightings.js";
import { MovesAhead } from "./moves-ahead.js";
import { OneMore } from "./one-more.js";
import { OpenStates } from "./open-states.js";
import { Pairs } from "./pairs.js";
import { Remainder } from "./remainder.js";
import { StateStore } from "./state-store.js";
import { Swaps } from "./swaps.js";

/** How a stretch of the search came out. "exhausted": no plan meets the target. */
export type Stretch = "open" | "found" | "exhausted" | "nodes" | "memory";

/**
 * Branch and bound with memory from one end of the line (Sewell & Jacobson 2012; Morrison, Sewell & Jacobson 2014): is
 * there a plan cheaper than a ceiling? Partial plans are sets of tasks on so many stations, extended by full loads;
 * the walk through the loads of one partial plan is cut short after so many steps, and what was cut short waits for a
 * later, wider round. The search is exhausted when nothing is open and nothing was cut short.
 *
 * On a plain line a station takes one person, and the ceiling is a number of stations. Where more is asked of stations, a partial plan
 * has its people, its position and what its stations hand on as well, and each load asks the station being filled.
 */
export class DirectionSearch {
  nodes = 0;
  /** What the other end of the line leaves idle at the least, once that is known. */
  behind: ForcedIdle | null = null;
  private readonly store: StateStore;
  private readonly oneMore: OneMore;
  /** On a plain line. */
  private readonly exchanges: Exchanges | null;
  private readonly pairs: Pairs;
  /** Stations that the pairs ask for on the whole line. */
  private readonly pairedStations: number;
  private readonly tails: Int32Array;
  private readonly weightings: readonly Weighting[];
  private readonly learned: LearnedWeightings;
  private readonly latest: Int32Array;
  private readonly loads: FullLoads;
  /** The tasks placed with the current load. */
  private readonly set: Int32Array;
  private remainder: Remainder;
  private readonly open: OpenStates;
  /** Steps that the walk through the loads of one state may take in this round. */
  private width = FIRST_WIDTH;
  /** The state whose loads are being walked. */
  private state = NONE;
  /** The whole plan found last. */
  private last = NONE;

  /** The most stations of a plan that is looked for. */
  private target = 0;
  private headroom: Headroom | null = null;
  private readonly empties: EmptyPositions | null;
  private readonly moves: MovesAhead | null;
  /** Steps of walks that are not counted as nodes yet. */
  private uncounted = 0;

  /** Looks for plans cheaper than the ceiling. To lay that out takes seconds on a long line, so it gives null now and then. */
  static *opened(
    instance: Instance,
    ceiling: Cost,
    aim: Aim,
    mostNodes: number,
    mostStates: number,
  ): Generator<null, DirectionSearch> {
    const swaps = yield* Swaps.ofAll(instance);
    const walked = instance.rules === null ? swaps : yield* Swaps.ofAll(instance, true);
    return new DirectionSearch(instance, ceiling, aim, mostNodes, mostStates, swaps, walked);
  }

  private constructor(
    private readonly instance: Instance,
    private ceiling: Cost,
    private readonly aim: Aim,
    private readonly mostNodes: number,
    mostStates: number,
    private readonly swaps: Swaps,
    walked: Swaps,
  ) {
    this.store = new StateStore(instance, mostStates, aim);
    this.oneMore = new OneMore(instance, this.store);
    const { rules } = instance;
    this.exchanges = Exchanges.suit(instance) ? new Exchanges(instance, this.store, this.swaps) : null;
    this.pairs = new Pairs(instance);
    this.pairedStations = this.pairs.stations;
    this.tails = stationsAfterEach(instance);
    this.latest = new Int32Array(instance.size);
    this.loads = new FullLoads(instance, this.latest, walked);
    this.set = new Int32Array(instance.words);
    const { parted } = instance;
    const partedSets = parted === null ? [] : partedWeightings(instance, parted);
    this.weightings = [...allWeightings(instance), ...partedSets];
    this.learned = new LearnedWeightings(instance);
    this.moves = rules === null ? null : MovesAhead.of(rules);
    this.empties = rules === null ? null : EmptyPositions.of(instance, rules);
    this.remainder = this.setGoal(ceiling);
    this.open = new OpenStates(this.store, rules?.work.isPositional ? rules.work.positions : this.target);
    const carried = rules?.station.nothingCarried ?? [];
    const reach = rules === null ? null : { people: 0, position: 0, carried, places: 0, origin: -1 };
    this.store.remember(this.set, 0, 0, -1, 0, reach);
    this.store.personWork[0] = 0;
    this.open.push(0, 0);
  }

  /** What the line costs at the least by the weightings and the pairs of its tasks, before any partial plan. */
  get least(): Cost {
    const weighed = this.weightings.map(({ capacity, total }) => ceilingDivision(total, capacity));
    const stations = Math.max(this.pairedStations, ...weighed);
    return { people: stations + (this.headroom?.leastExtra ?? 0), stations };
  }

  /** Partial plans remembered. */
  get states(): number {
    return this.store.count;
  }

  /** Sets a lower ceiling; what is remembered and open stays. */
  aimBelow(ceiling: Cost): void {
    if (this.state >= 0) this.open.push(this.state, 0);
    this.state = NONE;
    this.open.restart();
    this.remainder = this.setGoal(ceiling);
  }

  private setGoal(ceiling: Cost): Remainder {
    this.ceiling = ceiling;
    const { instance, latest, tails } = this;
    const { rules, size } = instance;
    if (rules === null) this.target = Math.min(size, ceiling.stations - 1);
    else {
      if (rules.work.isPositional) latestPositions(instance, rules, latest);
      else latest.fill(size);
      this.headroom = new Headroom(instance, rules, latest, ceiling, this.aim);
      this.target = Math.max(0, this.headroom.goal.stations);
    }
    if (!rules?.work.isPositional)
      for (let task = 0; task < size; task++) latest[task] = this.target - tails[task]!;
    const weightings = this.learned.startFrom(tightestWeightings(this.weightings, this.target));
    return new Remainder(instance, weightings, latest, this.target, this.headroom);
  }

  /** Goes on for about so many steps; a node is a full load looked at. */
  run(steps: number): Stretch {
    for (let left = steps; left > 0; ) {
      if (this.nodes >= this.mostNodes) return "nodes";
      if (this.store.full) return "memory";
      if (this.state < 0) {
        if (!this.pick()) return "exhausted";
        left -= this.instance.size;
        continue;
      }
      const from = this.loads.steps;
      const walk = this.loads.advance(Math.min(from + Math.min(left, this.stepsLeft), this.width));
      left -= this.loads.steps - from + 1;
      this.learned.allow(this.loads.steps - from);
      if (this.instance.rules !== null) this.countSteps(this.loads.steps - from);
      if (walk === "load") {
        this.nodes++;
        if (this.keepLoad()) return "found";
      } else if (walk === "end") {
        this.state = NONE;
      } else if (this.loads.steps >= this.width) {
        this.open.defer(this.state);
        this.state = NONE;
      }
    }
    return "open";
  }

  /** Takes the next open state and, unless its bounds rule it out, begins to walk its loads; false when none is left. */
  private pick(): boolean {
    const state = this.open.next(
      this.instance.rules?.work.isPositional ? this.instance.rules.work.positions : this.target,
    );
    if (state < 0) {
      this.width *= WIDENING;
      return this.open.resume();
    }
    if (this.oneMore.dominates(state) || this.exchanges?.dominate(state)) return true;
    const { remainder, loads, headroom } = this;
    const { sets, stations, people, positions } = this.store;
    const { words, rules } = this.instance;
    const offset = state * words;
    const room = remainder.open(sets, offset, stations[state]!, people[state]!, positions[state]!);
    const idleBehind = this.behind?.least[this.target - stations[state]! - 1] ?? 0;
    const mostRoom = idleBehind > 0 ? Math.min(room, remainder.spare - idleBehind) : room;
    if (mostRoom < 0 || !this.pairsAllow(state)) return true;
    if (this.learned.ruleOut(remainder, remainder.stationsLeft)) return true;
    const kept = rules === null ? null : rules.station.keptOf(this.store.carried[state]!);
    if (kept !== null && !this.moves!.allow(sets, offset, kept, positions[state]!, remainder.stationsLeft))
      return true;
    this.state = state;
    const needsLeader = remainder.leadingTasksLeft > 0 && (rules?.anyOrder ?? true);
    if (rules !== null) {
      rules.station.startAfter(positions[state]!, this.store.carried[state]!);
      this.leaveEmpty(state, rules);
    }
    const station = (rules?.work.isPositional ? positions[state]! : stations[state]! + remainder.shift) + 1;
    loads.start(sets, offset, station, mostRoom, needsLeader, headroom?.roomByZone ?? null);
    return true;
  }

  private pairsAllow(state: number): boolean {
    if (this.target - this.pairedStations > PAIRS_IN_REACH) return true;
    return this.pairs.allow(this.store.sets, state * this.instance.words, this.remainder.stationsLeft);
  }

  /** Steps of a walk before the nodes are used up. */
  private get stepsLeft(): number {
    if (this.instance.rules === null) return Number.POSITIVE_INFINITY;
    return (this.mostNodes - this.nodes) * STEPS_A_NODE - this.uncounted;
  }

  /** Steps of walks count, too, where each of them asks the station. */
  private countSteps(steps: number): void {
    this.uncounted += steps;
    const nodes = Math.floor(this.uncounted / STEPS_A_NODE);
    this.uncounted -= nodes * STEPS_A_NODE;
    this.nodes += nodes;
  }

  /** Keeps the same partial plan with nothing at its next position, where that may be of use. */
  private leaveEmpty(state: number, { work }: TaskRules): void {
    const { store, empties, remainder, instance } = this;
    const position = store.positions[state]!;
    if (empties === null || position + 1 >= work.positions) return;
    const offset = state * instance.words;
    if (!empties.mayHelp(store.sets, offset, position, remainder.left, remainder.tasksLeft)) return;
    for (let word = 0; word < this.set.length; word++) this.set[word] = store.sets[offset + word]!;
    const reach = {
      people: store.people[state]!,
      position: position + 1,
      carried: store.carried[state]!,
      places: 0,
      origin: store.origins[state]!,
    };
    const { stations, hashes, work: done } = store;
    const child = store.remember(this.set, hashes[state]!, stations[state]!, state, done[state]!, reach);
    if (child < 0) return;
    store.personWork[child] = store.personWork[state]!;
    this.open.push(child, this.keyOf(child, remainder.tasksLeft));
  }

  /** The least idle time of people first, a little less for every task left. */
  private keyOf(state: number, left: number): number {
    const { people, personWork } = this.store;
    const { perPerson } = this.instance.rules!;
    const all = people[state]! * perPerson;
    const idle = all === 0 ? 0 : (all - personWork[state]!) / all;
    return idle - LEFT_WEIGHT * left + MOVES_WEIGHT * this.shareOfMoves(state);
  }

  /** What moves cost so far of what is allowed; 0 where nothing is to be kept. */
  private shareOfMoves(state: number): number {
    const { station, work } = this.instance.rules!;
    const kept = station.keptOf(this.store.carried[state]!);
    return kept === null ? 0 : kept.moves / (work.today!.mostMoves + 1);
  }

  /** Remembers the plan with the current load, closed in every way of use; true when one is complete. */
  private keepClosings(rules: TaskRules): boolean {
    const { loads, remainder, store, state } = this;
    if (!remainder.allows(loads) || this.isDominated()) return false;
    const hash = this.placeLoad();
    const left = remainder.tasksLeft - loads.count;
    let work = store.work[state]!;
    let personTime = store.personWork[state]!;
    for (let at = 0; at < loads.count; at++) {
      work += this.instance.times[loads.load[at]!]!;
      personTime += rules.personTime[loads.load[at]!]!;
    }
    const ways = loads.closings
      .toReversed()
      .flatMap((closed) => rules.station.carriedOn(closed).map((carried) => ({ ...closed, carried })));
    for (const { carried, ...closed } of ways) {
      const reach = {
        people: store.people[state]! + closed.places * closed.crew,
        position: store.positions[state]! + 1,
        carried,
        places: closed.places,
        origin: -1,
      };
      const cost = { people: reach.people, stations: store.stations[state]! + 1 };
      if (!isCheaper(cost, this.ceiling, this.aim)) continue;
      const child = store.remember(this.set, hash, cost.stations, state, work, reach);
      if (child < 0) continue;
      store.personWork[child] = personTime;
      if (left === 0) {
        this.last = child;
        return true;
      }
      this.open.push(child, this.keyOf(child, left));
    }
    return false;
  }

  /** Remembers the plan with the current load unless it cannot be needed; true when it is complete. */
  private keepLoad(): boolean {
    const { rules } = this.instance;
    if (rules !== null) return this.keepClosings(rules);
    const { loads, remainder, store, state } = this;
    if (!remainder.allows(loads) || this.isDominated()) return false;
    const stations = store.stations[state]! + 1;
    const work = store.work[state]! + this.instance.limit - loads.room;
    const child = store.remember(this.set, this.placeLoad(), stations, state, work);
    if (child < 0) return false;
    const left = remainder.tasksLeft - loads.count;
    if (left === 0) {
      this.last = child;
      return true;
    }
    const idle = (remainder.idle + loads.room) / (stations * this.instance.limit);
    this.open.push(child, idle - LEFT_WEIGHT * left);
    return false;
  }

  private isDominated(): boolean {
    return this.loads.count < this.remainder.tasksLeft && this.swaps.dominate(this.loads);
  }

  /** Makes `set` the tasks placed with the current load, and gives their hash. */
  private placeLoad(): number {
    const { loads, set, state, store } = this;
    const offset = state * set.length;
    for (let word = 0; word < set.length; word++) set[word] = store.sets[offset + word]!;
    let hash = store.hashes[state]!;
    for (let at = 0; at < loads.count; at++) {
      addTask(set, 0, loads.load[at]!);
      hash ^= store.taskHashes[loads.load[at]!]!;
    }
    return hash;
  }

  /** The plan found last, in block numbers; where positions do not matter, counted from this end. */
  plan(): FilledStation[] {
    const { words, size, original, rules } = this.instance;
    const { sets, parents } = this.store;
    const plan: FilledStation[] = [];
    for (let state = this.last; parents[state]! >= 0; state = parents[state]!) {
      const places = rules === null ? 1 : this.store.places[state]!;
      if (places === 0) continue;
      const load: number[] = [];
      for (let task = 0; task < size; task++) {
        if (hasTask(sets, state * words, task) && !hasTask(sets, parents[state]! * words, task))
          load.push(original[task]!);
      }
      const { positions, people, carried } = this.store;
      const crew = (people[state]! - people[parents[state]!]!) / places;
      const equipment = rules?.station.unitsBetween(carried[parents[state]!]!, carried[state]!) ?? [];
      const team = rules?.station.teamOf(carried[state]!) ?? [];
      plan.unshift({ position: positions[state]! - 1, blocks: load, places, crew, equipment, team });
    }
    return plan;
  }
}

/**
 * The last station, counted from 1, that may hold each task where positions matter: by its window, and by the work behind it that is due
 * no later than some position (energetic reasoning, Baptiste, Le Pape & Nuijten 2001). Supports every work.
 */
function latestPositions(instance: Instance, { work, blockOf }: TaskRules, latest: Int32Array): void {
  const { size, words, followers, times, limit } = instance;
  for (let task = size - 1; task >= 0; task--) {
    let last = work.last[blockOf[task]!]! + 1;
    const later: number[] = [];
    for (let other = task + 1; other < size; other++)
      if (hasTask(followers, task * words, other)) later.push(other);
    later.sort((one, two) => latest[one]! - latest[two]!);
    let sum = times[task]!;
    for (const other of later) {
      sum += times[other]!;
      last = Math.min(last, latest[other]! + 1 - Math.ceil(sum / limit));
    }
    latest[task] = last;
  }
}

const NONE = -1;
const FIRST_WIDTH = 2000;
const WIDENING = 8;
/** Pairs cost time and rarely rule anything out where they leave more than so many stations of the target to spare. */
const PAIRS_IN_REACH = 3;
/** How much idle time, as a share of the stations so far, one more task left is worth (Sewell & Jacobson 2012). */
const LEFT_WEIGHT = 2e-5;
/** How much idle time all the moves that are allowed are worth: half of what a partial plan has. */
const MOVES_WEIGHT = 0.5;
/** Steps of a walk through constrained loads that count as a node. */
const STEPS_A_NODE = 16;
