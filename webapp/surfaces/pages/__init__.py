"""What the templates of surfaces and pictures receive."""

from webapp.surfaces.pages.behind import behind_page, choose_page
from webapp.surfaces.pages.belonging import CLOSES, WORKS, shot_page, task_page
from webapp.surfaces.pages.boxes import boxes_of, boxes_page
from webapp.surfaces.pages.drawing import drawing_page
from webapp.surfaces.pages.drawn import opening_page
from webapp.surfaces.pages.ground import tie_page
from webapp.surfaces.pages.line import line_page
from webapp.surfaces.pages.line_form import line_form_page
from webapp.surfaces.pages.lines import services_page
from webapp.surfaces.pages.making import ask_page, edit_page, item_page, question_page, slot_page
from webapp.surfaces.pages.opening_up import open_page
from webapp.surfaces.pages.panel import panel_page
from webapp.surfaces.pages.picture import picture_page
from webapp.surfaces.pages.pictures import View, pictures_page
from webapp.surfaces.pages.placing import Seen, placed_words
from webapp.surfaces.pages.printed import printed_page
from webapp.surfaces.pages.reading_off import proposal_of, read_page
from webapp.surfaces.pages.runs import Asked, run_page
from webapp.surfaces.pages.sending import after_sending, said_of
from webapp.surfaces.pages.shoot import shoot_page
from webapp.surfaces.pages.slots import offers_of, slots_page
from webapp.surfaces.pages.surface import surface_page
from webapp.surfaces.pages.taking import in_address, many_page, read_ids, surface_asked
from webapp.surfaces.pages.together import Asked as SetAsked
from webapp.surfaces.pages.together import (
    first_day,
    ids_asked,
    photos_of,
    set_page,
    shifted_words,
    slots_words,
    staged_words,
)

__all__ = [
    "CLOSES",
    "WORKS",
    "Asked",
    "Seen",
    "SetAsked",
    "View",
    "after_sending",
    "ask_page",
    "behind_page",
    "boxes_of",
    "boxes_page",
    "choose_page",
    "drawing_page",
    "edit_page",
    "first_day",
    "ids_asked",
    "in_address",
    "item_page",
    "line_form_page",
    "line_page",
    "many_page",
    "offers_of",
    "open_page",
    "opening_page",
    "panel_page",
    "photos_of",
    "picture_page",
    "pictures_page",
    "placed_words",
    "printed_page",
    "proposal_of",
    "question_page",
    "read_ids",
    "read_page",
    "run_page",
    "said_of",
    "services_page",
    "set_page",
    "shifted_words",
    "shoot_page",
    "shot_page",
    "slot_page",
    "slots_page",
    "slots_words",
    "staged_words",
    "surface_asked",
    "surface_page",
    "task_page",
    "tie_page",
]
