/** The working of shares. Its steps are numbered by source, `first1` on, so they are built for each answer. */
import { numbered, placesOf } from "../quantities/numbered.js";
import type { Quantities, Quantity, Step, Steps } from "../quantities/steps.js";
import type { Shares } from "./shares.js";

/** Sums over the rows of samples. */
export function sharesGivens({ shares }: Shares, { unit }: Quantity): Quantities {
  const squared = `(${unit})²`;
  return {
    answered: { label: "Rows of samples with all answers", symbol: "N", unit: "1" },
    totalSquares: {
      label: "Sum of squares about the mean, of both sets",
      symbol: "Σ(y − ȳ)²",
      unit: squared,
    },
    ...Object.fromEntries(
      placesOf(shares).flatMap((place): [string, Quantity][] => {
        const { name } = shares[place - 1]!.source;
        return [
          [
            `products${place}`,
            {
              label: `Sum of products with ${name} from the other set`,
              symbol: `Σ(yB − ȳ)(y${place} − yA)`,
              unit: squared,
            },
          ],
          [
            `squares${place}`,
            {
              label: `Sum of squares with ${name} from the other set`,
              symbol: `Σ(yA − y${place})²`,
              unit: squared,
            },
          ],
        ];
      }),
    ),
  };
}

export function sharesSteps({ shares }: Shares, { unit }: Quantity): Steps {
  return {
    variance: {
      label: "Variance",
      symbol: "Var",
      unit: `(${unit})²`,
      kind: "formula",
      formula: "totalSquares / (2 * answered - 1)",
      cite: "jcgm-101",
    },
    ...Object.fromEntries(
      placesOf(shares).flatMap((place): [string, Step][] => {
        const { name } = shares[place - 1]!.source;
        return [
          [
            `first${place}`,
            {
              label: `Share of ${name} alone`,
              symbol: `S${place}`,
              unit: "1",
              kind: "formula",
              formula: `products${place} / answered / variance`,
              cite: "saltelli-2010",
            },
          ],
          [
            `total${place}`,
            {
              label: `Share of ${name} with all that it does together with others`,
              symbol: `ST${place}`,
              unit: "1",
              kind: "formula",
              formula: `squares${place} / (2 * answered) / variance`,
              cite: "jansen-1999",
            },
          ],
        ];
      }),
    ),
    residual: {
      label: "What the shares of each alone leave of 1",
      symbol: "1 − ΣS",
      unit: "1",
      kind: "formula",
      formula: `1 - (${placesOf(shares)
        .map((place) => `first${place}`)
        .join(" + ")})`,
      cite: "definition",
    },
  };
}

/** Every given and every result by the names that givens and steps use. */
export function sharesValues({
  answered,
  totalSquares,
  variance,
  residual,
  shares,
}: Shares): Readonly<Record<string, number>> {
  const ofEach = (name: "first" | "total" | "products" | "squares") =>
    numbered(
      name,
      shares.map((share) => share[name]),
    );
  return {
    answered,
    totalSquares,
    variance,
    residual,
    ...ofEach("products"),
    ...ofEach("squares"),
    ...ofEach("first"),
    ...ofEach("total"),
  };
}
