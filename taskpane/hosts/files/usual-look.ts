/** How a cell of a file looks that says nothing of its look. */
export const USUAL_FONT = "Calibri";
export const USUAL_SIZE = 11;

/** Numbers below are for formats that a file names by number alone (ECMA-376 18.8.30). */
export const FIRST_OWN_FORMAT = 164;

export const PIXELS_PER_POINT = 4 / 3;

/** Width of the digit 0 in the usual font, in which column widths are counted. */
export const PIXELS_PER_DIGIT = 7;

/** A pixel at 96 to the inch, in the unit of drawings. */
export const UNITS_PER_PIXEL = 9_525;
