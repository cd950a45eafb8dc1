/** The signs of a language's numbers. */
interface BwSigns {
  readonly marker: string;
  readonly grouping: string;
}

/** A cause of a wrong answer: the slip, the column (from the right) and the step (none: in reading). */
interface BwCause {
  readonly slip: string;
  readonly column: number;
  readonly step: number | null;
  readonly say: string;
  readonly weight: number;
}

/** Places of causes in the page's list by wrong answer, the likeliest first. */
type BwSlips = Readonly<Record<string, readonly number[]>>;

interface BwKey {
  readonly text?: string;
  readonly accept?: "value" | "form";
  readonly form?: "number" | "remainder" | "fraction";
  readonly beads?: readonly (readonly [number, number])[];
  readonly steps?: readonly (readonly string[])[];
  readonly step?: number;
  readonly slip?: string;
  readonly options?: readonly string[];
}

/** The end of one digit: what the whole frame reads then. */
interface BwCheck {
  readonly step: number;
  readonly reads: string;
  readonly slips: BwSlips;
  readonly hints?: readonly string[];
}

interface BwOption {
  readonly id: string;
  readonly text: string;
  readonly because?: string;
}

/** One entry of an item's pool, as the page's data has it. */
interface BwEntry {
  readonly problem?: string;
  readonly prompt: string;
  readonly say?: string;
  readonly said?: readonly string[];
  readonly parts?: Readonly<Record<string, string>>;
  readonly key: BwKey | null;
  readonly shown_key?: string;
  readonly slips?: BwSlips;
  readonly hints?: readonly string[];
  readonly walkthrough?: string;
  readonly other?: { readonly say: string; readonly shown: string; readonly walkthrough: string };
  readonly at?: number;
  readonly order?: string;
  readonly beads?: readonly (readonly [number, number])[];
  readonly options?: readonly BwOption[];
  readonly steps?: readonly number[];
  /** Places of what the frame shows after each step, and the beads of the columns drawn then. */
  readonly readings?: readonly number[];
  readonly after?: readonly (readonly (readonly [number, number])[])[];
  readonly checks?: readonly BwCheck[];
  readonly lowest?: number;
  readonly places?: number;
  readonly ones?: number;
  readonly wrong?: string;
  readonly sounds?: readonly string[];
  readonly coach?: string;
  readonly model?: string | null;
  readonly when?: string;
  readonly items?: readonly string[];
  readonly of?: number;
}

/** What is found about a typed or read answer. */
interface BwVerdict {
  /** Null where the answer could not be read as a number; it is then no attempt. */
  readonly right: boolean | null;
  /** The answer in normal form. */
  readonly normal: string | null;
  /** The value is right and only the form is not the one asked for. */
  readonly form_only: boolean;
  /** Places of the causes in the page's list, the likeliest first. */
  readonly causes: readonly number[];
  /** Two causes that together give the answer, where no single one does. */
  readonly two: readonly number[];
  /** How many digits of the key are right in their places. */
  readonly digits_right: number;
  /** Powers of ten whose digits are wrong, highest first. */
  readonly wrong_powers: readonly number[];
}

interface BwGrading {
  /** A typed answer in its one normal form: `85`, `0.5`, `41 r 11`, `1 7/8`; null where it is no number. */
  normalise(text: string, signs?: BwSigns): string | null;
  /** Whether two normal forms have the same value. */
  sameValue(first: string, second: string): boolean;
  judgeAnswer(entry: BwEntry, response: string, causes: readonly BwCause[], signs?: BwSigns): BwVerdict;
  /** Moves or options chosen, in any order. `missing` and `extra` count them. */
  judgeChosen(entry: BwEntry, chosen: readonly string[]): {
    readonly right: boolean;
    readonly causes: readonly number[];
    readonly missing: number;
    readonly extra: number;
  };
  /** Lines in their order; `at` is the first wrong place from 1, 0 where all is right; `rule` names the rule broken. */
  judgeOrder(entry: BwEntry, order: readonly string[]): {
    readonly right: boolean;
    readonly at: number;
    readonly rule: "upper" | "column" | null;
  };
  judgeStep(entry: BwEntry, step: number): { readonly right: boolean; readonly way: "right" | "early" | "late" };
  /** What a frame that reads `reads` shows after `done` checks: a later check reached, nothing moved, or a slip. */
  judgeCheck(entry: BwEntry, done: number, reads: string): {
    readonly state: "right" | "unmoved" | "wrong";
    readonly done: number;
    readonly causes: readonly number[];
  };
  /** What the whole frame reads, column 1 being the ones. */
  readFrame(beads: readonly (readonly [number, number])[]): string;
  /** The number that stands on a frame, its last place in column `lowest`; further places where beads stand below it. */
  readNumber(beads: readonly (readonly [number, number])[], lowest: number, places: number): string;
}

interface Beadwright {
  grading: BwGrading;
}
