/** Text as files hold it: characters that XML has no place for are written `_x0007_`. */
const ESCAPED = /_x([0-9A-Fa-f]{4})_/g;
const TO_ESCAPE =
  // These characters are what has to be found.
  // eslint-disable-next-line no-control-regex
  /[\x00-\x08\x0b\x0c\x0d\x0e-\x1f\ufffe\uffff]|_(?=x[0-9A-Fa-f]{4}_)/g;

export function typedText(stored: string): string {
  return stored.includes("_x")
    ? stored.replace(ESCAPED, (_, code: string) => String.fromCharCode(Number.parseInt(code, 16)))
    : stored;
}

export function storedText(text: string): string {
  return text.replace(
    TO_ESCAPE,
    (character) => `_x${character.charCodeAt(0).toString(16).toUpperCase().padStart(4, "0")}_`,
  );
}
