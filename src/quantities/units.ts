/**
 * The engine computes in coherent SI. These aliases say which unit a number is in; the compiler does not
 * check them. A field in any other unit carries that unit at the end of its name (`temperatureC`, `areaMm2`).
 */
export type Amperes = number;
export type Coulombs = number;
export type Farads = number;
export type Henries = number;
export type Joules = number;
export type Seconds = number;
export type Kelvins = number;
export type Kilograms = number;
export type Metres = number;
export type Ohms = number;
export type OhmMetres = number;
export type OhmsPerMetre = number;
export type Pascals = number;
export type SquareMetres = number;
export type Volts = number;
export type Watts = number;

/** Not SI: fields of this type end in `C`. Only differences of it enter the engine's formulas. */
export type Celsius = number;

/** A part of one: efficiency, tolerance, share. Never per cent. */
export type Fraction = number;

/** Exact by definition (international foot, 1959). */
export const METRES_PER_FOOT = 0.3048;

/** Exact by definition (international inch, 1959). */
export const METRES_PER_INCH = 0.0254;

/** Area of a circle one mil (0.0254 mm, exact) across. */
export const SQUARE_METRES_PER_CIRCULAR_MIL = (Math.PI / 4) * 25.4e-6 ** 2;

export const SQUARE_METRES_PER_SQUARE_MILLIMETRE = 1e-6;

/** Exact by definition of the degree Celsius (SI Brochure). */
export const ABSOLUTE_ZERO_C: Celsius = -273.15;
