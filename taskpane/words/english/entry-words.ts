/** Why what is typed for a figure cannot stand in its cell. */
export const entryWords = {
  twoWays: (figure: string) => `“${figure}” can be read in two ways: leave the comma out`,
  part: (figure: string, percent: number) => `write ${figure} % or ${percent} %`,
  twoNumbers: (typed: string) =>
    `“${typed}” is two numbers: write input ÷ output as one, 16 for 16:1`,
  noNumber: (typed: string) => `enter a number, not “${typed}”`,
  noUnits: (unit: string) => `“${unit}” is not a unit of this quantity: leave the unit out`,
  otherUnits: (unit: string, own: string, known: readonly string[]) =>
    `“${unit}” is not a unit of this quantity: enter it in ${own}, or with ${known.join(", ")}`,
  kindFirst: (said: string, unit: string) => `${said}; if it is in ${unit}, choose its Kind first`,
} as const;
