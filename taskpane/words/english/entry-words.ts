/** Why what is typed for a figure cannot stand in its cell. */
export const entryWords = {
  twoWays: (figure: string) => `“${figure}” can be read in two ways: leave the comma out`,
  part: (figure: string, percent: number) => `write ${figure} % or ${percent} %`,
  twoNumbers: (typed: string) =>
    `“${typed}” is two numbers: write input ÷ output as one, 16 for 16:1`,
  noNumber: (typed: string) => `a number is wanted, not “${typed}”`,
  noUnits: (unit: string) => `“${unit}” is no unit of it: leave the unit off`,
  otherUnits: (unit: string, own: string, known: readonly string[]) =>
    `“${unit}” is no unit of it; it is typed in ${own}, or with ${known.join(", ")}`,
  kindFirst: (said: string, unit: string) =>
    `${said}; choose its Kind first where it is in ${unit}`,
} as const;
