import { statesSkills } from "../floor-names.js";
import { found, type LineRule } from "./line-rule.js";

const name = "people-and-skills";

export const peopleAndSkills: LineRule = {
  name,
  purpose: "Skills are looked for at the stations or among the people, not at both.",
  check(draft) {
    const people = draft.places.people;
    if (people === undefined || !statesSkills(draft.floor)) return [];
    const message =
      "people: the stations state skills, so who has them is not looked at and nobody is counted; take `skills` out of `stations` to staff the line with these people";
    return [found(name, draft, { severity: "warning", message, place: people, task: null })];
  },
};
