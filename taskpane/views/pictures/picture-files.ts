/** A picture taken away: copied, or saved as a file, on white and as wide as on a sheet. */
import { pngOf } from "../../hosts/plan-pictures.js";
import type { Picture } from "../../pictures/parts/picture.js";
import { pictureImage } from "../../pictures/picture-plan.js";
import { fileName } from "../../workbook/file-name.js";
import { words } from "../../words/words.js";

const said = words.pictures;

export type PictureType = "svg" | "png";

const MIME = { svg: "image/svg+xml", png: "image/png" } as const;

/** Copies the picture to the clipboard, as a document takes it. @returns what to say of it */
export async function copyPicture(picture: Picture): Promise<string> {
  // A browser wants to know at once that something will come: the drawing itself may take its time.
  const item = new ClipboardItem({ [MIME.png]: pictureBlob(picture, "png") });
  await navigator.clipboard.write([item]);
  return said.copied;
}

/** @returns what to say of it */
export async function savePicture(
  picture: Picture,
  budget: string,
  type: PictureType,
): Promise<string> {
  const name = `${fileName(`${budget} ${picture.title}`)}.${type}`;
  const address = URL.createObjectURL(await pictureBlob(picture, type));
  const link = document.createElement("a");
  link.href = address;
  link.download = name;
  link.click();
  // Not before the browser has begun to fetch it.
  setTimeout(() => URL.revokeObjectURL(address), 60_000);
  return said.saved(name);
}

async function pictureBlob(picture: Picture, type: PictureType): Promise<Blob> {
  const image = pictureImage(picture);
  if (type === "svg") return new Blob([image.svg], { type: MIME.svg });
  const bytes = Uint8Array.from(atob(await pngOf(image)), (letter) => letter.charCodeAt(0));
  return new Blob([bytes], { type: MIME.png });
}
