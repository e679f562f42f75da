/** The little that is taken of the library in which the spreadsheet's own dialogs are written. */
declare module "react" {
  export function createElement(type: unknown, props: object, ...children: unknown[]): never;
}
