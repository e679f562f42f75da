/** Every word that the pane shows, in one place. */
import { isoDate } from "../iso-date.js";

function count(number: number, one: string, many = `${one}s`): string {
  return `${number} ${number === 1 ? one : many}`;
}

/** The first of them, and how many more there are. */
function some(cells: readonly string[]): string {
  const most = 6;
  const shown = cells.slice(0, most).join(", ");
  return cells.length > most ? `${shown} and ${count(cells.length - most, "more", "more")}` : shown;
}

export const words = {
  pane: {
    name: "Downfeed",
    subject: "DC feed budgets",
    tabs: "Views",
    insert: "Insert",
    warnings: "Warnings",
    working: "Working",
    pictures: "Pictures",
    tradeoffs: "Trade-offs",
    handOver: "Hand over",
    failed: (what: string) => `That did not work: ${what}`,
    closeFailure: "Close this message",
    unread: (why: string) => `The selected cell could not be read: ${why}`,
    wholePage: "Use the whole page",
    besideSheet: "Back beside the sheet",
  },

  firstSteps: {
    title: "First steps",
    value:
      "Downfeed calculates, cell by cell and with citations, whether a high-voltage DC supply can feed low-voltage electronics some distance away.",
    own: "To begin a feed of your own, choose “New feed” and enter a few figures: its sheets are then created.",
    isOpen: (title: string) =>
      `“${title}” is open. If it is the sample, its figures are invented: look around in it, or type your own over them.`,
    newFeed: "New feed",
    sample: (title: string) =>
      `A worked budget to begin with: “${title}”, on new sheets. Its figures are invented; type your own over them.`,
    functions: (namespace: string) =>
      `The cell functions are listed under Insert, or type =${namespace}. into a cell.`,
    nothingLeaves:
      "Downfeed sends nothing from this computer: no account, no telemetry, no figures. In Excel the pane loads Microsoft's office.js, which may report its own use to Microsoft as Excel does.",
    insertSample: "Insert the sample budget",
    toFunctions: "Show the functions",
    close: "Close",
  },

  answer: {
    name: "Selected cell",
    symbol: { plain: "", quiet: "", refused: "✕", doubtful: "?" },
    nothing: (namespace: string) => `no ${namespace} function in this cell`,
    native: "a formula of the spreadsheet's own; Working shows what it comes from",
    unparsed: "its formula cannot be read here",
    inCall: (call: string) => `in ${call}`,
    table: (rows: number, columns: number) => `${count(rows, "row")} × ${count(columns, "column")}`,
    unread: (part: string, why: string) => `not worked out here: ${part} ${why}`,
    comesFrom: (reference: string) => `The error comes from ${reference}.`,
    spilledFrom: (call: string, anchor: string) => `part of ${call} in ${anchor}`,
    note: (text: string) => `Note: ${text}`,
    shows: (code: string): string => {
      switch (code) {
        case "#SPILL!":
          return "The cell shows #SPILL!: cells that the result needs are not empty.";
        case "#NAME?":
          return "The cell shows #NAME?: the spreadsheet has not loaded the function. Open the add-in once, or enter the formula again.";
        case "#BUSY!":
          return "calculating …";
        default:
          return `The cell itself shows ${code}. Calculate the sheet again; if it stays, enter the formula again.`;
      }
    },
    differs: (shown: string) => `The cell itself shows ${shown}. Calculate the sheet again.`,
  },

  working: {
    title: "Working of the selected cell",
    nothing: (cell: string) =>
      `${cell} holds no formula. Select a cell that has one, or that a function spills into.`,
    from: (cell: string) => `${cell}, by its own formula`,
    comesFrom: (cell: string) => `${cell} comes from`,
    way: {
      repeated: "The value of",
      found: "Looked up in",
      summed: "Sum of these cells",
      counted: "Count of these cells",
      "of those the smallest": "Smallest of these cells",
      "of those the largest": "Largest of these cells",
    },
    noCells: "No cell meets the condition.",
    unread: (why: string) => `Not followed further: ${why}.`,
    of: (cell: string) => `${cell}, call by call, inner ones first`,
    asTyped: (cell: string) => `The value is typed in ${cell}.`,
    spilled: (cell: string, anchor: string) => `${cell} is part of what ${anchor} gives`,
    gives: (value: string) => `gives ${value}`,
    inner: "an argument of the call that follows",
    solved: "Solved iteratively: each equation shown equals 0 at the solution.",
    choices: "Options",
    satisfies: (equation: string) => `so that ${equation} = 0`,
    leaves: (numbers: string, residual: string) => `${numbers} leaves ${residual}`,
    byDefault: "default",
    goTo: (cell: string) => `from ${cell}`,
    layOut: "Lay out on a new sheet",
    laidOut: (sheet: string) =>
      `Laid out on ${sheet} as native formulas. Its last row says whether they give the same result as the function.`,
    layOutBeside: "Lay out beside, on the same sheet",
    laidOutBeside: (range: string) =>
      `Laid out in ${range}, right of the used cells of the sheet, as native formulas. Its last row says whether they give the same result as the function.`,
    notLaidOut: (why: string) => `Not laid out: ${why}.`,
    toReport: "Add to the report",
    inReport: (cell: string) => `${cell} is among the workings of the report.`,
  },

  pictures: {
    title: "Pictures of a budget",
    about: "Drawn from the budget's cells, and redrawn when they change.",
    noBudget: "There is no budget in this workbook yet.",
    unsolved:
      "Nothing to draw: the feed has no items yet, or one of them is not solved and its note on the sheet says why.",
    budget: "Budget",
    choose: {
      diagram: "Feed",
      watts: "Feed",
      voltage: "Path to",
      sweep: "Feed",
      tornado: "Result",
      spread: "Result",
      comparison: "Held against it",
      share: "Call in",
      worst: "Calls on the sheet",
      efficiency: "Call in",
    },
    numbers: "The numbers drawn",
    caption: (title: string) => `${title}: the numbers drawn`,
    place: "Insert in a sheet",
    copy: "Copy",
    copied: "The picture is copied: paste it into a document.",
    save: { svg: "Save as SVG", png: "Save as PNG" },
    saved: (name: string) => `${name} is saved.`,
    placing: (title: string) => `Inserting “${title}” in a sheet …`,
    placed: (sheet: string) => `The picture is on ${sheet}, with its numbers.`,
    goTo: (sheet: string) => `Go to ${sheet}`,
    solvedFor: (loads: string, supply: string | undefined) =>
      supply === undefined
        ? `Solved for ${loads} loads.`
        : `Solved for ${loads} loads, supply at ${supply}.`,
    from: (budget: string, cells: string) => `Drawn from the budget “${budget}” (${cells}).`,
    values: (solvedFor: string) =>
      `${solvedFor} These are values: they do not follow later changes.`,
    watts: {
      title: "Where each watt goes",
      sums: (supply: string, loads: string, losses: string) =>
        `Supply ${supply} = all loads ${loads} + all losses ${losses}`,
      lostIn: (item: string) => `lost in ${item}`,
      total: "Total",
      columns: {
        item: "Item",
        input: "Input (W)",
        load: "Into the load (W)",
        loss: "Lost (W)",
      },
      alternative: (
        supply: string,
        loads: string,
        share: string,
        losses: string,
        most: { readonly item: string; readonly power: string } | undefined,
      ) =>
        `Of ${supply} from the supply ${loads} (${share}) reach the loads and ${losses} are lost${most ? `, most of it in ${most.item}: ${most.power}` : ""}.`,
    },
    voltage: {
      title: (load: string) => `Voltage along the path to ${load}`,
      axis: "Voltage (V)",
      columns: {
        item: "Item",
        input: "Input (V)",
        output: "Output (V)",
        lowest: "Lowest allowed (V)",
        highest: "Highest allowed (V)",
      },
      through: (input: string, output: string) => `${input} → ${output}`,
      allowed: (told: string, window: string) => `${told} (${window} allowed)`,
      band: (name: string, limit: string) => `${name}: up to ${limit}\u00a0V`,
      falls: (supply: string, high: string, load: string, low: string) =>
        `From ${supply} at ${high} to ${load} at ${low}.`,
      fromTo: (lowest: string, highest: string) => `${lowest} to ${highest}\u00a0V`,
      from: (lowest: string) => `${lowest}\u00a0V and more`,
      upTo: (highest: string) => `up to ${highest}\u00a0V`,
      accepts: (item: string, window: string, margin: string) =>
        `${item} accepts ${window}; the nearer end is ${margin} away.`,
      outside: (item: string, voltage: string) => `${item} is outside its window at ${voltage}.`,
      within: (band: string, limit: string, items: readonly string[]) =>
        items.length === 0
          ? `Nothing on the path is fed at or below the limit of ${band}, ${limit}\u00a0V.`
          : `Fed at or below the limit of ${band}, ${limit}\u00a0V, as solved: ${items.join(", ")}.`,
      key: "Frame: the input that the item accepts. Dot: the load.",
    },
    sweep: {
      title: "Loss against supply voltage",
      axis: "Loss (W)",
      columns: {
        voltage: "Supply, open circuit (V)",
        line: "Supply, cables and contacts (W)",
        stages: "Stages (W)",
        total: "All losses (W)",
      },
      totalLabel: (power: string) => ["all losses", power],
      stagesLabel: (power: string) => ["stages", power],
      lineLabel: (power: string) => ["supply, cables", power],
      solvedLabel: (voltage: string, power: string) => [`solved: ${voltage}`, power],
      alternative: (low: string, lossLow: string, high: string, lossHigh: string) =>
        `At ${low} the feed loses ${lossLow}, at ${high} ${lossHigh}.`,
      solved: (voltage: string, all: string, line: string, stages: string) =>
        `The sheet is solved at ${voltage}: ${all}, of which ${line} in supply, cables and contacts and ${stages} in stages.`,
      leftOut: (points: number) =>
        `Left out, because the feed has no operating point there: ${count(points, "voltage")}.`,
    },
    results: {
      loss: "Loss of the feed",
      margin: "Least margin to a window",
      mass: "Mass of the feed",
      price: "Price of the feed, in its currency",
    },
    missing: {
      CHAIN_TORNADO: (why: string) => `Which inputs matter is not drawn: ${why}.`,
      CHAIN_UNCERTAINTY: (why: string) => `The spread over the tolerances is not drawn: ${why}.`,
    },
    matters: {
      insert: "Insert sheet What matters",
      title: "What matters",
      placed: (sheet: string) => `On ${sheet}, with formulas that follow the feed.`,
      about:
        "Which inputs move a result, and how far it spreads over their tolerances: those of the items' own rows, the windows of the supplies, and what Spread on Types says. Below them every other figure that was entered and moves the result, with its slope. Every figure follows the feed.",
      limits:
        "Percentiles bound nothing: limits are judged by the extremes. Each result is solved some thousand times at every edit; with some hundred items, delete this sheet while it is not needed.",
    },
    tornado: {
      title: (result: string) => `Which inputs matter: ${result.toLowerCase()}`,
      columns: { input: "Input", low: "Input low", high: "Input high", swing: "Swing" },
      legend: "hatched: input low; plain: input high",
      enteredMark: (value: string) => `as entered ${value}`,
      bar: (input: string, low: string, high: string) => `${input}: ${low} … ${high}`,
      entered: (result: string, value: string) => `${result} is ${value} as entered.`,
      widest: (input: string, low: string, high: string) =>
        `${input} moves it most: ${low} at its low end, ${high} at its high end.`,
      without: (inputs: number) =>
        `No operating point at an end of ${count(inputs, "input")}, which are not drawn.`,
      more: (inputs: number) => `Not drawn, because they move it less: ${count(inputs, "input")}.`,
      atNominal: (note: string) => `At nominal supply and loads: ${note}.`,
    },
    spread: {
      title: (result: string) => `Spread over the tolerances: ${result.toLowerCase()}`,
      axis: "Share of samples",
      columns: { from: "From", to: "To", share: "Share of samples" },
      marks: { lowest: "lowest extreme", highest: "highest extreme", limit: "limit" },
      entered: (result: string, value: string) => `${result} is ${value} as entered.`,
      between: (low: string, high: string) => `Nine in ten samples lie between ${low} and ${high}.`,
      extremes: (low: string, high: string) =>
        `Within the tolerances it is ${low} to ${high}. Limits are judged by the worst case, never by percentiles.`,
      note: (note: string) => `Note on the feed: ${note}.`,
      unanswered: (samples: number) => `Without an operating point: ${count(samples, "sample")}.`,
    },
    comparison: {
      title: (first: string, other: string) => `Two versions: A ${first}, B ${other}`,
      columns: {
        figure: "Figure",
        a: "A",
        b: "B",
        difference: "Difference",
        relative: "Relative difference",
        verdict: "Verdict",
      },
      inA: (value: string) => `A ${value}`,
      inB: (value: string, difference: string) =>
        difference === "" ? `B ${value}` : `B ${value} (${difference})`,
      legend: "hatched: A; plain: B",
      caption: (figure: string, verdict: string) => `${figure}: ${verdict}`,
      points: (value: string) => `${value} percentage points`,
      verdicts: (better: readonly string[], worse: readonly string[]) =>
        `Better in B: ${better.join("; ") || "nothing"}. Worse in B: ${worse.join("; ") || "nothing"}.`,
      told: (figure: string, a: string, b: string) => `${figure} ${a} → ${b}`,
      worst: "Worst of the nine cases that are solved, mass and price of what is entered.",
      solvedFor: "Of all nine cases.",
    },
    share: {
      title: (item: string | undefined) =>
        item === undefined ? "Sharing between units" : `Sharing between units: ${item}`,
      worstTitle: (item: string | undefined) =>
        item === undefined ? "Worst-placed unit" : `Worst-placed unit: ${item}`,
      unit: (number: number) => `Unit ${String(number)}`,
      converterCount: (converters: number) => count(converters, "unit"),
      worstOf: (converters: number) =>
        converters === 1 ? "The only unit" : `Worst of ${String(converters)} units`,
      evenOf: (converters: number) => `Even share of ${count(converters, "unit")}`,
      evenMark: (current: string) => `even share ${current}`,
      ratedMark: (current: string) => `rated ${current}`,
      columns: {
        unit: "Unit",
        converters: "Units",
        current: "Current (A)",
        worst: "Worst unit (A)",
        even: "Even share (A)",
        rated: "Rated (A)",
      },
      alternative: (
        converters: number,
        sum: string,
        even: string,
        unit: string,
        most: string,
        above: string,
      ) =>
        `${count(converters, "unit")} share ${sum}, evenly ${even} each. ${unit} carries the most: ${most}, ${above} above its even share.`,
      worstAlternative: (converters: number, worst: string, even: string) =>
        `Of ${count(converters, "unit")} the worst-placed carries ${worst}, with an even share of ${even}.`,
      aloneAlternative: (current: string) => `A unit alone carries ${current}.`,
      belowRating: (rated: string, part: string) =>
        `The greatest is ${part} of the rated ${rated}.`,
      aboveRating: (rated: string, part: string) =>
        `The greatest is ${part} of the rated ${rated}: above it.`,
    },
    efficiency: {
      title: "Efficiency of a stage over load",
      axis: "Efficiency",
      columns: {
        load: "Output (W)",
        fitted: "Fitted efficiency",
        measured: "Datasheet efficiency",
      },
      curveLabel: "fitted curve",
      pointLabel: "datasheet",
      peakLabel: (isInside: boolean, efficiency: string, load: string) =>
        `${isInside ? "peak" : "greatest here"} ${efficiency} at ${load}`,
      alternative: (
        points: number,
        least: string,
        efficiencyLeast: string,
        most: string,
        efficiencyMost: string,
        misfit: string,
        isInside: boolean,
        efficiency: string,
        load: string,
      ) =>
        `${count(points, "datasheet point")} from ${least} (${efficiencyLeast}) to ${most} (${efficiencyMost}); the fitted curve misses them by ${misfit} at most and ${isInside ? "peaks at" : "is greatest, at an end of them, with"} ${efficiency}, at ${load}.`,
    },
  },

  handOver: {
    title: "Hand over a budget",
    noBudget: "There is no budget in this workbook yet.",
    copies:
      "A version that is kept is a second budget on new sheets, which calculates by itself: change the feed in either and compare them. A plain copy needs no add-in: closed formulas become native ones and follow their inputs, solved figures become values. The head of each of its sheets says whether the figures hold; once an input is changed there it says void, solved figures turn grey and verdicts go blank.",
    versions: {
      keep: "Keep this version",
      title: (budget: string) => `Keep a version of ${budget}`,
      about:
        "The budget once more on new sheets, as it stands, under the title that is typed here. It calculates by itself and stays as it is until it is changed.",
      name: "Title of the version",
      version: (title: string, number: number) => `${title}, version ${String(number)}`,
      unnumbered: (title: string) => title.replace(/, version \d+$/, ""),
      save: "Keep it",
      cancel: "Cancel",
      titleNeeded: "a version needs a title",
      titleTaken: (title: string) => `there is a budget called ${title} already`,
      kept: (title: string, sheets: readonly string[]) =>
        `“${title}” is a budget of its own on ${sheets.join(", ")}.`,
      compare: "Compare versions",
      aboutComparing:
        "On a sheet of its own, which follows the budgets: A, and what each of the others gives instead. It goes into no copy and no report of a budget.",
      first: "A, which the others are held against",
      others: "Held against it",
      insert: "Compare on a new sheet",
      othersNeeded: "Choose at least one budget to hold against it.",
      compared: (sheet: string) => `The comparison is on sheet ${sheet}.`,
      sheet: "Compare",
      comparison: "Comparison of versions",
      heading: "Versions held against ",
      howToRead: [
        "Difference = B − A. Better and worse are said of losses, efficiency, margins, loadings, mass, price and counts of checks only.",
        "It follows the schedules of all versions. It approves none of them: a check that both fail is no row of it.",
      ],
      itemsAt: (label: string) => `Items solved at: ${label.toLowerCase()}`,
      oneOf: (label: string, choices: readonly string[]) =>
        `${label}: one of ${choices.join(", ")}`,
    },
    plainFile: "Plain copy as a file",
    plainSheets: "Plain copy on new sheets",
    plainFiled: "The plain copy is a separate workbook.",
    plainFileName: (title: string) => `${title} plain copy.xlsx`,
    savePlainFile: "Save the file",
    report: "Report",
    copied: (title: string, sheets: readonly string[]) =>
      `“${title}” is copied to ${sheets.join(", ")}.`,
    reported: "The report is ready: open it and print it to PDF, or save it.",
    openReport: "Open the report",
    saveReport: "Save it as a file",
    reportSheet: "Report as a sheet",
    reportSheetName: "Report",
    reportOf: (title: string) => `Report of ${title}`,
    reportPlaced: (sheet: string) =>
      `The report is on sheet ${sheet}, laid out for A4 or Letter, landscape: print it, or save it as PDF, from the spreadsheet. It holds figures, no formulas: it does not follow later changes.`,
    noFiles:
      "Excel on Mac saves no file and opens no page from a pane: there the report and the plain copy are sheets.",
    fingerprint: (print: string) => `Fingerprint of schedules and requirements: ${print}`,
    workings: (count: number) =>
      count === 0
        ? "Workings in the report: none. Select a cell and add it from the view Working."
        : `Workings in the report: ${String(count)}.`,
    goTo: (sheet: string) => `Go to ${sheet}`,
    working: (what: string) => `${what} …`,
    loading: {
      title: "When this workbook opens",
      switch: "Load Downfeed with this workbook",
      about:
        "When this is on, the functions load with the workbook on every computer that has Downfeed. Excel keeps the setting in the workbook: on a computer without Downfeed it may show an add-in error. When it is off, cells show #NAME? or old values until Downfeed is opened from the Home tab. Downfeed turns it on when it writes one of its functions into the workbook, unless it was turned off here.",
    },
  },

  repair: {
    title: "Formulas that do not calculate",
    about:
      "After a workbook was opened on another computer or in another program, its functions may show #NAME? or have another prefix.",
    look: "Find them",
    looking: "Reading the formulas of every sheet …",
    none: "None: every Downfeed formula in this workbook calculates.",
    found: (count: number, mendable: number) =>
      `${String(count)} found, ${String(mendable)} can be repaired.`,
    repair: "Repair them",
    repaired: (count: number) => `${String(count)} repaired.`,
    leftAsIs: (sheet: string, cells: readonly string[], why: string) =>
      `${sheet} was left as it is, ${some(cells)}: ${why}.`,
    prefix: (namespace: string) =>
      `it has another prefix than ${namespace}, as in a file or in another copy of the add-in`,
    unknown: "the spreadsheet did not know the function when it opened the file",
    besideUnknown:
      "functions were unknown when this workbook was calculated; this result may come from that",
    hidden: "it shows its text for an error (IFERROR); it has another result now",
    stale: "calculated before the add-in was ready; it has a result now",
    refused: (message: string) =>
      `the function refuses its arguments, which a repair does not change: ${message}`,
  },

  insert: {
    budgets: "Worked budgets",
    chooseBudget: "Budget to insert",
    adds: (sheets: readonly string[]) =>
      `Adds ${count(sheets.length, "new sheet")}: ${sheets.join(", ")}. Nothing is overwritten.`,
    invented: "The figures in it are invented; replace them with your own.",
    insertBudget: "Insert the budget",
    inserting: (title: string) => `Inserting “${title}” …`,
    inserted: (title: string, sheets: readonly string[]) =>
      `Inserted “${title}” on the sheets ${sheets.join(", ")}.`,
    insertedUncalculated:
      "Calculation is set to manual: press F9, or “Calculate” under Warnings, before you read a figure.",
    notInserted: (why: string) => `Nothing was inserted: ${why}`,
    goToSheet: (sheet: string) => `Go to ${sheet}`,
    noBudgets: "There is no budget to insert.",
  },

  functions: {
    title: "Functions",
    search: "Search the functions",
    searchHint: "By name, purpose or family: drop, ratio, safety …",
    found: (shown: number, all: number) =>
      shown === all ? count(all, "function") : `${shown} of ${count(all, "function")}`,
    none: "No function matches. Try one word, such as drop or band.",
    family: {
      conductor: "Conductors",
      supply: "Supplies",
      ratio: "Fixed-ratio stages",
      stage: "Any converter stage",
      chain: "Chains and feed tables",
      parallel: "In parallel",
      safety: "Safety bands",
      protection: "Protection",
      transient: "Transients and stability",
      economics: "Energy and cost",
      about: "About",
    } as Readonly<Record<string, string>>,
    signature: "Written as",
    gives: "Gives",
    relation: "Relation",
    example: "Example",
    exampleGives: (value: string) => `gives ${value}`,
    exampleTable: "a table",
    exampleCaption: (name: string) => `${name} in the example`,
    citations: "Citations",
    more: (id: string) => `${id} in full: arguments, working, limits`,
  },

  argument: {
    required: "required",
    optional: "optional",
    useSelection: "Use selection",
    useSelectionFor: (name: string) => `Use selection for ${name}`,
    choose: "choose …",
    leaveOut: "leave out",
    several: "Several values: separate them with semicolons, or use a range.",
    range: "A range of cells.",
    choices: (choices: readonly string[]) => `One of: ${choices.join(", ")}.`,
    needed: (name: string) => `${name} is required.`,
    needsRange: (name: string) => `${name} takes a range, such as B2:M12.`,
    oneRange: (name: string) => `${name} takes numbers or one range, not several references.`,
    noNumber: (name: string, text: string) => `${name} takes a number or a cell, not “${text}”.`,
    ambiguous: (text: string) =>
      `“${text}” can be read in two ways: leave the comma out, or write a point for the decimal sign.`,
    noFormula: (text: string) =>
      `“${text}” is not a formula. It is written as in English: 2.5 with a point, a comma between arguments.`,
  },

  call: {
    title: (name: string) => `Write ${name} into a cell`,
    formula: "Formula",
    more: (number: number) => count(number, "optional argument"),
    insert: "Insert at the selected cell",
    at: (cell: string) => `Selected: ${cell}`,
    inserted: (cell: string) => `The formula is in ${cell}.`,
    occupied: (cell: string) => `${cell} is not empty. Overwrite it?`,
    overwrite: "Overwrite",
    keep: "Keep what is there",
    kept: (cell: string) => `${cell} is as it was.`,
    blocked: (range: string, cell: string) =>
      `The result needs ${range}, and ${cell} in it is not empty. Select a cell with free cells below and beside it.`,
    ownCell: (cell: string) =>
      `${cell} is one of the arguments. Select another cell for the result.`,
  },

  moving: {
    old: (stems: readonly string[]) =>
      `Made by version 0.2 and judged only by its own sheets: ${stems.join(", ")}. Every check judges a budget that is moved into schedules, on new sheets; the old sheets stay.`,
    move: (stem: string) => `Move ${stem} into schedules`,
    moving: (stem: string) => `Moving ${stem} …`,
    moved: (title: string, sheet: string) =>
      `${title} is now in schedules, from sheet ${sheet} on.`,
    goTo: (sheet: string) => `Go to ${sheet}`,
    lost: (number: number) =>
      `${number} ${number === 1 ? "entry was" : "entries were"} not moved; Notes has the list too:`,
  },

  warnings: {
    title: "Warnings",
    noBudget: "There is no budget in this workbook yet.",
    toInsert: "Choose a budget to insert",
    nothing: "No warnings from the checks of this budget.",
    calculating: "calculating …",
    noStatement:
      "This is not a statement of safety: it checks numbers on these sheets against published limits and nothing else. Local code, the authority and the product standard prevail.",
    heard: (number: number) => (number === 0 ? "No warnings" : count(number, "warning")),
    heardNoBudget: "No budget in this workbook",
    manual:
      "Calculation is set to manual in this workbook: what the sheets show may be older than what was typed, and so may these warnings.",
    calculate: "Calculate the sheets of the budgets",
    calculated: "Excel calculates the sheets now.",
    unknown: (names: readonly string[]) =>
      `Not read, because this version does not know what they describe: ${names.join(", ")}.`,
    severity: {
      danger: "Danger",
      warning: "Warning",
      "not determined": "Not determined",
      note: "Note",
    },
    symbol: { danger: "✖", warning: "▲", "not determined": "?", note: "●" },
    items: (number: number) => count(number, "item"),
    asked: (how: string, limit: string) => `Asked: ${how} ${limit}`,
    cause: (item: string) => `Caused by ${item}`,
    citation: "Citation",
    worstIn: (where: string) => `Worst in: ${where}`,
    /** Far beyond a limit a part in per cent is hard to read. */
    timesLimit: (times: number) =>
      `is ${new Intl.NumberFormat(undefined, { maximumSignificantDigits: 3 }).format(times)} times the limit`,
    failsBy: (part: number) =>
      `fails by ${new Intl.NumberFormat(undefined, { style: "percent", maximumSignificantDigits: 3 }).format(part)}`,
    whole: "Whole budget",
    goTo: (cell: string) => `Go to ${cell}`,
    goToFor: (cell: string, item: string) =>
      item === "" ? `Go to ${cell}` : `Go to ${cell}, ${item}`,
    reading: "Reading the workbook …",
    unreadable: (why: string) => `The workbook could not be read: ${why}`,
    again: "Try again",
    accept: "Accept …",
    acceptFor: (item: string) => `Accept ${item} …`,
    reason: (what: string) => `${what}: reason, for the reviewer`,
    by: "Accepted by (optional)",
    acceptNow: "Accept with this reason",
    leave: "Cancel",
    needsReason: "Give a reason: it stays in the workbook and in the report.",
    acceptedHeading: (number: number) => `${count(number, "warning")} accepted with a reason`,
    acceptedBy: (by: string, on: Date) => `${by === "" ? "" : `${by}, `}on ${isoDate(on)}`,
    because: (reason: string, accepted: string) => `Accepted because: ${reason} (${accepted})`,
    lapsed: (reason: string, accepted: string) =>
      `Was accepted because: ${reason} (${accepted}). The check finds something else now: review it.`,
    withdraw: "Withdraw acceptance",
    withdrawFor: (item: string) => `Withdraw the acceptance of ${item}`,
    acceptedFull: (sheet: string) =>
      `The table of accepted warnings on ${sheet} is full: clear one of its rows first.`,
    noPlaceForAcceptance: (stem: string) =>
      `This budget has no place to keep a reason: the name ${stem}_Accepted is missing. Insert the budget again.`,
  },
} as const;
