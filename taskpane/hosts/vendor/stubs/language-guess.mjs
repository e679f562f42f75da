// Guessing a text's language only serves hyphenation, which a sheet does not do.
export function franc() {
  return "und";
}

export function francAll() {
  return [["und", 1]];
}
