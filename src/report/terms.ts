/** A word of line balancing as linepoise uses it. */
export interface Term {
  readonly term: string;
  /** Other names of it. */
  readonly also?: readonly string[];
  /** Whole sentences, 20 words at the most. */
  readonly meaning: string;
  readonly formula?: string;
  readonly symbol?: string;
  readonly unit?: string;
  /** Who wrote of it outside; "from memory" where the page was not seen. */
  readonly source?: string;
}

const GROOVER =
  "Groover, Automation, Production Systems, and Computer-Integrated Manufacturing, manual assembly lines (from memory)";
const KILBRIDGE = "after Kilbridge and Wester (1961)";

/** The terms by their groups, in the order of the page of terms. */
export const TERMS: Readonly<Record<string, readonly Term[]>> = {
  "The pace": [
    {
      term: "available time",
      meaning:
        "Shift time less breaks, planned stops and changeovers, plus overtime. Each of them is a named line of the calendar.",
      formula: "A = shift time - breaks - stops - changeovers + overtime",
      symbol: "A",
      unit: "time per shift or day",
      source: "Stevenson, Operations Management, lean operations, example 1 (found in text)",
    },
    {
      term: "takt",
      meaning: "The pace of the customer: time from one good unit to the next. It knows nothing of losses.",
      formula: "T = A / D, D = good units wanted in A",
      symbol: "T",
      unit: "s per good unit",
      source:
        "Stevenson, Operations Management, lean operations, example 1 (found in text); Rother and Shook, Learning to See (from memory)",
    },
    {
      term: "yield",
      meaning:
        "Good units leaving per unit started, after repair. A unit that fails and is repaired is no scrap.",
      formula: "Y = good units / units started",
      symbol: "Y",
      unit: "%",
      source:
        "Tompkins, White, Bozer and Tanchoco, Facilities Planning, product, process and schedule design (found in text)",
    },
    {
      term: "line cycle",
      also: ["pace"],
      meaning:
        "The pace that the line is set to, so that its good units meet the demand. U is the uptime. What tests scrap is no part of Y: it is in the times performed per good unit.",
      formula: "C = T x U x Y",
      symbol: "C",
      unit: "s per unit that passes its tests",
      source: GROOVER,
    },
    {
      term: "passes of a station",
      also: ["passes"],
      meaning:
        "The most times that any task of the station is performed per good unit, never below 1. A unit that is tested again or scrapped later is handled more than once.",
      formula: "v = max(1, times performed per good unit)",
      symbol: "v",
      unit: "times per good unit",
    },
    {
      term: "handling",
      meaning: "Time lost to moving and positioning at each pass of a unit through a station.",
      symbol: "H",
      unit: "s per pass",
      source: `${GROOVER}: repositioning time`,
    },
    {
      term: "working time of a station",
      also: ["working time"],
      meaning:
        "What is left for work in a line cycle. A station with m parallel workplaces has m cycles for each unit.",
      formula: "W = m x C - H x v",
      symbol: "W",
      unit: "s per good unit",
      source: `${GROOVER}: service time`,
    },
    {
      term: "station limit",
      meaning: "What may be loaded on a station. `plan-to` is often 85 to 95 %.",
      formula: "L = W x plan-to",
      symbol: "L",
      unit: "s per good unit",
    },
  ],
  "Work and stations": [
    {
      term: "task time",
      meaning: "The time of one piece by its quantity. A task is never split.",
      formula: "t = time of one piece x quantity",
      symbol: "t",
      unit: "s per unit",
    },
    {
      term: "times performed per good unit",
      meaning:
        "How often a task is done for one good unit of the mix. Good means that it passes its tests; what the yield loses comes on top. Models without it, work on every so many units, failures sent back and units scrapped later all count. Units of a model pass by a test that it does not have. Of a test on one unit in so many, each unit that comes has the same chance. A unit that failed is tested again.",
      unit: "times per good unit",
      source: "an absorbing Markov chain: Kemeny and Snell, Finite Markov Chains (1960) (from memory)",
    },
    {
      term: "station time",
      meaning:
        "The sum of the task times of the busiest person, before dividing by parallel workplaces. With two sides it is that of the busier side; what one waits for the other is part of the dwell.",
      formula: "S = sum of t x times performed",
      symbol: "S",
      unit: "s per good unit",
    },
    {
      term: "start of a task",
      meaning:
        "Tasks are taken in the order of the plan. Each starts as soon as its people, its side and its equipment are free. The tasks before it at the station have ended by then, with what their machines run. It is a mean over all units, of what is done the first time.",
      unit: "s from the arrival of the unit",
    },
    {
      term: "dwell",
      meaning:
        "How long a unit stands at a station: from its first start to the end of the last thing done there. Machine time is included. It is a mean over units, never of mean times: with half of the units 50 s left and 10 s right, and half the reverse, it is 50 s, not 30. What is done again holds everybody and is added in full. It may be `holds` times the working time; no plan-to reserve is kept of it.",
      symbol: "d",
      unit: "s per good unit",
    },
    {
      term: "waiting at a station",
      also: ["waiting"],
      meaning: "How long the busiest person does nothing on the unit.",
      formula: "d - S",
      unit: "s per good unit",
    },
    {
      term: "equipment time",
      meaning:
        "How long a unit keeps one equipment of a station. Tasks on it that follow each other at the station are one hold, such as hook up, run and unhook. A hold lasts from the start of its first task to the end of its last. Tasks without precedence between them are holds of their own. Workplaces may share one.",
      formula: "needed = equipment time / C, rounded up",
      unit: "s per good unit",
    },
    {
      term: "hands, walking, machine time",
      also: ["hands"],
      meaning:
        "Of a station per good unit: hand work, walking, and what machines run by themselves. Hands and walking of one person, or of people who do all tasks together, are the station time. Of people who have tasks of their own they are person-time: a task of 2 people counts twice.",
      unit: "s per good unit",
    },
    {
      term: "load",
      meaning: "How full a station is, against what may be loaded.",
      formula: "S / L",
      unit: "% of the limit",
    },
    {
      term: "average and peak of a station",
      also: ["average"],
      meaning:
        "Station time over all units, and on a unit that gets all the work done on every so many units.",
      unit: "s per unit",
    },
    {
      term: "crew, people of a station",
      also: ["crew"],
      meaning:
        "The crew are the people together at one workplace. Efficiency divides by people, never by workplaces.",
      formula: "people = crew x parallel workplaces",
      symbol: "p",
      unit: "people",
      source: `${GROOVER}: manning level`,
    },
  ],
  "Figures of a plan": [
    {
      term: "work content",
      meaning: "Person-time of one good unit.",
      formula: "sum of t x people at the task x times performed",
      symbol: "Twc",
      unit: "s per good unit",
      source: GROOVER,
    },
    {
      term: "cycle of the plan",
      meaning: "The slowest station sets it. It is the largest of three terms over all stations.",
      formula: "max of (S + H x v) / m, (d / holds + H x v) / m, equipment time / how many of it",
      symbol: "Cp",
      unit: "s per good unit",
    },
    {
      term: "idle",
      also: ["idle time"],
      meaning:
        "Paid time without work, per unit and per shift. It is never below 0, and the reserve of plan-to is part of it.",
      formula: "crew x W - person-time worked; per shift x units started in a shift",
      unit: "s per good unit",
    },
    {
      term: "overload",
      meaning: "What exceeds the working time. It is never set off against idle.",
      formula: "max(0, S - W)",
      unit: "s per good unit",
    },
    {
      term: "efficiency at the pace",
      also: ["efficiency"],
      meaning:
        "The share of paid time that is work, with the line at its pace. It is not known where a station is overloaded.",
      formula: "E = work content / sum over stations of crew x W",
      symbol: "E",
      unit: "%",
      source: `${GROOVER}; ${KILBRIDGE}`,
    },
    {
      term: "efficiency at the slowest station",
      also: ["efficiency"],
      meaning: "The same with the cycle of the plan in place of the line cycle.",
      formula: "E with W = m x Cp - H x v",
      unit: "%",
      source: GROOVER,
    },
    {
      term: "balance delay",
      meaning: "The share of paid time that is idle; one for each efficiency.",
      formula: "1 - E",
      symbol: "BD",
      unit: "%",
      source: `${KILBRIDGE} (from memory)`,
    },
    {
      term: "smoothness index",
      meaning:
        "How uneven the stations are; 0 where all take the same time. The cycle of a station is the largest of its three terms of the cycle of the plan.",
      formula: "SI = root of the sum over stations of (Cp - cycle of the station)^2",
      symbol: "SI",
      unit: "s",
      source: "after Moodie and Young (1965) (from memory)",
    },
    {
      term: "output cycle",
      meaning:
        "How often a good unit comes at the best. It is the cycle of the plan, or longer where waits hold up a line that moves together.",
      formula:
        "max of Cp, (work and waits of a chain of tasks - drift allowance) / places along it x units that come there for a good one",
      symbol: "Co",
      unit: "s per good unit",
    },
    {
      term: "output",
      meaning:
        "Good units a shift. Units round down, people round up. Where shifts differ in length, each has its own, and idle time is that of a day.",
      formula: "floor(A of the shift x U x Y / Co)",
      unit: "good units a shift",
    },
    {
      term: "payback",
      meaning:
        "Working days after which an option has saved what it costs once. It saves against the first column, at the output wanted.",
      formula: "one-off cost / ((cost per unit before - cost per unit now) x good units wanted a day)",
      unit: "working days",
      source: "the simple payback period of investment sums, without interest (from memory)",
    },
    {
      term: "labour and cost per unit wanted",
      also: ["labour per unit wanted", "cost per unit wanted"],
      meaning:
        "Hours of a day for the units wanted that day. They are the units made where no demand is given. Cost is hours by `rates`, those of bench places among them. What can be made beyond the demand makes no unit cheaper.",
      formula: "people x (shift time with breaks + overtime) / good units wanted",
      unit: "min and currency per unit",
    },
    {
      term: "repairs, repairers",
      also: ["repairs", "repairers"],
      meaning: "Repairers stand beside the line. They are counted and named, not part of its efficiency.",
      formula: "sum of repairs per good unit x time of one / C, rounded up",
      unit: "people",
    },
    {
      term: "lead time",
      meaning:
        "How long a unit is on the line: at its stations, and in the waits on the way. Of waits side by side the longer counts. Stations in between shorten what is left of a wait. Where all units move together, one stands at each place for a move, at empty stations too.",
      formula:
        "sum of m x holds x Cp + waits; where all move together: places along the line x cycle of the moves",
      unit: "s",
      source: "after Little (1961)",
    },
    {
      term: "units in a wait, fixtures",
      also: ["units in a wait"],
      meaning:
        "Units that only wait at the same time, of those that have both tasks. Rounded up, they are the fixtures. On a line that moves together they wait in it, and need none.",
      formula: "wait x times performed of the task before it / C",
      unit: "units",
      source: "after Little (1961)",
    },
    {
      term: "least stations",
      meaning:
        "A lower bound that is proved, with its reason in words. Work content / limit, rounded up, is only the first of many. A task that stands alone over the limit counts as one full station there.",
      unit: "stations",
      source:
        "after Jackson (1956); the bounds after Johnson (1988), Scholl and Klein (1997), Martello and Toth (1990)",
    },
  ],
  "Models and sequence": [
    {
      term: "worst model",
      meaning: "The model that takes a station longest. Its share is of the working time.",
      unit: "s, %",
    },
    {
      term: "peak",
      meaning:
        "A unit that takes a station longer than its working time. It is of a rare model, at most 10 % of the units, or has work of every n-th unit. The next units at that place leave time to catch up. It is a note where that is done before the next peak comes, a warning where not. It is an error where work runs past the station farther than `drift-room` allows.",
      unit: "s",
    },
    {
      term: "drift allowance",
      also: ["drift"],
      meaning:
        "How far work of hands runs past the end of a station when the sequence is built again and again. The drift of a unit that stands or keeps equipment too long counts what machines run and waiting as well.",
      formula: "after each unit: max(0, drift before + time of its model - W)",
      unit: "s",
    },
    {
      term: "spacing",
      meaning:
        "`2 in 5` allows 2 of any 5 units in a row: units of a model, or units with a task or part. Only what some models have can be spaced. A share of units above what the spacing allows is refused. Where several spacings leave no order, that is proved or said to be open.",
      unit: "units in units",
      source:
        "car sequencing: Parrello, Kabat and Wos (1986), Gent and Walsh (1999) (from memory); Dincbas, Simonis and van Hentenryck (1988), CSPLib problem 001 (found in text)",
    },
    {
      term: "proposed sequence",
      meaning:
        "The order of models, built again and again, that breaks no spacing. Fewest stations drift without end, or beyond their `drift-room`. Then the drift of all stations together is least, then the work is nearest to even. Parallel workplaces take units in turn, so the repeat may be several times the shares. Least gaps and goal chasing begin; branch and bound and exchanges of two units go on. What is proved is said. A given sequence that drifts no more stands.",
      source: "goal chasing: Monden, Toyota Production System (from memory)",
    },
    {
      term: "level use of parts",
      meaning:
        "With `level`, even use of parts comes before the drift that has room. The sum is least by dynamic programming where counts are small, else by goal chasing.",
      formula: "sum over places k and parts of (running use - k / n x total)^2",
      source: "Monden, Toyota Production System, sequencing (from memory)",
    },
  ],
  "Methods, benches and moves": [
    {
      term: "positional weight",
      meaning: "A task's time and the times of all its direct and indirect followers, each counted once.",
      formula: "w = t + sum of t of all followers",
      symbol: "w",
      unit: "s",
      source: "after Helgeson and Birnie (1961); Stevenson, Operations Management, layout (found in text)",
    },
    {
      term: "precedence that orders agree on",
      also: ["agreed precedence", "maximum graph"],
      meaning:
        "Every unit that has both tasks does one before the other. A pair done both ways is free. A pair that no unit has together is not known.",
      source:
        "Klindworth, Otto and Scholl, On a learning precedence graph concept for the automotive industry, 2012 (from memory)",
    },
    {
      term: "bench",
      meaning: "An off-line sub-assembly station beside the line.",
    },
    {
      term: "block",
      also: ["blocks"],
      meaning:
        "Tasks that can be built away from the line. None has a predecessor outside the block, and none is on the base unit. Its result joins the line at one task. A task is on the base if it says `on-base: true`, or if any task before it is. With no mark anywhere, blocks are guesses and say so.",
    },
    {
      term: "move",
      also: ["moves"],
      meaning:
        "A task whose station changes. A move costs 1 point unless `move-cost` or `move-costs` says more.",
      unit: "moves, points",
    },
    {
      term: "slack of today's plan",
      also: ["slack"],
      meaning:
        "The highest demand that each station keeps, in steps as fine as the demand is written. And how much longer each of its tasks may take; one step more and `check` fails.",
      unit: "units per period, s",
    },
    {
      term: "learning",
      also: ["learning curve"],
      meaning:
        "The share of a time that remains each time the units built are doubled. By unit it is the time of each unit, after Crawford. By average it is the mean of all units so far, after Wright. The task takes the `time` of the file at the unit that `time-at` says.",
      formula: "first unit x n^b, b = log2(share)",
      symbol: "b",
      source: "Stevenson, Operations Management, learning curves (from memory)",
    },
    {
      term: "training",
      meaning:
        "What one person learns at a station, by the people there. A task counts that nobody at the station did before. Tasks without a time of their own count by their skills, each new skill once.",
      formula: "sum of training x crew x parallel workplaces",
      unit: "h",
    },
  ],
  "Times that vary": [
    {
      term: "deviation of a station",
      also: ["standard deviation"],
      meaning:
        "How far its times scatter around their mean: the standard deviation. Times of tasks count as independent, so their squares add up. The cv is standard deviation / mean.",
      formula: "s = root of the sum of (cv x t x times performed)^2",
      symbol: "s",
      unit: "s per good unit",
    },
    {
      term: "chance to keep the pace",
      also: ["keep-pace"],
      meaning:
        "The share of units for which a station stays within its working time. Its time counts as normal. A station fits while mean + z x s is within W; z belongs to the chance asked.",
      formula: "z = (W - S) / s",
      unit: "%",
    },
    {
      term: "good units an hour",
      also: ["simulated output"],
      meaning:
        "Good units that leave the simulated line in an hour in which it runs. Breakdowns that are simulated are part of the hour; what `uptime` takes off is not.",
      unit: "good units per hour of running",
    },
    {
      term: "interval",
      also: ["confidence interval"],
      meaning:
        "How far the mean of all runs may be off, by chance alone. It is Student's t over the replications. It says nothing of what the line file has wrong.",
      formula: "mean +- t x deviation / root of replications",
    },
    {
      term: "busy, waits, starved, blocked, down",
      meaning:
        "What a workplace does with its time. Waits: its unit is there, and what it needs is not. Starved: no unit is there. Blocked: its unit is done and cannot go on. Down: it has a breakdown.",
      unit: "%, together 100 %",
    },
    {
      term: "overruns",
      meaning: "The share of the units of a station whose time, handling included, is above m x C.",
      unit: "%",
    },
    {
      term: "station that limits",
      also: ["bottleneck"],
      meaning:
        "The station that is busy or down, or waits for parts or equipment, for the largest share of the time. Where chance may decide, all that may be it are listed.",
    },
    {
      term: "units in the line",
      also: ["work in process"],
      meaning:
        "All units that have entered and not left, on average over time. Those in buffers, under repair and in waits between tasks count.",
      unit: "units",
    },
    {
      term: "pass-through time",
      meaning:
        "From when a unit enters until it leaves, on average of those that left. Over a long time, units in the line = units leaving per hour x this.",
      unit: "s",
      source: "after Little (1961)",
    },
  ],
  "On the floor": [
    {
      term: "standard work-in-process",
      meaning:
        "The fewest units at a station with which its work goes on in its order and nobody waits for one. Units between stations are none of it. Where all units move together, one stands at each place. Common practice.",
      formula: "workplaces x (standing time / working time, rounded up)",
      unit: "units",
    },
    {
      term: "containers at the line",
      also: ["kanban containers"],
      meaning:
        "Containers of a part at a station, rounded up. Replenishment time and safety are stated by you.",
      formula: "demand in the replenishment time x (1 + safety) / pack",
      unit: "containers",
      source: "kanban formula N = D T (1 + X) / C (found in text)",
    },
    {
      term: "material handler",
      meaning: "Who brings parts to the stations and benches.",
      formula: "people = trips x time of a trip / available time, rounded up",
      unit: "people",
    },
    {
      term: "recommended weight limit",
      also: ["RWL"],
      meaning:
        "A mass by the revised NIOSH lifting equation, for one person with both hands. It is a figure, not a verdict.",
      formula: "RWL = 23 kg x HM x VM x DM x AM x FM x CM",
      symbol: "RWL",
      unit: "kg",
      source:
        "Waters, Putz-Anderson and Garg, Applications Manual for the Revised NIOSH Lifting Equation, DHHS 94-110 (found in text; the tables of frequency and coupling seen in transcriptions)",
    },
    {
      term: "lifting index",
      meaning: "The mass lifted by the recommended weight limit. It is a figure, not a verdict.",
      formula: "LI = mass / RWL",
      symbol: "LI",
      source: "Waters, Putz-Anderson and Garg, DHHS 94-110 (found in text)",
    },
  ],
};
