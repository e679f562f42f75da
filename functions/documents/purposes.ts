/**
 * What each function is for, in one line of at most 255 characters: for the spreadsheet's list, the help pages and the pane.
 * It stands beside the documents, not in the entries, which load with every workbook.
 */
export const PURPOSES: Readonly<Record<string, string>> = {
  CONDUCTOR_AREA:
    "Metal area of one conductor, from its size: a number of mm², an AWG or kcmil name, or a metric size (then the nominal area).",
  CONDUCTOR_RESISTANCE:
    "Resistance of a run of conductor out and back, at the temperature of the conductor.",
  CONDUCTOR_DROP:
    "Voltage drop of a run of conductor out and back, at the temperature of the conductor.",
  CONDUCTOR_DROP_DISTRIBUTED:
    "Voltage drop of a run along which a current is drawn evenly, fed from one end or from both: where the voltage is lowest, or at a place.",
  CONDUCTOR_LOSS:
    "Power that a run of conductor out and back turns into heat, at the temperature of the conductor.",
  CONDUCTOR_MASS:
    "Mass of a run of conductor: metal of all its cores, and whatever else a metre of route weighs.",
  CONDUCTOR_SIZE:
    "The smallest standard size whose drop stays within a limit and that carries its current alone in free air, with its drop and loss.",
  CONDUCTOR_WITHSTAND_TIME:
    "How long a conductor stands a fault current before it reaches a temperature, if no heat leaves it meanwhile.",
  CONDUCTOR_ECONOMIC_AREA:
    "Area of one core at which the price of the cable and the present cost of what it loses are least together (Kelvin's law).",
  CONDUCTOR_TEMPERATURE:
    "Temperature that the conductor of a cable settles at in still air, by convection and radiation from its surface and conduction through its insulation; #N/A where it runs away.",
  CONDUCTOR_AMPACITY:
    "Current that brings the conductor of a cable in still air to a temperature: the inverse of CONDUCTOR_TEMPERATURE. The installation tables of the local code govern.",
  CONDUCTOR_INDUCTANCE:
    "Inductance of a pair of round conductors, out and back, with the flux within them counted.",
  CONDUCTOR_CAPACITANCE: "Capacitance of a pair of round conductors in one dielectric, exact.",
  CONDUCTOR_BUSBAR_AREA: "Metal area of a flat bar, to use as the size of the other functions.",
  CONDUCTOR_TRACE_CURRENT:
    "Current of a printed-board trace for a rise of its temperature, by the curve fit of IPC-2221.",
  SUPPLY_VOLTAGE:
    "Voltage at a load that holds its power, behind a resistance: the upper of the two roots, where such a load is served.",
  SUPPLY_LIMIT:
    "The most power that can arrive behind a resistance, at half the open-circuit voltage; beyond it the voltage collapses.",
  SUPPLY_BATTERY:
    "Voltage of a battery from its state of charge and current: an open-circuit curve of its chemistry less the drop in its cells.",
  SUPPLY_RECTIFIED:
    "The dc that a rectified line reaches: its peak at the high end of its tolerance, with no load. A tolerance that is not given is refused.",
  RATIO_OUTPUT:
    "Output voltage of a fixed-ratio stage: the ratio of its input, less the droop of its output resistance at the load.",
  RATIO_INPUT_CURRENT:
    "Input current of a fixed-ratio stage: the output current times the ratio, plus what the stage draws at no load (needs input V and no-load W, or neither).",
  RATIO_LOSS:
    "Loss of a fixed-ratio stage: what it draws at no load plus what its output resistance turns into heat.",
  RATIO_CHOICES:
    "Whole-number ratios that bring all of an input range into a load's window: for each the ratio, its lowest and highest output, and the margin to either end of the window.",
  RATIO_REFLECTED:
    "A quantity of a fixed-ratio stage's input side as it is seen from its output; with 1 ÷ ratio, from the output back to the input.",
  STAGE_FIT:
    "Loss polynomial of a stage from a datasheet's points of load and efficiency: fixed, linear and quadratic loss, none negative, and the worst misfit of efficiency.",
  STAGE_LOSS:
    "Loss of a converter stage as a polynomial of its output current: fixed, linear and quadratic part.",
  STAGE_EFFICIENCY:
    "Efficiency of a converter stage at an output current, from its loss polynomial.",
  STAGE_PEAK:
    "Output current at which a stage is most efficient, where its fixed and quadratic losses are equal, and the efficiency there.",
  STAGE_DERATED:
    "Power that a stage may give in warm surroundings: its rating up to a knee, then on a straight line down to none.",
  CHAIN_TABLE:
    "The feed table of the blocks of a schedule: each item with its resistance, rating, losses, loads with margin, mass and price worked out, in feeding order. The other CHAIN functions read it.",
  CHAIN_EFFICIENCY:
    "Efficiency of stages in a row: the product of all efficiencies given. Blank cells in a range are passed over; 0 is refused.",
  CHAIN_SOLVE:
    "Solves a feed table: voltage, current, power and loss of every row at the chosen loads and supply voltage, with a note for every doubt. Spills a header and one row for each item.",
  CHAIN_TOTAL:
    "One number over a whole feed table: supply power, load power, loss, efficiency, the least margin to a window, or the closing error (supply power less loads and losses).",
  CHAIN_HEADROOM:
    "How far all loads can grow together: multiple at which the voltage collapses, the item where it does, multiple at which the first item falls below its window or exceeds its rating, and that item.",
  CHAIN_WORST:
    "The worst each row of a feed table sees: supply lowest to highest, loads light, nominal or peak and any of them less or off, every tolerance within its ends, and with units lost 1 also one unit fewer on each row with several in parallel.",
  CHAIN_CASES:
    "A feed table at its nine operating points: supply lowest, nominal and highest, loads light, nominal and peak. Powers, efficiency, least margin to a window and highest loading, each with the item that has it, and the closing error.",
  CHAIN_PROOF:
    "What proves the operating point of a feed table: for each supply, or supplies that feed together, whether it is the upper one, the least pivot of its equations, how much of it the loads leave, and the multiple of the loads that collapses.",
  CHAIN_OUTAGE:
    "What each outage leaves of a feed table: every supply, line, stage and tie opened in turn. Loads that are dark, the load whose voltage falls most, the least margin to a window and the highest loading, each with its item.",
  CHAIN_CIRCULATING:
    "What flows between the supplies of a feed table while nothing draws, each in turn at the top of its window and all others at the bottom of theirs: the most that each item carries then, and what it loses.",
  CHAIN_TORNADO:
    "Which inputs matter: a result of a feed table with each input that may vary at its low and at its high end, the others as entered. Widest swing first; below the headers the result as entered.",
  CHAIN_UNCERTAINTY:
    "How far a result of a feed table spreads over its tolerances: mean, standard uncertainty, percentiles, extremes within the tolerances, and beside them the root of the sum of squares. On the right the samples in classes.",
  CHAIN_SHARES:
    "Which inputs make a result of a feed table spread: the part of its variance that each input or group brings alone, and in all that it does with others. Greatest first; what is left of 1 below.",
  CHAIN_BANDS:
    "The highest voltage of every item of a feed table in service and after one fault of any stage, and how it stands to the band that people may touch. A comparison with published limits; it approves nothing.",
  CHAIN_SCHEDULE:
    "Cables and stages of a feed table as a proposal lists them: what they are, and the highest current, drop, loss and output that each has in the nine cases; of stages also watts per litre; mass, volume and price.",
  CHAIN_CHECKS:
    "Every check of a feed table in every case, against what is asked for: what is found in the worst case, its limit, whether it holds, and what to enter or to change. A screening aid; it approves nothing.",
  CHAIN_COMPARE:
    "Two versions of a feed side by side: figures of the whole feed over nine cases, of each item in one case, and the checks that are judged otherwise; differences B − A with a word for each. It judges nothing itself.",
  PARALLEL_SHARE:
    "How units side by side on one bus share its load: current and share of each, and in the last row the bus voltage.",
  PARALLEL_UNITS:
    "Like units that a load needs so that the worst-placed one stays within its rating; with spare units, so many may be lost.",
  PARALLEL_WORST:
    "Current of the worst-placed of like units in parallel: its voltage highest and its resistance lowest, all others the opposite.",
  SAFETY_BAND:
    "The touch-voltage band of a voltage and its limit, as text that begins with the band. A comparison with published limits; it approves nothing.",
  SAFETY_LIMIT:
    "The highest voltage of a touch-voltage band; not available for a band without a limit.",
  SAFETY_AFTER_FAULT:
    "The touch-voltage band of a stage's output after one fault in that stage, as text that begins with the band; not determined for a step-up without a trip. It approves nothing.",
  SAFETY_WORST_VOLTAGE:
    "The highest voltage behind fixed ratios at no load: supply highest × ratio × (1 + tolerance). A tolerance that is not given is refused.",
  SAFETY_DISCHARGE_TIME:
    "How long a capacitance takes to fall from one voltage to another through a discharge resistor. Wait, then verify by measurement.",
  SAFETY_STORED_ENERGY: "Energy that a capacitance holds at a voltage.",
  FAULT_CURRENT:
    "Steady current of a short circuit: the voltage over all resistance up to the fault, or the supply's current limit if that is smaller; of the greatest, without that limit.",
  FUSE_RATING:
    "The next standard fuse rating at or above the load current times a factor. Its dc voltage rating must cover the supply's highest voltage.",
  PROTECTED_LENGTH:
    "Length of run, one way, at which a short circuit at its far end still draws the current that clears the fuse in the time wanted.",
  DISCONNECTION_TIME:
    "Longest time in which IEC 60364-4-41 asks for a fault to earth in a dc circuit to be disconnected, by voltage and kind of circuit. Figures from memory.",
  HOLDUP_CAPACITANCE:
    "Capacitance that feeds a load of constant power for a time, from one voltage down to another.",
  HOLDUP_TIME:
    "How long a capacitance feeds a load of constant power, from one voltage down to another.",
  PRECHARGE_RESISTANCE:
    "Resistance that charges a capacitance to a part of the supply's voltage in a time, with no load meanwhile.",
  PRECHARGE_ENERGY:
    "Energy that the precharge resistor turns into heat while a capacitance is charged, whatever its resistance.",
  LOAD_STEP_SAG:
    "How far the voltage sags at its deepest when the load current steps up, the static drop included; with bus V for a load that holds its power, #N/A where it collapses the bus.",
  STABILITY_MARGIN:
    "Critical constant power over the load's: above 1 small disturbances of a bus behind a line, with a capacitor on it, die out; a large step can still collapse it below about 1.5.",
  ENERGY_LOSS: "Energy lost over a load profile: each loss times the hours that it lasts.",
  PRESENT_COST:
    "Present cost of energy bought every year for some years, paid at year end, at a discount rate.",
  ENGINE_VERSION: "The version of Downfeed that calculates this workbook, as text.",
};
