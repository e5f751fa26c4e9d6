"""What the builder does with surfaces."""

from webapp.surfaces.actions.asking import ask_question, reopen_question, settle_question
from webapp.surfaces.actions.backing import say_other_face
from webapp.surfaces.actions.belonging import set_shot_surfaces, set_task_surfaces
from webapp.surfaces.actions.counting import count_again
from webapp.surfaces.actions.covering import correct_cover_day, end_let_go, let_go, mark_covered, open_again
from webapp.surfaces.actions.drawn import (
    OpeningDraft,
    RunDraft,
    add_opening,
    add_run,
    edit_opening,
    edit_run,
    points_text,
    remove_opening,
    replace_run,
    return_opening,
)
from webapp.surfaces.actions.lines import LineDraft, add_line, edit_line, end_line, move_line, use_line
from webapp.surfaces.actions.making import (
    ItemDraft,
    SurfaceDraft,
    add_item,
    add_slot,
    add_surface,
    count_boxes,
    edit_item,
    edit_surface,
    move_item,
    retake,
)
from webapp.surfaces.actions.mistaken import Covering, Step, cover_by_mistake, take_step
from webapp.surfaces.actions.offering import Chosen, owe_after_all, take_up
from webapp.surfaces.actions.opening_up import open_with_work
from webapp.surfaces.actions.picturing import (
    Staged,
    TakenIn,
    empty_slot,
    fill_slot,
    pin_picture,
    place_picture,
    say_stage,
    take_in,
    take_out,
)
from webapp.surfaces.actions.reading_off import PointDraft, become, keep_points, take_off
from webapp.surfaces.actions.round import FIRST, move_surface, put_after
from webapp.surfaces.actions.ties import TieDraft, add_tie, edit_tie, remove_tie, return_tie

__all__ = [
    "FIRST",
    "Chosen",
    "Covering",
    "ItemDraft",
    "LineDraft",
    "OpeningDraft",
    "PointDraft",
    "RunDraft",
    "Staged",
    "Step",
    "SurfaceDraft",
    "TakenIn",
    "TieDraft",
    "add_item",
    "add_line",
    "add_opening",
    "add_run",
    "add_slot",
    "add_surface",
    "add_tie",
    "ask_question",
    "become",
    "correct_cover_day",
    "count_again",
    "count_boxes",
    "cover_by_mistake",
    "edit_item",
    "edit_line",
    "edit_opening",
    "edit_run",
    "edit_surface",
    "edit_tie",
    "empty_slot",
    "end_let_go",
    "end_line",
    "fill_slot",
    "keep_points",
    "let_go",
    "mark_covered",
    "move_item",
    "move_line",
    "move_surface",
    "open_again",
    "open_with_work",
    "owe_after_all",
    "pin_picture",
    "place_picture",
    "points_text",
    "put_after",
    "remove_opening",
    "remove_tie",
    "reopen_question",
    "replace_run",
    "retake",
    "return_opening",
    "return_tie",
    "say_other_face",
    "say_stage",
    "set_shot_surfaces",
    "set_task_surfaces",
    "settle_question",
    "take_in",
    "take_off",
    "take_out",
    "take_step",
    "take_up",
    "use_line",
]
