// Font files are read only to set documents, which the workbench does not.
export function parse() {
  throw new Error("font files cannot be read here");
}

export default { parse };
