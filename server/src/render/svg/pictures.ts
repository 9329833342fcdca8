import type { Evaluation } from '../../engine/index.ts';
import { type PictureWidth, WIDE } from './drawing.ts';
import type { Picture } from './picture.ts';
import { pressurePicture } from './pressure.ts';
import { pumpCurvePicture } from './pump-curve.ts';
import { strokePicture } from './stroke.ts';
import { temperaturePicture } from './temperature.ts';
import { voltagePicture } from './voltage.ts';

/** The pictures of all cases together: for a rotary pump its curve. */
export function commonPictures(evaluation: Evaluation, width: PictureWidth = WIDE): readonly Picture[] {
  return liftOf(evaluation) === 'rotary' ? [pumpCurvePicture(evaluation, width)] : [];
}

/** The pictures of one case, from the well to the supply. */
export function casePictures(
  evaluation: Evaluation,
  caseIndex: number,
  width: PictureWidth = WIDE,
): readonly Picture[] {
  const stroke = liftOf(evaluation) === 'linear' ? [strokePicture(evaluation, caseIndex, width)] : [];
  return [
    pressurePicture(evaluation, caseIndex, width),
    ...stroke,
    temperaturePicture(evaluation, caseIndex, width),
    voltagePicture(evaluation, caseIndex, width),
  ];
}

function liftOf(evaluation: Evaluation): string | undefined {
  return evaluation.entryText('lift', ['lift']);
}
