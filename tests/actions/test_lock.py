"""One server at a time on a data folder."""

import pytest

from webapp.core import lock
from webapp.values.errors import BadInput


def test_a_second_one_on_the_same_folder_is_refused_with_a_sentence(tmp_path):
    refused = pytest.raises(BadInput, match=r"running on the folder .* already \(process \d+\)")
    with lock.held(tmp_path), refused, lock.held(tmp_path):
        pass


def test_another_folder_is_free(tmp_path):
    with lock.held(tmp_path / "one"), lock.held(tmp_path / "two"):
        pass


def test_the_lock_is_let_go_at_the_end_also_after_a_fault(tmp_path):
    with pytest.raises(RuntimeError), lock.held(tmp_path):
        raise RuntimeError("power")
    with lock.held(tmp_path):
        pass
