import { expect, it } from "vitest";
import { mayBeStaffed, staffSkills } from "../../../../src/solve/station/staff-skills.js";

const [brakes, wheels, paint] = [0b001n, 0b010n, 0b100n];

it("gives each place a person of its own who has all skills of the place", () => {
  expect(staffSkills([brakes, brakes | wheels], [brakes | wheels, brakes])).toEqual([1, 0]);
});

it("moves a person on where another can take the place", () => {
  // The first place takes person 0 at first; only person 0 can take the second.
  expect(staffSkills([brakes, wheels], [brakes | wheels, brakes | paint])).toEqual([1, 0]);
});

it("finds nobody where two places need the same person", () => {
  expect(staffSkills([brakes, wheels], [brakes | wheels, paint])).toBeNull();
  expect(mayBeStaffed([brakes, wheels], [brakes | wheels, paint])).toBe(false);
  // One person has one skill, another the other: nobody has both.
  expect(mayBeStaffed([brakes | wheels], [brakes, wheels])).toBe(false);
});

it("needs nobody where no place needs a skill", () => {
  expect(staffSkills([], [])).toEqual([]);
});
