/** A work that a figure or a formula comes from, and whether somebody working on this project saw the figure in it. */
export interface Citation {
  readonly work: string;
  /** Where in the work: table, clause, example, equation or page. */
  readonly locator: string;
  /**
   * `seen`: the figure was read in the work. `seen second-hand`: read on a page that reproduces it.
   * `from memory`: check it against the work before relying on it.
   */
  readonly standing: "seen" | "seen second-hand" | "from memory" | "common practice, no source";
}

export const citations = {
  "nbs-copper": {
    work: "National Bureau of Standards, Handbook 100, Copper Wire Tables (1966)",
    locator: "annealed copper at 20 °C: 0.15328 Ω·g/m², 8.89 g/cm³, 0.017241 Ω·mm²/m",
    standing: "seen second-hand",
  },
  "copper-coefficient": {
    work: "Industrial Power Engineering and Applications Handbook",
    locator: "Table 30.1: annealed copper 0.00393 per K at 20 °C",
    standing: "seen",
  },
  "hard-copper": {
    work: "Handbooks: hard-drawn copper of 97 % IACS",
    locator:
      "0.01777 Ω·mm²/m, 0.00381 per K at 20 °C; ASTM B1 lets thin wire have 96.16 % IACS, 0.9 % more resistance (IEC 60028 is about annealed copper only)",
    standing: "from memory",
  },
  "iec-60889": {
    work: "IEC 60889, hard-drawn aluminium wire for conductors",
    locator: "28.264 nΩ·m (61 % IACS), 0.00403 per K at 20 °C",
    standing: "seen second-hand",
  },
  "cca-table": {
    work: "Copper-clad aluminium wire table, mwswire.com",
    locator: "least conductivity 62.9 % (10 % copper by volume) and 64.4 % IACS (15 %)",
    standing: "seen",
  },
  "linear-temperature": {
    work: "OpenStax, College Physics 2e, Resistance and Resistivity",
    locator: "R = R₀(1 + αΔT), for changes of about 100 °C or less",
    standing: "seen",
  },
  "resistance-law": {
    work: "OpenStax, College Physics 2e, Resistance and Resistivity",
    locator: "R = ρL/A",
    standing: "seen",
  },
  "astm-b258": {
    work: "ASTM B258, Standard Nominal Diameters and Cross-Sectional Areas of AWG Sizes of Solid Round Wires",
    locator: "0.005 in at 36 AWG, 0.4600 in at 4/0, 39 equal ratios between",
    standing: "seen second-hand",
  },
  "nec-table-8": {
    work: "NFPA 70, National Electrical Code, Chapter 9 Table 8",
    locator: "stranded conductors 2 % above solid ones",
    standing: "seen second-hand",
  },
  "faa-wire-table": {
    work: "FAA Advisory Circular 43.13-1B, CHG 1 (2001), Acceptable Methods, Techniques, and Practices",
    locator:
      "Table 11-9, page 11-23: greatest resistance of tin-plated copper wire at 20 °C, AWG 24 to 4/0, in Ω per 1000 ft",
    standing: "seen",
  },
  "iec-60228": {
    work: "IEC 60228:2004, Conductors of insulated cables",
    locator:
      "greatest resistance of conductors at 20 °C, tables of classes 1, 2 and 5; an edition of 2023 is said to replace it (from memory, its tables not compared)",
    standing: "seen second-hand",
  },
  "iec-60228-memory": {
    work: "IEC 60228:2004, Conductors of insulated cables",
    locator: "rows typed from memory: class 5 below 1 mm², aluminium class 2 above 300 mm²",
    standing: "from memory",
  },
  "ohm-joule": {
    work: "OpenStax, College Physics 2e, Ohm's Law; Electric Power and Energy",
    locator: "V = IR, P = IV = I²R",
    standing: "seen",
  },
  "spread-load": {
    work: "V. K. Mehta and R. Mehta, Principles of Power System; B. L. Theraja, A Textbook of Electrical Technology, vol. III",
    locator:
      "uniformly loaded distributors fed from one end and from both, examples 13.5 to 13.16 and 40.2, as a volunteer's published notebooks work them",
    standing: "seen second-hand",
  },
  "two-roots": {
    work: "A. Garces, Uniqueness of the power flow solutions in low voltage direct current grids, EPSR 151 (2017)",
    locator: "constant-power loads: V² − V₀V + RP = 0 has two roots, service is at the upper one",
    standing: "from memory",
  },
  kirchhoff: {
    work: "OpenStax, College Physics 2e, Kirchhoff's Rules",
    locator: "the sum of all currents entering a junction is the sum of all that leave it",
    standing: "from memory",
  },
  "taheri-kekatos": {
    work: "S. Taheri, V. Kekatos, Power Flow Solvers for Direct Current Networks, IEEE Transactions on Smart Grid (2019), arXiv 1807.03936",
    locator: "abstract: converges to the high-voltage solution if there is one",
    standing: "seen",
  },
  jeeninga: {
    work: "M. Jeeninga, C. De Persis, A. van der Schaft, DC power grids with constant-power loads, arXiv 2010.01076 and 2011.09333",
    locator: "abstracts: for demands of 0 or more, one strict high-voltage solution",
    standing: "seen",
  },
  "ldl-factorisation": {
    work: "G. H. Golub, C. F. Van Loan, Matrix Computations",
    locator: "4.1: L·D·Lᵀ; pivots all above 0 where the matrix is positive definite",
    standing: "from memory",
  },
  "monotone-newton": {
    work: "J. M. Ortega and W. C. Rheinboldt, Iterative Solution of Nonlinear Equations in Several Variables (1970)",
    locator: "13.3, monotone Newton iteration for order-convex functions",
    standing: "from memory",
  },
  "adjoint-network": {
    work: "S. W. Director and R. A. Rohrer, The generalized adjoint network and network sensitivities, IEEE Transactions on Circuit Theory 16 (1969)",
    locator:
      "pp. 318–323: all sensitivities of one result from one solution of the adjoint network",
    standing: "from memory",
  },
  "ratio-circuit": {
    work: "R. W. Erickson and D. Maksimović, Fundamentals of Power Electronics, 3rd ed.",
    locator: "chapter 3: the dc transformer with series resistance",
    standing: "seen",
  },
  "loss-quadratic": {
    work: "J. Beerten, D. Van Hertem and R. Belmans, converter losses a + bI + cI² (MatACDC)",
    locator: "loss polynomial of the converter model",
    standing: "seen second-hand",
  },
  "peak-efficiency": {
    work: "J. Bird, Electrical Circuit Theory and Technology",
    locator:
      "examples 20.16 to 20.19: greatest efficiency where fixed and quadratic loss are equal",
    standing: "seen second-hand",
  },
  "parallel-generators": {
    work: "I. L. Kosow, Electric Machinery and Transformers",
    locator: "chapter 7, example 7-3: units behind their resistances on one bus",
    standing: "seen second-hand",
  },
  "iec-62368-1": {
    work: "IEC 62368-1:2018, Audio/video, information and communication technology equipment, Safety",
    locator:
      "5.2.2.2 Table 4: ES1 60 V dc or 30 V ac rms (42.4 V peak), ES2 120 V dc or 50 V ac rms; a fourth edition (2023) is out, not compared",
    standing: "seen second-hand",
  },
  "iec-62368-1-sum": {
    work: "IEC 62368-1:2018",
    locator: "Table 4: U dc/60 + U ac rms/30 ≤ 1 and U dc/60 + U ac peak/42.4 ≤ 1",
    standing: "seen second-hand",
  },
  "iec-62368-1-faults": {
    work: "IEC 62368-1:2018",
    locator: "5.2.1.1: ES1 may rise to ES2 on a single fault of a basic safeguard",
    standing: "seen second-hand",
  },
  "iec-60364-4-41": {
    work: "IEC 60364-4-41:2005+A1:2017, Protection against electric shock",
    locator:
      "414.1 (120 V dc, 50 V ac) and 414.4.5 (60 V dc dry, 30 V dc otherwise: no basic protection needed)",
    standing: "seen second-hand",
  },
  "iec-60364-4-41-common": {
    work: "IEC 60364-4-41:2005+A1:2017",
    locator:
      "411.7.4 note: a source without simple separation is an extension of the input circuit",
    standing: "seen second-hand",
  },
  "iec-low-voltage": {
    work: "IEC 60038 and IEC 61140",
    locator: "low voltage up to 1500 V dc, 1000 V ac",
    standing: "seen second-hand",
  },
  "iso-6469-3": {
    work: "ISO 6469-3:2021, Electrically propelled road vehicles, Electrical safety",
    locator:
      "clause 4 Table 1: class A up to 60 V dc or 30 V ac rms, class B up to 1500 V dc or 1000 V ac; the edition of 2021 parts class B into B1 and B2, and its rule for ripple is not held here",
    standing: "from memory",
  },
  "osha-50-v": {
    work: "US 29 CFR 1910.303(g)(2)(i) and OSHA interpretation letter of 4 September 2015",
    locator: "live parts of 50 V or more, ac or dc, are guarded",
    standing: "seen second-hand",
  },
  "common-practice": {
    work: "Common practice of the trade",
    locator: "rule of thumb",
    standing: "common practice, no source",
  },
  "cca-coefficient": {
    work: "No table seen for copper-clad aluminium",
    locator: "taken as aluminium's 0.00403 per K, the larger of its two metals' coefficients",
    standing: "common practice, no source",
  },
  "iec-61558-ripple-free": {
    work: "IEV entry SELV, after IEC 61558-1:2005 3.7.16",
    locator:
      "ripple-free: 10 % rms of the dc at most, peak 140 V for a 120 V and 70 V for a 60 V system",
    standing: "seen second-hand",
  },
  "ripple-peak-proportion": {
    work: "Worked out here from IEC 61558-1",
    locator:
      "35 V peak beside 30 V dc, in the proportion of 70 V to 60 V: no work is known that prints it",
    standing: "common practice, no source",
  },
  "iec-62368-1-es2-sum": {
    work: "IEC 62368-1:2018",
    locator:
      "Figure 23 of combined dc and ac voltage, a curve: ES2 taken as the straight line from 120 V dc to 50 V ac rms (70.7 V peak)",
    standing: "from memory",
  },
  "touch-voltage-faults": {
    work: "IEC 62368-1:2018 5.2.1 and IEC 60364-4-41 411.7.4, worked out for chains of stages",
    locator:
      "one fault at a time: none or functional isolation gives way, basic is one barrier, double or reinforced holds",
    standing: "seen second-hand",
  },
  "iec-60664-1-altitude": {
    work: "IEC 60664-1:2007, Insulation coordination for equipment in low-voltage systems",
    locator:
      "Table A.2: clearances hold up to 2000 m; factor 1.14 at 3000 m, 1.29 at 4000 m; in the edition of 2020 the factors stand in annex F",
    standing: "from memory",
  },
  "churchill-chu": {
    work: "S. W. Churchill and H. H. S. Chu, Correlating equations for laminar and turbulent free convection from a horizontal cylinder, Int. J. Heat Mass Transfer 18 (1975)",
    locator:
      "as in Incropera, Fundamentals of Heat and Mass Transfer, example 9.4: air at the film temperature, Ra up to 1e12; from 1e-5 up from memory",
    standing: "seen second-hand",
  },
  "rayleigh-number": {
    work: "F. P. Incropera, Fundamentals of Heat and Mass Transfer",
    locator:
      "example 9.4: Ra = g·β·ΔT·D³/(ν·α), h = Nu·k/D, heat of convection and radiation per metre added",
    standing: "seen second-hand",
  },
  "grey-radiation": {
    work: "F. P. Incropera, Fundamentals of Heat and Mass Transfer",
    locator:
      "example 9.4: ε·σ·(Ts⁴ − Tsur⁴), surroundings as warm as the air; σ = 5.670374419e-8 W/(m²·K⁴) (CODATA) from memory",
    standing: "seen second-hand",
  },
  "cylinder-conduction": {
    work: "F. P. Incropera, Fundamentals of Heat and Mass Transfer",
    locator: "chapter 3: conduction through a cylinder wall, ln(r₂/r₁)/(2πk)",
    standing: "from memory",
  },
  "hottest-of-several": {
    work: "G. Talenti, Elliptic equations and rearrangements, Ann. Scuola Norm. Sup. Pisa 3 (1976)",
    locator:
      "theorem 1: inside a surface of one temperature, heat gathered in a disc at the centre makes the hottest spot; that disc is ½/(2πk) above its own edge per watt. A surface cooled by air is not quite of one temperature: an approximation there",
    standing: "from memory",
  },
  "standard-atmosphere": {
    work: "U.S. Standard Atmosphere, 1976",
    locator:
      "pressure up to 11 km and to 20 km; 287.053 J/(kg·K); μ = 1.458e-6·T^1.5/(T + 110.4); k = 2.64638e-3·T^1.5/(T + 245.4·10^(−12/T))",
    standing: "from memory",
  },
  "air-specific-heat": {
    work: "F. P. Incropera, Fundamentals of Heat and Mass Transfer",
    locator: "Table A.4: air at 300 K, 1007 J/(kg·K)",
    standing: "seen second-hand",
  },
  "iec-60287-resistivity": {
    work: "IEC 60287-2-1, Electric cables, Calculation of the current rating, Thermal resistance",
    locator: "thermal resistivity of insulations: PVC 5.0 (up to 3 kV), XLPE 3.5 K·m/W",
    standing: "from memory",
  },
  "silicone-conductivity": {
    work: "Handbooks of plastics (the rubber of IEC 60287-2-1, 5.0 K·m/W, is natural rubber)",
    locator: "silicone rubber about 0.2 W/(m·K)",
    standing: "from memory",
  },
  "ptfe-conductivity": {
    work: "Springer Handbook of Condensed Matter and Materials Data",
    locator: "Table 3.3-13: polytetrafluoroethylene, 0.25 W/(m·K) at 20 °C",
    standing: "seen",
  },
  "surface-emissivity": {
    work: "Handbook tables of emissivity (Incropera, Table A.11, among others)",
    locator:
      "PVC 0.91 to 0.93, polyethylene 0.91, PTFE 0.85 to 0.92, soft rubber 0.86; the lowest of each is taken",
    standing: "from memory",
  },
  "copper-bar-emissivity": {
    work: "Copper Development Association Inc., ampacity of copper bus bars",
    locator: "bare copper bars in service: emissivity 0.4",
    standing: "seen second-hand",
  },
  "aluminium-emissivity": {
    work: "Tables of total emissivity for thermography, after M. A. Bramson, Infrared Radiation (1968)",
    locator: "aluminium, strongly oxidised, 50 to 500 °C: 0.2 to 0.3",
    standing: "seen second-hand",
  },
  "unknown-metal-emissivity": {
    work: "Common practice of the trade",
    locator:
      "bare metal of an unknown kind: 0.2, the lower of oxidised aluminium and copper in service",
    standing: "common practice, no source",
  },
  "insulation-limits": {
    work: "IEC 60364-5-54, pairs of temperatures of the adiabatic constant; FAA AC 43.13-1B, Table 11-9",
    locator:
      "conductors in service: PVC 70 °C, XLPE 90 °C, silicone 180 °C; wire rated 200 °C for PTFE",
    standing: "seen second-hand",
  },
  "present-worth": {
    work: "Textbooks of engineering economics: geometric gradient series",
    locator:
      "present worth of yearly payments that rise by a fixed part, paid at year end: A·(1 − ((1 + g)/(1 + i))ⁿ)/(i − g)",
    standing: "seen second-hand",
  },
  "kelvin-annual-cost": {
    work: "V. K. Mehta and R. Mehta, Principles of Power System",
    locator: "chapter 7: energy lost in a year and its cost",
    standing: "seen second-hand",
  },
  "capacitor-discharge": {
    work: "J. Bird, Electrical Circuit Theory and Technology",
    locator: "chapter 17: v = V · e^(−t/CR)",
    standing: "seen second-hand",
  },
  "capacitor-energy": {
    work: "OpenStax, College Physics 2e, Energy Stored in Capacitors",
    locator: "E = CV²/2",
    standing: "from memory",
  },
  "iec-60204-1-discharge": {
    work: "IEC 60204-1, Safety of machinery, Electrical equipment of machines",
    locator:
      "6.2.4: live parts with residual voltage above 60 V discharge to 60 V or less within 5 s of disconnection; a charge of 60 µC or less is exempt",
    standing: "seen second-hand",
  },
  "iso-3": {
    work: "ISO 3, Preferred numbers",
    locator: "series R10: 1, 1.25, 1.6, 2, 2.5, 3.15, 4, 5, 6.3, 8",
    standing: "seen second-hand",
  },
  "iec-60269-1": {
    work: "IEC 60269-1, Low-voltage fuses",
    locator:
      "preferred rated currents: 2, 4, 6, 8, 10, 12, 16, 20, 25, 32, 40, 50, 63, 80, 100, 125, 160, 200, 250, 315, 400, 500, 630, 800, 1000, 1250 A",
    standing: "from memory",
  },
  "maximum-power": {
    work: "J. Bird, Electrical Circuit Theory and Technology",
    locator: "examples 13.20 and 13.21: at most V²/4R arrives behind R",
    standing: "seen second-hand",
  },
  "chen-2020": {
    work: "C.-H. Chen et al., Development of experimental techniques for parameterization of multi-scale lithium-ion battery models, J. Electrochem. Soc. 167:080534 (2020)",
    locator:
      "open-circuit potentials of both electrodes (functions seen); their window from memory, so ±10 mV for the cell",
    standing: "from memory",
  },
  "cells-in-series": {
    work: "J. Bird, Electrical Circuit Theory and Technology",
    locator: "chapter 4: cells in series and in parallel",
    standing: "seen second-hand",
  },
  "rectified-peak": {
    work: "Textbooks: peak of a sine wave",
    locator: "√2 times its rms value",
    standing: "from memory",
  },
  "conductor-densities": {
    work: "IEC 60889 and handbooks; copper-clad aluminium wire table, mwswire.com",
    locator:
      "aluminium 2703 kg/m³ and hard-drawn copper 8890 kg/m³ from memory; copper-clad aluminium 3320 (10 %) and 3630 kg/m³ (15 %) seen",
    standing: "from memory",
  },
  "iec-60364-5-54": {
    work: "IEC 60364-5-54, annex A (and IEC 60949)",
    locator:
      "k = √(Qc(β + 20)/ρ₂₀ · ln((β + θf)/(β + θi))), up to 5 s; copper Qc 3.45e-3 J/(K·mm³), β 234.5, aluminium 2.5e-3, 228; insulation at the end of a fault: PVC 160 °C (140 °C above 300 mm²), XLPE 250 °C",
    standing: "seen second-hand",
  },
  "iec-60364-5-52": {
    work: "IEC 60364-5-52:2009, Selection and erection of electrical equipment, Wiring systems",
    locator:
      "annex B: currents in air of 30 °C of conductors that reach 70 °C (PVC) or 90 °C (XLPE)",
    standing: "from memory",
  },
  "kelvin-law": {
    work: "V. K. Mehta and R. Mehta, Principles of Power System",
    locator:
      "chapter 7: Kelvin's law, the part of the yearly cost that grows with the area equals the cost of lost energy",
    standing: "seen second-hand",
  },
  "two-wire-line": {
    work: "J. Bird, Electrical Circuit Theory and Technology",
    locator: "chapter 40: inductance (µ₀/π)(1/4 + ln(D/a)) and capacitance of a pair of wires",
    standing: "seen second-hand",
  },
  "two-wire-exact": {
    work: "OpenStax, University Physics, and textbooks of electromagnetism",
    locator: "capacitance of two parallel cylinders, πε/acosh(D/2a)",
    standing: "from memory",
  },
  "ipc-2221": {
    work: "IPC-2221A, Generic standard on printed board design",
    locator:
      "6.2: I = k · ΔT^0.44 · A^0.725, A in square mils, k 0.048 outer, 0.024 inner; charts up to 35 A, 10 to 100 K and 400 mil",
    standing: "seen second-hand",
  },
  "cda-round-bars": {
    work: "Copper Development Association, Publication 22, Copper for Busbars, section 10",
    locator:
      "round bars in still air, 50 K above 40 °C: I = 8.63·A^0.5·p^0.36, A in mm², p the perimeter in mm",
    standing: "seen",
  },
  "faa-altitude": {
    work: "FAA Advisory Circular 43.13-1B, CHG 1 (2001), Acceptable Methods, Techniques, and Practices",
    locator: "page 11-27: factor 0.91 at 20,000 ft, one curve for every size",
    standing: "seen",
  },
  "ipc-2152": {
    work: "IPC-2152, Standard for determining current-carrying capacity in printed board design (2009), and the measurements behind it",
    locator:
      "an outer trace of 2.54 mm, 35 µm on a board without planes warms by 20 K at about 4.5 A",
    standing: "from memory",
  },
  "holdup-energy": {
    work: "Textbooks of power electronics: energy balance of a hold-up capacitor",
    locator: "P·t = η·C·(U₀² − U₁²)/2",
    standing: "from memory",
  },
  "series-rlc": {
    work: "J. Bird, Electrical Circuit Theory and Technology, and textbooks of circuit theory",
    locator: "natural response of a series R-L-C circuit: λ² + 2αλ + ω₀² = 0",
    standing: "from memory",
  },
  "constant-power-stability": {
    work: "D. A. Howe, H. Kirkham and V. Vorperian, IEEE J. Oceanic Engineering 27(2):267 (2002), and textbooks of power electronics",
    locator:
      "a load of constant power has the resistance −V²/P; trace and determinant of the linearised circuit (title and abstract seen, the title not kept)",
    standing: "from memory",
  },
  "iec-60950-1-energy": {
    work: "IEC 60950-1, Information technology equipment, Safety (withdrawn 2020)",
    locator:
      "hazardous energy at 2 V or more: 1.2.8.10 says 20 J or more, 2.1.1.5 more than 20 J; the stricter of the two is used",
    standing: "seen second-hand",
  },
  "iso-6469-4-energy": {
    work: "ISO 6469-4, Electrically propelled road vehicles, Post crash electrical safety",
    locator: "5.2.3: less than 0.2 J",
    standing: "seen second-hand",
  },
  "doe-capacitors": {
    work: "Lawrence Berkeley National Laboratory, Electrical Safety Manual, after DOE-HDBK-1092",
    locator:
      "T2.2.13, T2.3.3 and T2.3.5: capacitors, shock from 100 V and 10 J, arc flash from 100 V and 10 kJ, burns below 100 V above 100 J; for shock older and laxer than NFPA 70E article 360",
    standing: "seen",
  },
  "nfpa-70e-360": {
    work: "NFPA 70E:2021, Electrical Safety in the Workplace",
    locator:
      "article 360, capacitors: shock hazard above 1 J at 100 V or more, and above 0.25 J at 400 V or more",
    standing: "from memory",
  },
  "doe-hdbk-1092-98": {
    work: "DOE-HDBK-1092-98, Electrical Safety",
    locator:
      "figure 10-1: above 0.25 J protect against what the start leads to, above 10 J against shock",
    standing: "seen second-hand",
  },
  "iec-60127-7": {
    work: "IEC 60127-7, Miniature fuse-links for special applications",
    locator:
      "standard sheet 1: rated currents by R10 from 100 mA to 20 A (the sheet's whole range not checked)",
    standing: "seen second-hand",
  },
  "iec-60269-1-gates": {
    work: "IEC 60269-1, Low-voltage fuses, with IEC 60127-2 and UL 248-14 on small ones",
    locator:
      "gates of gG, clearing in 5 s: 16 A fuse 65 A, 32 A 150 A, 63 A 320 A, 100 A 580 A, 4 to 6 times the rating, in 0.1 s 9 to 14 times; IEC 60127-2 quick-acting: up to 30 min at 2.1 times; UL 248-14: up to 2 min at 2 times",
    standing: "from memory",
  },
  "iec-60364-4-41-table-41-1": {
    work: "IEC 60364-4-41:2005+A1:2017, Protection against electric shock",
    locator:
      "Table 41.1, dc, final circuits (socket-outlets up to 63 A, fixed equipment up to 32 A): TN 1 s above 120 V to 230 V, 0.4 s to 400 V, 0.1 s above; TT 0.4, 0.2 and 0.1 s; up to 120 V none asked for against shock; 411.3.2.3 and 411.3.2.4, distribution circuits: TN 5 s, TT 1 s",
    standing: "from memory",
  },
  "negative-impedance": {
    work: "A. Emadi, A. Khaligh, C. H. Rivetta and G. A. Williamson, Constant power loads and negative impedance instability in automotive systems, IEEE Trans. Vehicular Technology 55(4):1112 (2006)",
    locator:
      "a line R, L and a capacitor C feed a load of constant power stably while P < V²·R·C/L",
    standing: "from memory",
  },
  "gum-flat": {
    work: "JCGM 100:2008, Evaluation of measurement data, Guide to the expression of uncertainty in measurement (GUM)",
    locator: "4.3.7: a flat input within ± a has the standard uncertainty a/√3",
    standing: "from memory",
  },
  "gum-triangular": {
    work: "JCGM 100:2008, GUM",
    locator: "4.3.9: a triangular input within ± a has the standard uncertainty a/√6",
    standing: "from memory",
  },
  "gum-first-order": {
    work: "JCGM 100:2008, GUM",
    locator:
      "5.1.2 equation (10): root of the sum of squares of sensitivity times standard uncertainty; 5.2.2 equation (16): fully correlated parts add first",
    standing: "from memory",
  },
  "jcgm-101": {
    work: "JCGM 101:2008, Supplement 1 to the GUM, Propagation of distributions using a Monte Carlo method",
    locator:
      "7.6: mean and standard deviation of the samples; 7.7: intervals from the samples in order",
    standing: "from memory",
  },
  "three-sigma": {
    work: "Tolerances of parts read as three standard deviations of a normal distribution",
    locator: "99.73 % lie within",
    standing: "common practice, no source",
  },
  "extreme-values": {
    work: "ECSS-Q-HB-30-01A (2011), Worst case analysis",
    locator:
      "extreme value analysis, root sum square and Monte Carlo as methods (title and foreword seen); Σ|S·T| and √Σ(S·T)² written from memory",
    standing: "from memory",
  },
  "sobol-joe-kuo": {
    work: "S. Joe and F. Y. Kuo, Constructing Sobol sequences with better two-dimensional projections, SIAM J. Sci. Comput. 30 (2008) 2635-2654",
    locator: "direction numbers D(6), as libraries reproduce them",
    standing: "seen second-hand",
  },
  "saltelli-2010": {
    work: "A. Saltelli et al., Variance based sensitivity analysis of model output, Computer Physics Communications 181 (2010) 259-270",
    locator: "table 2 (b): first index",
    standing: "from memory",
  },
  "jansen-1999": {
    work: "M. J. W. Jansen, Analysis of variance designs for model output, Computer Physics Communications 117 (1999) 35-43",
    locator: "total index",
    standing: "from memory",
  },
} as const satisfies Record<string, Citation>;

export type CitationId = keyof typeof citations;

/** Work and place in one line, with a word on its standing where nobody saw the figure. */
export function citationLine(id: CitationId): string {
  const { work, locator, standing } = citations[id];
  return standing === "seen" ? `${work}: ${locator}` : `${work}: ${locator} (${standing})`;
}
