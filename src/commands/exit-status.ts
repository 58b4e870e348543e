/** What the process says to scripts; small constants, never a count and never dependent on the format. */
export const EXIT_STATUS = {
  fine: 0,
  /** The answer is no: a check failed, no balance is feasible. */
  answerIsNo: 1,
  /** Wrong input or usage. */
  wrongInput: 2,
  /** Could not finish: our own fault, a full disk, the memory ceiling. */
  couldNotFinish: 3,
  /** Interrupted; the best so far is printed first. */
  interrupted: 130,
} as const;

export type ExitStatus = (typeof EXIT_STATUS)[keyof typeof EXIT_STATUS];
