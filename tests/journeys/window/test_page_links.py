def test_a_click_on_each_page_link_leads_to_its_page(use, books):
    report = use("links:each_link_leads_to_its_page", *books("alder-hollow"))
    assert report["failures"] == []
    assert report["facts"] == {name: [name] for name in ("Tests", "Events", "Well", "Overview")}
