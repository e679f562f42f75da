/** A title as the name of a file, without what a file system takes for something else. */
export function fileName(title: string): string {
  const plain = title
    .replace(/[^\p{L}\p{N} ._()-]+/gu, " ")
    .replace(/\s+/g, " ")
    .replace(/^[. ]+/, "")
    .slice(0, 80)
    .trim();
  return plain || "Workbook";
}
