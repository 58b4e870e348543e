/** A line as the text of a line file, times in seconds, tasks T1, T2, ...; cautions and names are left out. */
export function lineFileText(name, { times, before }) {
  const tasks = times.map((time, task) => {
    const after = before[task].length === 0 ? "" : `, after: [${before[task].map(idOf).join(", ")}]`;
    return `  ${idOf(task)}: {time: ${time}${after}}\n`;
  });
  return `line: ${name}\nunit: s\ntasks:\n${tasks.join("")}`;
}

const idOf = (task) => `T${task + 1}`;
