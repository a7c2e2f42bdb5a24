import type { Pictogram } from '../../../labels/packs/safe-handling.ts';
import type { Pdf } from '../document.ts';

/** Own pictures of the safe handling statements, drawn of lines on a field of 24 by 24. */

type Draw = (pdf: Pdf) => void;

const refrigerator: Draw = (pdf) => {
  pdf.roundedRect(5, 1.5, 14, 20, 1.5).stroke();
  pdf.moveTo(5, 8.5).lineTo(19, 8.5).stroke();
  pdf.moveTo(7.5, 4).lineTo(7.5, 6.5).moveTo(7.5, 11).lineTo(7.5, 15.5).stroke();
  pdf.moveTo(7, 21.5).lineTo(7, 23).moveTo(17, 21.5).lineTo(17, 23).stroke();
  // A snow crystal on its door.
  for (const turn of [0, 60, 120]) {
    pdf.save();
    pdf.translate(13.8, 15).rotate(turn);
    pdf.moveTo(-3.2, 0).lineTo(3.2, 0).stroke();
    pdf.restore();
  }
};

const hands: Draw = (pdf) => {
  // The faucet, and water out of it.
  pdf.moveTo(1.5, 5).lineTo(13, 5).quadraticCurveTo(16.5, 5, 16.5, 9).stroke();
  pdf.moveTo(1.5, 8).lineTo(12, 8).quadraticCurveTo(13.5, 8, 13.5, 9.5).stroke();
  pdf.moveTo(13, 9.5).lineTo(17, 9.5).stroke();
  pdf.moveTo(5, 5).lineTo(5, 2.5).moveTo(2.5, 2.5).lineTo(7.5, 2.5).stroke();
  pdf
    .moveTo(15, 11)
    .lineTo(15, 13.2)
    .moveTo(13.6, 11)
    .lineTo(13.6, 12.4)
    .moveTo(16.4, 11)
    .lineTo(16.4, 12.4)
    .stroke();
  // One hand over the other.
  pdf
    .moveTo(1.5, 16.5)
    .lineTo(6, 14.5)
    .lineTo(14, 14.5)
    .quadraticCurveTo(15.8, 15.4, 14, 16.5)
    .lineTo(9.5, 16.8)
    .stroke();
  pdf
    .moveTo(14.8, 15.8)
    .lineTo(20.5, 14.6)
    .quadraticCurveTo(22.6, 15.4, 20.8, 16.8)
    .lineTo(12, 20.8)
    .stroke();
  pdf.moveTo(12, 20.8).lineTo(6.5, 20.8).lineTo(1.5, 22.5).stroke();
  // Suds.
  pdf.circle(20, 11.5, 1.3).stroke();
  pdf.circle(22, 8.8, 0.8).stroke();
  pdf.circle(10.3, 12, 0.9).stroke();
};

const skillet: Draw = (pdf) => {
  pdf.moveTo(1.5, 11).lineTo(16, 11).lineTo(14.5, 15.5).lineTo(3, 15.5).closePath().stroke();
  pdf.moveTo(15.7, 12).lineTo(23, 9.8).stroke();
  pdf.moveTo(15.3, 13.4).lineTo(23, 11.2).stroke();
  for (const x of [5, 8.7, 12.4]) {
    // Steam above, a flame below.
    pdf
      .moveTo(x, 9)
      .quadraticCurveTo(x - 1.6, 7.5, x, 6)
      .quadraticCurveTo(x + 1.6, 4.5, x, 3)
      .stroke();
    pdf
      .moveTo(x, 17.2)
      .quadraticCurveTo(x + 2, 20, x, 22.4)
      .quadraticCurveTo(x - 2, 20, x, 17.2)
      .stroke();
  }
};

const thermometer: Draw = (pdf) => {
  pdf.circle(12, 19, 3.5).stroke();
  pdf.moveTo(10.2, 16).lineTo(10.2, 3.3).quadraticCurveTo(12, 0.4, 13.8, 3.3).lineTo(13.8, 16).stroke();
  pdf.circle(12, 19, 2).fill('black');
  pdf.lineWidth(1.6).moveTo(12, 19).lineTo(12, 7).stroke();
  pdf.lineWidth(1);
  for (const y of [5, 8, 11, 14]) pdf.moveTo(15.5, y).lineTo(18, y).stroke();
};

const PICTURES: Readonly<Record<Pictogram, Draw>> = {
  refrigerator,
  'hands under a faucet': hands,
  skillet,
  thermometer,
};

/** @param sideMm side of the square that the picture fills. */
export function drawPictogram(pdf: Pdf, what: Pictogram, xMm: number, yMm: number, sideMm: number): void {
  pdf.save();
  pdf.translate(xMm, yMm).scale(sideMm / 24);
  pdf.lineWidth(1).lineCap('round').lineJoin('round').strokeColor('black');
  PICTURES[what](pdf);
  pdf.restore();
}
