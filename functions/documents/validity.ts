/**
 * Where each function's answer holds, what is left out and when there is none: sentences for its help page. They stand
 * beside the pages that show them, not in the entries, which load with every workbook.
 */
import { BAND_MEANINGS } from "../../src/safety/band-meanings.js";

const VARIES =
  "Inputs are what the Tolerance of a row moves, the voltage of a supply within its window, and the rows of spread, each of which stands in place of what the feed table says of that figure. Each is taken as flat, anywhere between its two ends, unless spread says otherwise; those of one Group lie at the same place between theirs.";
const SAME_SAMPLES =
  "The samples are points of Sobol's sequence, scrambled by the seed: a sheet that calculates anew shows the same numbers.";
const NO_LIMIT =
  "Percentiles and shares bound nothing: voltage bands, windows, ratings and every other limit are judged by the extremes, in CHAIN_WORST, CHAIN_BANDS and CHAIN_CHECKS.";
const AT_CASE =
  "At nominal supply and loads where loads and supply are left out. A supply that is asked for at an end of its window, or at a voltage, stands there: its window does not vary it, a row of spread with a Tolerance does.";
const OWN_RESULTS =
  "mass and price are sums of what the table's Mass and Price hold, of each whole row, and the note names the items that have none. The conductor temperature of a cable is by the heat balance of its own size in still air, in the hottest air of its locations, at the current of the case; it changes no resistance of the feed.";
/** Errors of the current, with their signs, against tables and curves of the works cited, or from memory where it says so. */
const ERROR_SIGNS =
  "Current against published figures: two cores in one cable 7 to 24 % below tables (safe, from memory); one core alone 7 to 10 % above two that touch; a bare copper rod of 50 mm 11 % above the formula for bars; AWG 14 taken as solid, 200 °C in air of 50 °C, 5 % above a curve for aircraft wire, and as stranded tinned 5 % below; at 6096 m a factor of 0.93 against 0.91.";

export const VALIDITY: Readonly<Record<string, readonly string[]>> = {
  CONDUCTOR_AREA: [
    "A metric name gives its nominal area; a cable of that size may have less metal.",
    "AWG by ASTM B258, kcmil by definition.",
  ],
  CONDUCTOR_RESISTANCE: [
    "Resistance grows on a straight line with temperature, for about 100 K around 20 °C.",
    "Joints, terminals and skin effect are left out; the temperature is the conductor's own.",
  ],
  CONDUCTOR_DROP: [
    "Steady direct current. Joints and terminals are left out.",
    "Give the hottest conductor for the largest drop.",
  ],
  CONDUCTOR_DROP_DISTRIBUTED: [
    "The same current from every metre, whatever the voltage there: loads of constant power draw more where the voltage is low.",
    "Give the hottest conductor for the largest drop. Of a run fed from both ends the lowest voltage with one feed lost is that of a run fed from one end.",
    "A drop below 0: the voltage there is higher than at the near end.",
  ],
  CONDUCTOR_LOSS: [
    "Steady direct current; for a ripple give the rms current.",
    "Give the hottest conductor for the largest loss.",
  ],
  CONDUCTOR_MASS: [
    "Straight solid metal: stranding and lay add about 2 %.",
    "Materials given by resistivity only have no density and are refused.",
  ],
  CONDUCTOR_SIZE: [
    "By drop and by the least that heat asks for: I₁ is what CONDUCTOR_AMPACITY gives for one core alone, 0.8 mm of PVC, air of 30 °C, and 70 °C or the given temperature where that is higher. A note tells which of the two decided.",
    "A group, a duct, hotter air, fault withstand and local code may ask for more. In water a core carries more than in air.",
    "Sizes that a class does not list are passed over. #N/A where the largest size drops too much.",
  ],
  CONDUCTOR_WITHSTAND_TIME: [
    "No heat leaves the conductor: true up to about 5 s, on the safe side beyond.",
    "Copper and aluminium only.",
  ],
  CONDUCTOR_ECONOMIC_AREA: [
    "By cost alone, with a price that grows in proportion to the area.",
    "Payments at year end; part of a year counts in proportion of the closed form.",
  ],
  CONDUCTOR_TEMPERATURE: [
    "One horizontal cable in still air; a cable on a drum, in a duct or in the sun behind glass is hotter.",
    ERROR_SIGNS,
    "Installation tables of the local code govern. #N/A where no temperature balances (thermal runaway).",
  ],
  CONDUCTOR_AMPACITY: [
    "The exact inverse of CONDUCTOR_TEMPERATURE, with its limits.",
    ERROR_SIGNS,
    "Installation tables of the local code govern: the conductor's current there, Iz, is at least the fuse's rating and its conventional current at most 1.45 Iz (IEC 60364-4-43, from memory).",
  ],
  CONDUCTOR_INDUCTANCE: [
    "Two round conductors alone and far from metal, flux within them counted as at dc.",
  ],
  CONDUCTOR_CAPACITANCE: [
    "Two round conductors in one dielectric that fills all space; insulation in air lies between its permittivity and 1.",
  ],
  CONDUCTOR_BUSBAR_AREA: ["Sharp corners: rounded ones take a little off."],
  CONDUCTOR_TRACE_CURRENT: [
    "Charts of IPC-2221 end at 35 A, 10 to 100 K and 10 mm of width; outside them a note says so.",
    "The outer curve errs to the unsafe side for a trace on a board without planes: a note says by how much. Planes cool a trace, neighbours warm it.",
  ],
  SUPPLY_VOLTAGE: [
    "One supply, one resistance, one load that holds its power. #N/A beyond V₀²/4R, where the voltage collapses.",
  ],
  SUPPLY_LIMIT: ["A limit, not a working point: there half of the power is lost."],
  SUPPLY_BATTERY: [
    "A curve of cells at rest and 25 °C with a point every 5 % of charge, ± 10 mV there. Between them it is read straight, up to 14 mV low from 5 % of charge on and up to 0.12 V low below.",
    "Slow polarisation, ageing of the curve and differences between cells are left out. Charges below 0 or above 1 are refused.",
    "For touch-voltage bands use the voltage at the end of charge.",
  ],
  SUPPLY_RECTIFIED: ["No load and no drop in the rectifier, without surges."],
  RATIO_OUTPUT: ["A stage without regulation, its output resistance constant and hot."],
  RATIO_INPUT_CURRENT: ["No-load power is drawn at the input at every load."],
  RATIO_LOSS: ["No-load power and output resistance only; other losses belong to STAGE_LOSS."],
  RATIO_CHOICES: [
    "Whole ratios up to 1000 either way; other ratios are built but not listed. #N/A where none fits, with the nearest.",
  ],
  RATIO_REFLECTED: ["Ideal stage: its own resistance, inductance and capacitance come on top."],
  STAGE_FIT: [
    "Holds between the least and the greatest load given, at their input voltage and temperature.",
    "Three different loads or more.",
  ],
  STAGE_LOSS: ["The three figures belong to one input voltage and temperature."],
  STAGE_EFFICIENCY: [
    "The three figures belong to one input voltage and temperature; not defined at no load.",
  ],
  STAGE_PEAK: [
    "#N/A without a fixed or without a quadratic loss: then the efficiency has no peak.",
  ],
  STAGE_DERATED: ["A straight line between two points, as datasheets draw it."],
  CHAIN_TABLE: [
    "A unit in a header's brackets converts; an unknown header or unit is refused with the nearest one; a column whose header begins with # is your own and not read.",
    "Resistance is at Conductor at most, or the usual limit of the insulation where that is empty; Least resistance at the coldest air of its locations. A loop that is typed holds for both.",
    "Rated A of a cable left empty is by its heat balance, in still air, where Outer diameter, Insulation, Size and the hottest air are given. Losses of a stage type win over its points, points over Efficiency.",
    "Light empty is no load, Peak empty is Nominal; anything else empty is not given. Where the spreadsheet hands empty cells over as 0, a 0 counts as empty: type none for no load and 0.001 for 0 °C.",
    "A row that cannot be keeps its place, with errors for its figures and the reason in Note; the rest is solved. A row that waits for a figure has – for its figures, the word enter in that column, and what to enter in Note.",
  ],
  CHAIN_EFFICIENCY: ["Holds where every stage works at the load its efficiency was given for."],
  CHAIN_SOLVE: [
    "Steady state of a tree: each item has one feed. Where loads hold their power the upper root is given, and proved.",
    "A row that is refused or whose tree collapses shows why in its Note; other trees still solve.",
  ],
  CHAIN_TOTAL: ["As CHAIN_SOLVE; one refused row refuses the total."],
  CHAIN_HEADROOM: [
    "All loads grow together; looked for up to 1 000 000 times.",
    "A voltage above a window is worst at no load and is found by CHAIN_WORST.",
  ],
  CHAIN_WORST: [
    "Each row has a corner of its own, which is proved to be the worst where the signs of all slopes are certain; where they are not, its note says: not proven, and how many cases were tried.",
    "The highest voltage is that without any drop, with stages off. Units in parallel are counted as sharing evenly, with a note; PARALLEL_WORST gives the worst-placed one.",
    "A tolerance that is not given is taken as none and said so. #N/A where a case collapses.",
  ],
  CHAIN_CASES: [
    "As CHAIN_SOLVE. One refused row, or one tree that collapses, refuses its case; its Note says why, and the other cases are solved.",
    "A supply without Lowest V or Highest V has no such case. Peak where no peak is given is nominal.",
    "Tolerances and lost units are not in it: CHAIN_WORST counts them.",
  ],
  CHAIN_PROOF: [
    "A bus is fed from several items, named in Fed from and parted by ;. A tie joins the outputs of two. Reverse flow is blocked in stages and where a row has a forward drop, unless the column says otherwise.",
    "Upper means: no operating point has a higher voltage anywhere, and the feed reaches this one from no load. Losses of a stage between several supplies that grow with its current are solved and not proven.",
    "Where rows block reverse flow the proof holds for them as they conduct at the answer; another state of theirs, with a point of its own, is not ruled out. With power given back it is said of the voltages at or above those without it.",
    "It is a proof of these equations. Control loops, start-up and faults are not in them.",
  ],
  CHAIN_OUTAGE: [
    "The row is open at both ends; what hangs on its output goes on where a bus or a tie feeds it another way. A stage that has lost its input gives nothing. The change itself, arcs and the time until a blocked way takes over are not in it.",
    "Dark counts loads. A feed that has no operating point without the row says so in its Note.",
    "One row at a time; two at once, and the fault that takes it out, are not tried.",
  ],
  CHAIN_CIRCULATING: [
    "A supply without Lowest V or Highest V stands at its Voltage. Items that are fed from several, or tied, alone can carry anything: on a plain tree nothing circulates.",
    "Whether a supply may take current back is for its maker to say.",
  ],
  CHAIN_TORNADO: [
    "One input at a time is moved, those of one Group together, and the rest stay as entered: what two inputs do together is not in it.",
    "Below what varies stand the other figures that were entered and move the result, each with its slope: first the one of which a hundredth moves it most. Length, size, cores and number in parallel are no figures of this list: they stand in Resistance, Mass and Price.",
    "Inputs are what the Tolerance of a row moves, the voltage of a supply within its window, and the rows of spread, each of which stands in place of what the feed table says of that figure. A row of spread without a Tolerance takes that of the table.",
    AT_CASE,
    "Swing is from the least to the greatest of Low gives, High gives and the result as entered.",
    "Low gives and High gives are solved, the slope is that of the feed as entered, and a straight line along it only meets them near by.",
    OWN_RESULTS,
    "Low, High and the slope are in SI units of the figure; where one Tolerance moves several figures, of their common factor. An end without an operating point has no number, and stands first.",
  ],
  CHAIN_UNCERTAINTY: [
    VARIES,
    NO_LIMIT,
    SAME_SAMPLES,
    AT_CASE,
    OWN_RESULTS,
    "Samples without an operating point are counted, and are in no other figure.",
    "The root of the sum of squares assumes independent, centred inputs and a result in proportion to them; the worst case beside it assumes the last only. The extremes are solved at every corner of up to 12 inputs or groups, else at the two to which the sensitivities point.",
  ],
  CHAIN_SHARES: [
    VARIES,
    NO_LIMIT,
    SAME_SAMPLES,
    AT_CASE,
    OWN_RESULTS,
    "An estimate: of an input that brings next to nothing the share alone may lie a little below 0. What is left is what inputs do together only, and the error of the estimate.",
  ],
  CHAIN_BANDS: [
    "No load, no drop, stages idle: a limit has to hold at every load. One fault at a time, of one stage: its insulation or its regulation; the supply's highest voltage is to include the supply's own faults.",
    "Isolation that is not given counts as none, a place that is not given as wet. What cannot be said is not determined, and the Note says what to enter.",
    "Ripple is that of the nearest supply or stage: Ripple V rms and Ripple V peak at its output at full load. A ratio stage without a figure passes that of its input on in its ratio.",
    "Pole to pole is taken as pole to earth. A screening aid: product standard and local code prevail.",
    ...BAND_MEANINGS.values(),
  ],
  CHAIN_SCHEDULE: [
    "Current, rated current, loss and output are those of the whole row, all items in parallel together. Each is the highest of the nine cases of CHAIN_CASES, tolerances not counted; a case without an answer is passed over, and the Note says why.",
    "Mass and price are as the table has them, of the whole row. The sums of a list are left to the sheet.",
    "Supplies, contacts and loads are in neither list.",
  ],
  CHAIN_CHECKS: [
    "Worst of light, nominal and peak loads, the supply's window, every tolerance, and one unit lost where fewer units are needed than there are or Units lost is 1. Worst in says which, and where no proof was found how many cases were tried.",
    "A check that lacks a figure is not determined and says what to enter; one whose requirement is empty says so, and fails all the same where the item's own window or rating is left. Failed checks name the smallest change of one figure with which they hold in every case, where one is found; where Worst in says not proven, in the cases that are tried. Beyond a hundred failed checks of one supply no change is sought, and the row says so.",
    "Loss at one location, efficiency and start are of the nine cases, without tolerances; headroom is of the lowest supply. Faults are between the poles, with the supply's resistance as entered; capacitors and earth faults are not counted.",
    "Product standards, the local code and licensed practice prevail.",
  ],
  CHAIN_COMPARE: [
    "Figures of the whole feed are the worst of the nine cases of CHAIN_CASES that are solved; where A and B solve other cases, their verdict and that of the counts of checks is not determined. Mass and price are added up as CHAIN_CHECKS does; their verdict is not determined while one is missing.",
    "Figures of items are those of CHAIN_SOLVE at loads and supply. Items are lined up by name: one that was renamed is only in A, and only in B.",
    "Better and worse are said of losses, efficiency, margins, loadings, mass, price and counts. Which voltage, current or supply power is better depends on what is wanted: they differ.",
    "Checks stand there where CHAIN_CHECKS judges them otherwise; of those that only one version has, the ones that fail or are not determined.",
    "A comparison approves neither version: what both fail is no row of it.",
  ],
  PARALLEL_SHARE: [
    "Resistive sharing without control loops or current limits; the drop of blocking diodes belongs into the set voltages.",
  ],
  PARALLEL_UNITS: [
    "Load of constant current; reverse flow blocked. #N/A where the mismatch alone drives a unit to its rating, and where no voltage is left on the bus.",
    "With as many units lost as are spare, the worst-placed of the rest stays within its rating.",
  ],
  PARALLEL_WORST: [
    "Load of constant current; the mismatches are ± parts, so two units may differ by twice as much.",
    "Worst with the least output resistance, cold: what units differ by then drives more current between them.",
    "Reverse flow allowed: a note says the most that a unit is fed, which it has to stand.",
    "Reverse flow allowed: where the worst-placed unit feeds the others backwards, their resistance too is taken as the lowest, R₁ for R₂, which is worse.",
  ],
  SAFETY_BAND: [
    "Compares a voltage with published limits; it certifies nothing. The product standard and the local code prevail.",
    ...BAND_MEANINGS.values(),
  ],
  SAFETY_LIMIT: [
    "#N/A for a band that has no upper limit. Editions differ: the citation names the one used.",
    ...BAND_MEANINGS.values(),
  ],
  SAFETY_AFTER_FAULT: [
    "One fault at a time, in the stage named: its insulation or its regulation. What the isolation really is, a type test decides.",
    "A fault of a step-up without reinforced isolation also puts its output on its input, and on all that shares that input.",
  ],
  SAFETY_WORST_VOLTAGE: [
    "Fixed ratios, no load; surges and regeneration are not in it unless the supply's highest voltage has them.",
  ],
  SAFETY_DISCHARGE_TIME: [
    "One capacitance and one resistor; voltage may return. Verify by measurement.",
  ],
  SAFETY_STORED_ENERGY: [
    "All capacitance on the node, at the top of its tolerance.",
    "Notes name the published energy limits that are crossed; a value without a note is not thereby harmless.",
  ],
  FAULT_CURRENT: [
    "Steady: capacitors discharge into the fault before it and are not counted, and inductance slows it.",
    "A fault between the poles. A fault to earth and a second fault of a supply that is not earthed have other loops.",
    "Two questions, two cases: a fuse must clear the least current and break the greatest. Voltage and resistances are taken as given, so each case asks for its own.",
  ],
  FUSE_RATING: [
    "A rating, not a selection: dc voltage rating, breaking capacity, time curve and ambient remain to be checked.",
    "#N/A above the series.",
  ],
  PROTECTED_LENGTH: [
    "A bolted short circuit at the far end; an arc draws less. #N/A where no length is protected.",
  ],
  DISCONNECTION_TIME: [
    "From memory: check the time against the standard and the local code before use.",
    "The time only. The loop of a fault to earth through the protective conductor, and the second fault of a supply that is not earthed, are not computed here or anywhere in this project.",
    "#N/A up to 120 V, where no disconnection is asked for against shock; heat may ask for it.",
  ],
  HOLDUP_CAPACITANCE: [
    "A load that holds its power; the capacitance at its lowest tolerance, age and temperature is what counts.",
  ],
  HOLDUP_TIME: [
    "A load that holds its power; the capacitance at its lowest tolerance, age and temperature is what counts.",
  ],
  PRECHARGE_RESISTANCE: [
    "No load may draw while precharging; capacitance behind a ratio counts × ratio².",
  ],
  PRECHARGE_ENERGY: [
    "No load may draw while precharging; the resistor must stand this energy as a pulse.",
  ],
  LOAD_STEP_SAG: [
    "Without bus V a linear circuit and a step of current. A load that holds its power sags further, and can collapse the bus where STABILITY_MARGIN is below about 1.5, more with a capacitor of much series resistance: give bus V.",
    "With bus V an ideal load that holds its power is switched on at once, beside loads of constant current only. #N/A where it collapses the bus.",
    "All elements referred to the same side. Resistance and capacitor series resistance are worst at either end: try both.",
  ],
  STABILITY_MARGIN: [
    "An ideal load of constant power: a real one's finite bandwidth helps. All elements referred to the same side.",
    "Small disturbances only. A large step can collapse the bus at a margin above 1: below about 1.2 without series resistance of the capacitor, 1.6 with half of √(L/C), more beyond. A note says whether all of the load at once does; LOAD_STEP_SAG with bus V gives the sag. A margin of two and more is common practice.",
    "Damping is worst where resistances are least, collapse where they are greatest: try both ends.",
  ],
  ENERGY_LOSS: ["Each loss is constant over its hours."],
  PRESENT_COST: [
    "Payments at year end; the same energy every year.",
    "Years need not be whole: between whole years the closed form goes on smoothly.",
  ],
  ENGINE_VERSION: ["The version of the functions, not of the pane."],
};
