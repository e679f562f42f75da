/**
 * What each function calculates, in plain symbols: `ΔU = I · R`. For its help page and the pane's list; a function that is
 * not here has none. It stands beside the documents, not in the entries, which load with every workbook.
 */
export const RELATIONS: Readonly<Record<string, string>> = {
  CONDUCTOR_AREA: "A = π/4 · d², d = 0.127 mm · 92^((36 − n)/39)",
  CONDUCTOR_RESISTANCE: "R = R′₂₀ · n · L / m · (1 + α(θ − 20 °C))",
  CONDUCTOR_DROP: "ΔU = I · R",
  CONDUCTOR_DROP_DISTRIBUTED:
    "ΔU = R/L · (Ia·x − i·x²/2); Ia = i·L from one end, i·L/2 + (Ua − Ub)/R from both",
  CONDUCTOR_LOSS: "P = I² · R",
  CONDUCTOR_MASS: "M = n · m · A · L · γ + m′ · L",
  CONDUCTOR_SIZE: "smallest A with I · R(A) ≤ ΔU and I / m ≤ I₁(A)",
  CONDUCTOR_WITHSTAND_TIME: "t = k² · S² / I²",
  CONDUCTOR_ECONOMIC_AREA: "S = I · √(n · ρθ · h · p · PV / (1000 · A))",
  CONDUCTOR_TEMPERATURE: "n · I² · R(θ) + 0.9 · D · E = π · D · (h · ΔT + ε · σ · (Ts⁴ − Ta⁴))",
  CONDUCTOR_AMPACITY:
    "I = C_g · √((π · D · (h · ΔT + ε · σ · (Ts⁴ − Ta⁴)) − 0.9 · D · E) / (n · R(θ)))",
  CONDUCTOR_INDUCTANCE: "Lp = (µ₀/π) · L · (ln(D/a) + 1/4)",
  CONDUCTOR_CAPACITANCE: "Cp = π · ε₀ · εr · L / acosh(D/d)",
  CONDUCTOR_BUSBAR_AREA: "A = w · h",
  CONDUCTOR_TRACE_CURRENT: "I = k · Δθ^0.44 · A^0.725, A in square mils",
  SUPPLY_VOLTAGE: "V = V₀ · (1 + √(1 − 4 · R · P / V₀²)) / 2",
  SUPPLY_LIMIT: "Pmax = V₀² / (4 · R)",
  SUPPLY_BATTERY: "U = ns · (Uoc(z) − I / np · Rc)",
  SUPPLY_RECTIFIED: "Umax = √2 · Us · (1 + t)",
  RATIO_OUTPUT: "Vout = r · Vin − I · R",
  RATIO_INPUT_CURRENT: "Iin = r · I + P₀ / Vin",
  RATIO_LOSS: "P = P₀ + I² · R",
  RATIO_CHOICES: "lowest = U₁ · r · (1 − t) − I · R, highest = U₂ · r · (1 + t)",
  RATIO_REFLECTED: "R · r², L · r², C / r², U · r, I / r",
  STAGE_FIT: "least Σ (a + b · I + c · I² − P · (1/η − 1))², with I = P / V",
  STAGE_LOSS: "P = a + b · I + c · I²",
  STAGE_EFFICIENCY: "η = V · I / (V · I + a + b · I + c · I²)",
  STAGE_PEAK: "I = √(a / c)",
  STAGE_DERATED: "P = Pr · (θ₀ − θa) / (θ₀ − θ₁), from 0 to Pr",
  CHAIN_TABLE:
    "R = R′₂₀ · 2L/m · (1 + α(θ − 20 °C)), r = 1/N, P = n · x · (1 + margin), heater: R = Ur²/P",
  CHAIN_EFFICIENCY: "η = η₁ · η₂ · …",
  CHAIN_SOLVE: "every row's own equations; of two roots always the upper one",
  CHAIN_TOTAL: "P supply = Σ P load + Σ P loss",
  CHAIN_HEADROOM: "at collapse the smallest 1 + R · dI/dV over the rows is 0",
  CHAIN_WORST: "extremes over supply × loads × tolerances × one unit lost",
  CHAIN_CASES: "P supply = Σ P load + Σ P loss, nine times",
  CHAIN_PROOF: "pivots of Y + dI/dV all above 0: no operating point lies above",
  CHAIN_OUTAGE: "the feed without the row, solved",
  CHAIN_CIRCULATING: "I = ΔV / ΣR where two supplies meet",
  CHAIN_TORNADO:
    "y(x low), y(x high), each solved; slope dy/dx by one solution of the adjoint equations",
  CHAIN_UNCERTAINTY:
    "u² = Σ(y − ȳ)²/(N − 1); first order u² = Σ(S·T/√3)²; worst case Σ|S|·T; RSS √Σ(S·T)²",
  CHAIN_SHARES: "S = Var(E(y|x))/Var(y), ST = E(Var(y|all others))/Var(y)",
  CHAIN_BANDS:
    "in service: supply highest · Π r (1 + t), set point (1 + t); one fault joins the two sides of a stage that is not reinforced: max(Uin, Uout, Utrip), up and down to the next reinforced one",
  CHAIN_SCHEDULE: "volume = n · volume of one; W/l = highest output / volume",
  CHAIN_CHECKS:
    "margin of at most: (limit − found) ÷ limit, of at least: (found − limit) ÷ limit; spare = rated ÷ used − 1; loading = used ÷ rated",
  CHAIN_COMPARE: "difference = B − A; relative difference = (B − A) ÷ |A|",
  PARALLEL_SHARE: "Σ (Vₖ − V) / Rₖ = I(V), no term below 0 where reverse flow is blocked",
  PARALLEL_UNITS: "n ≥ 1 + (I − Ir) / ((Ir · R₁ − (V₁ − V₂)) / R₂)",
  PARALLEL_WORST:
    "(I + (n − 1) · (V₁ − V₂) / R₂) / (1 + (n − 1) · R₁ / R₂), at most I where reverse flow is blocked",
  SAFETY_BAND: "U ≤ limit; ES1 and ES2 with ripple: U/Udc + u/Uac ≤ 1",
  SAFETY_LIMIT: "as printed in the standard",
  SAFETY_AFTER_FAULT:
    "none, functional, basic: max(Uin, Uout, Utrip); reinforced: max(Uout, Utrip)",
  SAFETY_WORST_VOLTAGE: "U = Us · r · (1 + t)",
  SAFETY_DISCHARGE_TIME: "t = R · C · ln(U₀/U₁)",
  SAFETY_STORED_ENERGY: "W = ½ · C · U²",
  FAULT_CURRENT: "Ik = min(U / (Rs + Rl), Im), the greatest U / (Rs + Rl)",
  FUSE_RATING: "In ≥ k · I",
  PROTECTED_LENGTH: "L = (U / Ia − Rs) / R′",
  DISCONNECTION_TIME: "t of the row that U falls in",
  HOLDUP_CAPACITANCE: "C = 2 · P · t / (η · (U₀² − U₁²))",
  HOLDUP_TIME: "t = η · C · (U₀² − U₁²) / (2 · P)",
  PRECHARGE_RESISTANCE: "R = t / (C · ln(1 / (1 − f)))",
  PRECHARGE_ENERGY: "W = ½ · C · U² · (1 − (1 − f)²)",
  LOAD_STEP_SAG:
    "ΔU = ΔI·R + ΔI·(Z − R·r/Z)·e^(−ζθ/s), Z = √(L/C), b = r/Z, 2ζ = (R + r)/Z, s = √(1 − ζ²), tan(θ/2) = (1 − b)/(1 + b) · √((1 + ζ)/(1 − ζ)); the larger of ΔI·R and ΔI·r where ζ ≥ 1 or b ≥ 1; with bus V: L·i′ = V₀ − R·i − v, C·w′ = i − P/v, v = w + r·(i − P/v), followed from i = 0, w = V₀",
  STABILITY_MARGIN:
    "g = C(R + r)/(L + R·r·C), at most 1/R and 1/r; V = V₀/(1 + g·R), Pc = g·V², m = Pc/P",
  ENERGY_LOSS: "W = Σ P · t / 1000",
  PRESENT_COST: "K = W · p · (1 − ((1 + e)/(1 + i))ⁿ) / (i − e)",
};
