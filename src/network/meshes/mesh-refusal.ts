/** What is not solved of a mesh, said by name. */
import { NoAnswerError } from "../../quantities/errors.js";

/** @param item An item of the mesh. */
export function notOfMeshes(item: string): NoAnswerError {
  return new NoAnswerError(
    "feedTable",
    `not solved where currents have more than one way (a bus fed from several items, a tie, a load that gives power back), as in the feed of "${item}"`,
  );
}
