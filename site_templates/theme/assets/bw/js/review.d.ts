/** An item as it stands for coming back; days as numbers on the learner's calendar. */
interface BwReviewed {
  /** The latest graded try. */
  readonly attempt: BwAttempt;
  /** How often in a row it was right when due. */
  readonly streak: number;
  /** When it was last asked to effect. */
  readonly day: number;
  readonly due: number;
}

/** When items come back, without a page or a storage. */
interface BwReviewCore {
  /** Every graded item of the attempts, given in order of time. */
  plan(attempts: readonly BwAttempt[], now: Date): BwReviewed[];
  /** Those due today or before, the longest due first. */
  listDue(attempts: readonly BwAttempt[], now: Date): BwReviewed[];
  /** Days until the next item that is not due yet comes back; null where there is none. */
  daysToNext(attempts: readonly BwAttempt[], now: Date): number | null;
}

interface Beadwright {
  reviewCore: BwReviewCore;
}
