/** Pictures of a plan as PNG, because neither Excel nor files take a drawing: drawn by the page that the pane is in. */
import type { PlanPicture } from "../../src/plans/sheet-plan.js";

export interface DrawnPicture {
  readonly picture: PlanPicture;
  /** In Base64. */
  readonly png: string;
}

export function drawnPictures(pictures: readonly PlanPicture[]): Promise<readonly DrawnPicture[]> {
  return Promise.all(pictures.map(async (picture) => ({ picture, png: await pngOf(picture) })));
}

/** For sharp lines on screens of high density and in print. */
const DOTS_PER_PIXEL = 2;

/** The picture as PNG in Base64. @throws {Error} for a drawing that the page cannot show. */
export async function pngOf({
  svg,
  size: [width, height],
  alternative,
}: Omit<PlanPicture, "at">): Promise<string> {
  const image = new Image(width, height);
  image.src = `data:image/svg+xml;charset=utf-8,${encodeURIComponent(svg)}`;
  try {
    await image.decode();
  } catch (error) {
    throw new Error(`the picture "${alternative}" cannot be drawn`, {
      cause: error,
    });
  }
  const canvas = document.createElement("canvas");
  canvas.width = width * DOTS_PER_PIXEL;
  canvas.height = height * DOTS_PER_PIXEL;
  const pen = canvas.getContext("2d");
  if (!pen) throw new Error("the page cannot draw pictures");
  pen.drawImage(image, 0, 0, canvas.width, canvas.height);
  return canvas.toDataURL("image/png").replace(/^.*,/, "");
}
