/** What every budget tells its reader before its numbers are used. Common practice. */
export const INVENTED = "All data invented for this example.";

export const CAUTIONS = [
  "Screening aid for engineers: it holds entered figures against published limits. It certifies nothing and replaces no risk assessment, type test or inspection.",
  "Law, local code, the authority having jurisdiction and the product standard of the equipment prevail over every figure here.",
  "Design, installation and work on live parts are for licensed and qualified people: isolate, lock, prove dead.",
  "Capacitors hold their charge after switching off: wait the computed discharge time, then verify by measurement before touching anything.",
] as const;

export const BOUNDS = [
  "A voltage below a limit does not mean that nothing can happen: wet or broken skin, large contact, children, implants and tight conductive places are outside a voltage limit.",
  "Burns and arcs come from current and stored energy, not from touch voltage: a low-voltage bus with hundreds of amperes behind it still needs covers and fuses.",
  "An arc on dc does not go out by itself at a current zero. Fuses, switches and connectors must be rated for dc at the highest voltage of the supply.",
  "Bands are estimates from entered voltages, tolerances and isolation, never a declaration. Unknown isolation counts as none, unknown place as wet, unknown tolerance as not determined.",
  "Other fields draw the line elsewhere: 15, 30, 42.4, 50, 60, 70, 75, 100 and 120 V dc are all in use. Ask which one governs before relying on a band.",
  "On a supply that floats from earth, a first earth fault lifts the sound pole to the full voltage; bands here take the full voltage between poles as the voltage to earth.",
  "Faults are computed between the poles only: the loop of a fault to earth through the protective conductor, and the second fault of a supply that floats from earth, are not.",
  "Limits are quoted from stated editions, some second-hand: read the current standard before a design decision.",
] as const;
