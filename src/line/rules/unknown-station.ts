import { quoted } from "../../time/quoted.js";
import { MOST_NUMBERED, STATION_KEYS } from "../draft-floor.js";
import type { LineDraft } from "../line-draft.js";
import { valuesOf } from "../line-keys.js";
import { found, type LineRule } from "./line-rule.js";
import { refuseUnknown, type UsedName } from "./unknown-name.js";

const name = "unknown-station";

export const unknownStation: LineRule = {
  name,
  purpose: "Every station that a task names exists, or is numbered where the file lists none.",
  check(draft) {
    const { listed, complete, stations } = draft.floor;
    if (!listed) return refuseNumbers(draft);
    if (!complete) return [];
    const names = stations.map((station) => station.id);
    const refuse = (id: string) => `no station is called ${id}`;
    return refuseUnknown(name, draft, { names, refuse }, namedStations(draft));
  },
};

function namedStations({ tasks }: LineDraft): UsedName[] {
  return tasks.flatMap(({ id, keys }) =>
    STATION_KEYS.flatMap((key) =>
      valuesOf(keys[key]).map((named) => ({ named, where: `task ${id}, ${key}`, task: id })),
    ),
  );
}

function refuseNumbers(draft: LineDraft) {
  return namedStations(draft)
    .filter(({ named }) => draft.floor.numberOf(named.value) === undefined)
    .map(({ named, where, task }) => {
      const message = `${where}: ${quoted(named.text)} is no station: the file lists no \`stations\`, so S1 to S${MOST_NUMBERED} name them by number${advice(named.text)}`;
      return found(name, draft, { severity: "error", message, place: named.place, task });
    });
}

/** s3, 3, S 3, S03 and station 3 are meant as S3. */
function advice(text: string): string {
  const number = Number(/^(?:s|station)?\s*0*([1-9]\d{0,3})$/iu.exec(text.trim())?.[1] ?? 0);
  return number >= 1 && number <= MOST_NUMBERED ? `; write S${number}` : "";
}
