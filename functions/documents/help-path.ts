/** Where the page of a function stands in the built folder: every namespace in which it is typed has pages of its own. */
export function helpPath(id: string, namespace = "FEED"): string {
  return `${helpFolder(namespace)}/${id}.html`;
}

export function helpFolder(namespace: string): string {
  return namespace === "FEED" ? "help" : `help/${namespace}`;
}
