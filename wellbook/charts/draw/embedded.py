"""A drawing as an element of a web page: names of its own, no link to anything outside."""

from xml.etree.ElementTree import Element, SubElement, fromstring

_HREF = "{http://www.w3.org/1999/xlink}href"


def embedded(content: bytes, mark: str, said: str) -> Element:
    """The root of an SVG file that our own drawing made.

    Args:
        content: The file.
        mark: What each name in it begins with afterwards.
        said: What it shows, in words.
    """
    root = fromstring(content)  # noqa: S314  our own drawing
    for part in list(root):
        if part.tag.endswith("}metadata"):
            root.remove(part)
    for part in root.iter():
        part.tag = part.tag.partition("}")[2] or part.tag
        if _HREF in part.attrib:
            part.set("href", part.attrib.pop(_HREF))
        for key, value in part.attrib.items():
            part.set(key, _renamed(key, value, mark))
    for key in ("width", "height", "version"):
        root.attrib.pop(key, None)
    root.set("role", "img")
    root.set("aria-labelledby", f"{mark}title")
    title = SubElement(root, "title", {"id": f"{mark}title"})
    title.text = said
    root.remove(title)
    root.insert(0, title)
    return root


def _renamed(key: str, value: str, mark: str) -> str:
    if key == "id":
        return f"{mark}{value}"
    if key == "href" and value.startswith("#"):
        return f"#{mark}{value[1:]}"
    return value.replace("url(#", f"url(#{mark}")
