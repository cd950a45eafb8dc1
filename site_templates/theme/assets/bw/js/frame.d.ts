/** One column's beads: how many upper and how many lower ones are set. */
type BwColumnBeads = readonly [upper: number, lower: number];

/** What the page says about a frame to work: its kind, what is set at first, and the words of its columns and digits. */
interface BwFrameData {
  readonly upper: number;
  readonly lower: number;
  /** Columns with a unit mark on their left side, counted from the right. */
  readonly marks: readonly number[];
  /** Leftmost column first. */
  readonly beads: readonly BwColumnBeads[];
  /** The name of each column's place, from column 1 (the rightmost) up. */
  readonly places: readonly string[];
  /** What is said of each digit, 0 to 9. */
  readonly values: readonly string[];
}

/** A frame that a learner works. Dispatches `bw-change` (it bubbles) when the learner has moved beads. */
interface BwFrame extends HTMLElement {
  /** What is set, leftmost column first; setting it moves the beads without an event. */
  beads: readonly BwColumnBeads[];
  /** Whether the beads are held as they are: they can be read, not moved. */
  frozen: boolean;
}

/** A walkthrough's stepper. */
interface BwStepper extends HTMLElement {
  /** The number of the step shown. */
  readonly step: number;
  /** Show one step, and say it. */
  show(step: number): void;
}

interface HTMLElementTagNameMap {
  "bw-frame": BwFrame;
  "bw-stepper": BwStepper;
}

interface HTMLElementEventMap {
  "bw-change": CustomEvent<{ readonly beads: readonly BwColumnBeads[] }>;
}
