/** The worker thread of `passage` with the folder of a run: visits of it, simulated again. */
import type { Design } from '../scenario/schema.js';
import type { Picture } from '../score/pictures.js';
import { type VisitChoice, pictureOfVisit, picturesOfWrong } from '../simulate/picture/look-closer.js';
import { type WorkerJob, answerParent } from './worker-port.js';

export interface PicturesJob extends WorkerJob {
  readonly design: Design;
  /** One visit, or so many of the most telling that went wrong. */
  readonly wanted: VisitChoice | number;
}

await answerParent(
  async ({ design, wanted }: PicturesJob, code): Promise<Picture[]> =>
    typeof wanted === 'number'
      ? picturesOfWrong(design, wanted, code?.outside)
      : [pictureOfVisit(design, wanted, code?.outside)],
);
