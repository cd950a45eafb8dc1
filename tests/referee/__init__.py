"""An independent referee for walkthroughs. It shares no code with the engine and knows the trade's rules by itself.

`check_data` judges a walkthrough's plain data (schema `beadwright/walkthrough/1`), `check_seen` the same facts taken
from elsewhere, `check_slipped` a worked example with a slip. What does not hold raises `RuleError`.

To judge another kind of problem, add a module like `sums.py` and register it in `judge.KINDS`.
"""

from tests.referee.beads import RuleError
from tests.referee.fractions import find_missing_for_fractions
from tests.referee.judge import check_data, check_seen, check_slipped
from tests.referee.needs import Needs, find_needs
from tests.referee.products import find_missing_for_product
from tests.referee.quotients import find_missing_for_quotient
from tests.referee.roots import find_missing_for_root
from tests.referee.seen import Seen, SeenStep, see_data, see_value
from tests.referee.sums import Refusal, find_refusal, judge_sum

__all__ = [
    "Needs",
    "Refusal",
    "RuleError",
    "Seen",
    "SeenStep",
    "check_data",
    "check_seen",
    "check_slipped",
    "find_missing_for_fractions",
    "find_missing_for_product",
    "find_missing_for_quotient",
    "find_missing_for_root",
    "find_needs",
    "find_refusal",
    "judge_sum",
    "see_data",
    "see_value",
]
