"""Every rule by its name, in the order in which a reader learns them."""

from __future__ import annotations

from typing import TYPE_CHECKING

from benchleaf.checks.rules.autoignition.rule import RULE as AUTOIGNITION
from benchleaf.checks.rules.bad_quantity.rule import RULE as BAD_QUANTITY
from benchleaf.checks.rules.bath_damage.rule import RULE as BATH_DAMAGE
from benchleaf.checks.rules.battery_beside_heat.rule import RULE as BATTERY_BESIDE_HEAT
from benchleaf.checks.rules.charged_capacitor.rule import RULE as CHARGED_CAPACITOR
from benchleaf.checks.rules.contradicting_number.rule import RULE as CONTRADICTING_NUMBER
from benchleaf.checks.rules.crowded_warnings.rule import RULE as CROWDED_WARNINGS
from benchleaf.checks.rules.data_at_risk.rule import RULE as DATA_AT_RISK
from benchleaf.checks.rules.dead_end_check.rule import RULE as DEAD_END_CHECK
from benchleaf.checks.rules.duplicate_key.rule import RULE as DUPLICATE_KEY
from benchleaf.checks.rules.early_battery.rule import RULE as EARLY_BATTERY
from benchleaf.checks.rules.endless_route.rule import RULE as ENDLESS_ROUTE
from benchleaf.checks.rules.flammable_bath.rule import RULE as FLAMMABLE_BATH
from benchleaf.checks.rules.forced_bond.rule import RULE as FORCED_BOND
from benchleaf.checks.rules.harsh_profile.rule import RULE as HARSH_PROFILE
from benchleaf.checks.rules.hidden_character.rule import RULE as HIDDEN_CHARACTER
from benchleaf.checks.rules.hot_handling.rule import RULE as HOT_HANDLING
from benchleaf.checks.rules.listing_mismatch.rule import RULE as LISTING_MISMATCH
from benchleaf.checks.rules.live_board.rule import RULE as LIVE_BOARD
from benchleaf.checks.rules.live_ohms.rule import RULE as LIVE_OHMS
from benchleaf.checks.rules.long_screw.rule import RULE as LONG_SCREW
from benchleaf.checks.rules.long_sentence.rule import RULE as LONG_SENTENCE
from benchleaf.checks.rules.lopsided_closing.rule import RULE as LOPSIDED_CLOSING
from benchleaf.checks.rules.misread_value.rule import RULE as MISREAD_VALUE
from benchleaf.checks.rules.missing_field.rule import RULE as MISSING_FIELD
from benchleaf.checks.rules.missing_instruction.rule import RULE as MISSING_INSTRUCTION
from benchleaf.checks.rules.missing_picture.rule import RULE as MISSING_PICTURE
from benchleaf.checks.rules.missing_torque.rule import RULE as MISSING_TORQUE
from benchleaf.checks.rules.mixed_alloy.rule import RULE as MIXED_ALLOY
from benchleaf.checks.rules.never_powered_off.rule import RULE as NEVER_POWERED_OFF
from benchleaf.checks.rules.out_of_range_tool.rule import RULE as OUT_OF_RANGE_TOOL
from benchleaf.checks.rules.over_torque.rule import RULE as OVER_TORQUE
from benchleaf.checks.rules.overdue_review.rule import RULE as OVERDUE_REVIEW
from benchleaf.checks.rules.overheated_joint.rule import RULE as OVERHEATED_JOINT
from benchleaf.checks.rules.overheated_neighbour.rule import RULE as OVERHEATED_NEIGHBOUR
from benchleaf.checks.rules.overheated_part.rule import RULE as OVERHEATED_PART
from benchleaf.checks.rules.part_left_out.rule import RULE as PART_LEFT_OUT
from benchleaf.checks.rules.repeated_caution.rule import RULE as REPEATED_CAUTION
from benchleaf.checks.rules.reused_damaged_battery.rule import RULE as REUSED_DAMAGED_BATTERY
from benchleaf.checks.rules.reused_seal.rule import RULE as REUSED_SEAL
from benchleaf.checks.rules.several_instructions.rule import RULE as SEVERAL_INSTRUCTIONS
from benchleaf.checks.rules.solvent_attack.rule import RULE as SOLVENT_ATTACK
from benchleaf.checks.rules.solvent_beside_heat.rule import RULE as SOLVENT_BESIDE_HEAT
from benchleaf.checks.rules.swallowed_comment.rule import RULE as SWALLOWED_COMMENT
from benchleaf.checks.rules.unanswered_symptom.rule import RULE as UNANSWERED_SYMPTOM
from benchleaf.checks.rules.unbalanced_outcomes.rule import RULE as UNBALANCED_OUTCOMES
from benchleaf.checks.rules.unchecked_battery.rule import RULE as UNCHECKED_BATTERY
from benchleaf.checks.rules.unchecked_joint.rule import RULE as UNCHECKED_JOINT
from benchleaf.checks.rules.uncovered_variant.rule import RULE as UNCOVERED_VARIANT
from benchleaf.checks.rules.unexplained_allow.rule import RULE as UNEXPLAINED_ALLOW
from benchleaf.checks.rules.unfinished_handover.rule import RULE as UNFINISHED_HANDOVER
from benchleaf.checks.rules.unknown_field.rule import RULE as UNKNOWN_FIELD
from benchleaf.checks.rules.unknown_heat_limit.rule import RULE as UNKNOWN_HEAT_LIMIT
from benchleaf.checks.rules.unknown_neighbours.rule import RULE as UNKNOWN_NEIGHBOURS
from benchleaf.checks.rules.unknown_reference.rule import RULE as UNKNOWN_REFERENCE
from benchleaf.checks.rules.unmeasurable_value.rule import RULE as UNMEASURABLE_VALUE
from benchleaf.checks.rules.unmelted_solder.rule import RULE as UNMELTED_SOLDER
from benchleaf.checks.rules.unoriented_part.rule import RULE as UNORIENTED_PART
from benchleaf.checks.rules.unpaired_part.rule import RULE as UNPAIRED_PART
from benchleaf.checks.rules.unproven_repair.rule import RULE as UNPROVEN_REPAIR
from benchleaf.checks.rules.unproven_seal.rule import RULE as UNPROVEN_SEAL
from benchleaf.checks.rules.unreachable_procedure.rule import RULE as UNREACHABLE_PROCEDURE
from benchleaf.checks.rules.unreached_level.rule import RULE as UNREACHED_LEVEL
from benchleaf.checks.rules.unreadable_file.rule import RULE as UNREADABLE_FILE
from benchleaf.checks.rules.unready_power.rule import RULE as UNREADY_POWER
from benchleaf.checks.rules.unsafe_stop.rule import RULE as UNSAFE_STOP
from benchleaf.checks.rules.unsettable_torque.rule import RULE as UNSETTABLE_TORQUE
from benchleaf.checks.rules.unsupported_cause.rule import RULE as UNSUPPORTED_CAUSE
from benchleaf.checks.rules.untested_function.rule import RULE as UNTESTED_FUNCTION
from benchleaf.checks.rules.unused_allow.rule import RULE as UNUSED_ALLOW
from benchleaf.checks.rules.unvented_oven.rule import RULE as UNVENTED_OVEN
from benchleaf.checks.rules.vague_amount.rule import RULE as VAGUE_AMOUNT
from benchleaf.checks.rules.vapour_in_case.rule import RULE as VAPOUR_IN_CASE
from benchleaf.checks.rules.vapour_over_limit.rule import RULE as VAPOUR_OVER_LIMIT
from benchleaf.checks.rules.washed_evidence.rule import RULE as WASHED_EVIDENCE
from benchleaf.checks.rules.wet_ignition.rule import RULE as WET_IGNITION
from benchleaf.checks.rules.wrong_value.rule import RULE as WRONG_VALUE

if TYPE_CHECKING:
    from benchleaf.checks.rule import Rule

RULES: dict[str, Rule] = {
    rule.name: rule
    for rule in (
        UNREADABLE_FILE,
        DUPLICATE_KEY,
        MISREAD_VALUE,
        HIDDEN_CHARACTER,
        SWALLOWED_COMMENT,
        UNKNOWN_FIELD,
        MISSING_FIELD,
        WRONG_VALUE,
        BAD_QUANTITY,
        UNKNOWN_REFERENCE,
        UNANSWERED_SYMPTOM,
        UNREACHABLE_PROCEDURE,
        MISSING_PICTURE,
        LISTING_MISMATCH,
        ENDLESS_ROUTE,
        UNCOVERED_VARIANT,
        UNBALANCED_OUTCOMES,
        UNSUPPORTED_CAUSE,
        LIVE_BOARD,
        UNREADY_POWER,
        NEVER_POWERED_OFF,
        EARLY_BATTERY,
        UNCHECKED_BATTERY,
        REUSED_DAMAGED_BATTERY,
        BATTERY_BESIDE_HEAT,
        SOLVENT_BESIDE_HEAT,
        CHARGED_CAPACITOR,
        LIVE_OHMS,
        OVERHEATED_PART,
        OVERHEATED_JOINT,
        OVERHEATED_NEIGHBOUR,
        UNKNOWN_HEAT_LIMIT,
        UNKNOWN_NEIGHBOURS,
        OUT_OF_RANGE_TOOL,
        UNMELTED_SOLDER,
        HARSH_PROFILE,
        HOT_HANDLING,
        MIXED_ALLOY,
        WET_IGNITION,
        AUTOIGNITION,
        VAPOUR_OVER_LIMIT,
        VAPOUR_IN_CASE,
        FLAMMABLE_BATH,
        UNVENTED_OVEN,
        BATH_DAMAGE,
        SOLVENT_ATTACK,
        WASHED_EVIDENCE,
        OVER_TORQUE,
        UNSETTABLE_TORQUE,
        MISSING_TORQUE,
        LONG_SCREW,
        FORCED_BOND,
        PART_LEFT_OUT,
        REUSED_SEAL,
        UNPROVEN_SEAL,
        UNPAIRED_PART,
        UNORIENTED_PART,
        UNREACHED_LEVEL,
        LOPSIDED_CLOSING,
        UNFINISHED_HANDOVER,
        UNSAFE_STOP,
        UNCHECKED_JOINT,
        UNTESTED_FUNCTION,
        UNPROVEN_REPAIR,
        DEAD_END_CHECK,
        UNMEASURABLE_VALUE,
        DATA_AT_RISK,
        OVERDUE_REVIEW,
        LONG_SENTENCE,
        SEVERAL_INSTRUCTIONS,
        MISSING_INSTRUCTION,
        VAGUE_AMOUNT,
        CONTRADICTING_NUMBER,
        REPEATED_CAUTION,
        CROWDED_WARNINGS,
        UNEXPLAINED_ALLOW,
        UNUSED_ALLOW,
    )
}
