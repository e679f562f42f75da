/**
 * What the number or the spill of each function is: for its help page and the pane. It stands beside the documents, not in
 * the entries, which load with every workbook.
 */
export const RESULTS: Readonly<Record<string, string>> = {
  CONDUCTOR_AREA: "metal area",
  CONDUCTOR_RESISTANCE: "resistance of the loop",
  CONDUCTOR_DROP: "voltage drop of the loop",
  CONDUCTOR_DROP_DISTRIBUTED: "drop below the voltage of the near end",
  CONDUCTOR_LOSS: "power lost in the conductors",
  CONDUCTOR_MASS: "mass of the run",
  CONDUCTOR_SIZE: "smallest standard size, its drop, its loss",
  CONDUCTOR_WITHSTAND_TIME: "time withstood",
  CONDUCTOR_ECONOMIC_AREA: "economic area of one core",
  CONDUCTOR_TEMPERATURE: "conductor temperature",
  CONDUCTOR_AMPACITY: "current of one core",
  CONDUCTOR_INDUCTANCE: "inductance of the pair",
  CONDUCTOR_CAPACITANCE: "capacitance of the pair",
  CONDUCTOR_BUSBAR_AREA: "metal area",
  CONDUCTOR_TRACE_CURRENT: "current",
  SUPPLY_VOLTAGE: "voltage at the load",
  SUPPLY_LIMIT: "most power that arrives",
  SUPPLY_BATTERY: "voltage of the battery",
  SUPPLY_RECTIFIED: "peak at the high line",
  RATIO_OUTPUT: "output voltage",
  RATIO_INPUT_CURRENT: "input current",
  RATIO_LOSS: "loss of the stage",
  RATIO_CHOICES:
    "one row for each ratio that fits: ratio, lowest V, highest V, lower margin, upper margin",
  RATIO_REFLECTED: "the same quantity seen from the output",
  STAGE_FIT: "fixed, linear and quadratic loss, worst misfit of efficiency",
  STAGE_LOSS: "loss of the stage",
  STAGE_EFFICIENCY: "efficiency",
  STAGE_PEAK: "current, efficiency",
  STAGE_DERATED: "power allowed",
  CHAIN_TABLE:
    "73 columns: Item, Fed from, Kind, figures of one item, Location, Block, Row, Basis, Note; Mass and Price of the whole row",
  CHAIN_EFFICIENCY: "efficiency of the chain",
  CHAIN_SOLVE:
    "Item, Input V, Input A, Input W, Output V, Output A, Output W, Loss W, Efficiency, Share of losses, Loading, Note",
  CHAIN_TOTAL: "the quantity asked for",
  CHAIN_HEADROOM: "multiple at collapse, item there, multiple at the first limit, item there",
  CHAIN_WORST:
    "Item, Lowest input V, Highest input V, Highest input A, Highest loss W, Loading, Least margin, Where it happens, Note",
  CHAIN_CASES:
    "Case, Supply W, Load W, Loss W, Efficiency, Least margin, Least margin at, Highest loading, Highest loading at, Closing error W, Note",
  CHAIN_PROOF:
    "Fed by, Proof, Least pivot S, Least pivot at, Part left, Carries times, Collapses at, Note",
  CHAIN_OUTAGE:
    "Out, Dark, Dark loads, Lowest V, Lowest V at, Fall, Least margin, Least margin at, Highest loading, Highest loading at, Note",
  CHAIN_CIRCULATING: "Item, Current A, Loss W, Flows, Highest supply",
  CHAIN_TORNADO: "Input, Unit, Low, High, Low gives, High gives, Swing, Slope, Slope unit, Note",
  CHAIN_UNCERTAINTY: "Figure, Value, Unit, Note, From, To, Share of samples",
  CHAIN_SHARES: "Input, Alone, With others, Note",
  CHAIN_BANDS:
    "Item, In service V, After one fault V, Band in service, Band after one fault, Limit V, Margin in service, Margin after one fault, Which fault, Isolation to the supply, Note",
  CHAIN_SCHEDULE:
    "List, Item, Fed from, Location, In parallel, Length (m), Cores, Size, Material, Build, Type, Highest A, Rated A, Highest drop V, Highest loss W, Highest output W, Output per litre (W/l), Mass (kg), Volume (l), Price, Basis, Note",
  CHAIN_CHECKS:
    "Item, Check, Worst in, Found, Asked, Limit, Unit, Margin, Verdict, Weight, Cause, Column, Enter or try, Citation",
  CHAIN_COMPARE: "Item, Figure, A, B, Difference, Relative difference, Unit, Verdict",
  PARALLEL_SHARE: "current and share of each unit; last row bus voltage",
  PARALLEL_UNITS: "units",
  PARALLEL_WORST: "of the worst-placed unit",
  SAFETY_BAND: "band · limit · what it rests on",
  SAFETY_LIMIT: "limit of the band",
  SAFETY_AFTER_FAULT: "band after one fault · limit · what it rests on",
  SAFETY_WORST_VOLTAGE: "highest voltage at no load",
  SAFETY_DISCHARGE_TIME: "discharge time",
  SAFETY_STORED_ENERGY: "stored energy",
  FAULT_CURRENT: "fault current",
  FUSE_RATING: "fuse rating",
  PROTECTED_LENGTH: "length protected, one way",
  DISCONNECTION_TIME: "longest time to disconnection",
  HOLDUP_CAPACITANCE: "capacitance needed",
  HOLDUP_TIME: "hold-up time",
  PRECHARGE_RESISTANCE: "precharge resistance",
  PRECHARGE_ENERGY: "energy in the resistor",
  LOAD_STEP_SAG: "below the voltage before the step",
  STABILITY_MARGIN: "critical power ÷ load",
  ENERGY_LOSS: "energy lost",
  PRESENT_COST: "present cost",
  ENGINE_VERSION: "version",
};
