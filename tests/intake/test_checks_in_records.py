"""The lab's own checks beside results in JSON and XML. Common practice, no source."""

import json

import pytest

IRON = {"Iron": {"result": "0.88", "unit": "mg/L"}}
LEAD = {"Lead": {"result": "2", "unit": "ug/L"}}
BLANK = {"Iron": {"result": "<0.01", "unit": "mg/L"}}
KEYS = ["blank", "blanco", "control", "duplicate", "fieldDuplicate", "lab_qc", "matrix_spike",
        "methodBlank", "parallelproben", "qc", "replicates", "split_sample"]  # fmt: skip


def taken(draft):
    return [(r.name, r.reading.text) for one in draft.samples for r in one.sample.results]


def listed(records):
    return [{"analyte": name, **record} for name, record in records.items()]


@pytest.mark.parametrize("key", KEYS)
@pytest.mark.parametrize("is_first", [False, True])
@pytest.mark.parametrize("shape", [dict, listed], ids=["by name", "listed"])
def test_checks_of_the_lab_are_left_aside_with_the_reason(draft_of, key, is_first, shape):
    results = {"results": shape(IRON | LEAD)}
    checks = {key: shape(BLANK)}
    both = checks | results if is_first else results | checks
    draft = draft_of(json.dumps({"sample": {"collected_on": "2019-01-14"}, **both}), "a.json")
    assert taken(draft) == [("Iron", "0.88"), ("Lead", "2")]
    assert [(one.what, "own check" in one.why) for one in draft.not_taken] == [("<0.01", True)]


def test_a_duplicate_with_a_number_of_its_own_and_no_day_stops_nothing(draft_of):
    sample = {"sample_id": "A-1", "collected_on": "2019-01-14", "results": listed(IRON)}
    more = {"sample_id": "A-1D", "results": listed({"Iron": {"result": "0.91", "unit": "mg/L"}})}
    draft = draft_of(json.dumps({"samples": [{**sample, "field_duplicate": more}]}), "a.json")
    assert taken(draft) == [("Iron", "0.88")]
    assert [one.what for one in draft.not_taken] == ["0.91"]
    assert draft.stops == ()


@pytest.mark.parametrize("key", ["blank_result", "duplicate", "duplicate_result"])
def test_a_figure_of_a_check_beside_each_result_is_left_aside(draft_of, key):
    own = [{**one, key: "0.9"} for one in listed(IRON | LEAD)]
    text = json.dumps({"sample": {"collected_on": "2019-01-14"}, "results": own})
    draft = draft_of(text, "a.json")
    assert taken(draft) == [("Iron", "0.88"), ("Lead", "2")]
    assert all(one.is_aside for one in draft.not_taken)
    assert draft.not_taken


def test_one_parameter_alone_stands_under_its_name(draft_of):
    text = json.dumps({"sample": {"collected_on": "2019-01-14"}, "results": IRON})
    assert taken(draft_of(text, "a.json")) == [("Iron", "0.88")]
    samples = [{"collected_on": f"2019-01-{day}", "results": IRON} for day in (14, 15)]
    assert taken(draft_of(json.dumps({"samples": samples}), "a.json")) == [("Iron", "0.88")] * 2


def test_checks_within_a_group_of_checks_are_none_of_the_next_sample(draft_of):
    samples = [
        {
            "collected_on": f"2019-01-{day}",
            "qc": {"level": "II", "batch": listed(BLANK)},
            "results": listed(IRON),
        }
        for day in (14, 15)
    ]
    draft = draft_of(json.dumps({"samples": samples}), "a.json")
    assert taken(draft) == [("Iron", "0.88")] * 2
    assert [one.sample.collected.iso() for one in draft.samples] == ["2019-01-14", "2019-01-15"]


def result(name, value):
    return f"<Result><Analyte>{name}</Analyte><Value>{value}</Value><Units>mg/L</Units></Result>"


@pytest.mark.parametrize("opened", ["<MethodBlank>", '<Results type="Method Blank">', "<Blanco>"])
def test_elements_of_checks_are_left_aside(draft_of, opened):
    closed = f"</{opened[1:-1].split()[0]}>"
    own = result("Iron", "0.88") + result("Calcium", "40")
    draft = draft_of(
        f"<Report><DateCollected>2021-03-17</DateCollected><Results>{own}</Results>"
        f"{opened}{result('Iron', '&lt;0.01')}{result('Calcium', '&lt;1')}{closed}</Report>",
        "a.xml",
    )
    assert taken(draft) == [("Iron", "0.88"), ("Calcium", "40")]


@pytest.mark.parametrize("key", ["Bottle", "Code", "Id", "LabNumber", "Nr", "Number", "Nummer"])
def test_the_number_of_the_next_sample_is_no_result(draft_of, key):
    samples = "".join(
        f"<Sample><{key}>7{n}</{key}><DateCollected>202{n}-03-17</DateCollected>"
        f"<Results>{result('Iron', f'{n}.1')}{result('Calcium', '40')}</Results></Sample>"
        for n in (1, 2)
    )
    draft = draft_of(f"<Report>{samples}</Report>", "a.xml")
    assert taken(draft) == [("Iron", "1.1"), ("Calcium", "40"), ("Iron", "2.1"), ("Calcium", "40")]
    days = [one.sample.collected.iso() for one in draft.samples]
    assert days == ["2021-03-17", "2022-03-17"]
