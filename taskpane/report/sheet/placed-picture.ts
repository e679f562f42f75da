/** A picture on the printed sheet, whole on one page. */
import { pictureImage } from "../../pictures/picture-plan.js";
import type { ReportBlock } from "../content/blocks.js";
import { pictureRoom, type SheetPages } from "./sheet-pages.js";

export function placePicture(
  pages: SheetPages,
  { picture, title, caption }: Extract<ReportBlock, { kind: "picture" }>,
): void {
  const image = pictureImage(picture);
  if (title !== undefined) pages.line(title, "caption", pictureRoom(image));
  pages.picture(image);
  if (caption !== undefined) pages.line(caption, "text");
}
