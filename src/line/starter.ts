/** A short, sound line file to start from, with every key that is honoured and a word on each. */
export const STARTER_LINE_FILE = `# A line file of linepoise: what the line is to make, when it works, and its tasks.
line: Cargo bike final assembly
unit: s                     # what a bare number means in task times and handling: s, min, h, cmin or tmu
demand: 160 per day         # good units per hour, shift, day, week, month or year

calendar:                   # times here carry their own unit
  shifts:
    early:
      from: "06:00"         # or in place of from and to -- length: 8 h
      to: "14:00"
      breaks: {meal: 30 min, short: 2 x 10 min}   # or all together -- breaks: 50 min
      stops: {start-up meeting: 5 min}
      changeovers: {frame colour: 2 x 5 min}
      overtime: 0 min
  days-per-week: 5          # counts are needed where demand is per week, month or year
  days-per-month: 21
  weeks-per-year: 46        # with days-per-week; or in place of both -- days-per-year: 230

uptime: 100 %               # share of the available time in which the line runs; leave out what stops say already
yield: 99 %                 # good units leaving / units started
handling: 4 s               # lost to moving and positioning, per unit and station
plan-to: 95 %               # share of the working time that is loaded

options:                    # what \`compare\` sets beside the line as it is
  wheels-off-line: {off-line: [[lace-wheel, true-wheel]]}

chains:                     # each task directly before the next, besides what \`after\` says
  - [load-frame, press-headset, fit-fork]

tasks:
  load-frame:
    name: Load frame on carrier
    time: 38
    on-base: true           # the work is done on the bike itself; what comes after it is, too
    lift: 19 kg             # shown beside the caution
    caution: Use the hoist
  press-headset: 62         # a bare time is enough
  fit-fork: 41
  lace-wheel: {time: 0:40, quantity: 2}       # mm:ss for one piece, two pieces a bike
  true-wheel: {time: 25 s, quantity: 2, after: lace-wheel}
  fit-wheels: {time: 48, after: [fit-fork, true-wheel]}
  bleed-brakes: {time: 1.1 min, after: fit-wheels}
  box: {name: Box and label, time: 55, after: bleed-brakes}
`;
