/**
 * What tolerances make of an answer that changes in proportion to its inputs: standard uncertainty, worst case and root of
 * the sum of squares. None of them sees a curve; the samples and the corners of a spread do.
 */
import { DISTRIBUTIONS } from "./distributions.js";
import { type Source, type UncertainInput, sourcesOf } from "./uncertain-input.js";

export interface FirstOrderPart {
  readonly source: Source;
  /** Σ S·u over the source's inputs, in the answer's unit and with its sign. */
  readonly uncertainty: number;
  /** Σ S·T over the source's inputs. */
  readonly swing: number;
}

export interface FirstOrder {
  /** Of each input; 0 for an exact one. */
  readonly sensitivities: ArrayLike<number>;
  readonly parts: readonly FirstOrderPart[];
  /**
   * Root of the sum of squares of the parts (GUM, equation 10). Inputs of one group count as fully correlated (equation 16),
   * which they are where their distributions are alike, and nearly where not.
   */
  readonly uncertainty: number;
  /** Extreme value: every source at the end of its tolerance that moves the answer the same way. */
  readonly worstCase: number;
  /**
   * Root of the sum of squares of the swings. As a limit of three standard uncertainties it assumes that the sources are
   * independent, centred and normal, that each T is three standard uncertainties whatever distribution was entered, and
   * that the answer is linear. Of many flat sources alike it is 1.73 standard uncertainties: 8 % lie beyond it.
   */
  readonly rootSumSquare: number;
}

/**
 * @param sensitivities Change of the answer for one unit of each input, at the nominal values.
 * @throws {InputError} where an input cannot be.
 */
export function firstOrder(
  inputs: readonly UncertainInput[],
  sensitivities: ArrayLike<number>,
): FirstOrder {
  const parts = sourcesOf(inputs).map((source) => {
    let uncertainty = 0;
    let swing = 0;
    for (const index of source.inputs) {
      const { halfWidth, distribution } = inputs[index]!;
      const width = sensitivities[index]! * halfWidth;
      swing += width;
      uncertainty += width / Math.sqrt(DISTRIBUTIONS[distribution].squareOfDivisor);
    }
    return { source, uncertainty, swing };
  });
  return {
    sensitivities,
    parts,
    uncertainty: rootOfSquares(parts.map((part) => part.uncertainty)),
    worstCase: parts.reduce((sum, { swing }) => sum + Math.abs(swing), 0),
    rootSumSquare: rootOfSquares(parts.map(({ swing }) => swing)),
  };
}

function rootOfSquares(terms: readonly number[]): number {
  return Math.sqrt(terms.reduce((sum, term) => sum + term * term, 0));
}
