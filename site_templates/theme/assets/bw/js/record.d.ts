interface BwAttempt {
  readonly id: string;
  readonly edition: string;
  readonly lesson: string;
  readonly objective: string | null;
  readonly item: string;
  readonly ask: string;
  readonly problem: string;
  readonly key: string;
  readonly response: string;
  /** Null where nothing is graded. */
  readonly right: boolean | null;
  readonly slip: string | null;
  readonly hints: number;
  readonly frame: string;
  readonly timed: boolean;
  readonly digits_right: number;
  /** Time of this try alone: since the item was begun, or since the try before. */
  readonly seconds: number;
  readonly at: string;
}

interface BwLessonMark {
  readonly lesson: string;
  readonly finished: string | null;
  readonly minutes: number;
  /** Whether every objective was shown when the lesson's page was last worked. */
  readonly passed: boolean;
}

interface BwRating {
  readonly when: string;
  readonly item: string;
  readonly value: number;
  readonly of: number;
  readonly at: string;
}

interface BwPlace {
  readonly lesson: string;
  /** The item one was at; empty where it was none. */
  readonly item: string;
  /** The step of the item or of the worked example, from 1; null where it has none. */
  readonly step: number | null;
  /** The id of what to come back to in the lesson's page: an item, a step, a part. */
  readonly at: string;
  /** The problem that the item showed; empty where it has none. */
  readonly problem: string;
}

interface BwLearner {
  readonly id: string;
  readonly name: string;
  readonly role: string;
  readonly group: string;
  /** The id of the path that was taken; empty where it was none. */
  readonly path: string;
}

/** A learner's record of one course, in the shape of schema `beadwright/record/1`. */
interface BwRecord {
  readonly schema: string;
  readonly course: { readonly id: string };
  readonly saved: string;
  readonly learner: BwLearner;
  readonly attempts: readonly BwAttempt[];
  readonly lessons: readonly BwLessonMark[];
  readonly ratings: readonly BwRating[];
  readonly place: BwPlace | null;
}

type BwRecordFault = "broken" | "foreign" | "newer";

/** How one objective stands. */
interface BwStanding {
  readonly objective: string;
  readonly state: "open" | "short" | "met";
  readonly right: number;
  readonly of: number;
  readonly need: number;
  /** Items whose latest try does not show it. */
  readonly missing: readonly string[];
}

/** An objective: its id, its text, how many items show it. */
type BwCounted = readonly [string, string, number];

/** Work on records without a page or a storage. */
interface BwRecordCore {
  readonly schema: string;
  /** The greatest length of a text in a record, in signs. */
  readonly longest: number;
  start(course: string, learner: string): BwRecord;
  /** A record from untrusted data, or why it is none for this course. */
  read(data: unknown, course: string): BwRecord | BwRecordFault;
  /** One attempt, and who a learner is, from data of any kind: as `read` would read it back. */
  readAttempt(data: Readonly<Record<string, unknown>>): BwAttempt;
  readLearner(data: unknown): BwLearner;
  /** Both records as one; `added` counts the attempts that `mine` lacked. Nothing of either is lost. */
  merge(mine: BwRecord, other: BwRecord): { readonly record: BwRecord; readonly added: number };
  /** The latest graded try of each item of a lesson. */
  latest(record: BwRecord, lesson: string): Map<string, BwAttempt>;
  /** How each objective stands: the share of its items that are right at the latest try, beside the pass mark. */
  judge(
    record: BwRecord,
    lesson: string,
    items: readonly { readonly id: string; readonly objective: string | null }[],
    passMark: number,
  ): BwStanding[];
  /** The same where the items are not at hand: by what each objective asks for in this edition. */
  judgeCounted(record: BwRecord, lesson: string, counts: readonly BwCounted[], passMark: number): BwStanding[];
  /** A file name that tells whose record it is and when it was saved. */
  nameFile(pattern: string, course: string, name: string, nobody: string, at: Date): string;
}

/** What this device keeps for the course. */
interface BwStore {
  readonly record: BwRecord;
  /** Whether it is kept: `kept`, `refused` (no storage), `full`, `newer` (written by a newer edition). */
  readonly state: "kept" | "refused" | "full" | "newer";
  /** Read again, change, write; other tabs' changes stay. Gives whether it was kept. */
  update(change: (record: BwRecord) => BwRecord): boolean;
  addAttempt(attempt: Omit<BwAttempt, "id" | "at">, place: BwPlace): boolean;
  /** Keep where one is; gives whether it was kept. */
  keepPlace(place: BwPlace): boolean;
  addRatings(ratings: readonly Omit<BwRating, "at">[]): boolean;
  /** Merge another record into this device's; gives how many attempts were new, or null where there is no room for it and
   * nothing was changed. Where a browser keeps nothing at all, it is there for as long as the page is. */
  take(other: BwRecord): number | null;
  erase(): boolean;
  /** What was typed into an item and not yet checked; it survives a reload. */
  draft(item: string): Readonly<Record<string, unknown>>;
  keepDraft(item: string, draft: Readonly<Record<string, unknown>> | null): void;
  newId(): string;
}

interface BwLessonLink {
  readonly lesson: string;
  readonly title: string;
  readonly url: string;
  /** The paths that it is on: their ids with its place on each. */
  readonly paths: Readonly<Record<string, number>>;
}

interface Beadwright {
  recordCore: BwRecordCore;
  store: BwStore;
  recordFile: {
    /** Save the record by a download; gives the file's name. */
    save(): string;
    /** The record in a file, or why it is none for this course. */
    read(file: File): Promise<BwRecord | BwRecordFault | "big">;
  };
  /** The lessons of the course in order; none where a page was packed alone. */
  listLessons(): BwLessonLink[];
  /** `finished`, `passed`, `begun` or `open`. */
  stateOf(lesson: string): string;
  /** A line that says how an objective stands. */
  tellStanding(text: string, standing: BwStanding): HTMLLIElement;
  /** Whether this browser keeps a store of its own for each page opened from a folder. */
  isPerPage(): boolean;
}

interface DocumentEventMap {
  /** A step of a worked example has been gone to: its id and its number. */
  "bw-step": CustomEvent<{ readonly id: string; readonly step: number }>;
}

interface WindowEventMap {
  /** The record has changed, here or in another tab. */
  "bw-record": CustomEvent<null>;
}
