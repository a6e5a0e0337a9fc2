"""A scan and a photo of a report get into the book, with the extra that reads them or without."""

from importlib.util import find_spec

import pytest

pytestmark = pytest.mark.timeout(600)


@pytest.mark.skipif(find_spec("rapidocr") is None, reason="the extra that reads pictures")
def test_a_scan_and_a_photo_are_read_decided_by_keys_and_kept(use, books):
    report = use("scanning:read_and_kept", *books("first-year"))
    assert report["failures"] == []
    assert report["facts"] == {
        "stopped": "Stopped; not read: scan.pdf.",
        ".pdf kept unseen": False,
        ".jpg kept unseen": False,
        "kept": 2,
    }


def test_without_the_extra_it_is_named_and_a_photo_is_typed_from_beside_its_page(use, books):
    report = use("scanning:typed_beside_it", *books("first-year"))
    assert report["failures"] == []
    facts = report["facts"]
    assert "No table can be read from photo.png" in facts["said"]
    assert "the extra wellbook[scans] is needed" in facts["said"]
    assert facts["page"]
    assert facts["kept"] == 1
