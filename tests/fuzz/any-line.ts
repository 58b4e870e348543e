import type { Draw } from "./draw.js";
import { oddName } from "./hostile.js";
import type { Tree } from "./tree.js";

/** A line as its file says it, and the names that plans, tables and command lines may call. */
export interface AnyLine {
  readonly tree: Map<string, Tree>;
  readonly tasks: readonly string[];
  readonly stations: readonly string[];
  readonly models: readonly string[];
  readonly options: readonly string[];
  /** Those of them that build whole units at tables. */
  readonly tables: readonly string[];
  readonly benches: readonly string[];
  readonly parts: readonly string[];
  readonly hasCalendar: boolean;
  readonly isSided: boolean;
  /** Whether a task needs a skill. */
  readonly hasSkills: boolean;
}

type Keys = Record<string, Tree | undefined>;

const map = (keys: Keys): Map<string, Tree> =>
  new Map(Object.entries(keys).filter((entry): entry is [string, Tree] => entry[1] !== undefined));

const SHARES = ["100 %", "95 %", "90 %", "75 %", "99.5 %", "4.13 %", "33.3 %", "1 %"] as const;
const HIGH_SHARES = ["100 %", "95 %", "90 %", "80 %", "99.5 %"] as const;
const PERIODS = ["hour", "shift", "day", "week", "month", "year"] as const;
/** A value now and then. */
const seldom = <T>(draw: Draw, value: () => T, many = 5): T | undefined =>
  draw.once(many) ? value() : undefined;
const whole = (draw: Draw, most = 3): string => String(draw.from(1, most));

/** What a line shall say in any case. */
export interface AnyLineWants {
  readonly learning?: true;
  readonly variation?: true;
  readonly parts?: true;
  readonly options?: true;
  /** An option that builds whole units at tables. */
  readonly tables?: true;
}

/** A line file that the reader is likely to take, with any of its keys. Names are odd in a quarter of them. */
export function anyLine(draw: Draw, most = 6, wants: AnyLineWants = {}): AnyLine {
  return new LineDraw(draw, most, wants).line();
}

class LineDraw {
  private readonly isOdd: boolean;
  private readonly taken = new Set<string>();
  private readonly tasks: string[];
  private readonly stations: string[];
  private readonly models: string[];
  private readonly zones: string[];
  private readonly gear: string[];
  private readonly skills: string[];
  private readonly limits: string[];
  private readonly parts: string[];
  private readonly isSided: boolean;
  private readonly keepsPace: boolean;
  private readonly hasLearning: boolean;
  private readonly hasCalendar: boolean;
  private readonly hasDemand: boolean;
  /** Scrap is counted at tests, not over the whole line. */
  private readonly hasScrap: boolean;
  private readonly limitKinds = new Map<string, string>();
  private readonly tables: string[] = [];
  private hasSkills = false;
  private hasParts = false;
  /** Tasks by how many come after them: a block joins the line at one. */
  private readonly followers = new Map<string, Set<string>>();
  /** Tasks that need no other and are not worked on the base. */
  private readonly mayLeave = new Set<string>();
  /** The model that does not have the task at work, by its place; null where each has it. */
  private lacking: number | null = null;
  /** How often something rare is drawn: lines with few kinds of rules, and lines with many. */
  private readonly rare: number;

  constructor(
    private readonly draw: Draw,
    most: number,
    private readonly wants: AnyLineWants,
  ) {
    this.isOdd = draw.once(4);
    this.rare = draw.pick([3, 6, 12, 30]);
    const some = (most: number, stem: string, many = this.rare) =>
      draw.once(Math.max(2, many >> 1)) ? this.names(draw.from(1, most), stem) : [];
    this.tasks = this.names(draw.from(1, most), "t");
    this.keepsPace = draw.once(20);
    this.models = this.keepsPace ? [] : some(3, "model");
    this.stations = some(4, "S");
    this.zones = some(2, "zone").slice(0, this.stations.length || 2);
    this.gear = this.keepsPace ? [] : some(2, "rig");
    this.skills = some(2, "skill");
    this.limits = some(2, "limit");
    this.parts = wants.parts ? this.names(draw.from(1, 3), "part") : some(3, "part");
    this.isSided = !this.keepsPace && draw.once(12);
    this.hasLearning = draw.once(6) || wants.learning === true;
    this.hasCalendar = draw.once(2);
    this.hasDemand = !draw.once(8);
    this.hasScrap = draw.once(4);
  }

  private names(count: number, stem: string): string[] {
    return Array.from({ length: count }, (_, at) => {
      for (let turn = 0; ; turn++) {
        const plain = `${stem}${at + 1 + Math.max(0, turn - 5) * count}`;
        const name = this.isOdd && turn < 5 && this.draw.once(2) ? oddName(this.draw) : plain;
        const key = name.normalize("NFC").trim();
        if (this.taken.has(key)) continue;
        this.taken.add(key);
        return name;
      }
    });
  }

  line(): AnyLine {
    const { draw } = this;
    // What is said of the line depends on what its tasks say.
    const ofTasks = new Map(this.tasks.map((id, at) => [id, this.task(at)]));
    const benches = this.tasks.length > 1 ? this.pickNames(2, "bench") : [];
    const isCompared = this.wants.options ?? this.wants.tables;
    const options = isCompared ? this.names(draw.from(1, 3), "option") : this.pickNames(3, "option");
    const tree = map({
      line: seldom(draw, () => this.text("Any line"), 2),
      unit: "s",
      ...this.pace(),
      ...this.floor(),
      ...this.staff(),
      ...this.variation(),
      ...this.mix(),
      ...this.logistics(),
      ...this.groups(),
      benches: benches.length > 0 ? this.byName(benches, (_, at) => this.bench(at)) : undefined,
      options: options.length > 0 ? this.byName(options, (name) => this.option(name, benches)) : undefined,
      rates: this.seldom(() => this.rates()),
      policy: this.seldom(() => this.policy()),
      supply: this.seldom(() => this.byName(["motors"], () => this.amount())),
      tasks: ofTasks,
    });
    const { tasks, stations, models, tables, parts, hasCalendar, isSided, hasSkills } = this;
    return {
      tree,
      tasks,
      stations,
      models,
      options,
      tables,
      benches,
      parts,
      hasCalendar,
      isSided,
      hasSkills,
    };
  }

  private pickNames = (most: number, stem: string): string[] =>
    this.draw.once(this.rare) ? this.names(this.draw.from(1, most), stem) : [];

  private seldom = <T>(value: () => T): T | undefined => seldom(this.draw, value, this.rare);

  private text = (plain: string): string => (this.isOdd && this.draw.once(2) ? oddName(this.draw) : plain);

  private byName = (names: readonly string[], value: (name: string, at: number) => Tree) =>
    new Map(names.map((name, at) => [name, value(name, at)]));

  private oneOrSome(names: readonly string[]): Tree {
    const some = this.draw.some(names, 1);
    return some.length === 1 && this.draw.once(2) ? some[0]! : some;
  }

  private readonly time = (least = 0, most = 40): string => {
    const seconds = this.draw.from(least, most);
    return this.draw.pick([
      `${seconds}`,
      `${seconds}`,
      `${seconds} s`,
      `${seconds}.5 s`,
      `0:${String(seconds % 60).padStart(2, "0")}`,
      `0.${seconds + 1} min`,
      `${seconds} cmin`,
    ]);
  };

  private readonly timeWithUnit = (least = 1, most = 40): string =>
    this.draw.pick([
      `${this.draw.from(least, most)} s`,
      `${this.draw.from(least, most)} min`,
      `0.${this.draw.from(1, 9)} h`,
    ]);

  private readonly share = (): string => this.draw.pick(SHARES);

  private amount(): string {
    const period = this.hasCalendar ? this.draw.pick(PERIODS) : "hour";
    const hours = { hour: 1, shift: 7, day: 7, week: 35, month: 150, year: 1600 }[period];
    const often = this.draw.pick([10, 40, 60, 75, 90, 110, 144]);
    return `${often * hours} per ${period}`;
  }

  private pace(): Keys {
    const { draw } = this;
    return {
      demand: this.hasDemand ? this.amount() : undefined,
      calendar: this.hasCalendar ? this.calendar() : undefined,
      uptime: seldom(draw, () => draw.pick(HIGH_SHARES)),
      yield: this.hasScrap ? undefined : seldom(draw, () => draw.pick(HIGH_SHARES)),
      handling: this.seldom(() => this.time(0, 3)),
      "plan-to": this.keepsPace ? undefined : this.seldom(() => draw.pick(HIGH_SHARES)),
    };
  }

  private calendar(): Tree {
    const { draw } = this;
    const starts = draw.once(2) ? ["06:00", "14:00"] : ["22:00"];
    const ends: Record<string, string> = { "06:00": "14:00", "14:00": "22:00", "22:00": "05:30" };
    const shifts = starts.slice(0, draw.from(1, starts.length));
    const away = () => (draw.once(3) ? map({ meal: "20 min", [this.text("talk")]: "2 x 5 min" }) : "10 min");
    return map({
      shifts: this.byName(this.names(shifts.length, "shift"), (_, at) =>
        map({
          ...(draw.once(2)
            ? { from: shifts[at], to: ends[shifts[at]!] }
            : { length: draw.pick(["8 h", "7.5 h", "7 1/2 h"]) }),
          breaks: seldom(draw, away, 3),
          stops: seldom(draw, away, 6),
          changeovers: seldom(draw, away, 6),
          overtime: shifts.length === 1 ? seldom(draw, () => "30 min", 6) : undefined,
        }),
      ),
      "days-per-week": "5",
      "days-per-month": draw.pick(["21", "21.67"]),
      ...(draw.once(2) ? { "days-per-year": "230" } : { "weeks-per-year": "46" }),
    });
  }

  private floor(): Keys {
    const { draw } = this;
    return {
      "max-places": this.seldom(() => whole(draw)),
      holds: this.keepsPace ? undefined : this.seldom(() => whole(draw)),
      "max-crew": this.keepsPace || this.isSided ? undefined : this.seldom(() => whole(draw, 2)),
      equipment: this.gear.length > 0 && draw.once(2) ? this.byName(this.gear, () => whole(draw)) : undefined,
      limits:
        this.limits.length > 0
          ? this.byName(this.limits, (name) => {
              const who = this.isSided ? "station" : draw.pick(["station", "person"]);
              const per = this.hasCalendar && this.hasDemand && draw.once(3) ? `${who}-and-shift` : who;
              this.limitKinds.set(name, per);
              return map({ per, most: per.endsWith("shift") ? "9000 m" : draw.pick(["1.2 m", "3 m"]) });
            })
          : undefined,
      stations: this.stations.length > 0 ? this.stations.map((id, at) => this.station(id, at)) : undefined,
    };
  }

  private station(id: string, at: number): Tree {
    const { draw } = this;
    // Each zone has a station at least.
    const zone =
      this.zones[at] ?? (this.zones.length > 0 && draw.once(2) ? draw.pick(this.zones) : undefined);
    return map({
      id,
      zone,
      equipment: this.gear.length > 0 && draw.once(2) ? this.oneOrSome(this.gear) : undefined,
      skills: this.skills.length > 0 && draw.once(4) ? this.oneOrSome(this.skills) : undefined,
      "max-places": this.seldom(() => whole(draw)),
      holds: this.keepsPace ? undefined : this.seldom(() => whole(draw)),
      "max-crew": this.keepsPace || this.isSided ? undefined : this.seldom(() => whole(draw, 2)),
      ...(this.keepsPace
        ? draw.once(3)
          ? { "keep-pace": draw.pick(["90 %", "99 %"]) }
          : {}
        : { "plan-to": this.seldom(() => draw.pick(HIGH_SHARES)) }),
      "drift-room": this.models.length > 0 ? this.seldom(() => this.time(1, 20)) : undefined,
      limits:
        this.limits.length > 0 && draw.once(6)
          ? map({ [this.limits[0]!]: map({ per: this.limitKinds.get(this.limits[0]!)!, most: "2 m" }) })
          : undefined,
    });
  }

  private staff(): Keys {
    const { draw } = this;
    const named = this.skills.length > 0;
    return {
      people: this.seldom(() =>
        this.byName(this.names(draw.from(1, 4), "person"), () => (named ? this.oneOrSome(this.skills) : [])),
      ),
      training: named ? this.seldom(() => this.byName(this.skills, () => "2 h")) : undefined,
      learning: this.hasLearning ? this.learning() : undefined,
      "move-costs": named ? this.seldom(() => this.byName(this.skills, () => whole(draw))) : undefined,
      attendance: this.seldom(() => draw.pick(HIGH_SHARES)),
      relief: this.seldom(() => draw.pick(["0 %", "5 %", "8.3 %"])),
    };
  }

  private learning(): Tree {
    const { draw } = this;
    if (draw.once(2)) return draw.pick(["85 %", "80 %", "100 %"]);
    return map({
      share: draw.pick(["85 %", "92.5 %"]),
      by: seldom(draw, () => draw.pick(["unit", "average"]), 2),
      "time-at": seldom(draw, () => draw.pick(["1", "500", "1000"]), 2),
      least: "70 %",
      built: seldom(draw, () => draw.pick(["0", "30", "2000"])),
    });
  }

  private spreads(): Tree {
    const shape = this.draw.pick(["normal", "lognormal", "triangular", "exponential"]);
    return map({ shape, cv: shape === "exponential" ? undefined : this.draw.pick(["5 %", "20 %", "33 %"]) });
  }

  /** Of a task: times that were taken, or what is said in their place. */
  private howOneVaries(): Keys {
    if (!this.keepsPace && this.draw.once(this.rare))
      return { measured: [this.time(), this.time(), this.time()] };
    return { variation: this.seldom(() => this.spreads()), spread: this.seldom(() => "1.5") };
  }

  private variation(): Keys {
    const { draw } = this;
    const pacing = this.seldom(() => draw.pick(["unpaced", "moving", "indexing"]));
    const isUnpaced = pacing === undefined || pacing === "unpaced";
    const [station = "S1"] = this.stations;
    return {
      variation: this.keepsPace || this.wants.variation || draw.once(this.rare) ? this.spreads() : undefined,
      "keep-pace": this.keepsPace ? draw.pick(["90 %", "95 %", "99.9 %"]) : undefined,
      pacing,
      buffer: isUnpaced ? this.seldom(() => String(draw.below(3))) : undefined,
      buffers: isUnpaced && draw.once(this.rare) ? map({ [`after ${station}`]: "1" }) : undefined,
      breakdowns: this.seldom(() =>
        map({
          [station]: map({
            every: "4 h",
            lasts: "10 min",
            of: seldom(draw, () => draw.pick(["work", "clock"]), 2),
          }),
        }),
      ),
    };
  }

  private mix(): Keys {
    const { draw, models } = this;
    if (models.length === 0) return {};
    const shares = [["100 %"], ["60 %", "40 %"], ["33.4 %", "33.3 %", "33.3 %"]][models.length - 1]!;
    const isCounted = draw.once(3);
    return {
      models: this.byName(models, (_, at) => (isCounted ? whole(draw, 9) : shares[at]!)),
      sequence: this.seldom(() => [...models, ...draw.some(models)]),
      "model-overload": this.seldom(() => draw.pick(["0 %", "20 %", "100 %"])),
      "drift-room": this.seldom(() => this.time(1, 20)),
      spacing:
        models.length > 1
          ? this.seldom(() => map({ [models[0]!]: isCounted ? "9 in 10" : draw.pick(["4 in 5", "2 in 3"]) }))
          : undefined,
      level: this.hasParts
        ? this.seldom(() => draw.pick<Tree>(["parts", this.parts[0]!, this.parts]))
        : undefined,
    };
  }

  private logistics(): Keys {
    const { draw } = this;
    return {
      "part-list":
        this.parts.length > 0 && draw.once(2)
          ? this.byName(this.parts, () =>
              map({
                name: seldom(draw, () => this.text("Bolt"), 2),
                unit: seldom(draw, () => this.text("piece"), 2),
                pack: draw.once(3) ? undefined : whole(draw, 90),
                from: seldom(draw, () => this.text("Hall 2"), 2),
                replenish: seldom(draw, () => "45 min"),
                safety: seldom(draw, () => "30 %"),
              }),
            )
          : undefined,
      delivery: this.seldom(() =>
        map({
          every: "1 h",
          trip: "12 min",
          packs: whole(draw, 20),
          replenish: seldom(draw, () => "30 min", 2),
          safety: seldom(draw, () => "20 %", 2),
        }),
      ),
    };
  }

  private groups(): Keys {
    const { draw, tasks } = this;
    if (tasks.length < 2) return {};
    const chain = () => [draw.some(tasks, 2)];
    const [one, two] = draw.shuffled(tasks);
    return {
      chains: this.seldom(chain),
      [draw.pick(["together", "apart"])]: this.seldom(() => [[one!, two!]]),
    };
  }

  private bench(at: number): Tree {
    const { draw } = this;
    return map({
      tasks: draw.once(2) ? [this.tasks[at]!] : this.tasks[at]!,
      shifts: this.hasCalendar ? seldom(draw, () => "1") : undefined,
      stations: seldom(draw, () => "1"),
      share: seldom(draw, () => this.share()),
      pieces: seldom(draw, () => "1"),
      holds: seldom(draw, () => "2"),
      "hand-over": seldom(draw, () => this.time(0, 5)),
      "take-over": seldom(draw, () => this.time(0, 5)),
      space: seldom(draw, () => whole(draw, 20)),
      stop: seldom(draw, () => "2 h"),
      bunch: seldom(draw, () => whole(draw, 6)),
    });
  }

  private option(name: string, benches: readonly string[]): Tree {
    const { draw } = this;
    const kind = this.wants.tables && this.tables.length === 0 ? 2 : draw.below(4);
    if (kind === 2) this.tables.push(name);
    const isLine = kind !== 1 && kind !== 2;
    const block = this.tasks.find((task) => this.followers.get(task)?.size === 1 && this.mayLeave.has(task));
    return map({
      "off-line":
        kind === 0 && block !== undefined
          ? benches.length > 0 && draw.once(2)
            ? [benches[0]!]
            : [[block]]
          : undefined,
      demand: seldom(draw, () => this.amount()),
      calendar: this.hasCalendar ? seldom(draw, () => this.calendar(), 8) : undefined,
      uptime: seldom(draw, () => "90 %"),
      yield: this.hasScrap ? undefined : seldom(draw, () => "98 %"),
      handling: seldom(draw, () => this.time(0, 3)),
      "plan-to": this.keepsPace || !isLine ? undefined : seldom(draw, () => "90 %"),
      "max-places": isLine ? seldom(draw, () => whole(draw)) : undefined,
      stations: kind === 1 && !this.keepsPace ? String(draw.from(1, this.tasks.length)) : undefined,
      times: seldom(draw, () => map({ [this.tasks.at(-1)!]: this.time() })),
      tables:
        kind === 2
          ? draw.once(2)
            ? whole(draw)
            : map({ people: whole(draw), walking: seldom(draw, () => "20 s") })
          : undefined,
      once: seldom(draw, () => "12000"),
      note: seldom(draw, () => this.text("A bench")),
    });
  }

  private rates(): Tree {
    const { draw } = this;
    return map({
      "person-hour": draw.pick(["34", "0.01", "27.5"]),
      "bench-hour": seldom(draw, () => "2.5", 2),
      overtime: seldom(draw, () => "150 %", 2),
      currency: seldom(draw, () => this.text("EUR"), 2),
    });
  }

  private policy(): Tree {
    const { draw } = this;
    return map({
      "max-load": seldom(draw, () => draw.pick(HIGH_SHARES), 2),
      "min-efficiency": seldom(draw, () => draw.pick(["50 %", "80 %", "100 %"]), 2),
      "max-stations": seldom(draw, () => whole(draw, 4), 2),
      "max-people": whole(draw, 6),
      "max-above-least": seldom(draw, () => draw.pick(["0", "1"]), 2),
    });
  }

  /** One value, or one for each model. */
  private ofModels(value: () => string, mayLack: boolean): Tree {
    const { draw, models } = this;
    if (models.length === 0 || !draw.once(3)) return value();
    if (mayLack && models.length > 1 && draw.once(2)) this.lacking = draw.below(models.length);
    return this.byName(models, (_, at) => (at === this.lacking ? "-" : value()));
  }

  private task(at: number): Tree {
    const { draw } = this;
    const earlier = this.tasks.slice(0, at);
    const isPlain = draw.once(3);
    const after = earlier.length > 0 && draw.once(2) ? this.after(earlier, this.tasks[at]!) : undefined;
    const time = () => this.time();
    this.lacking = null;
    const isOnBase = isPlain ? undefined : this.seldom(() => draw.pick(["true", "false"]));
    if (after === undefined && isOnBase !== "true") this.mayLeave.add(this.tasks[at]!);
    if (isPlain && after === undefined) return this.time();
    if (isPlain) return map({ time: this.time(), after });
    const needsGear = this.gear.length > 0 && draw.once(2);
    const ownTime = this.keepsPace ? this.time() : this.ofModels(time, true);
    const pieces = this.seldom(() => this.ofModels(() => whole(draw), false));
    const hasMachine = !this.keepsPace && needsGear && pieces === undefined && draw.once(2);
    const needsStation = draw.below(4);
    const test = this.seldom(() => this.test(at, typeof after === "string" ? after : null));
    const floor = this.stations.length > 0 ? this.stations : ["S1", "S2", "S3"];
    return map({
      name: this.seldom(() => this.text("Fit the part")),
      time: ownTime,
      quantity: pieces,
      after,
      walking: this.seldom(() => this.time(0, 4)),
      "machine-time": hasMachine ? this.time(1, 60) : undefined,
      "move-cost": this.seldom(() => whole(draw)),
      training: this.seldom(() => this.timeWithUnit()),
      learning: this.hasLearning ? this.seldom(() => this.learning()) : undefined,
      ...this.howOneVaries(),
      every:
        this.keepsPace || test !== undefined ? undefined : this.seldom(() => draw.pick(["2", "3", "10"])),
      kind: this.seldom(() => draw.pick(["value-adding", "necessary", "waste"])),
      side: this.isSided && draw.once(2) ? draw.pick(["left", "right", "either"]) : undefined,
      test,
      people: this.seldom(() => this.ofModels(() => whole(draw, 2), false)),
      skill: this.skills.length > 0 && draw.once(3) ? this.neededSkills() : undefined,
      equipment: needsGear ? this.oneOrSome(this.gear) : undefined,
      zone: this.zones.length > 0 && draw.once(3) ? draw.pick(this.zones) : undefined,
      station: needsStation === 0 ? this.seldom(() => this.oneOrSome(floor)) : undefined,
      "not-before": needsStation === 1 ? this.seldom(() => draw.pick(floor)) : undefined,
      "not-after": needsStation === 2 ? this.seldom(() => draw.pick(floor)) : undefined,
      uses:
        this.limits.length > 0 && draw.once(3)
          ? this.byName(draw.some(this.limits, 1), () => draw.pick(["0.3 m", "0.1 m", "1 m"]))
          : undefined,
      parts: this.usedParts(),
      "on-base": isOnBase,
      check: this.seldom(() => draw.pick<Tree>([this.text("Flush"), [this.text("Flush"), "Label straight"]])),
      caution: this.seldom(() => this.text("Use the hoist")),
      lift: this.seldom(() => draw.pick(["4 kg", "19.5 kg"])),
      lifting: undefined,
      ...(draw.once(this.rare * 2) ? { lift: "12 kg", people: undefined, lifting: this.lifting() } : {}),
      readings: this.seldom(() => this.text("20 in wheels.csv")),
    });
  }

  private neededSkills(): Tree {
    this.hasSkills = true;
    return this.oneOrSome(this.skills);
  }

  private usedParts(): Tree | undefined {
    const { draw } = this;
    if (this.parts.length === 0 || draw.once(2)) return undefined;
    this.hasParts = true;
    return this.byName(draw.some(this.parts, 1), () => this.ofModels(() => whole(draw, 9), false));
  }

  private after(earlier: readonly string[], task: string): Tree {
    const { draw } = this;
    const arrow = (id: string): Tree =>
      draw.once(this.rare)
        ? map({
            task: id,
            wait: seldom(draw, () => this.time(), 2),
            model: this.models.length > 1 ? seldom(draw, () => draw.pick(this.models), 4) : undefined,
            stations: seldom(draw, () => whole(draw, 2), 2),
          })
        : id;
    const chosen = draw.shuffled(earlier).slice(0, draw.from(1, 2));
    for (const each of chosen) this.followers.set(each, (this.followers.get(each) ?? new Set()).add(task));
    return chosen.length === 1 && draw.once(2) ? arrow(chosen[0]!) : chosen.map(arrow);
  }

  private test(at: number, before: string | null): Tree {
    const { draw } = this;
    if (this.hasScrap) return map({ scrap: draw.pick(["1 %", "10 %", "4.13 %"]) });
    const fails = () => draw.pick(["5 %", "10 %", "4.13 %", "2.37 %", "50 %"]);
    return map({
      fail: this.ofModels(fails, false),
      repair: this.time(),
      "return-to": before !== null && draw.once(2) ? before : this.tasks[at]!,
      retest: this.keepsPace ? undefined : seldom(draw, () => draw.pick(["until-good", "once"]), 2),
    });
  }

  private lifting(): Tree {
    const { draw } = this;
    return map({
      reach: "35 cm",
      from: "60 cm",
      to: draw.pick(["95 cm", "0.95 m"]),
      turn: seldom(draw, () => "30 deg", 2),
      grip: draw.pick(["good", "fair", "poor"]),
      "per-minute": seldom(draw, () => "0.5", 2),
      lasts: seldom(draw, () => draw.pick(["1 h", "2 h", "8 h"]), 2),
    });
  }
}
