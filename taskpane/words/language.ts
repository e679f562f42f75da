/** The language that the pane speaks. */
import { english } from "./english.js";

/** What a language has to say: all that the English one says, in the same places and of the same figures. */
export type Language = Told<typeof english>;

type Told<Words> = Words extends string
  ? string
  : Words extends (...figures: infer Figures) => infer Said
    ? (...figures: Figures) => Told<Said>
    : Words extends (infer One)[]
      ? Told<One>[]
      : Words extends readonly (infer One)[]
        ? readonly Told<One>[]
        : { readonly [Key in keyof Words]: Told<Words[Key]> };

export const language: Language = english;
