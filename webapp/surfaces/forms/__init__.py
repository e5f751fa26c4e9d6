"""What is typed about surfaces and pictures."""

from webapp.surfaces.forms.behind import TAPPED, read_asked_spot, read_tap
from webapp.surfaces.forms.drawn import read_opening, read_run
from webapp.surfaces.forms.ends import Around
from webapp.surfaces.forms.lines import read_end, read_line_draft
from webapp.surfaces.forms.opening_up import OpenForm, read_open
from webapp.surfaces.forms.outside import ask_outside
from webapp.surfaces.forms.pictures import (
    PlaceForm,
    read_caption,
    read_pin,
    read_place,
    read_said,
    read_shows,
    read_taken,
)
from webapp.surfaces.forms.places import (
    read_count,
    read_item,
    read_new_surface,
    read_question,
    read_settle,
    read_slot,
    read_surface,
    read_why,
)
from webapp.surfaces.forms.placing import read_id, read_placed, read_spot
from webapp.surfaces.forms.reading_off import read_points, read_settled, row_count_of, spot_of, tapped_again
from webapp.surfaces.forms.slots import read_chosen
from webapp.surfaces.forms.ties import read_tie
from webapp.surfaces.forms.together import read_place_of_all, read_shift, read_ticked

__all__ = [
    "TAPPED",
    "Around",
    "OpenForm",
    "PlaceForm",
    "ask_outside",
    "read_asked_spot",
    "read_caption",
    "read_chosen",
    "read_count",
    "read_end",
    "read_id",
    "read_item",
    "read_line_draft",
    "read_new_surface",
    "read_open",
    "read_opening",
    "read_pin",
    "read_place",
    "read_place_of_all",
    "read_placed",
    "read_points",
    "read_question",
    "read_run",
    "read_said",
    "read_settle",
    "read_settled",
    "read_shift",
    "read_shows",
    "read_slot",
    "read_spot",
    "read_surface",
    "read_taken",
    "read_tap",
    "read_ticked",
    "read_tie",
    "read_why",
    "row_count_of",
    "spot_of",
    "tapped_again",
]
