import { statesSkills } from "../floor-names.js";
import { idKey } from "../ids.js";
import { valuesOf } from "../line-keys.js";
import { found, type LineRule } from "./line-rule.js";

const name = "no-person-fits";

export const noPersonFits: LineRule = {
  name,
  purpose: "Every task finds one person with all its skills.",
  check(draft) {
    if (draft.keys.people === undefined || statesSkills(draft.floor)) return [];
    const people = draft.keys.people.entries.map(
      ({ value }) => new Set(valuesOf(value).map((each) => idKey(each.value))),
    );
    return draft.tasks.flatMap(({ id, keys: { skill } }) => {
      const skills = valuesOf(skill).map((each) => each.value);
      const has = (person: ReadonlySet<string>) => (each: string) => person.has(idKey(each));
      // A skill that nobody has is a finding of its own.
      const known = skills.every((each) => people.some((person) => has(person)(each)));
      if (!known || skills.length === 0 || people.some((person) => skills.every(has(person)))) return [];
      const message = `task ${id}, skill: nobody of \`people\` has ${skills.join(" and ")} together; one person does the whole task`;
      return [found(name, draft, { severity: "error", message, place: skill!.place, task: id })];
    });
  },
};
