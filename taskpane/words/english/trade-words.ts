/** What the view of the trade-offs says. */

function count(number: number, one: string, many = `${one}s`): string {
  return `${number.toLocaleString()} ${number === 1 ? one : many}`;
}

function listed(parts: readonly string[]): string {
  return parts.length < 2
    ? parts.join("")
    : `${parts.slice(0, -1).join(", ")} and ${parts.at(-1)!}`;
}

function seconds(number: number): string {
  return number < 90
    ? `${Math.ceil(number).toLocaleString()} s`
    : `${Math.ceil(number / 60).toLocaleString()} min`;
}

export const tradeWords = {
  title: "Trade-offs",
  about:
    "Choices for figures of your own feed: combinations are solved and judged by its own checks, and those that no other one beats are shown.",
  noBudget: "There is no feed in this workbook yet.",
  budget: "Budget",

  marks: {
    size: (cable: string) => `Size of ${cable}`,
    units: (stage: string) => `Units of ${stage}`,
    type: (stage: string) => `Type of ${stage}`,
    voltage: (supply: string) => `Voltage of ${supply}`,
    ratio: (type: string) => `Ratio of ${type}`,
    place: (stage: string) => `Place of ${stage}`,
  },
  /** Of the texts of a row; its figures are in the units of the sheet's headers. */
  choices: {
    size: ([size = ""]: readonly string[]) => size,
    units: ([units = ""]: readonly string[]) => `${units} in parallel`,
    type: ([type = ""]: readonly string[]) => type,
    voltage: ([volts = "", , , , ...types]: readonly string[]) =>
      [`${volts} V`, ...types].join(", "),
    ratio: ([steps = ""]: readonly string[]) => `${steps} to 1`,
    place: ([metres = ""]: readonly string[]) => `${metres} m before it`,
  },
  means: {
    size: "What is typed beside a size is its own. Left empty it is that of a cable of this feed that is like it, else it is worked out; a price is not.",
    units: "A whole number of units in parallel in each line.",
    type: "Each a stage type of this budget, with its own losses, mass and price. A fixed ratio and a regulated stage may stand beside each other.",
    voltage:
      "A higher voltage costs what you type: price of the supply with its switchgear and protection, and the stage types that take it.",
    ratio: "How many times the type steps down, with its other figures as they are.",
    place: (length: number, cable: string) =>
      `Length before the stage; ${cable} takes the rest of ${length.toLocaleString()} m.`,
  },
  vary: "What to vary",
  noMarks: "Nothing is varied yet. Choose a figure of the feed and add it.",
  figure: "Figure",
  add: "Add",
  remove: (mark: string) => `Remove ${mark}`,
  choiceOf: (header: string, row: number) => `${header}, choice ${row}`,
  pasted: "Rows copied from a spreadsheet may be pasted into a cell.",
  noChoice: (mark: string) => `${mark}: type one choice or more.`,
  needed: (header: string) => `${header} is needed for this choice.`,
  noFormula: (header: string) => `${header}: type a figure, no formula.`,
  notWithin: (length: number) =>
    `The length before the stage must be above 0 and below ${length.toLocaleString()} m.`,
  faultAt: (mark: string, row: number, why: string) => `${mark}, choice ${row}: ${why}`,

  checks: (held: number, all: number) => `Checks that may not be broken (${held} of ${all})`,
  checksAbout:
    "All that the feed holds now. One that fails now is held where you tick it. The operating point is always held.",
  noChecks:
    "No check is read from the sheet Checks, so that a search holds the operating point and nothing else.",
  failsAt: (items: readonly string[]) => `fails now at ${listed(items)}`,

  trade: "What to trade, two or three",
  objectives: {
    loss: "Loss",
    mass: "Mass",
    volume: "Volume",
    price: "Price",
    "worst margin": "Worst margin",
  },
  inUnits: {
    loss: "Loss (W)",
    mass: "Mass (kg)",
    volume: "Volume (cm³)",
    price: "Price",
    "worst margin": "Worst margin (%)",
  },
  twoOrThree: "Choose two or three of them.",
  unknown: (objective: string, item: string, size: string) =>
    `${objective} cannot be traded: ${item} has none${size && ` with ${size}`}. Type it beside the choice or in the schedules, or leave ${objective.toLowerCase()} out.`,

  search: "Search",
  cancel: "Cancel",
  cancelled: "Cancelled.",
  /** @param time Known once a search of this feed has ended. */
  count: (number: number, time: number | undefined) =>
    `${count(number, "combination")}${time === undefined ? "" : `, about ${seconds(time)}`}.`,
  sampled: (number: number, most: number) =>
    `${count(number, "combination")}: more than the ${most.toLocaleString()} that are judged at most. The search begins with the feed as it is and a sample of them, goes on to what differs from its best options in one marked figure, and says what that proves.`,
  tooMany: (number: number, mark: string) =>
    `${count(number, "combination")} are too many to be numbered. Narrow ${mark}: it has the most choices.`,
  progress: "Combinations judged",
  reading: "Reading the choices …",
  figured: (number: number, all: number, left: number | undefined) =>
    `Solved ${number.toLocaleString()} of ${count(all, "combination")}${left === undefined ? "" : `, about ${seconds(left)} left`}.`,
  settled: (number: number, all: number, left: number, front: number) =>
    `Judged ${number.toLocaleString()} of ${all.toLocaleString()}, about ${seconds(left)} left; ${count(front, "option")} on the front so far.`,
  settledAmong: (number: number, most: number, left: number, front: number) =>
    `Judged ${number.toLocaleString()} of at most ${most.toLocaleString()}, at most about ${seconds(left)} left; ${count(front, "option")} on the front so far.`,
  found: (front: number, beaten: number, stopped: number) =>
    `${count(front, "option")} on the front: none is beaten by another one. ${count(beaten, "combination")} ${beaten === 1 ? "is" : "are"} beaten, ${count(stopped, "other")} ${stopped === 1 ? "breaks" : "break"} a check.`,
  foundAmong: (front: number, settled: number, all: number) =>
    `${count(front, "option")} on the front. ${settled.toLocaleString()} of ${count(all, "combination")} were judged. Each one shown was judged in full.`,
  proven:
    "None of them is beaten by a combination that differs from it in one marked figure. A better one that differs in two or more figures may exist.",
  unproven: (number: number, front: number) =>
    `The search ended before all that differ in one marked figure were judged: that none of these beats it is not proven for ${number === front ? "any" : number.toLocaleString()} of them. A better one that differs in two or more figures may exist.`,
  noneFound: (stopped: number) =>
    `No combination is left: ${stopped === 1 ? "the only one breaks" : `all ${stopped.toLocaleString()} break`} a check that may not be broken.`,
  noneFoundAmong: (settled: number, all: number, name: string) =>
    `None found. ${settled.toLocaleString()} of ${count(all, "combination")} were judged, and each breaks a check that may not be broken: that is no proof that none holds. Nearest to holding is ${name}: what it breaks stands below.`,
  stale: "The feed has been changed since this search: search again.",

  front: "Front",
  caption: (shown: number, all: number) =>
    `${shown === all ? `The ${count(all, "option")}` : `The first ${shown} of ${all} options`} on the front, and the feed as it is. Choose a heading to sort, an option to see it.`,
  option: "Option",
  now: "Feed as it is",
  chart: "Front over two figures",
  axes: "Axes",
  pair: (up: string, across: string) => `${up} over ${across.toLowerCase()}`,
  marked: "Marks told apart by",
  told: (name: string, figures: readonly string[]) => `${name}: ${figures.join(", ")}`,
  figureTold: (objective: string, figure: string) => `${objective.toLowerCase()} ${figure}`,

  chosen: {
    title: "Chosen combination",
    change: "Choose any combination; one that is not on the front says why.",
    unbeaten:
      "On the front: no combination that breaks no check is at least as good in everything.",
    unbeatenAmong:
      "On the front: no combination judged that breaks no check is at least as good in everything.",
    notSearched:
      "The search did not come to it. It breaks no check, and no option on the front is at least as good in everything: it belongs there too.",
    beaten: (name: string) => `Beaten by ${name}, which is at least as good in everything.`,
    stopped: "It breaks a check that may not be broken.",
    alsoStopped: "It also breaks a check that may not be broken.",
    against: (difference: string) => `${difference} against now`,
    alike: "as now",
    unknownNow: "not known of the feed as it is",
    broken: "Why not",
    row: (item: string, check: string) => `${item}, ${check.toLowerCase()}`,
    found: (found: string, asked: string, limit: string) => `${found}, asked ${asked} ${limit}`,
    by: (percent: string) => `beyond its limit by ${percent}`,
    in: (worstIn: string) => `in ${worstIn}`,
    write: "Write into the schedules",
    writeCopy: "Write into a new version",
    writing: "Writing …",
    written: (name: string) =>
      `${name} is in the schedules. Undo in the spreadsheet takes it back.`,
    copied: (name: string, sheets: readonly string[]) =>
      `${name} is in a new version on ${sheets.join(", ")}.`,
    changes: (number: number) => `What it changes (${count(number, "cell")})`,
    from: (header: string, row: string, old: string, now: string) =>
      `${header} of ${row}: ${old} → ${now}`,
    noChange: "Nothing is changed: the feed stands so now.",
    nothing: "nothing",
    formulas: "A formula in one of these cells is replaced by the figure.",
  },

  leftOut: "Left out",
  leftOutAbout:
    "Choices that no option on the front has. What several checks stop counts with the one that was found first.",
  leftOutAboutAmong:
    "Choices that no option on the front has, with what became of their combinations that were judged. What several checks stop counts with the one that was found first.",
  leftOutUnjudged: "none of its combinations was judged",
  leftOutBeaten: (number: number) => `${count(number, "combination")} beaten`,
  leftOutStopped: (number: number, item: string, check: string) =>
    `${number.toLocaleString()} stopped by ${check.toLowerCase()} of ${item}`,
  whyNot: (choice: string) => `Why not ${choice}?`,

  next: "What mends the feed as it is",
  nextAbout:
    "Single choices, each alone, that make a check hold which fails now and break none that holds; the cheapest first, those without a known price last.",
  noNext: (checks: readonly string[]) =>
    `No single one of these choices mends what fails now: ${listed(checks)}. What to try stands in Warnings.`,
  notKnown: "not known",
  nextMends: (name: string, checks: readonly string[]) => `${name} mends ${listed(checks)}`,

  toSheet: "Put chart and table on a sheet",
  pictureTitle: "Front of a trade-off",
  pictureSolved: "Loss at nominal loads and supply voltage; checks held in every case.",
  pictureFound: (front: number, all: number, figures: readonly string[]) =>
    `${count(front, "option")} of ${count(all, "combination")} that no other one beats in ${listed(figures.map((one) => one.toLowerCase()))}.`,
  pictureFoundAmong: (
    front: number,
    settled: number,
    all: number,
    figures: readonly string[],
    unproven: number,
  ) =>
    `${count(front, "option")} that none of ${count(settled, "combination")} judged beats in ${listed(figures.map((one) => one.toLowerCase()))}, of ${all.toLocaleString()} in all: ${unproven === 0 ? "none that differs in one marked figure beats one of them, one that differs in two or more may" : `not all that differ in one marked figure were judged for ${unproven.toLocaleString()} of them`}.`,
  pictureVaried: (mark: string, choices: readonly string[]) => `${mark}: ${choices.join(", ")}.`,
  pictureHeld: (checks: readonly string[]) => `Held: ${checks.join(", ")}.`,
  pictureChosen: (told: string) => `Chosen: ${told}.`,
} as const;
