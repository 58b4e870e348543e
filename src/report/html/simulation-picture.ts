import { visibleText } from "../../findings/visible-text.js";
import type { SimulationAnswer } from "../../simulate/simulation-answer.js";
import { lengthOf } from "../../time/show-numbers.js";
import { percent } from "../../time/show-values.js";
import { limitWords } from "../words/simulate-words.js";
import { WAITS_WORDS } from "../words/simulated-benches-words.js";
import { element, pictureText } from "./html.js";
import { boldWidthOf, fillings, type Picture, picture, rounded, type Stretch, widthOf } from "./picture.js";

/** In units of the picture: the length of all of the time, the height of a bar and of its row, and what lies beside. */
const [LENGTH, BAR, ROW, BESIDE] = [560, 15, 21, 12];

/** What a station does with its time, with what each is drawn as; in the order in which it is drawn. */
const STATES = [
  { state: "busy", fill: () => "#fff", words: "busy" },
  { state: "down", fill: () => "#000", words: "down" },
  { state: "blocked", fill: (id: string) => `url(#${id}-aslant)`, words: "blocked: its unit cannot go on" },
  { state: "waiting", fill: () => "#bbb", words: WAITS_WORDS },
  { state: "starved", fill: (id: string) => `url(#${id}-dots)`, words: "starved: no unit is there" },
] as const;

/** What is said of a station that limits the line. */
function limitOf({ stations, benches, bottlenecks }: SimulationAnswer): string {
  const words = limitWords(stations.length + benches.length, bottlenecks.length);
  return words === "" ? "" : `, ${words}`;
}

/** What each station does with its time on the simulated days, end to end; the one that limits the line is told. */
export function simulationPicture(answer: SimulationAnswer, id = "days"): Picture {
  const { line, stations, bottlenecks } = answer;
  const names = stations.map(({ id: station }) => visibleText(station));
  const left = Math.ceil(Math.max(...names.map(boldWidthOf))) + BESIDE;
  const figures = stations.map(
    ({ id: station, shares }) =>
      `${percent(shares.busy)} busy${bottlenecks.includes(station) ? limitOf(answer) : ""}`,
  );
  const stretches = stations.map(({ shares }, at): Stretch => {
    const y = at * ROW + 4;
    let x = 0;
    const bars = STATES.flatMap(({ state, fill }) => {
      const from = x;
      x = lengthOf(shares[state], LENGTH * 100) / 100 + from;
      const shape = { x: rounded(left + from), y, width: rounded(x - from), height: BAR };
      const bar = element("rect", {
        class: state,
        ...shape,
        fill: fill(id),
        stroke: "#000",
        "stroke-width": 0.8,
      });
      return x === from ? [] : [bar];
    });
    return {
      bottom: y + ROW - 2,
      drawn: element(
        "g",
        {},
        pictureText(0, y + BAR - 4, names[at]!, { "font-weight": "bold" }),
        bars,
        pictureText(left + LENGTH + BESIDE, y + BAR - 4, figures[at]!),
      ),
    };
  });
  const top = stations.length * ROW + 8;
  const seen = STATES.filter(({ state }) => stations.some(({ shares }) => shares[state].num > 0n));
  let next = left;
  const key = seen.map(({ fill, words }) => {
    const box = {
      x: next,
      y: top,
      width: 18,
      height: 11,
      fill: fill(id),
      stroke: "#000",
      "stroke-width": 0.8,
    };
    const drawn = element("g", {}, element("rect", box), pictureText(next + 23, top + 9, words));
    next = Math.ceil(next + 23 + widthOf(words) + 2 * BESIDE);
    return drawn;
  });
  return picture(
    {
      id,
      name: `What the stations of ${visibleText(line.name)} do on simulated days`,
      width: Math.ceil(Math.max(next, left + LENGTH + BESIDE + Math.max(...figures.map(widthOf))) + 2),
      height: top + ROW,
    },
    fillings(id),
    [...stretches, { bottom: top + ROW, drawn: key }],
  );
}
