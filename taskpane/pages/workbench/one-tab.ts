/** One tab of the workbench at a time keeps its workbook: two would write over each other. */

const TAB = "downfeed workbook";

/**
 * Resolves to the end of the turn once no other tab has it; it ends with the page in any case.
 * @param isPatient waits for the other tab; otherwise undefined where another has it
 */
export function waitForTurn(isPatient: boolean): Promise<(() => void) | undefined> {
  // Where tabs cannot know of each other.
  if (!("locks" in navigator)) return Promise.resolve(() => {});
  return new Promise((begin, fail) => {
    navigator.locks
      .request(TAB, { ifAvailable: !isPatient }, (lock) => {
        if (!lock) return begin(undefined);
        return new Promise<void>((end) => begin(end));
      })
      .catch(fail);
  });
}
