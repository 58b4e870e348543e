/** Of so many units in a row at most so many are of these models. */
export interface Spacing {
  /** As the line file calls it. */
  readonly name: string;
  /** Numbers of models. */
  readonly models: readonly number[];
  readonly most: number;
  readonly of: number;
}

/** Stretches of so many units that hold too many, of a sequence that is built again and again: one from each unit on. */
export function brokenWindows(sequence: readonly number[], { models, most, of }: Spacing): number {
  const isOne = sequence.map((model) => models.includes(model));
  const units = sequence.length;
  let within = 0;
  for (let at = 0; at < of; at++) if (isOne[at % units]) within++;
  let broken = 0;
  for (let from = 0; from < units; from++) {
    if (within > most) broken++;
    if (isOne[from]) within--;
    if (isOne[(from + of) % units]) within++;
  }
  return broken;
}
