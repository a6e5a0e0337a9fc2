def test_two_files_dropped_at_once_are_looked_over_one_by_one_and_both_are_kept(use, books):
    report = use("dropping:two_lab_files", *books("alder-hollow"))
    assert report["failures"] == []
    assert report["facts"] == {"accepted": True, "kept": 2}


def test_a_window_takes_no_drop_while_a_dialog_waits(use, books):
    report = use("dropping:on_a_window_with_a_dialog", *books("alder-hollow"))
    assert report["failures"] == []
    assert report["facts"] == {"accepted": False, "open": ["Settings"]}
