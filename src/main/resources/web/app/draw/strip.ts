/** Paints the strip from what the geometry returned. Colours are those of the page. */
import type { Box, Columns } from '../geometry/strip.ts';

/** The strip in one moment; x in CSS pixels. */
export interface StripPicture {
  width: number;
  height: number;
  columns: Columns | null;
  boxes: readonly Box[];
  loop: { from: number; to: number } | null;
  place: number | null;
}

/** Paints one strip; `pixels` is the density of the screen. */
export function paintStrip(canvas: HTMLCanvasElement, picture: StripPicture, pixels: number): void {
  const { width, height } = picture;
  const w = Math.round(width * pixels);
  const h = Math.round(height * pixels);
  if (canvas.width !== w) canvas.width = w;
  if (canvas.height !== h) canvas.height = h;
  const pen = canvas.getContext('2d');
  if (!pen) return;
  const style = getComputedStyle(canvas);
  const colour = (name: string, otherwise: string) => style.getPropertyValue(name).trim() || otherwise;
  const ink = colour('--ink', '#16212b');
  pen.setTransform(pixels, 0, 0, pixels, 0, 0);
  pen.clearRect(0, 0, width, height);
  if (picture.loop) {
    const x = picture.loop.from;
    const span = Math.max(2, picture.loop.to - x);
    pen.fillStyle = colour('--cue-wash', '#e3eef5');
    pen.fillRect(x, 0, span, height);
    // Repeat lines as well as the wash: the loop shows without colour too.
    pen.fillStyle = ink;
    pen.fillRect(x, 0, 3, height);
    pen.fillRect(x + span - 3, 0, 3, height);
  }
  if (picture.columns) {
    pen.fillStyle = colour('--line', '#7d888d');
    const middle = height / 2 + 1;
    for (let x = 0; x < picture.columns.width; x++) {
      const half = picture.columns.half[x]!;
      pen.fillRect(x, middle - half, 1, half * 2);
    }
  }
  pen.fillStyle = ink;
  for (const box of picture.boxes) pen.fillRect(Math.round(box.x), 2, 1, height - 2);
  if (picture.place !== null) {
    pen.fillStyle = colour('--cue', '#0a4f7a');
    pen.fillRect(Math.min(Math.max(picture.place - 1.5, 0), width - 3), 0, 3, height);
  }
}
