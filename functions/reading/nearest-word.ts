/** The word of a list that somebody most likely meant: the one that the fewest changes of a letter turn into his. */
export function nearestWord(written: string, words: readonly string[]): string | undefined {
  const wanted = plain(written);
  const [nearest] = words
    .map((word) => ({ word, changes: changesBetween(wanted, plain(word)) }))
    .sort((one, other) => one.changes - other.changes);
  return nearest?.word;
}

function plain(text: string): string {
  return text.replace(/\s+/g, "").toLowerCase();
}

/** Letters to put in, to leave out or to change. */
function changesBetween(from: string, to: string): number {
  let above = Array.from({ length: to.length + 1 }, (_, at) => at);
  for (let row = 1; row <= from.length; row++) {
    const current = [row];
    for (let at = 1; at <= to.length; at++) {
      const same = from[row - 1] === to[at - 1] ? 0 : 1;
      current.push(Math.min(above[at]! + 1, current[at - 1]! + 1, above[at - 1]! + same));
    }
    above = current;
  }
  return above[to.length]!;
}
